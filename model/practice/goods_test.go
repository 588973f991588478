package practice

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
	"pgregory.net/rapid"
)

var number = regexp.MustCompile(`\d+(?:\.\d+)?`)

// ends are the least and the greatest number in a cell; 0 and 0 for none.
func ends(cell string) (low, high float64) {
	var v []float64
	for _, s := range number.FindAllString(cell, -1) {
		x, _ := strconv.ParseFloat(s, 64)
		v = append(v, x)
	}
	if len(v) == 0 {
		return 0, 0
	}
	return slices.Min(v), slices.Max(v)
}

// Every row of scour.csv for a kilogram: detergent, litres, °C lie within what the row has; alkali by its own words.
func TestScourTable(t *testing.T) {
	alkali := map[string][2]float64{ // % of soda ash
		"cotton raw/greige": {4, 5}, "cotton PFD/white": {1, 2}, "linen/hemp": {4, 5}, "silk in gum": {0, 0.9},
		"silk degummed": {}, "wool yarn": {}, "wool greasy": {},
	}
	asked := map[string][]struct {
		f     fibre.Fibre
		state State
	}{
		"cotton raw/greige": {{fibre.Cotton, Raw}, {fibre.Cotton, Greige}},
		"cotton PFD/white":  {{fibre.Cotton, Prepared}},
		"linen/hemp":        {{fibre.Linen, ""}, {fibre.Hemp, Greige}},
		"silk in gum":       {{fibre.Silk, InGum}},
		"silk degummed":     {{fibre.Silk, ""}},
		"wool yarn":         {{fibre.Wool, ""}},
		"wool greasy":       {{fibre.Wool, Greasy}},
	}
	for _, row := range published.Table(t, "scour") {
		name := row["fibre"]
		if len(asked[name]) == 0 {
			t.Errorf("the row %q is not asked", name)
		}
		for _, a := range asked[name] {
			s, err := ScourFor(a.f, a.state, quantity.Kilograms(1))
			if err != nil {
				t.Fatal(err)
			}
			soap := strings.SplitN(row["detergent_or_soap"], "(", 2)[0] // what follows is older practice
			within := func(what string, low, high float64, cell string) {
				l, h := ends(strings.SplitN(cell, ":", 2)[0])
				if low < l-1e-9 || high > h+1e-9 && !strings.Contains(cell, "+") || low > high {
					t.Errorf("%s: %s %v to %v, and the row has %q", name, what, low, high, cell)
				}
			}
			within("detergent %", s.Detergent.Low.Grams()/10, s.Detergent.High.Grams()/10, soap)
			within("litres", s.Water.Low.Litres(), s.Water.High.Litres(), row["liquor_ratio"])
			within("°C", s.Temp.Low.Celsius(), s.Temp.High.Celsius(), row["temp_C"])
			if got := [2]float64{s.Alkali.Low.Grams() / 10, s.Alkali.High.Grams() / 10}; math.Abs(got[0]-alkali[name][0])+math.Abs(got[1]-alkali[name][1]) > 1e-9 {
				t.Errorf("%s: alkali %v, not %v", name, got, alkali[name])
			}
			if !s.Detergent.Valid() || !s.Alkali.Valid() || !s.Water.Valid() || !s.Temp.Valid() || !s.Time.Valid() || !s.Baths.Valid() || s.Check == "" || s.Evidence == "" {
				t.Errorf("%s: %+v", name, s)
			}
		}
	}
}

func TestScourRefusals(t *testing.T) {
	for _, c := range []struct {
		f     fibre.Fibre
		state State
		dry   float64
		says  string
	}{
		{fibre.Unknown, "", 100, "say the fibre"}, {fibre.Cotton, "", 0, "weigh"}, {fibre.Cotton, "", math.NaN(), "weigh"},
		{fibre.Wool, InGum, 100, "yarn or greasy"},
	} {
		if _, err := ScourFor(c.f, c.state, quantity.Grams(c.dry)); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v %q: %v", c.f, c.state, err)
		}
	}
	for _, f := range fibre.All() {
		s, err := ScourFor(f, "", quantity.Grams(420))
		if err != nil || f == fibre.Wool && (s.Alkali.High > 0 || s.Temp.High > 60) || s.Temp.High > 50 && len(s.Cautions) == 0 {
			t.Errorf("%v: %v %+v", f, err, s)
		}
		if f.Class() == fibre.Cellulose && s.Temp.High > 100 {
			t.Errorf("%v", s)
		}
	}
}

