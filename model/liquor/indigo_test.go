package liquor

import (
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
	"pgregory.net/rapid"
)

// depths are the % on fibre of depths.csv, by the first word of their names.
func depthsOf(t testing.TB) []Depth {
	t.Helper()
	tt, ok := t.(*testing.T)
	if !ok {
		t.Fatal("depths.csv is read in tests")
	}
	var out []Depth
	for _, r := range rowsOf(tt, "depths.csv") {
		out = append(out, Depth{strings.Split(r[0], "/")[0], quantity.Percent(figure(tt, r[3]))})
	}
	return out
}

func TestPureIndigo(t *testing.T) {
	for id, want := range map[string]float64{"soda": 54, "lye": 85.5, "sugar-lime": 67.5, "iron-lime": 67.5, "thiourea": 74.1, "madder-bran": 108} {
		near(t, id, PureIndigo(published.Recipe(t, id), quantity.Litres(60)).Grams(), want, 1e-9)
	}
	near(t, "no fill", PureIndigo(published.Recipe(t, "soda"), quantity.Volume(math.NaN())).Grams(), 0, 0)
}

// The capacities of the trade's working knowledge (usable 0.6, from memory), to the figures printed there.
func TestAgainstTheTradesCapacities(t *testing.T) {
	var worst float64
	for _, c := range []struct {
		litres, perLitre, purity float64
		want                     map[string]float64
	}{
		{20, 2.5, 0.45, map[string]float64{"pale": 4.5, "mid": 1.1, "dark": 0.6, "navy": 0.4}},
		{50, 2.5, 0.45, map[string]float64{"pale": 11, "mid": 2.8, "dark": 1.5, "navy": 1.0}},
		{50, 1.5, 0.95, map[string]float64{"pale": 14, "mid": 3.6, "dark": 1.9, "navy": 1.2}},
	} {
		fill := quantity.Litres(c.litres)
		b := Indigo(quantity.Grams(c.litres*c.perLitre*c.purity), fill, nil, 0)
		for _, k := range Capacities(b, recipe.Recipe{}, fill, 0, depthsOf(t)) {
			want, ok := c.want[k.Depth.Name]
			if !ok {
				continue
			}
			d := math.Abs(k.KgLeft.Likely.Kilograms() - want)
			worst = math.Max(worst, d/want)
			if d > 0.05 && d/want > 0.03 {
				t.Errorf("%v L, %s: %.3f kg for %v", c.litres, k.Depth.Name, k.KgLeft.Likely.Kilograms(), want)
			}
			near(t, "low", k.KgLeft.Low.Kilograms()/k.KgLeft.Likely.Kilograms(), 0.4/0.6, 1e-9)
			near(t, "high", k.KgLeft.High.Kilograms()/k.KgLeft.Likely.Kilograms(), 0.8/0.6, 1e-9)
		}
	}
	t.Logf("largest deviation from the printed figures %.1f %%", worst*100)
}

// The built-in soda vat of 0.9 g/L, "a strong vat" (S3), reaches dark, and navy slowly.
func TestReachOfTheSodaVat(t *testing.T) {
	r, fill := published.Recipe(t, "soda"), quantity.Litres(60)
	b := Indigo(PureIndigo(r, fill), fill, nil, 0)
	want := map[string]string{"milk": "yes", "pale": "yes", "sky": "yes", "mid": "yes", "dark": "yes", "navy": "slowly", "blue-black": "no"}
	for _, c := range Capacities(b, r, fill, 0, depthsOf(t)) {
		if c.Reach.String() != want[c.Depth.Name] {
			t.Errorf("%s: %v for %s", c.Depth.Name, c.Reach, want[c.Depth.Name])
		}
	}
}

// Goods a day, per litre: 40 g dithionite and thiourea dioxide, 20 lime, 10 ferment (C/M), less what was dyed.
func TestToday(t *testing.T) {
	pale := []Depth{{"milk", quantity.Percent(0.1)}}
	for id, want := range map[string]float64{"soda": 2400, "lye": 2400, "thiourea": 2400, "sugar-lime": 1200, "iron-lime": 1200, "madder-bran": 600} {
		r, fill := published.Recipe(t, id), quantity.Litres(60)
		b := Indigo(PureIndigo(r, fill), fill, nil, 0)
		near(t, id, Capacities(b, r, fill, 0, pale)[0].Today.Grams(), want, 1e-9)
		near(t, id+" less", Capacities(b, r, fill, 500, pale)[0].Today.Grams(), want-500, 1e-9)
		near(t, id+" done", Capacities(b, r, fill, 1e6, pale)[0].Today.Grams(), 0, 0)
	}
}

