package tree

import "bytes"

// depthMost is how many tables and lists of a text may lie in one another. The texts of a dyer go to 4. The decoder's time
// grows with the square of the depth.
const depthMost = 10

// TooDeep finds the line, from 1, in which tables, lists or dotted keys of a TOML text lie deeper in one another than
// depthMost; 0 where none do. Brackets and dots within strings and comments do not count. It reads any text, in time
// that grows with its length alone, and goes before every decoding.
func TooDeep(text []byte) (line int) {
	var outer [depthMost + 1]int // the depth at which each open bracket stands
	open, depth, line := 0, 0, 1
	header, fresh := false, true // the line is a [table]; nothing stands on it yet
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case c == ' ' || c == '\t' || c == '\r':
			i++
			continue
		case c == '\n':
			if line++; header || open == 0 {
				open, depth = 0, 0
			}
			header, fresh = false, true
			i++
			continue
		case c == '#':
			if n := bytes.IndexByte(text[i:], '\n'); n >= 0 {
				i += n
			} else {
				i = len(text)
			}
			continue
		case c == '"' || c == '\'':
			end := PastString(text, i)
			line += bytes.Count(text[i:end], []byte("\n"))
			i, fresh = end, false
			continue
		case c == '[' || c == '{':
			if fresh && open == 0 {
				header = c == '['
			}
			if depth+1 > depthMost {
				return line
			}
			outer[open], depth = depth, depth+1
			open++
		case c == ']' || c == '}':
			if open > 0 {
				open--
				depth = outer[open]
			}
		case c == '.':
			if depth++; depth > depthMost {
				return line
			}
		case c == ',' && open > 0:
			depth = outer[open-1] + 1
		}
		i, fresh = i+1, false
	}
	return 0
}

// What is said where TooDeep finds a line, and what would be right.
const (
	DeepWords = "its tables or lists lie too deep in one another"
	DeepRight = "a text of a dyer's goes 4 deep, and 10 are read"
)

// PastString is the byte after the string that begins at i; one that is not closed ends with its line.
func PastString(text []byte, i int) int {
	quote, long := text[i], false
	if i+2 < len(text) && text[i+1] == quote && text[i+2] == quote {
		long = true
		i += 2
	}
	for i++; i < len(text); i++ {
		switch c := text[i]; {
		case c == '\\' && quote == '"':
			i++
		case c == '\n' && !long:
			return i
		case c == quote && !long:
			return i + 1
		case c == quote && i+2 < len(text) && text[i+1] == quote && text[i+2] == quote:
			for i += 3; i < len(text) && text[i] == quote; i++ { // up to two quotes may stand before the closing ones
			}
			return i
		}
	}
	return len(text)
}
