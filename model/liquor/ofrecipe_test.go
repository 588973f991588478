package liquor_test

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// rounding is what a recipe's pH, given to one decimal, may be off by.
const rounding = 0.05

// Every built-in recipe's ph_fresh is within 0.15 of what its doses give as built, and its ph holds what they give from
// fresh to all of the reducer spent, at the low, the aim and the high °C. Where acids decide (sugar–lime, ferment), how
// much of them is made is an estimate, and the low end of ph is what the dyer keeps the vat above: there the fresh end, which is
// the alkali's, must lie within, and the end with all of the acid must not lie below.
func TestPHOfTheRecipes(t *testing.T) {
	for _, r := range builtin(t) {
		l := r.Liquor
		fresh, spent := makeup(t, r, 0), makeup(t, r, 1)
		built := pH(t, fresh, l.Build)
		t.Logf("%s: ph %g to %g, fresh %g; reckoned as built %.2f at %v", r.ID, l.PHLow, l.PHHigh, l.PHFresh, built, l.Build)
		if math.Abs(built-l.PHFresh) > 0.15 {
			t.Errorf("%s: ph_fresh %g, reckoned %.2f", r.ID, l.PHFresh, built)
		}
		for _, c := range []quantity.Temperature{l.Low, l.Aim, l.High} {
			high, low := pH(t, fresh, c), pH(t, spent, c)
			t.Logf("  %v: fresh %.2f, spent %.2f", c, high, low)
			if high > l.PHHigh+rounding || low < l.PHLow-rounding || high < low {
				t.Errorf("%s at %v: from %.2f to %.2f, ph is %g to %g", r.ID, c, low, high, l.PHLow, l.PHHigh)
			}
		}
	}
}

// builtin reads the recipes that come with the program. They are read as files: nothing in model leans on what lies above.
func builtin(t *testing.T) map[string]recipe.Recipe {
	t.Helper()
	files, err := filepath.Glob("../../recipes/*.toml")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	list := map[string]recipe.Recipe{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		r, faults := recipe.Parse(f, text)
		if err := faults.Err(); err != nil {
			t.Fatal(err)
		}
		list[r.ID] = r
	}
	return list
}

func makeup(t *testing.T, r recipe.Recipe, spent quantity.Share) liquor.Makeup {
	t.Helper()
	m, err := liquor.OfRecipe(r, spent)
	if err != nil {
		t.Fatalf("%s: %v", r.ID, err)
	}
	return m
}

func pH(t *testing.T, m liquor.Makeup, c quantity.Temperature) float64 {
	t.Helper()
	p, err := liquor.PH(m, c)
	if err != nil {
		t.Fatal(err)
	}
	return float64(p)
}

// The make-up of two recipes, worked by hand.
func TestMakeupByHand(t *testing.T) {
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 0.002*math.Max(want, 1) {
			t.Errorf("%s: %.4f, want %.4f", what, got, want)
		}
	}
	lye := builtin(t)["lye"]
	m := makeup(t, lye, 0.5)
	indigo := 1.5 * 0.95 / 262.268 * 1000 // 5.433 mmol/L
	reducer := (3.0 + 0.3) / 174.096 * 1000
	near("leuco", float64(m.Leuco), indigo)
	near("on indigo", float64(m.OnIndigo), indigo)
	near("spent", float64(m.Spent), (reducer-indigo)/2)
	near("lye", float64(m.Lye), 1.125)
	near("soda ash", float64(m.SodaAsh), 3)

	soda := builtin(t)["soda"]
	m = makeup(t, soda, 1)
	near("leuco of grains", float64(m.Leuco), 1.5*0.6/262.268*1000)
	near("the grains' own alkali", float64(m.Lye), 1.5*0.6/262.268*39.997)
	near("no powder to reduce", float64(m.OnIndigo), 0)
	near("all spent", float64(m.Spent), 2/174.096*1000)
}

func TestOfRecipeRefuses(t *testing.T) {
	soda := builtin(t)["soda"]
	for _, share := range []quantity.Share{-0.1, 1.1, quantity.Share(math.NaN())} {
		if _, err := liquor.OfRecipe(soda, share); err == nil {
			t.Errorf("a share of %v is taken", float64(share))
		}
	}
	for _, c := range []struct {
		p    recipe.Powder
		want string
	}{
		{recipe.Powder{Material: "vinegar", Role: recipe.Food, Strength: 1, Dose: 1}, `how strong the acid "vinegar" is, is not known`},
		{recipe.Powder{Material: "wood ash", Role: recipe.Alkali, Strength: 1, Dose: 1}, `how strong the alkali "wood ash" is, is not known`},
	} {
		_, err := liquor.OfRecipe(recipe.Recipe{Powders: []recipe.Powder{c.p}}, 0)
		var pe *liquor.PHError
		if !errors.As(err, &pe) || err.Error() != c.want {
			t.Errorf("got %v\nwant %s", err, c.want)
		}
	}
}

// Powders that differ in their water or their metal count by what they can do.
func TestOtherAlkalis(t *testing.T) {
	of := func(material string, g float64) liquor.Makeup {
		p := recipe.Powder{ID: "x", Material: material, Role: recipe.Alkali, Strength: 1, Dose: quantity.GramsPerLitre(g)}
		return makeup(t, recipe.Recipe{Powders: []recipe.Powder{p}}, 0)
	}
	for _, c := range []struct {
		got, want quantity.Concentration
		what      string
	}{
		{of("soda crystals (decahydrate)", 27.00).SodaAsh, 10, "decahydrate, 2.700"},
		{of("sodium carbonate monohydrate", 11.70).SodaAsh, 10, "monohydrate, 1.170"},
		{of("quicklime", 7.569).Lime, 10, "quicklime"},
		{of("caustic potash", 14.03).Lye, 10, "potassium hydroxide"},
		{of("potash", 10).Potash, 10, "potash"},
		{of("baking soda", 10).BakingSoda, 10, "baking soda"},
	} {
		if math.Abs(float64(c.got-c.want)) > 0.01 {
			t.Errorf("%s: %v", c.what, float64(c.got))
		}
	}
	if _, err := liquor.SodaAshOf(recipe.Potash, 1); err == nil || err.Error() != "potash is not a form of soda ash" {
		t.Error(err)
	}
	if ash, err := liquor.SodaAshOf(recipe.SodaCrystals, 2.7); err != nil || math.Abs(float64(ash)-1) > 1e-3 {
		t.Error(ash, err)
	}
}
