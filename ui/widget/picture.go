package widget

import (
	"slices"
	"strings"

	"example.org/vatside/ui/style"
)

// Picture is a sheet laid out in a window: what is drawn, and what lies under each cell of it.
type Picture struct {
	plan  *plan
	keys  []Key // of the sheet as it was given, not in the glyph set
	rows  []row // of the window, from its top
	cloth int   // how many of them are above the waterline
}

// row is one line of the window.
type row struct {
	text string    // above the waterline without the edge and the margin
	ink  style.Ink // of all of it; none if it carries its own
	part part
	no   int // which line of the part, from 0
}

// part is what a row belongs to.
type part int

const (
	air part = iota
	headPart
	callPart
	bannerPart
	actPart
	figurePart
	notePart
	howPart
	whyPart
	bodyPart
	cautionPart
	nextPart
	edgeName
	waterPart
	footPart
	keysPart
)

// Lay lays a sheet out in a window: exactly height lines, none wider than width.
func Lay(s Sheet, width, height int, st style.Style) Picture {
	call := s.Call.in(width, height, st)
	p := planFor(s, width, max(1, height-len(call)), st)
	above, below := p.above(), p.below()
	cloth := max(0, p.height-len(below))
	rows := make([]row, 0, p.height)
	rows = append(rows, above[:min(len(above), cloth)]...)
	for len(rows) < cloth {
		rows = append(rows, row{})
	}
	if p.name && cloth > 0 {
		rows[cloth-1] = row{part: edgeName}
	}
	rows = append(rows, below...)[:p.height]
	if len(call) > 0 {
		at := 0
		if p.head {
			at = 1
		}
		rows, cloth = slices.Insert(rows, at, call...)[:max(height, 1)], cloth+len(call)
	}
	return Picture{p, s.Keys, rows, cloth}
}

// Render draws a sheet in a window.
func Render(s Sheet, width, height int, st style.Style) string {
	return Lay(s, width, height, st).String()
}

func (pic Picture) String() string { return strings.Join(pic.Lines(), "\n") }

// Lines are the picture as it is shown on the terminal.
func (pic Picture) Lines() []string {
	lines, hem := make([]string, len(pic.rows)), pic.hem()
	for i := range lines {
		lines[i] = pic.line(i, hem)
	}
	return lines
}

// hem is what rows begin with, and the ground that they lie on.
type hem struct{ bare, edge, ground string }

func (pic Picture) hem() hem {
	p, st := pic.plan, pic.plan.st
	bare := st.Fill(p.sheet.Edge, p.edge)
	return hem{bare, bare + strings.Repeat(" ", p.left-p.edge), st.Ground("", 0)}
}

// line is a row as it is shown.
func (pic Picture) line(i int, hem hem) string {
	p, st, r := pic.plan, pic.plan.st, pic.rows[i]
	of := finishing{"", r.text, hem.ground, r.ink, p.width}
	switch {
	case i >= pic.cloth, r.part == callPart:
	case r.part == edgeName:
		of.before, of.text = hem.bare+" ", st.Dim.Render(clip(p.sheet.Edge.Name, p.width-p.edge-1, ""))
	case r.text != "":
		of.before = hem.edge
	default:
		of.before = hem.bare
	}
	return finished.Of(of, func(of finishing) string {
		return st.Ground(clip(inked(of.before+of.ink.Render(of.text)), of.width, ""), of.width)
	})
}

// finished are rows as they are written: most are the same as a second ago.
var finished style.Memory[finishing, string]

type finishing struct {
	before, text, ground string
	ink                  style.Ink
	width                int
}

// above is everything that hangs over the waterline.
func (p *plan) above() []row {
	rows := make([]row, 0, p.height)
	add := func(of part, ink style.Ink, lines []string) {
		for i, l := range lines {
			rows = append(rows, row{l, ink, of, i})
		}
	}
	air := func(slot int) { rows = append(rows, make([]row, p.air[slot])...) }

	if p.head {
		add(headPart, style.Ink{}, []string{p.headLine()})
	}
	add(bannerPart, p.st.Trouble, p.banner)
	air(underHead)
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
	for i := range p.body {
		rows = append(rows, row{p.bodyRow(i), style.Ink{}, bodyPart, i})
	}
	if !p.sheet.HowTop {
		air(underBody)
		words()
	}
	air(overCaution)
	add(cautionPart, p.st.Caution, p.caution)
	air(underCaution)
	add(nextPart, p.st.Dim, p.next)
	return rows
}

// bodyRow is a row of the body as it fits.
func (p *plan) bodyRow(i int) string { return clip(p.body[i], p.text, p.st.Glyphs.Ellipsis) }

// below is the waterline and what is under it.
func (p *plan) below() []row {
	var rows []row
	if p.water {
		rows = append(rows, row{p.waterRow(), style.Ink{}, waterPart, 0})
	}
	margin := strings.Repeat(" ", p.left)
	for i, f := range p.foot {
		rows = append(rows, row{margin + p.st.Text.Render(f), style.Ink{}, footPart, i})
	}
	rows = append(rows, make([]row, p.air[overKeys])...)
	if p.keys {
		rows = append(rows, row{margin + keyLine(p.sheet.Keys, p.text, p.st), style.Ink{}, keysPart, 0})
	}
	return rows
}

// waterRow begins with the edge's name where that had to be shown and found no row of its own.
func (p *plan) waterRow() string {
	name := p.sheet.Edge.Name
	if p.st.Coloured() || p.name || name == "" || style.Width(name)+1 > p.width/2 {
		return Waterline(p.width, p.sheet.Liquor, p.st)
	}
	return p.st.Dim.Render(name) + " " + Waterline(p.width-style.Width(name)-1, p.sheet.Liquor, p.st)
}
