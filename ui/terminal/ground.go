package terminal

import (
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/wording"
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

// colourAnswer is the beginning of an answer about a colour, "11;rgb:1e1e/1e1e/2e2e" and half of ST.
var colourAnswer = wording.Pattern(`^\d{1,3}(;|$)(r|$)(g|$)(ba?|$)(:|$)[\da-fA-F/]*\x1b?$`)
