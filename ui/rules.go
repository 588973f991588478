package ui

import (
	"time"

	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
)

// due tells whether its time is over.
func (r running) due() bool { return r.call.Due != nil && !r.view.Now.Before(r.call.Due.At) }

// brief is the call in a few words, with its vat.
func (r running) brief() string { return vatName(*r.view) + ": " + r.call.Brief() }

// rules is the running call that rules, of the days that are written here, but for one; false where none runs. of is how many days
// are written here.
func (m model) rules(but string) (r running, of int, ok bool) {
	for i := range m.snap.Days {
		v := &m.snap.Days[i]
		if !written(v) {
			continue
		}
		of++
		c := v.Call()
		if !c.Runs() || v.ID == but {
			continue
		}
		if !ok || c.Compare(r.call) < 0 {
			r, ok = running{v, c}, true
		}
	}
	return r, of, ok
}

// dayInFront is the day whose own screen is on top, whatever stands in front of that; false where none is.
func (m model) dayInFront() (*engine.View, bool) {
	if len(m.stack) == 0 {
		return nil, false
	}
	top := m.stack[len(m.stack)-1]
	v := m.snap.Seen(top.day)
	return v, v != nil && top.at == screen.AtDay && written(v)
}

// bare tells whether nothing stands in front of the screen on top.
func (m model) bare() bool {
	return !m.help && m.leaving == staying && !m.stack[len(m.stack)-1].say.on()
}

// answers is the call that a press answers; false where none runs. instead tells that it is another vat's lift, due while a step with
// danger is in front: that step takes Enter only.
func (m model) answers() (r running, instead, ok bool) {
	if own, in := m.dayInFront(); in && own.Call().Danger {
		if r, _, ok := m.rules(own.ID); ok && r.call.Verb == "lift" && r.due() {
			return r, true, true
		}
	}
	r, _, ok = m.rules("")
	return r, false, ok
}

// aimed keeps when a press came to be for another day than before. The engine keeps when the call of one day changes.
func (m model) aimed() model {
	id := ""
	if own, in := m.dayInFront(); in {
		id = own.ID
	}
	if r, instead, ok := m.answers(); ok && (id == "" || instead) {
		id = r.view.ID
	}
	if id != m.aim.day {
		if m.aim.day != "" && id != "" {
			m.aim.at = m.effects.mono()
		}
		m.aim.day = id
	}
	return m
}

// within tells whether an instant of the machine's monotonic clock is so near that a key cannot have been meant for what came with
// it; 0 is no instant.
func (m model) within(at time.Duration) bool { return at != 0 && m.effects.mono()-at < engine.Unread }
