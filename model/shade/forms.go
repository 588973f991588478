package shade

import (
	"math"
	"sync/atomic"
)

// Formed is a way in which blue builds up with the number of equal dips, as the possible vats have it. No publication measures
// it, so several are believed at once; swatches tell which. Each form is a curve of n, 1 at one dip.
type Formed struct {
	Name, Curve string
	Share       float64 // of the possible vats, before any swatch
	First       Prior   // the figure that shapes it
	Second      Prior   // and another; of no name where there is none
	Evidence    string
	gains       func(first, second float64, out []float64) // what the n-th dip adds, against the first, for n from 1
}

// gains is what each dip adds, against the first: those that an Answer may come to, and all once a later one was asked for.
type gains struct {
	first [longest + 2]float64
	all   atomic.Pointer[[MostDips + 1]float64]
}

// gain is what the n-th dip adds, against the first, for n up to MostDips.
func (v *possible) gain(n int) float64 {
	if n < len(v.gains.first) {
		return v.gains.first[n]
	}
	return v.late(n)
}

// late is the same of a dip that is too rare to be reckoned before it is asked for.
//
//go:noinline
func (v *possible) late(n int) float64 {
	all := v.gains.all.Load()
	if all == nil {
		all = new([MostDips + 1]float64)
		Forms()[v.form].gains(v.first, v.second, all[:])
		v.gains.all.Store(all)
	}
	return all[n]
}

// Forms are the ways in which blue builds up, with their shares.
func Forms() []Formed { return []Formed{powerForm(), fillingForm(), bentForm()} }

// powerForm is the plain one.
func powerForm() Formed {
	return Formed{Name: "power", Curve: "n^p", Share: 0.62,
		First: Prior{"build-up exponent", 0.93, 1.18, 1.5, "",
			"no published measurement; practice says that returns fall (below 1), K/S of the first dips is nearly straight (1), and " +
				"reduced dye that lies on the fibre draws more (above 1)"},
		Evidence: "the plainest curve, and the only one that goes on for ever: its ceiling is ceilingPrior's",
		gains: func(p, _ float64, out []float64) {
			// n^p from the powers of primes
			var raised [MostDips + 1]float64
			raised[1] = 1
			for n := 2; n < len(out); n++ {
				if f := leastFactor[n]; f == n {
					raised[n] = math.Exp(p * lnOf[n])
				} else {
					raised[n] = raised[f] * raised[n/f]
				}
			}
			for n := 1; n < len(out); n++ {
				out[n] = raised[n] - raised[n-1]
			}
		}}
}

// fillingForm is a fibre that fills up.
func fillingForm() Formed {
	return Formed{Name: "filling", Curve: "1 − e^(−n/m)", Share: 0.23,
		First: Prior{"dips to fill", 4, 13, 42, "dips",
			"dips after which 63 % of the most is there. M: trade names stop at 12 to 30 dips; a strong vat fills a fibre in a few"},
		Evidence: "places for dye in the surface of a fibre are limited, so each dip finds fewer left (the trade: returns fall)",
		gains: func(m, _ float64, out []float64) {
			left := math.Exp(-1 / m)
			gain := 1.0
			for n := 1; n < len(out); n++ {
				out[n] = gain
				gain *= left
			}
		}}
}

// bentForm is straight, then flatter.
func bentForm() Formed {
	return Formed{Name: "two-stage", Curve: "n to the bend, then flatter", Share: 0.15,
		First: Prior{"dips to the bend", 2, 4, 8, "dips", "M: the surface is covered in the first dips"},
		Second: Prior{"slope beyond the bend", 0.4, 0.68, 1.15, "of the first",
			"M: what comes after goes in by diffusion, which is slower than laying on; at 1 nothing bends"},
		Evidence: "dye lies on the surface first, and more must diffuse in (two-stage uptake is the usual picture of ring-dyed yarn)",
		gains: func(bend, slope float64, out []float64) {
			for n := 1; n < len(out); n++ {
				part := math.Min(1, math.Max(0, bend-float64(n-1))) // of this dip that lies before the bend
				if n == 1 {
					part = 1
				}
				out[n] = part + (1-part)*slope
			}
		}}
}

// ceilingPrior is the K/S that no more dye goes beyond.
func ceilingPrior() Prior {
	return Prior{"ceiling of the blue", 30, 42, 59, "K/S of the dye",
		"the facts: textiles end near a K/S of 20 to 30 as an instrument reads it, which is 25 to 45 of the dye alone (its surface " +
			"and its cloth taken off, KS660); the width M"}
}

// capped is the K/S that is seen of a layer of dye under a ceiling. They meet softly: a layer of half the ceiling loses 2 %, one of
// the ceiling 16 %.
func capped(x, ceiling float64) float64 {
	r := x / ceiling
	r *= r
	return x / math.Sqrt(math.Sqrt(1+r*r))
}

// uncapped is the layer of dye behind a K/S that is seen; without end at the ceiling and above.
func uncapped(ks, ceiling float64) float64 {
	r := ks / ceiling
	if r >= 1 {
		return math.Inf(1)
	}
	r *= r
	return ks / math.Sqrt(math.Sqrt(1-r*r))
}

// lnOf are the logarithms of the numbers of dips, leastFactor their least factors above 1.
var lnOf, leastFactor = func() (ln [MostDips + 1]float64, least [MostDips + 1]int) {
	for n := 2; n <= MostDips; n++ {
		ln[n] = math.Log(float64(n))
		for f := 2; f <= n; f++ {
			if n%f == 0 {
				least[n] = f
				break
			}
		}
	}
	return ln, least
}()
