package liquor

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
	"pgregory.net/rapid"
)

// sixty is the built-in soda vat in a bin: 60 L at 36 °C with 0.13 m² open.
func sixty(t testing.TB) Budget {
	return Budget{Recipe: published.Recipe(t, "soda"), Fill: quantity.Litres(60), Temp: quantity.Celsius(36), Surface: quantity.SquareMetres(0.13)}
}

func near(t *testing.T, what string, got, want, well float64) {
	t.Helper()
	if !(math.Abs(got-want) <= well) {
		t.Errorf("%s: %.4g for %.4g", what, got, want)
	}
}

// A fresh soda vat of 60 L: 120 g of dithionite; 6.84 mg/L of oxygen eat 2.2, 3.7 or 3.8 g (K, at 1, 1.66 and
// 1.7 mol for mol: measured 1.2 at 25 °C and 1.7 at 37 °C); 54 g of indigo already
// reduced, of which none to a fifth must be reduced again at 0.664 g/g.
func TestReserveOfTheSodaVat(t *testing.T) {
	r, err := sixty(t).Reserve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "dosed", r.Dosed.Grams(), 120, 1e-9)
	near(t, "fill water, low", r.FillWater.Low.Grams(), 2.23, 0.01)
	near(t, "fill water, likely", r.FillWater.Likely.Grams(), 3.70, 0.01)
	near(t, "fill water, high", r.FillWater.High.Grams(), 3.79, 0.01)
	near(t, "indigo, likely", r.Indigo.Likely.Grams(), 5.4*0.6638, 0.01)
	near(t, "indigo, high", r.Indigo.High.Grams(), 10.8*0.6638, 0.01)
	near(t, "free", r.Free.Likely.Grams(), 120-3.70-3.58, 0.02)
	// a quiet open warm surface takes 1, 3 or 8 g a m² and hour
	near(t, "rest, low", r.RestPerHour.Low.Grams(), 0.13, 1e-9)
	near(t, "rest, likely", r.RestPerHour.Likely.Grams(), 0.39, 1e-9)
	near(t, "rest, high", r.RestPerHour.High.Grams(), 1.04, 1e-9)
	if r.WorkPerHour.Likely <= 3*r.RestPerHour.Likely {
		t.Errorf("work takes %v and rest %v an hour: work should rule", r.WorkPerHour.Likely, r.RestPerHour.Likely)
	}
	var ids []string
	var share quantity.Share
	for _, p := range r.WorkParts {
		ids = append(ids, p.ID)
		share += p.Share
		if !p.Grams.Valid() || p.Why == "" || p.Name == "" {
			t.Errorf("part %+v", p)
		}
	}
	near(t, "shares", share.Fraction(), 1, 1e-9)
	if s := strings.Join(ids, " "); s != "surface stirring lifting goods_water goods_air carried_out" {
		t.Error(s)
	}
}

// The other reducers by equivalents: copperas 2.1 g and thiourea dioxide 0.41 g for each gram of indigo powder (K).
func TestReserveOfOtherReducers(t *testing.T) {
	for id, each := range map[string]float64{"iron-lime": 2.12, "thiourea": 0.412, "lye": 0.664} {
		b := sixty(t)
		b.Recipe = published.Recipe(t, id)
		r, err := b.Reserve()
		if err != nil {
			t.Fatal(id, err)
		}
		near(t, id, r.Indigo.Likely.Grams(), each*PureIndigo(b.Recipe, b.Fill).Grams(), 0.1)
		if r.Free.Low <= 0 || !r.Free.Valid() || !r.Work.Valid() || !r.Rest.Valid() {
			t.Errorf("%s: %+v", id, r)
		}
	}
}

