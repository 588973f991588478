package liquor

import (
	"fmt"
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
)

// Makeup is what of a liquor decides its pH, per litre of liquor, as pure substance. The zero Makeup is pure water.
//
// What it does not hold, and why: the reducer that is still good (its salt shifts pH by less than 0.03), the oxygen in
// the water (0.3 mmol/L at most), the water's hardness and the air's carbonic acid (PHRange makes room for them).
type Makeup struct {
	SodaAsh    quantity.Concentration // anhydrous sodium carbonate, Na2CO3; SodaAshOf turns crystals into it
	BakingSoda quantity.Concentration // sodium bicarbonate, NaHCO3
	Potash     quantity.Concentration // potassium carbonate, K2CO3
	Lye        quantity.Concentration // sodium hydroxide, NaOH

	// Lime is the calcium hydroxide offered. What does not dissolve at the liquor's °C lies on the floor as lime, and
	// with carbonate it makes chalk and lye, Ca(OH)2 + CO3-- = CaCO3 + 2 OH-, both taken to their equilibrium.
	Lime quantity.Concentration
	// LimeWater is clear lime water instead, saturated at 25 °C: nothing falls out of it and nothing more dissolves,
	// whatever the °C now. Not together with Lime.
	LimeWater bool

	// Spent is dithionite oxidised by air: S2O4-- + O2 + 2 OH- = SO3-- + SO4-- + H2O.
	Spent quantity.Molarity
	// SpentThiourea is thiourea dioxide used up, by air: CH4N2O2S + O2 + 2 OH- = CO(NH2)2 + SO4-- + H2O. It falls to
	// urea and sulfoxylate, SO2--, which ends as sulfate. On indigo it ends as sulfite, CH4N2O2S + indigo + 2 OH- =
	// CO(NH2)2 + SO3-- + leuco indigo: the same two alkalis, so that it counts here as well. The sulfite's way to
	// sulfate takes no alkali above pH 9.
	SpentThiourea quantity.Molarity
	// OnIndigo is dithionite spent in reducing indigo powder: S2O4-- + indigo + 2 OH- = 2 SO3-- + leuco indigo. The
	// leuco indigo stands in Leuco.
	OnIndigo quantity.Molarity
	// Bisulfite is sodium bisulfite, NaHSO3.
	Bisulfite quantity.Molarity
	// Leuco is leuco indigo brought in in its acid form or made from powder; it takes alkali by its pKa 7.97 and 12.68.
	// What comes as its salt is this with as much lye.
	Leuco quantity.Molarity
	// Iron is iron(II) sulfate that the alkali has thrown down: FeSO4 + 2 OH- = Fe(OH)2 + SO4--. Its rusting, and its
	// work on indigo, take no more alkali.
	Iron quantity.Molarity
	// Acid is strong acid, in equivalents: what sugar or ferment has made, at a pH where it is all there as its salt.
	// Below zero it is as much strong alkali; only a reading makes it so (see Reanchor).
	Acid quantity.Molarity
}

// The most that a Makeup may hold of each.
const (
	MostAlkali = quantity.Concentration(100) // of each alkali
	MostMolar  = quantity.Molarity(500)      // of each of the others; Acid from −500 to 500
)

// The temperatures that pH is reckoned for.
const (
	ColdestLiquor = water.Coldest // 0 °C
	HottestLiquor = water.Hottest // 100 °C
)

// PHError tells why no pH can be had: one sentence, without a full stop.
type PHError struct{ Reason string }

// Error is the sentence.
func (e *PHError) Error() string { return e.Reason }

func refuse(format string, args ...any) error { return &PHError{Reason: fmt.Sprintf(format, args...)} }

// Thinned is the liquor with so much of what is dissolved in it left in a litre, 1 for all, as water in the place of what was
// drawn off makes it. Lime lies on the floor and goes on dissolving: that stays.
func (m Makeup) Thinned(left float64) Makeup {
	c, n := quantity.Concentration(left), quantity.Molarity(left)
	m.SodaAsh, m.BakingSoda, m.Potash, m.Lye = m.SodaAsh*c, m.BakingSoda*c, m.Potash*c, m.Lye*c
	m.Spent, m.SpentThiourea, m.OnIndigo, m.Bisulfite = m.Spent*n, m.SpentThiourea*n, m.OnIndigo*n, m.Bisulfite*n
	m.Leuco, m.Iron, m.Acid = m.Leuco*n, m.Iron*n, m.Acid*n
	return m
}