// Item 7 of the trade's list: cellulose an hour or overnight, silk 30 min, wool 30 to 60 in water within 5 °C of the vat.
func TestWetOut(t *testing.T) {
	cotton, err := WetOut(fibre.Cotton, quantity.Grams(500), nil)
	if err != nil || cotton.Time.Low != quantity.Hours(1) || cotton.Time.High != quantity.Hours(12) || cotton.Water != 10 {
		t.Errorf("%+v %v", cotton, err)
	}
	wool, err := WetOut(fibre.Wool, quantity.Grams(100), new(quantity.Celsius(45)))
	if err != nil || wool.Temp != degrees(40, 45, 50) || wool.Time.Low != quantity.Minutes(30) || wool.Time.High != quantity.Minutes(60) {
		t.Errorf("%+v %v", wool, err)
	}
	if unread, _ := WetOut(fibre.Wool, 100, nil); unread.Temp != degrees(30, 35, 40) {
		t.Errorf("%+v", unread)
	}
	if _, err := WetOut(fibre.Unknown, 100, nil); err == nil {
		t.Error("a fibre that was not said is not wetted out")
	}
	if _, err := WetOut(fibre.Silk, 0, nil); err == nil {
		t.Error("nothing is not wetted out")
	}
}

// The acid gate has no override. S20, S26, C
func TestAcidGate(t *testing.T) {
	for _, c := range []struct {
		a    Acid
		ok   bool
		says string
	}{
		{Acid{Yes, 2, true, "outdoors", OwnBath}, true, "asthma"},
		{Acid{Yes, 3, true, "cross-draught", OwnBath}, true, "asthma"},
		{Acid{Yes, 1, true, "outdoors", OwnBath}, false, "rinse once more"},
		{Acid{Yes, 0, true, "outdoors", OwnBath}, false, "rinse twice"},
		{Acid{Yes, 2, false, "outdoors", OwnBath}, false, "no fold is green"},
		{Acid{Yes, 2, true, "closed room", OwnBath}, false, "go outdoors"},
		{Acid{Yes, 2, true, "", OwnBath}, false, "go outdoors"},
		{Acid{NotKnown, 1, true, "outdoors", OwnBath}, false, "taken that it did"},
		{Acid{NotKnown, 2, true, "outdoors", OwnBath}, true, ""},
		{Acid{No, 0, false, "outdoors", OwnBath}, true, ""},
		{Acid{No, 2, true, "closed room", OwnBath}, false, "moving air"},
		{Acid{No, 9, true, "outdoors", TheVat}, false, "never acid into a vat"},
		{Acid{No, 9, true, "outdoors", StockJar}, false, "stock jar"},
		{Acid{No, 9, true, "outdoors", Skimmings}, false, "skimmings"},
		{Acid{No, 9, true, "outdoors", SkimmingsBucket}, false, "bucket"},
		{Acid{No, 9, true, "outdoors", 0}, false, "say where"},
		{Acid{}, false, "say where"},
	} {
		if ok, why := c.a.Gate(); ok != c.ok || !strings.Contains(why, c.says) || why == "" {
			t.Errorf("%+v: %v, %s", c.a, ok, why)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		a := Acid{Known(rapid.IntRange(-1, 4).Draw(t, "sulfur")), rapid.IntRange(-2, 5).Draw(t, "rinses"), rapid.Bool().Draw(t, "aired"),
			rapid.SampledFrom([]string{"outdoors", "cross-draught", "closed room", "", "Outdoors "}).Draw(t, "place"), Bath(rapid.IntRange(-1, 7).Draw(t, "into"))}
		ok, _ := a.Gate()
		if ok && (a.Into != OwnBath || a.Sulfur != No && (a.Rinses < 2 || !a.Aired) || a.Place != "outdoors" && a.Place != "cross-draught") {
			t.Fatalf("%+v was let through", a)
		}
		if of, _ := AcidGate(a.Sulfur, a.Rinses, a.Aired, a.Place); a.Into == OwnBath && of != ok {
			t.Fatalf("%+v: %v, and %v", a, ok, of)
		}
	})
}

func TestFinishPlan(t *testing.T) {
	families := []recipe.Family{recipe.DithioniteSoda, recipe.DithioniteLye, recipe.SugarLime, recipe.IronLime, recipe.ThioureaDioxideSoda, recipe.Ferment}
	for _, family := range families {
		for _, f := range fibre.All() {
			steps, err := FinishPlan(Finish{Fibre: f, Family: family, Dry: quantity.Grams(500)})
			if err != nil {
				t.Fatal(err)
			}
			place := map[string]int{}
			for i, s := range steps {
				place[s.ID] = i + 1
				acid := s.Vinegar.High > 0 || s.Citric.High > 0
				if acid != s.Gated || acid && !strings.Contains(strings.Join(s.Cautions, ";"), "never acid into a vat") {
					t.Errorf("%v, %s: %+v", f, family, s)
				}
				if s.Do == "" || s.Evidence == "" || s.Check == "" || !s.Temp.Valid() || !s.Time.Valid() || !s.Times.Valid() || s.Times.Low < 1 {
					t.Errorf("%v, %s: %+v", f, family, s)
				}
				if (f.Class() == fibre.Protein) && s.Temp.High > 40 {
					t.Errorf("%v at %v: %s", f, s.Temp.High, s.ID)
				}
				if s.ID == "sour" {
					always := f.Class() == fibre.Protein || family == recipe.SugarLime || family == recipe.IronLime
					if s.Optional == always || math.Abs(s.Vinegar.Low.Millilitres()-100) > 1e-9 || math.Abs(s.Citric.High.Grams()-20) > 1e-9 || s.Time != spans(10, 15, 20) {
						t.Errorf("%v, %s: %+v", f, family, s)
					}
				}
			}
			if !(place["air"] == 1 && place["rinse"] == 2 && place["sour"] == 3 && place["sour"] < place["soap"] && place["dry"] > place["soap"] && place["crock"] > 0) || steps[1].Times.Low < 2 {
				t.Errorf("%v, %s: %v", f, family, place)
			}
			if (place["citric"] > 0) != (family == recipe.IronLime && f.Class() == fibre.Cellulose) {
				t.Errorf("%v, %s: %v", f, family, place)
			}
		}
	}
	thick, _ := FinishPlan(Finish{Fibre: fibre.Cotton, Family: recipe.DithioniteSoda, Dry: 100, Thick: true})
	if thick[0].Time != spans(120, 240, 1440) {
		t.Errorf("%+v", thick[0])
	}
	if _, err := FinishPlan(Finish{Family: recipe.IronLime, Dry: 100}); err == nil {
		t.Error("a fibre that was not said has no plan")
	}
	if _, err := FinishPlan(Finish{Fibre: fibre.Wool}); err == nil {
		t.Error("nothing has no plan")
	}
}

