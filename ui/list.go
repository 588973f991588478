package ui

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/shelf"
)

// list puts the pieces of a file, or of the vat's day before, on the list of a day. Those that are refused are told; the
// others are on it.
func (h hands) list(id, path string) tea.Cmd {
	return func() tea.Msg {
		var adds []day.AddPiece
		var err error
		if path == "" {
			adds, err = h.before(id)
		} else {
			adds, err = listed(path)
		}
		if err != nil {
			return repliedMsg{err: err}
		}
		var refused []string
		for _, a := range adds {
			if _, err := h.eng.Do(h.ctx, id, a); err != nil {
				refused = append(refused, err.Error())
			}
		}
		if len(refused) > 0 {
			return repliedMsg{err: fmt.Errorf("%d of %d are on the list; %s", len(adds)-len(refused), len(adds), refused[0])}
		}
		return repliedMsg{word: fmt.Sprintf("%d more on the list", len(adds))}
	}
}

// listed are the pieces of a file.
func listed(path string) ([]day.AddPiece, error) {
	text, err := shelf.ReadArgument(path)
	if err != nil {
		return nil, err
	}
	pieces, faults := load.ParsePieces(path, string(text), 0)
	if len(faults) > 0 {
		return nil, faults[0]
	}
	var out []day.AddPiece
	for _, p := range pieces {
		spec := day.PieceSpec{
			What: p.What, Who: p.Who, Fibre: p.Fibre.String(), Dry: p.Dry, Depth: p.Depth, Dips: p.Dips, Dip: p.Dip, Air: p.Air, Form: p.Form, Work: p.Work,
		}
		// What the usual practice filled in is left to the day, which knows its vat.
		if d, err := shade.ByName(p.Depth); err == nil && d.Dips == p.Dips {
			spec.Dips = 0
		}
		out = append(out, day.AddPiece{Tag: p.Tag, Spec: spec})
	}
	return out, nil
}

// before are the pieces of the vat's day before, as they were said then.
func (h hands) before(id string) ([]day.AddPiece, error) {
	vat, name, _ := strings.Cut(id, "/")
	days, err := h.home.Days(vat)
	if err != nil {
		return nil, err
	}
	at := slices.Index(days, name)
	if at < 1 {
		return nil, errors.New("this vat has no day before")
	}
	last := days[at-1]
	b, err := h.home.ReadDay(vat, last)
	if err != nil {
		return nil, err
	}
	s, _ := day.Replay(b.Head, b.Events)
	var out []day.AddPiece
	for _, p := range s.Pieces {
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

// likened gives a piece that is wished like one of the book that one's colour.
func (h hands) likened(c day.Command) (day.Command, error) {
	switch c := c.(type) {
	case day.Answered:
		inner, err := h.likened(c.Command)
		return day.Answered{Command: inner}, err
	case day.AddPiece:
		spec, err := h.like(c.Spec)
		c.Spec = spec
		return c, err
	case day.Record:
		if b, ok := c.Body.(day.PieceChanged); ok {
			spec, err := h.like(b.PieceSpec)
			b.PieceSpec = spec
			return day.Record{Body: b}, err
		}
	}
	return c, nil
}

func (h hands) like(spec day.PieceSpec) (day.PieceSpec, error) {
	if _, coloured := spec.Colour(); spec.Like == "" || coloured {
		return spec, nil
	}
	parts := strings.Split(spec.Like, "/")
	if len(parts) != 3 {
		return spec, fmt.Errorf("a piece of the book is written VAT/DAY/TAG, not %q", spec.Like)
	}
	b, err := h.home.ReadDay(parts[0], parts[1])
	if err != nil {
		return spec, fmt.Errorf("%s/%s is not in the book: vatside like finds pieces by their blue", parts[0], parts[1])
	}
	s, _ := day.Replay(b.Head, b.Events)
	lab, _, ok := outlook.Looks(s, parts[2])
	if !ok {
		return spec, fmt.Errorf("no piece of %s/%s is tagged %s", parts[0], parts[1], parts[2])
	}
	tenths := func(v float64) float64 { return math.Round(v*10) / 10 }
	spec.Lab = [3]float64{tenths(lab.L), tenths(lab.A), tenths(lab.B)}
	return spec, nil
}
