package ui

import (
	"reflect"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/screen"
)

// guarded is the root whose panics are caught. A screen that fails is closed, and the day behind it goes on; where the day's own
// screen fails, it goes on without the forecasts, which are most of what can fail in it; then only does the program end.
type guarded struct{ model }

// viewFault says that the screen on top failed as it was drawn; the next message closes it.
type viewFault struct{ crash *guard.Crash }

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
	if s, is := msg.(snapshotMsg); is {
		if m, runs := g.runOn(engine.Snapshot(s)); runs {
			return guarded{m}, nil
		}
	}
	g.ran = nil
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

// withoutAdvice are the days without their forecasts.
func withoutAdvice(snap engine.Snapshot) engine.Snapshot {
	days := append([]engine.View(nil), snap.Days...)
	for i := range days {
		days[i].Outlook, days[i].Blue, days[i].Table = nil, nil, nil
	}
	snap.Days = days
	return snap
}

// guardedCmd is a command whose failure is a message.
func guardedCmd(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() tea.Msg {
		var msg tea.Msg
		if c := guard.Try("command", func() { msg = cmd() }); c != nil {
			return repliedMsg{err: *c}
		}
		list := commandsIn(msg)
		for i := range list {
			list[i] = guardedCmd(list[i])
		}
		return msg
	}
}

// commandsIn are the commands of a batch or of a sequence, whose type bubbletea does not export; the message shares them.
func commandsIn(msg tea.Msg) []tea.Cmd {
	v := reflect.ValueOf(msg)
	if !v.IsValid() || v.Kind() != reflect.Slice || v.Type().Elem() != reflect.TypeFor[tea.Cmd]() {
		return nil
	}
	return v.Convert(reflect.TypeFor[[]tea.Cmd]()).Interface().([]tea.Cmd)
}
