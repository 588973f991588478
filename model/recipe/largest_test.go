package recipe

import (
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

// 38 g of indigo at 1.5 g/L are enough for 25.3 L, 120 g of soda ash at 6 g/L for 20 L.
func TestSodaAshLimits(t *testing.T) {
	fill, by, err := Largest(builtin(t, "soda"), map[string]quantity.Mass{"indigo": 38, "soda": 120}, Options{})
	if err != nil || by != "soda" || !near(float64(fill), 20) {
		t.Errorf("%v L by %q, %v", fill, by, err)
	}
}

func TestWeakIndigoLimits(t *testing.T) {
	fill, by, err := Largest(builtin(t, "soda"), map[string]quantity.Mass{"indigo": 38, "soda": 120}, Options{IndigoStrength: 0.3})
	if err != nil || by != "indigo" || !near(float64(fill), 38.0/3) {
		t.Errorf("%v L by %q, %v", fill, by, err)
	}
}

func TestLargestUndoesScale(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := builtin(t, rapid.SampledFrom(ids).Draw(rt, "recipe"))
		fill := quantity.Volume(rapid.Float64Range(0.2, 9000).Draw(rt, "fill"))
		opt := Options{IndigoStrength: quantity.Share(rapid.Float64Range(0.3, 1).Draw(rt, "strength"))}
		a, err := Scale(r, fill, opt)
		if err != nil {
			rt.Fatal(err)
		}
		short := rapid.SampledFrom(r.Powders).Draw(rt, "short").ID
		have := map[string]quantity.Mass{}
		for _, m := range a.Powders {
			have[m.Powder.ID] = m.Grams * 2
			if m.Powder.ID == short {
				have[short] = m.Grams
			}
		}
		got, by, err := Largest(r, have, opt)
		if err != nil || by != short || !near(float64(got), float64(fill)) {
			rt.Fatalf("%v L by %q, %v", got, by, err)
		}
	})
}

func TestWhatIsLeftCannotBe(t *testing.T) {
	soda := builtin(t, "soda")
	for want, have := range map[string]map[string]quantity.Mass{
		"it has indigo, soda, reducer": {"lime": 10},
		"cannot be on the shelf":       {"soda": -1},
		"NaN g of soda":                {"soda": quantity.Mass(math.NaN())},
		"too little for any vat":       {"soda": 0, "indigo": 10},
		"at least one powder":          {},
		"between 0.1 L and 10,000 L":   {"soda": 1e9},
	} {
		if _, _, err := Largest(soda, have, Options{}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want %q: %v", want, err)
		}
	}
	if _, _, err := Largest(soda, map[string]quantity.Mass{"soda": 10}, Options{IndigoStrength: 3}); err == nil {
		t.Error("indigo of 300 % is taken")
	}
}
