package signs

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
)

func ids(list []Sign) string {
	var out []string
	for _, s := range list {
		out = append(out, s.ID)
	}
	return strings.Join(out, " ")
}

func TestParse(t *testing.T) {
	for said, want := range map[string]string{
		"blue, cloudy":                      "blue cloudy",
		"Blue and turbid":                   "blue cloudy",
		"clear grass green":                 "clear grass-green",
		"blue-green; clear, no film":        "blue-green clear no-film",
		"the liquor is amber\ncoppery skin": "yellow coppery",
		"grey-white cloud":                  "grey-white",
		"no smell no froth flat lime smell": "no-smell no-froth flat-lime",
		"streaks, streaky":                  "streaks",
		"sediment rises, goods uneven":      "sediment-rises uneven",
		"dull, weak dyeings":                "dull",
		"green cast, grey cast":             "green-cast grey-cast",
		"strip blue in less than 15 s":      "strip-weak",
		"strip-over + paler after a dip":    "strip-over paler-after",
		"choking smell of burnt sulfur":     "choking",
		"crocking on the":                   "",
		"purple elephants":                  "",
		"":                                  "",
		" , ; ":                             "",
	} {
		got, err := Parse(said)
		if want == "" {
			var u *UnknownError
			if !errors.As(err, &u) || !strings.Contains(err.Error(), "milky greenish-white") || !strings.Contains(err.Error(), "harsh wool") {
				t.Errorf("%q: %v, %v", said, ids(got), err)
			}
			continue
		}
		if err != nil || ids(got) != want {
			t.Errorf("%q: %s, %v; not %s", said, ids(got), err, want)
		}
	}
}

// Every sign is read by its words, its ID and each of its other words; none is said of two.
func TestEverySignIsRead(t *testing.T) {
	said := map[string]string{}
	for _, k := range known {
		for _, w := range append([]string{k.Words, k.ID, strings.ToUpper(k.Words)}, k.also...) {
			got, err := Parse(w)
			if err != nil || len(got) != 1 || got[0] != k.Sign {
				t.Errorf("%q: %s %v, not %s", w, ids(got), err, k.ID)
			}
			if of, ok := said[strings.ToLower(w)]; ok && of != k.ID {
				t.Errorf("%q is %s and %s", w, of, k.ID)
			}
			said[strings.ToLower(w)] = k.ID
		}
	}
	if len(All()) != len(known) {
		t.Error("not all signs are told")
	}
	speaks := map[string]bool{}
	for _, b := range beliefs() {
		for id, f := range b.speaks {
			if words(id) == "" || !(f > 0) {
				t.Errorf("%s speaks of %q by %v", b.id, id, f)
			}
			speaks[id] = speaks[id] || f >= 2
		}
	}
	for _, s := range All() {
		if !speaks[s.ID] && s.ID != "no-smell" {
			t.Errorf("%s is a sign of nothing", s.ID)
		}
	}
	for _, p := range opposed {
		if words(p.a) == "" || words(p.b) == "" {
			t.Errorf("%s and %s", p.a, p.b)
		}
	}
}

// What is nearly a sign is answered with that sign first, and what is none with none.
func TestNearest(t *testing.T) {
	for said, want := range map[string]string{
		"faded patches": "fade-patches", "gras green": "grass-green", "milkey": "milky", "corocking": "crocking", "harsh wol": "harsh-wool", "copery skin": "coppery", "burnt": "choking",
		"glittering": "", "purple elephants": "", "": "",
	} {
		near := Nearest(said)
		if want == "" && len(near) > 0 || want != "" && (len(near) == 0 || near[0].ID != want) {
			t.Errorf("%q: %s", said, ids(near))
		}
	}
	if _, err := Parse("faded patches"); err == nil || !strings.HasPrefix(err.Error(), `no sign is called "faded patches"; nearest: faded patches in store; `) || !strings.Contains(err.Error(), "; known signs: yellow-green to amber; ") {
		t.Errorf("%v", err)
	}
}

func FuzzParse(f *testing.F) {
	f.Add("blue, cloudy")
	f.Add("no smell no froth")
	f.Fuzz(func(t *testing.T, said string) {
		got, err := Parse(said)
		if (err == nil) != (len(got) > 0) {
			t.Fatal(got, err)
		}
		var again []string
		for _, s := range got {
			again = append(again, s.Words)
		}
		if err == nil {
			if back, err := Parse(strings.Join(again, "; ")); err != nil || !slices.Equal(back, got) {
				t.Fatalf("%v reads as %v, %v", got, back, err)
			}
		}
	})
}

