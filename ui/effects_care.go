package ui

import (
	"errors"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/history"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
)

// What was read of the vats.
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

// care reads what takes longer than home may wait for.
func (h effects) care(vats []screen.Vat) tea.Cmd {
	return func() tea.Msg {
		msg := careMsg{}
		for _, v := range vats {
			msg[v.Vat] = h.cares.Of(h.home, v.Vat)
		}
		h.home.KeepIndex()
		return msg
	}
}

// past reads the whole history of a vat.
func (h effects) past(vat string) tea.Cmd {
	return func() tea.Msg {
		days, errs := library.AllDays(h.home, vat)
		h.home.KeepIndex()
		return pastMsg{vat, days, errors.Join(errs...)}
	}
}
