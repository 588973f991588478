package terminal

import (
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
		switch msg.(type) {
		case nil:
		case pasteBegins:
			p.pasting = true
		case pasteEnds:
			out = unkeyed(out)
		default:
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

// unkeyed makes the keys at the end of what came a paste: a second end stands behind them, so the first was in the text itself.
func unkeyed(out []tea.Msg) []tea.Msg {
	from := len(out)
	for from > 0 {
		if k, is := out[from-1].(tea.KeyMsg); !is || k.Paste {
			break
		}
		from--
	}
	var text []rune
	for _, msg := range out[from:] {
		text = append(text, characters(msg.(tea.KeyMsg))...)
	}
	if len(text) == 0 {
		return out[:from]
	}
	return append(out[:from], pasted(string(text)))
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
	case r[0] != '\x1b': // half a character, or what begins with one of C1
		return long
	case r[1] == ']' && len(r) == 2:
		if p.awaits {
			return always
		}
		return aMoment
	case r[1] == ']':
		if colourAnswer().Match(r[2:]) {
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

// The brackets about a paste; its end is seen only where none has begun.
type (
	pasteBegins struct{}
	pasteEnds   struct{}
)

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
	if msg, n, is := p.oneByte(b, r, n); is {
		return msg, n
	}
	if r == utf8.RuneError && n == 1 {
		return nil, 1
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}, n
}

// oneByte reads what begins with a control character of one byte (C1), bare or as UTF-8 has it, in place of Esc and another: some
// terminals answer so.
func (p *parser) oneByte(b []byte, r rune, n int) (tea.Msg, int, bool) {
	if n == 1 && r == utf8.RuneError {
		r = rune(b[0])
	}
	switch r {
	case 0x8f, 0x90, 0x98, 0x9b, 0x9d, 0x9e, 0x9f:
	default:
		return nil, 0, false
	}
	if len(b) == n {
		return nil, 0, true
	}
	msg, used := p.escape(append([]byte{'\x1b', byte(r - 0x40)}, b[n:]...))
	if used == 0 {
		return nil, 0, true
	}
	if k, is := msg.(tea.KeyMsg); is && k.Alt && used <= 2 { // it begins nothing
		return nil, n, true
	}
	return msg, max(used-2+n, n), true
}