func see(t testing.TB, id, said string, is ...func(*Seen, *Vat)) []Cause {
	c := rowCase{recipe: id, said: said}
	s, v := c.ask(t, 60)
	for _, f := range is {
		f(&s, &v)
	}
	return Causes(s, v)
}

// Signs that do not go together ask for another look, say which, and give no powder.
func TestContradictions(t *testing.T) {
	for _, c := range []struct {
		id, said string
		is       func(*Seen, *Vat)
		says     string
	}{
		{"soda", "blue, grass green", nil, "one liquor has one colour"},
		{"soda", "amber, clear", strip(5), "does not go with strip blue in less than 15 s"},
		{"soda", "blue, clear", strip(60), "blue does not go with strip blue in about 45 s"},
		{"soda", "strip good", strip(3), "one strip has one time"},
		{"soda", "clear, cloudy", nil, "clear does not go with cloudy"},
		{"soda", "milky", ph(12), "does not go with pH read high"},
		{"lye", "slimy", ph(9), "slimy to the glove does not go with pH read low"},
		{"lye", "slimy, milky", nil, "too little alkali and too much"},
		{"thiourea", "coppery skin, no film", nil, "no film"},
		{"madder-bran", "foul, flat lime smell", nil, "flat smell of lime"},
		{"iron-lime", "too yellow", ph(13.2), "too yellow"},
	} {
		is := c.is
		if is == nil {
			is = func(*Seen, *Vat) {}
		}
		list := see(t, c.id, c.said, is)
		if list[0].ID != "look-again" || list[0].Act != Look || len(list[0].Doses) > 0 || !strings.Contains(list[0].Contradicts, c.says) || len(list) < 2 || list[1].Contradicts == "" {
			t.Errorf("%s, %s: %s: %+v", c.id, c.said, brief(list), list[0])
		}
	}
	for _, c := range [][2]string{{"soda", "blue, cloudy, no film, no froth"}, {"madder-bran", "no smell, no froth, flat lime smell"}, {"soda", "amber, pale dyeings"}} {
		if list := see(t, c[0], c[1]); list[0].Contradicts != "" {
			t.Errorf("%s: %s", c[1], list[0].Contradicts)
		}
	}
}

