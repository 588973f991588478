package rehearse

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/ui/engine"
)

// The invented vat that a rehearsal keeps for three months: built, dyed in, looked at each week, tired and put right, left
// alone for a month and woken, fed, used up and ended. When its days come and what is dyed on them stands in the table
// below, all of it made up. What the dyer finds, and so what is done, comes from the reckoning of its liquor.

const keptName = "Kept bin"

// keptFill is the fill that the table's goods and heater are for; another takes as much more or less.
const keptFill = quantity.Volume(60)

// keptKind is what a day of the kept vat is for.
type keptKind int

const (
	keptDye  keptKind = iota // built or put right, then dyed in if there are goods
	keptLook                 // read, and put right only where the strip is weak
	keptEnd                  // led to its end
)

// keptDay is one day of the kept vat.
type keptDay struct {
	after int     // days since it was built
	hour  int     // at which it begins
	air   float64 // °C in the yard
	kind  keptKind
	sunk  float64 // litres by which it has sunk since it was last topped up
	goods []day.AddPiece
}

// good is one piece of the table.
func good(tag, what, fibre string, grams float64, depth string) day.AddPiece {
	return day.AddPiece{Tag: tag, Spec: day.PieceSpec{What: what, Fibre: fibre, Dry: quantity.Grams(grams), Depth: depth}}
}

var keptDays = []keptDay{
	{after: 0, hour: 8, air: 9, kind: keptDye, goods: []day.AddPiece{
		good("A1", "runner", "linen", 420, "mid"), good("A2", "napkins", "cotton", 310, "sky"), good("A3", "scarf", "cotton", 90, "pale")}},
	{after: 4, hour: 8, air: 8, kind: keptDye, goods: []day.AddPiece{
		good("B1", "shirt", "linen", 380, "mid"), good("B2", "curtain", "cotton", 540, "sky")}},
	{after: 11, hour: 17, air: 10, kind: keptLook, sunk: 1},
	{after: 15, hour: 8, air: 12, kind: keptDye, goods: []day.AddPiece{
		good("C1", "tablecloth", "linen", 620, "mid"), good("C2", "band", "hemp", 120, "sky"), good("C3", "pouches", "cotton", 150, "pale")}},
	{after: 22, hour: 16, air: 11, kind: keptLook},
	{after: 31, hour: 16, air: 12, kind: keptLook, sunk: 2},
	{after: 36, hour: 8, air: 14, kind: keptDye, goods: []day.AddPiece{
		good("D1", "smock", "linen", 480, "mid"), good("D2", "cushions", "cotton", 420, "sky"), good("D3", "ribbons", "viscose", 60, "pale")}},
	{after: 43, hour: 16, air: 13, kind: keptLook},
	{after: 71, hour: 9, air: 16, kind: keptDye, sunk: 3}, // left alone for four weeks
	{after: 74, hour: 8, air: 17, kind: keptDye, goods: []day.AddPiece{
		good("E1", "blanket cover", "linen", 680, "mid"), good("E2", "apron", "cotton", 340, "mid"), good("E3", "towels", "cotton", 520, "sky")}},
	{after: 78, hour: 8, air: 18, kind: keptDye, goods: []day.AddPiece{
		good("F1", "bed linen", "linen", 1150, "sky"), good("F2", "tea towels", "cotton", 900, "sky")}},
	{after: 83, hour: 17, air: 18, kind: keptLook, sunk: 1},
	{after: 85, hour: 8, air: 18, kind: keptDye, goods: []day.AddPiece{
		good("G1", "sheet", "linen", 600, "pale"), good("G2", "shirts", "cotton", 420, "pale"), good("G3", "rags for paper", "cotton", 500, "milk")}},
	{after: 88, hour: 9, air: 19, kind: keptEnd},
	{after: 89, hour: 9, air: 19, kind: keptEnd},
}

// KeptHead is the first day of the vat that a rehearsal keeps, and the instant at which it begins on a date. Its vessel,
// its heater and its goods are those of a fill of 60 L, as much larger or smaller as the fill is; vats of 20 to 200 L are
// kept so.
func KeptHead(r recipe.Recipe, fill quantity.Volume, date time.Time) (day.Head, time.Time, error) {
	if !(fill >= quantity.Litres(20) && fill <= quantity.Litres(200)) {
		return day.Head{}, time.Time{}, fmt.Errorf("a vat of 20 to 200 L is kept in a rehearsal, not one of %s", fill)
	}
	h := Head(r, date)
	h.Setup.Name, h.Setup.Fill, h.Opening.Number = keptName, fill, 1
	by := float64(fill / keptFill)
	side := func(cm float64) float64 { return math.Round(cm*math.Cbrt(by)*10) / 10 }
	h.Setup.Vessel = fmt.Sprintf("frustum %g cm %g cm %g cm", side(36), side(44), side(62))
	h.Setup.Heater = quantity.Watts(math.Round(10*by) * 100)
	h, at := keptOn(h, date)
	return h, at, nil
}

// KeptAfter is the day after one that is closed, with what it takes over still to be filled in but for its number; false
// after the last.
func KeptAfter(s day.State) (day.Head, time.Time, bool) {
	before, ok := keptRow(s.Head)
	n := s.Head.Opening.Number
	if !ok || s.Ended || n >= len(keptDays) {
		return day.Head{}, time.Time{}, false
	}
	h := s.Head
	h.Opening = day.Opening{Number: n + 1}
	h, at := keptOn(h, engine.Morning(s.Head).AddDate(0, 0, keptDays[n].after-before.after))
	return h, at, true
}

// keptOn puts a kept day on its date.
func keptOn(h day.Head, date time.Time) (day.Head, time.Time) {
	row, _ := keptRow(h)
	air := quantity.Celsius(row.air)
	h.Day = date.Format(time.DateOnly)
	h.Setup.Air, h.Setup.Ending = &air, row.kind == keptEnd
	y, m, d := date.Date()
	return h, time.Date(y, m, d, row.hour, 0, 0, 0, date.Location())
}

// keptRow is the day's line of the table, for its fill; false for any other rehearsed vat.
func keptRow(h day.Head) (keptDay, bool) {
	n := h.Opening.Number
	if !h.Rehearsed || h.Setup.Name != keptName || n < 1 || n > len(keptDays) {
		return keptDay{}, false
	}
	row := keptDays[n-1]
	by := float64(h.Setup.Fill / keptFill)
	row.sunk *= by
	row.goods = slices.Clone(row.goods)
	for i := range row.goods {
		g := &row.goods[i].Spec.Dry
		*g = quantity.Grams(math.Round(g.Grams()*by/5) * 5)
	}
	return row, true
}

// pieces are the goods of the day, and before them the fixed two-minute swatch that each day of dyeing gives.
func (k keptDay) pieces(number int) []day.AddPiece {
	if k.kind != keptDye {
		return nil
	}
	swatch := day.AddPiece{Tag: fmt.Sprintf("S%d", number), Spec: day.PieceSpec{
		What: "two-minute swatch", Fibre: "cotton", Dry: quantity.Grams(5), Dips: 1, Form: "ladder", Dip: quantity.Minutes(2)}}
	return append([]day.AddPiece{swatch}, k.goods...)
}
