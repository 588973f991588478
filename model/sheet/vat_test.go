package sheet_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sheet"
)

func stripOf(seconds float64) day.Body { return day.StripTest{Stayed: quantity.Seconds(seconds)} }

func readOf(temp quantity.Temperature, ph float64) day.Body { return day.Reading{Temp: &temp, PH: &ph} }

// tendedOn is a closed day so many days after the first, ten minutes from one act to the next.
func tendedOn(t *testing.T, days int, bodies ...day.Body) sheet.Day {
	t.Helper()
	at := morning.AddDate(0, 0, days)
	return tended(t, at.Format(time.DateOnly), at, nil, append(bodies, day.Closed{})...)
}

// plotOf is the plot of a sheet; nil where it has none.
func plotOf(s sheet.Sheet) *sheet.Plot {
	for _, b := range s.Blocks {
		if p, ok := b.(sheet.Plot); ok {
			return &p
		}
	}
	return nil
}

// heads are the headings of a sheet.
func heads(s sheet.Sheet) (out []string) {
	for _, b := range s.Blocks {
		if h, ok := b.(sheet.Heading); ok {
			out = append(out, h.Text)
		}
	}
	return out
}

// What came in as water and went as liquor stands among what was given, and in one sum a day.
func TestWaterInAndLiquorOut(t *testing.T) {
	d := tendedOn(t, 0, day.ToppedUp{Water: 2, Temp: 12}, day.DrawnOff{Liquor: 3, Why: "for a friend"}, day.Decanted{Liquor: 4})
	given := part(sheet.OfDay(d, morning.AddDate(0, 0, 20)), "Given")
	if given == nil || len(given.Rows) != 3 {
		t.Fatalf("%+v", given)
	}
	for i, want := range [][]string{{"2 L water at 12 °C", "topped up"}, {"3 L drawn off", "for a friend"}, {"4 L drawn off", ""}} {
		if row := rowOf(given.Rows[i]); !slices.Equal(row[1:3], want) {
			t.Errorf("%q, want %q", row, want)
		}
	}
	days := []sheet.Day{d}
	for n := range 12 {
		days = append(days, tendedOn(t, n+1, stripOf(30), stripOf(30), stripOf(30), stripOf(30), stripOf(30)))
	}
	if table := part(sheet.OfVat(days, morning.AddDate(0, 0, 20), false), "Days"); table == nil || rowOf(table.Rows[0])[4] != "2 L water, 7 L drawn off" {
		t.Errorf("%+v", table)
	}
}

// A long life has its days with the first and the last strip and the sums of what was given, and no row a reading; --full has
// them all; and a short one always has.
func TestALongLife(t *testing.T) {
	dose := func(grams float64) day.Body {
		return day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: quantity.Grams(grams), Why: "weak"}
	}
	soda := day.PowderAdded{Powder: "soda", Material: "soda ash", Mass: 60}
	var days []sheet.Day
	for n := range 6 {
		days = append(days, tendedOn(t, n*7, readOf(14, 9.8), stripOf(7), dose(15), soda, dose(15), day.ToppedUp{Water: 2}, readOf(35.5, 10.1), stripOf(12), stripOf(41)))
	}
	days = append(days, tendedOn(t, 50, stripOf(30)), tendedOn(t, 57, stripOf(30), stripOf(30)), tendedOn(t, 64, readOf(12, 10)))
	now := morning.AddDate(0, 0, 70)
	brief := sheet.OfVat(days, now, false)
	if part(brief, "Read") != nil || part(brief, "Given") != nil {
		t.Errorf("each of 57 rows stands on it: %q", heads(brief))
	}
	table := part(brief, "Days")
	if table == nil || len(table.Rows) != len(days) {
		t.Fatalf("%+v", table)
	}
	if row := rowOf(table.Rows[0]); !slices.Equal(row[:5], []string{"2026-05-09", "tended", "9.8 to 10.1", "7 → 41 s", "30 g sodium dithionite, 60 g soda ash, 2 L water"}) {
		t.Errorf("%q", row)
	}
	for i, want := range map[int]string{6: "30 s", 7: "30 s", 8: ""} {
		if row := rowOf(table.Rows[i]); row[3] != want || row[4] != "" {
			t.Errorf("day %d: %q", i+1, row)
		}
	}
	said := false
	for _, b := range brief.Blocks {
		p, ok := b.(sheet.Paragraph)
		said = said || ok && strings.Contains(p.Text, "Each reading (34) and all that was given (24): vatside sheet bin --what vat --full")
	}
	if !said {
		t.Error("it is not said where each reading stands")
	}
	full := sheet.OfVat(days, now, true)
	if read, gave := part(full, "Read"), part(full, "Given"); read == nil || gave == nil || len(read.Rows) != 34 || len(gave.Rows) != 24 {
		t.Errorf("%q", heads(full))
	}
	if short := sheet.OfVat(days[:2], now, false); part(short, "Read") == nil || part(short, "Given") == nil {
		t.Errorf("%q", heads(short))
	}
}

