package history

import (
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Draw is a powder that was weighed for a vat: for its build, or beyond it.
type Draw struct {
	At        time.Time
	Material  string
	Substance recipe.Substance
	Mass      quantity.Mass // not above zero where more was taken off the scale than was put on
}

// Draws are what was weighed for a vat from an instant on, the oldest first: each step's scoops as one, at the last of them.
func Draws(v Vat, since time.Time) []Draw {
	var out []Draw
	for _, d := range v {
		for _, w := range drawsOf(d.State.Told()) {
			if !w.At.Before(since) {
				out = append(out, w)
			}
		}
	}
	return out
}

// drawsOf are the powders that were weighed on one day, as Draws gives them.
func drawsOf(told []day.Event) []Draw {
	var out []Draw
	scoops := map[string]int{}
	draw := func(at time.Time, material string, m quantity.Mass) {
		out = append(out, Draw{At: at, Material: material, Substance: recipe.Powder{Material: material}.Substance(), Mass: m})
	}
	for _, e := range told {
		switch b := e.Body.(type) {
		case day.PowderWeighed:
			key := fmt.Sprintf("%d %s", b.Step, b.Powder)
			if i, more := scoops[key]; more {
				out[i].At, out[i].Mass = e.At, out[i].Mass+b.Mass
				continue
			}
			scoops[key] = len(out)
			draw(e.At, b.Material, b.Mass)
		case day.PowderAdded:
			if b.Step == 0 {
				draw(e.At, b.Material, b.Mass)
			}
		case day.Fed:
			draw(e.At, b.Material, b.Mass)
		}
	}
	return out
}