// Whatever was taken and carried: it all adds up, and more of either never leaves more.
func TestBalanceHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := quantity.Grams(rapid.Float64Range(0, 200).Draw(t, "in"))
		fill := quantity.Litres(rapid.Float64Range(0.1, 100).Draw(t, "fill"))
		piece := rapid.Custom(func(t *rapid.T) Taken {
			low := rapid.Float64Range(0, 0.05).Draw(t, "%")
			return Taken{quantity.Grams(rapid.Float64Range(0, 3000).Draw(t, "dry")),
				quantity.Range[quantity.Share]{Low: quantity.Share(low), Likely: quantity.Share(low * 1.3), High: quantity.Share(low * 2)}}
		})
		taken := rapid.SliceOfN(piece, 0, 5).Draw(t, "taken")
		carried := quantity.Litres(rapid.Float64Range(0, 300).Draw(t, "carried"))
		b := Indigo(in, fill, taken, carried)
		for _, r := range []quantity.Range[quantity.Mass]{b.Taken, b.DraggedOut, b.Left} {
			if !r.Valid() || r.Low < 0 || r.High > in+1e-9 {
				t.Fatalf("%+v", b)
			}
		}
		if d := b.Left.Likely + b.Taken.Likely + b.DraggedOut.Likely - in; math.Abs(float64(d)) > 1e-9 {
			t.Fatalf("%v is missing of %+v", d, b)
		}
		for _, n := range []Balance{Indigo(in, fill, append(taken, piece.Draw(t, "one more")), carried), Indigo(in, fill, taken, carried*1.1+1)} {
			if n.Left.Low > b.Left.Low+1e-9 || n.Left.Likely > b.Left.Likely+1e-9 || n.Left.High > b.Left.High+1e-9 {
				t.Fatalf("%+v after %+v", n.Left, b.Left)
			}
		}
		for _, c := range Capacities(b, recipe.Recipe{Family: recipe.IronLime}, fill, quantity.Grams(100), []Depth{{"", 0}, {"a", 0.001}, {"b", 0.3}, {"c", -1}}) {
			if !c.KgLeft.Valid() || c.KgLeft.Low < 0 || c.Today < 0 || c.Today > c.KgLeft.Likely || c.Today > quantity.Grams(20*fill.Litres()) {
				t.Fatalf("%+v", c)
			}
		}
	})
	nan := math.NaN()
	b := Indigo(quantity.Mass(nan), quantity.Volume(nan), []Taken{{quantity.Mass(nan), quantity.Exactly(quantity.Share(nan))}}, quantity.Volume(nan))
	Capacities(b, recipe.Recipe{}, quantity.Volume(nan), quantity.Mass(nan), []Depth{{"", quantity.Share(nan)}})
	if !b.Left.Valid() || b.PerLitre.Likely != 0 {
		t.Errorf("%+v", b)
	}
}

// A depth wants more the darker it is.
func TestWantsRises(t *testing.T) {
	for p := 0.01; p < 8; p += 0.01 {
		if !(wants(quantity.Percent(p)) < wants(quantity.Percent(p+0.01))) {
			t.Fatal(p)
		}
	}
}

// Feed past 60 to 70 % of what the indigo can do (C), with 1 g/L of the recipe's own indigo (C), in lots of at most its
// at_once, a day apart; never more than was used.
func TestFeed(t *testing.T) {
	r, fill := published.Recipe(t, "soda"), quantity.Litres(60)
	used := func(part float64) Feeding {
		gone := 54 * 0.6 * part / (1 - 0.4*part) // of gone + 0.6 × (54 − gone)
		on := quantity.Exactly(quantity.Share(gone / 1000))
		return Feed(Indigo(54, fill, []Taken{{1000, on}}, 0), r, fill, 0, quantity.Metric)
	}
	if f := used(0.5); f.Soon || f.Now || f.TopUp.Whole != 0 || !strings.Contains(f.Sentence, "50 %") {
		t.Errorf("%+v", f)
	}
	if f := used(0.65); !f.Soon || f.Now || f.TopUp.Lot != 30 {
		t.Errorf("%+v", f)
	}
	f := used(0.9)
	if want := "60 g of pre-reduced indigo grains, in 2 lots of at most 30.0 g, a day apart, as reduced stock; then wait 1 h"; !f.Now || !strings.Contains(f.Sentence, want) {
		t.Errorf("%s", f.Sentence)
	}
	near(t, "1 g/L", f.TopUp.Whole.Grams(), 60, 1e-9)
	near(t, "no more than was used", used(0.62).TopUp.Whole.Grams(), 54*0.6*0.62/(1-0.4*0.62)/0.6, 1e-6)
	if f := Feed(Balance{}, recipe.Recipe{}, 0, 0, quantity.Metric); f.Now || f.Sentence == "" {
		t.Errorf("%+v", f)
	}
}

// Pure indigo a litre × fill ÷ strength: a stronger tin is weighed lighter, and what is pure in it is the same.
func TestTopUpIsPureIndigo(t *testing.T) {
	for _, id := range published.RecipeIDs {
		r := published.Recipe(t, id)
		for _, fill := range []quantity.Volume{20, 60} {
			own, ok := TopUpOf(r, fill, 0, 0)
			if !ok || math.Abs(own.Whole.Grams()-fill.Litres()) > 1e-9 {
				t.Errorf("%s: %+v", id, own)
			}
			p, _ := r.Powder(own.Powder)
			strong, _ := TopUpOf(r, fill, 1, 0)
			near(t, id, strong.Whole.Grams(), p.Strength.Fraction()*fill.Litres(), 1e-9)
			if most, _ := Most(r, p.ID, fill, 0); own.Lot > most || own.Lot.Grams()*float64(own.Lots) < own.Whole.Grams()-1e-9 || own.Wait != StockWait(r) {
				t.Errorf("%s: %+v", id, own)
			}
		}
	}
	if _, ok := TopUpOf(recipe.Recipe{}, 60, 0, 0); ok {
		t.Error("indigo of a recipe without any")
	}
}