// Each reading of the vat is a point, none of the stock jar is; the axes hold all of them; what was read once is left out.
func TestPlot(t *testing.T) {
	jar := quantity.Temperature(60)
	swatch := func(tag, looks string) []day.Body {
		return slices.Concat([]day.Body{piece(tag, day.PieceSpec{Fibre: "cotton", Dry: 5, Dips: 1})}, dip(tag, 1),
			[]day.Body{day.SwatchJudged{Swatch: tag, Looks: looks, Dips: 1}})
	}
	days := []sheet.Day{
		tendedOn(t, 0, slices.Concat([]day.Body{readOf(8, 10.8), readOf(35.5, 10.6), stripOf(12)}, swatch("S1", "lab 60 -5 -15"))...),
		tendedOn(t, 40, slices.Concat([]day.Body{day.Reading{Of: "stock", Temp: &jar}, readOf(37, 9.9)}, swatch("S2", "pale"))...),
	}
	p := plotOf(sheet.OfVat(days, morning.AddDate(0, 0, 50), false))
	if p == nil || len(p.Series) != 3 {
		t.Fatalf("%+v", p)
	}
	for i, want := range []struct {
		name, least, most, last, works string
		shape                          sheet.Shape
		low, high                      sheet.Level
		points                         int
	}{
		{"warmth", "8 °C", "37 °C", "37 °C", "30 to 40 °C", sheet.Circle, 0, 40, 3},
		{"pH", "9.9", "10.8", "9.9", "10 to 11.5", sheet.Diamond, 9.5, 11, 3},
		{"swatch of 1 dip", "", "", "", "", sheet.Square, 0, 0, 2},
	} {
		s := p.Series[i]
		if s.Name != want.name || s.Shape != want.shape || s.Range != want.works || len(s.Points) != want.points {
			t.Errorf("%+v", s)
		}
		if want.least != "" && (s.Least != want.least || s.Most != want.most || s.Last != want.last || s.Low != want.low || s.High != want.high) {
			t.Errorf("%s: %s to %s, last %s, on an axis from %v to %v", s.Name, s.Least, s.Most, s.Last, s.Low, s.High)
		}
		if s.Scale[0].Level != s.Low || s.Scale[len(s.Scale)-1].Level != s.High {
			t.Errorf("%s: the scale %v is not that of %v to %v", s.Name, s.Scale, s.Low, s.High)
		}
		for _, q := range s.Points {
			if q.Level < s.Low || q.Level > s.High || q.At.Before(p.From) || q.At.After(p.Till) || q.Words == "" {
				t.Errorf("%s: off the axis: %+v", s.Name, q)
			}
		}
	}
	sw := p.Series[2].Points
	if sw[0].Known != outlook.Measured || sw[1].Known != outlook.Guessed || len(sw[0].Hex) != 7 || sw[0].Hex == sw[1].Hex || !(sw[0].Level > 0) {
		t.Errorf("%+v", sw)
	}
	for i := range days {
		days[i].State.Head.Setup.Units = "us"
	}
	if us := plotOf(sheet.OfVat(days, morning.AddDate(0, 0, 50), false)).Series[0]; us.Unit != "°F" || us.Points[0].Level < 46 || us.Points[0].Level > 47 || us.Range != "86 to 104 °F" {
		t.Errorf("%+v", us)
	}
	if p := plotOf(sheet.OfVat([]sheet.Day{tendedOn(t, 0, stripOf(4))}, morning, false)); p != nil {
		t.Errorf("one strip makes a plot: %+v", p)
	}
}

