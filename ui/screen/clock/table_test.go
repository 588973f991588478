package clock

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
)

// Of 24 pieces the line shows those in the vat, the one in hand, the late ones and the next three, always in the order of their pegs, and
// counts the rest; of a few it shows all.
func TestWhatMattersStandsFirst(t *testing.T) {
	soda, _ := recipes.Find("soda")
	h := rehearse.Head(soda, time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC))
	h.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	put := func(b day.Body) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	put(day.Opened{How: "tend"})
	of := func(n int) day.OfPiece { return day.OfPiece{Tag: fmt.Sprintf("P%d", n)} }
	for n := range 24 {
		put(day.PieceAdded{OfPiece: of(n + 1), PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 50, Dips: 3}})
		put(day.WettedOut{OfPiece: of(n + 1)})
	}
	put(day.DipBegun{OfPiece: of(20), Dip: 1, For: quantity.Minutes(9)})
	put(day.DipBegun{OfPiece: of(7), Dip: 1, For: quantity.Minutes(5)})
	put(day.DipBegun{OfPiece: of(3), Dip: 1, For: quantity.Minutes(2)})
	now = now.Add(2 * time.Minute)
	put(day.DipEnded{OfPiece: of(3), Dip: 1, Air: quantity.Minutes(10)})
	put(day.Finished{OfPiece: of(1), Dips: 0})
	s.Turn = []string{"P15", "P2"}
	v := engine.View{State: s, Now: now}.At(now)
	tags := func(pegs int) string {
		shown, rest := hangs(v, hungOf(v, "P12", day.CallOf(s, now)), pegs)
		var out []string
		for _, h := range shown {
			if h.peg != slices.IndexFunc(s.Pieces, func(p day.Piece) bool { return p.Tag == h.p.Tag })+1 {
				t.Errorf("%s hangs on peg %d", h.p.Tag, h.peg)
			}
			out = append(out, h.p.Tag)
		}
		return strings.Join(out, " ") + "; " + counted(v, rest)
	}
	for pegs, want := range map[int]string{
		9: "P2 P4 P7 P12 P15 P20; 1 airing, next 09:12, 16 due, 1 on the bench", 6: "P2 P4 P7 P12 P15 P20; 1 airing, next 09:12, 16 due, 1 on the bench", 4: "P7 P12 P15 P20; 1 airing, next 09:12, 18 due, 1 on the bench",
	} {
		if got := tags(pegs); got != want {
			t.Errorf("of %d pegs the line shows %s", pegs, got)
		}
	}
	s.Pieces = s.Pieces[:6]
	v.State = s
	if got := tags(6); got != "P1 P2 P3 P4 P5 P6; " {
		t.Errorf("with room for all it shows %s", got)
	}
}

// Before a piece goes into a vat that has grown too cold, it says to warm it, and how long the heater takes.
func TestAColdVatIsWarmedFirst(t *testing.T) {
	soda, _ := recipes.Find("soda")
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	h := rehearse.Head(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true}
	at := func(celsius float64, heater quantity.Power) string {
		h.Setup.Heater = heater
		s, err := day.Begin(h)
		if err != nil {
			t.Fatal(err)
		}
		temp := quantity.Celsius(celsius)
		for _, b := range []day.Body{day.Opened{How: "tend"}, day.Reading{Temp: &temp}} {
			if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
				t.Fatal(err)
			}
		}
		return warmFirst(engine.View{State: s, Now: now}.At(now))
	}
	if got := at(36, 1000); got != "" {
		t.Errorf("at 36 °C it says %q", got)
	}
	for _, near := range []float64{30, 29.99} { // "30 °C, and it needs 30 °C"
		if got := at(near, 1000); got != "" {
			t.Errorf("at %v °C it says %q", near, got)
		}
	}
	if got := at(27, 1000); !strings.HasPrefix(got, "First warm it: 27 °C, and it needs 30 °C. e: heater on, ") {
		t.Errorf("at 27 °C it says %q", got)
	}
	if got := at(27, 0); !strings.Contains(got, "Stand hot jars in it") {
		t.Errorf("without a heater it says %q", got)
	}
}

// What comes out together is told together, and taken out by one press.
func TestWhatComesOutTogether(t *testing.T) {
	soda, _ := recipes.Find("soda")
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	h := rehearse.Head(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	put := func(b day.Body) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	put(day.Opened{How: "tend"})
	put(day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"})
	put(day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true})
	for i, tag := range []string{"A1", "B1", "C1"} {
		put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 50, Dips: 3}})
		put(day.WettedOut{OfPiece: day.OfPiece{Tag: tag}})
		put(day.DipBegun{OfPiece: day.OfPiece{Tag: tag}, Dip: 1, For: quantity.Minutes(8) + quantity.Seconds(float64(40*(i/2)))})
		now = now.Add(3 * time.Second)
	}
	v := engine.View{ID: "bin/d", State: s, Now: now.Add(7 * time.Minute)}.At(now.Add(7 * time.Minute))
	e := screen.Env{Now: v.Now, Width: 80, Height: 24, Style: style.New(style.Options{}), ID: v.ID, Days: engine.Snapshot{Days: []engine.View{v}}}
	sheet := New(e).View(e)
	if !slices.Contains(sheet.How, "One press for both; a peg's number leaves it out.") || sheet.Act != "LIFT 2" || !strings.HasPrefix(sheet.Figure.Note, "A1, B1, dip 1 of 3, ") {
		t.Errorf("the clock says %q, %q, %q", sheet.Act, sheet.Figure.Note, sheet.How)
	}
}
