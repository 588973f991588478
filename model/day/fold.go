package day

import (
	"fmt"
	"iter"
	"slices"
	"strings"
)

// Replay folds Apply over events. It stops at nothing: an event that does not fit is kept in the log, and told.
func Replay(h Head, events []Event) (State, []error) {
	s, err := Begin(h)
	if err != nil {
		return s, []error{err}
	}
	return foldAll(s, slices.Clone(events))
}

// foldAll applies the events of a whole day, which it keeps as the log. It takes time in proportion to them.
func foldAll(s State, events []Event) (State, []error) {
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
				if _, is := e.Body.(Corrected); is || !amended(&e, fix) {
					continue
				}
			}
			if !yield(e) {
				return
			}
		}
	}
}

// amended makes of an event what its corrections say; false where it was taken back.
func amended(e *Event, fix map[int]Corrected) bool {
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

func (s State) undone(seq int) bool { return s.fix[seq].Way == "undone" }

// amend is a body as a correction leaves it.
func amend(b Body, c Corrected) Body {
	switch b := b.(type) {
	case DipBegun:
		b.Assumed = false
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
	case FrothSkimmed:
		b.Assumed = false
		return b
	case Stirred:
		b.Assumed = false
		return b
	}
	return b
}

// pass takes an event that stands in the log, as the corrections leave it.
func (s *growing) pass(e Event) error {
	if s.holds {
		s.hold(e.At)
	}
	s.Seq = max(s.Seq, e.Seq)
	s.At = Latest(s.At, e.At)
	if !amended(&e, s.fix) {
		switch b := e.Body.(type) {
		case DipEnded:
			if i, known := s.at[b.Tag]; known {
				s.Pieces[i].liftBack = true
			}
		case FrothSkimmed, DipBegun:
			s.entryBack = true
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

// Begin is the state of a day before its first event.
func Begin(h Head) (State, error) {
	plan, err := Plan(h)
	if err != nil {
		return State{}, err
	}
	s := State{Head: h, Plan: plan, Step: 1, liquid: liquid{level: h.Opens()}}
	o := h.Opening
	s.brewing, s.goodsAsked = o.Brewing, h.Setup.GoodsLater
	s.Vat = Vat{Covered: o.Cover, Temp: o.Temp, PH: o.PH, Sulfur: o.Sulfur || (o.Built && h.Recipe.Family.SulfurReducer())}
	if o.Step > 0 && (!o.Built || h.Setup.Ending) {
		s.Step = min(o.Step, len(plan)+1)
	}
	if o.Since != nil {
		s.StepSince = *o.Since
	}
	for _, c := range o.Pieces {
		p := Piece{Tag: c.Tag, Spec: c.PieceSpec, Dips: c.Had, readied: readied{scour: c.Scoured}}
		if c.Finished {
			p.Phase, p.Finishing.Rinses = FinishedPiece, c.Rinses
			if c.Behind != "" {
				p.Finishing.Behind = strings.Split(c.Behind, ", ")
			}
		}
		s.Pieces = append(s.Pieces, p)
	}
	return s, nil
}

// Apply is the state after one more event. It is total: an event that does not fit changes nothing but the log, and
// the error says why.
func Apply(s State, e Event) (State, error) { return new(Room).Apply(s, e) }

// Room is where the log of one day grows, so that it is not copied for each event of a long day. It is for whoever applies one event
// after another, and not for two at a time.
type Room struct{ log []Event }

// Apply is Apply, with the log of the new state behind that of the old one where that is the last that was made here.
func (r *Room) Apply(s State, e Event) (State, error) {
	if _, ok := e.Body.(Corrected); ok {
		b, err := Begin(s.Head)
		if err != nil {
			return s, err
		}
		next, _ := foldAll(b, append(slices.Clip(s.Log), e))
		if len(s.Turn)+len(s.Goes) > 0 { // what was called by the timetable stays called
			s.hold(next.At)
			next.Turn, next.Goes, next.held = s.Turn, s.Goes, s.held
			next.hold(next.At)
		}
		return next, nil
	}
	f := s.own()
	f.holds = true
	if n := len(s.Log); n == 0 || n != len(r.log) || &r.log[0] != &s.Log[0] {
		r.log = slices.Clip(s.Log)
	}
	r.log = append(r.log, e)
	f.Log = slices.Clip(r.log)
	err := f.pass(e)
	return f.State, err
}
