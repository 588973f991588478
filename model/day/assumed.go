package day

import (
	"slices"
	"time"
)

// Unsaid are the acts that were recorded as planned, without a press, and that nobody has confirmed, moved or taken back since:
// the oldest first.
func (s State) Unsaid() []Event {
	out := make([]Event, len(s.unsaid))
	for i, at := range s.unsaid {
		out[i] = s.Log[at]
	}
	return out
}

// Unconfirmed is how many they are.
func (s State) Unconfirmed() int { return len(s.unsaid) }

// WhenOf is when an act really was, as far as the book knows: told afterwards, else as it was written down.
func WhenOf(e Event) time.Time {
	var when *time.Time
	switch b := e.Body.(type) {
	case DipBegun:
		when = b.When
	case DipEnded:
		when = b.When
	case AiringEnded:
		when = b.When
	}
	if when != nil {
		return *when
	}
	return e.At
}

// Pause tells whether the hands have time for a question: no time runs in its last minute, and no lift is due.
func Pause(s State, now time.Time) bool {
	for _, d := range Dues(s) {
		left := d.At.Sub(now)
		if left <= LastMinute && (left > 0 || d.Kind == DueLift) {
			return false
		}
	}
	return !s.Closed
}

// confirmAll confirms each of them.
func (s State) confirmAll(now time.Time) ([]Body, error) {
	var out []Body
	for _, e := range s.Unsaid() {
		bodies, err := s.decideCorrection(e.Seq, "confirmed", nil, now)
		if err != nil {
			return nil, err
		}
		out = append(out, bodies...)
	}
	if len(out) == 0 {
		return refuse("nothing was taken as planned that waits for a word")
	}
	return out, nil
}

// Assume is the act that a running clock records as planned, if the hands did not answer: the lift of what came out together
// and was called for GoOnAfter. Nothing is assumed of a time that ran out before watched, the instant since which somebody
// could hear the call (a start, a restart, the end of a sleep), nor of a lift that was taken back: that piece is said to be in.
func Assume(s State, now, watched time.Time) (Command, bool) {
	if s.Closed || s.Head.Setup.Waiting || s.Assumed >= MostAssumed {
		return nil, false
	}
	for _, dues := range s.lifts() {
		d := dues[0]
		switch last := dues[len(dues)-1]; {
		case d.At.Before(watched) || now.Sub(d.At) < GoOnAfter || now.Before(last.At):
		case slices.ContainsFunc(dues, func(d Due) bool { p, _ := s.Piece(d.Tag); return p.liftBack }):
		case len(dues) == 1:
			return Lift{Tag: d.Tag, When: d.At, Assumed: true}, true
		default:
			var tags []string
			for _, d := range dues {
				tags = append(tags, d.Tag)
			}
			return LiftAsPlanned{tags}, true
		}
	}
	return nil, false
}

// MostAssumed is how many acts in a row are taken as done before the clock waits and calls.
const MostAssumed = 2
