package ui

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/testdata/long"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

// The colour depths, each by the environment that says so, in a locale with block glyphs.
var depths = map[style.Profile][]string{
	style.TrueColour: {"TERM=xterm-256color", "COLORTERM=truecolor"},
	style.Indexed:    {"TERM=xterm-256color"},
	style.Ansi16:     {"TERM=xterm"},
	style.NoColour:   {"TERM=xterm-256color", "COLORTERM=truecolor", "NO_COLOR=1"},
}

// environment looks up NAME=value.
func environment(pairs ...string) func(string) string {
	return func(name string) string {
		for _, p := range append([]string{"LANG=en_GB.UTF-8"}, pairs...) {
			if n, value, _ := strings.Cut(p, "="); n == name {
				return value
			}
		}
		return ""
	}
}

// startWith is the root as a program starts, with a memory of grounds.
func startWith(theme string, getenv func(string) string, memory shelf.Grounds) model {
	s := shelf.Defaults()
	s.Theme = theme
	return newModel(Options{Getenv: getenv}, s, effects{player: cue.New(cue.Settings{}, nil, nil), grounds: memory})
}

// look is what decides how a screen looks.
type look struct {
	theme   style.Theme
	painted bool
}

// lookOf is the look that a model has, by its own style and by what a blank line is painted with.
func lookOf(t *testing.T, m model) look {
	t.Helper()
	c := screentest.Cells(t, m.style.Ground("x", 1))[0]
	if m.style.Profile != style.NoColour && c.Ink == "" {
		t.Errorf("text is in the terminal's own ink")
	}
	return look{m.style.Theme, c.Ground != ""}
}

// Every setting with every COLORFGBG, every remembered answer and every answer, at every depth: how the first frame looks, how
// it looks after the answer, and at the next start.
func TestTheGround(t *testing.T) {
	black, white, grey := groundMsg{}, groundMsg{R: 0xffff, G: 0xffff, B: 0xffff}, groundMsg{R: 0x7777, G: 0x7777, B: 0x7777}
	answers := map[string]*groundMsg{"nothing": nil, "black": &black, "white": &white, "grey": &grey}
	onAnswer := map[string]look{"black": {style.DarkTheme, false}, "white": {style.LightTheme, false}, "grey": {style.LightTheme, true}}
	unknown := look{style.LightTheme, true}
	numbers := map[string]look{
		"": unknown, "15;0": {style.DarkTheme, false}, "0;15": {style.LightTheme, false}, "0;default;15": {style.LightTheme, false}, "15;default;0": {style.DarkTheme, false},
		"7;8": {style.DarkTheme, true}, "0;9": {style.LightTheme, true}, "15;1": {style.DarkTheme, true}, "default;default": unknown, "15;default": unknown,
		"15;": unknown, ";": unknown, "15": unknown, "0;16": unknown, "0;-1": unknown, "0;+7": unknown, "0;07": unknown, "0; 15": unknown, "rubbish": unknown,
		"0;0xf": unknown, "0;99999999999999999999": unknown,
	}
	for theme, chosen := range map[string]*look{
		"auto": nil, "": nil, "dark": {style.DarkTheme, true}, "light": {style.LightTheme, true}, "sun": {style.SunTheme, true},
	} {
		for fgbg, numbered := range numbers {
			for remembered, before := range answers {
				for answered, answer := range answers {
					if !long.Runs() && numbered == unknown && fgbg != "" && remembered != "nothing" && answered != remembered { // as without numbers
						continue
					}
					for profile, env := range depths {
						for _, late := range []bool{false, true} {
							what := fmt.Sprintf("theme %q, COLORFGBG %q, remembered %s, answered %s, late %v, profile %d", theme, fgbg, remembered, answered, late, profile)
							want := func(known string) look {
								l, ok := onAnswer[known]
								switch {
								case chosen != nil:
									l = *chosen
								case !ok:
									l = numbered
								}
								if profile == style.NoColour { // nothing is painted, and the theme is no matter
									l = look{"", false}
								}
								return l
							}
							is := func(m model) look {
								l := lookOf(t, m)
								if profile == style.NoColour {
									l.theme = ""
								}
								return l
							}
							getenv := environment(append(env, "COLORFGBG="+fgbg)...)
							m := remembering(theme, getenv, before)
							if got := is(m); got != want(remembered) {
								t.Fatalf("%s: the first frame is %+v, not %+v", what, got, want(remembered))
							}
							if answer == nil {
								continue
							}
							a := *answer
							a.Late = late
							next, cmd := m.Update(a)
							m = next.(model)
							now := answered
							if late {
								now = remembered
							}
							if got := is(m); got != want(now) {
								t.Fatalf("%s: after the answer it is %+v, not %+v", what, got, want(now))
							}
							if cmd == nil {
								t.Fatalf("%s: the answer is not kept", what)
							}
						}
					}
				}
			}
		}
	}
}

