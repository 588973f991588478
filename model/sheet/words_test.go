package sheet

import (
	"testing"

	"example.org/vatside/model/shade"
)

// Cloth that was dipped is never called undyed: below what an eye tells, as silk of a short dip, it is pale.
func TestADippedPieceIsNotUndyed(t *testing.T) {
	for ks, want := range map[shade.KS]string{0: "pale", 0.05: "pale", 0.2: "milk", 10: "mid"} {
		if got := blue(shade.NaturalSilk.Colour(ks), shade.NaturalSilk); got.Name != want {
			t.Errorf("silk of K/S %g is %q, not %q", float64(ks), got.Name, want)
		}
	}
}
