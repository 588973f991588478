package day

import (
	"errors"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// Decide says which events a command makes at an instant, or refuses in one sentence. A command that wants a caution answered first makes
// none: the error is a *Pending, and the same command in Answered goes on. A text that holds what cannot be shown is refused, whatever the
// command, and so is a figure that a reader would set aside.
func Decide(s State, c Command, now time.Time) ([]Body, error) {
	if err := wording.RefusalIn(c); err != nil {
		return nil, err
	}
	bodies, err := s.decide(c, now)
	if err != nil {
		return nil, err
	}
	if err := s.unasked(bodies); err != nil {
		return nil, err
	}
	for _, b := range bodies {
		if err := beyondAll(b); err != nil {
			return nil, err
		}
	}
	if _, answered := c.(Answered); answered {
		return bodies, nil
	}
	return s.cautioned(c, bodies, now)
}

func (s State) decide(c Command, now time.Time) ([]Body, error) {
	if c == nil {
		return refuse("say what is to be done")
	}
	if _, undoes := c.(Undo); s.Closed && !undoes {
		return refuse("the day is closed since %s: %s", DateOf(s.At, now), s.Follows())
	}
	return c.decide(s, now)
}

func (c Done) decide(s State, now time.Time) ([]Body, error) { return s.decideDone(c, now, false) }

func (c Confirm) decide(s State, now time.Time) ([]Body, error) {
	return s.decideCorrection(c.Seq, "confirmed", nil, now)
}

func (c Move) decide(s State, now time.Time) ([]Body, error) {
	return s.decideCorrection(c.Seq, "moved", unlessZero(c.To), now)
}

func (c Skip) decide(s State, now time.Time) ([]Body, error) {
	if a := Next(s, now); a.Kind == ActGoods || a.Kind == ActReady {
		return s.leaveGoods(a), nil
	}
	st, ok := s.Open()
	if !ok {
		return refuse("no step is open")
	}
	skipped := StepSkipped{OfStep{st.No}, string(st.Do), wording.Lower(st.Title), strings.TrimSpace(c.Reason)}
	return unless(because(s.notLeftOut(st)), skipped)
}

func (c Lower) decide(s State, now time.Time) ([]Body, error) {
	p, ok := s.Piece(c.Tag)
	if !ok {
		return refuse("no piece is tagged %q", c.Tag)
	}
	switch {
	case c.When.IsZero():
	case c.When.After(now):
		return refuse("it cannot have been later than now, %s", Clock(now))
	case c.When.Before(s.Opened) || !p.Since.IsZero() && c.When.Before(p.Since):
		return refuse("at %s it cannot have gone in: say a time after it came out", Clock(c.When))
	}
	return s.decideLower(p, unlessZero(c.When))
}

func (c Lift) decide(s State, now time.Time) ([]Body, error) {
	p, ok := s.Piece(c.Tag)
	if !ok || p.Phase != InVat {
		return refuse("%s is not in the vat", c.Tag)
	}
	if !c.When.IsZero() && (c.When.Before(p.Since) || c.When.After(now)) {
		return refuse("%s went in at %s: it came out between then and now", c.Tag, Clock(p.Since))
	}
	return []Body{DipEnded{OfPiece{p.Tag}, p.Dips + 1, p.AirTime(p.Dips+1 >= p.Want()), unlessZero(c.When), Assumption{c.Assumed}}}, nil
}

// unlessZero is an instant in whole seconds, as the book keeps it; nil for none.
func unlessZero(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	t = t.Truncate(time.Second)
	return &t
}

// forEach are the events of what is done to several pieces, or to several events, at once; of one that is refused none is done.
func forEach[T any](all []T, do func(T) ([]Body, error)) ([]Body, error) {
	var out []Body
	for _, each := range all {
		bodies, err := do(each)
		if err != nil {
			return nil, err
		}
		out = append(out, bodies...)
	}
	return out, nil
}

// errClosedRoom is what is said of a sulfur reducer in a closed room.
var errClosedRoom = errors.New("no sulfur reducer in a closed room: make a draught with doors and windows, or move outdoors, and say so")
