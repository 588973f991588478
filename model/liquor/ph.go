package liquor

import (
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
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

// solution is a solved liquor.
type solution struct {
	pH       float64
	strength float64 // ionic strength, mol/kg
	charge   float64 // what is left of the charge balance, mol/kg: 0 but for rounding
	ions     float64 // all charge of one sign, mol/kg

	carbonicAcid float64 // free carbon dioxide and carbonic acid, mol/kg
}

// The bounds of the search, in ln aH: beyond the pH of any liquor that check lets through.
var (
	searchLow  = -18 * math.Ln10
	searchHigh = 3 * math.Ln10
)

// solve finds the pH of a make-up that was checked.
func (m Makeup) solve(t quantity.Temperature) solution { return m.totals(t).solve(t) }

// solve finds the ionic strength that the liquor has at the pH that it has at that ionic strength. Both searches are
// bracketed, so that they always end: the charge balance rises with aH, and the ionic strength lies between 0 and
// totals.strongest.
func (x totals) solve(t quantity.Temperature) solution {
	atRest := constantsAt(t)
	dh := newDebyeHuckel(t.Celsius()+273.15, water.Density(t))
	b := balance{x: x, na: x.na, sulfate: x.sulfate}
	lnH := math.Log(1e-10)
	guess := (x.na+x.k+3*x.ca+x.carbonate+x.sulfate+x.sulfite)/2 + 1e-7
	search(0, x.strongest(), guess, 0, 1e-9, func(strength float64) float64 {
		b.c = atRest.at(dh, strength)
		lnH = search(searchLow, searchHigh, lnH, 0.05, 1e-10, func(l float64) float64 {
			return math.Asinh(b.charge(math.Exp(l)) * 1e6) // near straight in ln aH where acid or alkali rules
		})
		b.charge(math.Exp(lnH))
		return b.strength - strength
	})
	return solution{pH: -lnH / math.Ln10, strength: b.c.strengthAt, charge: b.left, ions: b.ions, carbonicAcid: b.carbonicAcid}
}

// balance is the charge balance of a liquor at one ionic strength. na and sulfate are the free ions found last, from
// which the next search for them starts.
type balance struct {
	x           totals
	c           inLiquor
	na, sulfate float64
	left        float64 // positive less negative charge, mol/kg
	ions        float64
	strength    float64

	carbonicAcid float64
}

// charge is positive less negative charge at an activity of H+, in mol/kg. It rises with aH.
//
// The free ions Na+, Ca++ and SO4-- share pairs, Ca++ and CO3-- share chalk; each in turn is set to what its total and
// the others leave it, which closes in, as each step lowers the same convex function (the Gibbs energy's dual).
func (b *balance) charge(aH float64) float64 {
	x, c := b.x, b.c
	h, oh := aH*c.h, c.oh/aH
	hco3, co2 := c.hco3*aH, c.co2*aH*aH
	caOH := c.caOH * oh
	var s settled
	for range 60 {
		s = x.settle(c, oh, 1+caOH+c.caSO4*b.sulfate, 1+hco3+co2)
		na, sulfate := b.na, b.sulfate
		b.sulfate = x.sulfate / (1 + c.naSO4*b.na + c.caSO4*s.ca)
		b.na = x.na / (1 + c.naSO4*b.sulfate)
		if math.Abs(b.na-na) <= 1e-13*na && math.Abs(b.sulfate-sulfate) <= 1e-13*sulfate {
			break
		}
	}
	hso3, so2 := c.hso3*aH, c.so2*aH*aH
	so3 := x.sulfite / (1 + hso3 + so2)
	mono := x.leuco / (1 + aH/c.leuco1 + c.leuco2/aH)
	di := mono * c.leuco2 / aH
	naSO4 := c.naSO4 * b.na * b.sulfate

	strongAcid, strongAlkali := math.Max(x.acid, 0), math.Max(-x.acid, 0)
	ones := oh + hco3*s.co3 + naSO4 + hso3*so3 + mono + strongAcid
	twos := s.co3 + b.sulfate + so3 + di
	plus := b.na + x.k + h + caOH*s.ca + strongAlkali
	b.left = plus + 2*s.ca - ones - 2*twos
	b.ions = plus + 2*s.ca
	b.strength = (plus+ones)/2 + 2*(s.ca+twos)
	b.carbonicAcid = co2 * s.co3
	return b.left
}

// search finds where f is 0 between low and high, from a first guess. f is above 0 at the one end and below at the other
// and is not asked there. Secants, held in the bracket; where they do not halve it in three steps, halves. It ends
// when a step or the bracket is shorter than tolerance, or f is 0.
//
// step is how far from the guess the second point lies, on the side where 0 is; with 0 it is f itself, as in an
// iteration x ← x + f(x), and f must then fall with x. With step the sign of f at the guess must say that f rises with x.
func search(low, high, guess, step, tolerance float64, f func(float64) float64) float64 {
	rising := step > 0
	at := math.Min(math.Max(guess, low), high)
	value := f(at)
	next := at + value
	if rising {
		next = at - math.Copysign(step, value)
	}
	wide := high - low
	for i := 1; i < 300; i++ {
		if value == 0 {
			return at
		}
		if (value > 0) == rising {
			high = at
		} else {
			low = at
		}
		if i%3 == 0 {
			if high-low > wide/2 {
				next = low + (high-low)/2
			}
			wide = high - low
		}
		if !(next > low && next < high) {
			next = low + (high-low)/2
		}
		if math.Abs(next-at) < tolerance || high-low < tolerance {
			return at
		}
		was, before := at, value
		at, value = next, f(next)
		next = at - value*(at-was)/(value-before)
	}
	return at
}
