package widget

import (
	"strconv"
	"strings"

	"example.org/vatside/ui/style"
)

// plan is a sheet cut to a window: which parts stay, how many rows each has, how much air is between them.
type plan struct {
	place
	sheet Sheet
	st    style.Style

	head, keys               bool
	act, note, how, why      []string
	banner, next, foot, body []string
	bodyAt, howAt            []int // of each row of the body and the sentences: which line of the sheet's it is; -1: none
	caution                  []string
	actCut                   cut // the act in big letters
	actIsBig                 bool
	actSlot                  int // the rows that it has
	figure                   cut
	figureIsBig              bool
	figureRows               int
	inline                   string // the figure as text in the act's line, the last resort
	air                      [slots]int
}

// The places where there may be air, from top to bottom.
const (
	underHead = iota
	underAct
	underDigits
	underFigure
	underBody
	overCaution
	underCaution
	underPicture
	overFoot
	overKeys
	slots
)

// planFor decides. Nothing is dropped as long as everything has room; then, one after the other, the
// figure's size beyond its least, the wider air, why, next, keys, how, head, the foot. The act, its figure and the caution stay.
func planFor(s Sheet, width, height int, st style.Style) *plan {
	p := &plan{place: placeIn(width, height), sheet: s.twin(st.Glyphs), st: st}
	s = p.sheet
	if left, _, halved := Halves(p.width); s.Halved && halved {
		p.text, p.line = left, min(left, p.line)
	}
	p.head = s.Head.Left+s.Head.Right != ""
	p.keys = len(s.Keys) > 0
	p.act = Wrap(s.Act, p.line)
	p.banner, p.next = Wrap(s.Banner, p.line), Wrap(s.Next, p.line)
	p.why = balanced(s.Why, p.line)
	p.note = Wrap(s.Figure.Note, p.line-p.indent)
	for i, h := range s.How {
		for _, l := range balanced(h, p.line) {
			p.how, p.howAt = append(p.how, l), append(p.howAt, i)
		}
	}
	for _, f := range s.Foot {
		p.foot = append(p.foot, wrapFacts(f, p.whole, st.Glyphs.Dot)...)
	}
	for i, b := range s.Body {
		for _, l := range strings.Split(b, "\n") {
			p.body, p.bodyAt = append(p.body, l), append(p.bodyAt, i)
		}
	}
	p.caution = cautionLines(s.Caution, p.line, st.Profile != style.NoColour)
	p.leastFigure()
	p.leastAct()
	p.air = p.wholeAir()

	if p.rows() > p.height {
		for _, give := range p.giving() {
			if give(); p.rows() <= p.height {
				break
			}
		}
	}
	p.lastResort()
	p.spread()
	return p
}

// giving lists what is given up, in order.
func (p *plan) giving() []func() {
	return []func(){
		func() { p.actIsBig = p.actIsBig && p.sheet.ActBig },
		func() { p.air[overFoot] = 0 },
		func() { p.air[overKeys], p.air[underBody], p.air[underCaution] = 0, 0, 0 },
		func() { p.why = nil },
		func() {
			if p.actIsBig && p.figureRows == 0 && len(p.body) > 0 { // its letters touch no picture, and keep their row
				p.fewerSentences()
			}
		},
		func() { p.air[underHead], p.air[underPicture] = 0, 0 },
		func() { p.foot = p.foot[:min(1, len(p.foot))] },
		func() { p.air[underFigure], p.air[underDigits] = 0, 0 },
		p.fewerSentences,
		func() { p.trimBody(max(leastBody, p.height/4)) },
		func() { p.next = nil },
		func() { p.air[underAct], p.air[overCaution] = 0, 0 },
		func() { p.actIsBig = false },
		func() { p.keys = false },
		func() { p.how = nil },
		func() { p.head = false },
		func() { p.air = [slots]int{} },
		func() { p.trimBody(1) },
		func() { p.foot = nil },
		func() { p.note = nil },
		func() { p.body = nil },
		p.shrinkFigure,
	}
}

// rows is the height of the plan as it stands.
func (p *plan) rows() int {
	n := len(p.banner) + p.actRows() + p.figureRows + len(p.note) + len(p.body) + len(p.how) + len(p.why) +
		len(p.caution) + len(p.next) + len(p.foot)
	for _, on := range []bool{p.head, p.keys} {
		if on {
			n++
		}
	}
	for _, a := range p.air {
		n += a
	}
	return n
}

func (p *plan) actRows() int {
	if p.actIsBig {
		return max(p.actCut.h, p.actSlot)
	}
	return len(p.act)
}

// wholeAir is a row at every place that has something on both its sides.
func (p *plan) wholeAir() (air [slots]int) {
	top := p.head || len(p.banner) > 0
	act, figure, body := len(p.act) > 0, p.figureRows > 0, len(p.body) > 0
	words := len(p.how)+len(p.why) > 0
	for slot, on := range [slots]bool{
		underHead:    top,
		underAct:     act && figure,
		underDigits:  figure && len(p.note) > 0,
		underFigure:  (act || figure) && (body && !p.sheet.BodyTop || words),
		underBody:    body && words && !p.sheet.BodyTop,
		overCaution:  len(p.caution) > 0 || len(p.next) > 0,
		underCaution: len(p.caution) > 0 && len(p.next) > 0,
		underPicture: p.sheet.BodyTop && body && act,
		overFoot:     len(p.sheet.Foot) > 0 && len(p.next)+len(p.caution) == 0,
		overKeys:     p.keys,
	} {
		if on {
			air[slot] = 1
		}
	}
	return air
}

