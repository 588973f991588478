package engine

import (
	"errors"
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

// Writer puts one event on disk, written and synced when it returns nil.
type Writer interface {
	Append(day.Event) error
	Close() error
}

// session is one open day. Only the engine's goroutine touches it, but for its scribe, which only writes.
type session struct {
	id        string
	state     day.State // changed by set
	room      day.Room  // for its log
	deadlines []day.Due // of the state, once listed
	listed    bool
	ticked    time.Time // the day-time of the last tick: what is shown is of that instant
	moment    *moment   // of the state, as last asked for
	source    Source
	writer    Writer // nil: only looked at, another program writes
	boot      string
	waiting   []day.Event          // applied, not in the day's file yet nor in the writer's spill; the first is in flight
	last      int                  // the highest number in its file when it was opened
	busy      bool                 // the scribe is at work
	asked     time.Duration        // since this monotonic instant
	mono      func() time.Duration // the machine's monotonic clock
	trouble   string               // why nothing goes to disk; only looked at: why it is not read again
	why       string               // the last refusal of the day's file
	away      shelf.Away           // what the writer keeps elsewhere and goes on trying to bring into the day
	crashed   bool                 // the writer has failed
	shed      bool                 // the dyer leaves without what is waiting
	keptTo    int                  // waiting events up to this one lie in a file elsewhere
	elsewhere shelf.Away           // that file
	unkept    bool                 // what lies there is in the day by now, and is to be called so
	advice    string               // a word where the forecasts failed and are off
	watched   time.Time            // since when somebody could hear
	called    map[string]int       // calls made, by timer and deadline
	several   bool                 // other days are written too
	retry     time.Duration        // monotonic instant of the next try after a failure
	inbox     chan<- scribeDone    // where the scribe reports
	outlook   *outlook.Outlook     // as last reckoned
	blue      *outlook.Blue
	table     *outlook.Table
	bluesAt   time.Time     // the minute that the blues are for
	reckoning bool          // a new outlook is being reckoned
	seen      int           // events that the last outlook knows of
	seenAt    time.Time     // and the minute it is for
	cautioned string        // the call whose press was answered with a caution
	spared    string        // the pieces that this press left as they are
	askedAt   time.Duration // and when, on the monotonic clock
	noticed   string        // the id of the call as last looked at
	noticedAt time.Duration // the monotonic instant at which it changed; 0: not since the day was opened

	sound // how its calls are heard

	watching // while it is only looked at
}

// scribeDone is what the scribe says of the event in flight.
type scribeDone struct {
	id      string
	err     error
	away    shelf.Away
	crashed bool // the writer failed at it, and is not trusted any more
	back    bool // it was a try to bring into the day what lies elsewhere
}

// now is day-time, never before the last event.
func (s *session) now() time.Time {
	t := s.source.Now()
	if t.Before(s.state.At) {
		return s.state.At
	}
	return t
}

// do decides a command and applies what it makes. hand is whether it comes from a key or a mouse.
func (s *session) do(c day.Command, hand bool) ([]day.Event, error) {
	if s.writer == nil {
		return nil, s.refusal()
	}
	now := s.now()
	present := s.at(now).call
	s.notice(present)
	call := present.ID
	press, pressed := c.(day.Done)
	if pressed && s.cautioned == call && s.spared == press.Without {
		switch since := s.mono() - s.askedAt; {
		case since < leastAsked:
			return nil, day.ErrTooSoon
		case since < stillAsked:
			c = day.Answered{Command: c}
		}
	}
	bodies, err := day.Decide(s.state, c, now)
	if hand && s.tooEarly(c, bodies, err) {
		return nil, &day.Other{Seen: call, Now: present.Brief(), Just: true}
	}
	var p *day.Pending
	if pressed && errors.As(err, &p) {
		s.cautioned, s.spared, s.askedAt = call, press.Without, s.mono()
	}
	if err != nil {
		return nil, err
	}
	s.cautioned = ""
	if hand && chosen(c) { // a press is for another thing now, though the call may be the same
		s.noticedAt = s.mono()
	}
	return s.happen(bodies...), nil
}

// A press answers the caution that came with the one before it from leastAsked to stillAsked after that.
const (
	leastAsked = time.Second
	stillAsked = 10 * time.Second
)

// happen numbers, stamps and applies what happened, and hands it to the scribe.
func (s *session) happen(bodies ...day.Body) []day.Event {
	var out []day.Event
	for _, b := range bodies {
		e := day.Event{Seq: s.nextSeq(), At: s.now().Truncate(time.Second), Body: b}
		if e.At.Before(s.state.At) {
			e.At = s.state.At
		}
		if up, ok := s.source.Up(); ok && s.boot != "" {
			e.Boot, e.Up = s.boot, seconds(up)
		}
		// An event that does not fit is in the log all the same: Decide has let it through, so the hands did it.
		next, _ := s.room.Apply(s.state, e)
		s.set(next)
		s.waiting = append(s.waiting, e)
		out = append(out, e)
	}
	s.plan()
	if s.trouble == "" { // else the retry takes its turn
		s.write()
	}
	return out
}

// nextSeq is above every number of the day, also of an event that could not be read.
func (s *session) nextSeq() int { return max(s.state.Seq, s.last) + 1 }

// pending tells whether anything is to be brought to where it belongs on disk.
func (s *session) pending() bool {
	return s.writer != nil && !s.crashed && (len(s.waiting) > 0 || s.away.Events > 0 || s.unkept)
}

// write has the scribe send the first waiting event to disk, or bring into the day what lies elsewhere, if it is not at work.
func (s *session) write() {
	if s.busy || !s.pending() {
		return
	}
	s.busy, s.asked = true, s.mono()
	done := scribeDone{id: s.id, back: len(s.waiting) == 0}
	var e day.Event
	if !done.back {
		e = s.waiting[0]
	}
	w, inbox := s.writer, s.inbox
	guard.GoThen("scribe", func() { done.scribe(w, e) }, func(c *guard.Crash) {
		if c != nil {
			guard.End(*c)
			done.err, done.crashed = c, true
		}
		inbox <- done
	})
}

// scribe writes, on a goroutine of its own.
func (d *scribeDone) scribe(w Writer, e day.Event) {
	r, can := w.(refuge)
	if d.back {
		d.err = r.Return()
	} else {
		d.err = w.Append(e)
	}
	if can {
		d.away = r.Away()
	}
}

// written is called when the scribe has written an event, or could not.
func (s *session) written(d scribeDone, mono time.Duration) {
	s.busy, s.away, s.crashed = false, d.away, d.crashed
	if d.err != nil && !d.back {
		s.why = reason(d.err)
		s.trouble = s.why
		s.retry = mono + time.Second
		return
	}
	s.trouble = ""
	if d.back {
		s.unkept = false
	} else {
		s.waiting = s.waiting[1:]
	}
	s.kept()
	if s.away.Events > 0 && len(s.waiting) == 0 {
		s.retry = mono + time.Second // then it is tried to bring it into the day
		return
	}
	s.write()
}

// standing is a standing word of what is not where it belongs.
func (s *session) standing(mono time.Duration) string {
	switch {
	case s.trouble != "" && s.writer == nil:
		return s.trouble
	case s.trouble != "":
		return nowhere(len(s.unsaved()), s.trouble)
	case s.away.Events > 0:
		return keptIn(s.away, reason(s.away.Why))
	case s.elsewhere.Events > 0 && len(s.waiting) > 0:
		return keptIn(s.elsewhere, unanswering)
	}
	if s.busy && mono-s.asked > slowDisk {
		return fmt.Sprintf("%s not on disk yet: the disk has not answered for %s", wording.Counted(len(s.waiting), "act"), day.Long((mono - s.asked).Truncate(time.Second)))
	}
	return ""
}

// slowDisk is how long a write may take before it is told.
const slowDisk = 2 * time.Second

// unsaved are the events that are on no disk.
func (s *session) unsaved() []day.Event {
	if s.writer == nil {
		return nil
	}
	var out []day.Event
	for _, e := range s.waiting {
		if e.Seq > s.keptTo {
			out = append(out, e)
		}
	}
	return out
}

// saved is the last event that is on disk.
func (s *session) saved() int {
	if out := s.unsaved(); len(out) > 0 {
		return out[0].Seq - 1
	}
	return s.nextSeq() - 1
}

// tick lets time act: what slept or was stepped is told, what ran out is called or assumed.
// several is whether other days are written too, so that what is said begins with the vat.
func (s *session) tick(caller cue.Caller, unheard, several bool) {
	s.ticked = s.now()
	if s.writer == nil || s.state.Closed {
		return
	}
	s.several = several
	if _, living := s.source.(*Living); living && unheard {
		s.watched = s.now()
		s.tellOverdue(caller)
	}
	if w, ok := s.source.(Watched); ok {
		slept, stepped := w.Notice()
		if slept > 0 {
			s.happen(day.Slept{For: quantity.Span(slept.Round(time.Second))})
			s.watched = s.now()
			s.tellOverdue(caller)
		}
		if stepped != 0 {
			s.happen(day.ClockStepped{By: quantity.Span(stepped.Round(time.Second))})
		}
	}
	now := s.now()
	s.ticked = now
	if c, ok := day.Assume(s.state, now, s.watched, s.heard); ok {
		if bodies, err := day.Decide(s.state, c, now); err == nil {
			s.happen(bodies...)
		}
	}
	called := s.call(caller, now)
	s.around(caller, now)
	s.says(caller, now, called)
}
