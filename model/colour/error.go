package colour

import (
	"fmt"
	"strings"
	"unicode"
)

// Error tells why a colour, a viewing condition or a spectrum was refused. Reason is one sentence for the person who wrote
// it, without a full stop, that says what would be right.
type Error struct {
	Line   int // the line of a spectrum's text, from 1; 0 where no one line is at fault
	Reason string
}

// Error is the sentence, after "line 7: " where a line is at fault.
func (e *Error) Error() string {
	if e.Line > 0 {
		return fmt.Sprintf("line %d: %s", e.Line, e.Reason)
	}
	return e.Reason
}

func fault(reason string) error { return &Error{Reason: reason} }

// shown makes typed text fit to stand in a sentence on a terminal: one line, no control characters, at most 40 runes.
func shown(s string) string {
	out := make([]rune, 0, 40)
	for _, r := range strings.TrimSpace(s) {
		if len(out) == 39 {
			return strings.TrimSpace(string(out)) + "…"
		}
		switch {
		case unicode.IsSpace(r):
			r = ' '
		case !unicode.IsPrint(r) || r == unicode.ReplacementChar:
			r = '?'
		}
		out = append(out, r)
	}
	return string(out)
}
