package practice

import (
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/testdata/published"
	"pgregory.net/rapid"
)

func idsOf(items []Item) []string {
	var out []string
	for _, i := range items {
		out = append(out, i.ID)
	}
	return out
}

func itemOf(items []Item, id string) string {
	for _, i := range items {
		if i.ID == id {
			return i.What
		}
	}
	return ""
}

// Item 13 of the trade's list and its part on safety: what must be there, and what must not, in some days of a dyer.
func TestChecklist(t *testing.T) {
	soda, lime := published.Recipe(t, "soda"), published.Recipe(t, "sugar-lime")
	always := []string{"eye-rinse", "number", "air", "gloves", "glasses", "food", "laptop", "fence", "line", "tray", "towels", "rinse", "readings"}
	for name, c := range map[string]struct {
		c        Circumstances
		has, not []string
	}{
		"nothing is known": {Circumstances{}, []string{"mask", "acid", "vessel", "stand", "water", "powders", "tags", "tins"}, []string{"heater", "rcd", "class", "children", "net", "chlorine"}},
		"soda outdoors": {Circumstances{Recipe: soda, Fill: 60, Place: "outdoors", Pieces: 1}, []string{"mask", "acid", "fire", "tins", "scald"},
			[]string{"tags", "still", "heater", "net", "chlorine"}},
		"a living soda vat": {Circumstances{Recipe: soda, Fill: 60, Built: true, Pieces: 2}, []string{"acid", "powders", "tags"},
			[]string{"mask", "fire", "vessel", "stand", "water", "hard-water", "scale", "scald", "tins"}},
		"sugar and lime, children": {Circumstances{Recipe: lime, Fill: 20, Children: true, Class: true, Place: "closed room"}, []string{"children", "class", "net", "tags", "still"},
			[]string{"acid", "fire"}},
		"a heater":       {Circumstances{Recipe: soda, Heater: 1000}, []string{"heater", "rcd"}, nil},
		"ferment, tap":   {Circumstances{Recipe: published.Recipe(t, "madder-bran")}, []string{"chlorine", "hard-water"}, []string{"acid"}},
		"soft and clean": {Circumstances{Recipe: soda, Hard: No, Chlorinated: No}, nil, []string{"hard-water", "chlorine"}},
		"hard, chlorine": {Circumstances{Recipe: soda, Hard: Yes, Chlorinated: Yes}, []string{"hard-water", "chlorine"}, nil},
		"cold iron vat":  {Circumstances{Recipe: published.Recipe(t, "iron-lime"), Material: vessel.Stainless}, []string{"net"}, []string{"vessel", "acid"}},
	} {
		got := idsOf(Checklist(c.c))
		for _, id := range append(slices.Clone(always), c.has...) {
			if !slices.Contains(got, id) {
				t.Errorf("%s: %q is missing of %v", name, id, got)
			}
		}
		for _, id := range c.not {
			if slices.Contains(got, id) {
				t.Errorf("%s: %q does not apply", name, id)
			}
		}
	}
	for _, c := range []struct {
		c        Circumstances
		id, says string
	}{
		{Circumstances{Recipe: soda, Place: "closed room"}, "air", "no sulfur reducer in a closed room"},
		{Circumstances{Recipe: lime, Place: "closed room"}, "air", "a draught while powders are open"},
		{Circumstances{Recipe: lime}, "glasses", "tight goggles"},
		{Circumstances{Recipe: published.Recipe(t, "lye")}, "glasses", "face shield"},
		{Circumstances{Material: vessel.Aluminium}, "vessel", "hydrogen"},
		{Circumstances{Recipe: lime, Material: vessel.LDPE}, "vessel", "bears 49 °C at most"}, // built at 50
		{Circumstances{Recipe: lime, Material: vessel.HDPE}, "vessel", "cold water goes first"},
		{Circumstances{Recipe: soda, Fill: 60}, "stand", "not lifted"},
		{Circumstances{Recipe: soda, Fill: 60}, "powders", "90 g of pre-reduced indigo"}, // 60 L × 1.5 g/L
		{Circumstances{Emergency: "112"}, "number", "112"},
		{Circumstances{Fibres: []fibre.Fibre{fibre.Wool}}, "rinse", "within 5 °C"},
		{Circumstances{Heater: 1000, Material: vessel.PP}, "heater", "never touches the PP"},
		{Circumstances{Class: true}, "class", "40 °C"},
	} {
		if got := itemOf(Checklist(c.c), c.id); !strings.Contains(got, c.says) {
			t.Errorf("%s: %q lacks %q", c.id, got, c.says)
		}
	}
}