// The order of the right dose, over what the signs say.
func TestOrderOfTheDose(t *testing.T) {
	goods := func(f ...fibre.Fibre) func(*Seen, *Vat) { return func(_ *Seen, v *Vat) { v.Goods = f } }
	given := func(id string, g float64) func(*Seen, *Vat) {
		return func(_ *Seen, v *Vat) { v.GivenToday = map[string]quantity.Mass{id: quantity.Grams(g)} }
	}
	for _, c := range []struct {
		what, id, said string
		is             []func(*Seen, *Vat)
		cause          string
		act            Act
		powder         string
		grams          float64
		says           string
	}{
		{"pH read low, cold and blue-green: alkali", "soda", "blue-green, clear", []func(*Seen, *Vat){ph(9.5), temp(24), strip(8)}, "", Give, "soda", 60, "soda ash"},
		{"cold and blue-green: warmth", "soda", "blue-green, clear", []func(*Seen, *Vat){ph(10.8), temp(24), strip(8)}, "", Warm, "", 0, "35 °C"},
		{"blue-green: reducer", "soda", "blue-green, clear", []func(*Seen, *Vat){ph(10.8), strip(8)}, "air-in", Give, "reducer", 30, "30.0 g of sodium dithionite"},
		{"milky and weak: reducer before alkali", "soda", "milky", []func(*Seen, *Vat){strip(5)}, "alkali-short", Give, "reducer", 30, "alkali last"},
		{"as much of a step as the paper's error leaves sure", "soda", "", []func(*Seen, *Vat){ph(9.8), func(s *Seen, _ *Vat) { s.PHError = 0.5 }}, "alkali-eaten", Give, "soda", 24, ""},
		{"a day's reducer is in", "soda", "blue-green, clear", []func(*Seen, *Vat){given("reducer", 120)}, "air-in", Stop, "", 0, "no more sodium dithionite today"},
		{"the clearing reducer counts", "lye", "blue-green, clear", []func(*Seen, *Vat){given("clearing", 112)}, "air-in", Give, "reducer", 8, ""},
		{"little iron is left: as little lime", "iron-lime", "clear grass green", []func(*Seen, *Vat){given("iron", 80)}, "part-reduced", Give, "iron", 10, "then 10.0 g of calcium hydroxide"},
		{"one good sign is not enough to dye on", "soda", "strip good", nil, "ready", Look, "", 0, "nothing to add; before dyeing"},
		{"°C and pH are right, nothing else was seen", "soda", "", []func(*Seen, *Vat){ph(10.8)}, "not-looked", Look, "", 0, "look first"},
		{"less than the scale shows", "soda", "blue-green, clear", []func(*Seen, *Vat){func(_ *Seen, v *Vat) { v.Finest = 50 }}, "air-in", Wait, "", 0, "less than the scale shows"},
		{"little lime is left: as little iron", "iron-lime", "clear grass green", []func(*Seen, *Vat){given("lime", 80)}, "part-reduced", Give, "iron", 10, "then 10.0 g of calcium hydroxide"},
		{"sulfur reducer not above 50 °C", "thiourea", "blue-green, clear", []func(*Seen, *Vat){temp(54)}, "air-in", Cool, "", 0, "50 °C before any powder"},
		{"hands in and heater on", "soda", "blue-green, clear", []func(*Seen, *Vat){func(_ *Seen, v *Vat) { v.HandsIn, v.HeaterOn = true, true }}, "danger", Stop, "", 0, "hands and goods out"},
		{"no fill", "soda", "blue-green, clear", []func(*Seen, *Vat){func(_ *Seen, v *Vat) { v.Fill = 0 }}, "air-in", Look, "", 0, "measure the liquor"},
		{"wool in a soda vat of pH 11", "soda", "blue-green, clear", []func(*Seen, *Vat){ph(11), goods(fibre.Wool)}, "", Stop, "", 0, "wool"},
		{"milky, silk about, pH not read", "soda", "milky", []func(*Seen, *Vat){goods(fibre.Silk)}, "alkali-short", Stop, "", 0, "silk"},
		{"putrid and cold: lime, not warmth", "madder-bran", "foul, reddish", []func(*Seen, *Vat){temp(20)}, "putrid", Give, "lime", 18, "lime"},
		{"ferment, weak: no reducer", "madder-bran", "blue, clear", []func(*Seen, *Vat){strip(4)}, "slow-ferment", Wait, "", 0, "no reducer"},
		{"acid near reducer", "soda", "choking, blue", nil, "acid-met-reducer", Stop, "", 0, "fresh air"},
		{"all is well", "soda", "amber, clear, coppery", []func(*Seen, *Vat){strip(50), ph(10.8)}, "ready", Dye, "", 0, "nothing to add"},
		{"well but hot", "soda", "amber, clear, coppery", []func(*Seen, *Vat){strip(50), temp(43)}, "hot", Cool, "", 0, "40 °C"},
		{"harsh wool", "iron-lime", "harsh wool", nil, "wool-harmed", Goods, "", 0, "take the wool out"},
		{"streaks", "soda", "streaks", nil, "folds", Goods, "", 0, "weak vat"},
		{"grey cast, iron", "iron-lime", "grey cast", nil, "metal-left", Goods, "", 0, "citric"},
		{"amber but pale", "soda", "amber, clear, pale", nil, "spent", Give, "indigo", 30, "reduced stock"},
		{"much sludge", "sugar-lime", "sludge above a third", nil, "sludge", Stop, "", 0, "decant"},
		{"blue and turbid again after reducer, pH not read", "soda", "blue, cloudy", []func(*Seen, *Vat){func(s *Seen, _ *Vat) { s.Tried = []Tried{{"under-reduced", Same}} }}, "under-reduced", Look, "", 0, "read pH"},
	} {
		list := see(t, c.id, c.said, c.is...)
		a := list[0]
		mass, powder := 0.0, ""
		if len(a.Doses) > 0 {
			mass, powder = a.Doses[0].Mass.Grams(), a.Doses[0].Powder
		}
		if c.cause != "" && a.ID != c.cause || a.Act != c.act || powder != c.powder || math.Abs(mass-c.grams) > 1e-9 || !strings.Contains(a.Do, c.says) {
			t.Errorf("%s: %s\n\t%s %.1f of %q: %s", c.what, brief(list), a.Act, mass, powder, a.Do)
		}
	}
}

