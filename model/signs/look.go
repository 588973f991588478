package signs

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/recipe"
)

// Faults are the ready looks of a recipe that would be called a fault of the vat if they were seen: a dyer who finds what the
// recipe tells to look for must not be told that something ails it. It says nothing where the recipe's text has no such line.
func Faults(file string, r recipe.Recipe) recipe.Faults {
	var out recipe.Faults
	for i, s := range r.Steps {
		if s.Do != recipe.Check || s.Into != recipe.IntoVat {
			continue
		}
		for _, id := range againstReady(r.Family, lookedFor(s.Look)) {
			out = append(out, r.Fault(file, fmt.Sprintf("step.%d.look", i), fmt.Sprintf("%q is named as the look of a ready vat, and is a sign against one", words(id)),
				"name what a good vat shows: its colour in a clear glass, film, froth, the strip"))
		}
	}
	return out
}

// lookedFor are the signs that a look names, each at the head of a phrase: "a clear yellow to brown glass that turns blue in air"
// is clear, yellow and brown.
func lookedFor(look string) []string {
	var out []string
	for _, phrase := range strings.FieldsFunc(strings.ToLower(look), func(r rune) bool { return r == ',' || r == ';' }) {
		said := strings.Fields(phrase)
		for len(said) > 0 {
			sign, n := longest(said)
			switch {
			case n > 0:
				out = append(out, sign.ID)
			case slices.Contains([]string{"a", "an", "the", "to", "or", "and"}, said[0]):
				n = 1
			default:
				n = len(said)
			}
			said = said[n:]
		}
	}
	return out
}

// speaksAgainst is below which a sign speaks against a ready vat. M
const speaksAgainst = 0.5

// againstReady are those of the signs that speak against a ready vat of a family.
func againstReady(f recipe.Family, ids []string) []string {
	good := task{v: Vat{Recipe: recipe.Recipe{Family: f}}}.readyBelief().speaks
	return slices.DeleteFunc(ids, func(id string) bool {
		w, ok := good[id]
		return ok && w >= speaksAgainst || !ok && unspoken(id) >= speaksAgainst
	})
}
