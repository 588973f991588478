package ui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/ui/screen"
)

// dayKey carries out a key of the table on a screen of a day; false where the key is the screen's.
func (m model) dayKey(top place, k screen.Key) (model, tea.Cmd, bool) {
	if top.say.on() || !ofDay(top.at) {
		return m, nil, false
	}
	wants, taken := screen.AnswerKey(top.shows, k, m.env())
	var cmds []tea.Cmd
	for _, w := range wants {
		var cmd tea.Cmd
		if to, is := w.(screen.Go); is {
			m, cmd = m.goes(to, top)
		} else {
			m, cmd = m.want(w)
		}
		cmds = append(cmds, cmd)
	}
	return m, tea.Sequence(cmds...), taken
}

// goes opens a place of the day. What lies above an earlier visit to it is left, so that places do not pile up.
func (m model) goes(to screen.Go, top place) (model, tea.Cmd) {
	if to.To == top.at {
		return m.want(screen.Say{Word: "it is shown already: Esc goes back"})
	}
	if i := slices.IndexFunc(m.stack, func(p place) bool { return p.at == to.To && p.day == to.Day }); i > 0 {
		m.stack = slices.Clone(m.stack[:i])
	}
	return m.want(to)
}
