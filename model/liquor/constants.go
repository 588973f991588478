package liquor

import (
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
)

// gas is the gas constant in J/(mol·K) (SI 2019, exact to the figures given).
const gas = 8.314462618

// caloric turns kilocalories, in which the older tables print enthalpies, into joules (thermochemical calorie).
const caloric = 4184.0

// atRest is what one temperature makes of the equilibria: the logarithms (to 10) of the constants at zero ionic strength, molal, at
// 1 atm, and what activities take.
type atRest struct {
	water      float64 // aH·aOH
	carbonic1  float64 // CO2 + H2O = H+ + HCO3-
	carbonic2  float64 // HCO3- = H+ + CO3--
	sulfurous1 float64 // SO2 + H2O = H+ + HSO3-
	sulfurous2 float64 // HSO3- = H+ + SO3--
	naSO4      float64 // Na+ + SO4-- = NaSO4-
	caOH       float64 // Ca++ + OH- = CaOH+
	caSO4      float64 // Ca++ + SO4-- = CaSO4, dissolved
	chalk      float64 // CaCO3, solid = Ca++ + CO3--
	lime       float64 // Ca(OH)2, solid = Ca++ + 2 OH-

	debyeHuckel
	density float64 // of water, kg/L
}

// Leuco indigo's acid constants, pKa1 and pKa2 (Etters & Hou 1991, from memory; reviews round to 8.0 and 12.7). They
// were read against the pH of a meter, so that they hold between the fractions and aH; no figure for their change with
// temperature was found, and they are kept at every °C.
const (
	leucoPKa1 = 7.97
	leucoPKa2 = 12.68
)

// The same as constants: the acid form's by H+ and the mono-ionic form, and the mono-ionic form's by H+ and the di-ionic.
var leuco1, leuco2 = power(-leucoPKa1), power(-leucoPKa2)

// LeucoForms are the shares of dissolved leuco indigo that are its acid form, which has no charge and hardly dissolves, its
// mono-ionic form, which cellulose takes up best, and its di-ionic form. They add up to 1.
type LeucoForms struct{ Acid, Mono, Di quantity.Share }

// LeucoAt gives the forms at a pH, by pKa 7.97 and 12.68 (see there; the mono-ionic form is most, 99.1 %, at 10.3).
func LeucoAt(p quantity.PH) LeucoForms {
	acid, di := power(leucoPKa1-float64(p)), power(float64(p)-leucoPKa2)
	mono := 1 / (1 + acid + di)
	return LeucoForms{Acid: quantity.Share(acid * mono), Mono: quantity.Share(mono), Di: quantity.Share(di * mono)}
}

// limeWaterMolality is the Ca(OH)2 in a kilogram of the water of lime water saturated at 25 °C, in mol: the secondary pH
// standard of the National Bureau of Standards (Bates, Bower & Smith, J. Res. NBS 56 (1956) 305; from memory).
const limeWaterMolality = 0.0203

// constantsAt gives the constants at t, which holds for any make-up.
//
// Sources: pK1, pK2 of carbonic acid and chalk (calcite): Plummer & Busenberg, Geochim. Cosmochim. Acta 46 (1982) 1011.
// Water: IAPWS R11-07(2019). NaSO4- and CaSO4: the WATEQ line of speciation codes (Plummer, Jones & Truesdell
// 1976; Parkhurst & Appelo 1999). Lime: log K 22.8 and −31.0 kcal/mol for
// Ca(OH)2 + 2 H+ = Ca++ + 2 H2O, the same. CaOH+: NIST critical constants (log K −12.697, 64.11 kJ/mol for
// Ca++ + H2O = CaOH+ + H+): the WATEQ figure, −12.78, has no enthalpy. Sulfurous acid's first constant: Goldberg &
// Parker, J. Res. NBS 90 (1985) 341. All but the carbonate and water equations are from memory.
//
// Pairs of sodium with carbonate are left out. Published sets differ: none; NaHCO3 alone; NaHCO3 with log K −0.25 and NaCO3-
// with 1.27. With the activities used here the last puts 1 % of soda ash at 25 °C at pH 11.25, where 11.37 is published,
// and NaHCO3 alone the primary carbonate standard at 0 °C 0.025 too high; none is within 0.015 of both.
func constantsAt(t quantity.Temperature) atRest {
	k := t.Celsius() + 273.15
	lg := math.Log10(k)
	density := water.Density(t)
	ionisation := 13.362 * caloric // J/mol, of water, to turn reactions with H+ into reactions with OH-
	return atRest{
		water:      -waterPK(k, density),
		carbonic1:  -356.3094 - 0.06091964*k + 21834.37/k + 126.8339*lg - 1684915/(k*k),
		carbonic2:  -107.8871 - 0.03252849*k + 5151.79/k + 38.92561*lg - 563713.9/(k*k),
		sulfurous1: vantHoff(k, -1.86, -17800),
		sulfurous2: -sulfitePK(k),
		naSO4:      vantHoff(k, 0.7, 1.12*caloric),
		caOH:       vantHoff(k, 13.9945-12.697, 64110-ionisation),
		caSO4:      vantHoff(k, 2.30, 1.325*caloric),
		chalk:      -171.9065 - 0.077993*k + 2839.319/k + 71.595*lg,
		lime:       vantHoff(k, 22.8-2*13.9945, -31.0*caloric+2*ionisation),

		debyeHuckel: newDebyeHuckel(k, density),
		density:     density,
	}
}