// remembering is a start with what was answered before; nil: nothing.
func remembering(theme string, getenv func(string) string, before *groundMsg) model {
	m := startWith(theme, getenv, shelf.Grounds{})
	m.ground = before
	return m.restyled()
}

// An answer, in time or late, is what the next start in the same terminal begins with; another terminal does not know it.
func TestTheAnswerCountsFromTheNextStart(t *testing.T) {
	for _, late := range []bool{false, true} {
		memory := shelf.GroundsIn(t.TempDir())
		getenv := environment("TERM=xterm-256color", "COLORTERM=truecolor", "ITERM_PROFILE=night", "WINDOWID=1")
		m := startWith("auto", getenv, memory)
		if got := lookOf(t, m); got != (look{style.LightTheme, true}) {
			t.Errorf("an unknown terminal begins as %+v", got)
		}
		next, cmd := m.Update(groundMsg{Late: late})
		if msg := cmd(); msg != nil {
			t.Errorf("keeping it says %v", msg)
		}
		if got := lookOf(t, next.(model)); (got == look{style.DarkTheme, false}) == late {
			t.Errorf("late %v: then it is %+v", late, got)
		}
		again := environment("TERM=xterm-256color", "COLORTERM=truecolor", "ITERM_PROFILE=night", "WINDOWID=2")
		if got := lookOf(t, startWith("auto", again, memory)); got != (look{style.DarkTheme, false}) {
			t.Errorf("late %v: the next start is %+v", late, got)
		}
		for _, other := range []string{"ITERM_PROFILE=day", "ITERM_PROFILE=night TMUX=x", "ITERM_PROFILE=night SSH_TTY=x", "ITERM_PROFILE=night COLORFGBG=0;default"} {
			env := environment(append([]string{"TERM=xterm-256color", "COLORTERM=truecolor"}, strings.Fields(other)...)...)
			if got := lookOf(t, startWith("auto", env, memory)); got != (look{style.LightTheme, true}) {
				t.Errorf("late %v: %s begins as %+v", late, other, got)
			}
		}
	}
}

// A theme that is chosen while it runs paints its ground; back on auto what the terminal said counts again.
func TestChoosingAThemeAndBack(t *testing.T) {
	var m tea.Model = startWith("auto", environment("TERM=xterm-256color"), shelf.GroundsIn(t.TempDir()))
	m, _ = m.Update(groundMsg{})
	for _, c := range []struct {
		theme string
		want  look
	}{
		{"auto", look{style.DarkTheme, false}}, {"sun", look{style.SunTheme, true}}, {"dark", look{style.DarkTheme, true}}, {"auto", look{style.DarkTheme, false}},
	} {
		settings := m.(model).home.Settings
		settings.Theme = c.theme
		m, _ = m.Update(settingsMsg{settings: settings})
		if got := lookOf(t, m.(model)); got != c.want {
			t.Errorf("%s is %+v", c.theme, got)
		}
	}
	settings := m.(model).home.Settings
	settings.Theme = "light"
	m, _ = m.Update(settingsMsg{settings: settings})
	m, cmd := m.Update(groundMsg{R: 0xffff, G: 0xffff, B: 0xffff}) // an answer that was on its way
	if got := lookOf(t, m.(model)); cmd == nil || got != (look{style.LightTheme, true}) {
		t.Errorf("an answer changes a chosen theme to %+v", got)
	}
}

