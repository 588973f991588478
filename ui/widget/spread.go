package widget

import "example.org/vatside/ui/style"

// spread gives the rows that are left: to the figure first, and in a clock to what the hands do, then to
// the air between the parts, so that a tall window is calm and not glued to its top.
func (p *plan) spread() {
	p.refill()
	if p.sheet.HowTop && p.air[underHead] > 0 && p.air[underBody] == 0 && len(p.body) > 0 && len(p.how)+len(p.why) > 0 {
		p.air[underHead], p.air[underBody] = p.air[underHead]-1, 1 // the head is dim enough; sentence and table are not
	}
	p.growFigure()
	left := p.height - p.rows()
	if left <= 0 {
		return
	}
	// What stands under the head keeps its row, whatever comes below it; the rest goes over the foot.
	for _, slot := range []int{underHead, underAct, underFigure, underBody, underCaution, underPicture} {
		if n := min(p.height/tallWindow, left); p.air[slot] > 0 {
			p.air[slot] += n
			left -= n
		}
	}
	p.air[overFoot] += left
}

// refill gives air back that was given up for a part which then was dropped all the same.
func (p *plan) refill() {
	wish := p.wholeAir()
	for _, slot := range []int{underAct, overCaution, underHead, overFoot, underFigure, underDigits, underCaution, underBody, underPicture, overKeys} {
		if p.air[slot] < wish[slot] && p.rows() < p.height {
			p.air[slot]++
		}
	}
}

func (p *plan) growFigure() {
	if !p.figureIsBig {
		return
	}
	calm := 4 * (p.height / tallWindow) // the air that a tall window keeps even from the largest digits
	most := max(p.figureRows, p.figureRows+p.height-p.rows()-calm)
	if !p.sheet.Big {
		most = min(most, max(p.figureRows, p.height/tallestFigure))
	}
	if c, ok := largest(countingWide(p.sheet.Figure.Number), p.figureWidth(), most, p.st.Glyphs); ok && c.h >= p.figureRows {
		p.figure, p.figureRows = c, c.h
	}
}

// Room is how many columns and rows a sheet's body can have in a window without any part being dropped for
// it: for lists that scroll. A sheet without keys is reckoned with one, since the root adds them.
func Room(s Sheet, width, height int, st style.Style) (columns, rows int) {
	if s.Stage != nil && s.BodyTop {
		return roomOnStage(s, width, height) // a call stands over its letters
	}
	s.Body = []string{""}
	if len(s.Keys) == 0 {
		s.Keys = []Key{{Key: "?", Desc: "keys"}}
	}
	p := planFor(s, width, max(1, height-s.Call.Rows(width, height, st)), st)
	// What the plan spread as air is free, but for one row at each place.
	free, kept := 0, p.wholeAir()
	for slot, n := range p.air {
		free += n - min(n, kept[slot])
	}
	if p.actIsBig && !s.ActBig { // its letters are given up first
		free += p.actRows() - len(p.act)
	}
	return p.bodyColumns(), 1 + free
}

// roomOnStage is the room of a body that stands in the figure's place.
func roomOnStage(s Sheet, width, height int) (columns, rows int) {
	a := anchorsOf(width, height, len(s.Stage.Cloths) > 0)
	rows = a.liquor - a.figure - 1 - len(Wrap(s.Next, a.text)) - len(balanced(s.Why, a.text))
	for _, h := range s.How {
		rows -= len(balanced(h, a.text))
	}
	return a.text, rows - len(cautionLines(s.Caution, a.text, true))
}
