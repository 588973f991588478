package signs

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/fibre"
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
	return "", &ScourError{fmt.Sprintf("%q is no state of goods known here; known are %s", shortened(said), strings.Join(known, ", "))}
}

// shortened keeps what was typed on one line of a sentence.
func shortened(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return s
}

// StatesOf are the states in which a fibre is scoured, the usual one first; none of the Unknown fibre.
func StatesOf(f fibre.Fibre) []State {
	var out []State
	for _, r := range scours {
		if slices.Contains(r.fibres, f) {
			out = append(out, r.state)
		}
	}
	return out
}
