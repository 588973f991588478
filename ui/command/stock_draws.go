package command

import (
	"errors"
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/stock"
	"example.org/vatside/ui/shelf"
)

// Draws are the doses that the vats' books say were weighed on days from a date on: what was weighed for a build, and what
// was given beyond it. Rehearsed days draw on nothing, and one vat can be left out. The error is of what could not be read; the rest is there.
func Draws(h shelf.Home, since time.Time, except string) ([]stock.Draw, error) {
	vats, err := h.Vats()
	var out []stock.Draw
	from := since.AddDate(0, 0, -1).Format(time.DateOnly) // a day goes on past midnight
	for _, vat := range vats {
		if vat == except {
			continue
		}
		names, listErr := h.Days(vat)
		err = errors.Join(err, listErr)
		for _, name := range names {
			if name < from {
				continue
			}
			b, readErr := h.ReadDay(vat, name)
			switch {
			case readErr != nil:
				err = errors.Join(err, readErr)
				continue
			case b.Head.Rehearsed || !b.HeadWhole:
				continue
			}
			s, errs := day.Replay(b.Head, b.Events)
			if len(s.Plan) == 0 && len(errs) > 0 {
				err = errors.Join(err, fmt.Errorf("vat %s, day %s: %w", vat, name, errs[0]))
				continue
			}
			out = append(out, drawsOf(s.Told())...)
		}
	}
	return out, err
}

// drawsOf are the doses of one day: each step's scoops as one, at the last of them.
func drawsOf(told []day.Event) []stock.Draw {
	var out []stock.Draw
	scoops := map[string]int{}
	draw := func(at time.Time, material string, m quantity.Mass) {
		out = append(out, stock.Draw{At: at, Material: material, Substance: recipe.Powder{Material: material}.Substance(), Mass: m})
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
