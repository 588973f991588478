package liquor

import (
	"cmp"
	"fmt"
	"math"

	"example.org/vatside/model/quantity"
)

// The bounds of Oxygen. Benson & Krause give their pressure correction for 0.5 to 1.1 atm, which is from 5500 m up to
// below any dye house.
const (
	standardAir  = quantity.Pressure(101325)
	thinnestAir  = quantity.Pressure(50000)
	densestAir   = quantity.Pressure(112000)
	coldestWater = quantity.Temperature(0)
	hottestWater = quantity.Temperature(100)
	// lastOfEquation is the °C up to which the equation itself is used; it is published to 40.
	lastOfEquation = 60.0
	// boilingSlack is by how much the vapour pressure of the equation may pass the air's before that is an error: it
	// is 0.6 % too high at 100 °C.
	boilingSlack = 1.01
)

// OxygenError tells why no dissolved oxygen can be had: one sentence with the limit, without a full stop.
type OxygenError struct{ Reason string }

// Error is the sentence.
func (e *OxygenError) Error() string { return e.Reason }

// Oxygen is the oxygen that fresh water holds in equilibrium with water-saturated air: 9.09 mg/L at 20 °C and one
// atmosphere, 6.84 at 36 °C. A pressure of 0 is the standard atmosphere, 101325 Pa; it is the air's own at the place,
// not reduced to sea level.
//
// Benson & Krause 1984, in the form of APHA Standard Methods 4500-O, published for 0–40 °C and 0.5–1.1 atm and there good
// to 0.02 mg/L. From 40 to 60 °C the same equation is extrapolated. Above 60 °C its vapour pressure no longer serves; there
// the solubility is carried on smoothly to a least value at 100 °C (an estimate, M), with the vapour's share of the air
// taken off, so that it falls to 0 where water boils. Never below 0. The salts of a vat lower it by some per cent; that
// is left out.
//
// A temperature outside 0–100 °C, a pressure outside 50000–112000 Pa, or one below that of water vapour gives an
// *OxygenError.
func Oxygen(t quantity.Temperature, p quantity.Pressure) (quantity.Concentration, error) {
	p = cmp.Or(p, standardAir)
	if !(t >= coldestWater && t <= hottestWater) {
		return 0, &OxygenError{fmt.Sprintf("%v is outside what water can be here; dissolved oxygen is known from %v to %v",
			t, coldestWater, hottestWater)}
	}
	if !(p >= thinnestAir && p <= densestAir) {
		return 0, &OxygenError{fmt.Sprintf("an air pressure of %v cannot be; it lies between %v and %v", p, thinnestAir, densestAir)}
	}
	c, atm := t.Celsius(), p.Pascals()/standardAir.Pascals()
	vapour := vapourPressure(c)
	if vapour > atm*boilingSlack {
		return 0, &OxygenError{fmt.Sprintf("water of %v boils at %v of air pressure, so it holds no oxygen; the air must press with %v at least",
			t, p, quantity.Pascals(vapour*standardAir.Pascals()))}
	}
	// APHA 4500-O: Cp = C*·P·(1 − Pwv/P)(1 − θP) / ((1 − Pwv)(1 − θ)), with k = C*/((1 − Pwv)(1 − θ)).
	mg := oxygenSolubility(c) * (atm - vapour) * (1 - secondVirial(c)*atm)
	return quantity.GramsPerLitre(math.Max(mg, 0) / 1000), nil
}

// vapourPressure is that of water in atm at t °C (APHA 4500-O).
func vapourPressure(t float64) float64 {
	k := t + 273.15
	return math.Exp(11.8571 - 3840.70/k - 216961/(k*k))
}

// secondVirial is θ of APHA 4500-O, per atm.
func secondVirial(t float64) float64 { return 0.000975 - 1.426e-5*t + 6.436e-8*t*t }

// oxygenSolubility is C*/((1 − Pwv)(1 − θ)) in mg/L an atm of dry air. Above 60 °C its logarithm goes on with the slope it
// has there, fading to none at 100 °C.
func oxygenSolubility(t float64) float64 {
	if t <= lastOfEquation {
		return freshWater(t) / ((1 - vapourPressure(t)) * (1 - secondVirial(t)))
	}
	const h = 1e-3
	last := oxygenSolubility(lastOfEquation)
	slope := math.Log(last/oxygenSolubility(lastOfEquation-h)) / h
	u, room := t-lastOfEquation, hottestWater.Celsius()-lastOfEquation
	return last * math.Exp(slope*(u-u*u/(2*room)))
}

// freshWater is C* in mg/L at one atmosphere (Benson & Krause 1984, as APHA 4500-O).
func freshWater(t float64) float64 {
	k := t + 273.15
	return math.Exp(-139.34411 + 1.575701e5/k - 6.642308e7/math.Pow(k, 2) + 1.243800e10/math.Pow(k, 3) - 8.621949e11/math.Pow(k, 4))
}
