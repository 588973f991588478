package ui

import (
	"errors"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/cost"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// costMsg is what a vat cost.
type costMsg struct{ cost screen.Cost }

// vatOf is the vat of VAT/DAY.
func vatOf(id string) string {
	vat, _, _ := strings.Cut(id, "/")
	return vat
}

// costs reckons what a vat cost by all its days.
func (h effects) costs(vat string, s shelf.Settings) tea.Cmd {
	return func() tea.Msg {
		out := screen.Cost{Vat: vat, Name: vat}
		days, errs := library.AllDays(h.home, vat)
		if last, ok := days.Last(); ok && last.State.Head.Setup.Name != "" {
			out.Name = last.State.Head.Setup.Name
		}
		var err error
		out.Of, err = library.Costs(h.home, vat, days, cost.Rates{Hour: s.Hour, KWh: s.KWh})
		if err = errors.Join(append(errs, err)...); err != nil {
			out.Trouble = err.Error()
		}
		return costMsg{out}
	}
}