func TestWhenTheGroundIsAsked(t *testing.T) {
	for theme, want := range map[string]bool{"auto": true, "": true, "dark": false, "light": false, "sun": false} {
		for profile, env := range depths {
			if got := asksGround(theme, environment(env...)); got != (want && profile != style.NoColour) {
				t.Errorf("%q, %v: asked %v", theme, env, got)
			}
		}
	}
	if asksGround("auto", environment("TERM=dumb", "COLORTERM=truecolor")) {
		t.Error("a dumb terminal is asked")
	}
}

// In a terminal of which nothing is known every cell is painted, and every letter is read on what it stands on.
func TestTheFirstFrameIsPainted(t *testing.T) {
	for _, profile := range []style.Profile{style.TrueColour, style.Indexed, style.Ansi16} {
		for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}, {200, 60}, {20, 8}, {3, 2}} {
			for _, key := range []string{"", "?", "!", "s", "n"} {
				var m tea.Model = startWith("auto", environment(depths[profile]...), shelf.Grounds{})
				m, _ = m.Update(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
				if key != "" {
					m, _ = m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(key)})
				}
				painted(t, fmt.Sprintf("profile %d, %v, after %q", profile, size, key), m.View(), size[0], size[1])
			}
		}
	}
}

// painted fails where a screen does not fill its window with its own ground and ink, or has a letter that is hard to read.
func painted(t *testing.T, what, view string, width, height int) {
	t.Helper()
	lines := onOwnGround(t, what, view)
	if len(lines) != height {
		t.Errorf("%s: %d lines", what, len(lines))
	}
	for y, cells := range lines {
		if len(cells) != width {
			t.Errorf("%s: line %d has %d cells", what, y+1, len(cells))
		}
		for _, c := range cells {
			if (unicode.IsLetter(c.Glyph) || unicode.IsDigit(c.Glyph)) && screentest.Contrast(t, c.Ink, c.Ground) < 4.5 {
				t.Fatalf("%s: %q has %.2f:1 in line %d", what, c.Glyph, screentest.Contrast(t, c.Ink, c.Ground), y+1)
			}
		}
	}
}

// onOwnGround is the cells of a screen; it fails where one shows the terminal's own ground or ink.
func onOwnGround(t *testing.T, what, view string) [][]screentest.Cell {
	t.Helper()
	var lines [][]screentest.Cell
	for line := range strings.SplitSeq(view, "\n") {
		cells := screentest.Cells(t, line)
		for x, c := range cells {
			if c.Ground == "" || c.Ink == "" {
				t.Fatalf("%s: cell %d of line %d is not painted: %q", what, x+1, len(lines)+1, line)
			}
		}
		lines = append(lines, cells)
	}
	return lines
}

// Without colours there is no sequence at all, whatever the terminal says of its ground.
func TestWithoutColoursNothingIsPainted(t *testing.T) {
	for _, env := range [][]string{depths[style.NoColour], {"TERM=dumb"}, {"TERM=dumb", "COLORTERM=truecolor", "COLORFGBG=0;15"}} {
		var m tea.Model = startWith("auto", environment(env...), shelf.GroundsIn(t.TempDir()))
		for range 2 {
			if view := m.View(); strings.Contains(view, "\x1b") {
				t.Errorf("%v: %q", env, view)
			}
			m, _ = m.Update(groundMsg{})
		}
	}
}
