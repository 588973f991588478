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
	big, ok := largest(c.Big, placeIn(width, height).text, room, st.Glyphs)
	return big, ok && big.h >= leastLetters
}

// in are the rows of a call: its words whole, the vat's name as far as there is room, and the big letters.
func (c CallRow) in(width, height int, st style.Style) []row {
	if c.Words == "" {
		return nil
	}
	c.Vat, c.Words, c.Big = Drawable(c.Vat, st.Glyphs), Drawable(c.Words, st.Glyphs), Drawable(c.Big, st.Glyphs)
	p := placeIn(width, height)
	left := min(p.left, max(0, p.width-style.Width(c.Words)))
	words := c.Words
	if room := p.width - left - style.Width(words) - 2; c.Vat != "" && room > 1 {
		words = clip(c.Vat, room, st.Glyphs.Ellipsis) + ": " + words
	}
	ink := st.Calls.Runs
	switch c.Tone {
	case Now:
		ink = st.Calls.Now
	case Trouble:
		ink = st.Calls.Trouble
	}
	over := func(no int, text string) row {
		return row{pad(strings.Repeat(" ", left)+text, p.width), ink, callPart, no}
	}
	rows := []row{over(0, words)}
	if st.Profile == style.NoColour { // nothing else sets it apart from what it stands over
		rows[0] = over(0, words+" "+strings.Repeat("=", max(0, p.width-left-style.Width(words)-1)))
	}
	if big, ok := c.letters(width, height, st); ok {
		for i, l := range big.draw(st.Glyphs) {
			rows = append(rows, over(i+1, l))
		}
	}
	return rows
}
