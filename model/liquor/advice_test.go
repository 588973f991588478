package liquor

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
	"pgregory.net/rapid"
)

func at[T any](v T) *T { return &v }

// vat is 60 L of a built-in recipe at its aim, with a good strip.
func vat(t testing.TB, id string) State {
	r := published.Recipe(t, id)
	return State{Recipe: r, Fill: quantity.Litres(60), Temp: at(r.Liquor.Aim), Strip: at(quantity.Seconds(45))}
}

// Each rule once: what was read and seen, and what is to be done. The doses are those of the trade's table of signs.
func TestAdvice(t *testing.T) {
	strip := func(s float64) func(*State) { return func(n *State) { n.Strip = at(quantity.Seconds(s)) } }
	ph := func(v quantity.PH) func(*State) { return func(n *State) { n.PH = &v } }
	temp := func(c float64) func(*State) { return func(n *State) { n.Temp = at(quantity.Celsius(c)) } }
	goods := func(f ...fibre.Fibre) func(*State) { return func(n *State) { n.Goods = f } }
	fed := func(days float64) func(*State) { return func(n *State) { n.SinceFood = at(quantity.Days(days)) } }
	given := func(id string, g float64) func(*State) {
		return func(n *State) { n.GivenToday = map[string]quantity.Mass{id: quantity.Grams(g)} }
	}
	for _, c := range []struct {
		what   string
		id     string
		is     []func(*State)
		do     string
		powder string
		grams  float64
		says   string
	}{
		{"all is well (S1)", "soda", nil, DoNothing, "", 0, "nothing to add"},
		{"nothing was read", "soda", []func(*State){func(n *State) { n.Temp, n.Strip = nil, nil }}, DoNothing, "", 0, "read °C and pull a strip"},
		{"no fill", "soda", []func(*State){func(n *State) { n.Fill = 0 }, strip(5)}, DoNothing, "", 0, "without a fill"},

		// alkali first only if pH was read low, else warm, reducer, alkali last
		{"pH read low, cold and weak", "soda", []func(*State){ph(9.5), temp(25), strip(5)}, DoAlkali, "soda", 60, "60 g of soda ash"},
		{"pH good, cold and weak", "soda", []func(*State){ph(10.6), temp(25), strip(5)}, DoWarm, "", 0, "warm it to 35 °C"},
		{"pH not read, cold and weak", "soda", []func(*State){temp(25), strip(5)}, DoWarm, "", 0, "35 °C"},
		{"pH at the mark is not low", "soda", []func(*State){ph(10)}, DoNothing, "", 0, ""},
		{"below the mark, within what paper may be off: as much less of a step", "soda", []func(*State){ph(9.8)}, DoAlkali, "soda", 24, "24.0 g"},
		{"the same by a meter: a whole step", "soda", []func(*State){ph(9.8), func(n *State) { n.PHError = 0.1 }}, DoAlkali, "soda", 60, "60 g"},
		{"a tenth below the mark, by paper: near enough", "soda", []func(*State){ph(9.9)}, DoNothing, "", 0, "nothing to add"},
		{"strips of 14, 15 and 16 s differ little", "soda", []func(*State){strip(14)}, DoReducer, "reducer", 18.3, "18.3 g"},
		{"at the mark half a step", "soda", []func(*State){strip(15)}, DoReducer, "reducer", 15, "15.0 g"},
		{"above it less", "soda", []func(*State){strip(16)}, DoReducer, "reducer", 11.7, "11.7 g"},
		{"not weak, whatever the strip is off", "soda", []func(*State){strip(19)}, DoWait, "", 0, "rest it"},
		{"acid, whatever else", "soda", []func(*State){ph(6), temp(75), strip(5)}, DoStop, "", 0, "step upwind"},
		{"acid at its end too", "thiourea", []func(*State){ph(6.9), func(n *State) { n.Ending = true }}, DoStop, "", 0, "nothing goes into this vat"},
		{"below what it can reach by itself", "soda", []func(*State){ph(8.2), strip(5)}, DoWait, "", 0, "read pH again with a fresh strip, outdoors"},
		{"lower than that where reducer was given today", "soda", []func(*State){ph(8.8), given("reducer", 120)}, DoAlkali, "soda", 60, "60 g"},
		{"lime that is all chalk has 8.3", "sugar-lime", []func(*State){ph(7)}, DoWait, "", 0, "read pH again"},
		{"too hot for soda", "soda", []func(*State){ph(9.4), temp(41)}, DoWait, "", 0, "let it cool to 40 °C before any powder"},
		{"too hot for lime", "sugar-lime", []func(*State){ph(10), temp(75)}, DoWait, "", 0, "let it cool to 38 °C before any powder"},
		{"within what the reducer's step allows", "soda", []func(*State){strip(5), temp(45)}, DoReducer, "reducer", 30, "30.0 g"},
		{"the same, but alkali was given today: near enough, so reducer", "soda", []func(*State){ph(9.8), strip(5), given("soda", 30)}, DoReducer, "reducer", 30, "30.0 g"},
		{"well below the mark, and alkali was given today", "soda", []func(*State){ph(9.4), strip(5), given("soda", 30)}, DoAlkali, "soda", 60, "60 g"},
		{"all but a crumb of the day's alkali is in", "soda", []func(*State){ph(9.4), strip(5), given("soda", 170)}, DoStop, "", 0, "no more soda ash today"},
		{"half a step of the day's alkali is left", "soda", []func(*State){ph(9.4), strip(5), given("soda", 150)}, DoAlkali, "soda", 30, "30.0 g"},
		{"strip a little slow", "soda", []func(*State){strip(20)}, DoWait, "", 0, "lid on"},
		{"strip over 3 min (S1)", "soda", []func(*State){strip(200)}, DoWait, "", 0, "rest it open"},
		{"too hot", "soda", []func(*State){temp(43)}, DoWait, "", 0, "cool to 40 °C"},
		{"no sulfur reducer above 50 °C", "soda", []func(*State){temp(52), strip(5)}, DoWait, "", 0, "cool to 50 °C before any powder"},

		// the families
		{"thiourea dioxide, weak", "thiourea", []func(*State){strip(5)}, DoReducer, "reducer", 18, "thiourea dioxide"},
		{"sugar, weak", "sugar-lime", []func(*State){strip(5)}, DoReducer, "fructose", 60, "fructose"},
		{"sugar, pH below 10.5", "sugar-lime", []func(*State){ph(10), strip(5)}, DoAlkali, "lime", 24, "lime"},
		{"iron, weak: iron and then its lime (S4 0.48)", "iron-lime", []func(*State){strip(5)}, DoReducer, "iron", 30, "30.0 g of iron(II) sulfate heptahydrate, then 30.0 g of calcium hydroxide"},
		{"iron, weak, and above its range within what paper is off: no lime", "iron-lime", []func(*State){strip(5), ph(13.3)}, DoReducer, "iron", 30, "add 30.0 g of iron(II) sulfate heptahydrate"},
		{"above its range by all that paper is off: lime alone gives 12.7", "iron-lime", []func(*State){ph(13.5)}, DoWait, "", 0, "no hands and no goods in it; read pH again"},
		{"the same, weak: no iron", "iron-lime", []func(*State){strip(5), ph(13.5)}, DoWait, "", 0, "no hands and no goods in it; read pH again"},
		{"the books' highest pH of iron and lime", "iron-lime", []func(*State){ph(13)}, DoNothing, "", 0, "nothing to add"},
		{"a meter at it", "iron-lime", []func(*State){ph(13.1), func(n *State) { n.PHError = 0.1 }}, DoWait, "", 0, "no hands and no goods in it"},
		{"an error that nothing is read with", "soda", []func(*State){strip(5), ph(9.4), func(n *State) { n.PHError = 1e300 }}, DoAlkali, "soda", 60, "60 g"},
		{"more alkali than a soda vat can have", "soda", []func(*State){strip(5), ph(13)}, DoWait, "", 0, "no hands and no goods in it; read pH again"},
		{"a mild vat that has crept up", "mild-soda", []func(*State){ph(10.6)}, DoNothing, "", 0, "nothing to add"},
		{"lye vat, weak", "lye", []func(*State){strip(5)}, DoReducer, "reducer", 30, "dithionite"},
		{"ferment, weak, nobody knows when it was fed: ask", "madder-bran", []func(*State){strip(5)}, DoWait, "", 0, "when was it last fed? no food before three days"},
		{"ferment, weak, fed yesterday", "madder-bran", []func(*State){strip(5), fed(1.2)}, DoWait, "", 0, "no food before three days since the last, 1.2 days ago"},
		{"ferment, weak, three days without food", "madder-bran", []func(*State){strip(5), fed(3)}, DoFood, "bran", 60, "wheat bran"},
		{"ferment, pH below 9.5: lime in small repeats (S6)", "madder-bran", []func(*State){ph(9)}, DoAlkali, "lime", 18, "lime"},
		{"ferment, weak but cold", "madder-bran", []func(*State){strip(5), temp(20)}, DoWarm, "", 0, "35 °C"},

		// too hot for it: first into the range
		{"ferment, weak and far too hot", "madder-bran", []func(*State){strip(5), temp(55), fed(4)}, DoWait, "", 0, "let it cool to 38 °C"},
		{"sugar, weak and far too hot", "sugar-lime", []func(*State){strip(5), temp(55)}, DoWait, "", 0, "let it cool to 38 °C"},
		{"iron, weak and too warm", "iron-lime", []func(*State){strip(5), temp(36)}, DoWait, "", 0, "let it cool to 25 °C"},
		{"iron, weak at its high mark", "iron-lime", []func(*State){strip(5), temp(25)}, DoReducer, "iron", 30, "iron(II) sulfate"},
		{"ferment, weak, hot and sour: cooling first", "madder-bran", []func(*State){strip(5), temp(42), ph(8.9)}, DoWait, "", 0, "let it cool to 38 °C before any powder"},

		// the limits
		{"a day's reducer given", "soda", []func(*State){strip(5), given("reducer", 120)}, DoStop, "", 0, "no more sodium dithionite today: 120 g"},
		{"almost a day's reducer given", "soda", []func(*State){strip(5), given("reducer", 110)}, DoReducer, "reducer", 10, ""},
		{"the clearing reducer counts", "lye", []func(*State){strip(5), given("clearing", 110)}, DoReducer, "reducer", 10, ""},
		{"a day's lime given: no iron", "iron-lime", []func(*State){strip(5), given("lime", 90)}, DoStop, "", 0, "no more calcium hydroxide"},
		{"little lime left: as little iron", "iron-lime", []func(*State){strip(5), given("lime", 80)}, DoReducer, "iron", 10, ""},
		{"a coarse scale", "soda", []func(*State){strip(5), func(n *State) { n.Finest = 50 }}, DoWait, "", 0, "less than the scale shows"},
		{"bran given today", "madder-bran", []func(*State){strip(5), given("bran", 60)}, DoWait, "", 0, "no food before three days since the last, which was today"},

		// building, danger
		{"being built", "soda", []func(*State){strip(5), ph(9), temp(20), func(n *State) { n.Building = true }}, DoWait, "", 0, "build it to its end first"},
		{"being ended: acid may be in it", "soda", []func(*State){strip(5), ph(7), temp(20), func(n *State) { n.Ending = true }}, DoStop, "", 0, "it is being ended: no alkali, no reducer"},
		{"ended", "soda", []func(*State){strip(5), func(n *State) { n.Ended = "3 May 2026" }}, DoStop, "", 0, "it has ended on 3 May 2026"},
		{"burnt sulfur, hands in, heater on", "soda", []func(*State){strip(5), func(n *State) { n.Choking, n.HandsIn, n.HeaterOn = true, true, true }}, DoStop, "", 0, "fresh air"},
		{"acid was read in a vat that is kept low for wool", "soda", []func(*State){strip(5), ph(5), goods(fibre.Wool)}, DoStop, "", 0, "nothing goes into this vat"},
		{"burnt sulfur at a lime vat", "iron-lime", []func(*State){ph(10), func(n *State) { n.Choking = true }}, DoStop, "", 0, "fresh air"},
		{"hands in, heater on", "soda", []func(*State){strip(5), func(n *State) { n.HandsIn, n.HeaterOn = true, true }}, DoStop, "", 0, "hands and goods out"},
		{"hands in hot liquor", "thiourea", []func(*State){temp(46), func(n *State) { n.HandsIn = true }}, DoStop, "", 0, "45 °C is the most"},
		{"a class at 42 °C", "thiourea", []func(*State){temp(42), func(n *State) { n.Class = true }}, DoStop, "", 0, "40 °C is the most"},

		// wool and silk
		{"wool in a soda vat, pH not read", "soda", []func(*State){goods(fibre.Wool)}, DoStop, "", 0, "not read"},
		{"wool at 9.6 in the ferment vat", "madder-bran", []func(*State){goods(fibre.Wool), ph(9.6)}, DoNothing, "", 0, ""},
		{"wool in iron and lime short of lime", "iron-lime", []func(*State){goods(fibre.Wool), ph(10)}, DoStop, "", 0, "wool does not bear the alkali"},
		{"wool at 62 °C", "madder-bran", []func(*State){goods(fibre.Wool), ph(9.6), temp(62)}, DoStop, "", 0, "let it cool"},
	} {
		n := vat(t, c.id)
		for _, f := range c.is {
			f(&n)
		}
		a := Advise(n)
		if a.Do != c.do || a.Powder != c.powder || math.Abs(a.Mass.Grams()-c.grams) > 1e-9 || !strings.Contains(a.Sentence, c.says) {
			t.Errorf("%s: %s %v of %q: %s", c.what, a.Do, a.Mass, a.Powder, a.Sentence)
		}
	}
}

