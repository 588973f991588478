package widget

import (
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// A list in large letters fits its room, has each row's letters on cells that are that row's, and is refused where letters would be too low.
func TestALargeListFitsItsRoom(t *testing.T) {
	st := style.New(style.Options{Profile: style.NoColour})
	list := []Choice{{Text: "1  eyes"}, {Text: "2  skin", Aside: "washed"}, {Text: "3  swallowed"}, {Text: "4  fire"}}
	mixed := []Choice{{Text: "dip a swatch", Aside: "overdue by 1 day"}, {Text: "top it up, 2 L", Aside: "due now"}, {Text: "do the evening round", Aside: "due now"}}
	large := 0
	for width := 20; width <= 200; width += 12 {
		for rows := 1; rows <= 50; rows += 3 {
			if of, ok := largeIn(mixed, false, 1, 1, width, rows, st.Glyphs); ok {
				for i, c := range of.cuts {
					if c.h != of.high {
						t.Fatalf("%d×%d: %q is %d rows high, and stands in %d", width, rows, mixed[i].Text, c.h, of.high)
					}
				}
			}
			l, ok := Large(list, 1, width, rows, st)
			if !ok {
				continue
			}
			large++
			if len(l.Lines) > rows || len(l.Large) != len(list) {
				t.Fatalf("%d×%d: %d rows, %q", width, rows, len(l.Lines), l.Large)
			}
			seen := map[int]bool{}
			for _, s := range l.Spots {
				if seen[s.Row] = true; s.To > width || s.Line >= rows {
					t.Fatalf("%d×%d: a spot at %+v", width, rows, s)
				}
			}
			for _, line := range l.Lines {
				if ansi.StringWidth(line) > width {
					t.Fatalf("%d×%d: %q", width, rows, line)
				}
			}
			if len(seen) != len(list) {
				t.Fatalf("%d×%d: only %v can be clicked", width, rows, seen)
			}
		}
	}
	if _, ok := Large(list, 1, 200, 6, st); ok || large < 30 {
		t.Errorf("large in %d rooms, and in six rows: %v", large, ok)
	}
}

// Between the letters of a call and the cloths under it a row stays free, in windows where sentences have to give way.
func TestLettersTouchNoPicture(t *testing.T) {
	st := style.New(style.Options{Profile: style.TrueColour})
	for _, size := range [][2]int{{60, 20}, {80, 24}, {120, 40}} {
		s := Sheet{Head: Head{Left: "bin", Right: "11:44"}, Act: "LOOK A1", ActBig: true, Next: "then: in A1", Keys: someKeys,
			How: []string{"1 stop: 4 dips", "No answer: as planned.", "Meanwhile: skim the froth aside.", "Hold it beside what is wished.", "Look: enough?"}}
		s.Body = Patches([]Patch{{Cloth: style.Cloth(0.5), Says: []string{"now, wet", "dark", "L* 34", "20 in 100"}}}, 50, size[1]*3/10, st).Lines
		rows := Lay(s, size[0], size[1], st).rows
		for y, r := range rows[1:] {
			if r.part == bodyPart && rows[y].part == actPart && rows[y].text != "" {
				t.Errorf("%v: the picture touches the letters", size)
			}
		}
	}
}

// A list in large letters keeps a key as it is pressed and a unit as it is written.
func TestCapitalsKeepKeysAndUnits(t *testing.T) {
	for text, want := range map[string]string{"t  strip": "t  STRIP", "T1 soda ash  1 kg": "T1 SODA ASH  1 kg", "1  eyes": "1  EYES", "1 eyes": "1 EYES", "420 g linen": "420 g LINEN", "child in the vat": "CHILD IN THE VAT"} {
		if got := capitals(text); got != want {
			t.Errorf("%q is %q, not %q", text, got, want)
		}
	}
}
