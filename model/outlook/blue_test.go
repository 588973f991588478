package outlook_test

import (
	"math"
	"testing"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

func (v *vat) blues() outlook.Blue { return outlook.Blues(v.s, v.sight(), v.now) }

// strips is a ladder of so many rungs, each dip five minutes.
func (v *vat) strips(tag string, n int) {
	v.t.Helper()
	v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 10, Dips: n, Dip: quantity.Minutes(5), Form: outlook.Ladder}},
		day.WettedOut{OfPiece: day.OfPiece{Tag: tag}})
	for i := range n {
		v.put(day.DipBegun{OfPiece: day.OfPiece{Tag: tag}, Dip: i + 1, For: quantity.Minutes(5)})
		v.after(5)
		v.put(day.DipEnded{OfPiece: day.OfPiece{Tag: tag}, Dip: i + 1, Air: quantity.Minutes(10)})
		v.after(10)
	}
}

func (v *vat) wish(tag string, spec day.PieceSpec) {
	v.t.Helper()
	spec.Fibre, spec.Dry = "cotton", 200
	v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: spec})
}

// Before anything was seen it is a guess, and wide; three measured rungs make it sharp, the same day.
func TestSwatchesSharpenTheForecast(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	v.wish("A1", day.PieceSpec{Depth: "mid", Dip: quantity.Minutes(5)})
	before := v.blues()
	if before.Claim != "guess" || len(before.Words) == 0 {
		t.Fatalf("before any swatch: %s %v", before.Claim, before.Words)
	}
	v.strips("L1", 4)
	for no, lab := range map[int]string{1: "lab 77 -6 -11", 2: "lab 68 -7 -17", 3: "lab 62 -7 -21", 4: "lab 57 -7 -23"} {
		v.put(day.SwatchJudged{Swatch: "L1", Dips: no, Looks: lab})
	}
	after := v.blues()
	if after.Claim != "calibrated" {
		t.Errorf("after four rungs: %s %v", after.Claim, after.Words)
	}
	width := func(b outlook.Blue) float64 {
		ks := b.Pieces["A1"].Steps[4].KS
		return float64(ks.High / ks.Low)
	}
	if w, b := width(after), width(before); w > b/3 || w > 2.5 {
		t.Errorf("the range of five dips went from %.1f-fold to %.1f-fold", b, w)
	}
	a, g := after.Pieces["A1"].Answer, before.Pieces["A1"].Answer
	if a.High-a.Low >= g.High-g.Low || a.Chance <= g.Chance {
		t.Errorf("dips to mid: %+v, before it was %+v", a, g)
	}
	if len(after.Rungs) != 4 || after.Rungs[2].Known != outlook.Measured || colour.Difference(after.Rungs[2].Lab, colour.Lab{L: 62, A: -7, B: -21}) > 1e-9 {
		t.Errorf("the ladder: %+v", after.Rungs)
	}
	// A piece wished like rung 3 wants about three such dips.
	v.wish("B1", day.PieceSpec{Rung: 3, Dip: quantity.Minutes(5)})
	if b := v.blues().Pieces["B1"]; b.Wish == nil || b.Answer.Likely < 2 || b.Answer.Likely > 4 {
		t.Errorf("like rung 3: %+v", b.Answer)
	}
}

// A piece is asked about as it goes: each dip makes it darker, and after a look it says whether to stop.
func TestAPieceOnItsWay(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	v.wish("A1", day.PieceSpec{Lab: [3]float64{55, -7, -24}, Dip: quantity.Minutes(5)})
	last := math.Inf(1)
	for i := range 3 {
		if _, ok := v.blues().Stop(v.s.Pieces[0]); ok != (i > 0) {
			t.Errorf("after %d dips: asked whether to stop, %v", i, ok)
		}
		v.put(day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}}, day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}, Dip: i + 1, For: quantity.Minutes(5)})
		v.after(5)
		v.put(day.DipEnded{OfPiece: day.OfPiece{Tag: "A1"}, Dip: i + 1, Air: quantity.Minutes(10)})
		v.after(10)
		c := v.blues().Pieces["A1"]
		if c.Now == nil || c.Now.Lab.L >= last || c.Steps[0].Lab.L >= c.Now.Lab.L || c.Steps[0].Dips != i+2 {
			t.Fatalf("after dip %d: now %+v, next %+v", i+1, c.Now, c.Steps[0])
		}
		last = c.Now.Lab.L
	}
	wide := v.blues().Pieces["A1"].Now.KS
	v.put(day.LookedAt{OfPiece: day.OfPiece{Tag: "A1"}, Looks: "lab 66 -7 -18", Rinsed: true})
	c := v.blues().Pieces["A1"]
	if d := colour.Difference(c.Now.Lab, colour.Lab{L: 66, A: -7, B: -18}); d > 4 || c.Now.KS.High/c.Now.KS.Low > wide.High/wide.Low/2 {
		t.Errorf("looked at, it is %v, %.1f off, %+v of %+v", c.Now.Lab, d, c.Now.KS, wide)
	}
	if s, ok := v.blues().Stop(v.s.Pieces[0]); !ok || s.Words == "" || s.Best == 0 {
		t.Errorf("well paler than wished: %+v", s)
	}
}

// The next day knows the ladder of the day before, and trusts it a little less.
func TestTheLadderIsKeptWithTheVat(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	v.strips("L1", 3)
	for no, lab := range map[int]string{1: "lab 77 -6 -11", 2: "lab 68 -7 -17", 3: "lab 62 -7 -21"} {
		v.put(day.SwatchJudged{Swatch: "L1", Dips: no, Looks: lab})
	}
	v.put(day.AiringEnded{OfPiece: day.OfPiece{Tag: "L1"}, Dip: 3}, day.Finished{OfPiece: day.OfPiece{Tag: "L1"}, Dips: 3}, day.VatCovered{}, day.Closed{})
	o := outlook.Carry(v.s)
	if len(o.Swatches) != 3 || o.Swatches[0].Dip != quantity.Minutes(5) || !o.Swatches[0].Ladder {
		t.Fatalf("carried %+v", o.Swatches)
	}
	head := v.s.Head
	head.Day, head.Opening = "2026-03-29", o
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	next := &vat{t, s, nine.AddDate(0, 0, 1)}
	next.put(day.Opened{How: "tend"})
	next.reads(35)
	next.wish("A1", day.PieceSpec{Rung: 3, Dip: quantity.Minutes(5)})
	b := next.blues()
	if len(b.Rungs) != 3 || b.Claim != "calibrated" || b.Pieces["A1"].Wish == nil {
		t.Errorf("the next day: %s, %+v, %+v", b.Claim, b.Rungs, b.Pieces["A1"].Answer)
	}
}

func BenchmarkBlues(b *testing.B) {
	v := open(b, "soda", nil)
	v.reads(38)
	v.strips("L1", 4)
	for no, lab := range map[int]string{1: "lab 77 -6 -11", 2: "lab 68 -7 -17", 3: "lab 62 -7 -21", 4: "lab 57 -7 -23"} {
		v.put(day.SwatchJudged{Swatch: "L1", Dips: no, Looks: lab})
	}
	for i := range 6 {
		v.wish(string(rune('A'+i))+"1", day.PieceSpec{Depth: "dark"})
	}
	o := v.sight()
	b.ResetTimer()
	for b.Loop() {
		outlook.Blues(v.s, o, v.now)
	}
}
