package liquor

import (
	"math"

	"example.org/vatside/model/quantity"
)

// PH is the pH of a liquor at a temperature, as a meter set at that temperature reads it, in a vessel closed to the air.
// Pure water has 7.00 at 25 °C.
//
// Method: carbonate, water, sulfite, leuco indigo, sodium and calcium in equilibrium (constantsAt), with the activities of
// Truesdell & Jones and the pairs NaSO4-, CaOH+ and CaSO4; potassium is taken to make none. Against the tables of
// testdata/reference it is within 0.012 for the primary carbonate standard from 0 to 50 °C, within 0.012 for soda ash up
// to 10 g/L and 0.025 up to 30 g/L at 25 and 40 °C, and within 0.01 for the standard of lime water. Above 30 g/L of
// alkalis together, and above 60 °C, it is an extrapolation; below pH 8 an open liquor loses carbonic acid and stands
// higher than this. The activity of water is taken as 1. PHRange says how far to trust it.
//
// It refuses, with a *PHError, temperatures outside 0 to 100 °C, amounts below zero (Acid may be), above MostAlkali or
// MostMolar, NaN and infinities, and lime together with lime water.
func PH(m Makeup, t quantity.Temperature) (quantity.PH, error) {
	if err := m.check(t); err != nil {
		return 0, err
	}
	return quantity.PH(m.solve(t).pH), nil
}

type solution struct {
	pH       float64
	strength float64 // ionic strength, mol/kg
	charge   float64 // what is left of the charge balance, mol/kg: 0 but for rounding
	ions     float64 // all charge of one sign, mol/kg

	carbonicAcid float64 // free carbon dioxide and carbonic acid, mol/kg
}

// The bounds of the search, in ln aH: beyond the pH of any liquor that check lets through.
const (
	searchLow  = -18 * math.Ln10
	searchHigh = 3 * math.Ln10
)

// solve finds the pH of a make-up that was checked.
func (m Makeup) solve(t quantity.Temperature) solution {
	at := constantsAt(t)
	return m.solveAt(&at, usual)
}

// solveAt is solve with what has been reckoned of the temperature, beginning at the solution of a like liquor.
func (m Makeup) solveAt(at *atRest, near solution) solution {
	return m.totals(at.density).solve(at, near)
}

// usual is where a search begins that knows nothing nearer: pH 10.
var usual = solution{pH: 10}

// solve finds the ionic strength that the liquor has at the pH that it has at that ionic strength, beginning at near.
// Both searches are bracketed, so that they always end: the charge balance rises with aH, and the ionic strength lies
// between 0 and totals.strongest.
func (x totals) solve(at *atRest, near solution) solution {
	b := balance{x: &x, na: x.na, sulfate: x.sulfate}
	lnH := -near.pH * math.Ln10
	about := (x.na+x.k+math.Abs(x.acid))/2 + 2*(x.ca+x.carbonate+x.sulfate+x.sulfite) + 1e-7
	guess, tolerance := near.strength, 1e-9
	if guess == 0 {
		guess, tolerance = about, 1e-5 // a rough guess, and so may be the first pH
	}
	bend := 0.0 // of lnH by the ionic strength
	found := search(0, x.strongest(), guess, 1e-6*about, true, func(strength float64) (value, slope float64) {
		from, was := b.c.strengthAt, lnH
		b.c = at.in(&x, strength)
		lnH = search(searchLow, searchHigh, lnH+bend*(strength-from), tolerance, false, b.charge)
		tolerance = 1e-9
		if from > 0 {
			bend = (lnH - was) / (strength - from)
		}
		return strength - b.strength, 1
	})
	lnH += bend * (found - b.c.strengthAt)
	return solution{pH: -lnH / math.Ln10, strength: b.c.strengthAt, charge: b.left, ions: b.ions, carbonicAcid: b.carbonicAcid}
}

// balance is the charge balance of a liquor at one ionic strength. na and sulfate are the free ions found last, from
// which the next search for them starts.
type balance struct {
	x           *totals
	c           inLiquor
	na, sulfate float64
	left        float64 // positive less negative charge, mol/kg
	ions        float64
	strength    float64

	carbonicAcid float64
}

