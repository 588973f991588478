// Package tty plays a person at a terminal: it starts a program in a pseudo-terminal, types, and reads the screen.
package tty

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Screen is what a terminal shows after the output it was given: as much of it as line editing programs and full screens use.
type Screen struct {
	cols, rows int
	cells      [][]rune
	other      [][]rune // the screen that is not shown now: the first, or the alternate one
	x, y       int
	saved      [2]int
	top, foot  int          // rows that scroll, foot excluded
	modes      map[int]bool // private modes that were set and not set back
	rest       []byte       // the beginning of a sequence that is not there whole
}

// NewScreen is an empty screen.
func NewScreen(cols, rows int) *Screen {
	s := &Screen{modes: map[int]bool{}}
	s.Resize(cols, rows)
	return s
}

// Resize makes it larger or smaller.
func (s *Screen) Resize(cols, rows int) {
	fit := func(cells [][]rune) [][]rune {
		out := make([][]rune, rows)
		for y := range out {
			out[y] = slices.Repeat([]rune{' '}, cols)
			if y < len(cells) {
				copy(out[y], cells[y])
			}
		}
		return out
	}
	s.cols, s.rows, s.cells, s.other = cols, rows, fit(s.cells), fit(s.other)
	s.top, s.foot, s.x, s.y = 0, rows, min(s.x, cols-1), min(s.y, rows-1)
}

// Text is what it shows, a line a row, without the blanks behind it.
func (s *Screen) Text() string {
	var b strings.Builder
	for _, row := range s.cells {
		b.WriteString(strings.TrimRight(string(row), " "))
		b.WriteByte('\n')
	}
	return b.String()
}

