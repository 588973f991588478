package signs

import (
	"fmt"
	"slices"
	"strings"
)

// UnknownError is a word that no sign has.
type UnknownError struct{ Word string }

// Error is one sentence with the known signs, without a full stop.
func (e *UnknownError) Error() string {
	var list []string
	for _, k := range known {
		list = append(list, k.Words)
	}
	if e.Word == "" {
		return "say what is seen; known signs: " + strings.Join(list, "; ")
	}
	return fmt.Sprintf("no sign is called %q; known signs: %s", e.Word, strings.Join(list, "; "))
}

// Parse reads what was seen, such as "blue, cloudy" or "green and clear; pale swatch", in any case, by the signs' words,
// their IDs or the trade's other words. Commas, semicolons, line ends and "and" part the signs; a phrase that is none is
// tried word group by word group, so that "clear grass green" is two signs. Each sign comes once, in the order said.
// Words that are none, and no words, give an *UnknownError, whose sentence lists the known ones.
func Parse(said string) ([]Sign, error) {
	var out []Sign
	add := func(s Sign) {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for _, phrase := range strings.FieldsFunc(strings.ToLower(said), func(r rune) bool { return strings.ContainsRune(",;\n\r+", r) }) {
		words := strings.Fields(phrase)
		for len(words) > 0 {
			s, n := longest(words)
			if n == 0 {
				if words[0] == "and" || words[0] == "the" || words[0] == "liquor" || words[0] == "is" {
					words = words[1:]
					continue
				}
				return nil, &UnknownError{strings.Join(words, " ")}
			}
			add(s)
			words = words[n:]
		}
	}
	if len(out) == 0 {
		return nil, &UnknownError{}
	}
	return out, nil
}

// longest is the sign that the most of the first words name, and how many words that takes.
func longest(words []string) (Sign, int) {
	for n := len(words); n > 0; n-- {
		name := strings.Join(words[:n], " ")
		for _, k := range known {
			if name == k.ID || name == strings.ToLower(strings.ReplaceAll(k.Words, ",", "")) || slices.Contains(k.also, name) {
				return k.Sign, n
			}
		}
	}
	return Sign{}, 0
}
