package prepare_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/prepare"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 11, 25, 12, 30, 0, 0, time.UTC)

func env(w, h int, wish string, vats ...screen.Vat) screen.Env {
	return screen.Env{Now: noon, Width: w, Height: h, Style: style.New(style.Options{}), Home: screen.Home{
		Vats: vats, Recipes: recipes.Builtin(), Settings: shelf.Settings{Units: "metric", Cold: 15, Hot: 60, ReadyBy: wish, Emergency: "112"},
	}}
}

func typed(text string, then ...string) []string {
	var keys []string
	for _, r := range text {
		key := string(r)
		if r == ' ' {
			key = "space"
		}
		keys = append(keys, key)
	}
	return append(append(keys, "enter"), then...)
}

func flat(s string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("▒", " ", "▓", " ", "░", " ", "█", " ").Replace(s)), " ")
}

// Every page is whole in every window, without any vat too: the questions, then what is next with its amounts, the times,
// the list, and what the goods do not bear.
func TestThePagesAreWhole(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], "")
		s := prepare.New(e)
		shown := func(keys []string, want ...string) {
			t.Helper()
			s, _ = screentest.Press(s, e, keys...)
			text := screentest.Shown(t, s, e)
			for _, w := range want {
				if !strings.Contains(flat(text), w) {
					t.Errorf("%v: %q is missing:\n%s", size, w, text)
				}
			}
		}
		shown(nil, "What is to be dyed?", "420 g linen")
		shown(typed("420 g linen, 300 g greasy wool"), "Is the linen scoured?", "3 to 5 s", "not scoured: greige")
		shown([]string{"1"}, "When does the first piece go in?", "Enter: 10:00")
		// 11 h 30 min of scouring would not fit before wetting out, so it is over by nine in the evening.
		shown([]string{"enter"}, "Scour the linen, bath 1 of 2: begin at", "8.4 g of neutral detergent and 18.9 g of soda ash in 10.5 L at 90 °C", "Wed 14:15", "CAUTION wool bears pH 9.5")
		if sheet := s.View(e); size[1] == 60 && (sheet.Act != "Scour the linen" || !sheet.ActBig || sheet.Figure.Number != "14:15") {
			t.Errorf("%v: large stands %q beside %q", size, sheet.Act, sheet.Figure.Number)
		}
		shown([]string{"tab"}, "checklist, 0 of", "[ ] 1 the emergency number, 112", "The evening before: ")
		shown([]string{"space"}, "checklist, 1 of", "[x] 1 the emergency number")
		shown([]string{"3"}, "checklist, 2 of", "[x] 3 ")
		shown([]string{"3"}, "checklist, 1 of", "[ ] 3 ")
		if size[1] >= 40 {
			shown(nil, "Drop test: a drop of water", "the first piece goes in", "or a ferment vat")
		}
	}
}

// Where the times stand alone, the big key and the figures show the list first and tick nothing: what is ticked was seen.
func TestNothingUnseenIsTicked(t *testing.T) {
	for _, k := range []string{"space", "enter", "pgdown", "3"} {
		for _, size := range screentest.Sizes {
			e := env(size[0], size[1], "10:00")
			s, _ := screentest.Press(prepare.New(e), e, typed("420 g linen", "1")...)
			text := flat(screentest.Shown(t, s, e))
			does := s.Keys(e)[0].Desc
			if seen := strings.Contains(text, "checklist, 0 of"); seen != (does == "tick") || !seen && does != "show the list" {
				t.Fatalf("%v: the big key says %q:\n%s", size, does, text)
			}
			if does == "tick" {
				continue
			}
			s, _ = screentest.Press(s, e, k)
			if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, "checklist, 0 of") || strings.Contains(text, "[x]") || s.Keys(e)[0].Desc != "tick" {
				t.Errorf("%v: after %s on the times, with %q next:\n%s", size, k, s.Keys(e)[0].Desc, text)
			}
			s, _ = screentest.Press(s, e, k)
			if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, "checklist, 1 of") {
				t.Errorf("%v: after a second %s:\n%s", size, k, text)
			}
		}
	}
}

// The list can be gone through with the one big key, to its end, and every item has been seen; the ticks are kept.
func TestTheListIsGoneThrough(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], "10:00")
		s, _ := screentest.Press(prepare.New(e), e, typed("420 g linen", "1")...)
		seen, last := "", ""
		for range 60 {
			text := flat(screentest.Shown(t, s, e))
			seen += text
			if text == last {
				break
			}
			last = text
			if s, _ = screentest.Press(s, e, "pgdown"); strings.Contains(flat(screentest.Shown(t, s, e)), "27 of 27") {
				break
			}
		}
		text := screentest.Shown(t, s, e)
		for _, want := range []string{"dust mask", "drip tray", "emergency", "laptop", "0.1 g"} {
			if !strings.Contains(seen+flat(text), want) {
				t.Errorf("%v: %q was never seen", size, want)
			}
		}
		for _, want := range []string{"peroxide and bleach meet it violently.", "drowns a small child."} { // beside the times the rows are mixed
			if size[0] < 112 && !strings.Contains(seen, want) {
				t.Errorf("%v: a warning is cut before %q", size, want)
			}
		}
		if strings.Contains(text, "[ ]") || !strings.Contains(text, "27 of 27") {
			t.Errorf("%v: not all is ticked:\n%s", size, text)
		}
	}
}

