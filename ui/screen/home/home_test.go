package home

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func env(w, h int, vats ...screen.Vat) screen.Env {
	return screen.Env{Now: noon, Width: w, Height: h, Style: style.New(style.Options{}), Home: screen.Home{Vats: vats, Settings: shelf.Settings{GoingOn: true, Units: "metric", Theme: "dark"}}}
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
		for _, word := range []string{"garden bin", "open elsewhere", "lime tub", "old pail", "rehearsed", "to look at only"} {
			if !strings.Contains(text, word) {
				t.Errorf("%v: %q is missing:\n%s", size, word, text)
			}
		}
		s, _ := screentest.Press(New(e), e, "2")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "due: look: is it ready? tomorrow 09:00") {
			t.Errorf("%v: what is due is missing:\n%s", size, text)
		}
		s, _ = screentest.Press(New(e), e, "3")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "torn end") {
			t.Errorf("%v: the torn end is missing:\n%s", size, text)
		}
		s, _ = screentest.Press(New(e), e, "2", "X")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "local authority") {
			t.Errorf("%v: the question before the end:\n%s", size, text)
		}
		s, _ = screentest.Press(New(e), e, ",")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "emergency number") {
			t.Errorf("%v: settings:\n%s", size, text)
		}
		none := env(size[0], size[1])
		if text := screentest.Shown(t, New(none), none); !strings.Contains(text, "choose a recipe") {
			t.Errorf("%v: without a vat:\n%s", size, text)
		}
	}
}

// The list and the waterline stay where they are, whatever is to be said of the chosen vat.
func TestHomeKeepsItsPlace(t *testing.T) {
	vats := append(three(), screen.Vat{Vat: "gone", Name: "a long name for a small tub", Day: "2026-11-02", Recipe: "Sugar vat", Fill: "20 L", Line: "its book stays", Ended: true})
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], vats...)
		want := -1
		for _, k := range []string{"1", "2", "3", "4"} {
			s, _ := screentest.Press(New(e), e, k)
			text := screentest.Shown(t, s, e)
			first := slices.IndexFunc(strings.Split(text, "\n"), func(row string) bool { return strings.Contains(row, "garden bin") })
			if want < 0 {
				want = first
			}
			if first != want || first < 0 || len(s.View(e).Foot) != 1 {
				t.Errorf("%v: with vat %s the list begins in row %d, not %d:\n%s", size, k, first, want, text)
			}
			if rows := strings.Split(text, "\n"); size[0] >= 60 && size[1] >= 20 && !strings.Contains(strings.Join(rows[len(rows)-3:], ""), "last day 2026-11-") {
				t.Errorf("%v: the foot of vat %s:\n%s", size, k, text)
			}
		}
	}
}

// A vat that has ended is neither ended again nor given a next day.
func TestAnEndedVatOnHome(t *testing.T) {
	e := env(80, 24, screen.Vat{Vat: "gone", Name: "old tub", Day: "2026-11-02", Line: "its book stays", Ended: true})
	for _, k := range []string{"space", "l"} {
		if _, r := screentest.Press(New(e), e, k); len(r) != 1 || r[0] != (screen.Go{To: screen.AtLog, Day: "gone/2026-11-02"}) {
			t.Errorf("%s asks for %v", k, r)
		}
	}
	s, r := screentest.Press(New(e), e, "X")
	if _, says := r[0].(screen.Say); len(r) != 1 || !says || strings.Contains(s.View(e).Act, "End") {
		t.Errorf("x asks for %v", r)
	}
}