// The wait is the recipe's; the alkali comes next; the powder says how, and what to beware of.
func TestAdviceOnDithionite(t *testing.T) {
	n := vat(t, "soda")
	n.Strip, n.HandsIn, n.Class, n.System = at(quantity.Seconds(5)), true, true, quantity.US
	a := Advise(n)
	said := strings.Join(a.Cautions, "; ")
	for _, w := range []string{"mask", "cross-draught", "never water on this powder", "never with acid", "hands and goods out first", "no child"} {
		if !strings.Contains(said, w) {
			t.Errorf("%q is not in %q", w, said)
		}
	}
	if a.Wait != quantity.Minutes(30) || a.Next != "soda" || !strings.Contains(a.How, "sprinkle it dry") || !strings.Contains(a.Sentence, "1.06 oz") {
		t.Errorf("%+v", a)
	}
	iron := vat(t, "iron-lime")
	iron.Strip = at(quantity.Seconds(5))
	if a := Advise(iron); len(a.With) != 1 || a.With[0] != (Amount{"lime", 30}) || a.Wait != quantity.Hours(4) {
		t.Errorf("%+v", a)
	}
}

// Warming: to the aim, never past it or the build; hands and goods out; heating is part of the wait.
func TestAdviceToWarm(t *testing.T) {
	for _, id := range published.RecipeIDs {
		n := vat(t, id)
		n.Temp = at(n.Recipe.Liquor.Low - 5)
		a := Advise(n)
		if a.Do != DoWarm || *a.To != n.Recipe.Liquor.Aim || *a.To > n.Recipe.Liquor.Build || !strings.Contains(a.How, "unplugged") {
			t.Errorf("%s: %+v", id, a)
		}
		n.Heater = quantity.Watts(1000)
		if b := Advise(n); b.Wait < quantity.Minutes(30) || b.Wait != a.Wait || strings.Contains(b.How, "until it reads") {
			t.Errorf("%s: %v for heating and waiting", id, b.Wait)
		}
		if want := "it reads " + a.To.String(); !strings.Contains(a.How, want) || !strings.Contains(a.Recheck, want) {
			t.Errorf("%s, no heater named: %s; %s", id, a.How, a.Recheck)
		}
		n.Recipe.Liquor.Build = n.Recipe.Liquor.Aim - 3
		if b := Advise(n); *b.To != n.Recipe.Liquor.Build {
			t.Errorf("%s: past its build", id)
		}
	}
}

