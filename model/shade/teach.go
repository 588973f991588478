package shade

import (
	"fmt"
	"math"

	"example.org/vatside/model/quantity"
)

// Lesson is a strip of swatches and what it would teach for a wish: a strip of so many dips, of which one swatch is cut off after each
// of the Rungs.
type Lesson struct {
	Dips    int
	Rungs   []int
	Narrows float64       // what is left of the range of dips (by its logarithm), 0 to 1
	Takes   quantity.Span // from its first dip to its last, beside the other work
}

// Words says it: "one strip of 8 dips halves the range; 55 min beside the other work".
func (l Lesson) Words() string {
	return fmt.Sprintf("one strip of %s %s; %s beside the other work", counted(l.Dips), narrowing(l.Narrows), l.Takes)
}

// narrowing is what is left of a range in words.
func narrowing(left float64) string {
	switch {
	case left > 0.9:
		return "hardly narrows the range"
	case left > 0.7:
		return "takes a quarter off the range"
	case left > 0.58:
		return "takes a third off the range"
	case left > 0.42:
		return "halves the range"
	case left > 0.29:
		return "leaves a third of the range"
	}
	return "leaves a quarter of the range"
}

// worth is the part that a longer strip must leave of what a shorter one leaves, to be advised. M
const worth = 0.9

// lessonRungs are the dips after which a swatch of a strip is judged: each twice the last, as the study's.
var lessonRungs = []int{1, 2, 4, 8}

// Teach says which strip of swatches would help most with a wish for a piece: of those that fit into the time, the shortest that
// no longer one beats by a tenth of what is left. ok is false where none fits, or none would help. Each strip's dips are of a length, with an
// airing between.
//
// What a strip would teach is reckoned by the possible vats: some of them in turn are taken as the true one, and the others weighted
// by what its swatches would show, each with its scatter and a meter's error.
func (w Weighted) Teach(p Piece, v Liquor, dip quantity.Span, done []Dip, wish Wish, strip Piece, each, air, time quantity.Span) (best Lesson, ok bool) {
	at := w.numbersFor(p, v, dip, done, wish)
	var seen [][]float64 // by rung, then by vat
	g := w.begin(strip, v, each, nil)
	for n := 1; n <= lessonRungs[len(lessonRungs)-1]; n++ {
		g.dip()
		for _, rung := range lessonRungs {
			if rung == n {
				depths := make([]float64, len(w.vats))
				for j := range depths {
					depths[j] = lnKS(capped(g.courses[j].ks, w.vats[j].ceiling))
				}
				seen = append(seen, depths)
			}
		}
	}
	noise := 0.0
	for _, s := range w.scatters {
		noise += square(s) / scatterClasses
	}
	noise += square(strippedError)
	all := w.spreadBy(w.weights, at)
	if all < 0.03 {
		return best, false // nothing is left to learn
	}
	for k, dips := range lessonRungs {
		l := Lesson{Dips: dips, Rungs: lessonRungs[:k+1], Narrows: w.leftOver(at, seen[:k+1], noise) / all}
		l.Takes = quantity.Span(dips)*each + quantity.Span(dips-1)*air
		if time > 0 && l.Takes > time {
			break
		}
		if !ok || l.Narrows < worth*best.Narrows {
			best, ok = l, true
		}
	}
	return best, ok && best.Narrows <= 0.9
}

// leftOver is the mean standard deviation of a figure of the possible vats that is left after looks at the depths seen.
func (w *Weighted) leftOver(of []float64, seen [][]float64, noise float64) (sum float64) {
	weights := make([]float64, len(w.weights))
	tooth, next, held := 1.0/lessonTruths, 0.5/lessonTruths, 0.0
	for t := range w.vats {
		held += w.weights[t]
		for ; next < held; next += tooth {
			// the true one apart; where too few others are near, they count from farther off
			for wide := noise; ; wide *= 2 {
				var all, squared float64
				for j := range weights {
					chi := 0.0
					for _, depths := range seen {
						chi += square(depths[j] - depths[t])
					}
					weights[j] = w.weights[j] * math.Exp(-chi/(2*wide))
					if j == t {
						weights[j] = 0
					}
					all += weights[j]
					squared += square(weights[j])
				}
				if all*all >= leastNear*squared && all > 0 || wide > 1 {
					break
				}
			}
			sum += w.spreadBy(weights, of) * tooth
		}
	}
	return sum
}

// leastNear is how many others, counted by their weight, tell a spread.
const leastNear = 12

// lessonTruths is how many of the possible vats are taken as the true one in turn.
const lessonTruths = 24

// strippedError is a swatch read by a meter, in the logarithm of K/S. M
const strippedError = 0.05

// numbersFor are the logarithms of the dips that each possible vat needs for a wish.
func (w *Weighted) numbersFor(p Piece, v Liquor, dip quantity.Span, done []Dip, wish Wish) []float64 {
	g := w.begin(p, v, dip, done)
	aim := lnKS(tidy(wish.Aim(w.Cloth(p.Ground))))
	out := make([]float64, len(w.vats))
	for j := range w.vats {
		q := w.vats[j]
		x := uncapped(math.Exp(aim-g.off[j]), q.ceiling)
		c, n := g.courses[j], 0.0
		for before := c.ks; n < longest; n++ { // straight between two dips
			c.dip(q, g.once[j], g.strip[j], g.load)
			if c.ks >= x {
				n += math.Min(1, math.Max(0.1, (x-before)/math.Max(c.ks-before, 1e-9)))
				break
			}
			before = c.ks
		}
		out[j] = math.Log(math.Max(n, 0.5))
	}
	return out
}

// spreadBy is the standard deviation of a figure of the possible vats by other weights than theirs.
func (w *Weighted) spreadBy(weights, of []float64) float64 {
	var all, mean, squares float64
	for j, weight := range weights {
		all += weight
		mean += weight * of[j]
		squares += weight * of[j] * of[j]
	}
	mean /= all
	return math.Sqrt(math.Max(0, squares/all-mean*mean))
}
