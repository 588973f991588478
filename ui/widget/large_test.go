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
	large := 0
	for width := 20; width <= 200; width += 12 {
		for rows := 1; rows <= 50; rows += 3 {
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
