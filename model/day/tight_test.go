package day_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// Closely woven cloth is in half as long again to twice as long at its first dip (C), 14 min of 8: the dip that is called, counted and
// written is that long, the next ones are not, and the mean of them all is between.
func TestTightClothsFirstDipIsLonger(t *testing.T) {
	p := dyeing(t, 0)
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Dip: quantity.Minutes(8), Air: quantity.Minutes(12), Form: day.Tight}})
	p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}}})
	piece := func() day.Piece { x, _ := p.s.Piece("A1"); return x }
	if x := piece(); x.NextDip() != quantity.Minutes(14) || x.DipTime() != quantity.Minutes(8) || x.MeanDip() != quantity.Minutes(10) {
		t.Errorf("the first dip is %v, the others %v, the mean %v", x.NextDip(), x.DipTime(), x.MeanDip())
	}
	p.do(day.Record{Body: day.FrothSkimmed{}})
	if a := day.Next(p.s, p.now); a.Kind != day.ActEnter || !strings.Contains(a.How, "14 min this first time, then 8 min") {
		t.Errorf("the call is %q, %q", a.Words, a.How)
	}
	for i, want := range []quantity.Span{quantity.Minutes(14), quantity.Minutes(8)} {
		p.do(day.Lower{Tag: "A1"})
		in, ok := p.s.Log[len(p.s.Log)-1].Body.(day.DipBegun)
		if !ok || in.For != want || piece().NextDip() != want {
			t.Fatalf("dip %d is %+v", i+1, p.s.Log[len(p.s.Log)-1].Body)
		}
		p.wait(want.Duration())
		p.do(day.Lift{Tag: "A1"})
		p.wait(12 * minute)
		if i == 0 {
			p.do(day.Record{Body: day.FrothSkimmed{}})
		}
	}
	if x := piece(); x.MeanDip() != quantity.Minutes(8) {
		t.Errorf("after it the mean is %v", x.MeanDip())
	}
	p.refuses(day.AddPiece{Tag: "A2", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Form: "loose"}}, "tight")
}
