package widget

import (
	"strings"

	"example.org/vatside/ui/style"
)

// PieceRow is one piece in the clock's table of blues.
type PieceRow struct {
	Tag, What string
	Ladder    string // as Ladder draws it
	Says      string // "airing, ready in 2:30"
	Now       bool   // the hands are wanted here
}

// Pieces draws the table: who, how far, and what it is about. In a narrow room the goods' names go first,
// then the words.
func Pieces(rows []PieceRow, width int, st style.Style) []string {
	name := func(r PieceRow, full bool) string {
		if full {
			return Drawable(strings.TrimSpace(r.Tag+" "+r.What), st.Glyphs)
		}
		return Drawable(r.Tag, st.Glyphs)
	}
	measure := func(full bool) (names, ladders, says int) {
		for _, r := range rows {
			names = max(names, style.Width(name(r, full)))
			ladders = max(ladders, style.Width(r.Ladder))
			says = max(says, style.Width(Drawable(r.Says, st.Glyphs)))
		}
		return names, ladders, says
	}
	full, gap := true, 5
	names, ladders, says := measure(full)
	if names+ladders+says+2*gap > width {
		gap = 2
	}
	if names+ladders+says+2*gap > width {
		full = false
		names, ladders, says = measure(full)
	}
	words := names+ladders+2*gap+says <= width || width-names-ladders-2*gap >= leastSentence

	out := make([]string, len(rows))
	for i, r := range rows {
		ink := st.Text
		if r.Now {
			ink = st.Now
		}
		line := ink.Render(pad(name(r, full), names)) + strings.Repeat(" ", gap) + r.Ladder
		if words && r.Says != "" {
			line = pad(line, names+gap+ladders) + strings.Repeat(" ", gap) + ink.Render(Drawable(r.Says, st.Glyphs))
		}
		out[i] = clip(line, width, st.Glyphs.Ellipsis)
	}
	return out
}
