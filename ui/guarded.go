package ui

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/screen"
)

// guarded is the root whose panics are caught. A screen that fails is closed, and the day behind it goes on; where the day's own
// screen fails, it goes on without the forecasts, which are most of what can fail in it; then only does the program end.
type guarded struct{ model }

func (g guarded) Init() tea.Cmd { return guardedCmd(g.model.Init()) }

func (g guarded) Update(msg tea.Msg) (tea.Model, tea.Cmd) { return g.update(msg) }

func (g guarded) update(msg tea.Msg) (guarded, tea.Cmd) {
	if c := g.fault.crash; c != nil {
		g.fault.crash = nil
		var ends bool
		if g.model, ends = g.model.withoutFailed(*c); ends {
			return g, tea.Quit
		}
	}
	var next tea.Model
	var cmd tea.Cmd
	if c := guard.Try("screen", func() { next, cmd = g.model.Update(msg) }); c != nil {
		m, ends := g.model.withoutFailed(*c)
		if ends {
			return guarded{m}, tea.Quit
		}
		return guarded{m}, nil
	}
	m := next.(model)
	m.pace()
	m.effects.firstAid(m.stack[len(m.stack)-1].at == screen.AtAid)
	return guarded{m.aimed()}, guardedCmd(cmd)
}

func (g guarded) View() string { return strings.Join(g.lines(), "\n") }

func (g guarded) lines() (out []string) {
	c := guard.Try("view", func() { out = g.model.lines() })
	if c == nil {
		return out
	}
	g.fault.crash = c
	m, ends := g.model.withoutFailed(*c)
	if !ends && guard.Try("view", func() { out = m.lines() }) == nil {
		return out
	}
	return []string{c.Error()}
}

// withoutFailed is the root without what failed; true where nothing is left to go on with.
func (m model) withoutFailed(c guard.Crash) (model, bool) {
	m.word = "this screen had " + c.Error() + "; the day goes on"
	m.fades = m.snap.Wall.Add(refusal)
	m.help = false
	switch top := m.stack[len(m.stack)-1]; {
	case top.say.on():
		m = m.saying(sayLine{})
	case top.at != screen.AtDay && len(m.stack) > 1:
		m.stack = m.stack[:len(m.stack)-1]
	case top.at == screen.AtDay && !m.noAdvice:
		m.noAdvice, m.snap = true, withoutAdvice(m.snap)
	default:
		guard.End(c)
		return m, true
	}
	return m, false
}
