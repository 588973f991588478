package shade

import (
	"math"

	"example.org/vatside/model/colour"
)

// track is a line of colours, with those at even steps of the depth's logarithm, where a search along it begins.
type track struct {
	line func(KS) colour.Lab
	bare colour.Lab
	at   [trackSteps + 1]colour.Lab
}

const trackSteps = 24

var lnDeepest = math.Log(float64(deepest))

func trackOf(line func(KS) colour.Lab) *track {
	t := &track{line: line, bare: line(0)}
	for i := range t.at {
		t.at[i] = line(KS(math.Exp(stepAt(i))))
	}
	return t
}

// stepAt is the logarithm of the depth of a step.
func stepAt(i int) float64 { return lnPalest + (lnDeepest-lnPalest)*float64(i)/trackSteps }

// nearest is the depth whose colour is nearest to one, and how far off that is (CIEDE2000): looked for first in steps, then by the golden
// section about the best.
func (t *track) nearest(c colour.Lab) (KS, float64) {
	off := func(at float64) float64 { return colour.Difference(t.line(KS(math.Exp(at))), c) }
	likely := 0
	for i := range t.at {
		if math.Abs(t.at[i].L-c.L) < math.Abs(t.at[likely].L-c.L) {
			likely = i
		}
	}
	atLikely := colour.Difference(t.at[likely], c)
	best, least := lnPalest, math.Inf(1)
	for i := range t.at {
		d := atLikely
		if i != likely {
			if colour.Lightness(t.at[i], c) > min(least, atLikely)+1e-5 { // more than what rounding makes
				continue
			}
			d = colour.Difference(t.at[i], c)
		}
		if d < least {
			best, least = stepAt(i), d
		}
	}
	step := (lnDeepest - lnPalest) / trackSteps
	a, b := math.Max(lnPalest, best-step), math.Min(lnDeepest, best+step)
	p, q := b-(b-a)/math.Phi, a+(b-a)/math.Phi
	atP, atQ := off(p), off(q)
	for range 16 {
		if atP < atQ {
			b, q, atQ = q, p, atP
			p = b - (b-a)/math.Phi
			atP = off(p)
		} else {
			a, p, atP = p, q, atQ
			q = a + (b-a)/math.Phi
			atQ = off(q)
		}
	}
	if d := off((a + b) / 2); d < least {
		best, least = (a+b)/2, d
	}
	if d := colour.Difference(t.bare, c); d <= least {
		return 0, d
	}
	return KS(math.Exp(best)), least
}

// slope is how far the colour goes for a depth's logarithm, CIEDE2000.
func (t *track) slope(s KS) float64 {
	const step = 0.1
	d := colour.Difference(t.line(KS(float64(s)*math.Exp(-step))), t.line(KS(float64(s)*math.Exp(step))))
	return math.Max(d/(2*step), 0.1)
}
