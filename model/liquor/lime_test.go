package liquor

import (
	"math"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
)

// lime_water_ph.csv (NBS secondary standard): ±0.05 from 20 to 50 °C asked; held from 0 °C on.
func TestLimeWater(t *testing.T) {
	rows, _ := tableOf(t, "lime_water_ph.csv")
	var w worst
	for _, r := range rows {
		if p := solved(t, Makeup{LimeWater: true}, r["t_C"]); w.see(p, r["pHS_lit"], r["t_C"]) > 0.05 {
			t.Errorf("%g °C: pH %.3f, standard %.3f", r["t_C"], p, r["pHS_lit"])
		}
	}
	t.Logf("largest deviation %.4f at %g °C", w.by, w.at)
}

// dissolves is how much lime dissolves, g/L: where more of it no longer raises pH.
func dissolves(t *testing.T, c float64) float64 {
	full := solved(t, Makeup{Lime: 50}, c)
	low, high := 0.0, 50.0
	for high-low > 1e-6 {
		mid := (low + high) / 2
		if solved(t, Makeup{Lime: quantity.Concentration(mid)}, c) < full-1e-9 {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// The solubility of lime, g for 100 g of water: 0.185 at 0 °C to 0.094 at 80 °C (handbook, from memory; handbooks differ
// by 5 %). At 25 °C the NBS standard has 0.0203 mol/kg.
func TestLimeDissolvesLessWhenWarm(t *testing.T) {
	for _, c := range []struct{ c, want float64 }{{0, 1.85}, {10, 1.76}, {20, 1.65}, {30, 1.53}, {40, 1.41}, {50, 1.28}, {60, 1.16}, {80, 0.94}} {
		got := dissolves(t, c.c) / water.Density(quantity.Celsius(c.c))
		t.Logf("%g °C: %.3f g/kg, handbook %.2f", c.c, got, c.want)
		if math.Abs(got/c.want-1) > 0.20 {
			t.Errorf("%g °C: %.3f g/kg, handbook %.2f", c.c, got, c.want)
		}
	}
	if got := dissolves(t, 25) / water.Density(25) / MolarSlakedLime.GramsPerMole(); math.Abs(got/limeWaterMolality-1) > 0.05 {
		t.Errorf("25 °C: %.4f mol/kg, standard %.4f", got, limeWaterMolality)
	}
}

// Lime in a soda liquor makes chalk and lye: as much lime as soda ash comes near the lye that both would make.
func TestLimeCausticises(t *testing.T) {
	soda := quantity.GramsPerLitre(5)
	lime := quantity.Concentration(float64(soda) * float64(MolarSlakedLime/MolarSodaAsh))
	lye := quantity.Concentration(2 * float64(soda) * float64(MolarLye/MolarSodaAsh))
	both, pure := solved(t, Makeup{SodaAsh: soda, Lime: lime}, 40), solved(t, Makeup{Lye: lye}, 40)
	if both < solved(t, Makeup{SodaAsh: soda}, 40)+0.7 || both > pure+0.01 || both < pure-0.15 {
		t.Errorf("pH %.3f, of the lye %.3f", both, pure)
	}
}

// Lime bleeds away into a large sink of carbonate: a trace in a soda liquor is all chalk, and pH rises as by that lye.
func TestTraceOfLimeInSoda(t *testing.T) {
	base := Makeup{SodaAsh: 10}
	with, lye := base, base
	with.Lime = 0.05
	// Each lime takes one carbonate away and leaves two hydroxides.
	lye.Lye = quantity.Concentration(2 * 0.05 * float64(MolarLye/MolarSlakedLime))
	lye.SodaAsh -= quantity.Concentration(0.05 * float64(MolarSodaAsh/MolarSlakedLime))
	if a, b := solved(t, with, 40), solved(t, lye, 40); math.Abs(a-b) > 0.005 {
		t.Errorf("pH %.4f with lime, %.4f with its lye", a, b)
	}
}
