package ui

import (
	"slices"
	"strings"
	"testing"

	"example.org/vatside/recipes"
	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// sceneOf is a scene by its name.
func sceneOf(t *testing.T, name string) scene {
	t.Helper()
	all := scenes(t)
	i := slices.IndexFunc(all, func(s scene) bool { return s.name == name })
	if i < 0 {
		t.Fatalf("no scene %q", name)
	}
	return all[i]
}

// in is the root at a scene in a window.
func (s scene) in(h effects, width, height int) model {
	m := clickable(h, s.view)
	m.width, m.height = width, height
	return s.open(m)
}

// What has keys of its own is all in sight, and what is said is said to its end.
func TestNothingIsLeftOutOfSight(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	colours := sceneOf(t, "signs")
	colours.name, colours.keys = "signs of the liquor", "1"
	for _, c := range []struct {
		of            scene
		width, height int
		holds, not    string
	}{
		{colours, 60, 20, "0 reddish", "4 below"},
		{colours, 80, 24, "0 reddish", "4 below"},
		{sceneOf(t, "recipes"), 80, 24, "7 Mild soda vat", " below"},
		{sceneOf(t, "depths"), 80, 24, "9 like a rung, or a colour typed", " below"},
		{sceneOf(t, "forms"), 80, 24, "5 pasted paste resist: not soaked, hung still", "…"},
		{sceneOf(t, "leaving"), 80, 24, "are told when the program opens again.", "…"},
		{sceneOf(t, "a new vat"), 80, 24, "4 indigo's strength", "…"},
		{sceneOf(t, "clock, a piece dry"), 60, 20, "by your swatches", "…"},
	} {
		m := c.of.in(h, c.width, c.height)
		shown := strings.Join(strings.Fields(ansiless(m.View())), " ")
		if words := strings.Map(letters, shown); !strings.Contains(strings.Join(strings.Fields(words), " "), c.holds) || strings.Contains(words, c.not) {
			t.Errorf("%s at %d×%d, with %q, without %q:\n%s", c.of.name, c.width, c.height, c.holds, c.not, m.View())
		}
	}
	m := colours.in(h, 80, 24) // a row of air over the foot
	lines := strings.Split(ansiless(m.View()), "\n")
	if foot := slices.IndexFunc(lines, func(l string) bool { return strings.Contains(l, "not read yet") }); foot < 0 || strings.TrimSpace(lines[foot-1]) != "" {
		t.Errorf("the colours touch the foot:\n%s", strings.Join(lines, "\n"))
	}
}

// letters are characters that are read, but for blocks.
func letters(r rune) rune {
	if r >= '▀' && r <= '▟' || r == '■' {
		return ' '
	}
	return r
}

// ansiless is what is shown without its colours.
func ansiless(view string) string {
	s := emulator.New(300, strings.Count(view, "\n")+1)
	_, _ = s.Write([]byte(strings.ReplaceAll(view, "\n", "\r\n")))
	return s.Text()
}

// The letters of a look stand on one row, whatever is said under its cloths.
func TestALookKeepsItsRow(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	for _, size := range screentest.Sizes {
		m := sceneOf(t, "the look that decides").in(h, size[0], size[1])
		sheet := m.sheet()
		at := -1
		for n := range len(sheet.How) {
			said := sheet
			said.How = sheet.How[:n+1]
			call, _, _, _ := widget.Lay(said, size[0], size[1], m.style).Rows()
			if at < 0 {
				at = call
			}
			if call != at {
				t.Errorf("%v: under %d sentences the letters stand on row %d, under one on %d", size, n+1, call, at)
			}
		}
	}
}

// What asks for an answer, and a cause without a figure, are read from afar.
func TestQuestionsAreReadFromAfar(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	st := style.New(style.Options{Theme: style.DarkTheme, Profile: style.TrueColour, PaintGround: true})
	for _, name := range []string{"unconfirmed", "unconfirmed, one picked", "a cause", "the question about an end", "before the day", "settings", "forms", "board"} {
		for _, size := range [][2]int{{80, 24}, {120, 40}} {
			if size[1] == 24 && (name == "a cause" || name == "forms") {
				continue // of 14 letters in 74 columns, and of 11 in 51 under a running call: 20.8 minutes of arc
			}
			m := sceneOf(t, name).in(h, size[0], size[1])
			m.style = st
			readFromAfar(t, frame{Place: name, Width: size[0], Height: size[1], Text: m.View()}, st)
		}
	}
}

// In a large window a screen is no small text at its edge: so much of it shows something.
func TestALargeWindowIsUsed(t *testing.T) {
	h := effectsOf(t, shelf.Open(t.TempDir()))
	for name, least := range map[string]float64{"settings": 0.12, "what if": 0.25, "the question about an end": 0.12} {
		m := sceneOf(t, name).in(h, 200, 60)
		s := emulator.New(200, 60)
		show(s, frame{Width: 200, Height: 60, Text: m.View()})
		if ink := inkIn(s, 200, 60); ink < least {
			t.Errorf("%s: %.1f %% of 200×60 show something, not %.0f:\n%s", name, 100*ink, 100*least, m.View())
		}
	}
}

// Without a vat a click on a row is its key.
func TestAClickWithoutAVat(t *testing.T) {
	m := newModel(Options{}, shelf.Defaults(), effectsOf(t, shelf.Open(t.TempDir())))
	m.home.Recipes = recipes.Builtin()
	m.width, m.height = 120, 40
	for row, want := range []screen.Place{screen.AtSetup} {
		next, _ := m.key(screen.Key{Name: "row", Row: row})
		if top := next.stack; top[len(top)-1].at != want {
			t.Errorf("row %d leads to %s", row, top[len(top)-1].at)
		}
	}
	if large := m.sheet().Large; len(large) != 3 {
		t.Errorf("in large letters stand %q", large)
	}
}