// Wool and silk: up to 1 above their ceiling a warning, beyond it a refusal that says what to do instead.
func TestAdviceOnWool(t *testing.T) {
	n := vat(t, "soda")
	n.Goods = []fibre.Fibre{fibre.Cotton, fibre.Wool}
	n.PH = at(quantity.PH(10.3))
	if a := Advise(n); a.Refused || !strings.Contains(strings.Join(a.Warnings, " "), "wool is at its best up to pH 9.5") {
		t.Errorf("%+v", a)
	}
	n.PH = at(quantity.PH(10.8))
	a := Advise(n)
	for _, w := range []string{"mild-soda", "a ferment vat"} {
		if !a.Refused || !strings.Contains(a.Sentence, w) {
			t.Errorf("%q is not in %+v", w, a)
		}
	}
	if a.Why != "the fibre is at its best up to pH 9.5" { // in words, without the marks of its evidence
		t.Errorf("why: %q", a.Why)
	}
	n.PH, n.Temp = at(quantity.PH(10)), at(quantity.Celsius(36))
	if a := Advise(n); a.Refused || a.Do != DoNothing {
		t.Errorf("%+v", a)
	}
	f := vat(t, "madder-bran")
	f.Goods = []fibre.Fibre{fibre.Silk}
	if a := Advise(f); a.Refused || !strings.Contains(strings.Join(a.Warnings, " "), "read pH before") {
		t.Errorf("%+v", a)
	}
	// silk bears 10 and up to 11 is warned of
	f.PH = at(quantity.PH(10.9))
	if a := Advise(f); a.Refused || len(a.Warnings) == 0 {
		t.Errorf("%+v", a)
	}
}

