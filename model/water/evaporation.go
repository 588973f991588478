package water

import (
	"cmp"
	"math"

	"example.org/vatside/model/quantity"
)

// Evaporation is how fast an open surface gives off water, in kilograms a square metre and hour.
type Evaporation float64

// From is what a surface gives off in a span.
func (e Evaporation) From(surface quantity.Area, span quantity.Span) quantity.Mass {
	return quantity.Kilograms(float64(e) * surface.SquareMetres() * span.Hours())
}

// Flux is the latent heat of it in watts a square metre of water at a temperature.
func (e Evaporation) Flux(water quantity.Temperature) float64 {
	return float64(e) / 3600 * LatentHeat(water) * 1000
}

// The constants of moist air (ASHRAE Handbook Fundamentals, chapter 1) and of Shah's formulas.
const (
	dryAirConstant = 287.042  // J/(kg K)
	massRatio      = 0.621945 // of water to air, by the mole
	shahRising     = 35.0     // kg/(m² h), his eq. for air that rises by itself
	shahStill      = 5e-5     // kg/(m² h Pa), his eq. for air that does not rise: what a room's slight draught takes
)

// Shah is the evaporation from an undisturbed open surface in still air by M. M. Shah, "Rate of evaporation from
// undisturbed water pools to quiet air: evaluation of available correlations" (International Journal of HVAC&R Research
// 8(2), 2002): E = 35 ρw (ρr − ρw)^⅓ (Ww − Wr) while the air at the surface is lighter than that of the room, with ρ the
// kilograms of dry air in a cubic metre of moist air and W the humidity ratio, w at the surface, r in the room; and
// E = 0.00005 (pw − pr) where it is not. His is the greater of the two; here they run into one another, as the eighth
// root of the sum of their eighth powers, which is 0.2 % above the greater at 25 °C in a room of 20 °C and 50 %, and
// less where it is warmer. His mean deviation from measurements is 18 %. Where the air would give water to the vat it
// is 0, never below.
//
// Water above its boiling point in thin air is reckoned with the air's pressure: nothing there is to be relied on. Water
// outside 0–100 °C, or air that cannot be, gives a *LimitError.
func Shah(water quantity.Temperature, a Air) (Evaporation, error) {
	if err := cmp.Or(within(water), a.Check()); err != nil {
		return 0, err
	}
	return a.shah(water), nil
}

// shah is Shah for what has been checked.
func (a Air) shah(water quantity.Temperature) Evaporation {
	p, kw, kr := a.pascals(), kelvin(water), a.kelvins()
	ps, _ := saturation(kw)
	pw, pr := math.Min(ps, p), a.vapour() // above its boiling point water is reckoned as boiling
	if !(pw > pr) {
		return 0
	}
	// The dry air in a cubic metre; ρw Ww is the vapour in one at the surface, and Wr the room's humidity ratio.
	surface, room := (p-pw)/(dryAirConstant*kw), (p-pr)/(dryAirConstant*kr)
	still, rising := shahStill*(pw-pr), 0.0
	if room > surface {
		vapour := massRatio * pw / (dryAirConstant * kw)
		rising = shahRising * math.Cbrt(room-surface) * math.Max(0, vapour-surface*massRatio*pr/(p-pr))
	}
	return Evaporation(either(rising, still, 8))
}

// either is the greater of two numbers not below 0, with the corner between them rounded: (aⁿ + bⁿ)^(1/n).
func either(a, b float64, n int) float64 {
	if a < b {
		a, b = b, a
	}
	if !(a > 0) {
		return 0
	}
	small := 1.0
	for range n {
		small *= b / a
	}
	switch {
	case small < 1e-17:
		return a
	case n == 8:
		return a * math.Sqrt(math.Sqrt(math.Sqrt(1+small)))
	}
	return a * math.Exp(math.Log(1+small)/float64(n))
}
