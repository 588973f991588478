package widget

import (
	"slices"
	"strings"

	"example.org/vatside/ui/style"
)

// Picture is a sheet laid out in a window: what is drawn, and what lies under each cell of it.
type Picture struct {
	plan  *plan
	stage *stage      // of a sheet with a Stage
	keys  []Key       // of the sheet as it was given, not in the glyph set
	rows  []row       // of the window, from its top
	right []string    // of a stage: what stands at the right of each row, from a column on
	at    int         // that column
	spots []clothSpot // what can be clicked there, counted from it
}

// Lay lays a sheet out in a window: exactly height lines, none wider than width.
func Lay(s Sheet, width, height int, st style.Style) Picture {
	if s.Stage != nil {
		return layStage(s, width, height, st)
	}
	call := s.Call.in(width, height, st)
	p := planFor(s, width, max(1, height-len(call)), st)
	above, below := p.above(), p.below()
	free := max(0, p.height-len(below))
	rows := make([]row, free, p.height+len(call))
	copy(rows, above)
	rows = append(rows, below...)[:p.height]
	if len(call) > 0 {
		at := 0
		if p.head {
			at = 1
		}
		rows = slices.Insert(rows, at, call...)[:max(height, 1)]
	}
	pic := Picture{plan: p, keys: s.Keys, rows: rows}
	if _, right, halved := Halves(width); p.sheet.Halved && halved {
		pic.beside(p.sheet.Side, right)
	}
	return pic
}

// bodyColumns is how wide the body is: a picture over the act goes over both halves.
func (p *plan) bodyColumns() int {
	if p.sheet.BodyTop {
		return p.whole
	}
	return p.text
}

// beside sets lines in the right half, from the first row of the content, or from the act under a picture, down to the foot.
func (pic *Picture) beside(lines []string, columns int) {
	p := pic.plan
	pic.right, pic.at = make([]string, len(pic.rows)), p.left+p.text+gutter
	at := slices.IndexFunc(pic.rows, func(r row) bool {
		return r.text != "" && r.part > bannerPart && !(p.sheet.BodyTop && r.part == bodyPart)
	})
	for i := 0; at >= 0 && i < len(lines) && at+i < len(pic.rows); i++ {
		switch pic.rows[at+i].part {
		case footPart, keysPart:
			return
		}
		pic.right[at+i] = clip(lines[i], columns, p.st.Glyphs.Ellipsis)
	}
}

// Render draws a sheet in a window.
func Render(s Sheet, width, height int, st style.Style) string {
	return Lay(s, width, height, st).String()
}

func (pic Picture) String() string { return strings.Join(pic.Lines(), "\n") }

// Rows are the first rows of the call, its figure, the liquor in words and the keys; -1 for what is not there.
func (pic Picture) Rows() (call, figure, liquor, keys int) {
	first := func(of part) int {
		return slices.IndexFunc(pic.rows, func(r row) bool { return r.part == of && r.text != "" })
	}
	return first(actPart), first(figurePart), first(footPart), first(keysPart)
}

// Text is what is said on it in words and figures, row by row: all but the line and the vessel of a stage.
func (pic Picture) Text() string {
	if pic.plan.sheet.Stage != nil {
		pic.right = nil
	}
	return pic.String()
}

// Lines are the picture as it is shown on the terminal.
func (pic Picture) Lines() []string {
	lines := make([]string, len(pic.rows))
	for i := range lines {
		lines[i] = pic.line(i)
	}
	return lines
}

// line is a row as it is shown.
func (pic Picture) line(i int) string {
	p, st, r := pic.plan, pic.plan.st, pic.rows[i]
	line := r.ink.Render(r.text)
	if r.text != "" && r.part != callPart {
		line = strings.Repeat(" ", p.left) + line
	}
	if pic.right != nil && pic.right[i] != "" {
		line = style.Pad(line, pic.at) + pic.right[i]
	}
	return st.Ground(clip(inked(line), p.width, ""), p.width)
}

// above is everything over the foot.
func (p *plan) above() []row {
	rows := make([]row, 0, p.height)
	add := func(of part, ink style.Ink, lines []string) {
		for i, l := range lines {
			rows = append(rows, row{l, ink, of, i})
		}
	}
	air := func(slot int) { rows = append(rows, make([]row, p.air[slot])...) }

	if p.head {
		add(headPart, style.Ink{}, []string{headLine(p.sheet.Head, p.whole, p.st)})
	}
	add(bannerPart, p.st.Trouble, p.banner)
	air(underHead)
	body := func() {
		for i := range p.body {
			rows = append(rows, row{p.bodyRow(i), style.Ink{}, bodyPart, i})
		}
	}
	if p.sheet.BodyTop {
		body()
		air(underPicture)
	}
	rows = append(rows, p.actPicture()...)
	air(underAct)
	add(figurePart, style.Ink{}, p.figurePicture())
	air(underDigits)
	for i, n := range p.note {
		rows = append(rows, row{strings.Repeat(" ", p.indent) + p.st.Text.Render(n), style.Ink{}, notePart, i})
	}
	air(underFigure)
	words := func() { add(howPart, p.st.Text, p.how); add(whyPart, p.st.Dim, p.why) }
	if p.sheet.HowTop {
		words()
		air(underBody)
	}
	if !p.sheet.BodyTop {
		body()
	}
	if !p.sheet.HowTop {
		air(underBody)
		words()
	}
	air(overCaution)
	add(cautionPart, p.st.Caution, p.caution)
	air(underCaution)
	add(nextPart, p.st.Dim, p.next)
	air(overFoot)
	return rows
}

// bodyRow is a row of the body as it fits.
func (p *plan) bodyRow(i int) string { return clip(p.body[i], p.bodyColumns(), p.st.Glyphs.Ellipsis) }

// below is the foot and the keys.
func (p *plan) below() []row {
	var rows []row
	for i, f := range p.foot {
		rows = append(rows, row{f, p.st.Text, footPart, i})
	}
	rows = append(rows, make([]row, p.air[overKeys])...)
	if p.keys {
		rows = append(rows, row{keyLine(p.sheet.Keys, p.whole, p.st), style.Ink{}, keysPart, 0})
	}
	return rows
}
