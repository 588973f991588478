package ui

import (
	"image/color"
	"testing"

	"example.org/vatside/testdata/bench/emulator"
)

// Ink is the share of a window's cells that show something: a screen of much less is small text in an empty window. It is a
// figure to compare by (go test ./ui -run InkOfScreens -v); a screen without any is a fault.
func TestInkOfScreens(t *testing.T) {
	t.Parallel()
	for _, f := range frames(t) {
		if f.Look != "chosen-dark/true" || f.Width < 120 {
			continue
		}
		s := emulator.New(f.Width, f.Height)
		show(s, f)
		ink := inkIn(s, f.Width, f.Height)
		t.Logf("%-30s %3d×%d  %4.1f %%", f.Place, f.Width, f.Height, 100*ink)
		if ink < 0.005 {
			t.Errorf("%s: nothing is shown", f.name())
		}
	}
}

// inkIn is the share of cells with a glyph, or with another ground than the commonest.
func inkIn(s *emulator.Screen, width, height int) float64 {
	grounds := map[color.Color]int{}
	for y := range height {
		for x := range width {
			grounds[s.Cell(x, y).Ground]++
		}
	}
	ground, most := color.Color(nil), 0
	for c, n := range grounds {
		if n > most {
			ground, most = c, n
		}
	}
	inked := 0
	for y := range height {
		for x := range width {
			if c := s.Cell(x, y).Seen(); c.Text != " " && c.Text != "" || c.Ground != ground || c.Attrs&emulator.Reverse != 0 {
				inked++
			}
		}
	}
	return float64(inked) / float64(width*height)
}
