package library

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/piecefile"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/shelf"
)

// Listed are the pieces of a file, to be put on the list of a day at an instant of it, from which their times in minutes count.
func Listed(path string, now time.Time) ([]day.AddPiece, error) {
	text, err := shelf.ReadArgument(path)
	if err != nil {
		return nil, err
	}
	h, m, _ := now.Clock()
	pieces, faults := piecefile.Parse(path, string(text), quantity.Minutes(float64(60*h+m)))
	if len(faults) > 0 {
		return nil, faults[0]
	}
	clock := func(s quantity.Span) string {
		if s <= 0 {
			return ""
		}
		return day.Clock(now.Add(s.Duration()))
	}
	var out []day.AddPiece
	for _, p := range pieces {
		spec := day.PieceSpec{
			What: p.What, Who: p.Who, Fibre: p.Fibre.String(), Dry: p.Dry, Depth: p.Depth, Dips: p.Dips, Dip: p.Dip, Air: p.Air, Form: p.Form, Work: p.Work,
			From: clock(p.From), Till: clock(p.Till), Demo: p.Demo,
		}
		// What the usual practice filled in is left to the day, which knows its vat.
		if d, err := shade.ByName(p.Depth); err == nil && d.Dips == p.Dips {
			spec.Dips = 0
		}
		out = append(out, day.AddPiece{Tag: p.Tag, Spec: spec})
	}
	return out, nil
}

// DayBefore are the pieces of the day of a vat before one, as they were said then.
func DayBefore(h shelf.Home, vat, name string) ([]day.AddPiece, error) {
	days, err := h.Days(vat)
	if err != nil {
		return nil, err
	}
	at := slices.Index(days, name)
	if at < 1 {
		return nil, errors.New("this vat has no day before")
	}
	last := days[at-1]
	b, err := h.ReadDay(vat, last)
	if err != nil {
		return nil, err
	}
	var out []day.AddPiece
	for _, p := range Of(vat, last, b).State.Pieces {
		if p.Phase == day.Dropped {
			continue
		}
		spec := p.Spec
		spec.Had = 0
		out = append(out, day.AddPiece{Tag: p.Tag, Spec: spec})
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("on %s no piece was dyed", last)
	}
	return out, nil
}
