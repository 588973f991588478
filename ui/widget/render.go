package widget

import (
	"strconv"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// Render lays a sheet out in a window: exactly height lines, none wider than width.
func Render(s Sheet, width, height int, st style.Style) string {
	p := planFor(s, width, height, st)
	above := p.above()
	below := p.below()
	cloth := max(0, p.height-len(below))
	above = above[:min(len(above), cloth)]

	lines := make([]string, 0, p.height)
	edge := st.Fill(p.sheet.Edge, p.edge) + strings.Repeat(" ", p.left-p.edge)
	bare := st.Fill(p.sheet.Edge, p.edge)
	for i := range cloth {
		switch {
		case p.name && i == cloth-1:
			lines = append(lines, bare+" "+st.Dim.Render(clip(p.sheet.Edge.Name, p.width-p.edge-1, "")))
		case i < len(above) && above[i] != "":
			lines = append(lines, edge+above[i])
		default:
			lines = append(lines, bare)
		}
	}
	lines = append(lines, below...)
	for i := range lines {
		lines[i] = st.Ground(clip(inked(lines[i]), p.width, ""), p.width)
	}
	return strings.Join(lines[:p.height], "\n")
}

// above is everything that hangs over the waterline.
func (p *plan) above() []string {
	var rows []string
	add := func(ink lipgloss.Style, lines []string) {
		for _, l := range lines {
			rows = append(rows, ink.Render(l))
		}
	}
	air := func(slot int) { rows = append(rows, make([]string, p.air[slot])...) }

	if p.head {
		rows = append(rows, p.headLine())
	}
	add(p.st.Trouble, p.banner)
	air(underHead)
	rows = append(rows, p.actPicture()...)
	air(underAct)
	rows = append(rows, p.figurePicture()...)
	air(underDigits)
	for _, n := range p.note {
		rows = append(rows, strings.Repeat(" ", p.indent)+p.st.Text.Render(n))
	}
	air(underFigure)
	words := func() { add(p.st.Text, p.how); add(p.st.Dim, p.why) }
	if p.sheet.HowTop {
		words()
		air(underBody)
	}
	for _, b := range p.body {
		rows = append(rows, clip(b, p.text, p.st.Glyphs.Ellipsis))
	}
	if !p.sheet.HowTop {
		air(underBody)
		words()
	}
	air(overCaution)
	add(p.st.Caution, p.caution)
	air(underCaution)
	add(p.st.Dim, p.next)
	return rows
}

// below is the waterline and what is under it.
func (p *plan) below() []string {
	var rows []string
	if p.water {
		rows = append(rows, p.waterRow())
	}
	margin := strings.Repeat(" ", p.left)
	for _, f := range p.foot {
		rows = append(rows, margin+p.st.Text.Render(f))
	}
	rows = append(rows, make([]string, p.air[overKeys])...)
	if p.keys {
		rows = append(rows, margin+keyLine(p.sheet.Keys, p.text, p.st))
	}
	return rows
}

// waterRow begins with the edge's name where that had to be shown and found no row of its own.
func (p *plan) waterRow() string {
	name := p.sheet.Edge.Name
	if p.st.Coloured() || p.name || name == "" || ansi.StringWidth(name)+1 > p.width/2 {
		return Waterline(p.width, p.sheet.Liquor, p.st)
	}
	return p.st.Dim.Render(name) + " " + Waterline(p.width-ansi.StringWidth(name)-1, p.sheet.Liquor, p.st)
}

func (p *plan) headLine() string {
	left, right := p.sheet.Head.Left, p.sheet.Head.Right
	dot := " " + p.st.Glyphs.Dot + " "
	room := func(other string) int { return p.text - ansi.StringWidth(other) - 3 }
	if right != "" {
		left = fitParts(left, room(right), dot, false)
	}
	if left != "" {
		right = fitParts(right, room(left), dot, true)
	}
	right = clip(right, p.text, p.st.Glyphs.Ellipsis)
	if ansi.StringWidth(left) > room(right) {
		left = clip(left, max(0, room(right)), p.st.Glyphs.Ellipsis)
	}
	return p.st.Dim.Render(pad(left, p.text-ansi.StringWidth(right)) + right)
}

func (p *plan) actPicture() []string {
	var rows []string
	if p.actIsBig {
		for _, l := range p.actCut.draw(p.st.Glyphs) {
			rows = append(rows, inkOf(p.sheet.ActTone, p.st).Render(l))
		}
	} else {
		for _, l := range p.act {
			rows = append(rows, p.st.Bold(inkOf(p.sheet.ActTone, p.st)).Render(l))
		}
	}
	if p.inline != "" {
		return []string{rows[0] + "  " + p.st.Bold(inkOf(p.sheet.Figure.Tone, p.st)).Render(p.inline)}
	}
	aside := p.sheet.Aside
	if last := len(rows) - 1; last >= 0 && aside != "" {
		w := ansi.StringWidth(rows[last])
		aside = fitParts(aside, p.text-w-4, " "+p.st.Glyphs.Dot+" ", true)
		if w+4+ansi.StringWidth(aside) <= p.text {
			rows[last] += "    " + p.st.Dim.Render(aside)
		}
	}
	return rows
}

func (p *plan) actLines() []string { return wrap(p.sheet.Act, p.line) }

// figurePicture is the number with its unit beside it, on the number's own line.
func (p *plan) figurePicture() []string {
	f := p.sheet.Figure
	if f.Number == "" || p.inline != "" {
		return nil
	}
	ink := inkOf(f.Tone, p.st)
	if !p.figureIsBig {
		var rows []string
		for _, l := range wrap(p.figureText(), p.text) {
			rows = append(rows, p.st.Bold(ink).Render(l))
		}
		return rows
	}
	rows := p.figure.draw(p.st.Glyphs)
	unit := p.unitPicture()
	margin := strings.Repeat(" ", p.indent)
	for i, l := range rows {
		rows[i] = margin + ink.Render(l)
		if u := i - (len(rows) - len(unit)); u >= 0 && unit[u] != "" {
			rows[i] += strings.Repeat(" ", p.unitGap()) + ink.Render(unit[u])
		}
	}
	return rows
}

func (p *plan) unitGap() int { return max(2, p.figure.px) }

// unitPicture is the unit as plain text, or in letters up to half as high as the figure.
func (p *plan) unitPicture() []string {
	unit := p.sheet.Figure.Unit
	if unit == "" {
		return nil
	}
	room := p.text - p.indent - p.figure.w - p.unitGap()
	best, ok := cut{}, false
	for _, c := range cuts(unit, tall, room, p.figureRows/2, usual, p.st.Glyphs) {
		if (c.py > 1 || p.figureRows >= leastUnit) && c.h >= best.h { // strokes of one pixel are lost beside the figure's
			best, ok = c, true
		}
	}
	if ok {
		return best.draw(p.st.Glyphs)
	}
	return []string{clip(unit, max(room, 0), "")}
}

// inkOf is the ink of a tone.
func inkOf(t Tone, st style.Style) lipgloss.Style {
	switch t {
	case Now:
		return st.Now
	case Trouble:
		return st.Trouble
	}
	return st.Digits
}

func itoa(n int) string { return strconv.Itoa(n) }
