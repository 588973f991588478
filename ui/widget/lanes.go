package widget

import (
	"cmp"
	"strings"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/style"
)

// Lanes is a day of pieces: each hangs on its own line, and time runs from left to right.
type Lanes struct {
	From, To, Now time.Time
	Zone          *time.Location // UTC if nil
	Lanes         []Lane
	Rests         []Period // rests and breaks: blank columns, each named once
	Fars, Ends    string   // what the words at the left and at the right count, such as "dips" and "done"
}

// Lane is the line of one piece.
type Lane struct {
	Tag, What string
	Far       string   // how far it is, "2 of 5"
	Likely    []string // how many dips it takes, in words, then in fewer: under its tag where there is room
	Dips      []LaneDip
	Airs      []Period // thin dots
	Ends      string   // "12:09"
	Now       bool     // the hands are wanted here
}

// LaneDip is a stretch in the vat, in the blue that the piece has after it.
type LaneDip struct {
	From, To time.Time
	Cloth    style.Shade
	In       bool // it is in now
}

// Period is a stretch of time in which nothing is dipped, with its name: a rest or a break.
type Period struct {
	From, To time.Time
	Name     string
}

// Measures of the lanes.
const (
	laneGap   = 2  // columns between the parts of a lane
	laneCloth = 36 // columns that the times keep before the goods are named and the dips counted
	laneTall  = 14 // rows of a lane at most, the blank one in it
	laneWide  = 28 // columns of a tag or a time in large letters at most
	laneLarge = 6  // rows of a lane from which on they are large
	laneName  = 22 // columns of a name at most
	laneDot   = 2  // columns from one dot of an airing to the next
)

// DrawLanes draws the lanes, an hour line under them and, where there are rests, their names over them: at most height
// rows, as many of the lanes as fit (LanesFit), each as tall as there is room for.
func DrawLanes(l Lanes, width, height int, st style.Style) []string {
	if width < 1 || height < 1 || len(l.Lanes) == 0 {
		return nil
	}
	d := laneDrawing{Lanes: l, st: st}
	shown := l.Lanes[:min(len(l.Lanes), max(LanesFit(l, height), 1))]
	tall := min(max((height-rowsBeside(l))/len(shown), 1), laneTall)
	d.prepare(width, tall)
	d.Lanes.Lanes = shown
	var out []string
	if len(l.Rests) > 0 && height > 2 {
		out = append(out, d.names())
	}
	for _, lane := range d.Lanes.Lanes {
		out = append(out, d.lane(lane, tall)...)
	}
	if tall > 1 && len(out) > 1 {
		out = out[:len(out)-1] // the hours stand under the last cloth
	}
	if height > 1 {
		out = append(out, clip(d.hourLine(), width, ""))
	}
	return out[:min(len(out), height)]
}

// LanesFit is how many lanes have room in so many rows.
func LanesFit(l Lanes, height int) int { return max(height-rowsBeside(l), 0) }

// rowsBeside are those of the hours and of the rests' names.
func rowsBeside(l Lanes) int {
	if len(l.Rests) > 0 {
		return 2
	}
	return 1
}

// laneDrawing is a day of lanes cut to a window.
type laneDrawing struct {
	Lanes
	st               style.Style
	name, far, cells int
	end              int
	large            bool // tags and ends in large letters
	full             bool
	blank            []bool // columns of the rests
	likely           int    // which of the words of Likely are shown, from 1; 0: none
}

