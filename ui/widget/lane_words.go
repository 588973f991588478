package widget

import (
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// takes is which of the words of Likely fit into so many columns on each lane, from 1, and how wide they are; 0: none.
func (d *laneDrawing) takes(columns int) (which, wide int) {
	for i := range 2 {
		wide = 0
		for _, l := range d.Lanes.Lanes {
			if i < len(l.Likely) {
				wide = max(wide, style.Width(Drawable(l.Likely[i], d.st.Glyphs)))
			}
		}
		if wide > 0 && wide <= columns {
			return i + 1, wide
		}
	}
	return 0, 0
}

// says is how many dips a lane takes, as it is shown; "" where it is not.
func (d *laneDrawing) says(l Lane) string {
	if d.likely == 0 || d.likely > len(l.Likely) {
		return ""
	}
	return d.st.Dim.Render(Drawable(l.Likely[d.likely-1], d.st.Glyphs))
}

// letters are a tag or an end in large letters, with a row for the words under it.
func (d *laneDrawing) letters(text string, tall int) []string {
	high := tall - 2 - min(d.likely, 1)
	if strings.Contains(text, ":") { // lean letters of more would be thin
		high = min(high, tallestLarge)
	}
	return Big(Drawable(text, d.st.Glyphs), laneWide, high, d.st.Glyphs)
}

// words are what stands under a tag in large letters.
func (d *laneDrawing) words(l Lane) string {
	name := Drawable(strings.TrimSpace(l.Tag+" "+l.What), d.st.Glyphs)
	return wording.Joined(", ", clip(name, laneWide-6, d.st.Glyphs.Ellipsis), Drawable(l.Far, d.st.Glyphs))
}
