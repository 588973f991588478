package widget

import (
	"slices"
	"strconv"

	"example.org/vatside/ui/style"
)

// Place is one vat in the yard.
type Place struct {
	Name   string
	Line   string // what it waits for
	Vessel Vessel
	Chosen bool
	Tone   Tone // of its line
}

// Line is what hangs in the yard beside few vats: cloths, and what is said under them.
type Line struct {
	Cloths []Cloth
	Says   []string
	Dues   []Choice // in large letters
	Told   []string // the same in words, where there is no room for them
}

// leastPlace is how many columns a vat takes in the yard, roomyPlace how many where it is as large as its rows let it, widestPlace how many
// at most but for a wide window, leastYard how many rows.
const leastPlace, roomyPlace, widestPlace, leastYard = 23, 36, 44, 9

// LowestYard is from how many rows on a window has room for vessels beside what is to be read or answered.
const LowestYard = 22

// leastHung is how many rows a cloth takes on the line with what is said of it.
const leastHung = 9

// said is how many rows stand under a vessel: its name and its line.
const said = 3

// Places is how many vats stand in a yard side by side in a window; 0: it is too low for one.
func Places(width, height int) int {
	if height < LowestYard {
		return 0
	}
	return placeIn(width, height).text / leastPlace
}

// leastLine is how many columns a line takes in the yard, clothPitch how many each of its cloths.
const leastLine, clothPitch = 24, 8

// Yard draws the vats side by side, each in its own place, with its name and its line under it, as high as there are rows; where they
// leave columns free, the line with cloths beside them.
func Yard(vats []Place, hangs Line, width, rows int, st style.Style) List {
	if len(vats) == 0 || rows < leastYard || width/len(vats) < leastPlace {
		return List{}
	}
	pitch := pitchOf(len(vats), width)
	rows = min(rows, pitch/2+said+2)
	c := &canvas{wide: width, high: rows, cells: make([]daub, width*rows), st: st}
	floor := rows - said - 1
	var out List
	for i, v := range vats {
		x := i * pitch
		v.Vessel.Mark, v.Vessel.Next = "", 0
		c.vessel(v.Vessel, ground{x: x + 2, wide: pitch - 6, rim: 1, floor: floor})
		name, ink := Drawable(v.Name, st.Glyphs), st.Text
		if v.Chosen {
			name, ink = st.Glyphs.Done+" "+name, st.Act
		}
		c.text(x, floor+1, clip(name, pitch-2, st.Glyphs.Ellipsis), ink)
		ink = st.Dim
		if v.Tone != Plain {
			ink = boldOf(v.Tone, st)
		}
		lines := Wrap(Drawable(v.Line, st.Glyphs), pitch-2)
		for n := range min(len(lines), said-1) {
			line := lines[n]
			if n == said-2 && len(lines) > said-1 {
				line = clip(line+" "+lines[n+1], pitch-2, st.Glyphs.Ellipsis)
			}
			c.text(x, floor+2+n, line, ink)
		}
		for y := range rows {
			out.Spots = append(out.Spots, Spot{Line: y, From: x, To: x + pitch - 1, Row: i})
		}
	}
	var dues []string // under what hangs
	under, at := 0, len(vats)*pitch+gutter
	if width-at >= leastLine {
		under, dues = c.hang(hangs, at)
	}
	out.Lines = c.lines()
	for i, l := range dues {
		out.Lines[under+i] = style.Pad(out.Lines[under+i], at) + l
	}
	return out
}

// pitchOf is how many columns each of so many vats has in the yard.
func pitchOf(vats, width int) int {
	pitch := min(width/vats, max(widestPlace, min(width*29/100, (width-gutter-2*leastLine)/vats)))
	if beside := (width - gutter - leastLine) / vats; beside >= roomyPlace { // the line has room too
		return min(pitch, beside)
	}
	return pitch
}

// BesideYard is how many columns lie beside so many vats in a window of so many columns.
func BesideYard(vats, width int) int { return width - vats*pitchOf(vats, width) - gutter }

// hang draws the line from a column on, over as many rows as the vessels have, and what is said under it; it gives the row under that,
// and what is due in large letters, where they have room: else it is said as well.
func (c *canvas) hang(l Line, x int) (under int, dues []string) {
	room := c.wide - x
	cloths := l.Cloths[max(0, len(l.Cloths)-room/clothPitch):] // the last ones
	if more := len(l.Cloths) - len(cloths); more > 0 {
		l.Says = append([]string{strconv.Itoa(more) + " more"}, l.Says...)
	}
	says := func(of []string) (rows []string) { // each whole, or not at all
		for _, words := range of {
			if lines := Wrap(Drawable(words, c.st.Glyphs), room); len(rows)+len(lines) <= c.high-leastHung {
				rows = append(rows, lines...)
			}
		}
		return rows
	}
	rows := says(slices.Concat(l.Told, l.Says))
	a := anchors{line: 1, cloth: max(4, min((c.high-said)/2, c.high-said-len(rows)-4))}
	y := 0
	if len(cloths) > 0 {
		for u := range room {
			c.set(x+u, a.line, daub{glyph: "_", ink: c.st.Dim})
		}
		pitch := min(room/len(cloths), max(3*clothPitch, 2*a.cloth))
		for i, of := range cloths {
			c.cloth(of, x+i*pitch, pitch, min(pitch*7/10, max(widestRag, a.cloth*3/2)), a, bath{})
		}
		y = a.line + a.cloth + 4
	}
	if large, ok := Large(l.Dues, -1, room, c.high-y-len(says(l.Says))-2, c.st); ok {
		rows, dues = says(l.Says), large.Lines
	}
	for i, line := range rows {
		c.text(x, y+i, line, c.st.Text)
	}
	return y + len(rows) + 1, dues
}
