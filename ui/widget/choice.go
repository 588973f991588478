package widget

import (
	"slices"
	"strconv"
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// Pick draws a list with one line chosen: marked and bold. It scrolls to keep the chosen line in sight and
// says how many there are above and below.
func Pick(choices []Choice, chosen, width, rows int, st style.Style) List {
	if len(choices) == 0 || rows < 1 || width < 1 {
		return List{}
	}
	chosen = min(max(chosen, 0), len(choices)-1)
	from, to := window(len(choices), chosen, rows)
	return listed(choices, from, to, chosen, width, rows, rows > 2, st)
}

// listed draws a part of a list, with how many there are above and below where they are counted.
func listed(choices []Choice, from, to, chosen, width, rows int, counted bool, st style.Style) (out List) {
	patch := patchOf(choices, width)
	column := columnOf(choices, width-patch, st.Glyphs)
	if from > 0 && counted {
		out.Lines = append(out.Lines, st.Dim.Render(clip("  "+strconv.Itoa(from)+" above", width, "")))
	}
	for i := from; i < to; i++ {
		out.Spots = append(out.Spots, Spot{Line: len(out.Lines), Row: i})
		out.Lines = append(out.Lines, choices[i].line(i == chosen, column, patch, width, st))
		out.space(choices, i, width, rows, st)
	}
	if to < len(choices) && counted {
		out.Lines = append(out.Lines, st.Dim.Render(clip("  "+strconv.Itoa(len(choices)-to)+" below", width, "")))
	}
	return out
}

// Listed draws lines of which each has its own key: none is chosen. They are in large letters where all have room in them; those that
// find no room at all are counted.
func Listed(choices []Choice, width, rows int, st style.Style) List {
	if rows < 1 || width < 1 {
		return List{}
	}
	if large, ok := Large(choices, -1, width, rows, st); ok {
		return large
	}
	show := len(choices)
	if show > rows {
		show = rows - 1
	}
	return listed(choices, 0, show, -1, width, rows, true, st)
}

// Columns of a patch of colour beside a choice.
const leastPatch, mostPatch = 4, 30

// patchOf is how many columns the patches of a list take with the gap behind them; 0 where it has none.
func patchOf(choices []Choice, width int) int {
	if width <= 4*leastPatch || !slices.ContainsFunc(choices, func(c Choice) bool { return c.Colour != nil }) {
		return 0
	}
	return min(width/4, mostPatch) + 1
}

// columnOf is how wide the texts of a list are before the column of what stands beside them: of the longest one with which every
// shorter one has room for that. 0 where nothing stands beside any: a log of a whole day is such a list.
func columnOf(choices []Choice, width int, g style.Glyphs) int {
	if !slices.ContainsFunc(choices, func(c Choice) bool { return c.Aside != "" }) {
		return 0
	}
	type wide struct{ text, aside int }
	all := wording.Each(choices, func(c Choice) wide { return wide{style.Width(Drawable(c.Text, g)), style.Width(Drawable(c.Aside, g))} })
	column := 0
	for _, of := range all {
		if of.text > column && !slices.ContainsFunc(all, func(w wide) bool { return w.text <= of.text && 2+of.text+3+w.aside > width }) {
			column = of.text
		}
	}
	return column
}

// airyList is from how many rows on a list that fits twice has air between its lines.
const airyList = 14

// space puts a blank row behind line i of n, but for the last, where so many rows have room for it.
func (l *List) space(choices []Choice, i, width, rows int, st style.Style) {
	n := len(choices)
	if i == n-1 || rows < airyList || 2*n-1 > rows {
		return
	}
	line := ""
	if c, patch := choices[i], patchOf(choices, width); c.Colour != nil && patch > 0 { // patches hang together
		line = st.Fill(*c.Colour, patch-1)
	}
	l.Lines = append(l.Lines, line)
}

// window chooses what part of n lines is shown in so many rows, leaving rows for the counts.
func window(n, chosen, rows int) (from, to int) {
	if n <= rows {
		return 0, n
	}
	if rows <= 2 {
		from = min(chosen, n-rows)
		return from, from + rows
	}
	switch inner := rows - 2; {
	case chosen < rows-1:
		return 0, rows - 1
	case chosen >= n-(rows-1):
		return n - (rows - 1), n
	default:
		from = chosen - inner/2
		return from, from + inner
	}
}

func (c Choice) line(chosen bool, column, patch, width int, st style.Style) string {
	g := st.Glyphs
	mark, ink := "  ", st.Text
	if chosen {
		mark, ink = st.Now.Render(g.Done)+" ", st.Act
	}
	if patch > 0 {
		before := strings.Repeat(" ", patch-1)
		if c.Colour != nil {
			before = st.Fill(*c.Colour, patch-1)
		}
		return before + " " + c.line(chosen, column, 0, width-patch, st)
	}
	text, aside := Drawable(c.Text, g), Drawable(c.Aside, g)
	if aside == "" {
		return clip(mark, width, "") + ink.Render(clip(text, max(0, width-2), g.Ellipsis))
	}
	if style.Width(text) <= column && 2+column+3+style.Width(aside) <= width {
		return mark + ink.Render(style.Pad(text, column)) + "   " + st.Dim.Render(aside)
	}
	if free := width - 2 - style.Width(text) - 3; free >= 6 {
		return mark + ink.Render(text) + strings.Repeat(" ", 3) + st.Dim.Render(clip(fitParts(aside, free, ", ", false), free, g.Ellipsis)) // whole facts
	}
	return clip(mark, width, "") + ink.Render(clip(text, max(0, width-2), g.Ellipsis))
}
