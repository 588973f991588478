package shade

import (
	"fmt"
	"math"
	"sort"

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
	case left > 0.21:
		return "leaves a quarter of the range"
	case left > 0.14:
		return "leaves a sixth of the range"
	}
	return "leaves a tenth of the range"
}

// worth is the part that a longer strip must leave of what a shorter one leaves, to be advised. M
const worth = 0.9

// lessonRungs are the dips after which a swatch of a strip is judged: each twice the last, as the study's.
var lessonRungs = []int{1, 2, 4, 8}

// Teach says which strip of swatches would help most with a wish for a piece: of those that fit into the time, the shortest that no longer
// one beats by a tenth of what is left. ok is false where none fits, or none would help. Each strip's dips are of a length, with an airing
// between.
//
// What a strip would teach is reckoned by the possible vats: some of them in turn are taken as the true one. The level of each other is
// moved to where the strip's swatches want it, each with its scatter and a meter's error, and it counts by how well they then agree.
func (w Weighted) Teach(p Piece, v Liquor, dip quantity.Span, done []Dip, wish Wish, strip Piece, each, air, time quantity.Span) (best Lesson, ok bool) {
	some := min(len(w.vats), lessonVats)
	w.vats, w.level, w.weights = w.vats[:some], w.level[:some], w.weights[:some]
	needs := w.needs(p, v, dip, done, wish)
	var seen [][]float64 // logarithm of the dye by rung, then by vat
	g := w.begin(strip, v, each, nil)
	for _, n := range lessonRungs {
		depths := make([]float64, len(w.vats))
		for j, dye := range g.after(n) {
			depths[j] = lnKS(dye)
		}
		seen = append(seen, depths)
	}
	noise := square(strippedError)
	for _, s := range w.scatters {
		noise += square(s) / scatterClasses
	}
	before := make([]float64, len(w.vats))
	for j := range before {
		before[j] = needs.dips(j, 0)
	}
	all := w.spreadBy(w.weights, before)
	if all < 0.03 {
		return best, false // nothing is left to learn
	}
	for k, dips := range lessonRungs {
		l := Lesson{Dips: dips, Rungs: lessonRungs[:k+1], Narrows: min(1, w.leftOver(needs, seen[:k+1], noise)/all)}
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

// leftOver is the mean standard deviation of the logarithm of the dips that is left after looks at the dye seen, each with a variance
// of noise.
func (w *Weighted) leftOver(needs needed, seen [][]float64, noise float64) (sum float64) {
	weights, moved := make([]float64, len(w.weights)), make([]float64, len(w.weights))
	level := math.Sqrt(noise / float64(len(seen))) // how well the looks tell the level
	held := make([]float64, len(w.weights))
	total := 0.0
	for j, weight := range w.weights {
		total += weight
		held[j] = total
	}
	for i := range lessonTruths {
		_, part := math.Modf((float64(i) + 0.5) * math.Phi) // evenly spread, and not in step with the sequence of the vats
		t := min(sort.SearchFloat64s(held, part*total), len(held)-1)
		var all, off float64
		for j := range weights {
			move := 0.0
			for _, dye := range seen {
				move += dye[t] - dye[j]
			}
			move /= float64(len(seen))
			chi := 0.0
			for _, dye := range seen {
				chi += square(dye[t] - dye[j] - move)
			}
			weights[j] = 0
			if chi < 16*noise {
				weights[j] = w.weights[j] * math.Exp(-chi/(2*noise))
				less, more := needs.dips(j, move-level), needs.dips(j, move+level)
				moved[j] = (less + more) / 2
				off += weights[j] * square(less-more) / 4
			}
			all += weights[j]
		}
		sum += math.Sqrt(square(w.spreadBy(weights, moved))+off/all) / lessonTruths
	}
	return sum
}

// lessonVats is how many of the possible vats, the first, are asked; lessonTruths how many of them are taken as the true one in turn.
const lessonVats, lessonTruths = 256, 16

// strippedError is a swatch read by a meter, in the logarithm of K/S. M
const strippedError = 0.05

// needed is what a wish needs in each possible vat.
type needed struct {
	aims []float64 // logarithm of the dye
	dye  []float64 // logarithm of the dye after each of the next dips, one vat after the other
	done int
}

// needs finds the dye of each possible vat for a wish.
func (w *Weighted) needs(p Piece, v Liquor, dip quantity.Span, done []Dip, wish Wish) needed {
	g := w.begin(p, v, dip, done)
	aim := lnKS(tidy(wish.Aim(w.Cloth(p.Ground))))
	n := needed{make([]float64, len(w.vats)), make([]float64, longest*len(w.vats)), len(done)}
	g.after(longest)
	for j := range w.vats {
		n.aims[j] = math.Log(uncapped(math.Exp(aim-g.off[j]), w.vats[j].ceiling))
		for i := range longest {
			n.dye[j*longest+i] = lnKS(g.dye[i+1][j])
		}
	}
	return n
}

// dips is the logarithm of the number that a possible vat needs in all if its level is moved, straight between two dips.
func (n needed) dips(j int, move float64) float64 {
	dye, aim := n.dye[j*longest:(j+1)*longest], n.aims[j]-move
	i := sort.SearchFloat64s(dye, aim)
	at := n.done + min(i+1, longest)
	if i == 0 || i == longest {
		return lnOf[min(at, MostDips)]
	}
	part := (dye[i] - aim) / (dye[i] - dye[i-1])
	return lnOf[min(at, MostDips)]*(1-part) + lnOf[min(at-1, MostDips)]*part
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