// Left are the modes that a program must set back before it ends and has not: alternate screen, mouse, hidden cursor, pastes.
func (s *Screen) Left() (out []string) {
	for mode, name := range map[int]string{1049: "alternate screen", 47: "alternate screen", 1000: "mouse", 1002: "mouse", 1003: "mouse", 1006: "mouse", 2004: "bracketed paste"} {
		if s.modes[mode] {
			out = append(out, name)
		}
	}
	if hidden, set := s.modes[25]; set && !hidden {
		out = append(out, "hidden cursor")
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Write takes output.
func (s *Screen) Write(p []byte) (int, error) {
	data := append(s.rest, p...)
	for len(data) > 0 {
		n := s.one(data)
		if n == 0 {
			break
		}
		data = data[n:]
	}
	s.rest = slices.Clone(data)
	return len(p), nil
}

// one takes one sequence or one character and gives its length; 0: it is not there whole.
func (s *Screen) one(data []byte) int {
	switch c := data[0]; {
	case c == 0x1b:
		return s.escape(data)
	case c == '\r':
		s.x = 0
	case c == '\n':
		s.down()
	case c == '\b':
		s.x = max(0, s.x-1)
	case c == '\t':
		s.x = min(s.cols-1, (s.x/8+1)*8)
	case c < ' ' || c == 0x7f:
	default:
		if !utf8.FullRune(data) {
			return 0
		}
		r, n := utf8.DecodeRune(data)
		if unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Cf, r) {
			return n
		}
		if s.x >= s.cols {
			s.x = 0
			s.down()
		}
		s.cells[s.y][s.x] = r
		s.x++
		return n
	}
	return 1
}

func (s *Screen) down() {
	switch {
	case s.y == s.foot-1:
		s.scroll(s.top, 1)
	case s.y < s.rows-1:
		s.y++
	}
}

// scroll moves the rows from one on up by n, or down by -n.
func (s *Screen) scroll(from, n int) {
	for ; n > 0; n-- {
		copy(s.cells[from:s.foot], s.cells[from+1:s.foot])
		s.cells[s.foot-1] = slices.Repeat([]rune{' '}, s.cols)
	}
	for ; n < 0; n++ {
		copy(s.cells[from+1:s.foot], s.cells[from:s.foot-1])
		s.cells[from] = slices.Repeat([]rune{' '}, s.cols)
	}
}

func (s *Screen) escape(data []byte) int {
	if len(data) < 2 {
		return 0
	}
	switch data[1] {
	case '[':
		for i := 2; i < len(data); i++ {
			if data[i] >= 0x40 && data[i] <= 0x7e {
				s.control(string(data[2:i]), data[i])
				return i + 1
			}
		}
		return 0
	case ']', 'P', '_', '^', 'X': // a string up to BEL or ST
		for i := 2; i < len(data); i++ {
			if data[i] == 0x07 {
				return i + 1
			}
			if data[i] == 0x1b && i+1 < len(data) {
				return i + 2
			}
		}
		return 0
	case '(', ')', '#', ' ', '%':
		if len(data) < 3 {
			return 0
		}
		return 3
	case '7':
		s.saved = [2]int{s.x, s.y}
	case '8':
		s.x, s.y = s.saved[0], s.saved[1]
	case 'M':
		if s.y == s.top {
			s.scroll(s.top, -1)
		} else {
			s.y = max(0, s.y-1)
		}
	case 'c':
		s.modes = map[int]bool{}
	}
	return 2
}

// control carries out a control sequence.
func (s *Screen) control(params string, final byte) {
	if strings.HasPrefix(params, "?") && (final == 'h' || final == 'l') {
		for p := range strings.SplitSeq(params[1:], ";") {
			if mode, err := strconv.Atoi(p); err == nil {
				if was := s.modes[mode]; (mode == 1049 || mode == 47) && was != (final == 'h') {
					s.cells, s.other = s.other, s.cells
				}
				s.modes[mode] = final == 'h'
			}
		}
		return
	}
	if params != "" && (params[0] == '?' || params[0] == '>' || params[0] == '<' || params[0] == '=') {
		return
	}
	var ns []int
	for p := range strings.SplitSeq(params, ";") {
		n, _ := strconv.Atoi(p)
		ns = append(ns, min(max(n, 0), 10000))
	}
	arg := func(i int) int {
		if i < len(ns) {
			return max(1, ns[i])
		}
		return 1
	}
	row := func(y int) int { return min(max(y, 0), s.rows-1) }
	column := func(x int) int { return min(max(x, 0), s.cols-1) }
	switch final {
	case 'A':
		s.y = row(s.y - arg(0))
	case 'B':
		s.y = row(s.y + arg(0))
	case 'C':
		s.x = column(s.x + arg(0))
	case 'D':
		s.x = column(s.x - arg(0))
	case 'E':
		s.x, s.y = 0, row(s.y+arg(0))
	case 'F':
		s.x, s.y = 0, row(s.y-arg(0))
	case 'G':
		s.x = column(arg(0) - 1)
	case 'd':
		s.y = row(arg(0) - 1)
	case 'H', 'f':
		s.x, s.y = column(arg(1)-1), row(arg(0)-1)
	case 'J':
		s.erase(ns[0])
	case 'K':
		s.eraseLine(ns[0])
	case 'X':
		for x := s.x; x < min(s.cols, s.x+arg(0)); x++ {
			s.cells[s.y][x] = ' '
		}
	case 'L':
		s.scroll(s.y, -min(arg(0), s.rows))
	case 'M':
		s.scroll(s.y, min(arg(0), s.rows))
	case 'S':
		s.scroll(s.top, min(arg(0), s.rows))
	case 'T':
		s.scroll(s.top, -min(arg(0), s.rows))
	case 'r':
		s.top, s.foot = 0, s.rows
		if len(ns) > 1 && ns[1] > ns[0] && ns[1] <= s.rows {
			s.top, s.foot = arg(0)-1, ns[1]
		}
		s.x, s.y = 0, 0
	}
}

func (s *Screen) eraseLine(what int) {
	from, to := s.x, s.cols
	switch what {
	case 1:
		from, to = 0, s.x+1
	case 2:
		from = 0
	}
	for x := from; x < min(to, s.cols); x++ {
		s.cells[s.y][x] = ' '
	}
}

func (s *Screen) erase(what int) {
	from, to := s.y+1, s.rows
	switch what {
	case 0, 1:
		s.eraseLine(what)
		if what == 1 {
			from, to = 0, s.y
		}
	default:
		from = 0
	}
	for y := from; y < to; y++ {
		s.cells[y] = slices.Repeat([]rune{' '}, s.cols)
	}
}
