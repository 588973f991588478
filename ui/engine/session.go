package engine

import (
	"errors"
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

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
		case since < LeastAsked:
			return nil, day.ErrTooSoon
		case since < StillAsked:
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

// A press answers the caution that came with the one before it from LeastAsked to StillAsked after that, where no other key came between
// them: for as long as a question of one line is read and answered, and not when it is forgotten (an estimate).
const (
	LeastAsked = time.Second
	StillAsked = 5 * time.Second
)

// happen numbers, stamps and applies what happened, and hands it to the scribe.
func (s *session) happen(bodies ...day.Body) []day.Event {
	var out []day.Event
	for _, b := range bodies {
		now := s.now()
		e := day.Event{Seq: s.nextSeq(), At: now.Truncate(time.Second), Body: b}
		if e.At.Before(s.state.At) {
			e.At = s.state.At
		}
		if up, ok := s.source.Up(); ok && s.boot != "" {
			e.Boot, e.Up = s.boot, seconds(up-max(0, now.Sub(e.At))) // as it read at that whole second: who anchors on it loses none
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
		return fmt.Sprintf("%s not yet on disk: the disk has not answered for %s", wording.Counted(len(s.waiting), "act"), day.Long((mono - s.asked).Truncate(time.Second)))
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
	return wording.Only(s.waiting, func(e day.Event) bool { return e.Seq > s.keptTo })
}

// saved is the last event that is on disk.
func (s *session) saved() int {
	if out := s.unsaved(); len(out) > 0 {
		return out[0].Seq - 1
	}
	return s.nextSeq() - 1
}

func (e *Engine) written(d scribeDone) {
	if s := e.session(d.id); s != nil {
		s.written(d, e.in.Mono())
	}
}

// kept looks whether the day has by now all that was kept elsewhere; then that is only to be called merged.
func (s *session) kept() {
	if s.elsewhere.Events > 0 && len(s.waiting) == len(s.unsaved()) {
		s.elsewhere, s.unkept = shelf.Away{}, true
	}
}

// refusal is why nothing can be done on a day that is only looked at.
func (s *session) refusal() error {
	if s.free {
		return errors.New("the other program has left this vat: Enter takes the day over, then this can be done")
	}
	return errors.New("another program has this day open: here it can only be looked at")
}
