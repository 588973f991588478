package recipe

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

var ids = []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"}

// near tells whether two numbers are the same but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(1+math.Abs(a)+math.Abs(b)) }

func grams(t testing.TB, a Amounts, id string) float64 {
	t.Helper()
	m, ok := a.Of(id)
	if !ok {
		t.Fatalf("no %s", id)
	}
	return m.Grams.Grams()
}

// Common practice, no source: 5 g, 12.5 g and 25 g for each US gallon are 20, 50, 100 g for 4 gallons and 140, 350,
// 700 g for 28.
func TestGramsForEachGallon(t *testing.T) {
	r, faults := Parse("gallon-good.toml", read(t, filepath.Join(cases, "gallon-good.toml")))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	const gallon = 3.785411784 // L, exact
	for gallons, want := range map[float64][3]float64{4: {20, 50, 100}, 28: {140, 350, 700}} {
		a, err := Scale(r, quantity.Litres(gallons*gallon), Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i, id := range []string{"indigo", "reducer", "soda"} {
			if got := grams(t, a, id); math.Abs(got-want[i]) > 1e-6 {
				t.Errorf("%g gallons: %g g of %s, want %g", gallons, got, id, want[i])
			}
		}
	}
}

func TestSodaFor60Litres(t *testing.T) {
	a, err := Scale(builtin(t, "soda"), 60, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{"indigo": 90, "soda": 360, "reducer": 120} {
		if got := grams(t, a, id); !near(got, want) {
			t.Errorf("%s %g g, want %g", id, got, want)
		}
	}
	paste, _ := a.Of("indigo") // 90 g at 20 mL/g is 1.8 L: three jars of at most 0.7 L
	if !near(float64(paste.Hydrate), 1.8) || !near(float64(paste.Rinse), 0.9) || paste.Jars != 3 {
		t.Errorf("paste %v L, rinse %v L, %d jars", paste.Hydrate, paste.Rinse, paste.Jars)
	}
	if want := 60 - 1.8 - 0.9 - 3.6; !near(float64(a.FillWater), want) {
		t.Errorf("fill water %v L, want %v", a.FillWater, want)
	}
}

func TestStockOfLyeVat(t *testing.T) {
	r := builtin(t, "lye")
	a, err := Scale(r, 20, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]float64{"indigo": 30, "lye": 22.5, "reducer": 60, "soda": 60, "clearing": 6} {
		if got := grams(t, a, id); !near(got, want) {
			t.Errorf("%s %g g, want %g", id, got, want)
		}
	}
	if !near(float64(a.StockVolume), 1.2) || !near(float64(a.StockWater), 1.2-0.3-0.225) || !near(float64(a.FillWater), 20-1.2-0.6) {
		t.Errorf("stock %v L, of it water %v L, fill %v L", a.StockVolume, a.StockWater, a.FillWater)
	}
}

func TestOnlyTheIndigoChangesWithItsStrength(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := builtin(t, rapid.SampledFrom(ids).Draw(rt, "recipe"))
		fill := quantity.Volume(rapid.Float64Range(0.1, 10000).Draw(rt, "fill"))
		s := quantity.Share(rapid.Float64Range(0.3, 1).Draw(rt, "strength"))
		own, err := Scale(r, fill, Options{})
		if err != nil {
			rt.Fatal(err)
		}
		opt := Options{IndigoStrength: s}
		if rapid.Bool().Draw(rt, "by id") {
			opt = Options{IndigoStrength: 0.5, Strength: map[string]quantity.Share{"indigo": s}}
		}
		other, err := Scale(r, fill, opt)
		if err != nil {
			rt.Fatal(err)
		}
		for i, m := range other.Powders {
			was := own.Powders[i]
			if m.Powder.Role != Indigo {
				if m.Grams != was.Grams {
					rt.Fatalf("%s: %v g, was %v g", m.Powder.ID, m.Grams, was.Grams)
				}
				continue
			}
			if !near(float64(m.Grams)*float64(s), float64(was.Grams)*float64(m.Powder.Strength)) {
				rt.Fatalf("pure indigo has changed: %v g of %v", m.Grams, s)
			}
		}
	})
}

func TestAmountsGrowWithTheFillAndTheWatersMakeIt(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := builtin(t, rapid.SampledFrom(ids).Draw(rt, "recipe"))
		fill := quantity.Volume(rapid.Float64Range(0.2, 5000).Draw(rt, "fill"))
		k := rapid.Float64Range(0.5, 2).Draw(rt, "times")
		one, err := Scale(r, fill, Options{})
		if err != nil {
			rt.Fatal(err)
		}
		more, err := Scale(r, quantity.Volume(float64(fill)*k), Options{})
		if err != nil {
			rt.Fatal(err)
		}
		waters := one.FillWater + one.StockWater
		for i, m := range one.Powders {
			if !near(float64(m.Grams)*k, float64(more.Powders[i].Grams)) {
				rt.Fatalf("%s does not grow with the fill", m.Powder.ID)
			}
			if (m.Jars > 0) != (m.Hydrate > 0) || m.Jars > 0 && float64(m.Hydrate)/float64(m.Jars) > 0.7+1e-6 {
				rt.Fatalf("%v in %d jars", m.Hydrate, m.Jars)
			}
			waters += m.Hydrate + m.Rinse + m.Dissolve
		}
		if !near(float64(waters), float64(fill)) {
			rt.Fatalf("the waters come to %v, the fill is %v", waters, fill)
		}
	})
}

func TestImpossibleFillsGetOneSentence(t *testing.T) {
	r := builtin(t, "soda")
	for _, v := range []float64{0, -3, math.NaN(), math.Inf(1), math.Inf(-1), 1e9, 0.01} {
		_, err := Scale(r, quantity.Volume(v), Options{})
		if err == nil || strings.Contains(err.Error(), "\n") || len(err.Error()) > 90 {
			t.Errorf("%v L: %v", v, err)
		}
	}
}

func TestOptionsThatCannotBe(t *testing.T) {
	soda := builtin(t, "soda")
	for want, opt := range map[string]Options{
		"between 2 % and 100 %":          {IndigoStrength: 1.2},
		"of 1 % strength":                {IndigoStrength: 0.01},
		"of -30 % strength":              {IndigoStrength: -0.3},
		"it has indigo, soda, reducer":   {Strength: map[string]quantity.Share{"sody": 0.5}},
		"is alkali":                      {Strength: map[string]quantity.Share{"soda": 0.5}},
		"indigo of 0 % strength":         {Strength: map[string]quantity.Share{"indigo": 0}},
		"indigo of NaN % strength":       {IndigoStrength: quantity.Share(math.NaN())},
		`"lye", "thiourea"`:              {IndigoForm: PowderForm},
		"take stronger indigo, or less ": {IndigoStrength: 0.02},
	} {
		if _, err := Scale(soda, 20, opt); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want %q: %v", want, err)
		}
	}
	if _, err := Scale(builtin(t, "lye"), 20, Options{IndigoForm: PreReduced}); err == nil || !strings.Contains(err.Error(), `take "soda"`) {
		t.Error(err)
	}
	if _, err := Scale(soda, 20, Options{IndigoForm: PreReduced}); err != nil {
		t.Error(err)
	}
	if _, err := Scale(builtin(t, "lye"), 20, Options{IndigoStrength: 0.1}); err == nil || !strings.Contains(err.Error(), "1.2 L of stock") {
		t.Error(err)
	}
}
