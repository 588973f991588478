package widget

import (
	"slices"
	"strings"
	"sync"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// Frames draws one sheet after the other in a window. Most of them are the one before with other running times: then only the rows
// of these are drawn anew.
type Frames struct {
	mu    sync.Mutex
	sheet Sheet // the last one
	pic   Picture
	lines []string // nil: none, or it failed
	of    framing
}

// framing is what a sheet is laid out in.
type framing struct {
	width, height int
	st            style.Style
}

// Draw gives the lines of a sheet as they are shown on the terminal: those of Lay.
func (f *Frames) Draw(s Sheet, width, height int, st style.Style) []string {
	f.mu.Lock()
	defer f.mu.Unlock()
	of, lines := framing{width, height, st}, f.lines
	f.lines = nil
	if lines == nil || f.of != of || !f.runOn(s, lines) {
		f.pic, f.of = Lay(s, width, height, st), of
		lines = f.pic.Lines()
	}
	f.sheet, f.lines = s, lines
	return slices.Clone(lines)
}

// runOn puts a sheet that differs from the last one in its running times alone onto the lines of that; false where it may not be laid
// out as that one is.
func (f *Frames) runOn(s Sheet, lines []string) bool {
	p, was := f.pic.plan, &f.sheet
	number := s.Figure.Number != was.Figure.Number
	if f.pic.stage != nil {
		return alike(s, *was) && s.Call == was.Call && slices.Equal(s.Body, was.Body) && digitless(s.Figure.Number) == digitless(was.Figure.Number) &&
			f.stageRunsOn(s, lines)
	}
	if !alike(s, *was) || number && (!p.figureIsBig || digitless(s.Figure.Number) != digitless(was.Figure.Number)) {
		return false
	}
	for i, b := range s.Body {
		if b != was.Body[i] && strings.Contains(b+was.Body[i], "\n") {
			return false
		}
	}
	call := f.pic.rowsOf(callPart)
	if s.Call != was.Call {
		if rows := s.Call.in(f.of.width, f.of.height, f.of.st); len(rows) == len(call) {
			call = rows
		} else {
			return false
		}
	}
	var digits []string
	if number {
		p.sheet.Figure.Number = Drawable(s.Figure.Number, p.st.Glyphs)
		p.figure.text = p.sheet.Figure.Number
		digits = p.figurePicture()
	}
	for i, r := range f.pic.rows {
		switch {
		case r.part == callPart:
			r = call[r.no]
		case r.part == figurePart && number:
			r.text = digits[r.no]
		case r.part == bodyPart && p.bodyAt[r.no] >= 0:
			if at := p.bodyAt[r.no]; s.Body[at] != was.Body[at] {
				p.body[r.no] = bodyLine(s.Body[at], p.st.Glyphs)
				r.text = p.bodyRow(r.no)
			}
		}
		if r != f.pic.rows[i] {
			f.pic.rows[i] = r
			lines[i] = f.pic.line(i)
		}
	}
	return true
}

// stageRunsOn is runOn for a stage: its figure, its line and its vessel.
func (f *Frames) stageRunsOn(s Sheet, lines []string) bool {
	p := f.pic.stage
	p.sheet.Figure.Number, p.sheet.Stage = Drawable(s.Figure.Number, p.st.Glyphs), s.Stage
	digits := p.figureLines()
	stands := len(f.pic.rowsOf(figurePart))
	if len(digits) != stands || len(digits) == 0 && s.Figure.Number != "" { // it stands in the row of the call
		return false
	}
	was := f.pic.right
	if was != nil {
		f.pic.right, f.pic.spots = painted.of(*s.Stage, p.a, len(p.rows), p.st)
	}
	for i, r := range f.pic.rows {
		if r.part == figurePart && r.text != digits[r.no].text {
			r = digits[r.no]
		} else if was == nil || was[i] == f.pic.right[i] {
			continue
		}
		f.pic.rows[i] = r
		lines[i] = f.pic.line(i)
	}
	return true
}

// alike tells whether two sheets differ in their running times at the most: in the call over them, the figure's number, and lines
// of the body. Those of a stage are laid out anew.
func alike(a, b Sheet) bool {
	a.Figure.Number = b.Figure.Number
	return len(a.Body) == len(b.Body) && a.Head == b.Head && a.Banner == b.Banner && a.Act == b.Act && a.Aside == b.Aside && a.ActBig == b.ActBig &&
		a.ActTone == b.ActTone && a.Figure == b.Figure && a.Big == b.Big && slices.Equal(a.Spots, b.Spots) && slices.Equal(a.How, b.How) &&
		a.HowTop == b.HowTop && a.HowWhole == b.HowWhole && a.Why == b.Why && (a.Caution == b.Caution || a.Caution != nil && b.Caution != nil && *a.Caution == *b.Caution) &&
		a.Next == b.Next && slices.Equal(a.Foot, b.Foot) && slices.Equal(a.Keys, b.Keys) &&
		slices.Equal(a.Answers, b.Answers) && a.Stage.hangs() == b.Stage.hangs() && a.BodyTop == b.BodyTop && a.Halved == b.Halved &&
		slices.Equal(a.Side, b.Side)
}

// digitless is a text with one digit for all of them: all digits have one width.
func digitless(text string) string {
	return strings.Map(func(r rune) rune {
		if '0' <= r && r <= '9' {
			return '0'
		}
		return r
	}, text)
}

func (pic Picture) rowsOf(of part) []row {
	return wording.Only(pic.rows, func(r row) bool { return r.part == of })
}
