package widget

import (
	"slices"
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// layStage lays out a sheet with a Stage.
func layStage(s Sheet, width, height int, st style.Style) Picture {
	at := anchorsOf(width, height, len(s.Stage.Cloths) > 0)
	if s.BodyTop {
		at.figureRows, at.words = 0, at.figure
	}
	p := &stage{a: at, plan: &plan{sheet: s.twin(st.Glyphs), st: st}, rows: make([]row, max(height, 1))}
	p.plan.place = place{width: max(width, 1), height: max(height, 1), left: at.left, text: at.text, line: at.text, whole: at.whole}
	p.stand()
	pic := Picture{plan: p.plan, stage: p, keys: s.Keys, rows: p.rows}
	if at.wide > 0 {
		pic.right, pic.spots = painted.of(*p.sheet.Stage, at, len(p.rows), st)
		pic.at = at.right
	}
	return pic
}

// stage is a sheet as its left side is laid out.
type stage struct {
	a anchors
	*plan
	rows []row
}

// put sets lines from a row on and gives the row behind them.
func (p *stage) put(at int, of part, ink style.Ink, lines []string) int {
	for i, l := range lines {
		if y := at + i; y >= 0 && y < len(p.rows) {
			p.rows[y] = row{l, ink, of, i}
		}
	}
	return at + len(lines)
}

// stand sets everything on its row.
func (p *stage) stand() {
	s := p.sheet
	p.plan.caution = cautionLines(s.Caution, p.line, p.st.Profile != style.NoColour)
	for i, b := range s.Body {
		for _, l := range strings.Split(b, "\n") {
			p.body, p.bodyAt = append(p.body, clip(l, p.line, p.st.Glyphs.Ellipsis)), append(p.bodyAt, i)
		}
	}
	if len(s.Foot) == 0 { // its rows are those of the words
		p.a.liquor, p.a.liquorRows = p.a.liquor+p.a.liquorRows, 0
	}
	p.yield()
	if p.a.head >= 0 {
		p.put(p.a.head, headPart, style.Ink{}, []string{headLine(s.Head, p.whole, p.st)})
	}
	if p.a.keys >= 0 {
		p.put(p.a.keys, keysPart, style.Ink{}, []string{keyLine(s.Keys, p.whole, p.st)})
	}
	for i := range min(p.a.liquorRows, len(s.Foot)) {
		ink := p.st.Text
		if i > 0 {
			ink = p.st.Dim
		}
		p.put(p.a.liquor+i, footPart, ink, []string{clip(s.Foot[i], p.a.text, p.st.Glyphs.Ellipsis)})
	}
	p.letters()
	copy(p.rows[min(p.a.figure, len(p.rows)):], p.figureLines())
	p.under()
}

// yield makes room for a caution, for what is typed and for what can be answered, which are never cut where anything else is left: the
// figure gives way, then the liquor, the letters, the head and the keys. Sentences have the rows of a figure that is not there.
func (p *stage) yield() {
	p.banner = Wrap(p.sheet.Banner, p.line)
	how := len(whole(p.sheet.How, p.line, len(p.rows)))
	over := func() int {
		at := p.bannerAt() + len(p.banner)
		return max(at, p.a.words) + len(p.plan.caution) + len(p.body) + how - p.a.liquor
	}
	gives := []func(by int){
		func(by int) { by = min(by, p.a.figureRows-1); p.a.figureRows -= by; p.a.words -= by },
		func(int) { p.a.liquor, p.a.liquorRows = p.a.liquor+p.a.liquorRows, 0 },
		func(by int) { by = min(by, p.a.callRows-1); p.a.callRows -= by; p.a.figure -= by; p.a.words -= by },
		func(int) { p.a.words -= p.a.call; p.a.figure -= p.a.call; p.a.call, p.a.head, p.a.over = 0, -1, -1 },
		func(int) { p.a.keys, p.a.liquor = -1, len(p.rows) },
		func(int) { p.a.figureRows, p.a.words = 0, p.a.call+p.a.callRows },
	}
	if by := over(); by > 0 && p.sheet.Figure.Number == "" && p.a.figureRows > 0 {
		gives[0](by)
	}
	if !p.sheet.HowWhole {
		how = 0
	}
	if len(p.plan.caution)+len(p.body)+how == 0 {
		return
	}
	for _, give := range gives {
		if by := over(); by > 0 {
			give(by)
		}
	}
	if by := over(); by > 0 {
		p.plan.caution = shortened(p.plan.caution, len(p.plan.caution)-by, p.st.Glyphs.Ellipsis)
	}
}

// bannerAt is the row of what is wrong: the one left free under the figure, if there is one.
func (p *stage) bannerAt() int {
	if first := p.a.words - 1; p.a.figureRows > 0 && first >= p.a.figure+p.a.figureRows {
		return first
	}
	return p.a.words
}

// callColumns are those of the letters: the line hangs beside them, and a vessel alone begins below.
func (p *stage) callColumns() int {
	if len(p.sheet.Stage.Cloths) > 0 {
		return p.a.text
	}
	return p.whole
}

// leastSeen is the part of a screen's height that letters need to be read at 3 m: 22 minutes of arc on a screen of 14 inches.
const leastSeen = 0.111

// letters sets the call. What is too long for its letters has its first word small over them.
func (p *stage) letters() {
	s, g, most := p.sheet, p.st.Glyphs, p.callColumns()
	p.stands(s.Aside, most)
	if p.called(most) {
		return
	}
	if s.Act == "" || p.a.callRows == 0 {
		return
	}
	act, ink := s.Act, boldOf(s.ActTone, p.st)
	if p.a.figureRows == 0 && s.Figure.Number != "" {
		figure := clip(strings.ReplaceAll(p.figureText(), "\u00a0", " "), most/2, g.Ellipsis)
		act = clip(act, most-2-style.Width(figure), g.Ellipsis) + "  " + figure
	} else if p.a.callRows >= leastLetters {
		high := p.a.callRows
		if s.Figure.Number == "" && p.a.figureRows > high && p.a.wide > 0 { // nothing else is to be read from afar
			high = max(high, p.a.figureRows)
			most = p.a.text
		}
		c, ok := fitting(act, most, high, g)
		if !ok || c.h < p.a.callRows {
			most = p.callColumns()
			c, ok = fitting(act, most, p.a.callRows, g)
		}
		if first, rest, two := strings.Cut(act, " "); (!ok || c.inked(g) < leastSeen*float64(len(p.rows))) && two && p.a.over >= 0 && s.Call.Words+s.Aside == "" {
			if shorter, fits := fitting(rest, most, p.a.callRows, g); fits && (!ok || shorter.inked(g) > c.inked(g)) {
				c, ok = shorter, true
				p.stands(first, most)
			}
		}
		if ok && c.h >= leastLetters {
			p.put(p.a.call, actPart, inkOf(s.ActTone, p.st), c.draw(g))
			return
		}
	}
	lines := Wrap(act, most)
	if len(lines) > p.a.callRows {
		lines = append(slices.Clone(lines[:p.a.callRows-1]), clip(strings.Join(lines[p.a.callRows-1:], " "), most, g.Ellipsis))
	}
	p.put(p.a.call, actPart, ink, lines)
}

// called sets another vat's last minute in the letters, and its time in the place of a figure; what this vat asks for is told in words.
func (p *stage) called(most int) bool {
	s, g, ink := p.sheet, p.st.Glyphs, p.sheet.Call.ink(p.st)
	words, own := Drawable(s.Call.Big, g), s.Act
	at := strings.LastIndexByte(words, ' ')
	digits, apart := counting(words[at+1:], most, p.a.figureRows, g)
	if apart = apart && at > 0 && s.Figure.Number != "" && p.a.figureRows >= leastLetters; apart {
		words, own = words[:at], s.Act+" "+strings.ReplaceAll(p.figureText(), "\u00a0", " ")
	}
	letters, ok := counting(words, most, p.a.callRows, g)
	if words == "" || p.a.callRows < leastLetters || !ok {
		return false
	}
	p.overhead(p.a.call, ink, letters.draw(g), most)
	if !apart {
		p.sheet.How = append([]string{own}, s.How...)
		return true
	}
	p.sheet.Figure = Figure{Note: wording.Joined(" ", own+".", s.Figure.Note)}
	p.overhead(p.a.figure, ink, digits.draw(g), most)
	return true
}

// overhead sets rows of another vat's call, from edge to edge, as its row over them.
func (p *stage) overhead(at int, ink style.Ink, rows []string, most int) {
	rows = slices.Clone(rows)
	for i := range rows {
		rows[i] = style.Pad(strings.Repeat(" ", p.a.left)+rows[i], p.a.left+most)
	}
	p.put(at, callPart, ink, rows)
}

// stands sets the row over the letters: another vat's call, else a small word.
func (p *stage) stands(word string, most int) {
	c := p.sheet.Call
	switch {
	case p.a.over < 0:
	case c.Words != "":
		p.put(p.a.over, callPart, c.ink(p.st), []string{c.line(p.a.left, most+p.a.left, p.st)})
	case word != "":
		p.put(p.a.over, asidePart, p.st.Act, []string{clip(word, most, p.st.Glyphs.Ellipsis)})
	}
}

// figureLines are the rows of the figure with its unit beside it, on its foot.
func (p *stage) figureLines() []row {
	f, g, most := p.sheet.Figure, p.st.Glyphs, p.a.text
	if f.Number == "" || p.a.figureRows == 0 {
		return nil
	}
	out := make([]row, 0, p.a.figureRows)
	unit := p.unit()
	c, ok := counting(f.Number, most-unit.wide, p.a.figureRows, g)
	if !ok || p.a.figureRows < 2 {
		lines := Wrap(p.figureText(), most)
		for i, l := range lines[:min(len(lines), p.a.figureRows)] {
			out = append(out, row{l, boldOf(f.Tone, p.st), figurePart, i})
		}
		return out
	}
	ink := inkOf(f.Tone, p.st)
	rows := c.draw(g)
	if unit.wide == 0 {
		unit = p.counts(most - style.Widest(rows))
	}
	for i, l := range rows {
		l = ink.Render(l)
		if u := i - (len(rows) - len(unit.rows)); u >= 0 && unit.wide > 0 {
			l += strings.Repeat(" ", p.unitAir()) + ink.Render(unit.rows[u])
		}
		out = append(out, row{l, style.Ink{}, figurePart, i})
	}
	return out
}

// leastUnited is of how many rows a figure has a unit in letters: of fewer they would be as high as the digits, and 90 g be 909.
const leastUnited = 7

// unitAir is how many columns lie between a figure and its unit: as many as between two digits.
func (p *stage) unitAir() int { return max(2, p.a.figureRows/4) }

// unitRows is a unit as it is drawn, with the gap before it.
type unitRows struct {
	rows []string
	wide int
}

// unit is the figure's unit in letters half as high as the figure; words behind it, such as MORE, on a row of letters under it, or
// plain where those have no room.
func (p *stage) unit() unitRows {
	unit, words, _ := strings.Cut(p.sheet.Figure.Unit, " ")
	if unit == "" {
		return unitRows{}
	}
	g, share := p.st.Glyphs, p.a.text*2/5
	most := p.a.figureRows/2 + 1
	if strings.ContainsAny(unit, "gjpqy") { // they reach below the line
		most = (p.a.figureRows*2 + 5) / 3
	}
	c, ok := fitting(unit, share, max(most, leastLetters), g)
	if !ok || p.a.figureRows < leastUnited || c.font == &low && strings.ToUpper(unit) != unit { // it keeps its case
		return unitRows{[]string{p.sheet.Figure.Unit}, p.unitAir() + style.Width(p.sheet.Figure.Unit)}
	}
	rows := c.draw(g)
	if words != "" {
		under, fits := fitting(words, share, p.a.figureRows-len(rows), g) // under it
		if fits && under.h >= leastLetters {
			rows = append(rows, under.draw(g)...)
		} else {
			rows = append(rows, words)
		}
	}
	wide := style.Widest(rows)
	for i := range rows {
		rows[i] = style.Pad(rows[i], wide)
	}
	return unitRows{rows, p.unitAir() + wide}
}

// counts is what the time of the figure counts, in letters half as high, or plain, in so many columns.
func (p *stage) counts(free int) unitRows {
	word, air := p.sheet.Figure.Counts, p.unitAir()
	if c, ok := fitting(word, free-air, p.a.figureRows/2+1, p.st.Glyphs); ok && word != "" && p.a.figureRows > leastUnited && c.h >= leastLetters {
		rows := c.draw(p.st.Glyphs)
		return unitRows{rows, air + style.Widest(rows)}
	}
	if word == "" || air+style.Width(word) > free {
		return unitRows{}
	}
	return unitRows{[]string{word}, air + style.Width(word)}
}

// under sets what stands between the figure and the liquor: what is wrong on the row that is left free, the caution, then the words
// in the order of their need.
func (p *stage) under() {
	s, at, wide := p.sheet, p.a.words, p.line
	end := p.a.liquor
	if end-at > 2 && p.a.liquorRows > 0 {
		end-- // a row of air
	}
	if n := len(p.banner); n > 0 {
		at = p.bannerAt()
		kept := len(p.plan.caution) + len(p.body)
		if s.HowWhole {
			kept += len(whole(s.How, wide, len(p.rows)))
		}
		n = min(n, max(0, p.a.liquor-at-kept))
		at = p.put(at, bannerPart, p.st.Trouble, p.banner[:n])
		at = max(at, p.a.words)
	}
	at = p.put(at, cautionPart, p.st.Caution, p.plan.caution)
	if len(p.plan.caution) > 0 && end-at > 4 {
		at++
	}
	p.body = p.body[:min(len(p.body), max(0, p.a.liquor-at))]
	at = p.put(at, bodyPart, style.Ink{}, p.body)
	if s.BodyTop && end-at > airyBody {
		at++
	}
	p.note, p.how, p.next, p.why = Wrap(s.Figure.Note, wide), whole(s.How, wide, len(p.rows)), Wrap(s.Next, wide), balanced(s.Why, wide)
	over := func() bool { return rowsOf(p.note, p.how, p.next, p.why) > end-at }
	if over() {
		p.why = nil
	}
	if over() {
		end = p.a.liquor
	}
	hows := s.How
	for over() && len(hows) > 2 && len(p.next) > 0 {
		hows = hows[:len(hows)-1]
		p.how = whole(hows, wide, len(p.rows))
	}
	if over() {
		p.note = Wrap(fitParts(s.Figure.Note, wide*max(0, end-at), " "+p.st.Glyphs.Dot+" ", false), wide)
		p.note = p.note[:min(len(p.note), max(0, end-at))]
		p.how = whole(hows, wide, end-at-len(p.note))
		if over() {
			p.next = nil
		}
	}
	free := end - at - rowsOf(p.note, p.how, p.next, p.why)
	at = p.put(at, notePart, p.st.Text, p.note)
	at = p.put(at, howPart, p.st.Text, p.how)
	if free > 1 && len(p.next) > 0 && end-p.a.words > 5 {
		at++
	}
	at = p.put(at, nextPart, p.st.Dim, p.next)
	p.put(at, whyPart, p.st.Dim, p.why)
}

// whole are sentences in at most so many rows, each to its end, or to a semicolon, which stays: what is not whole does not look it.
func whole(texts []string, wide, rows int) (lines []string) {
	for _, text := range texts {
		l := balanced(text, wide)
		for len(l) > max(0, rows-len(lines)) {
			text = strings.TrimRight(text, ".;?! ")
			end := 0
			for _, mark := range []string{". ", "; ", "? ", "! "} {
				end = max(end, strings.LastIndex(text, mark)+1)
			}
			text = text[:end]
			l = balanced(text, wide)
		}
		lines = append(lines, l...)
	}
	return lines
}

func rowsOf(of ...[]string) int { return wording.Sum(of, func(rows []string) int { return len(rows) }) }

// airyBody is of how many free rows one stands under a body in the figure's place.
const airyBody = 6
