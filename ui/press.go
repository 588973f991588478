package ui

import (
	"errors"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/screen"
)

// Two hands of keys. The press (space, a pedal or remote by PageDown and F1 to F12, a click on the call) answers the running call from
// whatever screen; Enter answers the screen in front. On a day's own screen, and where no time runs, they are the same. In front of
// typed text, an open caution and first aid space belongs to what is in front.

// The names of clicks that are presses.
const (
	callKey = "call" // on the act, or anywhere where the dyer chose that
	overKey = "over" // on the call that stands over the screen
)

// cautioned tells whether a caution is open on the screen on top.
func (m model) cautioned() bool {
	top, env := m.stack[len(m.stack)-1], m.env()
	return top.say.caution != "" || top.screen(env).View(env).Caution != nil
}

// presses tells whether a key is a press.
func presses(k screen.Key) bool {
	switch k.Name {
	case "space", "pgdown", callKey, overKey:
		return true
	}
	return pedal(k)
}

// pedal tells whether a key is one of F1 to F12.
func pedal(k screen.Key) bool {
	return len(k.Name) > 1 && k.Name[0] == 'f' && strings.Trim(k.Name[1:], "0123456789") == ""
}

// forScreen is a press as the screen on top knows it.
func forScreen(k screen.Key) screen.Key {
	switch {
	case k.Name == callKey, k.Name == overKey:
		return screen.Key{Name: "enter"}
	case pedal(k):
		return screen.Key{Name: "pgdown"}
	}
	return k
}

// press answers the running call; false where the press is for the screen on top.
func (m model) press(k screen.Key) (model, tea.Cmd, bool) {
	top := m.stack[len(m.stack)-1]
	r, instead, ok := m.answers()
	_, in := m.dayInFront()
	space := k.Name == "space"
	switch {
	case k.Name == overKey:
		if r, _, ok = m.rules(m.itself()); !ok {
			return m.toCall(top)
		}
	case !ok:
		return m, nil, false
	case space && (top.typed() || top.at == screen.AtAid):
		return m, nil, false
	case !m.bare() && !top.say.on(): // help, or the question about leaving
	case in && !top.typed() && !instead: // on the day itself it is Enter
		return m, nil, false
	case in && !top.typed() && space && m.cautioned():
		return m.refused(errors.New("not taken: Enter answers the caution, PgDn " + r.brief())), nil, true
	case space && m.cautioned():
		return m, nil, false
	}
	m.word, m.fades = "", time.Time{}
	if m.within(m.aim.at) && m.aim.day == r.view.ID {
		return m.refused(&day.Other{Seen: r.call.ID, Now: r.brief(), Just: true}), nil, true
	}
	m.effects.player.Hush()
	m.effects.pressed, m.effects.away = true, !in || instead
	c := m.effects.saw(r.view.ID, day.Done{Call: r.call.ID})
	m.acting++
	cmd := acted(m.effects.do(r.view.ID, c))
	m.effects.pressed, m.effects.away = false, false
	return m, cmd, true
}

// toCall goes to the day whose call without a time was clicked on: there stand its figure and its caution. What is typed, first aid
// and a question stay.
func (m model) toCall(top place) (model, tea.Cmd, bool) {
	if top.typed() || top.at == screen.AtAid || !m.bare() || top.say.on() {
		return m, nil, true
	}
	next, cmd := m.goes(screen.Go{To: screen.AtDay, Day: top.day}, top)
	return next, cmd, true
}

// elsewhere tells whether space on the screen on top answers a call that runs elsewhere.
func (m model) elsewhere() bool {
	if len(m.stack) == 0 {
		return false
	}
	top := m.stack[len(m.stack)-1]
	_, instead, ok := m.answers()
	_, in := m.dayInFront()
	return ok && (!in || instead) && !top.typed() && top.at != screen.AtAid && !m.cautioned()
}

// label is the name of a key as it is shown: where space answers another call, Enter does what the screen on top calls space.
func (m model) label(name string) string {
	return wording.Either(name == "space" && m.elsewhere(), "enter", name)
}

// refused says why a press was not taken, and sounds.
func (m model) refused(err error) model {
	m.effects.sound(err)
	m.word, m.fades = wording.OneLine(err), m.snap.Wall.Add(refusal)
	return m
}

// saw names in a press the call that was seen, where that is known.
func (h effects) saw(id string, c day.Command) day.Command {
	if d, is := c.(day.Done); is && h.seen[id] != "" {
		d.Call = h.seen[id]
		return d
	}
	return c
}

// seeing keeps which calls are shown: between two frames time goes on, and a press is for what was seen.
func (m model) seeing() model {
	m.effects.seen = map[string]string{}
	for i := range m.snap.Days {
		if v := &m.snap.Days[i]; written(v) {
			m.effects.seen[v.ID] = v.Call().ID
		}
	}
	return m
}

// bounced tells whether Enter on a day is not for it: the clock has only just come to the front by itself, or the key has just
// closed a line.
func (m model) bounced(k screen.Key, top place) bool {
	if top.at != screen.AtDay && top.at != screen.AtBench || top.typed() {
		return false
	}
	return k.Name == "enter" && m.within(m.broughtAt) || k.Name == m.closed.by && m.within(m.closed.at)
}

// lined keeps which key closed a line, and when; was is whether one was open before.
func (m model) lined(was bool, by string) model {
	if is := m.stack[len(m.stack)-1].typed(); was && !is && by != "" {
		m.closed = lineEnd{by, m.effects.mono()}
	}
	return m
}

// hushKey hushes the call that rules.
const hushKey = 'Z'

// hush has the call that rules not sounded again.
func (m model) hush() model {
	m.effects.player.Hush()
	r, _, ok := m.rules("")
	if !ok || !r.due() {
		m.word, m.fades = "nothing calls now", m.snap.Wall.Add(refusal)
		return m
	}
	_ = m.effects.eng.Hush(m.effects.ctx, r.view.ID)
	m.word, m.fades = "hushed: "+r.call.Brief()+"; the next call sounds again", m.snap.Wall.Add(refusal)
	return m
}
