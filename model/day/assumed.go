package day

import (
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// Unsaid are the acts that were recorded as planned, without a press, and that nobody has confirmed, moved or taken back since:
// the oldest first.
func (s State) Unsaid() []Event {
	return wording.Each(s.unsaid, func(at int) Event { return s.Log[at] })
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
	return wording.Told(when, e.At)
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

func (ConfirmAll) decide(s State, now time.Time) ([]Body, error) {
	if s.Unconfirmed() == 0 {
		return refuse("nothing was taken as planned that is still to be confirmed")
	}
	return forEach(s.Unsaid(), func(e Event) ([]Body, error) { return s.decideCorrection(e.Seq, "confirmed", nil, now) })
}

// Assume is the act that a running clock records as planned, if the hands did not answer: the lift of what came out together
// and was called for GoOnAfter; where the dyer chose that, the entry of what has aired, after an act that was answered. Nothing is
// assumed of a time that ran out before watched, the instant since which somebody could hear the call (a start, a restart, the end
// of a sleep), of a call that heard denies (nil: all were heard), nor of a lift that was taken back: that piece is said to be in.
func Assume(s State, now, watched time.Time, heard func(Due) bool) (Command, bool) {
	if s.Closed || s.Head.Setup.Waiting || s.Assumed >= MostAssumed {
		return nil, false
	}
	unheard := func(d Due) bool { return d.At.Before(watched) || heard != nil && !heard(d) }
	for _, dues := range s.lifts() {
		d := dues[0]
		switch last := dues[len(dues)-1]; {
		case now.Sub(d.At) < GoOnAfter || now.Before(last.At) || slices.ContainsFunc(dues, unheard):
		case slices.ContainsFunc(dues, func(d Due) bool { p, _ := s.Piece(d.Tag); return p.liftBack }):
		case len(dues) == 1:
			return Lift{Tag: d.Tag, When: d.At, Assumed: true}, true
		default:
			return LiftAsPlanned{wording.Each(dues, func(d Due) string { return d.Tag })}, true
		}
	}
	if d, tags, ok := EntryDue(s, now); ok && now.Sub(d.At) >= GoOnAfter && !unheard(d) {
		return LowerAsPlanned{tags, d.At}, true
	}
	return nil, false
}

// MostAssumed is how many acts in a row are taken as done before the clock waits and calls.
const MostAssumed = 2

// EntryDue is the entry, or the skimming before it, that is taken as planned if the hands do not answer, with the pieces that go in:
// since when it is the call. False where none is: it was not chosen, the act before it was not answered, a piece goes in for the first
// time, was not yet looked at though that was asked, the vat is hot or was seen not reduced, or one was taken back and none was told since.
func EntryDue(s State, now time.Time) (d Due, tags []string, ok bool) {
	if !s.Head.Setup.Entries || s.Head.Setup.Waiting || s.Closed || s.Assumed > 0 || s.entryBack || s.Hot || s.Vat.Heater || s.notReduced() != "" {
		return Due{}, nil, false
	}
	a := Next(s, now)
	switch {
	case a.Kind == ActSkim:
		tags = tagsOf(s.called(now))
	case a.Kind == ActEnter && a.Caution == "":
		tags = a.Tags
	default:
		return Due{}, nil, false
	}
	at := s.At
	for _, tag := range tags {
		p, _ := s.Piece(tag)
		if _, asks := s.asksLook(p); p.Phase != Airing || asks {
			return Due{}, nil, false
		}
		at = Latest(at, s.airDue(&p).At)
	}
	d = s.airDue(&a.Piece)
	d.At = at
	return d, tags, true
}

// decide are the entries of pieces, unconfirmed; while the froth is to be skimmed before them, that alone: the entry has a call
// of its own.
func (c LowerAsPlanned) decide(s State, now time.Time) ([]Body, error) {
	if _, tags, ok := EntryDue(s, now); !ok || !slices.Equal(tags, c.Tags) {
		return refuse("%s: not taken as lowered by itself", strings.Join(c.Tags, ", "))
	}
	if Next(s, now).Kind == ActSkim {
		return []Body{FrothSkimmed{Assumption: Assumption{true}}}, nil
	}
	return forEach(c.Tags, func(tag string) ([]Body, error) {
		p, _ := s.Piece(tag)
		bodies, err := Lower{Tag: tag, When: c.When}.decide(s, now)
		for i, b := range bodies {
			switch b := b.(type) {
			case AiringEnded:
				b.Assumed = true
				bodies[i] = b
			case DipBegun:
				b.Assumed, b.For = true, p.NextDip()
				bodies[i] = b
			}
		}
		return bodies, err
	})
}

// Stops says why the day does not go on by itself from a call that was not answered, in words to be spoken; empty where it does, or
// where the call is none that it could go on from. heard is whether the sound check was heard and the call was sounded.
func Stops(s State, now time.Time, heard bool) string {
	c := CallOf(s, now)
	switch c.Act.Kind {
	case ActLift, ActEnter, ActSkim, ActWetOut:
	default:
		return ""
	}
	_, _, goes := EntryDue(s, now)
	switch {
	case s.Closed || c.Due != nil && now.Before(c.Due.At) || goes && heard:
		return ""
	case s.Assumed >= MostAssumed:
		return "two were taken as done, the clock waits for you"
	case !heard && !s.Head.Setup.Waiting && (goes || c.Act.Kind == ActLift):
		return "nobody said that the calls are heard, the clock waits for you"
	}
	return "the clock waits for you"
}
