package widget

import (
	"fmt"
	"testing"

	"example.org/vatside/ui/style"
)

// A long list, such as the log of a day, is read through once for a frame at most, not once for each of its lines; one without
// anything beside its lines not at all.
func TestALongListIsLittleWork(t *testing.T) {
	const lines = 400
	for aside, most := range map[string]float64{"": 200, "35 °C": 12 * lines} {
		var all []Choice
		for i := range lines {
			all = append(all, Choice{Text: fmt.Sprintf("12:%02d  #%d  the vat has 35 °C", i%60, i), Aside: aside})
		}
		st := style.New(style.Options{ASCII: true}) // each "°" is replaced in a new text
		if n := testing.AllocsPerRun(3, func() { Pick(all, lines/2, 76, 16, st) }); n > most {
			t.Errorf("%q beside its lines: %v allocations, and may be %v", aside, n, most)
		}
	}
}