// charge reckons the liquor at the logarithm of an activity of H+ and gives that of its positive by its negative charge, and the
// slope of it: near straight where alkali or acid rules. It is 0 once, as the charge rises with aH; where chalk dissolves it may fall.
//
// The free ions Na+, Ca++ and SO4-- share pairs, Ca++ and CO3-- share chalk; each in turn is set to what its total and
// the others leave it, which closes in, as each step lowers the same convex function (the Gibbs energy's dual). The slope takes the
// pairs with SO4-- as they are.
func (b *balance) charge(lnH float64) (value, slope float64) {
	x, c, aH := b.x, &b.c, math.Exp(lnH)
	h, oh := aH*c.h, c.oh/aH
	hco3, co2 := c.hco3*aH, c.co2*aH*aH
	caOH := c.caOH * oh
	var s settled
	for range 60 {
		s = x.settle(c, oh, 1+caOH+c.caSO4*b.sulfate, -caOH, 1+hco3+co2, hco3+2*co2)
		na, sulfate := b.na, b.sulfate
		b.sulfate = x.sulfate / (1 + c.naSO4*b.na + c.caSO4*s.ca)
		b.na = x.na / (1 + c.naSO4*b.sulfate)
		if math.Abs(b.na-na) <= 1e-11*na && math.Abs(b.sulfate-sulfate) <= 1e-11*sulfate {
			break
		}
	}
	hso3, so2 := c.hso3*aH, c.so2*aH*aH
	so3 := x.sulfite / (1 + hso3 + so2)
	acid, base := aH/leuco1, leuco2/aH
	mono := x.leuco / (1 + acid + base)
	naSO4 := c.naSO4 * b.na * b.sulfate

	strongAcid, strongAlkali := max(x.acid, 0), max(-x.acid, 0)
	ones := oh + hco3*s.co3 + naSO4 + hso3*so3 + mono + strongAcid
	twos := s.co3 + b.sulfate + so3 + base*mono
	plus := b.na + x.k + h + caOH*s.ca + strongAlkali
	minus := ones + 2*twos
	b.ions = plus + 2*s.ca
	b.left = b.ions - minus
	b.strength = (plus+ones)/2 + 2*(s.ca+twos)
	b.carbonicAcid = co2 * s.co3

	bySO3, byMono := -so3*(hso3+2*so2)/(1+hso3+so2), mono*(base-acid)/(1+acid+base)
	byPlus := h + caOH*(s.byCa-s.ca) + 2*s.byCa
	byMinus := -oh + hco3*(s.byCO3+s.co3) + 2*s.byCO3 + hso3*(bySO3+so3) + 2*bySO3 + byMono + 2*base*(byMono-mono)
	return math.Log(b.ions / minus), byPlus/b.ions - byMinus/minus
}

// search finds where f is 0 between low and high, from a first guess. f is below 0 at the low end and above at the high end, and is
// not asked there. It gives its slope besides; a step goes by that, or after the first by a secant where the slope is a rough one.
// Steps are held in the bracket; where they do not halve f in three, the bracket is halved. It ends with a step shorter than
// tolerance, or f 0.
func search(low, high, guess, tolerance float64, rough bool, f func(float64) (value, slope float64)) float64 {
	at := min(max(guess, low), high)
	value, slope := f(at)
	large := math.Abs(value)
	for i := 1; i < 300 && value != 0 && high-low > tolerance; i++ {
		if value > 0 {
			high = at
		} else {
			low = at
		}
		next := at - value/slope
		if slope > 0 && math.Abs(next-at) < tolerance {
			return next
		}
		if i%3 == 0 {
			if math.Abs(value) > large/2 {
				next = low
			}
			large = math.Abs(value)
		}
		if !(next > low && next < high) {
			next = low + (high-low)/2
		}
		was, before := at, value
		at = next
		value, slope = f(at)
		if rough {
			slope = (value - before) / (at - was)
		}
	}
	return at
}
