package terminal

import (
	"strings"
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
	var l look
	x := 0
	for len(line) > 0 {
		if line[0] == '\x1b' {
			n := sequence(line)
			if n > 2 && line[1] == '[' && line[n-1] == 'm' {
				l.take(line[2 : n-1])
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

// sequence is the length of the escape sequence that a text begins with.
func sequence(s string) int {
	if len(s) > 1 && s[1] == '[' {
		for i := 2; i < len(s); i++ {
			if s[i] >= 0x40 && s[i] <= 0x7e {
				return i + 1
			}
		}
		return len(s)
	}
	if len(s) > 1 && strings.IndexByte("]P_^X", s[1]) >= 0 {
		for i := 2; i < len(s); i++ {
			switch {
			case s[i] == '\a':
				return i + 1
			case s[i] == '\x1b' && i+1 < len(s) && s[i+1] == '\\':
				return i + 2
			}
		}
		return len(s)
	}
	return min(2, len(s))
}

// take changes a look by the parameters of an SGR.
func (l *look) take(params string) {
	var ns [32]int
	n := 0
	for p := range strings.SplitSeq(params, ";") {
		v := 0
		for i := range len(p) {
			if d := int(p[i]) - '0'; d >= 0 && d <= 9 && v < 1000 {
				v = v*10 + d
			}
		}
		if n < len(ns) {
			ns[n] = v
			n++
		}
	}
	for i := 0; i < n; i++ {
		switch v := ns[i]; {
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
			c := colour(0)
			switch {
			case i+2 < n && ns[i+1] == 5:
				c, i = indexed|colour(ns[i+2]&0xff), i+2
			case i+4 < n && ns[i+1] == 2:
				c, i = rgb|colour(ns[i+2]&0xff)<<16|colour(ns[i+3]&0xff)<<8|colour(ns[i+4]&0xff), i+4
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
