package ui

import (
	"errors"
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/ui/command"
	"example.org/vatside/ui/screen"
)

// costMsg is what a vat cost.
type costMsg struct{ cost screen.Cost }

// vatOf is the vat of VAT/DAY.
func vatOf(id string) string {
	vat, _, _ := strings.Cut(id, "/")
	return vat
}

// costs reckons what a vat cost by all its days.
func (h hands) costs(vat string, s screen.Settings) tea.Cmd {
	return func() tea.Msg {
		out := screen.Cost{Vat: vat, Name: vat}
		names, err := h.home.Days(vat)
		var days []day.State
		for _, name := range names {
			b, readErr := h.home.ReadDay(vat, name)
			if readErr != nil || b.Empty() {
				err = errors.Join(err, readErr)
				continue
			}
			state, errs := day.Replay(b.Head, b.Events)
			if len(state.Plan) == 0 && len(errs) > 0 {
				err = errors.Join(err, fmt.Errorf("%s: %w", name, errs[0]))
				continue
			}
			days = append(days, state)
			if n := state.Head.Setup.Name; n != "" {
				out.Name = n
			}
		}
		var costErr error
		out.Of, costErr = command.Costs(h.home, vat, days, cost.Rates{Hour: s.Hour, KWh: s.KWh})
		if err = errors.Join(err, costErr); err != nil {
			out.Trouble = err.Error()
		}
		return costMsg{out}
	}
}
