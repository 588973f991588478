package shade

import "math"

// lnParts is into how many even parts lnTable cuts the numbers from 1 to 2.
const lnParts = 128

// lnTable is of each part the inverse of its middle, and the logarithm of the middle.
var lnTable = func() (t [lnParts]struct{ inverse, ln float64 }) {
	for i := range t {
		t[i].inverse = 1 / (1 + (float64(i)+0.5)/lnParts)
		t[i].ln = -math.Log(t[i].inverse)
	}
	return t
}()

// ln is math.Log of a finite number of 1e-300 or more, in a third of the time. It is off by at most 4e-16 of itself, or 4e-16 where it is
// less than 1 (TestLn).
func ln(x float64) float64 {
	one := [1]float64{x}
	lnEach(one[:], one[:])
	return one[0]
}

// lnEach is ln of each number, in one call: the weights of six looks come a twentieth sooner so.
func lnEach(into, of []float64) {
	const mantissa = 1<<52 - 1
	into = into[:len(of)]
	for i, x := range of {
		bits := math.Float64bits(x)
		part := &lnTable[bits>>45&(lnParts-1)]
		r := math.Float64frombits(bits&mantissa|1023<<52)*part.inverse - 1 // at most 1/256 either way
		r2 := r * r
		into[i] = float64(int(bits>>52)-1023)*math.Ln2 + (part.ln + (r - r2*(0.5-r*(1.0/3)) - r2*r2*(0.25-r*0.2+r2*(1.0/6))))
	}
}

// expParts is into how many even parts, by their logarithms, expTable cuts the numbers from 1 to 2.
const expParts = 64

var expTable = func() (t [expParts]float64) {
	for i := range t {
		t[i] = math.Exp2(float64(i) / expParts)
	}
	return t
}()

// exp is math.Exp, between -700 and 700 in half of the time and off by at most 6e-16 of itself (TestLn).
func exp(x float64) float64 {
	const high, low = 0x1.62e42fee00000p-7, 0x1.a39ef35793c76p-39 // ln 2 / 64: the first ends in 21 bits of 0, and n has 16, so that n times it is exact
	if !(x > -700 && x < 700) {
		return math.Exp(x)
	}
	n := int(x*(expParts/math.Ln2)+(1<<20)+0.5) - 1<<20
	r := x - float64(n)*high - float64(n)*low // at most 0.0055 either way
	part := expTable[n&(expParts-1)]
	return (part + part*(r+r*r*(0.5+r*(1.0/6+r*(1.0/24+r*(1.0/120)))))) * math.Float64frombits(uint64(n>>6+1023)<<52)
}
