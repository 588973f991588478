package setup

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func env(w, h int, units string) screen.Env {
	return screen.Env{
		Now: noon, Width: w, Height: h, Style: style.New(style.Options{}),
		Home: screen.Home{
			Recipes: recipes.Builtin(), Vats: []screen.Vat{{Vat: "garden-bin", Name: "garden bin"}},
			Settings: shelf.Settings{Units: units, Place: day.CrossDraught, NoLook: true, Cold: 12, Hot: 60},
		},
	}
}

func typed(text string) []string { return append(strings.Split(text, ""), "enter") }

func TestEveryQuestionFitsEverySizeAndSystem(t *testing.T) {
	pages := []struct {
		keys []string
		want string
	}{
		{nil, "WHICH RECIPE?"}, {[]string{"3"}, "LITRES?"}, {[]string{"pgdown"}, "WHICH WATER?"}, {[]string{"pgdown"}, "KEPT WARM?"},
		{[]string{"pgdown"}, "BEGIN VAT 1"}, {[]string{"1"}, "NAME THE VAT"}, {[]string{"pgdown", "2"}, "WHICH VESSEL?"}, {[]string{"1"}, "across the floor"},
		{[]string{"pgdown"}, "across the rim"}, {[]string{"pgdown"}, "HOW HIGH?"}, {[]string{"pgdown"}, "below the rim"}, {[]string{"pgdown", "4"}, "HOW STRONG?"},
	}
	for _, size := range screentest.Sizes {
		for _, units := range []string{"metric", "us", "imperial"} {
			e := env(size[0], size[1], units)
			s := New(e)
			for _, p := range pages {
				s, _ = screentest.Press(s, e, p.keys...)
				if text := screentest.Shown(t, s, e); !strings.Contains(text, p.want) {
					t.Errorf("%v %s: %q is missing:\n%s", size, units, p.want, text)
				}
			}
		}
	}
}

func TestTheSummarySaysWhatIsWeighedAndWhatToBewareOf(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], "metric")
		for n := range e.Home.Recipes {
			s, _ := screentest.Press(New(e), e, string(rune('1'+n)), "enter", "enter")
			if library.Slow(e.Home.Recipes[n]) {
				if text := screentest.Shown(t, s, e); !strings.Contains(text, "KEPT WARM?") {
					t.Errorf("%v, %s: a slow vat is not asked for one answer more:\n%s", size, e.Home.Recipes[n].ID, text)
				}
				s, _ = screentest.Press(s, e, "enter")
			}
			text := screentest.Shown(t, s, e)
			for _, word := range []string{"CAUTION", "enter: begin", "indigo", "BEGIN VAT 1", "1 name"} {
				if !strings.Contains(text, word) {
					t.Errorf("%v, %s: %q is missing:\n%s", size, e.Home.Recipes[n].ID, word, text)
				}
			}
		}
	}
}

func TestEnterAllTheWayBeginsAVat(t *testing.T) {
	for _, units := range []string{"metric", "us", "imperial"} {
		e := env(80, 24, units)
		var keys []string
		for range 4 { // recipe, vessel, water; begin
			keys = append(keys, "pgdown")
		}
		_, r := screentest.Press(New(e), e, keys...)
		if len(r) != 1 {
			t.Fatalf("%s asks for %v", units, r)
		}
		b, ok := r[0].(screen.Begin)
		if !ok {
			t.Fatalf("%s asks for %v", units, r)
		}
		if _, err := day.Begin(b.Head); err != nil {
			t.Errorf("%s: the head is refused: %v", units, err)
		}
		if l := b.Head.Setup.Fill.Litres(); l < 15 || l > 20 || !b.Head.Setup.Asks || b.Head.Setup.Material != "" {
			t.Errorf("%s: a pail of 20 L is filled with %g L", units, l)
		}
		if b.Head.Setup.Units != units || !b.Head.Setup.Waiting || b.Head.Setup.Place != day.CrossDraught || b.Head.Setup.Cold != 12 || b.Head.Setup.Hot != 60 {
			t.Errorf("%s: %+v", units, b.Head.Setup)
		}
	}
}

func TestWhatIsTypedIsTaken(t *testing.T) {
	e := env(80, 24, "metric")
	var keys []string
	for _, part := range [][]string{
		{"3"}, typed("75"), typed("14 70"), {"3"}, {"1"}, typed("blue tub"), {"2", "2"}, typed("50"), typed("70 cm"), typed("100"), {"4"}, typed("45%"), {"space"},
	} {
		keys = append(keys, part...)
	}
	s, r := screentest.Press(New(e), e, keys...)
	if len(r) != 1 {
		t.Fatalf("asks for %v and shows:\n%s", r, screentest.Shown(t, s, e))
	}
	b := r[0].(screen.Begin).Head
	want := day.Setup{
		Name: "blue tub", Fill: 100, Vessel: "cylinder 50cm 70cm", Place: day.CrossDraught, Asks: true, Units: "metric",
		Cold: 14, Hot: 70, Strength: 0.45, Kept: day.KeptBySun, GoodsFirst: true, Waiting: true, NoLook: true,
	}
	if b.Setup != want || b.Recipe.ID != "sugar-lime" || b.Zone != "UTC" {
		t.Errorf("got  %+v, %s, %s\nwant %+v", b.Setup, b.Recipe.ID, b.Zone, want)
	}
}

