package practice

import (
	"fmt"
	"strings"

	"example.org/vatside/model/wording"
)

// State is what goods have been through before they are scoured.
type State string

// The states. Greige is loom-state cotton, flax and hemp; Prepared is sold as prepared for dyeing.
const (
	Raw      State = "raw"
	Greige   State = "greige"
	Prepared State = "prepared"
	InGum    State = "in gum"
	Degummed State = "degummed"
	Yarn     State = "yarn"
	Greasy   State = "greasy"
)

// stateWords are the words for what goods have been through, the state's own first.
var stateWords = []struct {
	word string
	is   State
}{
	{"raw", Raw}, {"greige", Greige}, {"loom-state", Greige}, {"unbleached", Greige},
	{"prepared", Prepared}, {"pfd", Prepared}, {"white", Prepared}, {"bleached", Prepared},
	{"in gum", InGum}, {"in-gum", InGum}, {"gummed", InGum}, {"degummed", Degummed}, {"yarn", Yarn}, {"greasy", Greasy}, {"in grease", Greasy},
}

// ScourError tells why no scouring can be given: one sentence, without a full stop.
type ScourError struct{ Reason string }

// Error is the sentence.
func (e *ScourError) Error() string { return e.Reason }

// ParseState reads what goods have been through, in any case; "PFD" and "white" are prepared, "loom-state" is greige. An
// unknown word gives a *ScourError, whose sentence lists the known ones.
func ParseState(s string) (State, error) {
	said := strings.ToLower(strings.Join(strings.Fields(s), " "))
	var known []string
	for _, w := range stateWords {
		if said == w.word {
			return w.is, nil
		}
		if w.word == string(w.is) {
			known = append(known, w.word)
		}
	}
	if said == "" {
		return "", &ScourError{"no state of the goods is named; known are " + strings.Join(known, ", ")}
	}
	return "", &ScourError{fmt.Sprintf("%q is no state of goods known here; known are %s", wording.Typed(said), strings.Join(known, ", "))}
}
