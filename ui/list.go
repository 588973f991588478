package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/shelf"
)

// list puts the pieces of a file, or of the vat's day before, on the list of a day. Those that are refused are told; the
// others are on it.
func (h effects) list(id, path string) tea.Cmd {
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
func (h effects) before(id string) ([]day.AddPiece, error) {
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
