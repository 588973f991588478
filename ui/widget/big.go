package widget

import (
	"iter"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// Big draws a text in letters built of blocks, as large as maxW columns and maxH rows allow, on equally wide
// lines. What has no drawing, or no room even for the smallest, comes back as one line of plain text.
func Big(text string, maxW, maxH int, g style.Glyphs) []string {
	if maxW < 1 || maxH < 1 {
		return nil
	}
	if c, ok := fitting(text, maxW, maxH, g); ok {
		return c.draw(g)
	}
	return []string{ansi.Truncate(g.Text(text), maxW, g.Ellipsis)}
}

// cut is one size of one font for one text. Lengths are in columns and in lines of pixels: half rows with
// blocks, whole rows in ASCII.
type cut struct {
	text   string
	font   *font
	deep   int  // pixels of the font from the top of the highest letter to the foot of the deepest
	px, py int  // size of one pixel of the font
	bold   int  // extra columns of every upright stroke, for the heavy cut
	w, h   int  // of the whole text: columns and rows of the screen
	close  bool // with half the room between its letters
}

// A pixel need not be square, so that digits fill the window; but never far from it, unless a window is so
// high and narrow that digits of the usual build would be too low: then they are lean.
const (
	usual = 3 // halves of its width that a pixel may be high
	lean  = 6
)

// cuts are the sizes in which a text can be drawn at all, smallest first.
func cuts(text string, f *font, maxW, maxH, build int, g style.Glyphs) iter.Seq[cut] {
	return func(yield func(cut) bool) {
		wide, deep, letters := f.measure(text)
		if letters == 0 {
			return
		}
		perRow, square := 2, 1 // pixel lines a row, and columns that look as long as one line is high
		if g.ASCII {
			perRow, square = 1, 2
		}
		for py := 1; (deep*py+perRow-1)/perRow <= maxH; py++ {
			from, to := max(1, (2*py*square+build-1)/build), 4*py*square/3
			if py == 1 {
				from = 1
			}
			for px := from; px <= min(to, maxW); px++ {
				c := cut{text: text, font: f, deep: deep, px: px, py: py, h: (deep*py + perRow - 1) / perRow}
				if g.Heavy && (f == &tall || px > 1) { // the low font's counters are only one pixel wide
					c.bold = max(1, px/3)
				}
				c.w = wide*px + letters*c.bold + (letters-1)*c.gap()
				if c.w > maxW && c.bold == 0 { // closer together they are still letters
					c.close = true
					c.w = wide*px + (letters-1)*c.gap()
				}
				if c.w <= maxW && !yield(c) {
					return
				}
			}
		}
	}
}

// inked is how many rows of the screen its letters are high.
func (c cut) inked(g style.Glyphs) float64 {
	if g.ASCII {
		return float64(c.deep * c.py)
	}
	return float64(c.deep*c.py) / 2
}

// gap is the room between two letters; one column is too little at the smallest size.
func (c cut) gap() int {
	if c.close {
		return (c.px + 1) / 2
	}
	if c.px == 1 {
		return 2 - min(c.bold, 1)
	}
	return c.px
}

// largest finds the highest cut that fits, the widest of equally high ones. The low font is coarse: it is
// taken only where it makes the letters much bigger.
func largest(text string, maxW, maxH int, g style.Glyphs) (cut, bool) {
	return highest(text, maxW, maxH, g, usual)
}

// fitting is largest for letters that stand at an anchor: lean where they would be too wide, and close where they still are.
func fitting(text string, maxW, maxH int, g style.Glyphs) (cut, bool) {
	return highest(text, maxW, maxH, g, usual, lean)
}

func highest(text string, maxW, maxH int, g style.Glyphs, builds ...int) (cut, bool) {
	best := func(f *font) (b cut, ok bool) {
		for _, build := range builds {
			for c := range cuts(text, f, maxW, maxH, build, g) {
				if c.h > b.h || c.h == b.h && build == usual { // later ones of the same height are wider
					b, ok = c, true
				}
			}
		}
		return b, ok
	}
	t, okT := best(&tall)
	l, okL := best(&low)
	if okT && (!okL || t.h*3 >= l.h*2) {
		return t, true
	}
	return l, okL
}

// smallest finds the lowest cut of at least minH rows that fits the width; if none is so high, the highest.
func smallest(text string, maxW, minH, maxH int, g style.Glyphs) (b cut, ok bool) {
	for _, build := range []int{usual, lean} {
		for _, f := range [...]*font{&tall, &low} {
			for c := range cuts(text, f, maxW, maxH, build, g) {
				if c.h >= minH && (!ok || c.h < b.h || c.h == b.h && c.font == b.font) {
					b, ok = c, true
				}
			}
		}
		if ok {
			return b, true
		}
	}
	return largest(text, maxW, maxH, g)
}

// counting is fitting for a text that ends with a time, or with no time: it keeps its size from 10:00 to 9:59, and from 0:00 to +0:01.
func counting(text string, maxW, maxH int, g style.Glyphs) (cut, bool) {
	c, ok := fitting(countingWide(text), maxW, maxH, g)
	c.text = text
	return c, ok
}

// countingWide is such a text as wide as it gets in ten minutes before and after.
func countingWide(text string) string {
	at := strings.LastIndexByte(text, ' ') + 1
	if time := text[at:]; len(time) == len("0:00") && time[1] == ':' {
		return text[:at] + "0" + time
	}
	return text
}

// draw paints the cut, letter by letter.
func (c cut) draw(g style.Glyphs) []string {
	var letters [][]string
	for _, r := range c.text {
		of := c
		of.text, of.w = string(r), 0
		letters = append(letters, drawn.Of(letter{of, g.ASCII}, func(letter) []string { return of.letter(r, g) }))
	}
	gap := strings.Repeat(" ", c.gap())
	rows := make([]string, c.h)
	for y := range rows {
		var b strings.Builder
		b.Grow(len(g.Full) * c.w)
		for i, l := range letters {
			if i > 0 {
				b.WriteString(gap)
			}
			b.WriteString(l[y])
		}
		rows[y] = b.String()
	}
	return rows
}

// drawn are the letters that were painted: a countdown paints the same ones again and again.
var drawn style.Memory[letter, []string]

type letter struct {
	cut
	ascii bool
}

// letter paints one of the text's: pixels first, then glyphs over them, resting on the lowest line. Where two pixels touch only by
// a corner the step between them is filled to a slope, which keeps diagonals as heavy as uprights.
func (c cut) letter(r rune, g style.Glyphs) []string {
	s, _ := c.font.shape(r)
	perRow := 2
	if g.ASCII {
		perRow = 1
	}
	lines := make([][]bool, c.h*perRow)
	for y := range lines {
		lines[y] = make([]bool, len(s[0])*c.px+c.bold)
	}
	top := len(lines) - c.deep*c.py
	narrow := c.px == 1 && strings.ContainsRune("MWmw", r) // their middle alone is heavy: an outer stroke makes them an N
	on := func(x, y int) bool { return y >= 0 && y < len(s) && x >= 0 && x < len(s[y]) && s[y][x] == '#' }
	for y := range s {
		for x := range s[y] {
			for v := range c.py {
				for u := range c.px {
					if on(x, y) || c.slope(on, x, y, u, v) || s[y][x] == '/' && c.beyond(1, 1, u, v) {
						for k := 0; k <= c.bold; k++ {
							if !narrow && u+k >= 2*c.px-1 && !on(x+1, y) && on(x+2, y) {
								break // a gap of one pixel keeps a column: ° would fill
							}
							if narrow && (x < 2 && k > 0 || x > 2 && k < c.bold) {
								continue
							}
							lines[top+y*c.py+v][x*c.px+u+k] = true
						}
					}
				}
			}
		}
	}
	rows := make([]string, c.h)
	for r := range rows {
		var b strings.Builder
		for x, up := range lines[r*perRow] {
			switch down := lines[r*perRow+perRow-1][x]; {
			case up && down:
				b.WriteString(g.Full)
			case up:
				b.WriteString(g.Upper)
			case down:
				b.WriteString(g.Lower)
			default:
				b.WriteByte(' ')
			}
		}
		rows[r] = b.String()
	}
	return rows
}

// slope tells whether a dot belongs to such a slope. Pixels of one dot across have none: it would fill the hole of a low D or R.
func (c cut) slope(on func(x, y int) bool, x, y, u, v int) bool {
	if c.px == 1 {
		return false
	}
	for _, dx := range [2]int{-1, 1} {
		for _, dy := range [2]int{-1, 1} {
			if on(x+dx, y) && on(x, y+dy) && !on(x+dx, y+dy) && c.beyond(dx, dy, u, v) {
				return true
			}
		}
	}
	return false
}

// beyond tells whether a dot of a pixel lies past its diagonal, on the side of the corner (dx, dy). Lengths
// are doubled so that the middle of a dot counts.
func (c cut) beyond(dx, dy, u, v int) bool {
	du, dv := 2*u+1, 2*v+1
	if dx < 0 {
		du = 2*c.px - du
	}
	if dy < 0 {
		dv = 2*c.py - dv
	}
	return du*c.py+dv*c.px > 2*c.px*c.py
}
