package book

import (
	"bytes"
	"strings"

	"example.org/vatside/model/tree"
)

// recipeLine is the line of the head under which the recipe stands.
const recipeLine = "[recipe]"

// within is how many bytes a header has in front of it inside the head: "recipe.", perhaps with blanks. 0: it has none.
func within(text []byte) int {
	blanks := func(at int) int {
		for at < len(text) && (text[at] == ' ' || text[at] == '\t') {
			at++
		}
		return at
	}
	at := blanks(0)
	if !bytes.HasPrefix(text[at:], recipeName) {
		return 0
	}
	if at = blanks(at + len(recipeName)); at == len(text) || text[at] != '.' {
		return 0
	}
	return at + 1
}

// recipeName is the first part of each header within the recipe.
var recipeName = []byte("recipe")

// inset moves a recipe's text under [recipe]: [x] becomes [recipe.x] and [[x]] becomes [[recipe.x]]; all else stays as
// the dyer wrote it, but for CRLF and a byte order mark, which would stand in the middle of the file.
func inset(text string) []byte {
	src := unixLines([]byte(strings.TrimPrefix(text, "\ufeff")))
	var out []byte
	last := 0
	for _, at := range headers(src) {
		out = append(append(out, src[last:at]...), "recipe."...)
		last = at
	}
	out = append(out, src[last:]...)
	if len(out) > 0 && out[len(out)-1] != '\n' {
		out = append(out, '\n')
	}
	return out
}

// outset is the recipe's own text again.
func outset(text []byte) string {
	var out []byte
	last := 0
	for _, at := range headers(text) {
		out = append(out, text[last:at]...)
		last = at + within(text[at:])
	}
	return string(append(out, text[last:]...))
}

// recipeIn parts the head at its [recipe] line.
func recipeIn(head []byte) (own, text []byte, found bool) {
	for _, at := range headers(head) {
		from := bytes.LastIndexByte(head[:at], '\n') + 1
		end := lineEnd(head, at)
		if string(bytes.TrimSpace(head[from:end])) == recipeLine {
			return head[:from], head[min(end+1, len(head)):], true
		}
	}
	return head, nil, false
}

// headers are the bytes after the bracket or brackets of each [table] and [[table]] line. Brackets within values,
// strings and comments are none.
func headers(text []byte) []int {
	var at []int
	for i := 0; i < len(text); {
		switch c := text[i]; {
		case c == ' ' || c == '\t' || c == '\r' || c == '\n':
			i++
		case c == '#':
			i = lineEnd(text, i)
		case c == '[':
			n := i + 1
			if n < len(text) && text[n] == '[' {
				n++
			}
			at = append(at, n)
			i = lineEnd(text, i)
		default:
			i = pairEnd(text, i)
		}
	}
	return at
}

// pairEnd is the byte after the key = value that begins at i: the end of its line, past strings and brackets.
func pairEnd(text []byte, i int) int {
	depth := 0
	for i < len(text) {
		switch text[i] {
		case '"', '\'':
			i = tree.PastString(text, i)
			continue
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case '#':
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

// lineEnd is the byte of the next line feed, or the length.
func lineEnd(text []byte, i int) int {
	if n := bytes.IndexByte(text[i:], '\n'); n >= 0 {
		return i + n
	}
	return len(text)
}
