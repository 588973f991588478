package answer

import (
	"maps"
	"regexp"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
)

// The letters that the steps of a vat's end name are keys of the table, and mean there what the step says.
func TestTheEndNamesKeysOfTheTable(t *testing.T) {
	soda, _ := recipes.Find("soda")
	s, err := day.Begin(day.Head{Vat: "bin", Day: "2026-05-20", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 3, Built: true, Sulfur: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors, Ending: true, Units: "metric"}})
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]string{}
	for _, st := range s.Plan {
		for _, m := range regexp.MustCompile(`(?:[:,]|then|else) ([a-zA-Z])[,.;]`).FindAllStringSubmatch(st.How, -1) {
			r, _ := ByKey(m[1])
			named[m[1]] = r.ID
		}
	}
	if want := map[string]string{"t": "strip", "y": "ready", "n": "not yet", "h": "ph", "s": "skip", "W": "went"}; !maps.Equal(named, want) {
		t.Errorf("they name %v", named)
	}
}