func drawNow(t *rapid.T, recipes []recipe.Recipe) State {
	odd := func(low, high float64) *rapid.Generator[float64] {
		return rapid.OneOf(rapid.Float64Range(low, high), rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300}))
	}
	n := State{
		Recipe: rapid.SampledFrom(recipes).Draw(t, "recipe"), Fill: quantity.Volume(odd(0.01, 200).Draw(t, "L")),
		PHError: odd(0, 1).Draw(t, "±"), Finest: quantity.Mass(odd(0.01, 5).Draw(t, "finest")),
		Building: rapid.IntRange(0, 9).Draw(t, "building") == 0, HandsIn: rapid.Bool().Draw(t, "hands"), HeaterOn: rapid.Bool().Draw(t, "heater"),
		Heater: quantity.Power(odd(0, 3000).Draw(t, "W")), Class: rapid.Bool().Draw(t, "class"),
		Goods: rapid.SliceOfN(rapid.SampledFrom(append(fibre.All(), fibre.Unknown, fibre.Fibre(99))), 0, 2).Draw(t, "goods"),
	}
	n.Choking, n.Ending = rapid.IntRange(0, 9).Draw(t, "choking") == 0, rapid.IntRange(0, 9).Draw(t, "ending") == 0
	n.Ended = rapid.SampledFrom([]string{"", "", "", "", "3 May 2026"}).Draw(t, "ended")
	if rapid.Bool().Draw(t, "fed") {
		n.SinceFood = at(quantity.Days(rapid.Float64Range(0, 9).Draw(t, "days since food")))
	}
	if rapid.Bool().Draw(t, "°C read") {
		n.Temp = at(quantity.Temperature(odd(10, 60).Draw(t, "°C")))
	}
	if rapid.Bool().Draw(t, "pH read") {
		n.PH = at(quantity.PH(odd(8, 13).Draw(t, "pH")))
	}
	if rapid.Bool().Draw(t, "strip pulled") {
		n.Strip = at(quantity.Seconds(rapid.Float64Range(-10, 400).Draw(t, "s")))
	}
	for _, p := range n.Recipe.Powders {
		if rapid.Bool().Draw(t, p.ID+" given") {
			if n.GivenToday == nil {
				n.GivenToday = map[string]quantity.Mass{}
			}
			n.GivenToday[p.ID] = quantity.Mass(odd(0, 300).Draw(t, p.ID))
		}
	}
	return n
}

