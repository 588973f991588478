package widget

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	_ "example.org/vatside/testdata/long" // collects garbage less often
	"example.org/vatside/ui/style"
)

// Bars keep to their room and to their parts; what is nought has no bar, and no part is longer than the room.
func TestBars(t *testing.T) {
	st := style.New(style.Options{})
	bars := []Bar{{"soda ash", "500 g", 0.5, Plain}, {"dithionite", "0 g", 0, Trouble}, {"indigo", "all", 7, Now}}
	for _, width := range []int{1, 20, 40, 92} {
		for rows := range 30 {
			got := Bars(bars, width, rows, st)
			if len(got) > rows {
				t.Fatalf("%d rows in %d", len(got), rows)
			}
			for _, l := range got {
				if ansi.StringWidth(l) > width {
					t.Fatalf("%d wide: %q", width, l)
				}
			}
		}
	}
	text := Bars(bars, 40, 20, st)
	for at, want := range map[int]int{1: 20, 7: 0, 13: 40} {
		if got := strings.Count(text[at], "█"); got != want {
			t.Errorf("row %d has a bar of %d, not %d: %q", at, got, want, text)
		}
	}
}
