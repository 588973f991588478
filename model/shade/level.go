package shade

import (
	"fmt"
	"math"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
)

// Level is how level a piece comes out from end to end in one dip, by how long it takes to lower and to lift it.
type Level struct {
	// First is the difference of the two ends if the edge that went in first comes out first, Last if it comes out last,
	// as it does when the piece hangs from the hands by one edge. CIEDE2000; 10, 50 and 90 % of what it may be.
	First, Last quantity.Range[float64]
	LiftFirst   string // which edge, in words
	Turn        string // when to turn the piece end for end
	// Shortest is the shortest dip that stays level (a difference below 1, unseen, 8 times in 10) with the right edge
	// lifted first; ShortestLast with the other. Longest where no dip does.
	Shortest, ShortestLast quantity.Span
	Words                  []string
}

const (
	// unseen is the difference below which two ends look alike (CIEDE2000; trade convention).
	unseen = 1.0
	// unsteady is how evenly hands lower and lift, as a part of both times together. M
	unsteady = 0.05
	// longestLevel is the longest dip that is looked for.
	longestLevel = 60.0
)

// Level reckons the ends of a piece after one dip of the vat as it stands. dip is from the touch of the first edge to the
// begin of lifting, lower and lift how long the piece takes to go under and to come out. An end that was under longer has
// taken more, by the time constant of each possible vat; folds, air in the cloth and liquor that runs down are not
// reckoned. A dip shorter than lower is taken as lower.
func (w Weighted) Level(p Piece, v Liquor, dip, lower, lift quantity.Span) Level {
	down, up := math.Max(0, lower.Minutes()), math.Max(0, lift.Minutes())
	long := math.Max(dip.Minutes(), down)
	l := Level{
		First: w.ends(p, v, long, underFirst(down, up)),
		Last:  w.ends(p, v, long, underLast(down, up)),
	}
	l.LiftFirst = "the edge that went in first"
	l.Shortest = w.shortest(p, v, down, underFirst(down, up))
	l.ShortestLast = w.shortest(p, v, down, underLast(down, up))
	switch {
	case l.Last.Likely < unseen:
		l.Turn = "no need: the ends differ by less than an eye sees either way"
	case l.First.Likely < unseen:
		l.Turn = "not if the edge that went in first is lifted first; else end for end before every second dip"
	default:
		l.Turn = "end for end before every second dip, and an even number of dips: what one end lacks it gets back"
	}
	l.Words = append(l.Words,
		fmt.Sprintf("in first, out first: the ends differ by %s (%s)", de(l.First.Likely), colour.Seen(l.First.Likely)),
		fmt.Sprintf("in first, out last: by %s (%s)", de(l.Last.Likely), colour.Seen(l.Last.Likely)))
	if l.ShortestLast > l.Shortest {
		l.Words = append(l.Words, fmt.Sprintf("level from %s on with the right edge lifted first, from %s on with the other",
			spanWords(l.Shortest), spanWords(l.ShortestLast)))
	}
	return l
}

// de is a difference to a tenth.
func de(d float64) string { return fmt.Sprintf("%.1f", d) }

func spanWords(s quantity.Span) string {
	if s.Minutes() >= longestLevel {
		return "no dip"
	}
	return s.String()
}

// underFirst and underLast are how much longer one end is under than the other, minutes, with what unsteady hands add.
func underFirst(down, up float64) float64 { return math.Abs(up-down) + unsteady*(down+up) }
func underLast(down, up float64) float64  { return down + up }

// ends is the difference of an end that was under for so long and one that was under for more.
func (w Weighted) ends(p Piece, v Liquor, minutes, more float64) quantity.Range[float64] {
	a := actOf(p, v.dip(quantity.Minutes(minutes)))
	ratio, depth := newSpread(len(w.vats)), newSpread(len(w.vats))
	for j := range w.vats {
		q := w.vats[j]
		short, long := q.taken(math.Max(minutes, 1e-3), a.slower), q.taken(minutes+more, a.slower)
		ratio.add(math.Log(long/math.Max(short, 1e-9)), w.weights[j])
		depth.add(lnKS(capped(q.yield(&a, w.level[j]+q.exhaustion*a.lnPerLitre), q.ceiling)), w.weights[j])
	}
	d := depth.depths().Likely
	r := ratio.quantiles(0.1, 0.5, 0.9)
	cloth := w.Cloth(p.Ground)
	seen := func(ln float64) float64 {
		return colour.Difference(cloth.Colour(d), cloth.Colour(KS(float64(d)*math.Exp(ln))))
	}
	return quantity.Range[float64]{Low: seen(r[0]), Likely: seen(r[1]), High: seen(r[2])}
}

// shortest halves to the shortest dip, not below what lowering takes, of which the ends stay alike.
func (w Weighted) shortest(p Piece, v Liquor, down, more float64) quantity.Span {
	low, high := math.Max(down, 1.0/60), longestLevel
	if w.ends(p, v, low, more).High < unseen {
		return quantity.Minutes(low)
	}
	if w.ends(p, v, high, more).High >= unseen {
		return quantity.Minutes(high)
	}
	for range 10 {
		m := math.Sqrt(low * high)
		if w.ends(p, v, m, more).High < unseen {
			high = m
		} else {
			low = m
		}
	}
	return quantity.Seconds(math.Ceil(60 * high))
}
