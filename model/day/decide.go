package day

import (
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// Decide says which events a command makes at an instant, or refuses in one sentence. A command that wants a caution answered
// first makes none: the error is a *Pending, and the same command in Answered goes on. A text that holds what cannot be shown is refused, whatever the command, and so is a figure that a reader would set aside.
func Decide(s State, c Command, now time.Time) ([]Body, error) {
	if err := wording.RefusalIn(c); err != nil {
		return nil, err
	}
	bodies, err := decide(s, c, now)
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
	return s.cautioned(c, bodies)
}

func decide(s State, c Command, now time.Time) ([]Body, error) {
	if s.Closed {
		if c, ok := c.(Undo); ok {
			return s.undoClosed(c, now)
		}
		return refuse("the day is closed since %s: begin the next one from home", DateOf(s.At, now))
	}
	switch c := c.(type) {
	case Done:
		return s.decideDone(c, now, false)
	case Take:
		return s.decideTake(c, now)
	case LiftAsPlanned:
		return s.liftAsPlanned(c, now)
	case LowerAsPlanned:
		return s.lowerAsPlanned(c, now)
	case Back:
		return s.decideBack(now)
	case Skip:
		if a := Next(s, now); a.Kind == ActGoods || a.Kind == ActReady {
			return s.leaveGoods(a), nil
		}
		st, ok := s.Open()
		if !ok {
			return refuse("no step is open")
		}
		return unless(because(s.notLeftOut(st)), StepSkipped{OfStep{st.No}, string(st.Do), wording.Lower(st.Title), strings.TrimSpace(c.Reason)})
	case PutScoop:
		return s.decideScoop(c)
	case Judge:
		return s.decideJudge(c, now)
	case StripBlue:
		return s.decideStrip(now)
	case Lower:
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
	case Lift:
		p, ok := s.Piece(c.Tag)
		if !ok || p.Phase != InVat {
			return refuse("%s is not in the vat", c.Tag)
		}
		if !c.When.IsZero() && (c.When.Before(p.Since) || c.When.After(now)) {
			return refuse("%s went in at %s: it came out between then and now", c.Tag, Clock(p.Since))
		}
		return []Body{DipEnded{OfPiece{p.Tag}, p.Dips + 1, p.AirTime(p.Dips+1 >= p.Want()), unlessZero(c.When), Assumption{c.Assumed}}}, nil
	case Finish:
		return s.decideFinish(c.Tag)
	case Decided:
		return s.decideLook(c, now)
	case Confirm:
		return s.decideCorrection(c.Seq, "confirmed", nil, now)
	case ConfirmAll:
		return s.confirmAll(now)
	case Move:
		return s.decideCorrection(c.Seq, "moved", unlessZero(c.To), now)
	case Undo:
		return s.takeBack(c.Seq, now)
	case AddPiece:
		return s.addPiece(c)
	case Stretch:
		return s.decideStretch(c, now)
	case RestVat:
		return s.decideRest(c.For)
	case Dose:
		return s.decideDose(c)
	case Treat:
		return s.decideTreat(c)
	case Bench:
		return s.decideBench(c.Tag, now)
	case LeaveOut:
		return s.leaveOut(c)
	case Close:
		return s.decideClose(c)
	case Record:
		return s.decideRecord(c.Body, now)
	case Answered:
		return s.answered(c, now)
	}
	return refuse("this program does not know that act")
}

// unlessZero is an instant in whole seconds, as the book keeps it; nil for none.
func unlessZero(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	t = t.Truncate(time.Second)
	return &t
}