// What goes in says how, what to beware of, and stands back for hands, heater and class.
func TestCautionsOfADose(t *testing.T) {
	a := see(t, "soda", "blue-green, clear", func(s *Seen, v *Vat) { v.Class, v.HandsIn, v.System, s.Temp = true, true, quantity.US, nil })[0]
	said := strings.Join(a.Cautions, "; ")
	for _, w := range []string{"mask", "cross-draught", "water on this powder", "acid", "hands and goods out first", "no child", "read °F first"} {
		if !strings.Contains(said, w) {
			t.Errorf("%q is not in %q", w, said)
		}
	}
	if a.Doses[0].Portions != 3 || !strings.Contains(a.How, "3 small lots") || !strings.Contains(a.Do, "1.06 oz") || !strings.Contains(WeightIsJudged, "judgement") {
		t.Errorf("%+v", a)
	}
	if list := Causes(Seen{}, Vat{Recipe: published.Recipe(t, "soda"), Fill: 60}); len(list) != 1 || list[0].Act != Look || list[0].Weight != 1 {
		t.Errorf("%+v", list)
	}
	if a := see(t, "lye", "blue-green, clear")[0]; a.Doses[0].Into != recipe.IntoVat || !strings.Contains(a.How, "over the surface") {
		t.Errorf("%+v", a)
	}
	if a := see(t, "lye", "dark specks")[0]; a.Doses[0].Into != recipe.IntoStock || !strings.Contains(a.How, "over the stock jar") || !strings.Contains(strings.Join(a.Cautions, ";"), "60 °C") {
		t.Errorf("%+v", a)
	}
	stock := see(t, "sugar-lime", "pale straw, clear")[0]
	if !strings.Contains(stock.How, "for a fill of 20 L") {
		t.Errorf("%s", stock.How)
	}
}

func TestJudge(t *testing.T) {
	for _, c := range []struct {
		before, after float64
		want          Answer
	}{{12, 44, Better}, {12, 15, Same}, {12, 6, Worse}, {40, 30, Same}, {60, 20, Worse}, {240, 60, Better}, {240, 240, Same}, {240, 10, Worse}, {50, 200, Worse}, {-1, 20, NotSaid}} {
		if got := Judge(quantity.Seconds(c.before), quantity.Seconds(c.after)); got != c.want {
			t.Errorf("%v to %v s: %v, not %v", c.before, c.after, got, c.want)
		}
	}
}

func TestWorked(t *testing.T) {
	e := func(powder string, perLitre, before, after, took float64) Episode {
		return Episode{powder, "sodium dithionite", quantity.GramsPerLitre(perLitre), quantity.Seconds(before), quantity.Seconds(after), quantity.Minutes(took)}
	}
	four := []Episode{e("reducer", 0.5, 3, 9, 20), e("reducer", 0.5, 12, 44, 35), e("soda", 1, 9, 9, 15), e("reducer", 0.5, 10, 40, 30), e("reducer", 0.52, 12, 44, 35), e("reducer", 0.5, 14, 50, 40)}
	for _, c := range []struct {
		what string
		list []Episode
		want string
	}{
		{"none", nil, ""},
		{"one", four[1:2], "the last time 0.5 g/L of sodium dithionite took this vat from 12 to 44 s in 35 min"},
		{"four of a kind; the soda between them is passed over", four, "the last 4 times 0.5 g/L of sodium dithionite took this vat from 12 to 44 s in 35 min"},
		{"without the second strip", []Episode{e("reducer", 0.5, 12, -1, 30)}, ""},
		{"no better", []Episode{e("reducer", 0.5, 12, 12, 30)}, "the last time 0.5 g/L of sodium dithionite took this vat from 12 to 12 s in 30 min, which was no better"},
		{"one of two", []Episode{e("reducer", 0.5, 10, 12, 30), e("reducer", 0.5, 10, 40, 30)}, "the last 2 times 0.5 g/L of sodium dithionite took this vat from 10 to 26 s in 30 min; 1 of the 2 made the strip better"},
	} {
		if got := Worked(c.list); got != c.want {
			t.Errorf("%s: %q", c.what, got)
		}
	}
}