// What is next goes by the clock: before it, at it, and while it runs; what was laid out does not run away.
func TestNextByTheClock(t *testing.T) {
	e := env(80, 24, "10:00")
	s, _ := screentest.Press(prepare.New(e), e, typed("420 g linen", "1")...)
	for _, c := range []struct {
		at    time.Duration
		wants []string
	}{
		{0, []string{"Scour the linen, bath 1 of 2: begin at", "in 3 h 30 min"}},
		{3*time.Hour + 31*time.Minute, []string{"Scour the linen, bath 1 of 2: begin at", "now"}},
		{4 * time.Hour, []string{"Scour the linen, bath 2 of 2: begin at", "Now: scour the linen, bath 1 of 2, till 18:30. Then: "}},
		{20 * time.Hour, []string{"Build the vat: begin at", "in 8 min", "14 steps, first weigh", "over"}},
		{21*time.Hour + 10*time.Minute, []string{"The first piece goes in at", "in 20 min"}},
		{30 * time.Hour, []string{"The first piece goes in at", "over"}},
	} {
		e.Now = noon.Add(c.at)
		text := flat(screentest.Shown(t, s, e))
		for _, want := range c.wants {
			if !strings.Contains(text, want) {
				t.Errorf("after %v %q is missing:\n%s", c.at, want, screentest.Shown(t, s, e))
			}
		}
	}
}

// The keys of the questions: what cannot be read is told and can be mended; back and away; another start.
func TestTheQuestions(t *testing.T) {
	e := env(80, 24, "10:00")
	s, r := screentest.Press(prepare.New(e), e, typed("420 g tweed")...)
	if text := screentest.Shown(t, s, e); len(r) != 0 || !strings.Contains(text, "tweed is not a fibre known here") || !screen.Capturing(s) {
		t.Errorf("%v\n%s", r, text)
	}
	if _, r := screentest.Press(prepare.New(e), e, "esc"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("esc asks for %v", r)
	}
	// Scoured goods are not asked about, and a wish of the settings is not asked for.
	s, _ = screentest.Press(prepare.New(e), e, typed("420 g scoured linen")...)
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "Build the vat: begin at") || strings.Contains(text, "scour the") {
		t.Errorf("scoured linen:\n%s", text)
	}
	if _, r := screentest.Press(s, e, "esc"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("esc asks for %v", r)
	}
	s, _ = screentest.Press(s, e, typed("w25:99")...)
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "type a time of day") {
		t.Errorf("25:99 is taken:\n%s", text)
	}
	s, _ = screentest.Press(s, e, "esc")
	s, _ = screentest.Press(s, e, typed("w13.30")...)
	if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, "12:07 build the vat") || !strings.Contains(text, "To dye at 13:30 it should have begun at 12:07, 22 min ago") {
		t.Errorf("at 13:30:\n%s", screentest.Shown(t, s, e))
	}
	// Goods of several fibres, and none.
	s, _ = screentest.Press(prepare.New(e), e, typed("420 g linen and 90 g silk")...)
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "Are linen and silk scoured?") || !strings.Contains(text, "each as it usually comes") {
		t.Errorf("linen and silk:\n%s", text)
	}
	s, _ = screentest.Press(s, e, "esc")
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "420 g linen, 90 g silk") {
		t.Errorf("back at the goods:\n%s", text)
	}
	s, _ = screentest.Press(prepare.New(e), e, "enter")
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "Build the vat: begin at") {
		t.Errorf("no goods:\n%s", text)
	}
}

// The vat is the one chosen on home, else the last; one that lives is warmed, one half built is built to its end.
func TestTheVat(t *testing.T) {
	pail := screen.Vat{Vat: "pail", Name: "pail", Day: "2026-11-20", Recipe: "Sugar and lime vat", Fill: "20 L"}
	bin := screen.Vat{Vat: "bin", Name: "garden bin", Day: "2026-11-24", Recipe: "Soda vat", Fill: "60 L", Open: true}
	e := env(120, 40, "10:00", pail, bin)
	e.ID = "pail/2026-11-20"
	s, _ := screentest.Press(prepare.New(e), e, typed("420 g scoured linen")...)
	text := flat(screentest.Shown(t, s, e))
	if !strings.Contains(text, "09:35 warm the vat") || !strings.Contains(text, "pail · sugar and lime vat of 20 L") || strings.Contains(text, "build the vat") {
		t.Errorf("the pail:\n%s", screentest.Shown(t, s, e))
	}
	e.ID = ""
	r, _ := recipes.Find("soda")
	st, err := day.Begin(day.Head{Vat: "bin", Day: "2026-11-24", Recipe: r, Setup: day.Setup{Fill: quantity.Litres(60)}})
	if err != nil {
		t.Fatal(err)
	}
	e.Days = engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/2026-11-24", State: st, Now: noon}.At(noon)}}
	s, _ = screentest.Press(prepare.New(e), e, typed("420 g scoured linen")...)
	if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, "Build the vat: begin at") || !strings.Contains(text, "garden bin") {
		t.Errorf("the bin:\n%s", screentest.Shown(t, s, e))
	}
}
