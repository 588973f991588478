package quantity

// Code says for the machine why a quantity was refused.
type Code int

// The reasons for a refusal.
const (
	Empty       Code = iota // nothing typed
	BadNumber               // no number, or one that cannot be read
	Ambiguous               // two readings, both named in the sentence
	MissingUnit             // a number alone
	UnknownUnit             // a unit that is not in the table
	WrongKind               // a unit of another kind of quantity
	OutOfRange              // negative, below absolute zero, over 100 %, or too large to hold
)

// ParseError tells why Input is not a quantity of the kind Want ("mass").
// Reason is one sentence for the person who typed it, without a full stop; Error gives just that sentence.
type ParseError struct {
	Input  string
	Want   string
	Code   Code
	Reason string
}

// Error is the sentence for the person.
func (e *ParseError) Error() string { return e.Reason }