// check refuses what the model does not cover; NaN and Inf too.
func (m Makeup) check(t quantity.Temperature) error {
	if c := t.Celsius(); !(c >= ColdestLiquor.Celsius() && c <= HottestLiquor.Celsius()) {
		return refuse("pH is reckoned from 0 to 100 °C, not at %g °C", c)
	}
	for _, a := range []struct {
		name string
		c    quantity.Concentration
	}{{"soda ash", m.SodaAsh}, {"baking soda", m.BakingSoda}, {"potash", m.Potash}, {"lye", m.Lye}, {"lime", m.Lime}} {
		if !(a.c >= 0 && a.c <= MostAlkali) {
			return refuse("%s is reckoned from 0 to %g g/L, not at %g g/L", a.name, MostAlkali.GramsPerLitre(), a.c.GramsPerLitre())
		}
	}
	for _, a := range []struct {
		name  string
		m     quantity.Molarity
		least quantity.Molarity
	}{
		{"spent dithionite", m.Spent, 0}, {"spent thiourea dioxide", m.SpentThiourea, 0}, {"dithionite spent on indigo", m.OnIndigo, 0},
		{"bisulfite", m.Bisulfite, 0}, {"leuco indigo", m.Leuco, 0}, {"iron sulfate", m.Iron, 0}, {"acid", m.Acid, -MostMolar},
	} {
		if !(a.m >= a.least && a.m <= MostMolar) {
			return refuse("%s is reckoned from %g to %g mmol/L, not at %g mmol/L", a.name, a.least.MillimolesPerLitre(),
				MostMolar.MillimolesPerLitre(), a.m.MillimolesPerLitre())
		}
	}
	if m.LimeWater && m.Lime > 0 {
		return refuse("a liquor is made with lime water or with lime, not with both")
	}
	return nil
}

// totals are what is in the liquor whatever becomes of it, in mol for a kilogram of water.
type totals struct {
	na, k, ca float64
	carbonate float64
	sulfate   float64
	sulfite   float64
	leuco     float64
	acid      float64 // equivalents of strong acid; may be below zero
	clear     bool    // lime water: no lime falls out
}

// totals reckons a Makeup by the kilogram of water. The kilograms of water in a litre, kg, are those of pure water: the
// room that alkalis take is small (soda ash and lye none, baking soda 2 mL for 10 g; from memory).
func (m Makeup) totals(kg float64) totals {
	mol := func(c quantity.Concentration, mass MolarMass) float64 {
		return c.GramsPerLitre() / mass.GramsPerMole() / kg
	}
	milli := func(m quantity.Molarity) float64 { return m.MillimolesPerLitre() / 1000 / kg }
	soda, bicarbonate, potash := mol(m.SodaAsh, MolarSodaAsh), mol(m.BakingSoda, MolarBakingSoda), mol(m.Potash, MolarPotash)
	spent, onIndigo, bisulfite := milli(m.Spent), milli(m.OnIndigo), milli(m.Bisulfite)
	x := totals{
		na:        2*soda + bicarbonate + mol(m.Lye, MolarLye) + 2*spent + 2*onIndigo + bisulfite,
		k:         2 * potash,
		ca:        mol(m.Lime, MolarSlakedLime),
		carbonate: soda + bicarbonate + potash,
		sulfate:   spent + milli(m.SpentThiourea) + milli(m.Iron),
		sulfite:   spent + 2*onIndigo + bisulfite,
		leuco:     milli(m.Leuco),
		acid:      milli(m.Acid),
		clear:     m.LimeWater,
	}
	if m.LimeWater {
		x.ca = limeWaterMolality
	}
	return x
}

// strongest is an ionic strength that the liquor cannot reach: as if each part had the highest charge it can have.
func (x *totals) strongest() float64 {
	return 2*x.carbonate + 2*x.sulfate + 2*x.sulfite + 2*x.leuco + 2*x.ca + (x.na+x.k+math.Abs(x.acid))/2 + 100
}