// enough tells whether a pH below the mark is to stay so: kept low for goods, or as near as the reading tells, with alkali given
// today, or nothing given could raise it.
func enough(n State) bool {
	for _, f := range n.Goods {
		if v, _ := f.BearsPH(quantity.PH(n.Recipe.Liquor.PHLow)); v != fibre.Fine {
			return true
		}
	}
	p, ok := Alkali(n.Recipe)
	short, off := n.Recipe.Liquor.PHLow-float64(*n.PH), n.Clean().PHError
	return !ok || short <= off && GivenToday(n.Recipe, p.ID, n.GivenToday) > 0 || short < off/4 // less than a quarter of a step
}

// Whatever was read: no dose above a limit, no danger, no chemical reducer in a ferment vat, something said, nothing that
// panics.
func TestAdviceIsNeverDangerous(t *testing.T) {
	recipes := []recipe.Recipe{{}, {Powders: []recipe.Powder{{}}}, {Family: recipe.Ferment, Powders: []recipe.Powder{{ID: "r", Role: recipe.Reducer, Dose: 5}}}}
	for _, id := range published.RecipeIDs {
		recipes = append(recipes, published.Recipe(t, id))
	}
	rapid.Check(t, func(t *rapid.T) {
		n := drawNow(t, recipes)
		a := Advise(n)
		l := n.Recipe.Liquor
		dosed := a.Do == DoAlkali || a.Do == DoReducer || a.Do == DoFood
		switch {
		case a.Do == "" || a.Sentence == "" || strings.HasSuffix(a.Sentence, ".") || a.Recheck == "" && a.Do != DoStop && a.Do != DoWait:
			t.Fatalf("nothing said: %+v", a)
		case dosed != (a.Mass > 0) || dosed != (a.Powder != ""), a.Mass < 0, a.Wait < 0:
			t.Fatalf("a dose without a powder: %+v", a)
		case dosed && (n.Building || a.Refused || n.HandsIn && n.HeaterOn):
			t.Fatalf("a dose where there may be none: %+v", a)
		case dosed && (n.Choking || n.Ending || n.Ended != ""):
			t.Fatalf("a dose into a vat that gets none: %+v", a)
		case a.Do == DoReducer && n.Recipe.Family == recipe.Ferment:
			t.Fatalf("a reducer in a ferment vat: %+v", a)
		case a.Do == DoReducer && n.PH != nil && *n.PH >= 0 && *n.PH < 7 && n.Recipe.Family.SulfurReducer():
			t.Fatalf("sulfur reducer into acid: %+v", a)
		case a.Do == DoReducer && n.PH != nil && *n.PH >= 0 && float64(*n.PH) < l.PHLow && !enough(n):
			t.Fatalf("reducer before alkali: %+v", a)
		case a.Do == DoWarm && (*a.To > l.Aim || *a.To > l.Build || n.Class && *a.To > 40):
			t.Fatalf("too warm: %+v", a)
		}
		for _, m := range append(a.With, Amount{a.Powder, a.Mass}) {
			now, today := Most(n.Recipe, m.Powder, n.Fill, GivenToday(n.Recipe, m.Powder, n.GivenToday))
			if p, _ := n.Recipe.Powder(m.Powder); a.Do == DoReducer && p.Role == recipe.Alkali && n.Recipe.Family == recipe.DithioniteSoda {
				continue // the ash of a mild vat's reducer counts on no limit
			}
			if m.Mass > now || m.Mass > today {
				t.Fatalf("%v of %s above %v at once and %v today", m.Mass, m.Powder, now, today)
			}
		}
		if p, ok := n.Recipe.Powder(a.Powder); ok && p.SulfurReducer() && n.Temp != nil && *n.Temp > 50 && *n.Temp <= 100 {
			t.Fatalf("a sulfur reducer into %v", *n.Temp)
		}
	})
}