// Items 31 and 39 to 43 of the trade's list.
func TestCare(t *testing.T) {
	every := func(f recipe.Family, id string) quantity.Span {
		for _, c := range Care(f) {
			if c.ID == id {
				return c.Every
			}
		}
		return -1
	}
	if every(recipe.DithioniteSoda, "look") != quantity.Days(7) || every(recipe.SugarLime, "look") > quantity.Days(3) ||
		every(recipe.IronLime, "look") != quantity.Days(7) || every(recipe.Ferment, "stir") != quantity.Days(1) || len(Care("")) > 0 {
		t.Error("not the rhythm of the families")
	}
	for _, f := range []recipe.Family{recipe.DithioniteSoda, recipe.SugarLime, recipe.IronLime, recipe.ThioureaDioxideSoda, recipe.Ferment} {
		seen := map[string]bool{}
		for _, c := range Care(f) {
			if c.What == "" || c.Why == "" || c.Evidence == "" || (c.Every > 0) == (c.When != "") || seen[c.ID] {
				t.Errorf("%s: %+v", f, c)
			}
			seen[c.ID] = true
			if f == recipe.Ferment && strings.Contains(c.What, "reducer") {
				t.Errorf("a chemical reducer in a ferment vat: %+v", c)
			}
		}
	}
	due := DueCare(recipe.Ferment, quantity.Days(5), map[string]quantity.Span{"stir": quantity.Hours(3), "look": quantity.Days(2)})
	if len(due) != 1 || due[0].ID != "look" || due[0].Past != quantity.Days(1) { // fed by the sign, never by the date
		t.Errorf("%+v", due)
	}
	if len(DueCare(recipe.DithioniteLye, quantity.Days(3), nil)) != 0 {
		t.Error("a vat of three days asks for its first week's look")
	}
}

// chemicals.csv: the numbers are the same, each danger of the table is named.
func TestChemicalsTable(t *testing.T) {
	list := Chemicals()
	hs := regexp.MustCompile(`\bH\d{3}`)
	for i, row := range published.Table(t, "chemicals") {
		c := list[i]
		card := number.FindString(row["ICSC"])
		if strings.Contains(row["ICSC"], "found") {
			card = ""
		}
		if c.CAS != row["CAS"] || c.ICSC != card {
			t.Errorf("%s: CAS %s, card %q; the table has %s, %q", c.Name, c.CAS, c.ICSC, row["CAS"], row["ICSC"])
		}
		if memory := strings.Contains(row["ICSC"], "memory"); strings.Contains(c.Card(), "memory") != memory {
			t.Errorf("%s: the card is printed as %q, the table has %q", c.Name, c.Card(), row["ICSC"])
		}
		for _, h := range hs.FindAllString(row["GHS_H"], -1) {
			strong := strings.Contains(c.Name, "vinegar") // its H numbers are of 10 % and more
			if !strong && !slices.Contains(c.Hazards, h) {
				t.Errorf("%s: %s is left out", c.Name, h)
			}
		}
		if len(c.Cautions()) == 0 || c.Evidence == "" {
			t.Errorf("%+v", c)
		}
	}
	for _, id := range published.RecipeIDs {
		for _, p := range published.Recipe(t, id).Powders {
			_, ok := ChemicalOf(p.Substance())
			if harmless := p.Role == recipe.Food || p.Substance() == recipe.ReducingSugar; ok == harmless {
				t.Errorf("%s of %s: %v", p.ID, id, ok)
			}
		}
	}
}

// The care of a ferment vat names no reducer.
func TestCareOfAFermentHasNoReducer(t *testing.T) {
	hint := regexp.MustCompile(`(?i)reducer|dithionite|hydros|thiourea|fructose|copperas|iron\(II\)`)
	for _, c := range Care(recipe.Ferment) {
		if m := hint.FindString(c.What + c.Why + c.When); m != "" {
			t.Errorf("%q in %+v", m, c)
		}
	}
}
