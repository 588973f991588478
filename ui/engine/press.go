package engine

import (
	"errors"
	"slices"
	"time"

	"example.org/vatside/model/day"
)

// Unread is for how long after a change of what is shown a press of a key or a mouse cannot have been meant for it.
const Unread = 700 * time.Millisecond

// Mono is the machine's monotonic clock.
func (e *Engine) Mono() time.Duration { return e.in.Mono() }

// Hold has nothing assumed for as long as it is on, nor afterwards of what ran out meanwhile: nobody could answer.
func (e *Engine) Hold(on bool) { e.held.Store(on) }

// Unask has the next press of each day asked anew what its last one was asked.
func (e *Engine) Unask() { e.unasked.Store(true) }

// notice keeps when the call changed to what it is.
func (s *session) notice(c day.Call) {
	if c.ID == s.noticed {
		return
	}
	if s.noticed != "" {
		s.noticedAt = s.mono()
	}
	s.noticed = c.ID
}

// chosen tells whether a command is an act on one piece that the dyer chose.
func chosen(c day.Command) bool {
	switch c := c.(type) {
	case day.Answered:
		return chosen(c.Command)
	case day.Lift, day.Lower, day.Finish, day.Bench:
		return true
	case day.Record:
		_, wet := c.Body.(day.WettedOut)
		return wet
	}
	return false
}

// tooEarly tells whether what was decided is a press for a call that nobody can have read yet. One that names another call is
// refused by the day, and one that confirms the lift that was assumed is taken.
func (s *session) tooEarly(c day.Command, made []day.Body, err error) bool {
	if a, ok := c.(day.Answered); ok {
		c = a.Command
	}
	_, press := c.(day.Done)
	if look, is := c.(day.Decided); is { // its figure is a press where the look is the call
		press = look.Call == s.noticed
	}
	if !press || s.noticedAt == 0 || s.mono()-s.noticedAt >= Unread {
		return false
	}
	if other := (*day.Other)(nil); errors.As(err, &other) {
		return false
	}
	confirms := len(made) > 0 && !slices.ContainsFunc(made, func(b day.Body) bool { _, is := b.(day.Corrected); return !is })
	return !confirms
}
