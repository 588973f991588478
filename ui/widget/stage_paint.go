package widget

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/lucasb-eyer/go-colorful"

	"example.org/vatside/ui/style"
)

const (
	widestRag = 15
	airyRag   = 7 // from this width on there is air between two
)

// canvas is the right side of a stage: cells, painted from the back to the front.
type canvas struct {
	wide, high int
	cells      []daub
	shades     []style.Shade
	st         style.Style
	spots      []clothSpot
}

// daub is one of its cells: a glyph in an ink or a shade, or full of a shade; the zero value is free.
type daub struct {
	glyph string
	ink   style.Ink
	shade int // in shades, counted from 1
}

func (c *canvas) shade(s style.Shade) int {
	for i := range c.shades {
		if c.shades[i].Colour == s.Colour && c.shades[i].Density == s.Density {
			return i + 1
		}
	}
	c.shades = append(c.shades, s)
	return len(c.shades)
}

func (c *canvas) set(x, y int, to daub) {
	if x >= 0 && x < c.wide && y >= 0 && y < c.high {
		c.cells[y*c.wide+x] = to
	}
}

// fill lays a shade over a block of cells; glyph as of a cell.
func (c *canvas) fill(x, y, w, h int, s style.Shade, glyph string) {
	n := c.shade(s)
	for v := y; v < y+h; v++ {
		for u := x; u < x+w; u++ {
			c.set(u, v, daub{glyph: glyph, shade: n})
		}
	}
}

// text writes a text of one row; what goes beyond the edge is left out.
func (c *canvas) text(x, y int, text string, ink style.Ink) {
	for i, glyph := range strings.Split(text, "") {
		c.set(x+i, y, daub{glyph: glyph, ink: ink})
	}
}

func (c *canvas) row(y int) []daub { return c.cells[y*c.wide : (y+1)*c.wide] }

// line is a row as it is written; empty where nothing stands.
func (c *canvas) line(y int) string {
	row := c.row(y)
	for len(row) > 0 && row[len(row)-1] == (daub{}) {
		row = row[:len(row)-1]
	}
	var b strings.Builder
	var text []byte
	for from := 0; from < len(row); {
		of, to := row[from], from+1
		for to < len(row) && row[to].shade == of.shade && row[to].ink == of.ink && (row[to].glyph == "") == (of.glyph == "") {
			to++
		}
		switch {
		case of == daub{}:
			b.WriteString(strings.Repeat(" ", to-from))
		case of.glyph == "":
			b.WriteString(c.st.Fill(c.shades[of.shade-1], to-from))
		default:
			text = text[:0]
			for _, x := range row[from:to] {
				text = append(text, x.glyph...)
			}
			if of.shade > 0 {
				b.WriteString(c.st.Ink(c.shades[of.shade-1], string(text)))
			} else {
				b.WriteString(of.ink.Render(string(text)))
			}
		}
		from = to
	}
	return b.String()
}

// lines are the rows as they are written.
func (c *canvas) lines() []string {
	out := make([]string, c.high)
	for y := range out {
		out[y] = c.line(y)
	}
	return out
}

// painted is the last right side that was painted: of the next one only the rows are written that are other ones.
var painted lastPaint

type lastPaint struct {
	mu        sync.Mutex
	stage     Stage
	at        anchors
	was, next *canvas // the last one, and one whose cells are used again
	rows      []string
}

// of is the right side as it is written, with its targets; nobody changes them.
func (l *lastPaint) of(s Stage, at anchors, high int, st style.Style) ([]string, []clothSpot) {
	l.mu.Lock()
	defer l.mu.Unlock()
	same := l.was != nil && l.was.high == high && l.at == at && l.was.st == st
	if same && l.stage.Rest == s.Rest && l.stage.Vessel == s.Vessel && slices.Equal(l.stage.Cloths, s.Cloths) {
		return l.rows, l.was.spots
	}
	c := l.next
	if c == nil || len(c.cells) != at.wide*high {
		c = &canvas{cells: make([]daub, at.wide*high)}
	}
	clear(c.cells)
	c.wide, c.high, c.st, c.shades, c.spots = at.wide, high, st, c.shades[:0], nil
	c.paint(s, at)
	if same && slices.Equal(c.shades, l.was.shades) {
		rows := slices.Clone(l.rows)
		for y := range rows {
			if !slices.Equal(c.row(y), l.was.row(y)) {
				rows[y] = c.line(y)
			}
		}
		l.rows = rows
	} else {
		l.rows = c.lines()
	}
	l.stage, l.at, l.was, l.next = s, at, c, l.was
	l.stage.Cloths = slices.Clone(s.Cloths)
	return l.rows, c.spots
}

func (c *canvas) paint(s Stage, a anchors) {
	hangs := len(s.Cloths) > 0
	room := ground{x: 0, wide: c.wide, rim: a.rim, floor: a.floor, whole: hangs}
	if !hangs {
		room.x, room.wide = 1, c.wide-2
	}
	inside := c.vessel(s.Vessel, room)
	if len(s.Cloths) == 0 {
		return
	}
	for x := range c.wide {
		c.set(x, a.line, daub{glyph: "_", ink: c.st.Dim})
	}
	cloths := s.Cloths[:min(len(s.Cloths), a.pegs())]
	pitch := (c.wide - inside.left) / max(len(cloths), 3)
	rag := min(pitch-1, max(airyRag, pitch*7/10), widestRag) // close together they are as wide as they can be: a bar is no cloth
	for i, of := range cloths {
		c.cloth(of, inside.left+i*pitch, pitch, rag, a, inside)
	}
	rest := Drawable(s.Rest, c.st.Glyphs)
	if s.Count != "" && style.Width(rest) > c.wide { // none is left uncounted
		rest = Drawable(s.Count, c.st.Glyphs)
	}
	for last := strings.LastIndex(rest, ", "); style.Width(rest) > c.wide && last > 0; last = strings.LastIndex(rest, ", ") {
		rest = rest[:last] // what is counted last is left out
	}
	if rest != "" {
		c.text(0, a.line+a.cloth+4, clip(rest, c.wide, c.st.Glyphs.Ellipsis), c.st.Dim)
	}
}

