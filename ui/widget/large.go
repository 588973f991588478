package widget

import (
	"strings"

	"example.org/vatside/ui/style"
)

// tallestLarge is how many rows the letters of a list have at most.
const tallestLarge = 7

// Large draws a list in large letters, all of one height, in one column or in two, each line with what stands beside it on the foot of
// its letters. It fills no more than the rows; ok is false where they, or the columns, are too few for it. chosen -1: none is.
func Large(choices []Choice, chosen, width, rows int, st style.Style) (l List, ok bool) {
	var best large
	for across := 1; across <= 2; across++ {
		if of, fits := largeIn(choices, across, width, rows, st.Glyphs); fits && of.high > best.high {
			best = of
		}
	}
	if best.high == 0 {
		return List{}, false
	}
	return best.draw(choices, chosen, st), true
}

// large is how a list is set.
type large struct {
	high, deep, wide int // rows of the letters, lines under one another, columns of one of them
	cuts             []cut
}

// airOver is the row between two lines; markWide the mark of the chosen one with its gap.
const airOver, markWide = 1, 4

func largeIn(choices []Choice, across, width, rows int, g style.Glyphs) (of large, ok bool) {
	of.deep = (len(choices) + across - 1) / max(across, 1)
	of.wide = (width - (across-1)*gutter) / across
	if of.deep == 0 || rows < of.deep*(leastLetters+airOver)-airOver {
		return of, false
	}
	of.high = min((rows+airOver)/of.deep-airOver, tallestLarge)
	for try := 0; try < 2; try++ { // the second time in the height of the lowest
		of.cuts = of.cuts[:0]
		for _, c := range choices {
			text := strings.ToUpper(Drawable(c.Text, g))
			cut, fits := fitting(text, of.wide-markWide, of.high, g)
			if !fits || cut.h < leastLetters || c.Colour != nil {
				return of, false
			}
			of.cuts, of.high = append(of.cuts, cut), min(of.high, cut.h)
		}
	}
	return of, true
}

func (of large) draw(choices []Choice, chosen int, st style.Style) List {
	lines := make([]string, of.deep*(of.high+airOver)-airOver)
	var out List
	for i, c := range choices {
		x, y := i/of.deep*(of.wide+gutter), i%of.deep*(of.high+airOver)
		ink := st.Digits
		if chosen >= 0 && i != chosen {
			ink = st.Text
		}
		drawn := of.cuts[i].draw(st.Glyphs)
		for n := range of.high {
			line, mark := "", strings.Repeat(" ", markWide)
			if u := n - (of.high - len(drawn)); u >= 0 {
				line = ink.Render(drawn[u])
			}
			if i == chosen && n == of.high-1 {
				mark = st.Now.Render(strings.Repeat(st.Glyphs.Full, 2)) + "  "
			}
			if chosen < 0 {
				mark = ""
			}
			line = mark + line
			if free := of.wide - style.Width(line) - 3; n == of.high-1 && c.Aside != "" && free > 5 {
				line += "   " + st.Dim.Render(clip(Drawable(c.Aside, st.Glyphs), free, st.Glyphs.Ellipsis))
			}
			lines[y+n] = pad(lines[y+n], x) + line
			out.Spots = append(out.Spots, Spot{Line: y + n, From: x, To: x + of.wide, Row: i})
		}
		out.Large = append(out.Large, strings.TrimSpace(c.Text))
	}
	out.Lines = lines
	return out
}
