// Package tree reads TOML that is written plainly, as the program itself writes it and as recipes are written: a key, an
// equals sign and a value on one line, under [table] and [[table]] headers. The start of the program reads a day of some
// hundred events before its first screen, and the toml package takes ten times as long for them.
//
// What is written in any other way, and what is wrong, is left to the toml package, which also knows the places of faults:
// Plain steps aside. What it does read it reads to the very same values; tests and a fuzz target compare the two.
package tree

import (
	"strings"
	"unicode/utf8"
)

// Plain is a text as a tree: text, int64, float64, bool, time.Time, []any, and for tables map[string]any and
// []map[string]any. False where the text is not plain: the toml package then says what it is.
func Plain(text []byte) (map[string]any, bool) {
	if !utf8.Valid(text) {
		return nil, false
	}
	r := reader{text: string(text), root: make(map[string]any, 8)}
	r.table = r.root
	for r.at < len(r.text) {
		if !r.line() {
			return nil, false
		}
	}
	return r.root, true
}

// reader is a text on its way to a tree.
type reader struct {
	text  string
	at    int // the byte that is read next
	root  map[string]any
	table map[string]any // the one that keys go into
}

func (r *reader) blanks() {
	for r.at < len(r.text) && (r.text[r.at] == ' ' || r.text[r.at] == '\t') {
		r.at++
	}
}

// next is the byte that is read next; a line feed at the end of the text.
func (r *reader) next() byte {
	if r.at < len(r.text) {
		return r.text[r.at]
	}
	return '\n'
}

// line reads one line with its line feed; false where it is not plain.
func (r *reader) line() bool {
	r.blanks()
	switch c := r.next(); {
	case c == '\n' || c == '#':
		return r.end()
	case c == '[':
		return r.header() && r.end()
	}
	key := r.key()
	if key == "" {
		return false
	}
	if _, twice := r.table[key]; twice {
		return false
	}
	r.blanks()
	if r.next() != '=' {
		return false
	}
	r.at++
	r.blanks()
	v, ok := r.value()
	if !ok {
		return false
	}
	r.table[key] = v
	return r.end()
}

// end reads what may stand behind a value or a header: blanks, a comment, the line feed.
func (r *reader) end() bool {
	r.blanks()
	if r.next() == '#' {
		rest := r.text[r.at:]
		if n := strings.IndexByte(rest, '\n'); n >= 0 {
			rest = rest[:n]
		}
		if hasControl(rest) {
			return false
		}
		r.at += len(rest)
	}
	if r.next() != '\n' {
		return false
	}
	r.at = min(r.at+1, len(r.text))
	return true
}

// hasControl tells of a control character other than a tab, which TOML allows in no comment and in no string.
func hasControl(s string) bool {
	for i := range len(s) {
		if c := s[i]; c < ' ' && c != '\t' || c == 0x7f {
			return true
		}
	}
	return false
}

// key reads a bare key; empty where there is none.
func (r *reader) key() string {
	from := r.at
	for r.at < len(r.text) && bare(r.text[r.at]) {
		r.at++
	}
	return r.text[from:r.at]
}

// bare tells of a character of a bare key.
func bare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-'
}

// header reads [a], [a.b], [[a]] or [[a.b]]. A table that is there already is opened again as one more of a list alone.
func (r *reader) header() bool {
	list := strings.HasPrefix(r.text[r.at:], "[[")
	r.at++
	if list {
		r.at++
	}
	name := r.key()
	if name == "" {
		return false
	}
	in := r.root
	if r.next() == '.' {
		r.at++
		switch outer := in[name].(type) {
		case nil:
			sub := map[string]any{}
			in[name] = sub
			in = sub
		case map[string]any:
			in = outer
		default:
			return false
		}
		if name = r.key(); name == "" {
			return false
		}
	}
	if !strings.HasPrefix(r.text[r.at:], "]") || list && !strings.HasPrefix(r.text[r.at:], "]]") {
		return false
	}
	r.at++
	r.table = make(map[string]any, 8)
	if !list {
		if _, twice := in[name]; twice {
			return false
		}
		in[name] = r.table
		return true
	}
	r.at++
	switch those := in[name].(type) {
	case nil:
		in[name] = []map[string]any{r.table}
	case []map[string]any:
		in[name] = append(those, r.table)
	default:
		return false
	}
	return true
}