// A name of digits is a name: no room is left behind it for a unit.
func TestANameOfDigits(t *testing.T) {
	e := env(80, 24, "metric")
	_, r := screentest.Press(New(e), e, slices.Concat([]string{"1", "enter", "enter", "1"}, typed("5"), []string{"space"})...)
	if len(r) != 1 || r[0].(screen.Begin).Head.Setup.Name != "5" {
		t.Errorf("%+v", r)
	}
}

func TestRefusalsAreSaidWhereTheyArise(t *testing.T) {
	e := env(80, 24, "metric")
	quick := []string{"1", "enter", "enter"} // the last page of a soda vat
	more := func(keys ...[]string) []string {
		out := append([]string(nil), quick...)
		for _, k := range keys {
			out = append(out, k...)
		}
		return out
	}
	drum := []string{"2", "2", "enter", "enter"} // 40 by 60 cm, then its fill
	for _, c := range []struct {
		keys []string
		want string
	}{
		{more([]string{"1"}, typed("garden bin")), "called garden bin already"},
		{more([]string{"2", "1"}, typed("3 L")), "length"},
		{more(drum, typed("90")), "above the brim"},
		{more(drum, typed("6 kg")), "volume"},
		{append([]string{"1"}, typed("6 kg")...), "how many litres the vessel holds"},
		{append([]string{"1"}, typed("jug 36cm")...), "LITRES=DEPTH"},
		{append([]string{"1", "enter"}, typed("12 10")...), "warmer than the cold"},
		{append([]string{"1", "enter"}, typed("12")...), "cold and the hot water"},
		{more([]string{"4"}, typed("120")), "0 % to 100 %"},
	} {
		s, r := screentest.Press(New(e), e, c.keys...)
		text := strings.Join(strings.Fields(screentest.Shown(t, s, e)), " ")
		if len(r) != 0 || !strings.Contains(text, c.want) {
			t.Errorf("%v: asks for %v, %q is missing:\n%s", c.keys, r, c.want, screentest.Shown(t, s, e))
		}
	}
}

// A vessel is told by its litres, by its measures in one line, or by what a jug told: 4/5 of it is filled where only the litres are
// known, else what leaves a hand's breadth (TestThePailAsItIs of model/vessel).
func TestAVesselInOneLine(t *testing.T) {
	e := env(80, 24, "metric")
	for line, want := range map[string]day.Setup{
		"25":                             {Fill: 20},
		"7.5":                            {Fill: 6},
		"cylinder 50cm 70cm":             {Fill: 121, Vessel: "cylinder 50cm 70cm"},
		"jug 5L=8.4cm 10L=16.1cm 36.8cm": {Fill: 18, Vessel: "jug 5L=8.4cm 10L=16.1cm 36.8cm"},
		"frustum 25.4cm 29.9cm 36.8cm":   {Fill: 16, Vessel: "frustum 25.4cm 29.9cm 36.8cm"},
	} {
		_, r := screentest.Press(New(e), e, append(append([]string{"1"}, typed(line)...), "enter", "enter")...)
		if len(r) != 1 {
			t.Errorf("%s asks for %v", line, r)
			continue
		}
		if got := r[0].(screen.Begin).Head.Setup; got.Vessel != want.Vessel || got.Fill != want.Fill {
			t.Errorf("%s is %s, filled with %s, not %s", line, got.Vessel, got.Fill, want.Fill)
		}
	}
}

func TestTheRimIsWatchedAsTheFillIsTyped(t *testing.T) {
	e := env(80, 24, "metric")
	s, _ := screentest.Press(New(e), e, "1", "enter", "enter", "2", "2", "enter", "enter", "7", "2")
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "72 L: ") || !strings.Contains(text, "stop 8 cm") {
		t.Errorf("a drum filled to the rim:\n%s", text)
	}
	s, _ = screentest.Press(New(e), e, append([]string{"1", "enter", "enter", "2", "2", "enter", "enter"}, strings.Split("30 cm", "")...)...)
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "30 cm from the floor") {
		t.Errorf("a fill given by its depth:\n%s", text)
	}
}

