package ui

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/ui/style"
)

// near are screens on which nothing is so large, each with its reason.
var near = map[string]string{
	"help, 80×24":      "a list of keys, read at the keys",
	"timetable, 80×24": "15 letters have 2.5 rows in 74 columns, 20.8 minutes of arc on a screen of 16:9; the running call stands over them",
}

// At 80×24 and 120×40 the call of every screen, or its figure, is 22 minutes of arc high at 3 m on screens of 14 inches, 16:9 and 16:10
// (the least that is read well, ISO 9241-303, from memory).
func TestCallOrFigureOfEveryScreenIsReadFromAfar(t *testing.T) {
	t.Parallel()
	st := style.New(style.Options{Theme: style.DarkTheme, Profile: style.TrueColour})
	for _, f := range frames(t) {
		if _, is := near[f.name()]; f.Look == "chosen-dark/true" && (f.Height == 24 || f.Height == 40) && !is {
			readFromAfar(t, f, st)
		}
	}
}

// readFromAfar fails where the largest letters of a screen in the inks of a style are not so high.
func readFromAfar(t *testing.T, f frame, st style.Style) {
	t.Helper()
	inked := func(ink style.Ink) color.Color {
		s := emulator.New(2, 1)
		_, _ = s.Write([]byte(ink.Render("█")))
		return s.Cell(0, 0).Ink
	}
	now, trouble := inked(st.Now), inked(st.Trouble)
	s := emulator.New(f.Width, f.Height)
	show(s, f)
	highest, high, plain := 0.0, 0.0, s.Cell(0, 0).Ink
	for y := range f.Height {
		up, down := false, false
		for x := range f.Width {
			if c := s.Cell(x, y); c.Ink == plain || c.Ink == now || c.Ink == trouble {
				up, down = up || strings.ContainsAny(c.Text, "█▀"), down || strings.ContainsAny(c.Text, "█▄")
			}
		}
		switch {
		case up && down:
			high++
		case up || down:
			high += 0.5
		default:
			high = 0
		}
		highest = max(highest, high)
	}
	for _, ratio := range [][2]float64{{16, 9}, {16, 10}} {
		screen := 14 * 25.4 * ratio[1] / math.Hypot(ratio[0], ratio[1])
		if at := math.Atan(highest*screen/float64(f.Height)/1000/3) * 180 / math.Pi * 60; at < 22 {
			t.Errorf("%s: %.1f′ at 3 m, %v", f.name(), at, ratio)
		}
	}
}

// In no window is anything cut within its words, but for the lines of the log, of which the chosen one stands whole under the list.
func TestNothingIsCutWithin(t *testing.T) {
	t.Parallel()
	for _, f := range frames(t) {
		if f.Look == "chosen-dark/true" && f.Place != "log" && strings.Contains(f.Text, "…") {
			t.Errorf("%s:\n%s", f.name(), f.Text)
		}
	}
}
