package widget

import "example.org/vatside/ui/style"

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
}

// leastPlace is how many columns a vat takes in the yard, widestPlace how many at most, leastYard how many rows.
const leastPlace, widestPlace, leastYard = 23, 44, 9

// LowestYard is from how many rows on a window has room for vessels beside what is to be read or answered.
const LowestYard = 22

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
	pitch := min(width/len(vats), widestPlace)
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
	if at := len(vats)*pitch + gutter; width-at >= leastLine {
		c.hang(hangs, at)
	}
	out.Lines = c.lines()
	return out
}

// hang draws the line from a column on, over as many rows as the vessels have.
func (c *canvas) hang(l Line, x int) {
	room := c.wide - x
	cloths := l.Cloths[max(0, len(l.Cloths)-room/clothPitch):] // the last ones
	a := anchors{line: 1, cloth: max(4, (c.high-said)/2)}
	y := 0
	if len(cloths) > 0 {
		for u := range room {
			c.set(x+u, a.line, daub{glyph: "_", ink: c.st.Dim})
		}
		pitch := min(room/len(cloths), 3*clothPitch)
		for i, of := range cloths {
			c.cloth(of, x+i*pitch, pitch, min(pitch*7/10, widestRag), a, bath{})
		}
		y = a.line + a.cloth + 4
	}
	if more := len(l.Cloths) - len(cloths); more > 0 {
		l.Says = append([]string{itoa(more) + " more"}, l.Says...)
	}
	for _, says := range l.Says {
		for _, line := range Wrap(Drawable(says, c.st.Glyphs), room) {
			c.text(x, y, line, c.st.Text)
			y++
		}
	}
}
