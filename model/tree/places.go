package tree

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Spot is a place in a text: line and column from 1, in characters, and how many characters it covers on that line.
type Spot struct{ Line, Col, Width int }

// Places are the spots of the headers, keys and values of a TOML text. A path is "id", "liquor.low", or "powder.1.dose" for the
// second [[powder]].
type Places struct {
	text   []byte
	lines  []int           // where each line begins, in bytes
	blocks map[string]int  // how many [[name]] there were
	heads  map[string]Spot // of [table] lines, without their comments
	keys   map[string]Spot
	values map[string]Spot
	texts  map[string]map[string]Spot // of an array's texts
}

// PlacesOf finds them up to a line that is neither a key with its value nor a header. It takes any text, with faults too.
func PlacesOf(text []byte) *Places {
	p := &Places{text, []int{0}, map[string]int{}, map[string]Spot{}, map[string]Spot{}, map[string]Spot{}, map[string]map[string]Spot{}}
	for i, c := range text {
		if c == '\n' {
			p.lines = append(p.lines, i+1)
		}
	}
	prefix := ""
	for at := 0; at < len(text); {
		switch c := text[at]; c {
		case ' ', '\t', '\r', '\n':
			at++
		case '#':
			at = lineEnd(text, at)
		case '[':
			prefix, at = p.header(at)
		default:
			at = p.pair(prefix, at)
		}
	}
	return p
}

// header takes a [table] or [[table]] line and gives the prefix of the keys under it, and the byte after it.
func (p *Places) header(from int) (prefix string, to int) {
	end := "]"
	if bytes.HasPrefix(p.text[from:], []byte("[[")) {
		end = "]]"
	}
	name, to := p.dotted(from + len(end))
	if to = p.blanks(to); name == "" || !bytes.HasPrefix(p.text[to:], []byte(end)) {
		return "", len(p.text)
	}
	if end == "]]" {
		p.blocks[name]++
		name = fmt.Sprintf("%s.%d", name, p.blocks[name]-1)
	}
	to += len(end)
	p.heads[name] = p.at(from, to)
	return name + ".", to
}

// pair takes one key = value and gives the byte after it; of a key that stands twice, the first counts.
func (p *Places) pair(prefix string, from int) (to int) {
	name, to := p.dotted(from)
	value := p.blanks(to)
	if name == "" || !bytes.HasPrefix(p.text[value:], []byte("=")) {
		return len(p.text)
	}
	value = p.blanks(value + 1)
	end, texts := p.value(value)
	if path := prefix + name; p.keys[path] == (Spot{}) {
		p.keys[path], p.values[path], p.texts[path] = p.at(from, to), p.at(value, end), texts
	}
	return end
}

// value is the byte after the value that begins at from, and the spots of the texts if it is an array.
func (p *Places) value(from int) (end int, texts map[string]Spot) {
	texts = map[string]Spot{}
	depth := 0
	for i := from; i < len(p.text); {
		c := p.text[i]
		to := i + 1
		switch c {
		case '"', '\'':
			if to = PastString(p.text, i); depth == 1 && p.text[from] == '[' {
				texts[unquoted(p.text[i:to])] = p.at(i, to)
			}
		case '#':
			i = lineEnd(p.text, i)
			continue
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case '\n':
			if depth <= 0 {
				return max(from, end), texts
			}
		}
		if i = to; !strings.ContainsRune(" \t\r\n", rune(c)) {
			end = to
		}
	}
	return max(from, end), texts
}

// dotted is a key with its parts joined by dots, and the byte after its last; empty where there is none.
func (p *Places) dotted(at int) (name string, to int) {
	for {
		from := p.blanks(at)
		to = from
		if to < len(p.text) && (p.text[to] == '"' || p.text[to] == '\'') {
			to = PastString(p.text, from)
		}
		for to < len(p.text) && bare(p.text[to]) {
			to++
		}
		if to == from {
			return "", to
		}
		name += unquoted(p.text[from:to])
		if at = p.blanks(to); !bytes.HasPrefix(p.text[at:], []byte(".")) {
			return name, to
		}
		name, at = name+".", at+1
	}
}

// unquoted is a key or a text without its quotes.
func unquoted(text []byte) string {
	if s, err := strconv.Unquote(string(text)); err == nil && text[0] == '"' {
		return s
	}
	return strings.Trim(string(text), `"'`)
}

// blanks is the first byte from at on that is no blank.
func (p *Places) blanks(at int) int {
	return len(p.text) - len(bytes.TrimLeft(p.text[at:], " \t"))
}

// lineEnd is the next line feed, or the end of the text.
func lineEnd(text []byte, at int) int {
	if n := bytes.IndexByte(text[at:], '\n'); n >= 0 {
		return at + n
	}
	return len(text)
}

// at turns bytes from..to into a spot; only the part on the first line is covered.
func (p *Places) at(from, to int) Spot {
	n, _ := slices.BinarySearch(p.lines, from+1)
	covered, _, _ := bytes.Cut(p.text[from:max(from, to)], []byte("\n"))
	return Spot{
		Line:  n,
		Col:   utf8.RuneCount(p.text[p.lines[n-1]:from]) + 1,
		Width: max(1, utf8.RuneCount(bytes.TrimRight(covered, " \t\r"))),
	}
}

// Key is the spot of a key, or of what encloses it.
func (p *Places) Key(path string) Spot {
	if s, ok := p.keys[path]; ok {
		return s
	}
	return p.Head(path)
}

// Value is the spot of a key's value, or of what encloses it.
func (p *Places) Value(path string) Spot {
	if s, ok := p.values[path]; ok {
		return s
	}
	return p.Head(path)
}

// Element is the spot of one text within an array, or of the array.
func (p *Places) Element(path, text string) Spot {
	if s, ok := p.texts[path][text]; ok {
		return s
	}
	return p.Value(path)
}

// Head is the spot of the nearest table header or key that encloses the path; the first line if there is none.
func (p *Places) Head(path string) Spot {
	for {
		if s, ok := p.heads[path]; ok {
			return s
		}
		if s, ok := p.keys[path]; ok {
			return s
		}
		cut := strings.LastIndexByte(path, '.')
		if cut < 0 {
			return Spot{1, 1, 1}
		}
		path = path[:cut]
	}
}
