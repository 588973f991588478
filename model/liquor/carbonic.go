package liquor

import (
	"math"

	"example.org/vatside/model/quantity"
)

// airing is how fast free carbonic acid leaves an open surface, in m/h. The film theory gives √(kL² + D·k) with D 3.2·10⁻⁹
// m²/s and k 3 a second, by which bicarbonate makes carbonic acid anew at pH 9.3 and 45 °C: 0.35 m/h quiet, little more
// when stirred. Reckoned from figures from memory; a heater that boils at its own wall drives off more.
var airing = quantity.Range[float64]{Low: 0.1, Likely: 0.4, High: 1.2}

// airHolds is the free carbonic acid of water that has stood in air, mol/L: 0.0086 at 45 °C, 0.014 mmol/L at 25 (Henry's
// constant 0.034 mol/(L·atm) at 25 °C, 2400 K; 420 ppm; from memory).
func airHolds(t quantity.Temperature) float64 {
	k := t.Celsius() + 273.15
	return 0.034 * math.Exp(2400*(1/k-1/298.15)) * 420e-6
}

// airSteps is in how many steps a loss is reckoned, each at the pace that the last has left.
const airSteps = 4

// CarbonDioxideLost is the carbon dioxide that a liquor gives off to the air in a time: 2 HCO3- = CO3-- + CO2 + H2O. At pH 9.3 and
// 45 °C an open vat of 60 L with 0.12 m² loses about 1 mmol/L in a day, which lifts its pH by 0.03; at pH 8.8 three times as much. 0
// for a liquor without baking soda. It refuses what PH refuses.
func CarbonDioxideLost(m Makeup, t quantity.Temperature, surface quantity.Area, q Quiet, fill quantity.Volume, in quantity.Span) (quantity.Range[quantity.Molarity], error) {
	var none quantity.Range[quantity.Molarity]
	if err := m.check(t); err != nil {
		return none, err
	}
	if !(m.BakingSoda > 0) || !(fill > 0) || !(surface > 0) || !(in > 0) {
		return none, nil
	}
	metres := surface.SquareMetres() / fill.Litres() * 1000 * q.letsThrough() * in.Hours() / airSteps
	k := constantsAt(t)
	return quantity.Map(airing, func(v float64) quantity.Molarity {
		lost, is := quantity.Molarity(0), usual
		for range airSteps {
			is = m.Aired(lost).solveAt(&k, is)
			free := notBelowZero(is.carbonicAcid*k.density - airHolds(t)) // mol/L
			lost += quantity.Molarity(v * metres * free * 1000)
		}
		return min(lost, quantity.Molarity(m.BakingSoda.GramsPerLitre()/MolarBakingSoda.GramsPerMole()*1000/2))
	}), nil
}

// Aired is the liquor with so much carbon dioxide gone from its baking soda: two of it become one of soda ash. No more goes
// than there is.
func (m Makeup) Aired(lost quantity.Molarity) Makeup {
	mol := notBelowZero(lost.MillimolesPerLitre()) / 1000
	mol = math.Min(mol, m.BakingSoda.GramsPerLitre()/MolarBakingSoda.GramsPerMole()/2)
	m.BakingSoda -= quantity.GramsPerLitre(2 * mol * MolarBakingSoda.GramsPerMole())
	m.BakingSoda = max(m.BakingSoda, 0)
	m.SodaAsh += quantity.GramsPerLitre(mol * MolarSodaAsh.GramsPerMole())
	return m
}
