package day

import (
	"fmt"
	"iter"
	"slices"
)

// Replay folds Apply over events. It stops at nothing: an event that does not fit is kept in the log, and told.
func Replay(h Head, events []Event) (State, []error) {
	s, err := Begin(h)
	if err != nil {
		return s, []error{err}
	}
	return fold(s, slices.Clone(events))
}

// fold applies the events of a whole day, which it keeps as the log. It takes time in proportion to them.
func fold(s State, events []Event) (State, []error) {
	events = slices.Clip(events)
	s.fix = corrections(events)
	at := lastDip(events, s.fix)
	if f, errs, fits := s.foldFrom(events, at); fits {
		return f, errs
	}
	f, errs, _ := s.foldFrom(events, 0)
	return f, errs
}

// lastDip is the last event that tells of goods in the vat: nothing is called to go in across it. 0 where there is none.
func lastDip(events []Event, fix map[int]Corrected) int {
	for i, e := range slices.Backward(events) {
		switch e.Body.(type) {
		case DipBegun, DipEnded:
			if fix[e.Seq].Way != "undone" {
				return i
			}
		}
	}
	return 0
}

// foldFrom applies events, and keeps in mind what is called to go in only from one of them on; false where that one does not
// fit.
func (s State) foldFrom(events []Event, from int) (State, []error, bool) {
	var errs []error
	f, fits := s.own(), true
	for i, e := range events {
		f.holds = i >= from
		f.Log = events[: i+1 : i+1]
		if err := f.pass(e); err != nil {
			errs = append(errs, fmt.Errorf("event %d, %s: %w", e.Seq, e.Body.Kind(), err))
			fits = fits && i != from
		}
	}
	return f.State, errs, fits || from == 0
}

// corrections says what the later events make of the earlier ones, by number; nil where none is a correction. A correction
// can itself be undone.
func corrections(events []Event) map[int]Corrected {
	var fix map[int]Corrected
	for i := len(events) - 1; i >= 0; i-- {
		c, ok := events[i].Body.(Corrected)
		if !ok {
			continue
		}
		if fix == nil {
			fix = map[int]Corrected{}
		}
		if own, touched := fix[events[i].Seq]; touched && own.Way == "undone" {
			continue
		}
		if c.Of >= events[i].Seq {
			continue
		}
		switch last, later := fix[c.Of]; {
		case !later:
			fix[c.Of] = c
		case last.Way == "confirmed" && last.To == nil: // what was moved and then confirmed stays moved
			last.To = c.To
			fix[c.Of] = last
		}
	}
	return fix
}

// Corrected goes through the log as it stands: what was undone is left out, what was moved or confirmed reads so, and the
// corrections themselves are gone.
func (s State) Corrected() iter.Seq[Event] {
	log, fix := s.Log, s.fix
	return func(yield func(Event) bool) {
		for _, e := range log {
			if fix != nil {
				if _, is := e.Body.(Corrected); is || !stands(&e, fix) {
					continue
				}
			}
			if !yield(e) {
				return
			}
		}
	}
}

// stands makes of an event what its corrections say; false where it was taken back.
func stands(e *Event, fix map[int]Corrected) bool {
	c, touched := fix[e.Seq]
	if touched && c.Way != "undone" {
		e.Body = amend(e.Body, c)
	}
	return !touched || c.Way != "undone"
}

// Correction is the correction that an event stands under; false for none.
func (s State) Correction(seq int) (Corrected, bool) {
	c, touched := s.fix[seq]
	return c, touched
}

// undone tells whether an event was taken back.
func (s State) undone(seq int) bool { return s.fix[seq].Way == "undone" }

// amend is a body as a correction leaves it.
func amend(b Body, c Corrected) Body {
	switch b := b.(type) {
	case DipBegun:
		if c.To != nil {
			b.When = c.To
		}
		return b
	case DipEnded:
		b.Assumed = false
		if c.To != nil {
			b.When = c.To
		}
		return b
	case AiringEnded:
		if c.To != nil {
			b.When = c.To
		}
		return b
	case Stirred:
		b.Assumed = false
		return b
	}
	return b
}

// growing is a state that shares nothing with another of what an event changes, so that it is changed in place.
type growing struct {
	State
	at        map[string]int // where each tag stands in Pieces
	stretched map[string]int // how many of Shifts each timer has
	holds     bool           // what is called to go in is kept in mind
}

// own is a copy of the state to change. A list that only grows is copied when it does.
func (s State) own() *growing {
	s.Given, s.Scoops, s.portions, s.samples = slices.Clip(s.Given), slices.Clip(s.Scoops), slices.Clip(s.portions), slices.Clip(s.samples)
	s.doneToday, s.seen, s.unsaid = slices.Clip(s.doneToday), slices.Clip(s.seen), slices.Clip(s.unsaid)
	s.Shifts, s.tried = slices.Clone(s.Shifts), slices.Clone(s.tried)
	s.Pieces = slices.Clone(s.Pieces)
	for i := range s.Pieces {
		p := &s.Pieces[i]
		p.Past, p.Finishing.Behind = slices.Clone(p.Past), slices.Clone(p.Finishing.Behind)
	}
	g := &growing{State: s, stretched: map[string]int{}}
	for _, sh := range s.Shifts {
		g.stretched[sh.Timer]++
	}
	g.index()
	return g
}

// pass takes an event that stands in the log, as the corrections leave it.
func (s *growing) pass(e Event) error {
	if s.holds {
		s.hold(e.At)
	}
	s.Seq = max(s.Seq, e.Seq)
	if e.At.After(s.At) {
		s.At = e.At
	}
	if !stands(&e, s.fix) {
		if b, lift := e.Body.(DipEnded); lift {
			if i, known := s.at[b.Tag]; known {
				s.Pieces[i].liftBack = true
			}
		}
		return nil
	}
	s.learn(e)
	err := s.change(e)
	if err != nil {
		s.misfits++
	}
	if s.holds {
		s.hold(s.At)
	}
	return err
}

// index notes where each piece stands: of two with one tag the first.
func (s *growing) index() {
	s.at = make(map[string]int, len(s.Pieces))
	for i := range s.Pieces {
		if _, twice := s.at[s.Pieces[i].Tag]; !twice {
			s.at[s.Pieces[i].Tag] = i
		}
	}
}

// give gives a timer time, or takes it.
func (s *growing) give(sh Shift) {
	s.Shifts = append(s.Shifts, sh)
	s.stretched[sh.Timer]++
}

// clearShifts forgets what was given to a timer that begins anew.
func (s *growing) clearShifts(timer string) {
	for i := len(s.Shifts) - 1; s.stretched[timer] > 0; i-- {
		if s.Shifts[i].Timer == timer {
			s.Shifts = slices.Delete(s.Shifts, i, i+1)
			s.stretched[timer]--
		}
	}
}
