package shade

import (
	"math"

	"example.org/vatside/model/quantity"
)

// spread collects weighted numbers for their quantiles.
type spread struct {
	x, w []float64
}

func newSpread(n int) spread { return spread{make([]float64, 0, n), make([]float64, 0, n)} }

func (s *spread) reset() { s.x, s.w = s.x[:0], s.w[:0] }

// add puts a number with its weight; one that is not finite, of goods out of all measure, is left out.
func (s *spread) add(x, w float64) {
	if y := x + w; y-y != 0 { // not a number, or without end
		return
	}
	s.x, s.w = append(s.x, x), append(s.w, w)
}

// quantiles are the numbers below which the parts of the weight lie; parts rise. An empty spread has 0.
func (s *spread) quantiles(parts ...float64) []float64 {
	out := make([]float64, len(parts))
	if len(s.x) == 0 {
		return out
	}
	low, high, all := math.Inf(1), math.Inf(-1), 0.0
	for i, x := range s.x {
		low, high = min(low, x), max(high, x)
		all += s.w[i]
	}
	var held [bins]float64
	scale := bins / math.Max(high-low, 1e-12)
	for i, x := range s.x {
		held[min(int((x-low)*scale), bins-1)] += s.w[i]
	}
	at, sum := 0, 0.0
	for i, p := range parts {
		for at < bins-1 && sum+held[at] < p*all {
			sum += held[at]
			at++
		}
		within := 0.5
		if held[at] > 0 {
			within = math.Min(1, math.Max(0, (p*all-sum)/held[at]))
		}
		out[i] = low + (float64(at)+within)/scale
	}
	return out
}

// inside is the part of the weight between two numbers.
func (s *spread) inside(low, high float64) float64 {
	var in, all float64
	for i, x := range s.x {
		all += s.w[i]
		if x >= low && x <= high {
			in += s.w[i]
		}
	}
	if all == 0 {
		return 0
	}
	return in / all
}

// depths are 10, 50 and 90 % of logarithms of K/S, as depths.
func (s *spread) depths() quantity.Range[KS] {
	q := s.quantiles(0.1, 0.5, 0.9)
	return quantity.Range[KS]{Low: KS(math.Exp(q[0])), Likely: KS(math.Exp(q[1])), High: KS(math.Exp(q[2]))}
}

// bins is how finely quantiles are found: a thousandth of the whole spread, straight within.
const bins = 1024