// prepare shares the columns out. The count of the dips goes first where there are few of them, then the goods' names.
func (d *laneDrawing) prepare(width, tall int) {
	d.Zone = cmp.Or(d.Zone, time.UTC)
	if d.To.Sub(d.From) < time.Minute {
		d.To = d.From.Add(time.Hour)
	}
	d.end = style.Width(d.Ends)
	tags, names, far := 0, 0, 0
	for _, l := range d.Lanes.Lanes {
		tags = max(tags, style.Width(Drawable(l.Tag, d.st.Glyphs)))
		names = max(names, style.Width(Drawable(strings.TrimSpace(l.Tag+" "+l.What), d.st.Glyphs)))
		if l.Far != "" {
			far = max(far, style.Width(Drawable(l.Far, d.st.Glyphs)), style.Width(Drawable(d.Fars, d.st.Glyphs)))
		}
		d.end = max(d.end, style.Width(Drawable(l.Ends, d.st.Glyphs)))
	}
	tags, names = min(tags, laneName), min(names, laneName)
	d.likely = 0
	if d.large = tall >= laneLarge && width >= 4*laneWide; d.large {
		if words, _ := d.takes(width / 4); tall > laneLarge {
			d.likely = words
		}
		for _, l := range d.Lanes.Lanes {
			tag, end := d.letters(l.Tag, tall), d.letters(l.Ends, tall)
			d.large = d.large && len(tag) >= leastLetters && (len(end) >= leastLetters || l.Ends == "")
			names = max(names, style.Widest(tag), style.Width(d.words(l)))
			d.end = max(d.end, style.Widest(end))
		}
		if d.large = d.large && names <= laneWide && d.end <= laneWide; d.large {
			_, wide := d.takes(width / 4)
			far, names = 0, max(names, wide)
		} else {
			d.prepare(width, laneLarge-1)
			return
		}
	}
	right := 0
	if d.end > 0 {
		right = d.end + laneGap
	}
	d.name, d.far, d.full = names, far, true
	room := func() int {
		left := width - d.name - laneGap - right
		if d.far > 0 {
			left -= d.far + laneGap
		}
		return left
	}
	if room() < laneCloth {
		d.far = 0
	}
	if room() < laneCloth {
		d.name, d.full = tags, false
	}
	if d.full && tall > 2 && !d.large {
		for _, most := range []int{d.left() - laneGap + max(0, room()-2*laneCloth), d.left() - laneGap} {
			if words, wide := d.takes(most); words > 0 {
				d.likely = words
				d.name += max(0, wide-(d.left()-laneGap))
				break
			}
		}
	}
	d.cells = max(room(), 1)
	d.blank = make([]bool, d.cells)
	for _, s := range d.Rests {
		from, to := d.columns(s.From, s.To)
		for x := from; x < to; x++ {
			d.blank[x] = true
		}
	}
}

// beside are what stands at the left and at the right of each of so many rows of a lane, in large letters.
func (d *laneDrawing) beside(l Lane, cloth int, ink style.Ink) (left, right []string) {
	left, right = make([]string, cloth), make([]string, cloth)
	tag, end := d.letters(l.Tag, cloth+1), d.letters(l.Ends, cloth+1)
	from := (cloth - len(tag) - 1) / 2
	for i, t := range tag {
		left[from+i] = ink.Render(t)
	}
	left[from+len(tag)] = d.st.Dim.Render(d.words(l))
	if under := from + len(tag) + 1; under < cloth {
		left[under] = d.says(l)
	}
	for i, t := range end {
		right[from+i] = strings.Repeat(" ", max(0, d.end-style.Widest(end))) + ink.Render(t)
	}
	return left, right
}

// left are the columns before the first cell.
func (d *laneDrawing) left() int {
	n := d.name + laneGap
	if d.far > 0 {
		n += d.far + laneGap
	}
	return n
}

// columns are the cells of a stretch of time: at least one where it meets the window, none outside.
func (d *laneDrawing) columns(from, to time.Time) (x, end int) {
	if to.Before(d.From) || from.After(d.To) {
		return 0, 0
	}
	at := func(t time.Time) int {
		return int(t.Sub(d.From).Seconds() / d.To.Sub(d.From).Seconds() * float64(d.cells))
	}
	x = min(max(at(from), 0), d.cells-1)
	return x, min(max(at(to), x+1), d.cells)
}

// lane is one piece in tall rows, the last of more than one blank.
func (d *laneDrawing) lane(l Lane, tall int) []string {
	cloth := max(1, tall-1)
	kind := make([]int, d.cells) // 0 nothing, -1 airing, else the dip from 1 on
	for _, a := range l.Airs {
		if a.To.After(d.From) {
			from, to := d.columns(a.From, a.To)
			for x := from; x < to; x++ {
				kind[x] = -1
			}
		}
	}
	for x := range kind {
		if d.blank[x] {
			kind[x] = 0
		}
	}
	before := 0 // end of the dip before
	for i, dip := range l.Dips {
		from, to := d.columns(dip.From, dip.To)
		if to <= from {
			continue
		}
		if before == from && from > 1 && kind[from-1] > 0 && kind[from-2] == kind[from-1] {
			kind[from-1] = 0 // two dips never run into one
		}
		for x := from; x < to; x++ {
			kind[x] = i + 1
		}
		before = to
	}
	ink := d.st.Text
	if l.Now {
		ink = d.st.Now
	}
	out := make([]string, tall)
	words := (cloth - 1) / 2
	if d.large {
		left, right := d.beside(l, cloth, ink)
		for row := range cloth {
			line := style.Pad(left[row], d.left()) + d.cloth(l, kind, row == words, tall == 1)
			if right[row] != "" {
				line += strings.Repeat(" ", laneGap) + right[row]
			}
			out[row] = line
		}
		return out
	}
	for row := range cloth {
		line := strings.Repeat(" ", d.left())
		if row == words {
			name := wording.Either(d.full, strings.TrimSpace(l.Tag+" "+l.What), l.Tag)
			line = style.Pad(ink.Render(clip(Drawable(name, d.st.Glyphs), d.name, d.st.Glyphs.Ellipsis)), d.name+laneGap)
			if d.far > 0 {
				line += style.Pad(d.st.Dim.Render(Drawable(l.Far, d.st.Glyphs)), d.far+laneGap)
			}
		}
		if row == words+1 {
			line = style.Pad(d.says(l), d.left())
		}
		line += d.cloth(l, kind, row == words, tall == 1)
		if row == words && l.Ends != "" {
			end := Drawable(l.Ends, d.st.Glyphs)
			line += strings.Repeat(" ", laneGap+d.end-style.Width(end)) + ink.Render(end)
		}
		out[row] = line
	}
	return out
}

