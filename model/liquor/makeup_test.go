package liquor

import (
	"math"
	"testing"

	"example.org/vatside/model/quantity"
)

// What is the same for the pH gives the same pH, whatever it is called.
func TestSameMatterSamePH(t *testing.T) {
	const mmol = 20.0
	g := func(m MolarMass, x float64) quantity.Concentration {
		return quantity.GramsPerLitre(x / 1000 * m.GramsPerMole())
	}
	for _, c := range []struct {
		what string
		a, b Makeup
	}{
		{"bicarbonate and lye are soda ash", Makeup{BakingSoda: g(MolarBakingSoda, mmol), Lye: g(MolarLye, mmol)}, Makeup{SodaAsh: g(MolarSodaAsh, mmol)}},
		{"dithionite on indigo is two bisulfites, less the lye they hold back", Makeup{SodaAsh: 10, OnIndigo: 5}, Makeup{SodaAsh: 10, Bisulfite: 10}},
	} {
		if a, b := solved(t, c.a, 35), solved(t, c.b, 35); math.Abs(a-b) > 1e-6 {
			t.Errorf("%s: %.5f, %.5f", c.what, a, b)
		}
	}
	// A spent dithionite takes two lyes: with them put back, what is left is a neutral salt with sulfite, pH 9 or so.
	if p := solved(t, Makeup{Spent: 10, Lye: g(MolarLye, 20)}, 25); p < 8.5 || p > 10 {
		t.Errorf("sodium sulfite and sulfate: pH %.2f", p)
	}
	// Thiourea dioxide takes the same two.
	if p := solved(t, Makeup{SpentThiourea: 10, Lye: g(MolarLye, 20)}, 25); math.Abs(p-7) > 0.02 {
		t.Errorf("sodium sulfate: pH %.2f", p)
	}
	// Iron sulfate with its two lyes is sodium sulfate as well.
	if p := solved(t, Makeup{Iron: 10, Lye: g(MolarLye, 20)}, 25); math.Abs(p-7) > 0.02 {
		t.Errorf("iron thrown down: pH %.2f", p)
	}
}

// A dyer's advice for wool: soda ash 2 and baking soda 6 g/L, with 1 g/L of dithionite spent, lies between pH 8.8 and 9.3
// up to 45 °C.
func TestWoolLiquor(t *testing.T) {
	spent := quantity.MillimolesPerLitre(1000 / MolarDithionite.GramsPerMole())
	for _, c := range []float64{25, 35, 45} {
		p := solved(t, Makeup{SodaAsh: 2, BakingSoda: 6, Spent: spent}, c)
		t.Logf("%g °C: pH %.2f spent, %.2f fresh", c, p, solved(t, Makeup{SodaAsh: 2, BakingSoda: 6}, c))
		if p < 8.8 || p > 9.3 {
			t.Errorf("%g °C: pH %.2f", c, p)
		}
	}
}
