package ui

import (
	"context"
	"slices"
	"time"

	"example.org/vatside/ui/screen"
)

// answerIn is how long a key waits for the engine to say what time it is; it has a thousandth of that to do.
const answerIn = 100 * time.Millisecond

// present brings the time of what is shown up to the moment of a key: while nothing counts by the second it may be some seconds
// old. All else stays as the dyer saw it.
func (m model) present() model {
	if !m.snap.Resting || m.effects.eng == nil {
		return m
	}
	soon, cancel := context.WithTimeout(m.effects.ctx, answerIn)
	defer cancel()
	now, err := m.effects.eng.Now(soon)
	if err != nil {
		return m
	}
	m.snap.Wall, m.snap.Days = now.Wall, slices.Clone(m.snap.Days)
	for i := range m.snap.Days {
		if v, ok := now.Day(m.snap.Days[i].ID); ok {
			m.snap.Days[i] = m.snap.Days[i].At(v.Now)
		}
	}
	return m
}

// pace has the engine tell the time each second for as long as a stopwatch is shown, or a word that fades.
func (m model) pace() {
	if m.effects.eng != nil {
		m.effects.eng.EachSecond(m.counts())
	}
}

// counts tells whether something is shown that changes with the seconds, beside the times of the days.
func (m model) counts() bool {
	c, ok := m.stack[len(m.stack)-1].shows.(screen.Counter)
	if env := m.env(); m.boards.waits || !m.fades.IsZero() || screen.Watched(env) || ok && c.Counts(env) {
		return true
	}
	r, _, over := m.rules(m.itself()) // a strip that is watched stands over the screen
	return over && r.call.Due == nil
}
