package engine

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
)

// newMoment is a day at an instant; dues are the deadlines of its state.
func newMoment(s day.State, dues []day.Due, now time.Time) *moment {
	return &moment{now: now, seq: s.Seq, events: len(s.Log), dues: dues, call: day.CallOf(s, now), steady: day.Steady(s, dues, now)}
}

// lasts tells whether later gives the moment of an instant, while nothing has happened.
func (m *moment) lasts(now time.Time) bool {
	return m != nil && (now == m.now || now.After(m.now) && now.Before(m.steady))
}

// later is the same a while later: what was asked of it need not be reckoned again.
func (m *moment) later(now time.Time) *moment {
	if now == m.now {
		return m
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	return &moment{
		now: now, seq: m.seq, events: m.events, dues: m.dues, call: m.call.Later(now), steady: m.steady,
		meanwhile: m.meanwhile, besides: m.besides, upcoming: m.upcoming, comes: m.comes,
	}
}

// at is the day at an instant, reckoned once for as long as it stays as it is.
func (s *session) at(now time.Time) *moment {
	if s.moment.lasts(now) {
		s.moment = s.moment.later(now)
	} else {
		s.moment = newMoment(s.state, s.dues(), now)
	}
	return s.moment
}

// present is the moment of the view; one of its own where the view was put together by hand.
func (v *View) present() *moment {
	if m := v.moment; m != nil && m.now == v.Now && m.seq == v.State.Seq && m.events == len(v.State.Log) {
		return m
	}
	return newMoment(v.State, day.Dues(v.State), v.Now)
}

// At is the view at another instant, with nothing happened since.
func (v View) At(now time.Time) View {
	m := v.present()
	if v.Now = now; m.lasts(now) {
		v.moment = m.later(now)
	} else {
		v.moment = newMoment(v.State, m.dues, now)
	}
	return v
}

// Call is what the hands are asked for.
func (v *View) Call() day.Call { return v.present().call }

// Line is the call as one line.
func (v *View) Line() string {
	m := v.present()
	return m.call.Line(v.State, v.Now)
}

// Dues are the deadlines that run, the soonest first.
func (v *View) Dues() []day.Due { return v.present().dues }

// Timed tells whether a time runs for a day that is written here, and not rehearsed: then the machine must not sleep.
func (v *View) Timed() bool {
	return !v.Looking && !v.State.Closed && len(v.Dues()) > 0 && v.Pace > 0 && !v.State.Head.Rehearsed
}

// beside is Meanwhile with the figures of the instant at which it was reckoned.
func (v *View) beside() (*moment, []day.Call) {
	m := v.present()
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.besides.IsZero() {
		m.meanwhile, m.besides = m.call.Meanwhile(v.State, v.Now), v.Now
	}
	return m, m.meanwhile
}

// Meanwhile is what can be done while the call's time runs, the first first.
func (v *View) Meanwhile() []day.Call {
	_, beside := v.beside()
	return wording.Each(beside, func(c day.Call) day.Call { return c.Later(v.Now) })
}

// Second is the first of what can be done meanwhile, in a few words; empty where there is nothing.
func (v *View) Second() string {
	m, beside := v.beside()
	return m.call.Second(beside)
}

// Look is the look that decides which an answer without a piece means; false where none is asked for.
func (v *View) Look() (day.Call, bool) {
	m, beside := v.beside()
	c, ok := m.call.Look(beside, v.Now)
	return c.Later(v.Now), ok
}

// Upcoming is what comes after the call, in a few words.
func (v *View) Upcoming() string {
	m := v.present()
	m.mu.Lock()
	defer m.mu.Unlock()
	if !m.comes {
		m.upcoming, m.comes = m.call.Upcoming(v.State, v.Now), true
	}
	return m.upcoming
}
