package command

import (
	"fmt"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/ui/shelf"
)

// History reads days of a vat by their names, the oldest first. The errors are of what could not be read; the rest is there.
func History(h shelf.Home, vat string, names []string) (history.Vat, []error) {
	var out history.Vat
	var errs []error
	for _, name := range names {
		b, err := h.ReadDay(vat, name)
		if err == nil && b.Empty() {
			continue
		}
		if err == nil && b.HeadErr != nil {
			err = fmt.Errorf("the head cannot be read: %w", b.HeadErr)
		}
		if err != nil {
			errs = append(errs, fmt.Errorf("vat %s, day %s is left out: %w", vat, name, err))
			continue
		}
		state, wrong := day.Replay(b.Head, b.Events)
		if len(state.Plan) == 0 && len(wrong) > 0 {
			errs = append(errs, fmt.Errorf("vat %s, day %s is left out: %w", vat, name, wrong[0]))
			continue
		}
		if n := len(b.Unread); n > 0 {
			errs = append(errs, fmt.Errorf("vat %s, day %s: %s cannot be read, and left out", vat, name, counted(n, "event")))
		}
		out = append(out, history.Day{Name: name, State: state})
	}
	return out, errs
}
