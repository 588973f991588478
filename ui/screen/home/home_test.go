package home

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func env(w, h int, vats ...screen.Vat) screen.Env {
	return screen.Env{Now: noon, Width: w, Height: h, Style: style.New(style.Options{}), Home: screen.Home{Vats: vats, Settings: screen.Settings{Units: "metric", Theme: "dark"}}}
}

func three() []screen.Vat {
	return []screen.Vat{
		{Vat: "lime", Name: "lime tub", Day: "2026-11-20", Recipe: "Sugar vat", Fill: "20 L", Due: []day.Standing{{Words: "look: is it ready?", At: noon.Add(21 * time.Hour)}}},
		{Vat: "old", Name: "old pail", Day: "2026-11-01", Recipe: "Soda vat", Fill: "10 L", Line: "day closed", Rehearsed: true, Trouble: "a torn end was set aside: 1 event"},
		{Vat: "bin", Name: "garden bin", Day: "2026-11-25", Open: true, Elsewhere: true, Recipe: "Soda vat", Fill: "60 L", Line: "step 4 of 16: weigh the soda ash"},
	}
}

func TestHomeFitsEverySize(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], three()...)
		text := screentest.Shown(t, New(e), e)
		for _, word := range []string{"Which vat?", "garden bin, open elsewhere", "lime tub", "old pail, rehearsed", "to look at only"} {
			if !strings.Contains(text, word) {
				t.Errorf("%v: %q is missing:\n%s", size, word, text)
			}
		}
		s, _ := screentest.Press(New(e), e, "2")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "due: look: is it ready?, tomorrow 9:00") {
			t.Errorf("%v: what is due is missing:\n%s", size, text)
		}
		s, _ = screentest.Press(New(e), e, "3")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "torn end") {
			t.Errorf("%v: the torn end is missing:\n%s", size, text)
		}
		s, _ = screentest.Press(New(e), e, "2", "x")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "local authority") {
			t.Errorf("%v: the question before the end:\n%s", size, text)
		}
		s, _ = screentest.Press(New(e), e, "s")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "emergency number") {
			t.Errorf("%v: settings:\n%s", size, text)
		}
		none := env(size[0], size[1])
		if text := screentest.Shown(t, New(none), none); !strings.Contains(text, "choose a recipe") {
			t.Errorf("%v: without a vat:\n%s", size, text)
		}
	}
}

func TestManyVatsScroll(t *testing.T) {
	var vats []screen.Vat
	for i := range 30 {
		vats = append(vats, screen.Vat{Vat: string(rune('a' + i)), Name: "vat " + string(rune('a'+i)), Day: "2026-11-01"})
	}
	e := env(60, 20, vats...)
	s := New(e)
	for range 25 {
		s, _ = screentest.Press(s, e, "down")
	}
	if text := screentest.Shown(t, s, e); !strings.Contains(text, "above") || !strings.Contains(text, "vat z") {
		t.Errorf("the chosen vat is out of sight:\n%s", text)
	}
}

func TestWhatHomeAsksFor(t *testing.T) {
	e := env(80, 24, three()...)
	for _, c := range []struct {
		keys []string
		want screen.Request
	}{
		{[]string{"space"}, screen.Go{To: screen.AtDay, Day: "bin/2026-11-25"}},
		{[]string{"down", "enter"}, screen.NextDay{Vat: "lime"}},
		{[]string{"2", "m"}, screen.Go{To: screen.AtCost, Day: "lime/2026-11-20"}},
		{[]string{"2", "x", "space"}, screen.NextDay{Vat: "lime", End: true}},
		{[]string{"3", "l"}, screen.Go{To: screen.AtLog, Day: "old/2026-11-01"}},
		{[]string{"n"}, screen.Go{To: screen.AtSetup}},
		{[]string{"down", "b"}, screen.Go{To: screen.AtPrepare, Day: "lime/2026-11-20"}},
		{[]string{"q"}, screen.Quit{}},
		{[]string{"s", "enter"}, screen.Set{Settings: screen.Settings{Units: "us", Theme: "dark"}}},
		{[]string{"s", "2", "space"}, screen.Set{Settings: screen.Settings{Units: "metric", Theme: "dark", Waiting: true}}},
		{[]string{"s", "5", "enter", "1", "1", "2", "enter"}, screen.Set{Settings: screen.Settings{Units: "metric", Theme: "dark", Emergency: "112"}}},
		{[]string{"s", "6", "enter", "1", "2", "enter"}, screen.Set{Settings: screen.Settings{Units: "metric", Theme: "dark", Cold: "12 °C"}}},
	} {
		if _, r := screentest.Press(New(e), e, c.keys...); len(r) != 1 || r[0] != c.want {
			t.Errorf("%v asks for %v, want %v", c.keys, r, c.want)
		}
	}
	s, r := screentest.Press(New(e), e, "2", "x", "n")
	if len(r) != 0 {
		t.Errorf("a vat is ended by another key: %v", r)
	}
	if _, r = screentest.Press(s, e, "space"); len(r) != 1 || r[0] != (screen.NextDay{Vat: "lime"}) {
		t.Errorf("after that space asks for %v", r)
	}
	none := env(80, 24)
	if _, r := screentest.Press(New(none), none, "enter"); len(r) != 1 || r[0] != (screen.Go{To: screen.AtSetup}) {
		t.Errorf("without a vat enter asks for %v", r)
	}
	if _, r := screentest.Press(New(none), none, "b"); len(r) != 1 || r[0] != (screen.Go{To: screen.AtPrepare}) {
		t.Errorf("without a vat b asks for %v", r)
	}
}