// The recheck narrows: what did not help falls back; when reducer has failed twice, the powder is tested or pH read
// before more goes in, and none is given on another name.
func TestRecheckNarrows(t *testing.T) {
	var tried []Tried
	first := func() Cause {
		return see(t, "soda", "blue-green, clear", strip(6), func(s *Seen, _ *Vat) { s.Tried = tried })[0]
	}
	if c := first(); c.ID != "air-in" || c.Act != Give {
		t.Errorf("%+v", c)
	}
	tried = append(tried, Tried{"air-in", Judge(quantity.Seconds(6), quantity.Seconds(30))})
	if c := first(); c.ID != "air-in" || c.Act != Give {
		t.Errorf("it got better, so the same again: %+v", c)
	}
	tried = []Tried{{"air-in", Same}, {"air-in", Same}}
	if c := first(); c.Act != Look || c.ID != "old-powder" {
		t.Errorf("it did not help twice: %s %s", c.ID, c.Do)
	}
}

// What a day's limit leaves of a dose is given, unless it is too little to do anything: then it is for tomorrow.
func TestNoCrumbs(t *testing.T) {
	r := published.Recipe(t, "soda")
	for _, c := range []struct{ given, want float64 }{{0, 60}, {140, 40}, {178, 0}} {
		v := Vat{Recipe: r, Fill: 60, GivenToday: map[string]quantity.Mass{"soda": quantity.Grams(c.given)}}
		seen, err := Parse("blue-green")
		if err != nil {
			t.Fatal(err)
		}
		got := Causes(Seen{Signs: seen, PH: at(quantity.PH(9.4)), Temp: at(quantity.Celsius(35))}, v)[0]
		switch {
		case c.want == 0 && (len(got.Doses) > 0 || got.Act != Stop || !strings.Contains(got.Do, "no more soda ash today")):
			t.Errorf("after %v g: %+v", c.given, got)
		case c.want > 0 && (len(got.Doses) != 1 || got.Doses[0].Mass.Grams() != c.want):
			t.Errorf("after %v g: %+v", c.given, got)
		}
	}
}

// A strip that stays yellow takes no reducer, not with an alkali before it either (mild soda).
func TestNoReducerUnderALongStrip(t *testing.T) {
	v := Vat{Recipe: published.Recipe(t, "mild-soda"), Fill: quantity.Litres(20)}
	green, _ := Find("grass-green")
	for _, c := range Causes(Seen{Signs: []Sign{green}, Strip: at(quantity.Seconds(181))}, v) {
		for _, d := range c.Doses {
			if p, _ := v.Recipe.Powder(d.Powder); p.Role == recipe.Reducer {
				t.Errorf("%s: %+v", c.ID, d)
			}
		}
	}
}

// A sign of its own is a cause's, or no cause is known: then the answer is another look, and no powder. Each in a vat whose °C is right.
func TestASignWithoutACause(t *testing.T) {
	for _, c := range [][3]string{
		{"soda", "reddish", "not-known"}, {"soda", "too yellow", "not-known"}, {"soda", "milky grey-white", "not-known"}, {"soda", "brown", "not-known"},
		{"soda", "olive", "not-known"}, {"soda", "no smell", "not-known"}, {"soda", "dull", "not-known"}, {"soda", "amber, clear, coppery, dull", "not-known"},
		{"iron-lime", "paler after a dip", "not-known"}, {"iron-lime", "no smell", "not-known"},
		{"soda", "foul smell", "not-known"}, {"lye", "foul smell", "not-known"}, {"thiourea", "foul smell", "not-known"},
		{"sugar-lime", "foul smell", "not-known"}, {"iron-lime", "foul smell", "not-known"},
		{"madder-bran", "foul smell", "putrid"}, {"iron-lime", "too yellow", "lime-short"}, {"sugar-lime", "brown", "browned"}, {"soda", "paler after a dip", "over-reduced"},
		{"iron-lime", "brown, clear, coppery skin", "ready"}, {"soda", "amber, clear, coppery skin, no smell", "ready"}, {"soda", "amber, clear, coppery, streaks", "folds"},
		{"soda", "amber, clear, coppery, flower, strip good, pale", "spent"}, {"soda", "amber, clear, coppery, strip slack", "short-strip"}, {"soda", "strip slack", "short-strip"},
	} {
		list := see(t, c[0], c[1], temp(32))
		if c[0] == "iron-lime" {
			list = see(t, c[0], c[1])
		}
		a := list[0]
		if a.ID != c[2] {
			t.Errorf("%s, %s: %s", c[0], c[1], brief(list))
		}
		if c[2] == "not-known" && (a.Act != Look || len(a.Doses) > 0 || !strings.Contains(a.Name, "no cause known here for that") || !strings.Contains(a.Do, "look again, pull a strip, read pH")) {
			t.Errorf("%s, %s: %+v", c[0], c[1], a)
		}
	}
}

