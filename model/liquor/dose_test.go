package liquor

import (
	"math"

	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
	"pgregory.net/rapid"
)

// The recipe's own limits; where it says nothing a third at once, all of it a day, of dithionite 2 g/L a day (C).
func TestMost(t *testing.T) {
	silent := recipe.Recipe{Powders: []recipe.Powder{
		{ID: "hydros", Role: recipe.Reducer, Material: "sodium dithionite", Dose: 1.5},
		{ID: "soda", Role: recipe.Alkali, Material: "soda ash", Dose: 6},
		{ID: "tight", Role: recipe.Alkali, Material: "lye", Dose: 6, PerDay: 1},
	}}
	for _, c := range []struct {
		r          recipe.Recipe
		id         string
		given      float64
		now, today float64
	}{
		{published.Recipe(t, "soda"), "reducer", 0, 30, 120},
		{published.Recipe(t, "soda"), "reducer", 100, 20, 20},
		{published.Recipe(t, "soda"), "reducer", 500, 0, 0},
		{published.Recipe(t, "soda"), "soda", 0, 60, 180},
		{silent, "hydros", 0, 30, 120},
		{silent, "soda", 0, 120, 360},
		{silent, "tight", 0, 60, 60},
		{silent, "nothing", 0, 0, 0},
	} {
		now, today := Most(c.r, c.id, quantity.Litres(60), quantity.Grams(c.given))
		near(t, c.id+" now", now.Grams(), c.now, 1e-9)
		near(t, c.id+" today", today.Grams(), c.today, 1e-9)
	}
	if now, today := Most(silent, "soda", quantity.Volume(math.NaN()), 0); now != 0 || today != 0 {
		t.Error(now, today)
	}
	if now, _ := Most(silent, "soda", 60, quantity.Mass(math.Inf(1))); now != 0 {
		t.Error(now)
	}
}

// Two powders of one substance share the day: the lye vat's reducer and its clearing reducer.
func TestGivenToday(t *testing.T) {
	given := map[string]quantity.Mass{"reducer": 30, "clearing": 10, "soda": 5, "lye": 1}
	lye := published.Recipe(t, "lye")
	for id, want := range map[string]quantity.Mass{"reducer": 40, "clearing": 40, "soda": 5, "lye": 1, "salt": 0} {
		if got := GivenToday(lye, id, given); got != want {
			t.Errorf("%s: %v for %v", id, got, want)
		}
	}
	if GivenToday(recipe.Recipe{}, "", nil) != 0 {
		t.Error("something of nothing")
	}
}

// On the scale's steps, and never above the limit.
func TestOnScale(t *testing.T) {
	for _, c := range []struct{ want, limit, finest, got float64 }{
		{30, 30, 0, 30}, {12.34, 20, 0, 12.3}, {49.97, 60, 0, 50}, {71.6, 90, 0, 72}, {71.6, 71.7, 0, 71},
		{12.36, 12.37, 0, 12.3}, {7, 9, 5, 5}, {8, 9, 5, 5}, {8, 11, 5, 10}, {0.04, 1, 0, 0}, {0.06, 0.08, 0, 0}, {3, math.NaN(), 0, 0},
	} {
		near(t, "dose", onScale(quantity.Grams(c.want), quantity.Grams(c.limit), quantity.Grams(c.finest)).Grams(), c.got, 1e-9)
	}
	rapid.Check(t, func(t *rapid.T) {
		limit := quantity.Grams(rapid.Float64Range(0, 500).Draw(t, "limit"))
		finest := quantity.Grams(rapid.SampledFrom([]float64{0, 0.01, 0.1, 0.5, 1, 2, 5}).Draw(t, "finest"))
		want := min(quantity.Grams(rapid.Float64Range(0, 500).Draw(t, "want")), limit)
		m := onScale(want, limit, finest)
		if m < 0 || m > limit {
			t.Fatalf("%v above %v", m, limit)
		}
		if more := onScale(min(want+1, limit), limit, finest); more < m-1e-9 && finest != 0 {
			t.Fatalf("%v for more than %v", more, m)
		}
	})
}

// The steps of the trade's table of signs, a litre: dithionite 0.5 and thiourea dioxide 0.3 (blue liquor, S1), fructose 1,
// iron 0.5 (S4 0.48); soda 1, lye at most 0.1 (S1), lime 0.4 (C), in a ferment vat 0.3 (S6).
func TestStepsAreTheTrades(t *testing.T) {
	for id, want := range map[string]float64{"soda": 0.5, "lye": 0.5, "thiourea": 0.3, "sugar-lime": 1, "iron-lime": 0.5} {
		r := published.Recipe(t, id)
		p, ok := Reducer(r)
		if c := ReducerStep(r, p); !ok || c.GramsPerLitre() != want {
			t.Errorf("%s: %v of %s", id, c, p.ID)
		}
	}
	for id, want := range map[string]struct {
		powder string
		step   float64
	}{"soda": {"soda", 1}, "lye": {"soda", 1}, "thiourea": {"soda", 1}, "sugar-lime": {"lime", 0.4}, "iron-lime": {"lime", 0.4}, "madder-bran": {"lime", 0.3}} {
		r := published.Recipe(t, id)
		p, ok := Alkali(r)
		if c := AlkaliStep(r, p); !ok || p.ID != want.powder || c.GramsPerLitre() != want.step {
			t.Errorf("%s: %v of %s", id, c, p.ID)
		}
	}
	if c := AlkaliStep(recipe.Recipe{}, recipe.Powder{Material: "lye"}); c.GramsPerLitre() > 0.1 {
		t.Error(c)
	}
	if _, ok := Reducer(recipe.Recipe{Family: recipe.Ferment, Powders: []recipe.Powder{{Role: recipe.Reducer}}}); ok {
		t.Error("a ferment vat has a reducer")
	}
}
