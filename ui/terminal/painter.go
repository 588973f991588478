package terminal

import (
	"slices"
	"strconv"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// A Painter turns frames into what must be written for the screen to show them, no more than that.
type Painter struct {
	width, height int
	known         bool     // whether the screen shows what follows
	lines         []string // the frame as it came
	rows          [][]cell
	sure          []bool // terminals agree on the widths in that row
	fresh         []cell // room for a row
	out           []byte
	look          look // that the terminal draws with, within a frame
}

// Forget says that the screen may show anything: the next frame is painted whole.
func (p *Painter) Forget() { p.known = false }

// The terminal shows what lies between them at once (DEC private mode 2026); one that does not know them does nothing.
const (
	beginFrame = "\x1b[?2026h"
	endFrame   = "\x1b[?2026l"
)

// Paint is what must be written for a frame of lines to be shown; empty if it is shown already. The bytes hold until the next call.
func (p *Painter) Paint(frame []string, width, height int) []byte {
	whole := !p.known || width != p.width || height != p.height
	if whole {
		p.resize(width, height)
	}
	p.out, p.look = append(p.out[:0], beginFrame...), look{}
	empty := len(p.out)
	for y := range height {
		line := ""
		if y < len(frame) {
			line = frame[y]
		}
		if !whole && line == p.lines[y] {
			continue
		}
		p.lines[y] = line
		p.row(y, line, whole)
	}
	if len(p.out) == empty {
		return nil
	}
	p.draw(look{})
	p.out = append(p.out, endFrame...)
	return p.out
}

func (p *Painter) resize(width, height int) {
	p.width, p.height, p.known = width, height, true
	p.lines, p.sure = make([]string, height), make([]bool, height)
	p.rows = make([][]cell, height)
	for y := range p.rows {
		p.rows[y], p.sure[y] = make([]cell, width), true
	}
	p.fresh = make([]cell, width)
}

// row writes what differs in a row, and keeps the new one.
func (p *Painter) row(y int, line string, whole bool) {
	was, now := p.rows[y], p.fresh
	sure := cells(line, now)
	if !sure || !p.sure[y] || whole {
		if whole || !slices.Equal(was, now) {
			p.wholeRow(y, now, sure)
		}
	} else {
		p.differences(y, was, now)
	}
	p.rows[y], p.fresh, p.sure[y] = now, was, sure
}

// end is where the blanks begin that reach to the end of a row.
func end(row []cell) int {
	n := len(row)
	for n > 0 && row[n-1] == blank {
		n--
	}
	return n
}

// wholeRow writes a row from its start to its end. Behind each character on whose width terminals may not agree, the next place is named.
func (p *Painter) wholeRow(y int, now []cell, sure bool) {
	p.at(0, y)
	if !sure || !p.sure[y] { // half of what stood there may else stay
		p.clear()
	}
	last := end(now)
	for x := 0; x < last; {
		next := x + 1
		for next < last && now[next].text == "" {
			next++
		}
		p.draw(now[x].look)
		p.out = append(p.out, now[x].text...)
		if !sure && next < last && !plain(now[x].text) {
			p.out = append(p.out, ansi.CursorHorizontalAbsolute(next+1)...)
		}
		x = next
	}
	if last < len(now) {
		p.clear()
	}
}

// plain tells whether terminals agree that a character takes one cell.
func plain(text string) bool {
	r, n := utf8.DecodeRuneInString(text)
	return n == len(text) && style.OneCell(r)
}

// near is up to how many cells that stand are written again because that is shorter than going over them.
const near = 4

// differences writes the cells that differ.
func (p *Painter) differences(y int, was, now []cell) {
	last, old := end(now), end(was)
	at := -1 // where the terminal writes next in this row; -1: elsewhere
	for x := 0; x < last; x++ {
		if now[x] == was[x] {
			continue
		}
		switch gap := x - at; {
		case at < 0:
			p.at(x, y)
		case gap > 0 && gap <= near && plainly(now[at:x], p.look):
			for _, c := range now[at:x] {
				p.out = append(p.out, c.text...)
			}
		case gap > 0:
			p.out = append(p.out, ansi.CursorForward(gap)...)
		}
		p.draw(now[x].look)
		p.out = append(p.out, now[x].text...)
		at = x + 1
	}
	if last < old {
		if at != last {
			p.at(last, y)
		}
		p.clear()
	}
}

// plainly tells whether cells are drawn with one look.
func plainly(cells []cell, l look) bool {
	return !slices.ContainsFunc(cells, func(c cell) bool { return c.look != l })
}

// at goes to a place.
func (p *Painter) at(x, y int) {
	p.out = append(p.out, "\x1b["...)
	p.out = strconv.AppendInt(p.out, int64(y+1), 10)
	if x > 0 {
		p.out = append(p.out, ';')
		p.out = strconv.AppendInt(p.out, int64(x+1), 10)
	}
	p.out = append(p.out, 'H')
}

// clear makes the rest of the row blank. Some terminals fill it with the ground that is set, some do not: so none is.
func (p *Painter) clear() {
	p.draw(look{})
	p.out = append(p.out, "\x1b[K"...)
}

// draw has the terminal draw with a look.
func (p *Painter) draw(l look) {
	if l == p.look {
		return
	}
	was := p.look
	p.look = l
	p.out = append(p.out, "\x1b["...)
	begun := len(p.out)
	code := func(s string) {
		if len(p.out) > begun {
			p.out = append(p.out, ';')
		}
		p.out = append(p.out, s...)
	}
	if l == (look{}) {
		p.out = append(p.out, 'm')
		return
	}
	if was.marks&^l.marks != 0 || was.ink != 0 && l.ink == 0 || was.ground != 0 && l.ground == 0 {
		code("0")
		was = look{}
	}
	for n := 1; n <= 9; n++ {
		if (l.marks&^was.marks)&(1<<n) != 0 {
			code(strconv.Itoa(n))
		}
	}
	if l.ink != was.ink {
		code(l.ink.code(30))
	}
	if l.ground != was.ground {
		code(l.ground.code(40))
	}
	p.out = append(p.out, 'm')
}

// code is a colour as a parameter of SGR; base is 30 for ink and 40 for ground.
func (c colour) code(base int) string {
	v := int(c &^ kindOf)
	switch c & kindOf {
	case sixteen:
		if v >= 8 {
			return strconv.Itoa(base + 60 + v - 8)
		}
		return strconv.Itoa(base + v)
	case indexed:
		return strconv.Itoa(base+8) + ";5;" + strconv.Itoa(v)
	}
	return strconv.Itoa(base+8) + ";2;" + strconv.Itoa(v>>16) + ";" + strconv.Itoa(v>>8&0xff) + ";" + strconv.Itoa(v&0xff)
}
