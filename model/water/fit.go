package water

import (
	"math"

	"example.org/vatside/model/quantity"
)

// Pair is two readings of one vat's liquor with nothing poured between them, and how it stood meanwhile. The Factor in
// its standings is left aside.
type Pair struct {
	From, To quantity.Temperature
	Between  []Stretch
}

// Fitted is the factor on the losses that pairs of readings speak for: the likeliest half-way (the median), and between
// Low and High 8 times in 10. Pairs is how many pairs taught something.
type Fitted struct {
	Factor, Low, High float64
	Pairs             int
}

const (
	// priorWidth is the standard deviation of the factor's logarithm before anything was read: 8 vats in 10 between 0.64
	// and 1.57. From memory and by judgement: Shah's mean deviation is 18 %, a draught, a lid that gapes or sun come on
	// top, and no published figure for vats was found.
	priorWidth = 0.35
	// readingError is the standard deviation of a thermometer in a vat, in K (from memory: half a degree).
	readingError = 0.5
	// tellingFall is the least fall in K, as reckoned, of a pair that teaches something.
	tellingFall = 1.0
	// farFactor bounds the factor: from a third to three times what was reckoned.
	farFactor = 3.0
	// fitSteps is the number of factors that are tried between those bounds, evenly in the logarithm.
	fitSteps = 160
	// fitApart is how many of them lie from one that is walked to the next; a cubic leads between, within 0.0002 K.
	fitApart = 8
	// tenth is the z-score of one in ten, so that 8 in 10 lie between.
	tenth = 1.2815515655446004
)

// Fit finds the factor on the losses from pairs of readings: Bayes' rule over factors from ⅓ to 3, with a prior that is
// lognormal round 1 (width 0.35, from memory) and a thermometer that is half a degree off at either reading. Pairs that
// teach nothing are left out: too short for the vat to cool by 1 K as reckoned, with a heater on, rising, or with
// standings that cannot be. Without pairs it is 1, and as wide as the prior.
func Fit(pairs []Pair) Fitted {
	out := Fitted{1, math.Exp(-tenth * priorWidth), math.Exp(tenth * priorWidth), 0}
	var posterior [fitSteps + 1]float64 // as logarithms
	span := math.Log(farFactor)
	factor := func(i float64) float64 { return math.Exp(span * (2*i/fitSteps - 1)) }
	for i := range posterior {
		z := math.Log(factor(float64(i))) / priorWidth
		posterior[i] = -z * z / 2
	}
	for _, p := range pairs {
		courses := p.courses()
		if courses == nil || !(p.From.Celsius()-p.end(courses, 1) >= tellingFall) {
			continue
		}
		out.Pairs++
		var ends [fitSteps/fitApart + 1]float64
		for i := range ends {
			ends[i] = p.end(courses, factor(float64(i*fitApart)))
		}
		for i := range posterior {
			off := (through(ends[:], float64(i)/fitApart) - p.To.Celsius()) / (readingError * math.Sqrt2)
			posterior[i] -= off * off / 2
		}
	}
	if out.Pairs == 0 {
		return out
	}
	best := posterior[0]
	for _, l := range posterior {
		best = max(best, l)
	}
	var sums [fitSteps + 1]float64 // the chance of a factor up to this one, not yet scaled
	for i := 1; i <= fitSteps; i++ {
		sums[i] = sums[i-1] + (math.Exp(posterior[i-1]-best)+math.Exp(posterior[i]-best))/2
	}
	at := func(part float64) float64 {
		want := part * sums[fitSteps]
		i := 1
		for i < fitSteps && sums[i] < want {
			i++
		}
		within := 0.0
		if d := sums[i] - sums[i-1]; d > 0 {
			within = min(max((want-sums[i-1])/d, 0), 1)
		}
		return factor(float64(i-1) + within)
	}
	out.Factor, out.Low, out.High = at(0.5), at(0.1), at(0.9)
	return out
}

// courses is what the pair went through, or nil if it can teach nothing.
func (p Pair) courses() []*course {
	if within(p.From, p.To) != nil || p.To > p.From {
		return nil
	}
	var out []*course
	for _, st := range p.Between {
		st.Standing.Factor = 0
		if st.Standing.Check() != nil || lasting(st.For) != nil || st.Standing.Heater > 0 {
			return nil
		}
		out = append(out, st.Standing.course())
	}
	return out
}

// end is the reading that a factor foretells, in °C.
func (p Pair) end(courses []*course, factor float64) float64 {
	t := p.From.Celsius()
	for i, c := range courses {
		c.factor = factor
		t, _, _ = c.walk(t, p.Between[i].For.Seconds(), math.NaN())
	}
	return t
}

// through is the cubic through the four values nearest to a place among values that lie 1 apart (Lagrange).
func through(values []float64, at float64) float64 {
	i := min(max(int(at)-1, 0), len(values)-4)
	x, v := at-float64(i), values[i:]
	return -(x-1)*(x-2)*(x-3)/6*v[0] + x*(x-2)*(x-3)/2*v[1] - x*(x-1)*(x-3)/2*v[2] + x*(x-1)*(x-2)/6*v[3]
}
