package liquor

import (
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

// oxygen_saturation.csv, both pressures: 0.02 mg/L is allowed where the equation is published, 0–40 °C. Above it the
// table is the same equation extrapolated, and it is held to as much.
func TestAgainstBensonKrause(t *testing.T) {
	var worst, beyond float64
	for _, r := range rowsOf(t, "oxygen_saturation.csv") {
		c := figure(t, r[0])
		for i, p := range map[int]float64{1: 0, 4: 0.9 * 101325} {
			got, err := Oxygen(quantity.Celsius(c), quantity.Pascals(p))
			if err != nil {
				t.Fatal(err)
			}
			d := math.Abs(got.GramsPerLitre()*1000 - figure(t, r[i]))
			if c <= 40 {
				worst = math.Max(worst, d)
			} else {
				beyond = math.Max(beyond, d)
			}
			if d > 0.02 {
				t.Errorf("%v °C, column %d: %.3f mg/L for %s", c, i, got.GramsPerLitre()*1000, r[i])
			}
		}
	}
	t.Logf("largest deviation %.5f mg/L at 0–40 °C, %.5f above", worst, beyond)
}

// Dissolved air in the trade's working knowledge: 9.1 mg/L at 20 °C, about 6 at 40 °C, eating 0.05 and 0.035 g of dithionite a litre (K).
func TestWhatTheWaterEats(t *testing.T) {
	for _, c := range []struct{ celsius, mg, dithionite, well float64 }{{20, 9.1, 0.05, 0.001}, {40, 6.4, 0.035, 0.001}} {
		o, err := Oxygen(quantity.Celsius(c.celsius), 0)
		if err != nil || math.Abs(o.GramsPerLitre()*1000-c.mg) > 0.05 {
			t.Errorf("%v °C: %v, %v", c.celsius, o, err)
		}
		if g := o.GramsPerLitre() / float64(MolarOxygen) * float64(MolarDithionite); math.Abs(g-c.dithionite) > c.well {
			t.Errorf("%v °C: %.4f g of dithionite a litre for %v", c.celsius, g, c.dithionite)
		}
	}
}

func TestOxygenRefuses(t *testing.T) {
	for _, c := range []struct {
		celsius, pascals float64
		says             string
	}{
		{-1, 0, "0 °C to 100 °C"}, {101, 0, "0 °C to 100 °C"}, {math.NaN(), 0, "outside"},
		{20, 1013, "500 hPa"}, {20, 2e5, "1120 hPa"}, {20, math.NaN(), "air pressure"}, {20, -5, "air pressure"},
		{95, 60000, "boils"},
	} {
		_, err := Oxygen(quantity.Celsius(c.celsius), quantity.Pascals(c.pascals))
		if err == nil || !strings.Contains(err.Error(), c.says) || strings.HasSuffix(err.Error(), ".") {
			t.Errorf("%v °C, %v Pa: %v", c.celsius, c.pascals, err)
		}
	}
}

// Warmer water and thinner air hold less, all the way to boiling; nothing jumps.
func TestOxygenFallsSmoothly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(0, 99.9).Draw(t, "c")
		p := quantity.Pascals(rapid.Float64Range(100000, 111000).Draw(t, "p"))
		a, err := Oxygen(quantity.Celsius(c), p)
		b, err2 := Oxygen(quantity.Celsius(c+0.1), p)
		if err != nil || err2 != nil {
			if c < 99 {
				t.Fatal(err, err2)
			}
			return
		}
		if !(b >= 0 && b <= a && a-b < 5e-5) {
			t.Fatalf("%v and %v at %v °C", a, b, c)
		}
		thin, err := Oxygen(quantity.Celsius(c), p*0.95)
		if err == nil && thin > a {
			t.Fatalf("%v in thinner air for %v", thin, a)
		}
	})
	if o, err := Oxygen(quantity.Celsius(100), 0); err != nil || o != 0 {
		t.Errorf("boiling water holds %v, %v", o, err)
	}
}
