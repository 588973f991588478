package shade_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/testdata/long"
)

// A small run of the study (TestTables plays the large one): simulated vats, never the fitted ones, of the model's
// forms and of others, noise 12 %, drift 12 %. Claimed, and held by the large run from three swatches of the day on: 80 % ranges hold
// 75 to 85 % of outcomes where the model has the form, at least 70 % where not; the likely colour is within a CIEDE2000 of 2 at the
// median and 4 in nine of ten. A small run scatters by 2 or 3 in 100, which the bounds allow.
//
// The number of dips: right or one off as often as the swatches tell. Vats with exponents of 0.93 to 1.5 and two forms beside the power
// differ more than those of one form within 1.03 to 1.44, of which 85 in 100 were demanded: with swatches of 1, 2 and 4 dips even the
// oracle, which knows form, priors and noise, is right or one off in 83 to 86 of 100. So it is held against the oracle on the same vats, and
// where a dip less and a dip more are seen apart against 85 of 100, and nine of ten with a swatch of 8 dips.
func TestClaimsHoldOnSimulatedVats(t *testing.T) {
	v := shade.Possible("")
	var silent, spoken Cell
	for i, f := range slices.Concat(Contained, Judging) {
		for k, set := range []Set{Three, Four} {
			if !long.Runs() && (i+k)%2 == 0 { // each truth once
				continue
			}
			t.Run(f.String()+" "+set.Name, func(t *testing.T) {
				var best *oracle
				if slices.Contains(Contained, f) {
					best = newOracle(f, 600, 5)
				}
				r := Run(v, Case{Form: f, Set: set, Minutes: 5, Load: 5, Oracle: best}, 70, uint64(7+10*i+k), 16)
				c, beyond := r.Joined(1, 8), r.Joined(9, 16)
				if !slices.Contains(Contained, f) {
					silent.Number, spoken.Number = append(silent.Number, c.Silent...), append(spoken.Number, c.Number...)
				}
				de50, de90 := Part(c.Off, 0.5), Part(c.Off, 0.9)
				t.Logf("in range %.0f and %.0f, dE %.1f and %.1f, ±1 %.0f (said %.0f, at best %.0f, seen %.0f), held %.0f, widened %d", c.Coverage(), beyond.Coverage(), de50, de90,
					c.Near(1), 100*c.Trust/float64(len(c.Number)), c.NearBest(1), c.NearPlain(1), c.Answered(), r.Widened)
				least, most := 70.0, 100.0
				if slices.Contains(Contained, f) {
					least, most = 73, 87
				}
				for _, in := range []float64{c.Coverage(), beyond.Coverage()} {
					if in < least || in > most {
						t.Errorf("80 %% ranges hold %.0f of 100", in)
					}
				}
				if de50 > 2 || de90 > 4 {
					t.Errorf("the likely colour is %.1f off at the median, %.1f in nine of ten", de50, de90)
				}
				if slices.Contains(Contained, f) && c.Near(1) < c.NearBest(1)-3 {
					t.Errorf("the number of dips is right or one off in %.0f of 100, and could be in %.0f", c.Near(1), c.NearBest(1))
				}
				// Of Langmuir, which the model does not have, 300 vats give 83 to 87, and the oracle 88.
				if c.Near(1) < 80 || set.Name == Four.Name && f != Langmuir && c.Near(1) < 84 {
					t.Errorf("the number of dips is right or one off in %.0f of 100", c.Near(1))
				}
				if c.NearPlain(1) < 85 || set.Name == Four.Name && c.NearPlain(1) < 90 {
					t.Errorf("where it is seen the number of dips is right or one off in %.0f of 100", c.NearPlain(1))
				}
				if d := 100*c.Trust/float64(len(c.Number)) - c.Near(1); d < -12 || d > 8 {
					t.Errorf("the answers say %.0f too many of 100 to be right or one off", d)
				}
				// A swatch of 8 dips on a vat that fills lies far from what the commonest forms give: 18 of 300 are widened, 6 in 100,
				// and their ranges hold.
				widened := 4
				if f == Filling && set.Name == Four.Name {
					widened = 8
				}
				if slices.Contains(Contained, f) && r.Widened > widened {
					t.Errorf("the prior was widened for %d of 70 plain vats", r.Widened)
				}
			})
		}
	}
	// Of forms that the model does not have too, an answer that is less sure than nine in ten says so: of those that say nothing of it more
	// are right or one off.
	t.Logf("silent %d of %d, ±1 %.0f", len(silent.Number), len(spoken.Number), silent.Near(1))
	if silent.Near(1) < 90 || 3*len(silent.Number) < len(spoken.Number) {
		t.Errorf("%d of %d answers do not say that they are unsure, and are right or one off in %.0f of 100", len(silent.Number), len(spoken.Number), silent.Near(1))
	}
}

// Without a swatch, and with older ones, the ranges are as honest, and so are the chances of a depth's name.
func TestClaimsWithFewAndOldSwatches(t *testing.T) {
	v := shade.Possible("")
	for i, set := range []Set{None, WeekAndOne} {
		c := Run(v, Case{Set: set, Minutes: 5, Load: 5}, 70, uint64(7+i), 8).Joined(1, 8)
		if c.Coverage() < 73 || c.Coverage() > 87 {
			t.Errorf("%s: 80 %% ranges hold %.0f of 100", set.Name, c.Coverage())
		}
		var said, came float64
		for k := range c.Said {
			said, came = said+c.Said[k], came+c.Came[k]
		}
		if d := 100 * (said - came) / float64(c.Pieces); d < -4 || d > 4 {
			t.Errorf("%s: chances of a depth add up to %.0f, and %.0f came", set.Name, said, came)
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
		vat := newTruth(r, Power)
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
