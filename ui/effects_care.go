package ui

import (
	"errors"
	"sync"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/ui/command"
	"example.org/vatside/ui/screen"
)

// The messages, facts all.
type (
	// careMsg is what the vats of home want, by vat.
	careMsg map[string][]history.Due
	// stockMsg is the shelf of powders; the doses of all days draw on it.
	stockMsg screen.Stock
	// pastMsg is the whole history of one vat.
	pastMsg struct {
		vat  string
		days history.Vat
		err  error
	}
)

// cares keeps what each vat wanted when its book was last read. The reading takes a second for a home of many vats, and most
// of them are as they were.
type cares struct {
	mu   sync.Mutex
	last map[string]cared
}

// cared is what a vat wants, and what it goes by: its last day, so far, in this hour.
type cared struct {
	day    string
	events int
	hour   int64
	care   []history.Due
}

// care reads what takes longer than home may wait for.
func (h effects) care(vats []screen.Vat) tea.Cmd {
	return func() tea.Msg {
		msg := careMsg{}
		for _, v := range vats {
			msg[v.Vat] = h.careOf(v.Vat)
		}
		return msg
	}
}

// careOf is what one vat wants. What cannot be read is told where its day is opened.
func (h effects) careOf(vat string) []history.Due {
	name, b, found, _ := h.home.Last(vat)
	if !found || b.HeadErr != nil {
		return nil
	}
	last := history.Day{Name: name}
	last.State, _ = day.Replay(b.Head, b.Events)
	now := h.present(last.State)
	is := cared{day: name, events: len(last.State.Log), hour: now.Unix() / 3600}
	h.cares.mu.Lock()
	was := h.cares.last[vat]
	h.cares.mu.Unlock()
	if was.day == is.day && was.events == is.events && was.hour == is.hour {
		return was.care
	}
	days, _ := command.Lately(h.home, vat, name)
	is.care = history.Care(append(days, last), now)
	h.cares.mu.Lock()
	defer h.cares.mu.Unlock()
	if h.cares.last == nil {
		h.cares.last = map[string]cared{}
	}
	h.cares.last[vat] = is
	return is.care
}

// past reads the whole history of a vat.
func (h effects) past(vat string) tea.Cmd {
	return func() tea.Msg {
		names, err := h.home.Days(vat)
		days, errs := command.History(h.home, vat, names)
		return pastMsg{vat, days, errors.Join(append(errs, err)...)}
	}
}
