package library

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/history"
	"example.org/vatside/model/stock"
	"example.org/vatside/ui/shelf"
)

// Tins reads the list of tins and reckons what is in them by the books. The error is of what could not be read, file and
// line with it; the rest is there.
func Tins(h shelf.Home) (stock.List, stock.Balance, error) {
	file, err := h.Stock()
	for _, f := range file.Verify() {
		err = errors.Join(err, errors.New(strings.TrimSuffix(f.String(), ".")))
	}
	l, errs := stock.Replay(file.Events)
	for _, e := range errs {
		err = errors.Join(err, fmt.Errorf("%s: %w", file.File, e))
	}
	since, any := l.Since()
	if !any {
		return l, stock.Balance{}, err
	}
	draws, drawErr := Draws(h, since, "")
	return l, stock.Reckon(l.Tins, draws), errors.Join(err, drawErr)
}

// Draws are the doses that the vats' books say were weighed from an instant on: what was weighed for a build, and what was
// given beyond it. Rehearsed days draw on nothing, and one vat can be left out. The error is of what could not be read; the
// rest is there.
func Draws(h shelf.Home, since time.Time, except string) ([]history.Draw, error) {
	vats, err := h.Vats()
	var out []history.Draw
	for _, vat := range vats {
		if vat == except {
			continue
		}
		names, listErr := h.DaysSince(vat, since)
		days, errs := Days(h, vat, names)
		err = errors.Join(err, listErr, errors.Join(errs...))
		days = slices.DeleteFunc(days, func(d history.Day) bool { return d.State.Head.Rehearsed })
		out = append(out, history.Draws(days, since)...)
	}
	return out, err
}

// Costs is what a vat cost by its days and the list of tins. The error is of what could not be read; the rest is there.
func Costs(h shelf.Home, vat string, days history.Vat, r cost.Rates) (cost.Vat, error) {
	own := history.Draws(days, time.Time{})
	l, _, err := Tins(h)
	since, any := l.Since()
	var others []history.Draw
	if any {
		var drawErr error
		others, drawErr = Draws(h, since, vat)
		err = errors.Join(err, drawErr)
	}
	rehearsed := len(days) > 0 && days[0].State.Head.Rehearsed
	drawn := append(own[:len(own):len(own)], others...)
	var takes []stock.Take // an invented day takes nothing off the shelf
	if !rehearsed {
		takes = stock.Reckon(l.Tins, drawn).Takes
	}
	return cost.Of(days, cost.Powders(l.Tins, drawn, takes, func(n int) bool { return n < len(own) }), r), err
}
