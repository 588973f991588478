package ui

import (
	"maps"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
)

// homeKey leads home from every screen of a day.
const homeKey = 'H'

// leadsHome tells whether it does so here.
func (m model) leadsHome(top place) bool {
	return len(m.stack) > 1 && top.day != "" && !top.typed() && top.at != screen.AtAid
}

// goHome goes home; the day that was shown is kept.
func (m model) goHome() (model, tea.Cmd) {
	for _, p := range m.stack {
		if p.at == screen.AtDay {
			m.lastDay = p.day
		}
	}
	m.stack = m.stack[:1]
	return m, m.effects.load(false)
}

// leadsBack tells whether Esc leads from home to the day last shown: where home has nothing of its own to close.
func (m model) leadsBack(top place) bool {
	lists, is := top.shows.(interface{ Lists() bool })
	v, open := m.snap.Day(m.lastDay)
	return top.at == screen.AtHome && is && lists.Lists() && open && !v.State.Closed
}

// called brings the clock of a day to the front whose call has fallen due, once. What was due as the day was opened was there before.
// First aid, an open caution, typed text and a step with danger stay: there the call stands over them, and the clock comes after.
func (m model) called(was engine.Snapshot) model {
	var first running
	due := false
	seen := m.fronted
	for i := range m.snap.Days {
		v := &m.snap.Days[i]
		r := running{v, v.Call()}
		if !written(v) || !r.due() || seen[v.ID] == r.call.ID {
			continue
		}
		if seen = maps.Clone(seen); seen == nil {
			seen = map[string]string{}
		}
		if w := was.Seen(v.ID); w == nil || w.Looking {
			seen[v.ID] = r.call.ID
		} else if !due || r.call.Compare(first.call) < 0 {
			first, due = r, true
		}
	}
	m.fronted = seen
	if !due || m.stays(first) {
		return m
	}
	seen[first.view.ID] = first.call.ID
	own, in := m.dayInFront()
	if in && own.ID == first.view.ID && m.bare() {
		return m
	}
	m.help, m.helpFrom = false, 0
	if m.leaving == asking {
		m.leaving = staying
	}
	m.broughtAt = m.effects.mono()
	if in && own.ID == first.view.ID {
		return m
	}
	return m.bring(first.view.ID)
}

// stays tells whether what is in front is not replaced by a clock.
func (m model) stays(by running) bool {
	top := m.stack[len(m.stack)-1]
	if top.at == screen.AtAid || top.typed() || m.leaving == saving || m.reading {
		return true
	}
	own, in := m.dayInFront()
	if in && own.ID == by.view.ID {
		return false
	}
	if in {
		c := own.Call()
		return c.Danger || (running{own, c}).due() && c.Compare(by.call) < 0 || m.cautioned()
	}
	return m.cautioned()
}

// bring puts a day's clock on top. Of what is under it home stays, the day from which it came, and the last screen that was opened from
// that: Esc leads to it.
func (m model) bring(id string) model {
	last := func(is func(place) bool) int {
		for i := len(m.stack) - 1; i > 0; i-- {
			if is(m.stack[i]) {
				return i
			}
		}
		return 0
	}
	home := last(func(p place) bool { return p.at == screen.AtDay && !p.brought })
	over := last(func(p place) bool { return p.at != screen.AtDay })
	var kept []place
	for i, p := range m.stack {
		if i == 0 || i == home || i == over || p.brought && p.day != id {
			kept = append(kept, p)
		}
	}
	m.stack = kept
	m = m.push(screen.AtDay, id, "")
	m.stack[len(m.stack)-1].brought = true
	return m
}

// firstAid tells who assumes and who speaks whether first aid is in front: then nothing is assumed, and no speech covers its clock.
func (h effects) firstAid(on bool) {
	if h.eng != nil {
		h.eng.Hold(on)
	}
	h.player.Wordless(on)
}
