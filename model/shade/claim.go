package shade

import (
	"fmt"
	"math"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
)

// The claims.
const (
	guess      = "guess"
	calibrated = "calibrated"
)

// Claim is "calibrated" if a forecast for the cloth of one of the swatches is sharp (see ClaimFor), else "guess".
func (w Weighted) Claim() string {
	for _, p := range w.pieces {
		if w.ClaimFor(p) == calibrated {
			return calibrated
		}
	}
	return guess
}

// ClaimFor is the claim for a piece: "calibrated" if the depth of a standard dip on its fibre is known to about three
// fifths more or less, 8 times in 10; else "guess". Cotton swatches alone make linen calibrated, and leave silk a guess.
func (w Weighted) ClaimFor(p Piece) string {
	if w.spreadOf(p) <= sure {
		return calibrated
	}
	return guess
}

// spreadOf is the standard deviation of the logarithm of a standard dip's K/S on the piece's fibre.
func (w Weighted) spreadOf(p Piece) float64 {
	a := actOf(p, Dip{For: quantity.Minutes(standard), PerLitre: 1})
	var mean, squares float64
	for i := range w.vats {
		v := &w.vats[i]
		ln := v.level + a.cellulose*v.cellulose + a.protein*v.protein + a.mercerised*v.mercerised
		mean += w.weights[i] * ln
		squares += w.weights[i] * ln * ln
	}
	return math.Sqrt(math.Max(0, squares-mean*mean))
}

// Words are sentences for the dyer: why the forecast is as wide as it is, and what was done with the looks.
func (w Weighted) Words() []string {
	var out []string
	switch {
	case len(w.rows) == 0:
		out = append(out, "a guess: no swatch of this vat was seen, and from one vat to another the blue of a dip differs twentyfold, "+
			"so it can say no more than pale, medium or dark; three swatches of known dips make it sharp")
	case w.Claim() == guess:
		out = append(out, "still a guess: what was seen leaves the blue of a dip open by more than three fifths either way; "+
			"a dry, rinsed swatch by colour meter says most")
	}
	return append(out, w.words...)
}

// Rung is the depth of a rung of the ladder, on the cloth and with the dip of the newest rung that was measured or named:
// 10, 50 and 90 % of what it may be. ok is false where no rung was, or n is below 1.
func (w Weighted) Rung(n int) (depth quantity.Range[KS], ok bool) {
	if w.rung == nil || n < 1 {
		return depth, false
	}
	dips := make([]Dip, min(n, MostDips))
	for i := range dips {
		dips[i] = w.rung.Dips[0]
	}
	var k kinds
	runs := k.runsOf(w.rung.Piece, dips)
	given := make([]gives, len(k))
	s := newSpread(len(w.vats))
	for j := range w.vats {
		v := &w.vats[j]
		k.gives(v, v.level, given)
		s.add(lnKS(v.after(runs, given)), w.weights[j])
	}
	return s.depths(), true
}

// blue is a depth's colour on a ground, in the words of the claim: a name, or pale, medium, dark for a guess.
func (w Weighted) blue(depth quantity.Range[KS], claim string) string {
	if claim == calibrated {
		return Name(depth.Likely)
	}
	low, high := coarse(depth.Low), coarse(depth.High)
	if low == high {
		return low
	}
	return fmt.Sprintf("%s to %s", low, high)
}

// spread collects weighted numbers for their quantiles.
type spread struct {
	x, w []float64
}

func newSpread(n int) *spread { return &spread{make([]float64, 0, n), make([]float64, 0, n)} }

func (s *spread) reset() { s.x, s.w = s.x[:0], s.w[:0] }

// add puts a number with its weight; one that is not finite, of goods out of all measure, is left out.
func (s *spread) add(x, w float64) {
	if math.IsNaN(x+w) || math.IsInf(x+w, 0) {
		return
	}
	s.x, s.w = append(s.x, x), append(s.w, w)
}

// bins is how finely quantiles are found: a thousandth of the whole spread, straight within.
const bins = 1024

// quantiles are the numbers below which the parts of the weight lie; parts rise. An empty spread has 0.
func (s *spread) quantiles(parts ...float64) []float64 {
	out := make([]float64, len(parts))
	if len(s.x) == 0 {
		return out
	}
	low, high, all := math.Inf(1), math.Inf(-1), 0.0
	for i, x := range s.x {
		low, high = math.Min(low, x), math.Max(high, x)
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

// colourOf is the dry colour of the likely depth.
func colourOf(p Piece, depth quantity.Range[KS]) colour.Lab { return p.Ground.Colour(depth.Likely) }