// An axis of time of any length has two to eight names, in order, within it, no two neighbours alike.
func TestMarksOfTime(t *testing.T) {
	for _, long := range []time.Duration{20 * time.Minute, 5 * time.Hour, 14 * time.Hour, 30 * time.Hour, 60 * time.Hour, 6 * 24 * time.Hour, 17 * 24 * time.Hour,
		50 * 24 * time.Hour, 88 * 24 * time.Hour, 200 * 24 * time.Hour, 500 * 24 * time.Hour, 2000 * 24 * time.Hour, 9000 * 24 * time.Hour} {
		first := tended(t, "a", morning, nil, stripOf(4))
		second := tended(t, "b", morning.Add(long), nil, stripOf(5))
		p := plotOf(sheet.OfVat([]sheet.Day{first, second}, morning.Add(long+time.Hour), false))
		if p == nil || len(p.Marks) < 2 || len(p.Marks) > 8 {
			t.Errorf("%v: %+v", long, p)
			continue
		}
		before := ""
		for i, m := range p.Marks {
			if m.Words == "" || m.Words == before || m.At.Before(p.From) || m.At.After(p.Till) || i > 0 && !m.At.After(p.Marks[i-1].At) {
				t.Errorf("%v: %q at %v", long, m.Words, m.At)
			}
			before = m.Words
		}
	}
}

// The end of a vat stands in place of its care.
func TestTheEnd(t *testing.T) {
	ph := 8.4
	gone := tended(t, "2026-05-10", morning, nil, day.VatEnded{Why: "used up", Liquor: 54, PH: &ph, Route: "the foul sewer"})
	s := sheet.OfVat([]sheet.Day{gone}, morning, false)
	if h := heads(s); !slices.Contains(h, "Its end") || slices.Contains(h, "Care") {
		t.Fatalf("%q", h)
	}
	got := s.Blocks[len(s.Blocks)-1].(sheet.Facts).List
	want := []sheet.Fact{{Name: "day", Value: "2026-05-10 at 09:10"}, {Name: "why", Value: "used up"}, {Name: "liquor", Value: "54 L"}, {Name: "its pH", Value: "8.4"}, {Name: "went to", Value: "the foul sewer"}}
	if !slices.Equal(got, want) {
		t.Errorf("%+v", got)
	}
	if h := heads(sheet.OfVat([]sheet.Day{tendedOn(t, 0)}, morning, false)); slices.Contains(h, "Its end") || !slices.Contains(h, "Care") {
		t.Errorf("%q", h)
	}
}