// cloth paints a piece with its peg, its tag and what is said of it.
func (c *canvas) cloth(of Cloth, x, pitch, rag int, a anchors, in bath) {
	g, st := c.st.Glyphs, c.st
	w := rag
	if of.Size > 0 && rag > 4 {
		w = max(3, int(math.Round(float64(rag)*(0.6+0.4*min(of.Size, 1)))))
	}
	ink := boldOf(of.Tone, st)
	tag := clip(Drawable(of.Tag, g), pitch-1, "~")
	c.text(x, a.line-1, tag, ink)
	if peg := strconv.Itoa(of.Peg); of.Peg > 0 {
		c.text(x+(w-len(peg))/2, a.line, peg, st.Dim)
	}
	top, rows := a.line+1, a.cloth
	end := top + rows
	if of.In {
		left := max(in.left, min(x, in.right-w))
		rows = min(rows, in.end-in.top)
		under := mixed(of.Blue, in.of, 0.45)
		c.rag(left, in.top, w, rows, under, 0, c.st.Dim, false)
		for y := top; y < in.top; y++ {
			c.set(left+w/2, y, daub{glyph: "|", ink: st.Dim})
		}
		c.spot(of, left, in.top, w, rows)
	} else {
		hem := st.Dim
		switch {
		case of.Tone != Plain:
			hem = boldOf(of.Tone, st)
		case of.Green <= 0:
			hem = st.Text
		}
		c.rag(x, top, w, rows-1, of.Blue, of.Green, hem, true)
	}
	says, dips := Drawable(of.Says, g), Drawable(of.Dips, g)
	if style.Width(says) >= pitch { // cut off, 25:22 would be another time
		says = Drawable(of.Brief, g)
	}
	c.text(x, end, clip(says, pitch-1, ""), ink)
	if style.Width(dips) >= pitch {
		dips = strings.Replace(dips, " of ", "/", 1)
	}
	if style.Width(dips) < pitch {
		c.text(x, end+1, dips, st.Dim)
	}
	c.spot(of, x, a.line-1, pitch-1, end+2-a.line+1)
}

// rag paints the cloth itself: folds, and what is still green from its middle; under it the hem, in an ink.
func (c *canvas) rag(x, y, w, h int, blue style.Shade, green float64, hem style.Ink, hems bool) {
	c.fill(x, y, w, h, blue, "")
	if w >= 4 && h >= 4 && c.st.Coloured() {
		fold := folded(blue)
		for n, u := 0, min(2, w-3); u < w-1; n, u = n+1, u+3 { // they are not equally long
			c.fill(x+u, y+1+n%2, 1, h-2-n%2, fold, "")
		}
	}
	if green > 0 {
		s := math.Sqrt(min(green, 1))
		gw, gh := max(1, int(math.Round(float64(w)*s))), max(1, int(math.Round(float64(h)*s)))
		if gw > 1 { // in the middle
			gw -= (w - gw) % 2
		}
		if gh > 1 {
			gh -= (h - gh) % 2
		}
		c.fill(x+(w-gw)/2, y+(h-gh)/2, gw, gh, mixed(blue, yellowGreen, 0.75), "")
	}
	if !c.st.Coloured() { // undyed cloth is blank
		for v := y; v < y+h; v++ {
			c.set(x, v, daub{glyph: "|", ink: c.st.Text})
			c.set(x+w-1, v, daub{glyph: "|", ink: c.st.Text})
		}
	}
	if hems {
		for u := range w {
			c.set(x+u, y+h, daub{glyph: c.st.Glyphs.Upper, ink: hem})
		}
	}
}

// clothSpot is where a cloth can be clicked: the columns and rows of a canvas, and as which row of a list.
type clothSpot struct{ x, y, w, h, row int }

func (c *canvas) spot(of Cloth, x, y, w, h int) {
	if of.Click {
		c.spots = append(c.spots, clothSpot{x, y, w, h, of.Row})
	}
}

// film is the coppery blue-black skin on a reduced vat, by eye, from memory.
var film = style.Shade{Colour: colorful.Color{R: 0.29, G: 0.25, B: 0.33}, Density: style.Full, Name: "film"}

// yellowGreen is what is still green of a cloth that airs.
var yellowGreen = style.Liquor(style.YellowGreen)

// mixed is a cloth with so much of a liquor over it or in it.
func mixed(blue, with style.Shade, part float64) style.Shade {
	return style.Shade{Colour: blue.Colour.BlendLab(with.Colour, part).Clamped(), Density: style.Medium}
}

// folded is a cloth in its folds, settled the liquor over the floor: a little darker.
func folded(s style.Shade) style.Shade  { return darker(s, 0.12) }
func settled(s style.Shade) style.Shade { return darker(s, 0.4) }

func darker(s style.Shade, by float64) style.Shade {
	return style.Shade{Colour: s.Colour.BlendLab(colorful.Color{}, by).Clamped(), Density: s.Density, Liquor: s.Liquor}
}
