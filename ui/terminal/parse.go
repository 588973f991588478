package terminal

import (
	"strconv"
	"strings"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
)

// A parser turns what a terminal sends into messages: keys, pastes, clicks, focus, and its answers. A sequence that has not come
// whole is kept until the rest comes or its time is over (patience): no part of an answer ever becomes a key.
type parser struct {
	rest     []byte
	pasting  bool
	paste    []byte
	awaits   bool // an answer of the terminal is on its way
	lapsed   bool // an Esc has just become a key, which may have been the beginning of what comes now
	skipping bool // in a text of the terminal that is longer than any it was asked for
}

// What is kept of a paste, and of a sequence without an end, at most.
const (
	mostPaste    = 64 << 10
	mostSequence = 4 << 10
)

// pasteEnd is what stands behind a bracketed paste (DEC private mode 2004).
const pasteEnd = "\x1b[201~"

// take reads what came.
func (p *parser) take(b []byte) []tea.Msg {
	b = append(p.rest, b...)
	p.rest = nil
	var out []tea.Msg
	for len(b) > 0 {
		if p.pasting {
			if b = p.more(b); p.pasting {
				break
			}
			out = append(out, pasted(string(p.paste)))
			p.paste = nil
			continue
		}
		if p.skipping {
			i := strings.IndexAny(string(b), "\a\\")
			if i < 0 {
				break
			}
			b, p.skipping = b[i+1:], false
			continue
		}
		msg, n := p.one(b)
		if n == 0 {
			p.rest = append([]byte(nil), b...)
			break
		}
		b, p.lapsed = b[n:], false
		if _, begins := msg.(pasteBegins); begins {
			p.pasting = true
		} else if msg != nil {
			out = appendKey(out, msg)
		}
	}
	return out
}

// appendKey puts letters that came together into one message, as bubbletea does.
func appendKey(out []tea.Msg, msg tea.Msg) []tea.Msg {
	k, is := msg.(tea.KeyMsg)
	if n := len(out) - 1; is && k.Type == tea.KeyRunes && !k.Alt && n >= 0 {
		if last, was := out[n].(tea.KeyMsg); was && last.Type == tea.KeyRunes && !last.Alt && !last.Paste {
			last.Runes = append(last.Runes, k.Runes...)
			out[n] = last
			return out
		}
	}
	return append(out, msg)
}

// more reads on in a paste and gives what stands behind it.
func (p *parser) more(b []byte) []byte {
	i := strings.Index(string(b), pasteEnd)
	text := b
	if i >= 0 {
		text, p.pasting = b[:i], false
	} else {
		for n := min(len(pasteEnd)-1, len(b)); n > 0; n-- { // the end may come in pieces
			if strings.HasPrefix(pasteEnd, string(b[len(b)-n:])) {
				text = b[:len(b)-n]
				p.rest = append([]byte(nil), b[len(b)-n:]...)
				break
			}
		}
	}
	p.paste = append(p.paste, text[:min(len(text), mostPaste-len(p.paste))]...)
	if i < 0 {
		return nil
	}
	return b[i+len(pasteEnd):]
}

// pasted is a text that was pasted, as a message.
func pasted(text string) tea.KeyMsg {
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(strings.ToValidUTF8(text, "")), Paste: true}
}

// How the rest of a sequence is waited for.
type patience int

const (
	noPatience patience = iota // nothing is waited for
	aMoment                    // it may be the Esc key
	long                       // it is a sequence, on a slow line
	always                     // it can only be the terminal's answer
)

// waits tells how long the rest is waited for.
func (p *parser) waits() patience {
	switch r := p.rest; {
	case p.pasting, p.skipping:
		return long
	case len(r) == 0:
		return noPatience
	case p.lapsed && r[0] != '\x1b':
		if len(r) == 1 {
			return aMoment
		}
		return long
	case r[0] == '\x1b' && len(r) == 1:
		return aMoment
	case len(r) == 1: // half a character
		return long
	case r[1] == ']' && len(r) == 2:
		if p.awaits {
			return always
		}
		return aMoment
	case r[1] == ']':
		if n, _ := colourAnswer(string(r[2:])); n == len(r)-2 {
			return always
		}
	case r[1] != '[' && len(r) == 2:
		return aMoment
	}
	return long
}

// lapse says that the rest did not come in its time.
func (p *parser) lapse() []tea.Msg {
	r := p.rest
	was := p.lapsed
	p.rest, p.skipping, p.lapsed = nil, false, false
	switch {
	case p.pasting:
		text := string(p.paste)
		p.pasting, p.paste = false, nil
		return []tea.Msg{pasted(text)}
	case len(r) == 1 && r[0] == '\x1b':
		p.lapsed = true
		return []tea.Msg{tea.KeyMsg{Type: tea.KeyEsc}}
	case was && len(r) == 1:
		return []tea.Msg{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(string(r))}}
	case len(r) == 2 && r[0] == '\x1b':
		return []tea.Msg{tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{rune(r[1])}, Alt: true}}
	}
	return nil
}

// pasteBegins is a bracket before a paste.
type pasteBegins struct{}

// one reads one message off the front and gives its length; 0: more must come. A nil message is nothing for the screens.
func (p *parser) one(b []byte) (tea.Msg, int) {
	switch c := b[0]; {
	case c == '\x1b':
		return p.escape(b)
	case c == ' ':
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}, 1
	case c == '\b':
		return tea.KeyMsg{Type: tea.KeyBackspace}, 1
	case c < ' ' || c == 0x7f:
		return tea.KeyMsg{Type: tea.KeyType(c)}, 1
	case (c == '[' || c == ']') && p.lapsed:
		msg, n := p.escape(append([]byte{'\x1b'}, b...))
		if _, key := msg.(tea.KeyMsg); !key {
			return msg, max(n-1, 0)
		}
	}
	if !utf8.FullRune(b) {
		return nil, 0
	}
	r, n := utf8.DecodeRune(b)
	if r == utf8.RuneError && n == 1 {
		return nil, 1
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}, n
}

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
		case b[i] < ' ':
			return nil, i, true // broken off
		case b[1] == ']' && i == 2 && (b[i] < '0' || b[i] > '9'):
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
		if number == "200" {
			return pasteBegins{}
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
