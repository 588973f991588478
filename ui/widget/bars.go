package widget

import (
	"math"
	"strings"

	"example.org/vatside/ui/style"
)

// Bar is an amount beside others.
type Bar struct {
	Name, Says string
	Part       float64 // of the longest, or of what it could be: 0 to 1
	Tone       Tone
}

// tallestBar is how many rows a bar is high at most, under the row of its words.
const tallestBar = 7

// Bars are thick bars, each under its name and its figure: as high as so many rows have room for, with air between. Those that have
// no room are left out.
func Bars(bars []Bar, width, rows int, st style.Style) []string {
	if len(bars) == 0 || width < 1 {
		return nil
	}
	high := min(max(rows/len(bars)-2, 1), tallestBar)
	var out []string
	for i, b := range bars {
		air := min(i, 1)
		if len(out)+air+1+high > rows {
			break
		}
		out = append(out, make([]string, air)...)
		name, says := Drawable(b.Name, st.Glyphs), Drawable(b.Says, st.Glyphs)
		gap := max(1, width-style.Width(name)-style.Width(says))
		out = append(out, clip(boldOf(b.Tone, st).Render(name)+strings.Repeat(" ", gap)+st.Text.Render(says), width, st.Glyphs.Ellipsis))
		ink := st.Dim
		if b.Tone != Plain {
			ink = inkOf(b.Tone, st)
		}
		long := int(math.Round(min(max(b.Part, 0), 1) * float64(width)))
		for range high {
			out = append(out, ink.Render(strings.Repeat(st.Glyphs.Full, long)))
		}
	}
	return out
}