// More given today never allows more.
func TestMostFalls(t *testing.T) {
	var recipes []recipe.Recipe
	for _, id := range published.RecipeIDs {
		recipes = append(recipes, published.Recipe(t, id))
	}
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(recipes).Draw(t, "recipe")
		p := rapid.SampledFrom(r.Powders).Draw(t, "powder")
		fill := quantity.Litres(rapid.Float64Range(0.1, 200).Draw(t, "L"))
		given := quantity.Grams(rapid.Float64Range(0, 500).Draw(t, "given"))
		now, today := Most(r, p.ID, fill, given)
		less, lessToday := Most(r, p.ID, fill, given+10)
		if now > today || less > now || lessToday > today {
			t.Fatal(now, today, less, lessToday)
		}
	})
}

// A vat that is kept at pH 9.2 for wool is not pushed to its recipe's 10; in lime the alkali goes to acids, not to reducer.
func TestLowPHForWoolAndForLime(t *testing.T) {
	ph, temp := quantity.PH(9.5), quantity.Celsius(35)
	n := State{Recipe: published.Recipe(t, "soda"), Fill: 60, Temp: &temp, PH: &ph, PHError: 0.5, Goods: []fibre.Fibre{fibre.Wool}}
	a := Advise(n)
	if a.Do == DoAlkali || !strings.Contains(strings.Join(a.Warnings, "; "), "stays there for the wool") {
		t.Errorf("%+v", a)
	}
	n.Goods = nil
	if a := Advise(n); a.Do != DoAlkali || !strings.Contains(a.Why, "1.2 g of soda ash") {
		t.Errorf("without wool: %+v", a)
	}
	low := quantity.PH(9.8)
	lime := State{Recipe: published.Recipe(t, "sugar-lime"), Fill: 20, Temp: &temp, PH: &low, PHError: 0.5}
	if a := Advise(lime); a.Do != DoAlkali || strings.Contains(a.Why, "dithionite") {
		t.Errorf("in lime: %+v", a)
	}
}