// The sheet of the day that leads to a vat's end: the acid is the sum of its lots, the last step is done by the end, and where
// the liquor went stands on it; while it is open the lot is called one, and the last step has its box.
func TestTheDayOfAnEnd(t *testing.T) {
	ph, lot := 8.4, day.PowderAdded{Powder: "citric acid", Material: "citric acid", Mass: 30, Why: "to a mild pH, before it goes"}
	led := func(bodies ...day.Body) sheet.Sheet {
		h := day.Head{Vat: "bin", Day: "2026-05-09", Setup: day.Setup{Fill: 60, Ending: true}, Recipe: builtIn(t, "soda"), Opening: day.Opening{Number: 2, Built: true, Step: 7}}
		var events []day.Event
		for i, b := range append([]day.Body{day.Opened{How: "end"}}, bodies...) {
			events = append(events, day.Event{Seq: i + 1, At: morning.Add(time.Duration(i) * 10 * time.Minute), Body: b})
		}
		s, errs := day.Replay(h, events)
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		return sheet.OfDay(sheet.Day{Name: h.Day, State: s}, s.At)
	}
	row := func(s sheet.Sheet, title string) []string {
		for _, r := range part(s, "Steps").Rows {
			if strings.HasPrefix(r[1].Text, title) {
				return rowOf(r)
			}
		}
		return nil
	}
	s := led()
	if got := row(s, "Bring it"); got[2] != "30.0 g a lot" || got[3] != "" {
		t.Errorf("before the first lot: %q", got)
	}
	if end := part(s, "Steps").Rows[1]; end[3].Boxes != 1 || slices.Contains(heads(s), "Its end") {
		t.Errorf("before the end: %+v %q", end, heads(s))
	}
	s = led(lot, lot, lot, day.StepDone{OfStep: day.OfStep{Step: 7}}, day.VatEnded{Why: "used up", Liquor: 54, PH: &ph, Route: "the foul sewer"})
	if got := row(s, "Bring it"); got[2] != "90 g in all" || got[3] != "09:40" {
		t.Errorf("after three lots: %q", got)
	}
	if end := part(s, "Steps").Rows[1]; end[3].Boxes != 0 || end[3].Text != "09:50" {
		t.Errorf("the last step of an ended vat: %+v", end)
	}
	at := slices.IndexFunc(s.Blocks, func(b sheet.Block) bool { h, ok := b.(sheet.Heading); return ok && h.Text == "Its end" })
	if at < 0 {
		t.Fatalf("where it went is missing: %q", heads(s))
	}
	if f := s.Blocks[at+1].(sheet.Facts).List; !slices.Contains(f, sheet.Fact{Name: "went to", Value: "the foul sewer"}) ||
		!slices.Contains(f, sheet.Fact{Name: "its pH", Value: "8.4"}) || !slices.Contains(f, sheet.Fact{Name: "liquor", Value: "54 L"}) {
		t.Errorf("%+v", f)
	}
	s = led(day.StepDone{OfStep: day.OfStep{Step: 7}}, day.VatEnded{Route: "the foul sewer"})
	if got := row(s, "Bring it"); got[2] != "none" {
		t.Errorf("mild without acid: %q", got)
	}
}

// A label has the piece's blue where that was seen, and none that was only wished for.
func TestLabels(t *testing.T) {
	done := func(tag string, n int) []day.Body {
		return slices.Concat(dip(tag, n), []day.Body{day.Finished{OfPiece: day.OfPiece{Tag: tag}, Dips: n}})
	}
	spec := day.PieceSpec{What: "runner", Fibre: "linen", Dry: 420, Depth: "dark"}
	days := []sheet.Day{tendedOn(t, 0, slices.Concat([]day.Body{piece("A1", spec), piece("A2", spec)}, done("A1", 1), done("A2", 1),
		[]day.Body{day.LookedAt{OfPiece: day.OfPiece{Tag: "A1"}, Looks: "sky", Rinsed: true}})...)}
	s := sheet.OfLabels("Bin", days, cost.Of(days, nil, cost.Rates{}), morning)
	cards := s.Blocks[0].(sheet.Cards).List
	if len(cards) != 2 || cards[0].Tag != "A1" || cards[0].What != "runner" || !strings.HasPrefix(cards[0].Made, "Runner, linen") || len(cards[0].Care) == 0 || len(cards[0].Rubbing) == 0 {
		t.Fatalf("%+v", cards)
	}
	if sw := cards[0].Swatch; sw == nil || sw.Name != "sky" || sw.Note != "as seen" {
		t.Errorf("%+v", sw)
	}
	if cards[1].Swatch != nil {
		t.Errorf("a wish stands as a blue: %+v", cards[1].Swatch)
	}
}
