package prepare

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Slot is one stretch of the morning, reckoned back from the wished start.
type Slot struct {
	At   time.Time
	For  quantity.Span
	What string
}

// heatTheWater is what is said of the hot water.
const heatTheWater = "heat the water"

// WetOut is how long goods soak before the first dip: cotton and linen at least an hour (common practice).
const WetOut = quantity.Span(time.Hour)

// Backwards lays the morning out so that the first piece can go in at an instant: the steps of the plan one after the
// other, the water heated before it is poured, the goods soaking meanwhile. heat is how long the hot water takes; 0 where
// it comes from the tap. In order of time; the first slot is when to begin.
func Backwards(h day.Head, ready time.Time, heat quantity.Span) ([]Slot, error) {
	out, err := laid(h, ready, heat)
	if err != nil {
		return nil, err
	}
	out = append(out, Slot{ready.Add(-WetOut.Duration()), WetOut, "wet the goods out"})
	sorted.By(out, func(a, b Slot) int { return a.At.Compare(b.At) })
	return out, nil
}

// laid is the morning at the vat alone: the steps that are still to come, the last first, and then the heating of the water.
func laid(h day.Head, ready time.Time, heat quantity.Span) ([]Slot, error) {
	plan, err := day.Plan(h)
	if err != nil {
		return nil, err
	}
	var out []Slot
	at := ready
	pour := time.Time{}
	for i := len(plan) - 1; i >= 0 && plan[i].No >= h.Opening.Step; i-- {
		st := plan[i]
		at = at.Add(-st.Takes().Duration())
		out = append(out, Slot{at, st.Takes(), wording.Lower(st.Title)})
		if st.Do == recipe.Fill && st.Into == recipe.IntoVat {
			pour = at
		}
	}
	if heat > 0 && !pour.IsZero() {
		out = append(out, Slot{pour.Add(-heat.Duration()), heat, heatTheWater})
	}
	return out, nil
}