// Of a vat that has ended, and of a day that was only rehearsed, no key is offered that is then refused; a rehearsed day has its log.
func TestWhatIsOverOffersNoNextDay(t *testing.T) {
	for _, c := range []struct {
		vat screen.Vat
		no  string
	}{
		{screen.Vat{Vat: "v", Day: "d", Line: "its book stays", Ended: true}, "next day,keeping it alive,end the vat"},
		{screen.Vat{Vat: "v", Day: "d", Line: "day closed", Rehearsed: true}, "next day,keeping it alive,end the vat,new vat"},
		{screen.Vat{Vat: "v", Day: "d", Line: "dip", Rehearsed: true, Open: true}, "next day,end the vat,new vat"},
	} {
		e := env(80, 24, c.vat)
		for _, k := range New(e).Keys(e) {
			if slices.Contains(strings.Split(c.no, ","), k.Desc) {
				t.Errorf("%+v offers %s %s", c.vat, k.Key, k.Desc)
			}
		}
		if _, r := screentest.Press(New(e), e, "X"); len(r) != 1 {
			t.Errorf("X asks for %v", r)
		}
		if _, r := screentest.Press(New(e), e, "enter"); !c.vat.Open && (len(r) != 1 || r[0] != (screen.Go{To: screen.AtLog, Day: "v/d"})) {
			t.Errorf("enter asks for %v", r)
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
		{[]string{"2", "C"}, screen.Go{To: screen.AtCost, Day: "lime/2026-11-20"}},
		{[]string{"2", "X", "space"}, screen.NextDay{Vat: "lime", End: true}},
		{[]string{"3", "l"}, screen.Go{To: screen.AtLog, Day: "old/2026-11-01"}},
		{[]string{"N"}, screen.Go{To: screen.AtSetup}},
		{[]string{"down", "b"}, screen.Go{To: screen.AtPrepare, Day: "lime/2026-11-20"}},
		{[]string{"q"}, screen.Quit{}},
		{[]string{",", "enter"}, screen.Set{Settings: shelf.Settings{GoingOn: true, Units: "us", Theme: "dark"}}},
		{[]string{",", "2", "space"}, screen.Set{Settings: shelf.Settings{Units: "metric", Theme: "dark"}}},
		{[]string{",", "5", "enter", "1", "1", "2", "enter"}, screen.Set{Settings: shelf.Settings{GoingOn: true, Units: "metric", Theme: "dark", Emergency: "112"}}},
		{[]string{",", "6", "enter", "backspace", "backspace", "backspace", "backspace", "1", "2", "enter"}, screen.Set{Settings: shelf.Settings{GoingOn: true, Units: "metric", Theme: "dark", Cold: 12}}},
	} {
		if _, r := screentest.Press(New(e), e, c.keys...); len(r) != 1 || r[0] != c.want {
			t.Errorf("%v asks for %v, want %v", c.keys, r, c.want)
		}
	}
	s, r := screentest.Press(New(e), e, "2", "X", "n")
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
	for key, want := range map[string]screen.Request{"1": screen.Go{To: screen.AtSetup}, "2": screen.Rehearse{}, "4": screen.Rehearse{Class: true}, "3": nil} {
		s, r := screentest.Press(New(none), none, key)
		if want != nil && (len(r) != 1 || r[0] != want) || want == nil && (len(r) != 0 || !strings.Contains(screentest.Shown(t, s, none), "What is here")) {
			t.Errorf("without a vat %s asks for %v", key, r)
		}
	}
	if _, r := screentest.Press(New(none), none, "b"); len(r) != 1 || r[0] != (screen.Go{To: screen.AtPrepare}) {
		t.Errorf("without a vat b asks for %v", r)
	}
}

// What is overdue stands first and says so in words, a wait beside it; c opens what the vat wants.
func TestCareOnHome(t *testing.T) {
	care := func(past quantity.Span) []history.Due {
		return []history.Due{
			{ID: "look", Do: "Look at it", At: noon.Add(-past.Duration()), Past: past},
			{ID: "top-up", Do: "Top it up", Amount: 2},
			{ID: "swatch", Do: "Dip a swatch", At: noon.Add(48 * time.Hour), Past: -quantity.Days(2), Coming: true},
			{ID: "stir", Do: "Warm and stir it", At: noon.Add(96 * time.Hour), Past: -quantity.Days(4), Coming: true},
		}
	}
	vats := []screen.Vat{
		{Vat: "a", Name: "a pot", Day: "2026-11-01", Line: "day closed", Care: care(quantity.Hours(2))},
		{Vat: "b", Name: "b pot", Day: "2026-11-01", Line: "day closed", Care: care(quantity.Days(3))},
		{Vat: "c", Name: "c pot", Day: "2026-11-01", Line: "day closed", Care: care(quantity.Days(1))[2:]},
		{Vat: "d", Name: "d pot", Day: "2026-11-01", Line: "day closed", Due: []day.Standing{{Words: "look: is it ready?", At: noon.Add(-30 * time.Hour)}}},
		{Vat: "e", Name: "e pot", Day: "2026-11-01", Line: "day closed", Rehearsed: true, Care: care(-quantity.Days(200))[:0]},
		{Vat: "f", Name: "f pot", Day: "2026-11-01", Line: "day 4", Open: true, Care: care(quantity.Days(9))},
	}
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], vats...)
		s, _ := screentest.Press(New(e), e, "2")
		text := screentest.Shown(t, s, e)
		at := -1
		for _, row := range []string{"f pot", "b pot", "d pot", "a pot", "c pot", "e pot"} {
			next := strings.Index(text, row)
			if next >= 0 && next < at && size[0] < 200 { // there each stands in its place in the yard
				t.Errorf("%v: %s stands too high:\n%s", size, row, text)
			}
			at = max(at, next)
		}
		for _, word := range []string{"overdue by 3 days: look at it", "due now: top it up", "next, in 2 days, on 27 Nov: dip a swatch", "due now: look: is it ready?"} {
			if !strings.Contains(text, word) {
				t.Errorf("%v: no %q in\n%s", size, word, text)
			}
		}
		if strings.Contains(text, "warm and stir") || size[0] < 200 && strings.Count(text, "overdue by 3 days") != 1 || size[1] > 20 && !strings.Contains(text, "e pot") {
			t.Errorf("%v: too much is said:\n%s", size, text)
		}
		for _, k := range []string{"j"} {
			if _, r := screentest.Press(s, e, k); len(r) != 1 || r[0] != (screen.Go{To: screen.AtCare, Day: "b/2026-11-01"}) {
				t.Errorf("%s asks for %v", k, r)
			}
		}
	}
	// A rehearsed vat goes by its own clock, and has no day on which anything could come.
	due := history.Due{ID: "look", Do: "Look at it", At: noon.AddDate(-1, 0, -3), Past: quantity.Days(3)}
	coming := history.Due{ID: "swatch", Do: "Dip a swatch", At: noon.AddDate(-1, 0, 3), Past: -quantity.Days(3), Coming: true}
	for want, all := range map[string][]history.Due{"overdue by 3 days: look at it": {due, coming}, "day closed": {coming}} {
		old := screen.Vat{Vat: "r", Line: "day closed", Rehearsed: true, Care: all}
		if got, about := aim(old, env(80, 24)), (home{}).about(old, env(80, 24)); got != want || strings.Contains(strings.Join(about, "; "), "next, ") {
			t.Errorf("%q, %q", got, about)
		}
	}
}
