package sheet_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sheet"
)

// titles are the steps of goods on a slip, without what stands behind a comma.
func titles(g sheet.SlipGoods) string {
	var out []string
	for _, k := range g.Steps {
		title, _, _ := strings.Cut(k.Title, ",")
		out = append(out, title)
	}
	return g.Of + ": " + strings.Join(out, "; ")
}

// One slip a person with all their pieces, by fibre, the bath for all of a fibre; one for each piece of nobody.
func TestSlips(t *testing.T) {
	got := sheet.SlipsOf([]load.Piece{
		{Tag: "A1", Who: "Mo", Fibre: fibre.Linen, Dry: 420, Dips: 3},
		{Tag: "B1", Fibre: fibre.Cotton, Dry: 100, Dips: 1},
		{Tag: "A2", Who: "Mo", Fibre: fibre.Silk, Dry: 90, Dips: 2, What: "scarf"},
		{Tag: "C1", Who: "Ada", Fibre: fibre.Cotton, Dry: 100, Dips: 1, Form: load.Bound},
		{Tag: "B2", Fibre: fibre.Cotton, Dry: 100, Dips: 1},
		{Tag: "A3", Who: "Mo", Fibre: fibre.Linen, Dry: 80, Dips: 1},
	}, recipe.DithioniteSoda, quantity.Metric).List
	var who []string
	for _, s := range got {
		who = append(who, s.Who)
	}
	if !slices.Equal(who, []string{"Mo", "", "Ada", ""}) {
		t.Fatalf("%q", who)
	}
	mo := got[0]
	if want := []string{"A1: 420 g linen, 3 dips", "A2: 90 g silk scarf, 2 dips", "A3: 80 g linen, 1 dip"}; !slices.Equal(mo.Pieces, want) || mo.Rubbing != cost.Rubs {
		t.Errorf("%q %q", mo.Pieces, mo.Rubbing)
	}
	if len(mo.Goods) != 2 || titles(mo.Goods[0]) != "Linen, A1, A3: Air it; Rinse twice; Then sour; Dry in the shade" || !strings.HasPrefix(mo.Goods[1].Of, "Silk, A2") {
		t.Fatalf("%+v", mo.Goods)
	}
	// 500 g of linen: 20 L of water a kilogram, 15 mL of 5 % vinegar or 1.5 g of citric acid a litre. Of silk the sour is no choice.
	for _, c := range []struct {
		k             sheet.Tick
		title, figure string
	}{
		{mo.Goods[0].Steps[1], "Rinse twice", "10 L plain water at 20 °C, 5 min each"},
		{mo.Goods[0].Steps[2], "Then sour, if you like", "15.0 g citric acid, or 150 mL of 5 % vinegar, in 10 L at 20 °C, 15 min"},
		{mo.Goods[1].Steps[2], "Then sour", "2.7 g citric acid, or 27 mL of 5 % vinegar, in 1.8 L at 25 °C, 15 min"},
		{got[2].Goods[0].Steps[0], "Air it, opened and turned", "2 to 24 h"},
	} {
		if c.k.Title != c.title || c.k.Figure != c.figure {
			t.Errorf("%q %q, want %q %q", c.k.Title, c.k.Figure, c.title, c.figure)
		}
	}
	for _, s := range got {
		for _, g := range s.Goods {
			for _, must := range []string{"an adult", "two rinses and full airing first", "outdoors or in a cross-draught", "glasses", "asthma"} {
				if !strings.Contains(g.Steps[2].Caution, must) {
					t.Errorf("%s: the sour does not say %q: %s", g.Of, must, g.Steps[2].Caution)
				}
			}
		}
	}
	if soda, silk := mo.Goods[0].Care, mo.Goods[1].Care; slices.Equal(soda, silk) || !strings.Contains(silk[0], "by hand") {
		t.Errorf("%q %q", soda, silk)
	}
	lime := sheet.SlipsOf([]load.Piece{{Tag: "A1", Fibre: fibre.Cotton, Dry: 100, Dips: 1}}, recipe.IronLime, quantity.Metric).List[0].Goods[0]
	if titles(lime) != "Cotton, A1: Air it; Rinse twice; Then sour; Dry in the shade" || lime.Steps[2].Title != "Then sour" {
		t.Errorf("%+v", lime)
	}
}

// A day's slips leave out what is behind a piece; a rinse that was left out at the bench is still to be done before acid.
// What was dropped or carried over, and a ladder, does not go home; goods of no known fibre get no figures.
func TestSlipsOfADay(t *testing.T) {
	of := func(tag string) day.OfPiece { return day.OfPiece{Tag: tag} }
	var bodies []day.Body
	for _, p := range []string{"A1", "A2", "A3"} {
		bodies = append(bodies, piece(p, day.PieceSpec{Fibre: "cotton", Dry: 100, Dips: 1, Who: "Mo"}))
		bodies = append(append(bodies, dip(p, 1)...), day.Finished{OfPiece: of(p), Dips: 1})
	}
	bodies = append(bodies, day.Rinsed{OfPiece: of("A1")}, day.Rinsed{OfPiece: of("A1")}, day.Soured{OfPiece: of("A1")},
		day.LeftOut{OfPiece: of("A2"), What: "rinse"},
		piece("B1", day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 1, Who: "Mo"}), day.PieceDropped{OfPiece: of("B1")},
		piece("L1", day.PieceSpec{Fibre: "cotton", Dry: 5, Dips: 1, Form: "ladder"}),
		piece("C1", day.PieceSpec{Fibre: "nettle", Dry: 90, Dips: 1, Who: "Ada"}),
		piece("D1", day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 1}), day.CarriedOver{OfPiece: of("D1")})
	got := sheet.SlipsOfDay(tended(t, "2026-05-10", morning, nil, bodies...).State).List
	if len(got) != 2 || got[0].Who != "Mo" || got[1].Who != "Ada" || len(got[0].Goods) != 2 || len(got[1].Goods) != 1 {
		t.Fatalf("%+v", got)
	}
	for i, want := range []string{"Cotton, A1: Dry in the shade", "Cotton, A2, A3: Rinse twice; Then sour; Dry in the shade"} {
		if titles(got[0].Goods[i]) != want {
			t.Errorf("%q, want %q", titles(got[0].Goods[i]), want)
		}
	}
	if c := got[1].Goods[0]; titles(c) != "C1: Ask before you go" || c.Steps[0].Figure != "" || !strings.Contains(c.Care[0], "by hand") {
		t.Errorf("%+v", c)
	}
}
