package widget

import (
	"strings"

	"example.org/vatside/ui/style"
)

// headLine is the first line: where this is at the left, when at the right.
func headLine(of Head, width int, st style.Style) string {
	left, right := of.Left, of.Right
	dot := " " + st.Glyphs.Dot + " "
	room := func(other string) int { return width - style.Width(other) - 3 }
	if right != "" {
		left = fitParts(left, room(right), dot, false)
	}
	if left != "" {
		right = fitParts(right, room(left), dot, true)
	}
	right = clip(right, width, st.Glyphs.Ellipsis)
	if style.Width(left) > room(right) {
		left = clip(left, max(0, room(right)), st.Glyphs.Ellipsis)
	}
	return st.Dim.Render(style.Pad(left, width-style.Width(right)) + right)
}

func (p *plan) actPicture() []row {
	lines, ink := p.act, boldOf(p.sheet.ActTone, p.st)
	if p.actIsBig {
		lines, ink = p.actCut.draw(p.st.Glyphs), inkOf(p.sheet.ActTone, p.st)
	}
	rows := make([]row, len(lines))
	for i, l := range lines {
		rows[i] = row{l, ink, actPart, i}
	}
	if p.inline != "" {
		return []row{{ink.Render(lines[0]) + "  " + boldOf(p.sheet.Figure.Tone, p.st).Render(p.inline), style.Ink{}, actPart, 0}}
	}
	aside := p.sheet.Aside
	if last := len(rows) - 1; last >= 0 && aside != "" {
		w := style.Width(lines[last])
		aside = fitParts(aside, p.text-w-4, " "+p.st.Glyphs.Dot+" ", true)
		if w+4+style.Width(aside) <= p.text {
			rows[last].text, rows[last].ink = ink.Render(lines[last])+"    "+p.st.Dim.Render(aside), style.Ink{}
		}
	}
	for p.actIsBig && len(rows) < p.actRows() {
		rows = append(rows, row{part: actPart, no: len(rows)})
	}
	return rows
}

// figurePicture is the number with its unit beside it, on the number's own line.
func (p *plan) figurePicture() []string {
	f := p.sheet.Figure
	if f.Number == "" || p.inline != "" {
		return nil
	}
	ink := inkOf(f.Tone, p.st)
	if !p.figureIsBig {
		return boldOf(f.Tone, p.st).Lines(Wrap(p.figureText(), p.text))
	}
	p.figure.text = f.Number
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
	for c := range cuts(unit, &tall, room, p.figureRows/2, usual, p.st.Glyphs) {
		if (c.py > 1 || p.figureRows >= leastUnit) && c.h >= best.h { // strokes of one pixel are lost beside the figure's
			best, ok = c, true
		}
	}
	if ok {
		return best.draw(p.st.Glyphs)
	}
	return []string{clip(unit, max(room, 0), "")}
}

func inkOf(t Tone, st style.Style) style.Ink {
	switch t {
	case Now:
		return st.Now
	case Trouble:
		return st.Trouble
	}
	return st.Digits
}

// boldOf is the same in bold letters.
func boldOf(t Tone, st style.Style) style.Ink {
	if t == Plain {
		return st.Act
	}
	return inkOf(t, st)
}
