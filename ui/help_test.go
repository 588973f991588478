package ui

import (
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/follow"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// Help explains the marks behind figures, and scrolled to its end it has shown every key of the screen and every one of the table of
// answers under its heading, first aid and quitting among them.
func TestHelpIsWhole(t *testing.T) {
	morning := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	r, _ := recipes.Find("soda")
	s, err := day.Begin(rehearse.Head(r, morning))
	if err != nil {
		t.Fatal(err)
	}
	if s, err = day.Apply(s, day.Event{Seq: 1, At: morning, Body: day.Opened{How: "build"}}); err != nil {
		t.Fatal(err)
	}
	for _, size := range screentest.Sizes {
		m := model{width: size[0], height: size[1], style: style.New(style.Options{})}
		e := screen.Env{Now: morning, Width: size[0], Height: size[1], Style: m.style, ID: "bin/d",
			Days: engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/d", State: s, Now: morning}.At(morning)}}}
		m.snap = e.Days
		top := place{day: e.ID, shows: follow.New(e)}
		seen := ""
		for m.helpFrom = range 60 {
			text := ansi.Strip(widget.Render(m.helpSheet(top, e), size[0], size[1], m.style))
			for _, l := range strings.Split(text, "\n") {
				if ansi.StringWidth(l) > size[0] {
					t.Errorf("%v: a line is too wide: %q", size, l)
				}
			}
			words := strings.NewReplacer("▒", "", "\n", " ").Replace(text)
			if words = strings.Join(strings.Fields(words), " "); !strings.Contains(words, "= measured, ~ reckoned, ? guessed. What is reckoned moves with each reading.") {
				t.Fatalf("%v: the marks are not explained:\n%s", size, text)
			}
			seen += words
		}
		for _, b := range top.shows.Keys(e) {
			if !strings.Contains(seen, b.Desc) {
				t.Errorf("%v: %q is in no part of help", size, b.Desc)
			}
		}
		if !strings.Contains(seen, "What you do to the vat") {
			t.Errorf("%v: the keys have no headings:\n%s", size, seen)
		}
		for _, section := range answer.List(s, morning) {
			for _, r := range section.Rows {
				if r.Key != "" && !strings.Contains(seen, r.Key+" "+r.KeyDoes(s)) && r.ID != "done" && r.ID != "scoop" {
					t.Errorf("%v: %s, %s, is in no part of help", size, r.Key, r.KeyDoes(s))
				}
			}
		}
		for _, want := range []string{"! first aid", "q quit"} {
			if !strings.Contains(seen, want) {
				t.Errorf("%v: %q is in no part of help", size, want)
			}
		}
	}
}

// Two columns of keys stand beside each other as soon as each has its own room, not twice that of the widest.
func TestKeysBesideEachOther(t *testing.T) {
	rows := []string{"a   one", "b   two", "c   a key with a long word", "d   four"}
	wide := len("a   one") + gutter + len("c   a key with a long word")
	if got := inColumns([][]string{rows}, wide, 2); len(got) != 2 || got[0] != "a   one    c   a key with a long word" {
		t.Errorf("%q", got)
	}
	if got := inColumns([][]string{rows}, wide-1, 2); len(got) != 4 {
		t.Errorf("with a column less: %q", got)
	}
}

// What other screens say of home's keys is what they do there.
func TestOtherScreensNameHomesKeys(t *testing.T) {
	v := dipping(t)
	m := clickable(effects{cares: &library.Cares{}, looks: &looks{}}, v)
	does := map[string]string{}
	for _, b := range m.stack[0].shows.Keys(m.env()) {
		does[b.Key] = b.Desc
	}
	if does["P"] != "powders" || does[","] != "settings" {
		t.Fatalf("home has %q", does)
	}
	m.width, m.height = 120, 40
	for at, want := range map[screen.Place]string{screen.AtAid: "on home, the comma key sets it", screen.AtCost: "on home: P for the tins, the comma key for your hour"} {
		m := m
		if at == screen.AtCost { // said where nothing is priced
			m.home.Cost = &screen.Cost{Vat: "bin", Name: "bin", Of: cost.Vat{Pieces: []cost.Piece{{Day: "2026-03-28", Tag: "A1"}}}}
		}
		if shown := strings.Join(strings.Fields(ansi.Strip(m.push(at, v.ID, "").View())), " "); !strings.Contains(shown, want) {
			t.Errorf("%s does not say %q:\n%s", at, want, shown)
		}
	}
}
