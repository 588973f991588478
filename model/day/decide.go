package day

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Command is what the dyer, or a running clock, wants done.
type Command interface{ command() }

// The commands.
type (
	// Done is the one big key: whatever the call asks for is done. Call is the id of the call that was seen; empty: whatever it
	// is. Without are pieces of it that stay as they are, their tags with a tab between.
	Done struct{ Call, Without string }
	// Back takes the last step done back.
	Back struct{}
	// Skip leaves the open step out. The reason may be empty.
	Skip struct{ Reason string }
	// Scoop is a weight on the scale; negative: taken out again.
	PutScoop struct{ Mass quantity.Mass }
	// Judge is the word on the vat at a check or during a wait. By is one of Ways, or empty where nobody said.
	Judge struct {
		Ready bool
		By    string
		Seen  string
	}
	// Lower puts a piece in, whatever the act is. When is told afterwards, or zero for now.
	Lower struct {
		Tag  string
		When time.Time
	}
	// Lift takes a piece out.
	Lift struct {
		Tag     string
		When    time.Time
		Assumed bool
	}
	// Finish ends a piece.
	Finish struct{ Tag string }
	// Confirm says that an assumed act was as recorded.
	Confirm struct{ Seq int }
	// Move says when an act really was.
	Move struct {
		Seq int
		To  time.Time
	}
	// Undo takes one event back.
	Undo struct{ Seq int }
	// AddPiece puts a piece on the list.
	AddPiece struct {
		Tag  string
		Spec PieceSpec
	}
	// Stretch gives a timer more time, or takes from it.
	Stretch struct {
		Timer string
		By    quantity.Span
	}
	// RestVat lets the vat rest.
	RestVat struct{ For quantity.Span }
	// Dose gives powders beyond the build, and lets the vat rest till the recheck.
	Dose struct {
		Powders []Amount
		Wait    quantity.Span
		Why     string
	}
	// Treat does something about what was seen, and lets the vat be until it is looked at again.
	Treat struct {
		Cause   string // by the list of signs
		Do      string
		Powders []Amount
		Wait    quantity.Span
	}
	// Bench does the next thing with a piece whose dips are over.
	Bench struct{ Tag string }
	// LeaveOut leaves that next thing out.
	LeaveOut struct{ Tag, Reason string }
	// Close ends the day.
	Close struct{ Why string }
	// Record writes down what was seen or done, where no rule stands against it.
	Record struct{ Body Body }
)

// Amount is so much of one of the recipe's powders.
type Amount struct {
	Powder string
	Mass   quantity.Mass
}

func (Done) command() {}

func (Back) command() {}

func (Skip) command() {}

func (PutScoop) command() {}

func (Judge) command() {}

func (Lower) command() {}

func (Lift) command() {}

func (Finish) command() {}

func (Confirm) command() {}

func (Move) command() {}

func (Undo) command() {}

func (AddPiece) command() {}

func (Stretch) command() {}

func (RestVat) command() {}
func (Dose) command()    {}

func (Treat) command() {}

func (Bench) command() {}

func (LeaveOut) command() {}

func (Close) command() {}

func (Record) command() {}

// ErrTooSoon is the answer to a key that bounced: nothing is done and nothing need be said.
var ErrTooSoon = errors.New("the key came too soon after the last one")

// Least times between two presses: a caution is read for a second at least; a dip just begun is not ended by a bounce.
const (
	cautionLeast = time.Second
	bounce       = 3 * time.Second
	shortDip     = 2 * time.Minute
	countIn      = 5 * time.Second
)

// longest is the most that a timer is given, or a vat rests.
const longest = quantity.Span(30 * 24 * time.Hour)

// refuse is a refusal in one sentence.
func refuse(format string, a ...any) ([]Body, error) { return nil, fmt.Errorf(format, a...) }

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

// beyondAll refuses a figure that a reader of the book would set aside.
func beyondAll(b Body) error {
	if key, what := Beyond(b); what != "" {
		return fmt.Errorf("%s: %s", key, what)
	}
	return nil
}

