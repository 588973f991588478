package signs

import (
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
	"pgregory.net/rapid"
)

// maybe is a value that may have been left out.
func maybe[T ~float64](t *rapid.T, name string, low, high float64) *T {
	if rapid.Bool().Draw(t, name+" read") {
		return at(T(rapid.Float64Range(low, high).Draw(t, name)))
	}
	return nil
}

// drawn is any vat and anything seen at it; now and then a ferment vat whose recipe was given a chemical reducer.
func drawn(t *rapid.T, recipes map[string]recipe.Recipe) (Seen, Vat) {
	v := Vat{
		Recipe: recipes[rapid.SampledFrom(published.RecipeIDs).Draw(t, "recipe")], GivenToday: map[string]quantity.Mass{},
		HandsIn: rapid.Bool().Draw(t, "hands"), HeaterOn: rapid.Bool().Draw(t, "heater"), Class: rapid.Bool().Draw(t, "class"),
		Heater:   quantity.Watts(rapid.SampledFrom([]float64{0, 800, 2000}).Draw(t, "power")),
		Goods:    rapid.SliceOfN(rapid.SampledFrom(fibre.All()), 0, 3).Draw(t, "goods"),
		Age:      quantity.Hours(rapid.Float64Range(0, 400).Draw(t, "age")),
		Finest:   quantity.Mass(rapid.SampledFrom([]float64{0, 0.1, 1, 5}).Draw(t, "scale")),
		Strength: quantity.Share(rapid.SampledFrom([]float64{0, 0, 0.2, 1}).Draw(t, "strength")), IndigoGone: quantity.Mass(rapid.SampledFrom([]float64{0, 0, 5}).Draw(t, "gone")),
		Building: rapid.IntRange(0, 19).Draw(t, "building") == 0, Ending: rapid.IntRange(0, 19).Draw(t, "ending") == 0,
	}
	if rapid.IntRange(0, 19).Draw(t, "ended") == 0 {
		v.Ended = "3 May 2026"
	}
	if d := maybe[quantity.TempDiff](t, "days since food", 0, 6); d != nil {
		v.SinceFood = at(quantity.Days(float64(*d)))
	}
	if v.Recipe.Family == recipe.Ferment && rapid.Bool().Draw(t, "spoilt") {
		v.Recipe.Powders = append(slices.Clone(v.Recipe.Powders),
			recipe.Powder{ID: "hydros", Material: "sodium dithionite", Role: recipe.Reducer, Strength: 1, Dose: 2, Hydrate: 0})
	}
	v.Fill = quantity.Litres(rapid.OneOf(rapid.Float64Range(0.5, 200), rapid.SampledFrom([]float64{0, 20, 60, -1, math.Inf(1), math.NaN()})).Draw(t, "fill"))
	for _, p := range v.Recipe.Powders {
		if rapid.Bool().Draw(t, "given "+p.ID) {
			// up to a little more than a day's
			day, _ := liquor.Most(v.Recipe, p.ID, v.Fill, 0)
			v.GivenToday[p.ID] = day * quantity.Mass(rapid.Float64Range(0, 4).Draw(t, p.ID))
		}
	}
	s := Seen{
		Signs: rapid.SliceOfN(rapid.SampledFrom(All()), 0, 5).Draw(t, "signs"),
		PH:    maybe[quantity.PH](t, "pH", 5, 14), PHError: rapid.SampledFrom([]float64{0, 0.5}).Draw(t, "error"),
		Temp:  maybe[quantity.Temperature](t, "°C", 2, 75),
		Stood: quantity.Hours(rapid.Float64Range(0, 100).Draw(t, "stood")),
	}
	if f := maybe[quantity.TempDiff](t, "strip", 0, 400); f != nil {
		s.Strip = at(quantity.Seconds(float64(*f)))
	}
	for _, id := range rapid.SliceOfN(rapid.SampledFrom([]string{"under-reduced", "air-in", "part-reduced", "putrid"}), 0, 2).Draw(t, "tried") {
		s.Tried = append(s.Tried, Tried{id, Answer(rapid.IntRange(0, 3).Draw(t, "answer"))})
	}
	return s, v
}

