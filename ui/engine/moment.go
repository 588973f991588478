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
		meanwhile: m.meanwhile, besides: m.besides, first: m.first, look: m.look, upcoming: m.upcoming, comes: m.comes,
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

// Meanwhile is what can be done while the call's time runs, the first first.
func (v *View) Meanwhile() []day.Call {
	m := v.present()
	m.mu.Lock()
	defer m.mu.Unlock()
	if !m.besides {
		m.meanwhile, m.besides = m.call.Meanwhile(v.State, v.Now), true
	}
	return wording.Each(m.meanwhile, func(c day.Call) day.Call { return c.Later(v.Now) })
}

// Beside is the first of Meanwhile; false where there is none.
func (v *View) Beside() (day.Call, bool) {
	return v.finds(func(m *moment) *found { return &m.first }, func(c day.Call) (day.Call, bool) { return c.Beside(v.State, v.Now, day.AnyAct) })
}

// Second is what the press answers, else the first of what can be done meanwhile, in a few words; empty where there is nothing.
func (v *View) Second() string {
	first, ok := v.Beside()
	if !ok {
		return ""
	}
	return v.present().call.Second(first)
}

// Look is the look that decides which an answer without a piece means; false where none is asked for.
func (v *View) Look() (day.Call, bool) {
	return v.finds(func(m *moment) *found { return &m.look }, func(c day.Call) (day.Call, bool) { return c.Look(v.State, v.Now) })
}

// finds is a call that is found beside the moment's own, reckoned once.
func (v *View) finds(of func(*moment) *found, reckon func(day.Call) (day.Call, bool)) (day.Call, bool) {
	m := v.present()
	m.mu.Lock()
	defer m.mu.Unlock()
	f := of(m)
	if !f.reckoned {
		f.call, f.is = reckon(m.call)
		f.reckoned = true
	}
	return f.call.Later(v.Now), f.is
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
