package water

import (
	"math"

	"example.org/vatside/model/quantity"
)

// The constants of IAPWS SR1-86(1992), "Revised Supplementary Release on Saturation Properties of Ordinary Water
// Substance": the critical point, and the coefficients of eq. 1 (pressure) and eq. 3 (density of the vapour).
const (
	criticalTemp     = 647.096  // K
	criticalPressure = 22.064e6 // Pa
	criticalDensity  = 322.0    // kg/m³
)

var (
	pressureTerms = []coefficient{{-7.85951783, 2}, {1.84408259, 3}, {-11.7866497, 6}, {22.6807411, 7}, {-15.9618719, 8}, {1.80122502, 15}}      // by √τ
	vapourTerms   = []coefficient{{-2.03150240, 2}, {-2.68302940, 4}, {-5.38626492, 8}, {-17.2991605, 18}, {-44.7586581, 37}, {-63.9201063, 71}} // by θ^(1/6)
)

// saturation is the pressure of water vapour over water in Pa at k kelvins (SR1-86, eq. 1), and its slope in Pa/K
// (eq. 2). Below 0 °C it is that over water not yet frozen, as weather reports reckon humidity.
func saturation(k float64) (p, slope float64) {
	tau := 1 - k/criticalTemp
	root := math.Sqrt(tau)
	value, d := sum(pressureTerms, root) // d by τ, times 2 τ √τ
	d /= 2 * tau * root
	p = criticalPressure * math.Exp(criticalTemp/k*value)
	return p, -p / k * (d + criticalTemp/k*value)
}

// LatentHeat is the heat that a kilogram of water takes up when it evaporates, in kJ/kg: 2500.9 at 0 °C, 2381.9 at 50,
// 2256.4 at 100. It is T (v″ − v′) dp/dT, with the pressure and the vapour's density of IAPWS SR1-86 (eqs. 2 and 3).
func LatentHeat(t quantity.Temperature) float64 {
	k := kelvin(t)
	theta := 1 - k/criticalTemp
	ln, _ := sum(vapourTerms, math.Sqrt(math.Cbrt(theta)))
	_, slope := saturation(k)
	return k * (1/(criticalDensity*math.Exp(ln)) - specificVolume(k)) * slope / 1000
}

// Air is the air round a vat: its temperature, −40 to 100 °C, which the walls of the room share; its relative humidity;
// and its pressure, where 0 stands for the standard atmosphere, 101325 Pa.
type Air struct {
	Temp     quantity.Temperature
	Humidity quantity.Share
	Pressure quantity.Pressure
}

// The bounds of the air: the coldest and the hottest that the equations of this package still serve, and pressures from
// 5000 m of height to more than was ever measured.
const (
	coldestAir  = quantity.Temperature(-40)
	thinnestAir = quantity.Pressure(50000)
	densestAir  = quantity.Pressure(110000)
)

// Check refuses air that cannot be, with a *LimitError.
func (a Air) Check() error {
	switch {
	case !(a.Temp >= coldestAir && a.Temp <= Hottest):
		return limit("% is no temperature of air here; it goes from % to %", a.Temp, coldestAir, Hottest)
	case !(a.Humidity >= 0 && a.Humidity <= 1):
		return limit("% is no humidity of air; it goes from % to %", a.Humidity, quantity.Share(0), quantity.Share(1))
	case a.Pressure != 0 && !(a.Pressure >= thinnestAir && a.Pressure <= densestAir):
		return limit("% is no pressure of air here; it goes from % to %", a.Pressure, thinnestAir, densestAir)
	}
	return nil
}

// pascals is the pressure, the standard one if it is left out.
func (a Air) pascals() float64 {
	if a.Pressure == 0 {
		return atmosphere
	}
	return a.Pressure.Pascals()
}

func (a Air) kelvins() float64 { return a.Temp.Celsius() + 273.15 }

// vapour is the pressure of the water in the air, in Pa.
func (a Air) vapour() float64 {
	p, _ := saturation(a.kelvins())
	return a.Humidity.Fraction() * math.Min(p, a.pascals())
}
