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

// Yard draws the vats side by side, each in its own place, with its name and its line under it, as high as there are rows.
func Yard(vats []Place, width, rows int, st style.Style) List {
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
	out.Lines = c.lines()
	return out
}
