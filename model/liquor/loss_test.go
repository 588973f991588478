package liquor

import (
	"math"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
	"pgregory.net/rapid"
)

// A strip by the trade's marks, in 60 L: below 15 s almost nothing is free, about 45 s is good and holds a fresh vat,
// over 3 min there is much.
func TestStripAnchors(t *testing.T) {
	fill := quantity.Litres(60)
	r, err := sixty(t).Reserve()
	if err != nil {
		t.Fatal(err)
	}
	fresh := r.Left()
	if weak := fresh.Strip(quantity.Seconds(10), fill); weak.Free.High > 9 || weak.Free.Low >= weak.Free.High {
		t.Errorf("weak: %+v", weak)
	}
	if good := fresh.Strip(quantity.Seconds(45), fill); good != fresh {
		t.Errorf("good: %+v for %+v", good, fresh)
	}
	spent := Left{Free: quantity.Range[quantity.Mass]{Low: 0, Likely: 0, High: 1}}
	if over := spent.Strip(quantity.Minutes(4), fill); over.Free.Low < 29 || over.Free.High <= over.Free.Low {
		t.Errorf("over: %+v", over)
	}
}

func drawRange(t *rapid.T, name string, most float64) quantity.Range[quantity.Mass] {
	a := rapid.Float64Range(0, most).Draw(t, name+" low")
	b := rapid.Float64Range(0, most).Draw(t, name+" more")
	c := rapid.Float64Range(0, most).Draw(t, name+" most")
	return quantity.Range[quantity.Mass]{Low: quantity.Grams(a), Likely: quantity.Grams(a + b), High: quantity.Grams(a + b + c)}
}

func notLess(a, b Left) bool {
	const e = 1e-9
	return a.Free.Low >= b.Free.Low-e && a.Free.Likely >= b.Free.Likely-e && a.Free.High >= b.Free.High-e
}

// What is spent leaves not more, a dose not less, a longer strip not less; a vat that held more holds not less after any of them.
func TestLeftIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Left{drawRange(t, "free", 100), rapid.SampledFrom([]recipe.Substance{"", recipe.ThioureaDioxide, recipe.IronSulfate}).Draw(t, "reducer")}
		more := l
		more.Free.Low += 1
		more.Free.Likely += 1
		more.Free.High += 2
		rate := drawRange(t, "rate", 20)
		longer := quantity.Map(rate, func(m quantity.Mass) quantity.Mass { return 3 * m })
		dose := quantity.Grams(rapid.Float64Range(0, 50).Draw(t, "dose"))
		strip := quantity.Seconds(rapid.Float64Range(-5, 300).Draw(t, "s"))
		later := strip + quantity.Seconds(rapid.Float64Range(0, 200).Draw(t, "more s"))
		fill := quantity.Litres(rapid.Float64Range(1, 200).Draw(t, "L"))
		half := quantity.Exactly(quantity.Percent(50))
		none := quantity.Range[quantity.Share]{}
		for what, ok := range map[string]bool{
			"spend":       notLess(l, l.Spend(rate)) && notLess(l.Spend(rate), l.Spend(longer)),
			"add":         notLess(l.Add(dose, half), l) && notLess(l.Add(dose+1, half), l.Add(dose, half)) && notLess(l.Add(dose, none), l.Add(dose, half)),
			"strip":       notLess(l.Strip(later, fill), l.Strip(strip, fill)),
			"more, strip": notLess(more.Strip(strip, fill), l.Strip(strip, fill)),
			"more, spend": notLess(more.Spend(rate), l.Spend(rate)),
		} {
			if !ok {
				t.Fatal(what)
			}
		}
		for _, x := range []Left{l.Spend(longer), l.Add(dose, half), l.Strip(strip, fill), l.Spend(rate)} {
			if !x.Free.Valid() || x.Free.Low < 0 {
				t.Fatalf("%+v", x)
			}
		}
	})
}

