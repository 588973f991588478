package emulator

import (
	"bytes"
	"slices"
	"unicode/utf8"
)

const (
	can = 0x18
	sub = 0x1a
	esc = 0x1b
	bel = 0x07
)

// Write takes output.
func (s *Screen) Write(p []byte) (int, error) {
	data := p
	if len(s.rest) > 0 {
		data = append(s.rest, p...)
	}
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
	case c == esc:
		return s.escape(data)
	case c < ' ' || c == 0x7f:
		s.control(c)
		return 1
	case c < 0x7f:
		s.print(rune(c))
		return 1
	}
	if !utf8.FullRune(data) {
		return 0
	}
	r, n := utf8.DecodeRune(data)
	if r >= 0x80 && r < 0xa0 { // C1 is ESC and a letter (ECMA-48 5.3), as long as its two bytes
		return s.escape(append([]byte{esc, byte(r - 0x40)}, data[2:]...))
	}
	s.print(r)
	return n
}

// control carries out a character of C0.
func (s *Screen) control(c byte) {
	s.forget()
	s.repeat = ""
	switch c {
	case '\r':
		s.x, s.wrap = 0, false
	case '\n', '\v', '\f':
		s.wrap = false
		s.down()
	case '\b':
		s.x, s.wrap = max(0, s.x-1), false
	case '\t':
		s.tab(1)
	}
}

// tab goes on by n stops of eight columns, or back by -n.
func (s *Screen) tab(n int) {
	stop := s.x / 8
	if n < 0 {
		stop = (s.x + 7) / 8
	}
	s.x, s.wrap = min(max(0, stop+n)*8, s.cols-1), false
}

func (s *Screen) escape(data []byte) int {
	if len(data) < 2 {
		return 0
	}
	if data[1] != '[' {
		s.repeat = ""
	}
	switch c := data[1]; c {
	case '[':
		return s.sequence(data)
	case ']', 'P', '_', '^', 'X':
		return s.text(data)
	case esc, can, sub:
		return 1
	case '(', ')', '*', '+', '#', ' ', '%':
		if len(data) < 3 {
			return 0
		}
		if c == '(' {
			s.charset = data[2]
		}
		return 3
	case '7':
		s.save()
	case '8':
		s.restore()
	case 'D', 'E', 'M': // IND, NEL, RI
		s.forget()
		s.wrap = false
		switch {
		case c == 'E':
			s.x = 0
			s.down()
		case c == 'D':
			s.down()
		case s.y == s.top:
			s.scroll(s.top, -1)
		default:
			s.y = max(0, s.y-1)
		}
	case '=', '>':
		s.keypad = c == '='
	case 'c':
		s.reset()
	}
	return 2
}

// sequence takes CSI, its parameters, intermediates and final (ECMA-48 5.4). Another ESC, CAN or SUB gives it up.
func (s *Screen) sequence(data []byte) int {
	for i := 2; i < len(data); i++ {
		switch c := data[i]; {
		case c == esc || c > 0x7e:
			return i
		case c == can || c == sub:
			return i + 1
		case c >= 0x40:
			params := data[2:i]
			at := bytes.IndexFunc(params, func(r rune) bool { return r >= ' ' && r < '0' })
			if at < 0 {
				at = len(params)
			}
			s.csi(string(params[:at]), string(params[at:]), c)
			return i + 1
		}
	}
	return 0
}

// text takes a string of control up to ST, or BEL as xterm does.
func (s *Screen) text(data []byte) int {
	for i := 2; i < len(data); i++ {
		switch {
		case data[i] == bel:
			s.osc(data[1], string(data[2:i]))
			return i + 1
		case data[i] == can || data[i] == sub:
			return i + 1
		case data[i] == 0xc2 && i+1 < len(data) && data[i+1] == 0x9c:
			s.osc(data[1], string(data[2:i]))
			return i + 2
		case data[i] == esc && i+1 < len(data):
			if data[i+1] != '\\' {
				return i
			}
			s.osc(data[1], string(data[2:i]))
			return i + 2
		}
	}
	return 0
}
