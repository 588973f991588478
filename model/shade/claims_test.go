package shade_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/testdata/long"
)

// A small run of the study (`go run ./testdata/bench/shade` is the large one): simulated vats, never the fitted ones, noise
// 12 %, drift 12 %. Claimed, and held by the large run: 80 % ranges hold 75 to 85 % of outcomes; after 3 or 4 swatches of
// the same day the likely colour is within a CIEDE2000 of 2 at the median and 4 in nine of ten; the number of dips is right
// or one off in nine of ten where the wish needs up to 8. A small run scatters by 2 or 3 in 100, which the bounds allow.
func TestClaimsHoldOnSimulatedVats(t *testing.T) {
	v := shade.Possible("")
	for i, set := range []Set{None, Three, Four, Six, WeekAndOne} {
		if !long.Runs() && (set.Name == Four.Name || set.Name == Six.Name) { // between the others
			continue
		}
		t.Run(set.Name, func(t *testing.T) {
			r := Run(v, Case{Set: set, Minutes: 5, Load: 5}, 70, uint64(7+i), 8)
			c := r.Joined(1, 8)
			de50, de90 := Part(c.Off, 0.5), Part(c.Off, 0.9)
			t.Logf("in range %.0f, dE %.1f and %.1f, right %.0f, ±1 %.0f, held %.0f", c.Coverage(), de50, de90, c.Near(0), c.Near(1), c.Answered())
			if c.Coverage() < 73 || c.Coverage() > 87 {
				t.Errorf("80 %% ranges hold %.0f of 100", c.Coverage())
			}
			switch set.Name {
			case Three.Name, Four.Name, Six.Name, WeekAndOne.Name:
				if de50 > 2 || de90 > 4 {
					t.Errorf("the likely colour is %.1f off at the median, %.1f in nine of ten", de50, de90)
				}
				if c.Near(1) < 85 {
					t.Errorf("the number of dips is right or one off in %.0f of 100", c.Near(1))
				}
			}
			var said, came float64
			for k := range c.Said {
				said, came = said+c.Said[k], came+c.Came[k]
			}
			if d := 100 * (said - came) / float64(c.Pieces); d < -4 || d > 4 {
				t.Errorf("chances of a depth add up to %.0f, and %.0f came", said, came)
			}
			if r.Widened > 4 {
				t.Errorf("the prior was widened for %d of 70 plain vats", r.Widened)
			}
		})
	}
}

// Where vats take up dye in another way, the claims hold only as far as a swatch went: up to 8 dips with a swatch of 8.
func TestClaimsWhereTheTruthHasAnotherForm(t *testing.T) {
	v := shade.Possible("")
	for i, f := range []Form{Saturating, TwoStage} {
		c := Run(v, Case{Form: f, Set: Four, Minutes: 5, Load: 5}, 40, uint64(70+i), 8).Joined(1, 8)
		t.Logf("%s: in range %.0f, dE 90 %.1f, ±1 %.0f", f, c.Coverage(), Part(c.Off, 0.9), c.Near(1))
		if c.Coverage() < 70 || Part(c.Off, 0.9) > 4 || c.Near(1) < 84 {
			t.Errorf("%s: %.0f of 100 in the range, nine of ten within %.1f, number right or one off in %.0f", f, c.Coverage(), Part(c.Off, 0.9), c.Near(1))
		}
	}
}

// A look at the piece itself, after 3 dips, makes its forecast nearer, and the ranges hold as before. Of the scatter's
// square 45 in 100 stay with the piece, the rest is new at each look.
func TestALookAtThePieceItselfServes(t *testing.T) {
	v := shade.Possible("")
	var inside, all int
	var with, without []float64
	for i := range 60 {
		r := rand.New(rand.NewPCG(31, uint64(i)))
		vat := newTruth(r, Same)
		own := math.Exp(Noise * math.Sqrt(0.45) * r.NormFloat64())
		read := func(n int, own float64) shade.KS {
			return shade.KS(vat.blue(n, 5, 0) * own * math.Exp(Noise*math.Sqrt(0.55)*r.NormFloat64()))
		}
		var seen []shade.Swatch
		for _, n := range []int{1, 2, 4} {
			other := math.Exp(Noise * math.Sqrt(0.45) * r.NormFloat64())
			seen = append(seen, shade.Swatch{Dips: dipsOf(vat, n), Lab: shade.White.Colour(read(n, other))})
		}
		piece := shade.Piece{Fibre: fibre.Cotton, Tag: "A1"}
		now := shade.Liquor{Fill: 1e6, Indigo: quantity.Grams(1e6 * vat.perLitre), PH: quantity.PH(vat.ph), Temp: 35}
		look := shade.Swatch{Piece: piece, Dips: dipsOf(vat, 3), Lab: shade.White.Colour(read(3, own))}
		before := v.Seen(seen).Forecast(piece, now, quantity.Minutes(5), dipsOf(vat, 3), 4, nil)
		after := v.Seen(append(seen, look)).Forecast(piece, now, quantity.Minutes(5), dipsOf(vat, 3), 4, nil)
		for k := range after {
			outcome := read(after[k].Dips, own)
			all++
			if after[k].KS.Contains(outcome) {
				inside++
			}
			with = append(with, colour.Difference(after[k].Lab, shade.White.Colour(outcome)))
			without = append(without, colour.Difference(before[k].Lab, shade.White.Colour(outcome)))
		}
	}
	in := 100 * float64(inside) / float64(all)
	a, b := Part(with, 0.9), Part(without, 0.9)
	t.Logf("in range %.0f; nine of ten within %.1f, without the look %.1f", in, a, b)
	if in < 73 || in > 88 || a > b {
		t.Errorf("in range %.0f; nine of ten within %.1f, without the look %.1f", in, a, b)
	}
}