// alkaliBySign are the causes whose handbook row asks for alkali by a sign alone; that of under-reduced comes last, after
// reducer did not help; iron goes in with its lime.
var alkaliBySign = map[string]bool{"alkali-short": true, "under-reduced": true, "lime-short": true, "iron-excess": true, "putrid": true, "part-reduced": true, "air-in-lime": true}

// withReducer tells whether the alkali of a cause goes in before a dose of the reducer that it comes with.
func withReducer(r recipe.Recipe, c Cause) bool {
	return slices.ContainsFunc(c.Doses, func(d Dose) bool { p, _ := r.Powder(d.Powder); return p.AlkaliFirst > 0 })
}

// Whatever is seen, whichever the vat, each treatment keeps the rules of the dose.
func TestDosesKeepTheRules(t *testing.T) {
	recipes := map[string]recipe.Recipe{}
	for _, id := range published.RecipeIDs {
		recipes[id] = published.Recipe(t, id)
	}
	rapid.Check(t, func(t *rapid.T) {
		s, v := drawn(t, recipes)
		list := Causes(s, v)
		if len(list) == 0 || list[0].Rank != MostLikely {
			t.Fatalf("no first cause: %s", brief(list))
		}
		if !reflect.DeepEqual(list, Causes(s, v)) {
			t.Fatal("the same was asked, and the answer is another")
		}
		sum := 0.0
		for i, c := range list {
			sum += c.Weight
			if i > 0 && c.Weight > list[i-1].Weight && list[0].ID != "look-again" && list[0].ID != "not-known" {
				t.Fatalf("not in order: %s", brief(list))
			}
			if c.Then != "" && (strings.Contains(c.Then, c.Do) || len(c.Doses) == 0 && (strings.Contains(c.Then, "the same again") || strings.Contains(c.Then, "the same step") || strings.Contains(c.Then, "the same tiny"))) {
				t.Fatalf("%s goes round: %q, then %q", c.ID, c.Do, c.Then)
			}
			if c.ID == chokingID && !slices.ContainsFunc(s.Signs, func(x Sign) bool { return x.ID == Choking }) {
				t.Fatalf("burnt sulfur that nobody smelt: %s", brief(list))
			}
			if !(c.Weight > 0) || c.Do == "" || c.Recheck == "" || c.Why == "" || c.Wait < 0 {
				t.Fatalf("%+v", c)
			}
			keeps(t, c, s, v)
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("the weights add up to %v", sum)
		}
	})
}

// With a smell of burnt sulfur there is no dose, ever: all go out. Nor is there one in a vat that is being built beyond its
// recipe, or that is being ended, or has ended.
func TestNoDoseAtAll(t *testing.T) {
	recipes := map[string]recipe.Recipe{}
	for _, id := range published.RecipeIDs {
		recipes[id] = published.Recipe(t, id)
	}
	choking, _ := Find(Choking)
	rapid.Check(t, func(t *rapid.T) {
		s, v := drawn(t, recipes)
		says := map[string]string{}
		switch rapid.IntRange(0, 3).Draw(t, "why") {
		case 0:
			s.Signs = append(s.Signs, choking)
			says["fresh air"], says["goods and hands out"], says["neighbour vat"], says["add nothing"] = "", "", "", ""
		case 1:
			v.Building = true
		case 2:
			v.Ending = true
		case 3:
			v.Ended = "3 May 2026"
		}
		list := Causes(s, v)
		for _, c := range list {
			if len(c.Doses) > 0 || c.Act == Give || c.Act == Dye || c.Act == Warm || len(list) != 1 && list[0].Act != Stop {
				t.Fatalf("%+v", c)
			}
		}
		for w := range says {
			if !strings.Contains(list[0].Do+list[0].How, w) {
				t.Fatalf("%q is not in %+v", w, list[0])
			}
		}
	})
}

