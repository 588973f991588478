package recipe

import (
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
)

// Five level spoons of soda ash that weigh 25 g are 5 g each.
func TestSpoons(t *testing.T) {
	s, err := SpoonFor(builtin(t, "soda"), "soda", 25)
	if err != nil || s.Each() != 5 {
		t.Fatal(s, err)
	}
	for m, want := range map[quantity.Mass]string{
		0.4: "less than a quarter of a level spoon: weigh it", 1: "¼ level spoon", 5: "1 level spoon", 6.2: "1¼ level spoons",
		13: "2½ level spoons", 13.8: "2¾ level spoons", 22: "4½ level spoons", 51: "10 level spoons", 123: "25 level spoons",
	} {
		if got := s.Say(m); got != want {
			t.Errorf("%v g: %s, want %s", m, got, want)
		}
	}
	if (Spoon{}).Spoons(10) != 0 || s.Spoons(-1) != 0 {
		t.Error("no spoon measures something")
	}
}

func TestSomePowdersAreNeverSpooned(t *testing.T) {
	for _, c := range []struct {
		recipe, id string
		five       quantity.Mass
		want       string
	}{
		{"lye", "lye", 25, "is lye"}, {"lye", "reducer", 25, "sulfur reducer"}, {"lye", "clearing", 25, "sulfur reducer"},
		{"thiourea", "reducer", 25, "sulfur reducer"}, {"soda", "salt", 25, "it has indigo"}, {"soda", "soda", 0, "cannot be"},
		{"soda", "soda", 9000, "cannot be"}, {"iron-lime", "iron", 30, ""}, {"sugar-lime", "fructose", 30, ""},
	} {
		_, err := SpoonFor(builtin(t, c.recipe), c.id, c.five)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %s: %v", c.recipe, c.id, err)
		}
	}
}

func TestCautionsBeginWithTheGravest(t *testing.T) {
	for id, want := range map[string]string{
		"soda": "Reducer:", "lye": "Reducer:", "thiourea": "Reducer:", "sugar-lime": "Lime:", "iron-lime": "Lime:", "madder-bran": "Lime:",
	} {
		a, err := Scale(builtin(t, id), 20, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(a.Cautions[0], want) {
			t.Errorf("%s begins with %q", id, a.Cautions[0])
		}
		if last := a.Cautions[len(a.Cautions)-1]; last != "Local rules and your supplier's sheet decide." {
			t.Errorf("%s ends with %q", id, last)
		}
		acid := strings.Contains(strings.Join(a.Cautions, " "), "Never put acid in this vat")
		if acid != builtin(t, id).Family.SulfurReducer() {
			t.Errorf("%s: acid caution %v", id, acid)
		}
		for _, c := range a.Cautions {
			if len(c) > 130 {
				t.Errorf("%s: too long: %s", id, c)
			}
		}
	}
	a, err := Scale(builtin(t, "lye"), 2, Options{})
	if err != nil || !strings.Contains(strings.Join(a.Cautions, " "), "Little stock, 0.12 L") {
		t.Error(a.Cautions, err)
	}
}

func TestSubstances(t *testing.T) {
	for material, want := range map[string]Substance{
		"sodium dithionite": Dithionite, "Sodium hydrosulphite": Dithionite, "sodium hydroxide": Lye, "caustic soda": Lye, "caustic potash": Lye,
		"lye": Lye, "ash lye": Potash, "potash": Potash, "soda ash": SodaAsh, "soda crystals (decahydrate)": SodaCrystals, "baking soda": BakingSoda,
		"sodium bicarbonate": BakingSoda, "slaked lime": SlakedLime, "calcium hydroxide": SlakedLime, "quicklime": Quicklime, "chalk": Chalk,
		"iron(II) sulfate": IronSulfate, "copperas": IronSulfate, "thiourea dioxide": ThioureaDioxide, "pre-reduced indigo grains": IndigoDye,
		"wheat bran": Other, "citric acid": Acid, "oxygen bleach": Oxidiser, "fructose": ReducingSugar,
	} {
		if got := (Powder{Material: material}).Substance(); got != want {
			t.Errorf("%s is %q, want %q", material, got, want)
		}
	}
}
