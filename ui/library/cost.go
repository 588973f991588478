package library

import (
	"errors"
	"time"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/history"
	"example.org/vatside/model/stock"
	"example.org/vatside/ui/shelf"
)

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
