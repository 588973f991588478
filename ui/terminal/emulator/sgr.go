package emulator

import (
	"strconv"
	"strings"
)

// sgr is a look after SGR (ECMA-48 8.3.117; the colours ISO 8613-6, with ; as xterm takes them too).
func sgr(l Look, params string) Look {
	parts := strings.Split(params, ";")
	for len(parts) > 0 {
		sub := strings.Split(parts[0], ":")
		used := 1
		switch n := number(sub[0]); {
		case n == 38 || n == 48 || n == 58: // 58 is the colour of underlines, which no cell has
			var c Colour
			var ok bool
			if len(sub) > 1 {
				c, ok = colonColour(sub[1:])
			} else {
				c, used, ok = colour(parts[1:])
				used++
			}
			if ok && n == 38 {
				l.Ink = c
			} else if ok && n == 48 {
				l.Ground = c
			}
		case n == 4 && len(sub) > 1: // 4:0 is none, others are kinds of line
			l.Attrs &^= Underline
			if number(sub[1]) > 0 {
				l.Attrs |= Underline
			}
		default:
			l = simple(l, n)
		}
		parts = parts[used:]
	}
	return l
}

// simple is a look after a parameter that stands alone.
func simple(l Look, n int) Look {
	switch {
	case n == 0:
		return Look{}
	case n >= 1 && n <= 5:
		l.Attrs |= Bold << (n - 1)
	case n == 6:
		l.Attrs |= Blink
	case n >= 7 && n <= 9:
		l.Attrs |= Reverse << (n - 7)
	case n == 21:
		l.Attrs |= Underline
	case n == 22:
		l.Attrs &^= Bold | Faint
	case n >= 23 && n <= 25:
		l.Attrs &^= Italic << (n - 23)
	case n >= 27 && n <= 29:
		l.Attrs &^= Reverse << (n - 27)
	case n >= 30 && n <= 37:
		l.Ink = Ansi(uint8(n - 30))
	case n == 39:
		l.Ink = NoColour
	case n >= 40 && n <= 47:
		l.Ground = Ansi(uint8(n - 40))
	case n == 49:
		l.Ground = NoColour
	case n >= 90 && n <= 97:
		l.Ink = Ansi(uint8(n - 90 + 8))
	case n >= 100 && n <= 107:
		l.Ground = Ansi(uint8(n - 100 + 8))
	}
	return l
}

// colour reads 5;n or 2;r;g;b and tells how many parameters it took. What is no colour counts for nothing.
func colour(parts []string) (c Colour, used int, ok bool) {
	switch {
	case len(parts) > 1 && parts[0] == "5":
		c, ok = ofParts(parts[1:2])
		return c, 2, ok
	case len(parts) > 3 && parts[0] == "2":
		c, ok = ofParts(parts[1:4])
		return c, 4, ok
	}
	return 0, len(parts), false // nobody can tell what belongs to it
}

// colonColour reads 5:n, 2:r:g:b or 2:space:r:g:b, after which a tolerance may stand.
func colonColour(sub []string) (Colour, bool) {
	switch {
	case len(sub) > 1 && sub[0] == "5":
		return ofParts(sub[1:2])
	case len(sub) > 4 && sub[0] == "2":
		return ofParts(sub[2:5])
	case len(sub) == 4 && sub[0] == "2":
		return ofParts(sub[1:4])
	}
	return 0, false
}

func ofParts(parts []string) (Colour, bool) {
	var ns [3]uint8
	for i, p := range parts {
		n := number(p)
		if n > 255 {
			return 0, false
		}
		ns[i] = uint8(n)
	}
	if len(parts) == 1 {
		return Indexed(ns[0]), true
	}
	return RGB(ns[0], ns[1], ns[2]), true
}

// number is a parameter, 0 where it is left out; what is none is one that means nothing.
func number(text string) int {
	if text == "" {
		return 0
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		return most
	}
	return n
}