func TestNoBudget(t *testing.T) {
	for _, id := range []string{"sugar-lime", "madder-bran"} {
		b := sixty(t)
		b.Recipe = published.Recipe(t, id)
		_, err := b.Reserve()
		var none *NoBudgetError
		if !errors.As(err, &none) || none.Family != b.Recipe.Family || !strings.Contains(err.Error(), "the strip test tells, not a reckoning") {
			t.Errorf("%s: %v", id, err)
		}
	}
	zinc := sixty(t)
	zinc.Recipe = recipe.Recipe{Family: recipe.DithioniteSoda, Powders: []recipe.Powder{{Role: recipe.Reducer, Material: "zinc dust"}}}
	bad := map[string]func(*Budget){
		"no recipe": func(b *Budget) { b.Recipe = recipe.Recipe{} }, "no fill": func(b *Budget) { b.Fill = 0 },
		"no number": func(b *Budget) { b.Fill = quantity.Volume(math.NaN()) }, "endless": func(b *Budget) { b.Fill = quantity.Volume(math.Inf(1)) },
		"surface": func(b *Budget) { b.Surface = -1 }, "steam": func(b *Budget) { b.Temp = 130 }, "space": func(b *Budget) { b.Pressure = 3 },
		"zinc": func(b *Budget) { b.Recipe = zinc.Recipe },
	}
	for name, change := range bad {
		b := sixty(t)
		change(&b)
		if _, err := b.Reserve(); err == nil || strings.HasSuffix(err.Error(), ".") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := (Budget{}).Reserve(); err == nil {
		t.Error("the zero budget has a reserve")
	}
}

// What makes it last longer, and what does not.
func TestReserveIsMonotone(t *testing.T) {
	soda := sixty(t)
	rapid.Check(t, func(t *rapid.T) {
		b := soda
		b.Temp = quantity.Celsius(rapid.Float64Range(5, 50).Draw(t, "°C"))
		b.Surface = quantity.SquareMetres(rapid.Float64Range(0, 1).Draw(t, "m²"))
		b.Quiet = Quiet(rapid.IntRange(0, 1).Draw(t, "quiet"))
		b.Factor = rapid.Float64Range(0, 4).Draw(t, "factor")
		b.Strength = quantity.Share(rapid.Float64Range(0.05, 1).Draw(t, "strength"))
		b.Work = Work{Dry: quantity.Grams(rapid.Float64Range(0, 3000).Draw(t, "dry")), DipsPerHour: rapid.Float64Range(0.1, 20).Draw(t, "dips"),
			StirsPerHour: rapid.Float64Range(0, 10).Draw(t, "stirs"), DryGoods: rapid.Bool().Draw(t, "dry goods")}
		base, err := b.Reserve()
		if err != nil {
			t.Fatal(err)
		}
		sound(t, base)
		for name, change := range map[string]func(*Budget){
			"lid": func(n *Budget) { n.Quiet++ }, "strength": func(n *Budget) { n.Strength = min(1, n.Strength*1.2) },
			"stirs": func(n *Budget) { n.Work.StirsPerHour /= 2 }, "goods": func(n *Budget) { n.Work.Dry /= 2 },
			"wet": func(n *Budget) { n.Work.DryGoods = false }, "surface": func(n *Budget) { n.Surface /= 2 },
		} {
			n := b
			change(&n)
			got, err := n.Reserve()
			if err != nil {
				t.Fatal(err)
			}
			if got.Rest.Likely < base.Rest.Likely || got.Work.Likely < base.Work.Likely {
				t.Fatalf("%s: %v and %v for %v and %v", name, got.Rest.Likely, got.Work.Likely, base.Rest.Likely, base.Work.Likely)
			}
		}
	})
}

func sound(t *rapid.T, r Reserve) {
	for _, m := range []quantity.Range[quantity.Mass]{r.Active, r.FillWater, r.Indigo, r.Free, r.RestPerHour, r.WorkPerHour} {
		if !m.Valid() || m.Low < 0 || math.IsInf(m.High.Grams(), 0) {
			t.Fatalf("%+v", r)
		}
	}
	for _, s := range []quantity.Range[quantity.Span]{r.Rest, r.Work} {
		if !s.Valid() || s.Low < 0 || s.High > LongestReserve {
			t.Fatalf("%+v", r)
		}
	}
	for i, c := range r.Longer {
		if c.Gain <= 0 || c.Sentence == "" || i > 0 && c.Gain > r.Longer[i-1].Gain {
			t.Fatalf("%+v", r.Longer)
		}
	}
}

// What would help is only what is not done already, the simpler first where both reach the longest; going in wet is worth more than any stir left out.
func TestLonger(t *testing.T) {
	ids := func(b Budget) string {
		r, err := b.Reserve()
		if err != nil {
			t.Fatal(err)
		}
		var s []string
		for _, c := range r.Longer {
			s = append(s, c.ID)
		}
		return strings.Join(s, " ")
	}
	b := sixty(t)
	r, _ := b.Reserve()
	for _, c := range r.Longer {
		if strings.Contains(c.Sentence, "about more") || !strings.HasSuffix(c.Sentence, map[bool]string{true: "longer at rest", false: "longer in work"}[c.AtRest]) {
			t.Error(c.Sentence)
		}
	}
	if s := ids(b); !strings.HasPrefix(s, "lid sheet") || !strings.Contains(s, "fewer_stirs") || strings.Contains(s, "wet_goods") {
		t.Error(s)
	}
	b.Quiet = Sheeted
	if s := ids(b); strings.Contains(s, "lid") || strings.Contains(s, "sheet") {
		t.Error(s)
	}
	b.Work.DryGoods = true
	if s := ids(b); !strings.Contains(s, "wet_goods") || strings.Index(s, "wet_goods") > strings.Index(s, "fewer_stirs") {
		t.Error(s)
	}
}

// A tin opened half a year ago may have lost half its strength (from memory); the dyer's own test comes before its age.
func TestStrength(t *testing.T) {
	s := StrengthLeft(quantity.Days(6 * 30.44))
	near(t, "low", s.Low.Fraction(), 0.5, 1e-9)
	near(t, "likely", s.Likely.Fraction(), 0.75, 1e-9)
	near(t, "high", s.High.Fraction(), 0.9, 1e-9)
	if s := StrengthLeft(0); s != quantity.Exactly(quantity.Share(1)) {
		t.Error(s)
	}
	b := sixty(t)
	b.Opened = quantity.Days(400)
	old, _ := b.Reserve()
	b.Strength = quantity.Percent(80)
	tested, _ := b.Reserve()
	near(t, "tested", tested.Active.Likely.Grams(), 96, 1e-9)
	if old.Active.Low >= 60 || old.Active.High > 120 || !old.Active.Valid() {
		t.Errorf("%+v", old.Active)
	}
}

// A vat that has run down lasts as long as what is left in it; with what a fresh one has free, as long as that.
func TestHolding(t *testing.T) {
	b := sixty(t)
	fresh, _ := b.Reserve()
	same, err := b.Holding(fresh.Left())
	if err != nil || same.Rest != fresh.Rest || same.Work != fresh.Work || same.Dosed != 0 {
		t.Errorf("%+v for %+v, %v", same, fresh, err)
	}
	tired, _ := b.Holding(fresh.Left().Spend(quantity.Map(fresh.WorkPerHour, func(m quantity.Mass) quantity.Mass { return 4 * m })))
	empty, _ := b.Holding(Left{})
	if !(tired.Work.Likely < fresh.Work.Likely && tired.Work.Likely > 0) || empty.Work != (quantity.Range[quantity.Span]{}) || empty.Longer != nil {
		t.Errorf("%+v and %+v", tired.Work, empty)
	}
	// twice as fast by the dyer's own top-ups: half as long
	b.Factor = 2
	fast, _ := b.Reserve()
	near(t, "factor", fast.Work.Likely.Hours()*2, fresh.Work.Likely.Hours(), 1e-6)
}

func TestSayReserve(t *testing.T) {
	min := quantity.Minutes
	h := quantity.Hours
	for _, c := range []struct {
		low, high quantity.Span
		want      string
	}{
		{h(3.2), h(5.1), "3–5 h"}, {min(41), min(88), "40–90 min"}, {h(30), h(90), "more than a day"},
		{h(5.5), h(30), "5 h to more than a day"}, {min(42), h(5), "40 min to 5 h"}, {h(5), h(5.2), "about 5 h"}, {min(89), min(89), "about 90 min"}, {min(7.4), min(7.4), "about 7 min"},
		{0, 0, "none"}, {0, h(3), "at most 3 h"}, {h(1.8), h(4), "1.5–4 h"}, {min(7), min(12), "7–12 min"},
		{-h(2), h(2), "at most 120 min"}, {0, h(50), "up to a day or more"},
	} {
		if got := SayReserve(quantity.Range[quantity.Span]{Low: c.low, Likely: c.low, High: c.high}); got != c.want {
			t.Errorf("%v to %v: %q for %q", c.low, c.high, got, c.want)
		}
	}
}

// The measured ratios to oxygen: 1.2 ± 0.2 at 25 °C and 1.7 ± 0.1 at 37 °C (Tao, Goodisman & Souid), 1 at least (ECHA):
// one filling of air-saturated water at 20 °C eats 50 to 99 mg/L.
func TestTheFillWaterByTemperature(t *testing.T) {
	last := 0.0
	for _, c := range []float64{5, 20, 25, 31, 37, 45, 60} {
		b := sixty(t)
		b.Temp = quantity.Celsius(c)
		r, err := b.Reserve()
		if err != nil {
			t.Fatal(err)
		}
		o, _ := Oxygen(b.Temp, 0)
		ratio := r.FillWater.Likely.Grams() / 60 / o.GramsPerLitre() * float64(MolarOxygen) / float64(MolarDithionite)
		if !r.FillWater.Valid() || ratio < last-1e-9 {
			t.Errorf("at %v °C the ratio is %.3f after %.3f, %+v", c, ratio, last, r.FillWater)
		}
		last = ratio
		switch c {
		case 20:
			if mg := r.FillWater.Likely.Grams() / 60 * 1000; mg < 50 || mg > 99 {
				t.Errorf("%.1f mg/L at 20 °C", mg)
			}
		case 25:
			near(t, "ratio at 25 °C", ratio, 1.2, 1e-6)
		case 37:
			near(t, "ratio at 37 °C", ratio, 1.7, 1e-6)
		}
	}
}