func decide(s State, c Command, now time.Time) ([]Body, error) {
	if s.Closed {
		if c, ok := c.(Undo); ok {
			return s.undoClosed(c, now)
		}
		return refuse("the day is closed since %s: begin the next one from home", Clock(s.At))
	}
	switch c := c.(type) {
	case Done:
		return s.done(c, now, false)
	case Take:
		return s.takes(c, now)
	case LiftAsPlanned:
		return s.liftAsPlanned(c, now)
	case Back:
		return s.back(now)
	case Skip:
		st, ok := s.Open()
		if !ok {
			return refuse("no step is open")
		}
		if why := s.notLeftOut(st); why != "" {
			return refuse("%s", why)
		}
		return []Body{StepSkipped{OfStep{st.No}, string(st.Do), wording.Lower(st.Title), strings.TrimSpace(c.Reason)}}, nil
	case PutScoop:
		return s.scoop(c)
	case Judge:
		return s.judge(c, now)
	case StripBlue:
		return s.blue(now)
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
		return s.lower(p, told(c.When))
	case Lift:
		p, ok := s.Piece(c.Tag)
		if !ok || p.Phase != InVat {
			return refuse("%s is not in the vat", c.Tag)
		}
		if !c.When.IsZero() && (c.When.Before(p.Since) || c.When.After(now)) {
			return refuse("%s went in at %s: it came out between then and now", c.Tag, Clock(p.Since))
		}
		return []Body{DipEnded{OfPiece{p.Tag}, p.Dips + 1, p.AirTime(p.Dips+1 >= p.Want()), told(c.When), Assumption{c.Assumed}}}, nil
	case Finish:
		return s.finish(c.Tag)
	case Decided:
		return s.decided(c, now)
	case Confirm:
		return s.correct(c.Seq, "confirmed", nil, now)
	case ConfirmAll:
		return s.confirmAll(now)
	case Move:
		return s.correct(c.Seq, "moved", told(c.To), now)
	case Undo:
		return s.correct(c.Seq, "undone", nil, now)
	case AddPiece:
		return s.addPiece(c)
	case Stretch:
		return s.stretch(c, now)
	case RestVat:
		return s.rest(c.For)
	case Dose:
		return s.dose(c)
	case Treat:
		return s.treat(c)
	case Bench:
		return s.bench(c.Tag, now)
	case LeaveOut:
		return s.leaveOut(c)
	case Close:
		return s.close(c)
	case Record:
		return s.record(c.Body, now)
	case Answered:
		return s.answered(c, now)
	}
	return refuse("nobody knows how to do that")
}

func told(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	t = t.Truncate(time.Second) // as the book keeps it
	return &t
}

// movable tells whether a body carries the time at which it really was.
func movable(b Body) bool {
	switch b.(type) {
	case DipBegun, DipEnded, AiringEnded:
		return true
	}
	return false
}

// rests says why a correction does not go together with what came after it, nil when it does.
func (s State) rests(c Corrected, b Body) error {
	begin, err := Begin(s.Head)
	if err != nil {
		return err
	}
	_, before := fold(begin, s.Log)
	next, after := fold(begin, append(slices.Clone(s.Log), Event{Seq: math.MaxInt, At: s.At, Body: c}))
	switch {
	case len(after) > len(before):
		return fmt.Errorf("what came after event %d rests on it: take that back first", c.Of)
	case next.Vat.Heater && len(next.InVat()) > 0 && !(s.Vat.Heater && len(s.InVat()) > 0):
		return fmt.Errorf("then %s would be in the vat with the heater on: off and unplugged, or goods out, first", next.InVat()[0].Tag)
	case c.Way != "moved":
		return nil
	}
	p, _ := next.Piece(b.(Goods).PieceTag())
	last := time.Time{}
	for _, d := range p.Past {
		if d.Begun.Before(last) || !d.Ended.IsZero() && d.Ended.Before(d.Begun) {
			return fmt.Errorf("then %s would be out of the vat before it was in: look at its other times", p.Tag)
		}
		last = d.Ended
	}
	return nil
}

// hanging says what stands against leaving the vat, nil when nothing does.
func (s State) hanging() error {
	for _, p := range s.Pieces {
		if f := p.Finishing; p.inBath() {
			return fmt.Errorf("%s is in the %s since %s: take it out first", p.Tag, bathName(f.Bath), Clock(f.Since))
		}
		switch p.Phase {
		case InVat:
			return fmt.Errorf("%s is in the vat since %s: lift it first", p.Tag, Clock(p.Since))
		case Airing, Aired:
			if p.Dips < p.Want() {
				return fmt.Errorf("%s is between two dips: finish it, or carry it over, first", p.Tag)
			}
			return fmt.Errorf("%s still airs: finish it, or carry it over, first", p.Tag)
		}
	}
	if s.Vat.Heater {
		return errors.New("the heater is on: off and unplugged first")
	}
	return nil
}
