package recipe

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// spot is a place in the text: line and column from 1, in characters, and how many characters it covers.
type spot struct{ line, col, width int }

// places are the spots of headers, keys and values in TOML that is known to be well formed. A path is "id",
// "liquor.low", or "powder.1.dose" for the second [[powder]].
type places struct {
	text  []byte
	lines []int // where each line begins, in bytes
	count map[string]int
	heads map[string]spot // [table] lines
	keys  map[string]spot
	vals  map[string]spot
	offs  map[string]int // where a value begins, in bytes
}

// findPlaces scans headers and keys. It never fails: what it cannot follow has no place of its own.
func findPlaces(text []byte) *places {
	p := &places{text, []int{0}, map[string]int{}, map[string]spot{}, map[string]spot{}, map[string]spot{}, map[string]int{}}
	for i, c := range text {
		if c == '\n' {
			p.lines = append(p.lines, i+1)
		}
	}
	prefix := ""
	for i := 0; i < len(text); {
		switch c := text[i]; {
		case c == ' ' || c == '\t' || c == '\r' || c == '\n':
			i++
		case c == '#':
			i = lineEnd(text, i)
		case c == '[':
			prefix = p.header(i)
			i = lineEnd(text, i)
		default:
			i = p.pair(prefix, i)
		}
	}
	return p
}

// header takes one [table] or [[table]] line and gives the prefix of the keys under it.
func (p *places) header(i int) string {
	line := strings.TrimSpace(string(p.text[i:lineEnd(p.text, i)]))
	inner, _, _ := strings.Cut(strings.TrimLeft(line, "["), "]")
	name := bare(inner)
	if strings.HasPrefix(line, "[[") {
		n := p.count[name]
		p.count[name] = n + 1
		name = fmt.Sprintf("%s.%d", name, n)
	}
	closing := strings.LastIndex(strings.SplitN(line, "#", 2)[0], "]") + 1
	p.heads[name] = p.at(i, i+closing)
	return name + "."
}

// pair takes one key = value and gives the byte after it.
func (p *places) pair(prefix string, i int) int {
	eq := i
	for eq < len(p.text) && p.text[eq] != '=' && p.text[eq] != '\n' {
		if p.text[eq] == '"' || p.text[eq] == '\'' {
			eq = stringEnd(p.text, eq)
			continue
		}
		eq++
	}
	if eq >= len(p.text) || p.text[eq] == '\n' {
		return eq + 1
	}
	raw := strings.TrimRight(string(p.text[i:eq]), " \t")
	path := prefix + bare(raw)
	from := eq + 1
	for from < len(p.text) && (p.text[from] == ' ' || p.text[from] == '\t') {
		from++
	}
	end := valueEnd(p.text, from)
	if _, twice := p.keys[path]; !twice {
		p.keys[path] = p.at(i, i+len(raw))
		p.vals[path] = p.at(from, from+len(strings.TrimRight(string(p.text[from:end]), " \t\r\n")))
		p.offs[path] = from
	}
	return end
}

// at turns bytes from..to into a spot; only the part on the first line is covered.
func (p *places) at(from, to int) spot {
	from, to = min(from, len(p.text)), min(to, len(p.text))
	n, _ := slices.BinarySearch(p.lines, from+1)
	covered, _, _ := bytes.Cut(p.text[from:max(from, to)], []byte("\n"))
	return spot{
		line:  n,
		col:   utf8.RuneCount(p.text[p.lines[n-1]:from]) + 1,
		width: max(1, utf8.RuneCount(bytes.TrimRight(covered, "\r"))),
	}
}

// key is the spot of a key, or of what encloses it.
func (p *places) key(path string) spot {
	if s, ok := p.keys[path]; ok {
		return s
	}
	return p.head(path)
}

// value is the spot of a key's value, or of what encloses it.
func (p *places) value(path string) spot {
	if s, ok := p.vals[path]; ok {
		return s
	}
	return p.head(path)
}

// element is the spot of one text within an array, or of the array.
func (p *places) element(path, text string) spot {
	from, ok := p.offs[path]
	if !ok {
		return p.head(path)
	}
	for i, end := from, valueEnd(p.text, from); i < end; {
		switch p.text[i] {
		case '"', '\'':
			next := stringEnd(p.text, i)
			if strings.Trim(string(p.text[i:next]), `"'`) == text {
				return p.at(i, next)
			}
			i = next
		case '#':
			i = lineEnd(p.text, i)
		default:
			i++
		}
	}
	return p.vals[path]
}

// head is the spot of the nearest table header, key or value that encloses the path; the first line if there is none.
func (p *places) head(path string) spot {
	for {
		if s, ok := p.heads[path]; ok {
			return s
		}
		if s, ok := p.keys[path]; ok {
			return s
		}
		cut := strings.LastIndexByte(path, '.')
		if cut < 0 {
			return spot{1, 1, 1}
		}
		path = path[:cut]
	}
}

// bare is a key without its quotes and without blanks round its dots.
func bare(key string) string {
	parts := strings.Split(key, ".")
	for i, s := range parts {
		parts[i] = strings.Trim(strings.TrimSpace(s), `"'`)
	}
	return strings.Join(parts, ".")
}

// lineEnd is the byte of the next line feed, or the length.
func lineEnd(text []byte, i int) int {
	if n := bytes.IndexByte(text[i:], '\n'); n >= 0 {
		return i + n
	}
	return len(text)
}

// stringEnd is the byte after the TOML string that begins at i.
func stringEnd(text []byte, i int) int {
	quote := text[i]
	if long := bytes.Repeat([]byte{quote}, 3); bytes.HasPrefix(text[i:], long) {
		for j := i + 3; j < len(text); j++ {
			if text[j] == '\\' && quote == '"' {
				j++
			} else if bytes.HasPrefix(text[j:], long) {
				j += 3
				for j < len(text) && text[j] == quote {
					j++
				}
				return j
			}
		}
		return len(text)
	}
	for j := i + 1; j < len(text); j++ {
		switch {
		case text[j] == '\\' && quote == '"':
			j++
		case text[j] == quote:
			return j + 1
		case text[j] == '\n':
			return j
		}
	}
	return len(text)
}

// valueEnd is the byte after the value that begins at i: the end of its line, past strings and brackets.
func valueEnd(text []byte, i int) int {
	for depth := 0; i < len(text); {
		switch text[i] {
		case '"', '\'':
			i = stringEnd(text, i)
			continue
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case '#':
			if depth <= 0 {
				return i
			}
			i = lineEnd(text, i)
			continue
		case '\n':
			if depth <= 0 {
				return i
			}
		}
		i++
	}
	return i
}