// What is no number is nothing, and the order is kept.
func TestLeftIsTidy(t *testing.T) {
	nan := quantity.Mass(math.NaN())
	l := Left{Free: quantity.Range[quantity.Mass]{Low: nan, Likely: -3, High: quantity.Mass(math.Inf(1))}}
	for _, x := range []Left{l.Spend(l.Free), l.Add(nan, quantity.Exactly(quantity.Share(math.NaN()))), l.Strip(quantity.Seconds(9), quantity.Volume(math.NaN()))} {
		if x.Free != (quantity.Range[quantity.Mass]{}) {
			t.Errorf("%+v", x.Free)
		}
	}
	if q := Quiet(9); q.letsThrough() != 1 {
		t.Error(q)
	}
}

// The dyer's own top-ups: none is 1, one counts a third, many come near the truth, nothing leaves 0.3–3.
func TestFitFactor(t *testing.T) {
	twice := Episode{Reckoned: 10, Added: 20}
	near(t, "none", FitFactor(nil), 1, 0)
	near(t, "one", FitFactor([]Episode{twice}), math.Pow(2, 1.0/3), 1e-9)
	var many []Episode
	for range 50 {
		many = append(many, twice)
	}
	near(t, "fifty", FitFactor(many), 2, 0.06)
	near(t, "passed over", FitFactor([]Episode{{0, 5}, {quantity.Mass(math.NaN()), 1}, {3, quantity.Mass(math.NaN())}}), 1, 0)
	rapid.Check(t, func(t *rapid.T) {
		es := rapid.SliceOf(rapid.Custom(func(t *rapid.T) Episode {
			return Episode{quantity.Grams(rapid.Float64().Draw(t, "reckoned")), quantity.Grams(rapid.Float64().Draw(t, "added"))}
		})).Draw(t, "episodes")
		if f := FitFactor(es); !(f >= 0.3 && f <= 3) {
			t.Fatal(f)
		}
	})
}

// The widths of independent estimates add in squares, never past the sum of the ends.
func TestTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawRange(t, "a", 10), drawRange(t, "b", 10)
		s := together([]Part{{Grams: a}, {Grams: b}})
		if !s.Valid() || s.Low < a.Low+b.Low-1e-9 || s.High > a.High+b.High+1e-9 || math.Abs(float64(s.Likely-a.Likely-b.Likely)) > 1e-9 {
			t.Fatalf("%+v and %+v: %+v", a, b, s)
		}
	})
}

// One dip of 2 kg in 60 L at 2 g/L carries out 2 to 3 L, 4 to 6 g, and takes some air in; dry goods 1 L of air a kilogram,
// which can spend 1.5 g of dithionite (K) and of which half is taken (M). An hour's usual work costs less than four such
// dips, as the vat thins under it.
func TestOneAct(t *testing.T) {
	b := sixty(t)
	l := Left{Free: quantity.Exactly(quantity.Grams(120))}
	wet, err := b.Dip(l, quantity.Kilograms(2), false)
	if err != nil || !wet.Valid() || wet.Low < 4 || wet.Likely < 5 || wet.Likely > 7 || wet.High > 12 {
		t.Errorf("%+v, %v", wet, err)
	}
	dry, _ := b.Dip(l, quantity.Kilograms(2), true)
	if extra := dry.Likely - wet.Likely; extra < 1 || extra > 2 {
		t.Errorf("dry goods cost %v more", extra)
	}
	stir, _ := b.Stir(l)
	near(t, "stir", stir.Likely.Grams(), 0.13*1.5*0.5*airOxygen*1.2*174.096, 1e-3)
	hour, _ := b.Holding(l)
	if hour.WorkPerHour.Likely >= 4*wet.Likely+2*stir.Likely+hour.RestPerHour.Likely {
		t.Errorf("%+v an hour", hour.WorkPerHour)
	}
	if m, err := b.Dip(l, 0, true); err != nil || m != (quantity.Range[quantity.Mass]{}) {
		t.Errorf("%+v, %v", m, err)
	}
	b.Recipe = published.Recipe(t, "sugar-lime")
	if _, err := b.Stir(l); err == nil {
		t.Error("a sugar vat's stir was reckoned")
	}
}
