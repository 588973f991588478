package history

import (
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
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
		out = append(out, wording.Only(drawsOf(d.State.Portions()), func(w Draw) bool { return !w.At.Before(since) })...)
	}
	return out
}

// drawsOf are the powders that were weighed on one day, as Draws gives them.
func drawsOf(portions []day.Portion) []Draw {
	var out []Draw
	scoops := map[string]int{}
	for _, p := range portions {
		if p.Way == day.Weighed {
			key := fmt.Sprintf("%d %s", p.Step, p.Powder)
			if i, more := scoops[key]; more {
				out[i].At, out[i].Mass = p.At, out[i].Mass+p.Mass
				continue
			}
			scoops[key] = len(out)
		} else if !p.Gave() {
			continue
		}
		out = append(out, Draw{At: p.At, Material: p.Material, Substance: recipe.Powder{Material: p.Material}.Substance(), Mass: p.Mass})
	}
	return out
}
