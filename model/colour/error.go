package colour

import (
	"fmt"
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