// What comes next does not come back to what was done.
func TestWhatComesNext(t *testing.T) {
	for _, c := range []struct {
		id, said string
		is       func(*Seen, *Vat)
		then     string
		not      string
	}{
		{"soda", "blue", temp(20), "reducer", "warm it"},
		{"madder-bran", "", temp(20), "stir it once a day and wait", "reducer"},
		{"soda", "milky", ph(11.5), "let it settle", "the same"},
		{"madder-bran", "", ph(9.2), "patience", "reducer"},
	} {
		a := see(t, c.id, c.said, c.is)[0]
		if !strings.Contains(a.Then, c.then) || strings.Contains(a.Then, c.not) {
			t.Errorf("%s, %s: %s; then %s", c.id, c.said, a.Do, a.Then)
		}
	}
}

// The signs and the right dose wait as long for the same thing, and ask a ferment vat the same before it is fed.
func TestBothAdvisersWaitAlike(t *testing.T) {
	for _, id := range published.RecipeIDs {
		for _, is := range []func(*Seen, *Vat){strip(12), strip(200), ph(9), temp(12), func(s *Seen, v *Vat) { strip(12)(s, v); v.SinceFood = at(h(80)) }} {
			s, v := rowCase{recipe: id, is: is}.ask(t, 60)
			a := Causes(s, v)[0]
			g := Advise(s, v)
			if g.Do == liquor.DoNothing { // a strip of 200 s in lime
				continue
			}
			near := a.Wait - g.Wait // a heating time is told by the minute
			if near < 0 || near > m(1) {
				t.Errorf("%s: %s, wait %v; %s, wait %v", id, a.Do, a.Wait, g.Sentence, g.Wait)
			}
			if v.Recipe.Family == recipe.Ferment && s.Strip != nil && *s.Strip < weakStrip && (len(a.Doses) > 0) != (g.Mass > 0) {
				t.Errorf("%s: %s; %s", id, a.Do, g.Sentence)
			}
		}
	}
}

// Both advisers agree of a weak vat whose pH was read low, that is cold, or that is above its range: alkali, warmth, cooling.
func TestBothAdvisersHaveOneOrder(t *testing.T) {
	for _, id := range published.RecipeIDs {
		for name, is := range map[string]func(*Seen, *Vat){
			"sour": ph(8.9), "cold": temp(12), "hot": temp(55), "warm": temp(36), "sour and hot": func(s *Seen, v *Vat) { ph(8.9)(s, v); temp(55)(s, v) },
		} {
			c := rowCase{recipe: id, said: "blue, clear", is: func(s *Seen, v *Vat) {
				s.Temp = at(v.Recipe.Liquor.Aim)
				is(s, v)
				strip(5)(s, v)
			}}
			s, v := c.ask(t, 60)
			a := Causes(s, v)[0]
			g := Advise(s, v)
			same := a.Act == Give && g.Mass > 0 && len(a.Doses) > 0 && a.Doses[0].Powder == g.Powder
			switch g.Do {
			case liquor.DoWarm:
				same = a.Act == Warm
			case liquor.DoWait:
				same = (a.Act == Wait || a.Act == Cool || a.ID == "acid-or-strip" && a.Act == Look) && len(a.Doses) == 0 && (a.To == nil) == (g.To == nil) && (a.To == nil || *a.To == *g.To)
			}
			if !same {
				t.Errorf("%s, %s: %s %q; %s %q", id, name, a.Act, a.Do, g.Do, g.Sentence)
			}
			if l := v.Recipe.Liquor; s.PH == nil && *s.Temp > l.High && !v.Recipe.Family.SulfurReducer() && (a.Act != Cool || *a.To != l.High) {
				t.Errorf("%s, %s: %s %q", id, name, a.Act, a.Do)
			}
		}
	}
}