// figureWidth is the room for the number: its unit stands beside it.
func (p *plan) figureWidth() int {
	w := p.text - p.indent
	u := style.Width(p.sheet.Figure.Unit)
	switch {
	case u > 0 && p.height >= airyWindow: // in letters
		w -= min(u*w/7, w/4) + 2
	case u > 0:
		w -= u + 2
	}
	return w
}

// leastFigure gives the figure the smallest size that still does its work.
func (p *plan) leastFigure() {
	if p.sheet.Figure.Number == "" {
		return
	}
	least := min(leastFigure, max(1, p.height/4))
	if p.sheet.Big {
		least = (p.height + 3) / 4
	}
	p.figure, p.figureIsBig = smallest(countingWide(p.sheet.Figure.Number), p.figureWidth(), least, p.height, p.st.Glyphs)
	p.figureRows = 1
	if p.figureIsBig {
		p.figureRows = p.figure.h
	} else if style.Width(p.figureText()) > p.text {
		p.figureRows = len(Wrap(p.figureText(), p.text))
	}
}

func (p *plan) figureText() string {
	return strings.TrimSpace(p.sheet.Figure.Number + "\u00a0" + p.sheet.Figure.Unit)
}

// leastAct sets the act in large letters, if it fits: of as many rows as those of a stage, where it is asked for, or nothing else is to
// be read from afar and the window has rows enough; under a call in large letters a low window has them for the list. It has these
// rows whatever it says: what stands under it does not move.
func (p *plan) leastAct() {
	if p.sheet.Act == "" || p.sheet.Call.Big != "" && p.height < LowestYard || !p.sheet.ActBig && (p.height < LowestYard || p.sheet.Figure.Number != "" || p.sheet.Aside != "") {
		return
	}
	p.actSlot = letterRows(p.height)
	if p.st.Glyphs.ASCII { // its letters take twice the rows
		p.actSlot = max(p.actSlot, min(p.height/3, tall.height))
	}
	c, ok := counting(strings.ToUpper(p.sheet.Act), p.text, p.actSlot, p.st.Glyphs) // capitals are higher
	p.actCut, p.actIsBig = c, ok && c.h >= leastLetters && c.h > len(p.act) && (p.sheet.ActBig || c.font == &tall)
}

// shrinkFigure takes the figure down as far as the rows demand, to plain text in the end.
func (p *plan) shrinkFigure() {
	if !p.figureIsBig {
		return
	}
	room := p.figureRows - (p.rows() - p.height)
	if c, ok := largest(countingWide(p.sheet.Figure.Number), p.figureWidth(), max(room, 0), p.st.Glyphs); ok {
		p.figure, p.figureRows = c, c.h
		return
	}
	p.figureIsBig, p.figureRows = false, len(Wrap(p.figureText(), p.text))
}

// lastResort makes even a long caution fit the smallest window: the figure joins the act's line, the banner
// goes, the act is shortened. Only then is the caution cut, and never its first words or its key.
func (p *plan) lastResort() {
	dots := p.st.Glyphs.Ellipsis
	if p.rows() > p.height && p.figureRows > 0 && !p.figureIsBig && len(p.act) > 0 {
		p.inline, p.figureRows = clip(strings.ReplaceAll(p.figureText(), "\u00a0", " "), p.text/2, dots), 0
		p.act = []string{clip(p.sheet.Act, p.text-2-style.Width(p.inline), dots)}
	}
	if p.rows() > p.height {
		p.banner = nil
	}
	if over := p.rows() - p.height; over > 0 && len(p.act) > 1 {
		keep := max(1, len(p.act)-over)
		rest := strings.Join(p.act[keep-1:], " ")
		p.act = append(p.act[:keep-1:keep-1], clip(rest, p.text, dots))
	}
	if over, n := p.rows()-p.height, len(p.caution); over > 0 && n > over+1 {
		p.caution = shortened(p.caution, n-over, dots)
	}
}

// fewerSentences drops the last ones under a picture, or under a list beneath a large act, which is not cut for them; the first stays.
func (p *plan) fewerSentences() {
	first := p.sheet.BodyTop || p.sheet.ActBig && !p.sheet.HowTop
	for n := len(p.how); first && p.rows() > p.height && n > 1 && p.howAt[n-1] > 0; n = len(p.how) {
		p.how = p.how[:n-1]
		for n := len(p.how); p.howAt[n-1] == p.howAt[n]; n = len(p.how) {
			p.how = p.how[:n-1]
		}
	}
}

// trimBody keeps at most n rows of the body, the last of them saying how many more there are.
func (p *plan) trimBody(n int) {
	over := p.rows() - p.height
	n = max(n, len(p.body)-over)
	if n >= len(p.body) || n < 1 {
		return
	}
	if n == 1 {
		p.body = p.body[:1]
		return
	}
	more := strconv.Itoa(len(p.body)-n+1) + " more"
	p.body = append(p.body[:n-1:n-1], p.st.Dim.Render(more))
	p.bodyAt = append(p.bodyAt[:n-1:n-1], -1)
}