func TestBackAndAway(t *testing.T) {
	e := env(80, 24, "metric")
	s, _ := screentest.Press(New(e), e, "1", "enter", "enter", "2", "2", "enter")
	for _, want := range []string{"ACROSS?", "WHICH VESSEL?", "BEGIN VAT 1", "WHICH WATER?", "LITRES?", "WHICH RECIPE?"} {
		if s, _ = screentest.Press(s, e, "pgup"); s.View(e).Act != want {
			t.Errorf("back leads to %q, not %q", s.View(e).Act, want)
		}
	}
	if _, r := screentest.Press(New(e), e, "esc"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("esc asks for %v", r)
	}
}

// In a closed room the list of recipes says which of them does not go there, before anything is measured.
func TestTheRecipesKnowThePlace(t *testing.T) {
	for place, want := range map[string]bool{day.ClosedRoom: true, day.Outdoors: false} {
		e := env(80, 24, "metric")
		e.Home.Settings.Place = place
		s := New(e)
		if text := screentest.Shown(t, s, e); strings.Contains(text, "No sulfur reducer in a closed room") != want {
			t.Errorf("%s:\n%s", place, text)
		}
	}
}

// One key sorts the recipes by what is to be dyed: what fits comes first and says so, what does not comes last with its reason, and the
// vat that is begun is the one that was seen.
func TestTheRecipesAreSortedByWhatIsToBeDyed(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], "metric")
		s, _ := screentest.Press(New(e), e, "f", "f")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "RECIPE FOR WOOL?") || !strings.Contains(text, "1  Mild soda vat") {
			t.Errorf("%v, wool:\n%s", size, text)
		}
	}
	e := env(120, 40, "metric")
	for word, want := range map[string]string{"": "soda", "cotton": "soda", "wool": "mild-soda", "silk": "mild-soda", "a paste": "iron-lime", "a class": "iron-lime", "children": "sugar-lime"} {
		s := New(e)
		for wanted[s.(setup).wants].word != word {
			s, _ = screentest.Press(s, e, "f")
		}
		_, ask := screentest.Press(s, e, "enter", "enter", "enter", "enter", "enter")
		if got := ask[len(ask)-1].(screen.Begin).Head.Recipe.ID; got != want {
			t.Errorf("for %q it begins %s, not %s", word, got, want)
		}
	}
	s, _ := screentest.Press(New(e), e, "f", "f", "up")
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "not for it, in") {
		t.Errorf("wool, the last of the list:\n%s", text)
	}
	s, _ = screentest.Press(New(e), e, "f", "f", "f", "f", "f", "f", "f")
	if a, b := screentest.Shown(t, s, e), screentest.Shown(t, New(e), e); a != b {
		t.Errorf("round once it is\n%s\nnot\n%s", a, b)
	}
}

// The vessel is drawn as it is described, and from its question on where the fill will end.
func TestTheVesselIsDrawnAsItIsDescribed(t *testing.T) {
	e := env(120, 40, "metric")
	box := append([]string{"1"}, strings.Split("box 60cm 60cm 42cm", "")...)
	for n, keys := range [][]string{box, append(box, "enter"), append(box, "enter", "enter"), append(box, "enter", "enter", "3", "5", "0")} {
		s, _ := screentest.Press(New(e), e, keys...)
		v := s.View(e).Stage.Vessel
		if v.Top != v.Floor || math.Abs(v.Top-60.0/42) > 0.01 || v.Fill != 0 || (v.Next > 0) != (n > 0) || n == 3 && v.Mark != "50 L" {
			t.Errorf("after %v it is %+v", keys, v)
		}
	}
}

// The recipes are put in order once, and anew for another wish, another place and a home that was read anew.
func TestTheRecipesAreSortedOnce(t *testing.T) {
	e := env(80, 24, "metric")
	s := New(e).(setup)
	first := s.choices(e)
	for range 3 {
		s.View(e)
		next, _ := s.Update(screen.Key{Name: "down"}, e)
		s = next.(setup)
	}
	if &s.choices(e)[0] != &first[0] {
		t.Error("they are put in order at each key or frame")
	}
	read := e
	read.Home.Recipes, read.Home.Own = recipes.Builtin(), map[string]bool{e.Home.Recipes[0].ID: true}
	if got := s.choices(read)[0].Aside; !strings.Contains(got, "your own") {
		t.Errorf("read anew, the first one says %q", got)
	}
	closed, other := e, s
	if closed.Home.Settings.Place = day.ClosedRoom; &s.choices(closed)[0] == &first[0] {
		t.Error("in a closed room they are as they were")
	}
	if other.wants++; &other.choices(e)[0] == &first[0] {
		t.Error("sorted for something else they are as they were")
	}
	if fewer := e; len(s.choices(e)) == len(first) {
		fewer.Home.Recipes = fewer.Home.Recipes[:2]
		if n := len(s.choices(fewer)); n != 2 {
			t.Errorf("of two recipes %d are shown", n)
		}
	}
}