// A ferment vat hears of no reducer but that it gets none.
func TestNoReducerIsHintedAtInAFerment(t *testing.T) {
	of := []recipe.Recipe{published.Recipe(t, "madder-bran")}
	rapid.Check(t, func(t *rapid.T) {
		a := Advise(drawNow(t, of))
		for _, text := range append([]string{a.Sentence, a.Why, a.How, a.Recheck}, append(a.Cautions, a.Warnings...)...) {
			if m := hint.FindString(refusal.ReplaceAllString(text, "")); m != "" {
				t.Fatalf("%q in %q", m, text)
			}
		}
	})
}

var (
	refusal = regexp.MustCompile(`\b(no|never|No|Never)( a| any)?( chemical| sulfur)? reducer`)
	hint    = regexp.MustCompile(`(?i)reducer|dithionite|hydros|thiourea|fructose|copperas|iron\(II\)`)
)

// The waits are those of the table of signs: dithionite half an hour, sugar 1 to 2 h, iron 2 to 12 h; soda 15 min, lime 1 h and in
// a ferment 2 h; a vat that strips 1 h.
func TestTheWaitsAreTheTables(t *testing.T) {
	strip := func(id string, s float64) State { n := vat(t, id); n.Strip = at(quantity.Seconds(s)); return n }
	ph := func(id string, p quantity.PH) State { n := vat(t, id); n.PH = &p; return n }
	for _, c := range []struct {
		n    State
		want quantity.Span
	}{
		{strip("soda", 12), quantity.Minutes(30)}, {strip("lye", 12), quantity.Minutes(30)}, {strip("thiourea", 12), quantity.Minutes(30)},
		{strip("sugar-lime", 12), quantity.Hours(2)}, {strip("iron-lime", 12), quantity.Hours(4)}, {strip("soda", 200), quantity.Hours(1)},
		{ph("soda", 9.6), quantity.Minutes(15)}, {ph("sugar-lime", 10), quantity.Hours(1)}, {ph("iron-lime", 10), quantity.Hours(1)}, {ph("madder-bran", 9), quantity.Hours(2)},
	} {
		if a := Advise(c.n); a.Wait != c.want {
			t.Errorf("%s, %s: wait %v, not %v", c.n.Recipe.ID, a.Sentence, a.Wait, c.want)
		}
	}
}

// Whoever reads °F is never told of °C.
func TestAdviceInTheDyersDegrees(t *testing.T) {
	said := 0
	for _, id := range published.RecipeIDs {
		for temp := range 100 {
			n := vat(t, id)
			n.System, n.Temp, n.Strip, n.Heater = quantity.US, at(quantity.Temperature(temp)), at(quantity.Seconds(5)), quantity.Watts(1000)
			a := Advise(n)
			words := strings.Join(append([]string{a.Sentence, a.How, a.Why, a.Recheck}, append(a.Cautions, a.Warnings...)...), "; ")
			if strings.Contains(words, "°C") {
				t.Fatalf("%s at %d °C: %s", id, temp, words)
			}
			if strings.Contains(words, "read °F") {
				said++
			}
		}
	}
	if said < 100 {
		t.Errorf("only %d of them ask for °F", said)
	}
}
