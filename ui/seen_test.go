package ui

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// grounds are those of the terminals of lookColumns that have their own.
var grounds = map[string]string{"dark": "#000000", "light": "#ffffff"}

// Every screen, in every window, theme and depth of colour: text has 4.5:1 on what is behind it and marks have 3:1 (blocks are
// areas of cloth and liquor, or letters in the inks that ui/style tests), also what is written in the colour of a cloth; and no row
// is longer than the window.
func TestWhatIsWrittenIsSeen(t *testing.T) {
	t.Parallel()
	known := map[string]string{} // of a row on a ground: what is wrong with it; most rows stand on many screens
	told := 0
	for _, f := range frames(t) {
		theme, depth, _ := strings.Cut(f.Look, "/")
		lines := strings.Split(f.Text, "\n")
		if len(lines) != f.Height {
			t.Errorf("%s, %s: %d rows", f.name(), f.Look, len(lines))
		}
		for y, line := range lines {
			key := theme + line
			wrong, is := known[key]
			if !is {
				if wrong = unseen(t, line, grounds[theme], depth != "none", theme == "ascii"); style.Width(line) > f.Width {
					wrong = fmt.Sprintf("%d columns", style.Width(line))
				}
				known[key] = wrong
			}
			if wrong != "" {
				if told++; told < 20 {
					t.Errorf("%s, %s, row %d: %s", f.name(), f.Look, y+1, wrong)
				}
			}
		}
	}
}

// unseen is what of a row does not stand out enough; empty where all does.
func unseen(t *testing.T, line, own string, coloured, ascii bool) string {
	if !coloured {
		return ""
	}
	for x, c := range screentest.Cells(t, line) {
		least := 4.5
		switch {
		case c.Glyph == ' ' || c.Glyph >= '▀' && c.Glyph <= '▟': // areas
			continue
		case strings.ContainsRune("■▣·", c.Glyph), ascii && !unicode.IsDigit(c.Glyph) && (c.Glyph == 'O' || !unicode.IsLetter(c.Glyph)): // there marks are characters
			least = 3
		}
		if c.Ground == "" {
			c.Ground = own
		}
		if c.Ink == "" || c.Ground == "" {
			continue // the terminal's own on its own
		}
		if got := screentest.Contrast(t, c.Ink, c.Ground); got < least {
			return fmt.Sprintf("%q in column %d has %.2f:1, %s on %s", c.Glyph, x+1, got, c.Ink, c.Ground)
		}
	}
	return ""
}

// Head and keys keep their rows on every screen: the first and the last of the window, but for what has none.
func TestHeadAndKeysKeepTheirRows(t *testing.T) {
	t.Parallel()
	for _, f := range frames(t) {
		if f.Look != "chosen-dark/none" {
			continue
		}
		s := emulator.New(f.Width, f.Height)
		show(s, f)
		lines := strings.Split(s.Text(), "\n")
		if f.Place == "first aid" { // it is itself
			continue
		}
		if last := lines[f.Height-1]; !strings.HasSuffix(strings.TrimRight(last, " "), "! first aid") {
			t.Errorf("%s: the last row is %q", f.name(), last)
		}
		if first := strings.TrimRight(lines[0], " "); !clockAtTheEnd(first) {
			t.Errorf("%s: the first row is %q", f.name(), first)
		}
	}
}

// clockAtTheEnd tells whether a row ends with a time of day.
func clockAtTheEnd(row string) bool {
	var h, m int
	fields := strings.Fields(row)
	if len(fields) == 0 {
		return false
	}
	n, err := fmt.Sscanf(fields[len(fields)-1], "%d:%d", &h, &m)
	return err == nil && n == 2
}