// Whatever the day is like: what guards people stands first, in the order of its moments, each item once and whole; where
// powders are weighed there is a mask; sulfur reducers and acid are kept apart; a heater has its RCD.
func TestChecklistAlways(t *testing.T) {
	var recipes []recipe.Recipe
	for _, id := range published.RecipeIDs {
		recipes = append(recipes, published.Recipe(t, id))
	}
	known := rapid.SampledFrom([]Known{NotKnown, Yes, No})
	rapid.Check(t, func(t *rapid.T) {
		c := Circumstances{
			Recipe: rapid.SampledFrom(append(recipes, recipe.Recipe{})).Draw(t, "recipe"), Fill: quantity.Litres(rapid.Float64Range(0, 300).Draw(t, "fill")),
			Built: rapid.Bool().Draw(t, "built"), Material: vessel.Material(rapid.IntRange(0, len(vessel.Materials())).Draw(t, "material")),
			Place:  rapid.SampledFrom([]string{"", "outdoors", "cross-draught", "closed room"}).Draw(t, "place"),
			Heater: quantity.Watts(rapid.SampledFrom([]float64{0, 1000}).Draw(t, "heater")), Class: rapid.Bool().Draw(t, "class"),
			Children: rapid.Bool().Draw(t, "children"), Fibres: rapid.SliceOf(rapid.SampledFrom(fibre.All())).Draw(t, "fibres"),
			Pieces: rapid.IntRange(0, 9).Draw(t, "pieces"), Hard: known.Draw(t, "hard"), Chlorinated: known.Draw(t, "chlorine"),
			System: rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.US, quantity.Imperial}).Draw(t, "units"),
		}
		items, seen := Checklist(c), map[string]bool{}
		for i, x := range items {
			if x.ID == "" || x.What == "" || x.Why == "" || x.Evidence == "" || seen[x.ID] || strings.HasSuffix(x.What, ".") {
				t.Fatalf("%+v", x)
			}
			seen[x.ID] = true
			if i > 0 && (x.Safety && !items[i-1].Safety || x.Safety == items[i-1].Safety && x.When < items[i-1].When) {
				t.Fatalf("%s stands behind %s", x.ID, items[i-1].ID)
			}
		}
		if items[0].Safety != true || seen["mask"] != !c.Built || seen["rcd"] != (c.Heater > 0) || seen["heater"] != seen["rcd"] ||
			seen["acid"] != (c.Recipe.Family == "" || c.Recipe.Family.SulfurReducer()) || seen["children"] != c.Children {
			t.Fatalf("%+v: %v", c, idsOf(items))
		}
	})
}

// Wool never gets soda nor more than 60 °C, whatever its state and weight; the other limits of scour.csv hold as well. S1
func TestScourNeverFeltsWool(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(fibre.All()).Draw(t, "fibre")
		state := rapid.SampledFrom(append(StatesOf(f), "")).Draw(t, "state")
		dry := quantity.Grams(rapid.Float64Range(0.1, 1e6).Draw(t, "dry"))
		s, err := ScourFor(f, state, dry)
		if err != nil {
			t.Fatal(err)
		}
		if f == fibre.Wool && (s.Alkali.High != 0 || s.AlkaliIs != "" || s.Temp.High > 60 || strings.Contains(strings.Join(s.Cautions, " "), "soda ash hurts")) {
			t.Fatalf("wool: %+v", s)
		}
		if share := s.Alkali.High.Grams() / dry.Grams(); share > 0.05+1e-9 || s.Water.Low.Litres() < 20*dry.Kilograms()-1e-9 || s.Temp.High > 100 {
			t.Fatalf("%v %s: %.3f of alkali in %v at %v", f, state, share, s.Water, s.Temp)
		}
		w, err := WetOut(f, dry, nil)
		if err != nil || w.Temp.High > 40 || f == fibre.Wool && (w.Temp.Low < 30 || w.Time.Low < quantity.Minutes(30)) {
			t.Fatalf("%v is wetted out: %+v, %v", f, w, err)
		}
	})
}

// The times of scour.csv, a bath, and how it is seen that it is done.
func TestScourTimesAndChecks(t *testing.T) {
	for _, c := range []struct {
		f         fibre.Fibre
		state     State
		low, high float64 // minutes
		baths     [2]int
		check     string
	}{
		{fibre.Cotton, Greige, 60, 120, [2]int{1, 3}, "3 to 5 s"},
		{fibre.Cotton, Prepared, 30, 60, [2]int{1, 1}, "3 to 5 s"},
		{fibre.Linen, Greige, 60, 120, [2]int{1, 3}, "pale as tea"},
		{fibre.Hemp, Greige, 60, 120, [2]int{1, 3}, "pale as tea"},
		{fibre.Silk, InGum, 60, 180, [2]int{1, 2}, "20 to 25 %"},
		{fibre.Silk, Degummed, 20, 30, [2]int{1, 1}, "sinks"},
		{fibre.Wool, Yarn, 20, 60, [2]int{1, 1}, "grease"},
		{fibre.Wool, Greasy, 20, 20, [2]int{2, 3}, "grease"}, // 20 min each: the trade's table 1b
	} {
		s, err := ScourFor(c.f, c.state, quantity.Kilograms(1))
		if err != nil || s.Time.Low.Minutes() != c.low || s.Time.High.Minutes() != c.high || s.Baths.Low != c.baths[0] || s.Baths.High != c.baths[1] || !strings.Contains(s.Check, c.check) {
			t.Errorf("%v %s: %v, %v, %q, %v", c.f, c.state, s.Time, s.Baths, s.Check, err)
		}
	}
}

func TestParseState(t *testing.T) {
	for said, want := range map[string]State{"Greige": Greige, " loom-state ": Greige, "PFD": Prepared, "in  gum": InGum, "degummed": Degummed, "greasy": Greasy, "yarn": Yarn, "raw": Raw} {
		if got, err := ParseState(said); err != nil || got != want {
			t.Errorf("%q is %q, %v", said, got, err)
		}
	}
	for said, says := range map[string]string{"": "no state of the goods is named", "mouldy": `"mouldy" is no state of goods known here; known are raw, greige, prepared, in gum, degummed, yarn, greasy`} {
		if _, err := ParseState(said); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v", said, err)
		}
	}
	if got := StatesOf(fibre.Wool); !slices.Equal(got, []State{Yarn, Greasy}) || StatesOf(fibre.Unknown) != nil {
		t.Errorf("wool is scoured as %v", got)
	}
}
