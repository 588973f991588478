package terminal

import (
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/ui/style"
)

// A cell is one place of the screen.
type cell struct {
	text string // one character with its marks; empty: the second half of a wide one
	look look
}

var blank = cell{text: " "}

// A look is how a cell is drawn. The zero value is the terminal's own.
type look struct {
	ink, ground colour
	marks       marks
}

// marks are bold, faint and so on: bit n is SGR n.
type marks uint16

// A colour is its kind in the highest byte and its value in the others; zero is the terminal's own.
type colour uint32

const (
	sixteen colour = (iota + 1) << 24 // one of the terminal's 16
	indexed                           // one of 256
	rgb
	kindOf colour = 0xff << 24
)

// cells reads a line of a frame into row, which has room for the width of the screen. Only looks (SGR) are obeyed; every other
// sequence is left out. sure is false where terminals may not agree on how wide a character is.
func cells(line string, row []cell) (sure bool) {
	sure = true
	parser := ansi.GetParser()
	defer ansi.PutParser(parser)
	var l look
	x := 0
	for len(line) > 0 {
		if line[0] == '\x1b' {
			_, _, n, _ := ansi.DecodeSequence(line, ansi.NormalState, parser)
			if ansi.Cmd(parser.Command()) == 'm' && line[n-1] == 'm' {
				l.take(parser.Params())
			}
			line = line[n:]
			continue
		}
		r, n := utf8.DecodeRuneInString(line)
		text, wide := line[:n], 1
		switch next, _ := utf8.DecodeRuneInString(line[n:]); {
		case r < ' ' || r >= 0x7f && r < 0xa0:
			line = line[n:]
			continue
		case style.OneCell(r) && (n == len(line) || next == '\x1b' || style.OneCell(next)):
		default:
			text, wide = ansi.FirstGraphemeCluster(line, ansi.GraphemeWidth)
			sure = sure && wide == 1 && style.OneCell(r) && len(text) == n
		}
		line = line[len(text):]
		switch {
		case wide == 0:
			continue
		case x+wide > len(row):
			line = "" // what does not fit is cut
			continue
		}
		row[x] = cell{text, l}
		for i := 1; i < wide; i++ {
			row[x+i] = cell{"", l}
		}
		x += wide
	}
	for ; x < len(row); x++ {
		row[x] = blank
	}
	return sure
}

// take changes a look by the parameters of an SGR.
func (l *look) take(ps ansi.Params) {
	if len(ps) == 0 {
		*l = look{}
	}
	for i := 0; i < len(ps); i++ {
		switch v, _, _ := ps.Param(i, 0); {
		case v == 0:
			*l = look{}
		case v <= 9:
			l.marks |= 1 << v
		case v == 22:
			l.marks &^= 1<<1 | 1<<2
		case v >= 23 && v <= 29:
			l.marks &^= 1 << (v - 20)
		case v >= 30 && v <= 37:
			l.ink = sixteen | colour(v-30)
		case v >= 40 && v <= 47:
			l.ground = sixteen | colour(v-40)
		case v >= 90 && v <= 97:
			l.ink = sixteen | colour(v-90+8)
		case v >= 100 && v <= 107:
			l.ground = sixteen | colour(v-100+8)
		case v == 39:
			l.ink = 0
		case v == 49:
			l.ground = 0
		case v == 38 || v == 48:
			at := func(n int) colour { return colour(ps[min(i+n, len(ps)-1)].Param(0) & 0xff) }
			c := indexed | at(2)
			switch kind := at(1); {
			case kind == 5 && i+2 < len(ps):
				i += 2
			case kind == 2 && i+4 < len(ps):
				c, i = rgb|at(2)<<16|at(3)<<8|at(4), i+4
			default:
				return
			}
			if v == 38 {
				l.ink = c
			} else {
				l.ground = c
			}
		}
	}
}
