package setup

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
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
	words := []string{
		"NAME THE VAT", "WHICH RECIPE?", "WHICH VESSEL?", "across the floor", "across the rim", "HOW HIGH?", "MADE OF WHAT?", "below the rim",
		"how cold it is", "how hot it is", "WHICH PLACE?", "HOW STRONG", "BEGIN VAT 2",
	}
	for _, size := range screentest.Sizes {
		for _, units := range []string{"metric", "us", "imperial"} {
			e := env(size[0], size[1], units)
			s := New(e)
			for _, word := range words {
				if text := screentest.Shown(t, s, e); !strings.Contains(text, word) {
					t.Errorf("%v %s: %q is missing:\n%s", size, units, word, text)
				}
				s, _ = screentest.Press(s, e, "pgdown")
			}
		}
	}
}

func TestTheSummarySaysWhatIsWeighedAndWhatToBewareOf(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], "metric")
		for n := range e.Home.Recipes {
			s, _ := screentest.Press(New(e), e, "enter", string(rune('1'+n)), "4", "enter", "enter", "enter", "enter", "enter", "enter")
			if slow(e.Home.Recipes[n]) {
				if text := screentest.Shown(t, s, e); !strings.Contains(text, "HOW STRONG") {
					t.Errorf("%v, %s: a slow vat is not asked for one answer more:\n%s", size, e.Home.Recipes[n].ID, text)
				}
				s, _ = screentest.Press(s, e, "enter")
			}
			text := screentest.Shown(t, s, e)
			for _, word := range []string{"CAUTION", "enter: begin", "indigo", "BEGIN VAT 2"} {
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
		for range 13 {
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
		if l := b.Head.Setup.Fill.Litres(); l < 15 || l > 20 {
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
		typed("blue tub"), {"3"}, {"2"}, typed("50"), typed("70 cm"), {"5"}, typed("100"), typed("14"), typed("70 °C"), {"1"}, {"3"}, typed("45%"), {"space"},
	} {
		keys = append(keys, part...)
	}
	s, r := screentest.Press(New(e), e, keys...)
	if len(r) != 1 {
		t.Fatalf("asks for %v and shows:\n%s", r, screentest.Shown(t, s, e))
	}
	b := r[0].(screen.Begin).Head
	want := day.Setup{
		Name: "blue tub", Fill: 100, Vessel: "cylinder 50cm 70cm", Material: "HDPE", Place: day.Outdoors, Units: "metric",
		Cold: 14, Hot: 70, Strength: 0.45, Kept: day.KeptBySun, GoodsFirst: true, Waiting: true, NoLook: true,
	}
	if b.Setup != want || b.Recipe.ID != "sugar-lime" || b.Zone != "UTC" {
		t.Errorf("got  %+v, %s, %s\nwant %+v", b.Setup, b.Recipe.ID, b.Zone, want)
	}
}

func TestRefusalsAreSaidWhereTheyArise(t *testing.T) {
	e := env(80, 24, "metric")
	drum := []string{"enter", "1", "2", "enter", "enter"} // 40 by 60 cm, then the material
	for _, c := range []struct {
		keys []string
		want string
	}{
		{typed("garden bin"), "called garden bin already"},
		{append([]string{"enter", "1", "1"}, typed("3 L")...), "length"},
		{append(drum, "9"), "aluminium is eaten by alkali"},
		{append(drum, append([]string{"1"}, typed("90")...)...), "above the brim"},
		{append(drum, append([]string{"1"}, typed("6 kg")...)...), "volume"},
		{append(drum, "1", "enter", "enter", "1", "0", "enter"), "warmer than the cold"},
		{append(drum, "1", "enter", "enter", "enter", "3"), "no sulfur reducer in a closed room"},
		{append(drum, append([]string{"1", "enter", "enter", "enter", "1"}, typed("120")...)...), "0 % to 100 %"},
	} {
		s, r := screentest.Press(New(e), e, c.keys...)
		text := strings.Join(strings.Fields(screentest.Shown(t, s, e)), " ")
		if len(r) != 0 || !strings.Contains(text, c.want) {
			t.Errorf("%v: asks for %v, %q is missing:\n%s", c.keys, r, c.want, screentest.Shown(t, s, e))
		}
	}
}

func TestTheRimIsWatchedAsTheFillIsTyped(t *testing.T) {
	e := env(80, 24, "metric")
	s, _ := screentest.Press(New(e), e, "enter", "1", "2", "enter", "enter", "1", "7", "2")
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "72 L: ") || !strings.Contains(text, "stop 8 cm") {
		t.Errorf("a drum filled to the rim:\n%s", text)
	}
	s, _ = screentest.Press(New(e), e, append([]string{"enter", "1", "2", "enter", "enter", "1"}, strings.Split("30 cm", "")...)...)
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "30 cm from the floor") {
		t.Errorf("a fill given by its depth:\n%s", text)
	}
}

func TestBackAndAway(t *testing.T) {
	e := env(80, 24, "metric")
	s, _ := screentest.Press(New(e), e, "enter", "1", "4", "pgup")
	if got := s.View(e).Act; got != "WHICH VESSEL?" {
		t.Errorf("back over the measures that are not there leads to %q", got)
	}
	if _, r := screentest.Press(New(e), e, "esc"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("esc asks for %v", r)
	}
	closed := e
	closed.Home.Recipes = recipes.Builtin()
	s, _ = screentest.Press(New(closed), closed, "enter", "3", "4", "enter", "enter", "enter", "enter", "3")
	if got := s.View(closed).Act; got != "KEPT WARM?" {
		t.Errorf("a sugar vat in a closed room leads to %q", got)
	}
}

// In a closed room the list of recipes says which of them does not go there, before anything is measured.
func TestTheRecipesKnowThePlace(t *testing.T) {
	for place, want := range map[string]bool{day.ClosedRoom: true, day.Outdoors: false} {
		e := env(80, 24, "metric")
		e.Home.Settings.Place = place
		s, _ := screentest.Press(New(e), e, "enter")
		if text := screentest.Shown(t, s, e); strings.Contains(text, "No sulfur reducer in a closed room") != want {
			t.Errorf("%s:\n%s", place, text)
		}
	}
}

// The vessel is drawn as it is described, and from its question on where the fill will end.
func TestTheVesselIsDrawnAsItIsDescribed(t *testing.T) {
	e := env(120, 40, "metric")
	box := []string{"enter", "1", "3", "enter", "enter", "enter"}
	for n, keys := range [][]string{box, append(box, "1"), append(box, "1", "5", "0")} {
		s, _ := screentest.Press(New(e), e, keys...)
		v := s.View(e).Stage.Vessel
		if v.Top != v.Floor || math.Abs(v.Top-60.0/42) > 0.01 || v.Fill != 0 || (v.Next > 0) != (n > 0) || n == 2 && v.Mark != "50 L" {
			t.Errorf("after %v it is %+v", keys, v)
		}
	}
}