// cloth is one row of a lane's cells. Only the row of the words has dots; the cloth of a lane of one row keeps
// air around it.
func (d *laneDrawing) cloth(l Lane, kind []int, dots, thin bool) string {
	var b strings.Builder
	for x := 0; x < len(kind); {
		to := x + 1
		for to < len(kind) && kind[to] == kind[x] {
			to++
		}
		n := to - x
		switch {
		case kind[x] > 0:
			b.WriteString(d.run(l.Dips[kind[x]-1], n, thin, dots))
		case kind[x] < 0 && dots:
			var dotted strings.Builder
			for i := x; i < to; i++ {
				if i%laneDot == 0 {
					dotted.WriteString(d.st.Glyphs.Coming)
				} else {
					dotted.WriteByte(' ')
				}
			}
			b.WriteString(d.st.Dim.Render(dotted.String()))
		default:
			b.WriteString(strings.Repeat(" ", n))
		}
		x = to
	}
	return b.String()
}

// run is a dip of n cells: solid, or open in the row of the words where the piece is in now. Without colour its density says how deep
// it is.
func (d *laneDrawing) run(dip LaneDip, n int, thin, words bool) string {
	g := d.st.Glyphs
	switch {
	case dip.In && words && d.st.Coloured():
		return d.st.Ink(dip.Cloth, strings.Repeat(g.Open, n))
	case dip.In && words:
		return g.Open + d.density(dip.Cloth, n-1)
	case !d.st.Coloured():
		return d.density(dip.Cloth, n)
	case thin:
		return d.st.Ink(dip.Cloth, strings.Repeat(g.Done, n))
	}
	return d.st.Fill(dip.Cloth, n)
}

// density is never blank: a dip is always seen. In ASCII the lightest is not the airing's dot.
func (d *laneDrawing) density(cloth style.Shade, n int) string {
	mark := d.st.Mark(max(cloth.Density, style.Light))
	if mark == d.st.Glyphs.Coming {
		mark = "-"
	}
	return strings.Repeat(mark, n)
}

// names are the rests' names over their columns, each where it has room.
func (d *laneDrawing) names() string {
	row := []rune(strings.Repeat(" ", d.cells))
	next := 0
	for _, s := range d.Rests {
		from, to := d.columns(s.From, s.To)
		name := []rune(Drawable(s.Name, d.st.Glyphs))
		if to <= from || len(name) == 0 || len(name) > d.cells {
			continue
		}
		x := min(max((from+to-len(name))/2, 0), d.cells-len(name))
		if x < next {
			continue
		}
		copy(row[x:], name)
		next = x + len(name) + 1
	}
	return strings.Repeat(" ", d.left()) + d.st.Dim.Render(strings.TrimRight(string(row), " "))
}

// hourLine is that of a plot, with the word for the right column at its end.
func (d *laneDrawing) hourLine() string {
	p := plot{Course: Course{From: d.From, To: d.To, Zone: d.Zone}, st: d.st, cols: d.cells, margin: d.left(), now: -1,
		start: seconds(d.From), length: d.To.Sub(d.From).Seconds()}
	if d.far > 0 {
		p.Unit = strings.Repeat(" ", d.name+laneGap) + Drawable(d.Fars, d.st.Glyphs)
	}
	if x, ok := p.column(d.Now); ok {
		p.now = x
	}
	line := p.hourLine()
	if word := Drawable(d.Ends, d.st.Glyphs); word != "" {
		gap := d.left() + d.cells + laneGap + d.end - style.Width(word) - style.Width(line)
		line += strings.Repeat(" ", max(gap, 1)) + d.st.Dim.Render(word)
	}
	return line
}
