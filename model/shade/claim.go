package shade

import (
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// The claims.
const (
	guess      = "guess"
	calibrated = "calibrated"
)

// Claim is "calibrated" if a forecast for the cloth of one of the swatches is sharp (see ClaimFor), else "guess".
func (w Weighted) Claim() string {
	return wording.Either(slices.ContainsFunc(w.pieces, func(p Piece) bool { return w.ClaimFor(p) == calibrated }), calibrated, guess)
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
		v := w.vats[i]
		ln := w.level[i] + a.cellulose*v.cellulose + a.protein*v.protein + a.mercerised*v.mercerised
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
			"so it can say no more than pale, medium or dark; three swatches of known dips narrow it")
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
		v := w.vats[j]
		k.gives(v, w.level[j], given)
		s.add(lnKS(capped(v.after(runs, given), v.ceiling)), w.weights[j])
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

// colourOf is the dry colour of the likely depth.
func (w Weighted) colourOf(p Piece, depth quantity.Range[KS]) colour.Lab {
	return w.Cloth(p.Ground).Colour(depth.Likely)
}
