package widget

import (
	"strings"

	"example.org/vatside/ui/style"
)

// Rows that a call in big letters has beside its row: as long as so many are left for what it stands over.
const (
	leastUnder   = 20
	tallestShare = 6 // one in so many rows of the window
)

// Rows is how many rows a call takes in a window.
func (c CallRow) Rows(width, height int, st style.Style) int {
	if c.Words == "" {
		return 0
	}
	n := 1
	if big, ok := c.letters(width, height, st); ok {
		n += big.h
	}
	return n
}

// letters are its big letters; false where there is no room for them.
func (c CallRow) letters(width, height int, st style.Style) (cut, bool) {
	room := min(height/tallestShare, height-1-leastUnder)
	if c.Big == "" || room < leastLetters {
		return cut{}, false
	}
	big, ok := largest(countingWide(c.Big), placeIn(width, height).text, room, st.Glyphs)
	big.text = c.Big
	return big, ok && big.h >= leastLetters
}

// in are the rows of a call: its row, and the big letters.
func (c CallRow) in(width, height int, st style.Style) []row {
	if c.Words == "" {
		return nil
	}
	p, ink := placeIn(width, height), c.ink(st)
	rows := []row{{c.line(p.left, p.width, st), ink, callPart, 0}}
	c.Big = Drawable(c.Big, st.Glyphs)
	if big, ok := c.letters(width, height, st); ok {
		for i, l := range big.draw(st.Glyphs) {
			rows = append(rows, row{style.Pad(strings.Repeat(" ", p.left)+l, p.width), ink, callPart, i + 1})
		}
	}
	return rows
}

// line is the row of a call: its words whole, the vat's name as far as there is room.
func (c CallRow) line(left, width int, st style.Style) string {
	words := Drawable(c.Words, st.Glyphs)
	left = min(left, max(0, width-style.Width(words)))
	if room := width - left - style.Width(words) - 2; c.Vat != "" && room > 1 {
		words = clip(Drawable(c.Vat, st.Glyphs), room, st.Glyphs.Ellipsis) + ": " + words
	}
	if st.Profile == style.NoColour { // nothing else sets it apart from what it stands over
		words += " " + strings.Repeat("=", max(0, width-left-style.Width(words)-1))
	}
	return style.Pad(strings.Repeat(" ", left)+words, width)
}

func (c CallRow) ink(st style.Style) style.Ink {
	switch c.Tone {
	case Now:
		return st.Calls.Now
	case Trouble:
		return st.Calls.Trouble
	}
	return st.Calls.Runs
}
