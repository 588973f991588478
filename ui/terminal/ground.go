package terminal

import (
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// Ground is the terminal's answer to the question what colour its own background has: red, green and blue from 0 to 0xffff.
// It goes to the root of the screens as a message.
type Ground struct {
	R, G, B uint16
	Late    bool // it came after the screens had stopped waiting for it: it counts from the next start
}

// ask asks for the colour of the ground (xterm's OSC 11), and behind it for the terminal's kind (DA1), which every terminal
// answers: so it is known when no answer about the ground will come.
const ask = "\x1b]11;?\x1b\\\x1b[c"

// answer is an OSC of the terminal; nil where it does not tell of the ground.
func (p *parser) answer(text string) tea.Msg {
	number, value, _ := strings.Cut(text, ";")
	_, value, is := strings.Cut(value, ":") // rgb: or rgba:
	parts := strings.Split(value, "/")
	if number != "11" || !is || len(parts) < 3 {
		return nil
	}
	var g [3]uint16
	for i := range g {
		v, err := strconv.ParseUint(parts[i], 16, 16)
		if err != nil {
			return nil
		}
		g[i] = uint16(v * 0xffff / (1<<(4*len(parts[i])) - 1)) // one to four figures stand for the same range
	}
	p.awaits = false
	return Ground{R: g[0], G: g[1], B: g[2]}
}

// colourAnswer is how far a text goes on as an answer about a colour, "11;rgb:1e1e/1e1e/2e2e" up to BEL or ST. whole is false
// where its end is not there; n is 0 where it is none.
func colourAnswer(s string) (n int, whole bool) {
	for n < 3 && n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	if n == 0 {
		return 0, false
	}
	for _, c := range []byte(";rgb") {
		switch {
		case n == len(s):
			return n, false
		case s[n] != c:
			return 0, false
		}
		n++
	}
	if n < len(s) && s[n] == 'a' {
		n++
	}
	if n == len(s) {
		return n, false
	}
	if s[n] != ':' {
		return 0, false
	}
	for n++; n < len(s); n++ {
		switch c := s[n]; {
		case c >= '0' && c <= '9', c >= 'a' && c <= 'f', c >= 'A' && c <= 'F', c == '/':
		case c == '\a':
			return n + 1, true
		case c == '\x1b' && n+1 == len(s):
			return n + 1, false
		case c == '\x1b' && s[n+1] == '\\':
			return n + 2, true
		default:
			return 0, false
		}
	}
	return n, false
}