// A ferment vat hears of no reducer but that it gets none.
func TestNoReducerIsHintedAtInAFerment(t *testing.T) {
	recipes := map[string]recipe.Recipe{}
	for _, id := range published.RecipeIDs {
		recipes[id] = published.Recipe(t, "madder-bran")
	}
	clean := func(t interface{ Fatalf(string, ...any) }, texts ...string) {
		for _, text := range texts {
			if m := hint.FindString(refusal.ReplaceAllString(text, "")); m != "" {
				t.Fatalf("%q in %q", m, text)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		s, v := drawn(t, recipes)
		v.Recipe = recipes["soda"] // not the spoilt one: its powder's own name is not a hint
		for _, c := range Causes(s, v) {
			clean(t, append([]string{c.Name, c.Do, c.How, c.Then, c.Why, c.Recheck, c.Contradicts}, c.Cautions...)...)
		}
	})
}

var (
	refusal = regexp.MustCompile(`(?i)\b(no|never)( a| any)?( chemical| sulfur)? reducer`)
	hint    = regexp.MustCompile(`(?i)reducer|dithionite|hydros|thiourea|fructose|copperas|iron\(II\)`)
)

// Where a sign speaks against a vat that is ready, ready is not what is said first. What speaks for one is S1's list: clear
// yellow-green to amber, coppery skin, violet-blue froth, a strip of about 45 s; in an iron vat brown may be well (C), a ferment
// that goes well smells sweet (S6, C), and a recipe's checks have its own look: madder and bran are "yellow-green to brown" (C).
func TestReadyHasNoSignAgainstIt(t *testing.T) {
	recipes := map[string]recipe.Recipe{}
	for _, id := range published.RecipeIDs {
		recipes[id] = published.Recipe(t, id)
	}
	good := map[string]bool{"yellow": true, "clear": true, "coppery": true, "dark-froth": true, "strip-good": true}
	vague := map[string]bool{"no-film": true, "no-froth": true, "no-smell": true, "sweet": true}
	rapid.Check(t, func(t *rapid.T) {
		s, v := drawn(t, recipes)
		first := Causes(s, v)[0]
		if first.ID != readyID {
			return
		}
		any := false
		for _, id := range s.clean().evidence(v) {
			any = any || good[id]
		}
		for _, id := range s.clean().evidence(v) {
			if _, seen := Find(id); !seen || good[id] || any && vague[id] || id == "brown" && v.Recipe.Family == recipe.IronLime ||
				slices.Contains(lookOf(v.Recipe), id) {
				continue
			}
			t.Fatalf("ready, with %s: %+v", id, first)
		}
	})
}

func keeps(t *rapid.T, c Cause, s Seen, v Vat) {
	r, low, off := v.Recipe, false, s.PHError
	if off == 0 {
		off = 0.5
	}
	if s.PH != nil { // a quarter of the reading's error below the mark and more
		low = v.Recipe.Liquor.PHLow-float64(*s.PH) >= off/4
	}
	if (c.Act == Give) != (len(c.Doses) > 0) {
		t.Fatalf("%s is %s, with %v", c.ID, c.Act, c.Doses)
	}
	if len(c.Doses) > 0 && !(v.Fill > 0) {
		t.Fatalf("a dose without a fill: %+v", c)
	}
	total := map[string]quantity.Mass{}
	for i, d := range c.Doses {
		p, ok := r.Powder(d.Powder)
		if !ok || p.Role != d.Role || !(d.Mass > 0) || d.Portions < 1 {
			t.Fatalf("%s: %+v", c.ID, d)
		}
		total[p.ID] += d.Mass
		now, today := liquor.Most(r, p.ID, v.Fill, liquor.GivenToday(r, p.ID, v.GivenToday))
		if with := withReducer(r, c) && d.Role == recipe.Alkali; !with && total[p.ID] > now+1e-9 || !with && total[p.ID] > today+1e-9 {
			t.Fatalf("%s: %v of %s, of at most %v", c.ID, d.Mass, p.ID, now)
		}
		if p.Substance() == recipe.Acid || d.Role == recipe.Reducer && r.Family == recipe.Ferment {
			t.Fatalf("%s: %+v", c.ID, d)
		}
		if p.SulfurReducer() && s.PH != nil && *s.PH < 7 {
			t.Fatalf("sulfur reducer at pH %v: %+v", *s.PH, c)
		}
		if p.SulfurReducer() && d.Into == recipe.IntoVat && s.Temp != nil && *s.Temp > 50 {
			t.Fatalf("sulfur reducer into %v", *s.Temp)
		}
		if d.Role == recipe.Reducer && s.Strip != nil && *s.Strip > overStrip {
			t.Fatalf("reducer, and the strip stays yellow for %v", *s.Strip)
		}
		if steps := d.Mass.Grams() / v.Finest.Grams(); v.Finest > 0 && math.Abs(steps-math.Round(steps)) > 1e-6 {
			t.Fatalf("%v is not on a scale of %v", d.Mass, v.Finest)
		}
		if v.HandsIn && v.HeaterOn {
			t.Fatalf("a dose with hands in and heater on: %+v", c)
		}
		// Alkali first where pH was read low, and then nothing before it; else only where a row asks, never above its range.
		kept := false // the vat is kept low for goods that its low mark would harm
		for _, f := range v.Goods {
			verdict, _ := f.BearsPH(quantity.PH(r.Liquor.PHLow))
			kept = kept || verdict != fibre.Fine
		}
		for _, p := range r.Powders { // within the reading's error, with alkali given today, is near enough
			kept = kept || low && p.Role == recipe.Alkali && r.Liquor.PHLow-float64(*s.PH) <= off && v.GivenToday[p.ID] > 0
		}
		if low && !kept && i == 0 && d.Role != recipe.Alkali {
			t.Fatalf("pH was read low, and %s goes in first", d.Powder)
		}
		if d.Role == recipe.Alkali {
			if !low && !alkaliBySign[c.ID] && !withReducer(r, c) {
				t.Fatalf("%s asks for alkali that nothing read", c.ID)
			}
			if s.PH != nil && float64(*s.PH) >= r.Liquor.PHHigh {
				t.Fatalf("alkali at pH %v", *s.PH)
			}
			for _, f := range v.Goods {
				if f.Class() == fibre.Protein && (s.PH == nil && !withReducer(r, c) || s.PH != nil && *s.PH >= f.Facts().PH.Value) {
					t.Fatalf("alkali with %v about: %+v", f, c)
				}
			}
		}
		// Warmth before reducer, food and indigo.
		if s.Temp != nil && *s.Temp < r.Liquor.Low && !low && c.ID != "putrid" && warmable(s, v) {
			t.Fatalf("%s gives %s at %v", c.ID, d.Powder, *s.Temp)
		}
	}
	if c.Act == Warm && c.To != nil {
		top := min(r.Liquor.Aim, r.Liquor.Build)
		for _, f := range v.Goods {
			top = min(top, f.Facts().Heat.Value)
		}
		if *c.To > top || v.Class && *c.To > 40 || s.Temp == nil || *c.To <= *s.Temp {
			t.Fatalf("warm to %v", *c.To)
		}
	}
	said := strings.ToLower(c.Do + c.How)
	for _, w := range []string{"sour", "citric", "vinegar"} {
		if strings.Contains(said, w) && c.Act != Goods && !strings.Contains(said, "smell") {
			t.Fatalf("acid into a vat? %s", said)
		}
	}
	// Wool and silk in a liquor that they do not bear: no dose, no warming, no dyeing.
	for _, f := range v.Goods {
		if s.PH == nil {
			continue
		}
		if verdict, _ := f.BearsPH(*s.PH); verdict == fibre.Refused && v.Fill > 0 && (c.Act == Give || c.Act == Warm || c.Act == Dye) {
			t.Fatalf("%s with %v at pH %v: %s", c.Act, f, *s.PH, c.Do)
		}
	}
}

// warmable tells whether there is room to warm: the goods, the class and the aim may leave none.
func warmable(s Seen, v Vat) bool {
	top := min(v.Recipe.Liquor.Aim, v.Recipe.Liquor.Build)
	if v.Class {
		top = min(top, 40)
	}
	return top > *s.Temp
}

// A treatment that did not help leaves its cause with less weight than before.
func TestTriedNarrows(t *testing.T) {
	recipes := map[string]recipe.Recipe{}
	for _, id := range published.RecipeIDs {
		recipes[id] = published.Recipe(t, id)
	}
	rapid.Check(t, func(t *rapid.T) {
		s, v := drawn(t, recipes)
		s.Tried = nil
		before := Causes(s, v)
		first := before[0]
		s.Tried = []Tried{{first.ID, Same}}
		for _, c := range Causes(s, v) {
			if c.ID == first.ID && len(before) > 1 && c.ID != "look-again" && c.ID != "not-known" && c.ID != "not-looked" && c.Weight != lookAgainPart && c.Weight >= first.Weight {
				t.Fatalf("%s: %.3f, and after it did not help %.3f", c.ID, first.Weight, c.Weight)
			}
		}
	})
}