// Each dose of a mild vat's reducer comes with its soda ash, 1.2 g a gram, whatever the cause; never with as much of both.
func TestTheMildVatGetsItsAsh(t *testing.T) {
	for _, said := range []string{"blue, clear", "clear grass green", "blue, cloudy", "strip blue at once"} {
		for _, c := range see(t, "mild-soda", said) {
			for i, d := range c.Doses {
				if d.Powder == "reducer" && (i == 0 || c.Doses[i-1].Powder != "soda" || math.Abs(c.Doses[i-1].Mass.Grams()-1.2*d.Mass.Grams()) > 0.06) {
					t.Errorf("%s: %+v", said, c.Doses)
				}
			}
		}
	}
}

// Indigo goes in as the recipe's own material, the first of its lots, with one wait; no more than its book says has left.
func TestTopUp(t *testing.T) {
	a := see(t, "soda", "pale straw, clear")[0]
	all := a.Do + a.Then + strings.Join(a.Cautions, "; ")
	if !strings.Contains(a.Do, "30.0 g of pre-reduced indigo grains, the first of 2 lots, a day apart") || !strings.Contains(a.Then, "the next lot tomorrow, 60 g of it in all") ||
		strings.Contains(all, "wait 15 min") || strings.Contains(all, "the same again tomorrow") || a.Wait != h(1) {
		t.Errorf("%+v", a)
	}
	a = see(t, "soda", "pale straw, clear", func(_ *Seen, v *Vat) { v.IndigoGone, v.Strength = 12, 0.5 })[0]
	if a.Doses[0].Mass != 24 || strings.Contains(a.Do, "lots") {
		t.Errorf("%+v", a)
	}
	a = see(t, "soda", "pale straw, clear", func(_ *Seen, v *Vat) { v.GivenToday = map[string]quantity.Mass{"indigo": 30} })[0]
	if len(a.Doses) > 0 || !strings.Contains(a.Do, "one lot a day") {
		t.Errorf("%+v", a)
	}
}

// A slimy vat is told how many litres go out and in; sediment above a third is decanted in every family.
func TestDrawnOff(t *testing.T) {
	for litres, want := range map[float64]string{60: "draw a quarter of it, 15 L, off", 20: "draw a quarter of it, 5 L, off", 0: "draw a quarter of it off"} {
		s, v := rowCase{recipe: "lye", said: "slimy"}.ask(t, litres)
		if a := Causes(s, v)[0]; a.ID != "caustic" || !strings.Contains(a.Do, want) {
			t.Errorf("%v L: %s", litres, a.Do)
		}
	}
	for _, id := range published.RecipeIDs {
		a := see(t, id, "sediment above a third")[0]
		if a.ID != "sludge" || !strings.Contains(a.Do, "decant") || strings.Contains(strings.Join(a.Cautions, ";"), "lime") == published.Recipe(t, id).Family.SulfurReducer() {
			t.Errorf("%s: %+v", id, a)
		}
	}
}

// Reducer for the stock jar goes by what was read of the jar: none into one that is sour, or above 60 °C.
func TestReducerForTheJarGoesByTheJar(t *testing.T) {
	for _, c := range []struct {
		c, ph float64
		act   Act
		says  string
	}{{50, 12.5, Give, "into the stock jar"}, {50, 6.5, Stop, "nothing goes into the stock jar"}, {70, 12.5, Cool, "let the stock jar cool"}, {50, 8, Wait, "no reducer into the stock jar"}} {
		temp, jar, ph := quantity.Celsius(30), quantity.Celsius(c.c), quantity.PH(c.ph)
		seen, _ := Parse("dark specks on the glass")
		v := Vat{Recipe: published.Recipe(t, "lye"), Fill: 60, JarTemp: &jar, JarPH: &ph}
		list := Causes(Seen{Signs: seen, Temp: &temp}, v)
		if a := list[0]; a.ID != "unreduced-grains" || a.Act != c.act || !strings.Contains(a.Do, c.says) || len(a.Doses) > 0 != (c.act == Give) {
			t.Errorf("a jar of %g °C and pH %g: %s, %s, %q", c.c, c.ph, a.ID, a.Act, a.Do)
		}
	}
}
