package emulator

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// most is the largest parameter that counts.
const most = 10000

// numbers are the parameters of a control sequence, those left out as 0.
func numbers(params string) (ns []int) {
	for p := range strings.SplitSeq(params, ";") {
		n, _ := strconv.Atoi(p)
		ns = append(ns, min(max(n, 0), most))
	}
	return ns
}

// csi carries out a control sequence.
func (s *Screen) csi(params, between string, final byte) {
	if final != 'b' {
		s.repeat = ""
	}
	if params != "" && strings.IndexByte("?<=>", params[0]) >= 0 {
		s.private(params[0], params[1:], between, final)
		return
	}
	ns := numbers(params)
	switch {
	case between == "" && final == 'm':
		s.look = sgr(s.look, params)
		return
	case between == "" && final == 'b': // REP
		for range min(max(1, ns[0]), s.cols*s.rows) {
			if s.repeat != "" {
				s.put(s.repeat, width(s.repeat))
			}
		}
		return
	case between == " " && final == 'q': // DECSCUSR
		s.shape = strings.TrimPrefix(params, "0")
		return
	case between == "!" && final == 'p': // DECSTR
		s.soft()
		return
	case between != "":
		return
	}
	if s.edit(ns, final) || s.move(ns, final) {
		s.forget()
		return
	}
	switch final {
	case 'h', 'l':
		if slices.Contains(ns, 4) {
			s.insert = final == 'h'
		}
	case 's':
		s.save()
	case 'u':
		s.restore()
	case 't':
		s.window(ns)
	case 'c':
		s.reply("\x1b[?62;22c")
	case 'n':
		switch ns[0] {
		case 5:
			s.reply("\x1b[0n")
		case 6:
			s.reply(fmt.Sprintf("\x1b[%d;%dR", s.y-s.origin()+1, s.x+1))
		}
	}
}

// origin is the row that CUP calls the first (DECOM).
func (s *Screen) origin() int {
	if s.modes[6] {
		return s.top
	}
	return 0
}

// move carries out what moves the cursor; false: it is something else.
func (s *Screen) move(ns []int, final byte) bool {
	n := max(1, ns[0])
	second := 1
	if len(ns) > 1 {
		second = max(1, ns[1])
	}
	first, last := 0, s.rows-1
	to := func(x, y int) {
		s.x, s.y, s.wrap = min(max(x, 0), s.cols-1), min(max(y, first), last), false
	}
	up := func(x int) { // as far as the region that scrolls, from within it
		if s.y >= s.top {
			first = s.top
		}
		to(x, s.y-n)
	}
	down := func(x int) {
		if s.y < s.foot {
			last = s.foot - 1
		}
		to(x, s.y+n)
	}
	row := func(x, y int) {
		if s.modes[6] {
			first, last = s.top, s.foot-1
		}
		to(x, y+s.origin())
	}
	switch final {
	case 'A':
		up(s.x)
	case 'B', 'e':
		down(s.x)
	case 'C', 'a':
		to(s.x+n, s.y)
	case 'D':
		to(s.x-n, s.y)
	case 'E':
		down(0)
	case 'F':
		up(0)
	case 'G', '`':
		to(n-1, s.y)
	case 'd':
		row(s.x, n-1)
	case 'H', 'f':
		row(second-1, n-1)
	case 'I':
		s.tab(n)
	case 'Z':
		s.tab(-n)
	case 'r': // DECSTBM
		foot := s.rows
		if len(ns) > 1 && ns[1] > 0 {
			foot = min(ns[1], s.rows)
		}
		if n < foot {
			s.top, s.foot = n-1, foot
			row(0, 0)
		}
	default:
		return false
	}
	return true
}

// edit carries out what erases, puts in and takes out; false: it is something else.
func (s *Screen) edit(ns []int, final byte) bool {
	n := max(1, ns[0])
	scrolls := s.y >= s.top && s.y < s.foot
	switch final {
	case 'J':
		s.eraseScreen(ns[0])
	case 'K':
		s.eraseLine(ns[0])
	case 'X':
		s.erase(s.x, s.x+n)
	case '@':
		s.shift(n)
	case 'P':
		s.shift(-n)
	case 'L', 'M':
		if scrolls {
			if final == 'L' {
				n = -n
			}
			s.scroll(s.y, n)
			s.x = 0
		}
	case 'S':
		s.scroll(s.top, n)
		return true
	case 'T':
		s.scroll(s.top, -n)
		return true
	default:
		return false
	}
	s.wrap = false
	return true
}

func (s *Screen) eraseLine(what int) {
	switch what {
	case 0:
		s.erase(s.x, s.cols)
	case 1:
		s.erase(0, s.x+1)
	case 2:
		s.erase(0, s.cols)
	}
}

func (s *Screen) eraseScreen(what int) {
	from, to := 0, s.rows
	switch what {
	case 0:
		s.eraseLine(0)
		from = s.y + 1
	case 1:
		s.eraseLine(1)
		to = s.y
	case 2:
	default: // 3 are the lines that have gone over the top
		return
	}
	y := s.y
	for s.y = from; s.y < to; s.y++ {
		s.fill(0, s.cols)
	}
	s.y = y
}
