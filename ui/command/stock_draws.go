package command

import (
	"errors"
	"slices"
	"time"

	"example.org/vatside/model/history"
	"example.org/vatside/model/stock"
	"example.org/vatside/ui/shelf"
)

// Draws are the doses that the vats' books say were weighed from an instant on: what was weighed for a build, and what was
// given beyond it. Rehearsed days draw on nothing, and one vat can be left out. The error is of what could not be read; the
// rest is there.
func Draws(h shelf.Home, since time.Time, except string) ([]stock.Draw, error) {
	vats, err := h.Vats()
	var out []stock.Draw
	for _, vat := range vats {
		if vat == except {
			continue
		}
		names, listErr := h.DaysSince(vat, since)
		days, errs := History(h, vat, names)
		err = errors.Join(err, listErr, errors.Join(errs...))
		days = slices.DeleteFunc(days, func(d history.Day) bool { return d.State.Head.Rehearsed })
		for _, d := range history.Draws(days, since) {
			out = append(out, stock.Draw(d))
		}
	}
	return out, err
}
