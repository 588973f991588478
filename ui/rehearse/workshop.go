package rehearse

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// The invented workshop of a rehearsal: sixteen people at two vats that were built the day before, a piece each, a helper at each vat.
// One comes 20 min late, one leaves early, and one piece is ruined. All of it is made up.

// WorkshopVats are the names of its vats.
var WorkshopVats = []string{"North vat", "South vat"}

// atEach is how many people dye at each vat.
const atEach = 8

// What goes otherwise than it was thought.
const (
	lateComer = "P16"
	leaver    = "P7"
	ruined    = "P5" // after its first dip
)

// How long after its vat's first dip the one who is late comes, and how long after the opening the one who leaves goes.
const (
	comesAfter  = 20 * time.Minute
	leavesAfter = 90 * time.Minute
)

// WorkshopHead is the day of one of its vats, from 0, as it is set up.
func WorkshopHead(r recipe.Recipe, begin time.Time, vat int) day.Head {
	h := Head(r, begin)
	h.Setup.Name, h.Setup.Fill, h.Setup.Vessel = WorkshopVats[vat], quantity.Litres(120), "cylinder 50 cm 75 cm"
	h.Opening = day.Opening{Number: 2, Built: true, Cover: true, Temp: &r.Liquor.Aim}
	return h
}

// workshop is which vat of a workshop it is, from 0; -1 for another day.
func (d dyerOf) workshop() int { return slices.Index(WorkshopVats, d.s.Head.Setup.Name) }

// workshopPieces are those of a vat's people: small goods of cotton and linen, from sky to dark.
func (d dyerOf) workshopPieces(vat int) []day.AddPiece {
	var out []day.AddPiece
	whats := []string{"scarf", "napkin", "bag", "cushion", "shirt", "band"}
	depths := []string{"mid", "sky", "dark", "sky", "mid", "sky"}
	for i := vat * atEach; i < (vat+1)*atEach; i++ {
		add := day.AddPiece{Tag: fmt.Sprint("P", i+1), Spec: day.PieceSpec{
			What: whats[i%len(whats)], Fibre: []string{"cotton", "linen"}[i%2], Dry: quantity.Grams(float64(80 + 35*(i%5))), Depth: depths[(i*5)%len(depths)],
			Work: "hung", Who: fmt.Sprint("person ", i+1),
		}}
		if add.Tag == leaver {
			add.Spec.Till = day.Clock(d.s.Opened.Add(leavesAfter))
		}
		out = append(out, add)
	}
	return out
}

// pieces are those of the day that is rehearsed.
func (d dyerOf) pieces() []day.AddPiece {
	if row, ok := keptRow(d.s.Head); ok {
		return row.pieces(d.s.Head.Opening.Number)
	}
	if vat := d.workshop(); vat >= 0 {
		return d.workshopPieces(vat)
	}
	return wording.Either(forWool(d.s.Head.Recipe), warmPieces, rehearsedPieces)
}

// early are those that are there from the beginning.
func (d dyerOf) early() []day.AddPiece {
	return slices.DeleteFunc(d.pieces(), func(a day.AddPiece) bool { return d.workshop() >= 0 && a.Tag == lateComer })
}

// teaches is what the teacher of a workshop says between the calls: who comes, how many hands there are, that the calls are heard, whose
// piece is torn. It is false where there is nothing to say.
func (d dyerOf) teaches(now time.Time) (day.Command, bool) {
	if d.workshop() < 0 {
		return nil, false
	}
	list, n := d.early(), len(d.s.Pieces)
	if n < len(list) {
		return list[n], true
	}
	switch {
	case d.s.AsksHands():
		return day.Record{Body: day.HandsTold{Hands: 1}}, true
	case day.AsksSound(d.s):
		return day.Record{Body: day.SoundChecked{Heard: true}}, true
	}
	if p, ok := d.s.Piece(ruined); ok && p.Live() && p.Dips == 1 && p.Want() > 1 && p.Phase != day.InVat {
		return day.Record{Body: day.PieceDropped{OfPiece: day.OfPiece{Tag: ruined}, Reason: "torn"}}, true
	}
	all := d.pieces()
	for _, e := range d.s.Log {
		if _, is := e.Body.(day.DipBegun); is && n < len(all) {
			return all[n], now.Sub(e.At) >= comesAfter
		}
	}
	return nil, false
}
