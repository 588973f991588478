package tree

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
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

// PlacesOf finds them up to where the text is no TOML. It is meant for a text with faults: a text of some KB takes a millisecond.
func PlacesOf(text []byte) *Places {
	p := &Places{text, []int{0}, map[string]int{}, map[string]Spot{}, map[string]Spot{}, map[string]Spot{}, map[string]map[string]Spot{}}
	for i, c := range text {
		if c == '\n' {
			p.lines = append(p.lines, i+1)
		}
	}
	var parser unstable.Parser
	parser.Reset(text)
	prefix := ""
	for parser.NextExpression() {
		switch e := parser.Expression(); e.Kind {
		case unstable.Table, unstable.ArrayTable:
			prefix = p.header(e)
		case unstable.KeyValue:
			p.pair(prefix, e)
		}
	}
	return p
}

// header takes a [table] or [[table]] line and gives the prefix of the keys under it.
func (p *Places) header(e *unstable.Node) string {
	name, from, to := dotted(e.Key())
	begin, end := "[", "]"
	if e.Kind == unstable.ArrayTable {
		begin, end = "[[", "]]"
		p.blocks[name]++
		name = fmt.Sprintf("%s.%d", name, p.blocks[name]-1)
	}
	from = bytes.LastIndex(p.text[:from], []byte(begin))
	to += bytes.Index(p.text[to:], []byte(end)) + len(end)
	p.heads[name] = p.at(from, to)
	return name + "."
}

// pair takes one key = value; of a key that stands twice, the first counts.
func (p *Places) pair(prefix string, e *unstable.Node) {
	name, from, to := dotted(e.Key())
	path := prefix + name
	if _, twice := p.keys[path]; twice {
		return
	}
	p.keys[path] = p.at(from, to)
	from = to + bytes.IndexByte(p.text[to:], '=') + 1
	from += len(p.text[from:]) - len(bytes.TrimLeft(p.text[from:], " \t"))
	p.values[path] = p.at(from, int(e.Raw.Offset+e.Raw.Length))
	if e.Value().Kind != unstable.Array {
		return
	}
	p.texts[path] = map[string]Spot{}
	for it := e.Value().Children(); it.Next(); {
		if n := it.Node(); n.Kind == unstable.String {
			p.texts[path][string(n.Data)] = p.at(int(n.Raw.Offset), int(n.Raw.Offset+n.Raw.Length))
		}
	}
}

// dotted is a key with its parts joined by dots, and its first byte and the one after its last.
func dotted(parts unstable.Iterator) (name string, from, to int) {
	var names []string
	for parts.Next() {
		n := parts.Node()
		if len(names) == 0 {
			from = int(n.Raw.Offset)
		}
		to = int(n.Raw.Offset + n.Raw.Length)
		names = append(names, string(n.Data))
	}
	return strings.Join(names, "."), from, to
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
