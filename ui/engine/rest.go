package engine

import (
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
)

// The engine rests as long as nothing changes of what is shown or called: to the next whole second while a time of a day runs or a screen
// has a stopwatch, else to the next minute of a clock that is shown, or the next quarter of one (longRest). A snapshot may then be as old
// as that. It says so (Snapshot.Resting), and who reads a time off it asks for a new one first (Now).

const (
	longRest  = 15 * time.Second      // a part of a minute
	shortRest = 50 * time.Millisecond // of a fast clock
	besides   = time.Second           // what changes so soon after something else is shown with it
	lateTick  = time.Second           // a tick that comes later than this after its time: the program did not run
)

// EachSecond has a snapshot published each second also where no time of a day runs, as a screen has a stopwatch. It waits for
// nobody.
func (e *Engine) EachSecond(on bool) {
	if e.stopwatch.Swap(on) != on {
		signal(e.roused)
	}
}

// signal puts a signal into a channel with one slot, where none lies yet.
func signal(slot chan<- struct{}) {
	select {
	case slot <- struct{}{}:
	default:
	}
}

// rest is how long nothing changes of what is shown or called.
func (e *Engine) rest() time.Duration {
	wall, mono, stopwatch := e.in.Wall(), e.in.Mono(), e.stopwatch.Load()
	var seconds, tries []time.Duration
	minutes := []time.Duration{till(wall, longRest, 1)}
	for _, s := range e.days {
		if in, ok := s.tries(mono); ok {
			tries = append(tries, in)
		}
		switch pace := s.source.Pace(); {
		case pace <= 0:
		case stopwatch || s.runs():
			seconds = append(seconds, till(s.source.Now(), time.Second, pace))
		default:
			minutes = append(minutes, till(s.source.Now(), time.Minute, pace))
		}
	}
	if stopwatch && len(seconds) == 0 {
		seconds = append(seconds, till(wall, time.Second, 1))
	}
	if len(seconds) > 0 {
		return slices.Min(append(seconds, tries...))
	}
	first := slices.Min(minutes)
	rest := first
	for _, in := range minutes {
		if in <= first+besides {
			rest = max(rest, in)
		}
	}
	return slices.Min(append(tries, rest))
}

// till is how long it is until a clock of that pace shows a whole minute or second again.
func till(now time.Time, whole time.Duration, pace float64) time.Duration {
	next := now.Truncate(whole).Add(whole).Sub(now)
	return max(time.Duration(math.Ceil(float64(next)/pace)), shortRest)
}

// Stands tells whether a snapshot shows what the one before it did: nothing counts, no shown clock is a minute on, and nothing has
// happened.
func (s Snapshot) Stands(was Snapshot) bool {
	return s.Resting && s.same(was, func(v, w *View) bool { return sameMinute(v.Now, w.Now) })
}

// RunsOn tells whether a snapshot shows what the one before it did but for the figures that run: nothing has happened, and no call,
// no deadline and no shown clock has come to a change.
func (s Snapshot) RunsOn(was Snapshot) bool {
	return s.same(was, func(v, w *View) bool {
		return v.moment != nil && w.moment != nil && v.moment.steady.Equal(w.moment.steady)
	})
}

// same tells whether nothing has happened between two snapshots of a minute, and no time that counts has come.
func (s Snapshot) same(was Snapshot, lasts func(v, w *View) bool) bool {
	if s.Resting != was.Resting || len(s.Days) != len(was.Days) || !sameMinute(s.Wall, was.Wall) {
		return false
	}
	for i := range s.Days {
		v, w := &s.Days[i], &was.Days[i]
		if v.ID != w.ID || !lasts(v, w) || len(v.State.Log) != len(w.State.Log) || v.State.Seq != w.State.Seq ||
			v.Saved != w.Saved || v.Trouble != w.Trouble || v.Unsaved != w.Unsaved || v.Advice != w.Advice || v.Unheard != w.Unheard || v.Looking != w.Looking ||
			v.Free != w.Free || v.Newer != w.Newer || v.Polled != w.Polled || v.Outlook != w.Outlook || v.Blue != w.Blue || v.Table != w.Table {
			return false
		}
	}
	return true
}

func sameMinute(a, b time.Time) bool { return a.Truncate(time.Minute).Equal(b.Truncate(time.Minute)) }

// counts tells whether a snapshot is published each second.
func (e *Engine) counts() bool {
	return e.stopwatch.Load() || slices.ContainsFunc(e.days, (*session).runs)
}

// unheard tells whether the program did not run for so long that nobody could hear a call.
func (e *Engine) unheard(mono time.Duration) bool {
	return mono-e.ticked > max(e.rested, time.Second)+lateTick
}

// runs tells whether a time of the day runs, or a strip is watched.
func (s *session) runs() bool {
	_, watched := s.state.Watched(s.source.Now())
	return s.source.Pace() > 0 && (watched || len(s.dues()) > 0)
}

// tries is how long it is to the next try of the day's disk, or to the next second over which it has not answered; false where
// nothing waits for it.
func (s *session) tries(mono time.Duration) (time.Duration, bool) {
	switch {
	case s.busy:
		return time.Second, true
	case s.pending():
		return max(s.retry-mono, shortRest), true
	}
	return 0, false
}

// set is the day as it is from now on.
func (s *session) set(state day.State) { s.state, s.listed, s.moment = state, false, nil }

// dues are the day's deadlines, the soonest first.
func (s *session) dues() []day.Due {
	if !s.listed {
		s.deadlines, s.listed = day.Dues(s.state), true
	}
	return s.deadlines
}

// pending tells whether anything is to be brought to where it belongs on disk.
func (s *session) pending() bool {
	return s.writer != nil && !s.crashed && (len(s.waiting) > 0 || s.away.Events > 0 || s.unkept)
}
