package liquor

import (
	"math"
	"testing"
)

// The dielectric constant of water: 87.90, 78.41, 69.88 and 55.58 at 0, 25, 50 and 100 °C (IAPWS R8-97, from memory).
func TestDielectricConstant(t *testing.T) {
	for c, want := range map[float64]float64{0: 87.90, 25: 78.41, 50: 69.88, 100: 55.5} {
		if e := dielectric(c + 273.15); math.Abs(e/want-1) > 2e-3 {
			t.Errorf("%g °C: %.2f, want %.2f", c, e, want)
		}
	}
}

// Without salt every activity is the concentration; with salt, ions of one charge keep more of theirs than ions of two;
// at 0.1 mol/kg hydroxide has 0.76 (Kielland 1937, table 1) and carbonate 0.37 (the same).
func TestActivityCoefficients(t *testing.T) {
	d := newDebyeHuckel(298.15, 0.99705)
	for _, s := range []ionSize{sizeH, sizeOH, sizeNa, sizeCa, sizeCO3, sizeHCO3, sizeSO4, sizeSO3, sizeHSO3, sizeCaOH} {
		if g := power(d.log(s, 0)); g != 1 {
			t.Errorf("%v without salt: %g", s, g)
		}
	}
	root := math.Sqrt(0.1)
	if g := power(d.log(sizeOH, root)); math.Abs(g-0.76) > 0.01 {
		t.Errorf("hydroxide: %.3f", g)
	}
	if g := power(d.log(sizeCO3, root)); math.Abs(g-0.37) > 0.03 {
		t.Errorf("carbonate: %.3f", g)
	}
}
