package terminal

import (
	"strconv"
	"strings"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
)

// escape reads what begins with Esc.
func (p *parser) escape(b []byte) (tea.Msg, int) {
	if len(b) < 2 {
		return nil, 0
	}
	switch b[1] {
	case '[':
		return p.control(b)
	case 'O':
		if len(b) < 3 {
			return nil, 0
		}
		if k, is := singles[b[2]]; is {
			return tea.KeyMsg{Type: k}, 3
		}
		if i := strings.IndexByte(keypad, b[2]); i >= 0 {
			return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{rune(typed[i])}}, 3
		}
	case ']', 'P', '_', '^', 'X':
		if msg, n, is := p.text(b); is {
			return msg, n
		}
	case '\x1b':
		return tea.KeyMsg{Type: tea.KeyEsc}, 1
	}
	msg, n := p.one(b[1:])
	if n == 0 {
		return nil, 0
	}
	if k, is := msg.(tea.KeyMsg); is {
		k.Alt = true
		msg = k
	}
	return msg, 1 + n
}

// text reads a string of the terminal (OSC, DCS, APC, PM, SOS), up to ST or BEL. It is none where it could not be one that a
// terminal sends: then it was a key with Alt.
func (p *parser) text(b []byte) (tea.Msg, int, bool) {
	for i := 2; i < len(b) && i < mostSequence; i++ {
		switch {
		case b[i] == '\a', b[i] == '\x1b' && i+1 < len(b) && b[i+1] == '\\':
			n := i + 1
			if b[i] == '\x1b' {
				n++
			}
			if b[1] == ']' {
				return p.answer(string(b[2:i])), n, true
			}
			return nil, n, true
		case b[i] == '\x1b' && i+1 == len(b): // half of ST
		case b[i] == 0x9c && (b[i-1] < utf8.RuneSelf || b[i-1] == 0xc2): // ST in one byte, or as UTF-8 has it
			if b[1] == ']' {
				return p.answer(strings.TrimSuffix(string(b[2:i]), "\xc2")), i + 1, true
			}
			return nil, i + 1, true
		case b[i] < ' ':
			return nil, i, true // broken off
		case b[1] == ']' && i == 2 && (b[i] < '0' || b[i] > '9') && b[i] != 'l' && b[i] != 'L': // these tell the window's title
			return nil, 0, false
		}
	}
	if len(b) >= mostSequence {
		p.skipping = true
		return nil, mostSequence, true
	}
	return nil, 0, true
}

// control reads a control sequence.
func (p *parser) control(b []byte) (tea.Msg, int) {
	if len(b) > 2 && b[2] == '[' { // F1 to F5 of the Linux console
		if len(b) < 4 {
			return nil, 0
		}
		if k := consoles[b[3]]; k != 0 {
			return tea.KeyMsg{Type: k}, 4
		}
		return nil, 4
	}
	for i := 2; i < len(b); i++ {
		c := b[i]
		switch {
		case c >= 0x40 && c <= 0x7e:
			if c == 'M' && i == 2 { // a click in the oldest form: three bytes more
				if len(b) < 6 {
					return nil, 0
				}
				return click(int(b[3])-32, int(b[4])-33, int(b[5])-33, true), 6
			}
			return p.controlled(string(b[2:i]), c), i + 1
		case c < 0x20 || c > 0x7e || i > 64:
			return nil, i // broken off
		}
	}
	return nil, 0
}

// singles are keys that end in one letter; tildes are those with a number and a tilde.
var (
	singles = map[byte]tea.KeyType{
		'A': tea.KeyUp, 'B': tea.KeyDown, 'C': tea.KeyRight, 'D': tea.KeyLeft, 'H': tea.KeyHome, 'F': tea.KeyEnd, 'M': tea.KeyEnter,
		'P': tea.KeyF1, 'Q': tea.KeyF2, 'R': tea.KeyF3, 'S': tea.KeyF4,
	}
	tildes = map[string]tea.KeyType{
		"1": tea.KeyHome, "2": tea.KeyInsert, "3": tea.KeyDelete, "4": tea.KeyEnd, "5": tea.KeyPgUp, "6": tea.KeyPgDown, "7": tea.KeyHome,
		"8": tea.KeyEnd, "11": tea.KeyF1, "12": tea.KeyF2, "13": tea.KeyF3, "14": tea.KeyF4, "15": tea.KeyF5, "17": tea.KeyF6,
		"18": tea.KeyF7, "19": tea.KeyF8, "20": tea.KeyF9, "21": tea.KeyF10, "23": tea.KeyF11, "24": tea.KeyF12,
	}
	consoles = map[byte]tea.KeyType{'A': tea.KeyF1, 'B': tea.KeyF2, 'C': tea.KeyF3, 'D': tea.KeyF4, 'E': tea.KeyF5}
)

// What the number block types where a program before has set it so (DECKPAM).
const (
	keypad = "jklmnopqrstuvwxyX"
	typed  = "*+,-./0123456789="
)

// controlled is what a control sequence says. Keys with Shift or Ctrl are others than those without, and none that are used.
func (p *parser) controlled(params string, final byte) tea.Msg {
	switch {
	case final == 'I' && params == "":
		return tea.FocusMsg{}
	case final == 'O' && params == "":
		return tea.BlurMsg{}
	case final == 'Z' && params == "":
		return tea.KeyMsg{Type: tea.KeyShiftTab}
	case (final == 'M' || final == 'm') && strings.HasPrefix(params, "<"):
		f := strings.Split(params[1:], ";")
		if len(f) != 3 {
			return nil
		}
		button, _ := strconv.Atoi(f[0])
		x, _ := strconv.Atoi(f[1])
		y, _ := strconv.Atoi(f[2])
		return click(button, x-1, y-1, final == 'M')
	case final == 'c' && strings.HasPrefix(params, "?"):
		p.awaits = false // asked last, so answered last
		return nil
	case final == '~':
		number, with, _ := strings.Cut(params, ";")
		switch number {
		case "200":
			return pasteBegins{}
		case "201":
			return pasteEnds{}
		}
		if k, is := tildes[number]; is && (with == "" || with == "3") {
			return tea.KeyMsg{Type: k, Alt: with != ""}
		}
	default:
		if k, is := singles[final]; is && final != 'M' && (params == "" || params == "1;3") {
			return tea.KeyMsg{Type: k, Alt: params != ""}
		}
	}
	return nil
}

// click is a button of the mouse, by xterm's number of it.
func click(button, x, y int, press bool) tea.Msg {
	m := tea.MouseMsg{X: x, Y: y, Action: tea.MouseActionPress, Shift: button&4 != 0, Alt: button&8 != 0, Ctrl: button&16 != 0}
	if !press || button&64 == 0 && button&3 == 3 {
		m.Action = tea.MouseActionRelease
	}
	if button&32 != 0 {
		m.Action = tea.MouseActionMotion
	}
	switch button &^ (4 | 8 | 16 | 32) {
	case 0:
		m.Button = tea.MouseButtonLeft
	case 1:
		m.Button = tea.MouseButtonMiddle
	case 2:
		m.Button = tea.MouseButtonRight
	case 64:
		m.Button = tea.MouseButtonWheelUp
	case 65:
		m.Button = tea.MouseButtonWheelDown
	default:
		m.Button = tea.MouseButtonNone
	}
	return m
}
