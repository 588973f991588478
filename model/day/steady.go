package day

import "time"

// Steady is until when, from an instant on and while nothing happens, what is asked of a state stays as it is: the call but for its
// figure, what can be done meanwhile, what comes after it. It is no later than the next whole minute; the instant itself where that is
// not known, as of a strip that is watched, of pieces on the bench and of a vat that is ended. dues are the state's.
func Steady(s State, dues []Due, now time.Time) time.Time {
	if s.Closed || !s.Vat.Pulled.IsZero() || s.Head.Setup.Ending {
		return now
	}
	until := now.Truncate(time.Minute).Add(time.Minute)
	change := func(at time.Time) {
		if at.After(now) && at.Before(until) {
			until = at
		}
	}
	if slow, ok := s.Slow(now); ok { // the words tell its day
		change(s.brewsSince().Add(time.Duration(slow.Day) * aDay))
	}
	for i := range s.Pieces {
		switch p := &s.Pieces[i]; p.Phase {
		case Dry, Wet:
			change(s.Comes(p))
		case FinishedPiece:
			return now
		case Aired:
			change(p.Since.Add(LookGrace))
		}
	}
	for i := range dues {
		d := &dues[i]
		for _, by := range [...]time.Duration{-LongWait, -LastMinute, 0, LookGrace} {
			change(d.At.Add(by))
		}
		change(d.Since)
	}
	return until
}

// Later is the call at another instant up to which it is steady.
func (c Call) Later(now time.Time) Call {
	if c.Due != nil {
		left := c.Due.At.Sub(now).Seconds()
		c.Figure = &left
	}
	return c
}
