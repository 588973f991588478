package style

import (
	"strings"
	"unicode/utf8"

	"example.org/vatside/model/wording"
	"github.com/charmbracelet/x/ansi"
)

// Width is how many cells a text takes that may carry ink.
func Width(s string) int {
	n := 0
	for i := 0; i < len(s); n++ {
		if c := s[i]; c >= ' ' && c < 0x7f {
			i++
			continue
		}
		if ink := InkAt(s[i:]); ink > 0 {
			i, n = i+ink, n-1
			continue
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		if !OneCell(r) { // it takes the tables of Unicode, and a mark may join what went before
			return ansi.StringWidth(s)
		}
		i += size
	}
	return n
}

// Pad fills a line with blanks to width cells.
func Pad(s string, width int) string { return s + strings.Repeat(" ", max(0, width-Width(s))) }

// Beside puts lines beside others, from a column on; a line that has none beside it stays as it is.
func Beside(left, right []string, column int) []string {
	out := make([]string, max(len(left), len(right)))
	copy(out, left)
	for i, l := range right {
		out[i] = Pad(out[i], column) + l
	}
	return out
}

// Widest is how many cells the widest of some lines takes.
func Widest(lines []string) int { return wording.Most(lines, Width) }

// InkAt is how long the ink, an SGR sequence, is with which a text begins; 0 if it begins with none.
func InkAt(s string) int {
	if !strings.HasPrefix(s, "\x1b[") {
		return 0
	}
	for i := 2; i < len(s); i++ {
		switch c := s[i]; {
		case c == 'm':
			return i + 1
		case c != ';' && (c < '0' || c > '9'):
			return 0
		}
	}
	return 0
}

// OneCell tells whether every terminal gives a character exactly one cell. The others are not only the wide ones: terminals
// do not agree on emoji, marks and scripts.
func OneCell(r rune) bool {
	switch {
	case r < 0x7f:
		return r >= ' '
	case r >= 0xa0 && r < 0x250 && r != 0xad, // Latin
		r >= 0x370 && r < 0x483,    // Greek, Cyrillic
		r >= 0x2010 && r <= 0x2027, // dashes, quotes, bullets
		r >= 0x2080 && r <= 0x208e, // low figures
		r >= 0x2190 && r <= 0x2193, // arrows
		r >= 0x2200 && r < 0x2300,  // signs of mathematics
		r >= 0x2500 && r < 0x25aa,  // lines, blocks and squares
		r >= 0x2800 && r < 0x2900:  // dots
		return true
	}
	return false
}