// power is 10^x.
func power(x float64) float64 { return math.Exp(x * math.Ln10) }

// debyeHuckel holds the two coefficients of the Debye–Hückel equation in water of one temperature.
type debyeHuckel struct {
	a float64 // kg½/mol½: 0.489 at 0 °C, 0.509 at 25 °C
	b float64 // kg½/(mol½·Å): 0.33
}

// newDebyeHuckel gives the coefficients from the temperature in kelvin and the density of water in kg/L (Truesdell &
// Jones 1974, the constants in the form for the molal scale).
func newDebyeHuckel(k, density float64) debyeHuckel {
	e := dielectric(k)
	root := math.Sqrt(density / (e * k))
	return debyeHuckel{a: 1.82483e6 * root / (e * k), b: 50.2916 * root}
}

// dielectric is the dielectric constant of water at 1 bar: Bradley & Pitzer, J. Phys. Chem. 83 (1979) 1599, eq. 2 to 4
// and table II: 87.9 at 0 °C, 78.4 at 25 °C. Within 0.05 % of IAPWS R8.
func dielectric(k float64) float64 {
	d1000 := 342.79 * math.Exp(-5.0866e-3*k+9.4690e-7*k*k)
	c := -2.0525 + 3115.9/(k-182.89)
	b := -8032.5 + 4.2142e6/k + 2.1417*k
	return d1000 + c*math.Log((b+1)/(b+1000))
}

// vantHoff is log K at k kelvin from log K at 25 °C and the enthalpy of the reaction in J/mol, taken as constant.
func vantHoff(k, logK25, enthalpy float64) float64 {
	return logK25 + enthalpy/(gas*math.Ln10)*(1/298.15-1/k)
}

// waterPK is pKw at 1 atm by IAPWS R11-07(2019), eq. 3 and 4 and table 1 (n = 6, mass of water 18.015268 g/mol), from k
// in kelvin and the density of water in kg/L: 14.946 at 0 °C, 13.995 at 25 °C.
func waterPK(k, density float64) float64 {
	const (
		n                      = 6
		alpha0, alpha1, alpha2 = -0.864671, 8659.19, -22786.2
		beta0, beta1, beta2    = 0.642044, -56.8534, -0.375754
	)
	cubeRoot := math.Cbrt(density)
	q := density * math.Exp(alpha0+alpha1/k+alpha2/(k*k)*cubeRoot*cubeRoot)
	gasPhase := 0.61415 + 48251.33/k - 67707.93/(k*k) + 10102100/(k*k*k)
	return -2*n*(math.Log10(1+q)-q/(q+1)*density*(beta0+beta1/k+beta2*density)) + gasPhase + 2*math.Log10(0.018015268)
}

// sulfitePK is pKa2 of sulfurous acid. carbonate_constants.csv gives it from 0 to 60 °C out of an open geochemical
// database; this is the equation of Clarke & Glew (1966) with a constant heat capacity through the table's own
// figures at 0, 25 and 60 °C. Goldberg & Parker 1985 have 7.17 at 25 °C.
func sulfitePK(k float64) float64 {
	const (
		pK25     = 7.2316
		enthalpy = -9890.0 // J/mol at 25 °C
		capacity = -195.9  // J/(mol·K)
		t0       = 298.15
	)
	lnK := -pK25*math.Ln10 + enthalpy/gas*(1/t0-1/k) + capacity/gas*(t0/k-1+math.Log(k/t0))
	return -lnK / math.Ln10
}
