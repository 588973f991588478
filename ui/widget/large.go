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
	for air := airOver; air >= 0 && best.high == 0; air-- { // in one column the half row that the lowest letters have is enough
		for across := 1; across <= 1+air; across++ {
			if of, fits := largeIn(choices, chosen >= 0, across, air, width, rows, st.Glyphs); fits && of.high > best.high {
				best = of
			}
		}
	}
	if best.high == 0 {
		return List{}, false
	}
	return best.draw(choices, chosen, st), true
}

// large is how a list is set.
type large struct {
	high, air, deep, wide, mark int // rows of the letters and over them, lines under one another, columns of one of them, and of its mark
	cuts                        []cut
}

// airOver is the rows between two lines; markWide the mark of the chosen one with its gap.
const airOver, markWide = 1, 4

func largeIn(choices []Choice, marked bool, across, air, width, rows int, g style.Glyphs) (of large, ok bool) {
	of.air, of.deep = air, (len(choices)+across-1)/max(across, 1)
	of.wide = (width - (across-1)*gutter) / across
	if marked {
		of.mark = markWide
	}
	if of.deep == 0 || rows < of.deep*(leastLetters+air)-air {
		return of, false
	}
	of.high = min((rows+air)/of.deep-air, tallestLarge)
	for high := -1; high != of.high; { // again in the height of the lowest, till all have it
		high = of.high
		of.cuts = of.cuts[:0]
		for _, c := range choices {
			cut, fits := fitting(capitals(Drawable(c.Text, g)), of.wide-of.mark-asideWide(c, g), high, g)
			if !fits || cut.h < leastLetters || c.Colour != nil {
				return of, false
			}
			of.cuts, of.high = append(of.cuts, cut), min(of.high, cut.h)
		}
	}
	return of, true
}

// beside is how many columns lie before what stands beside a line.
const beside = 3

func asideWide(c Choice, g style.Glyphs) int {
	if c.Aside == "" {
		return 0
	}
	return beside + style.Width(Drawable(c.Aside, g))
}

// longestUnit is how many letters a unit has behind a figure: g, kg, mL.
const longestUnit = 2

// capitals are the letters of a line, which are higher so. A key at its begin stays as it is, and so does a unit behind a figure.
func capitals(text string) string {
	words, figure := strings.Split(text, " "), false
	for i, w := range words {
		is := w != "" && w[0] >= '0' && w[0] <= '9'
		if !is && !(figure && len(w) <= longestUnit) && !(i == 0 && len(w) == 1) {
			words[i] = strings.ToUpper(w)
		}
		figure = is
	}
	return strings.Join(words, " ")
}

func (of large) draw(choices []Choice, chosen int, st style.Style) List {
	lines := make([]string, of.deep*(of.high+of.air)-of.air)
	var out List
	for i, c := range choices {
		x, y := i/of.deep*(of.wide+gutter), i%of.deep*(of.high+of.air)
		ink := st.Digits
		if chosen >= 0 && i != chosen {
			ink = st.Text
		}
		drawn := of.cuts[i].draw(st.Glyphs)
		for n := range of.high {
			line, mark := "", strings.Repeat(" ", of.mark)
			if u := n - (of.high - len(drawn)); u >= 0 {
				line = ink.Render(drawn[u])
			}
			if i == chosen && n == of.high-1 {
				mark = st.Now.Render(strings.Repeat(st.Glyphs.Full, 2)) + "  "
			}
			line = mark + line
			if n == of.high-1 && c.Aside != "" {
				line += strings.Repeat(" ", beside) + st.Dim.Render(Drawable(c.Aside, st.Glyphs))
			}
			lines[y+n] = style.Pad(lines[y+n], x) + line
			out.Spots = append(out.Spots, Spot{Line: y + n, From: x, To: x + of.wide, Row: i})
		}
		out.Large = append(out.Large, strings.TrimSpace(c.Text))
	}
	out.Lines = lines
	return out
}
