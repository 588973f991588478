package day

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/wording"
)

// decide takes back the last thing that was said or done, with all that went with it. What no hand did, and what was taken back,
// it passes over.
func (Back) decide(s State, now time.Time) ([]Body, error) {
	for i, e := range slices.Backward(s.Log) {
		if s.undone(e.Seq) {
			continue
		}
		if seqs := s.lookOf(i); seqs != nil {
			return s.undo(seqs, now)
		}
		switch b := e.Body.(type) {
		case Opened:
			return refuse("nothing was done yet today")
		case DipBegun, Finished:
			out, err := s.takeBack(e.Seq, now)
			if err != nil {
				return nil, err
			}
			// The same press ended the airing: the piece airs on.
			if i > 0 && !s.undone(s.Log[i-1].Seq) {
				if a, ok := s.Log[i-1].Body.(AiringEnded); ok && a.Tag == b.(Goods).PieceTag() && s.Log[i-1].At.Equal(e.At) {
					out = append(out, Corrected{s.Log[i-1].Seq, "undone", nil})
				}
			}
			return out, nil
		case ClockStepped, Slept, SoundFailed, Lost, Unknown:
		case Corrected:
			if b.Way != "undone" {
				return s.takeBack(e.Seq, now)
			}
		case PowderWeighed, Reading, StripTest: // of whatever step
			return s.takeBack(e.Seq, now)
		case TimerStretched:
			if !s.gates(b.Timer) {
				return s.shiftBack(i, now), nil
			}
		case TimerCut:
			return s.shiftBack(i, now), nil
		case CautionAnswered, StepBegun:
			if b.(Stepped).StepNo() == s.Step {
				return s.takeBack(e.Seq, now)
			}
		case Fed, Treated:
			return s.doseBack(i, now)
		case Stepped:
			if p, lot := b.(PowderAdded); b.StepNo() == 0 && !(lot && p.Powder == acidID) {
				return s.doseBack(i, now)
			}
			if b.StepNo() == s.Step-1 || b.StepNo() == s.Step {
				return s.takeBack(e.Seq, now)
			}
		default:
			return s.takeBack(e.Seq, now)
		}
	}
	return refuse("nothing can be taken back")
}

// undo takes events back that one command made, as far as they still stand.
func (s State) undo(seqs []int, now time.Time) ([]Body, error) {
	return forEach(seqs, func(seq int) ([]Body, error) {
		if s.undone(seq) {
			return nil, nil
		}
		return s.takeBack(seq, now)
	})
}

// takeBack is the correction that takes an event back.
func (s State) takeBack(seq int, now time.Time) ([]Body, error) {
	return s.decideCorrection(seq, "undone", nil, now)
}

// decide takes an event back; of a closed day never its end, nor what would leave it as no day is closed.
func (c Undo) decide(s State, now time.Time) ([]Body, error) {
	out, err := s.takeBack(c.Seq, now)
	if err != nil || !s.Closed {
		return out, err
	}
	for _, b := range out {
		if s, err = Apply(s, Event{Seq: s.Seq + 1, At: s.At, Body: b}); err != nil {
			return nil, err
		}
	}
	if err := s.hanging(); err != nil {
		return refuse("the day could not have been closed without act %d: %w", c.Seq, err)
	}
	return out, nil
}

// timerOf is the timer that a body gives time to, or takes it from; empty for any other.
func timerOf(b Body) string {
	switch b := b.(type) {
	case TimerStretched:
		return b.Timer
	case TimerCut:
		return b.Timer
	}
	return ""
}

// shiftBack takes back the time that an act of the log gave to a timer or took from it, with that of all it ends with.
func (s State) shiftBack(i int, now time.Time) (out []Body) {
	last := s.Log[i]
	with := s.timersWith(timerOf(last.Body))
	for ; i >= 0 && s.Log[i].At.Equal(last.At) && s.Log[i].Body.Kind() == last.Body.Kind(); i-- {
		at := slices.Index(with, timerOf(s.Log[i].Body))
		if at < 0 && len(out) > 0 {
			break
		}
		if at >= 0 {
			with = slices.Delete(with, at, at+1)
		}
		bodies, err := s.takeBack(s.Log[i].Seq, now)
		if err != nil {
			break
		}
		out = append(out, bodies...)
	}
	return out
}

// doseBack takes an act of the log back, and what the same command gave with it: the powders of a dose with its rest.
func (s State) doseBack(i int, now time.Time) ([]Body, error) {
	last := s.Log[i]
	given := func(b Body) bool {
		p, powder := b.(PowderAdded)
		_, food := b.(Fed)
		return powder && p.Step == 0 && p.Powder != acidID || food
	}
	ends := given(last.Body)
	switch last.Body.(type) {
	case Rested, Treated:
		ends = true
	}
	var seqs []int
	for ; i >= 0; i-- {
		e := s.Log[i]
		if e.Seq != last.Seq && (!ends || !given(e.Body) || !e.At.Equal(last.At)) || s.undone(e.Seq) {
			break
		}
		seqs = append(seqs, e.Seq)
	}
	return s.undo(seqs, now)
}

func (s State) decideCorrection(seq int, way string, to *time.Time, now time.Time) ([]Body, error) {
	e, ok := s.Event(seq)
	switch {
	case !ok:
		return refuse("no act has the number %d", seq)
	case s.undone(seq):
		return refuse("act %d was taken back already", seq)
	case way == "confirmed":
		if p, ok := e.Body.(Presumed); !ok || !p.IsAssumed() {
			return refuse("act %d was not assumed", seq)
		}
		return []Body{Corrected{seq, way, to}}, nil
	case way == "moved" && (to == nil || to.After(now)):
		return refuse("it cannot have been later than now, %s", Clock(now))
	case way == "moved" && to.Before(s.Opened):
		return refuse("the day opened at %s", DateOf(s.Opened, now))
	case way == "moved" && !movable(e.Body):
		return refuse("only a piece going in or coming out can be given another time")
	case way == "undone":
		switch b := e.Body.(type) {
		case Opened:
			return refuse("the opening of the day is not taken back")
		case ClockStepped, Slept, SoundFailed:
			return refuse("act %d was not done by anybody, so it is not taken back", seq)
		case Closed, VatEnded:
			return refuse("the end of a day is not taken back: %s", s.Follows())
		case TimerStretched:
			if s.gates(b.Timer) {
				return nil, errGateTime
			}
		case Reading:
			if s.acid() && b.PH != nil {
				return refuse("%s is not taken back, as acid may be in the vat: read the pH anew, of a ladled sample", s.briefly(b))
			}
		case HelperChanged:
			if b.Children && s.Children {
				return refuse("that children are at the vat is not taken back: once they are gone, i says so")
			}
		}
		if s.gateRests(e) {
			return nil, s.restsOn(e.Seq, e.Body)
		}
	}
	c := Corrected{seq, way, to}
	return unless(s.rests(c, e.Body), c)
}

// errGateTime is what is said of the whisking's time, and of the hour's without air, where it is to be shorter.
var errGateTime = errors.New("this time is not shortened: acid in a vat that still reduces frees a choking gas")

// decide gives a running timer more time or takes some; it never ends before now.
func (c Stretch) decide(s State, now time.Time) ([]Body, error) {
	for _, d := range Dues(s) {
		if d.Timer != c.Timer || d.Kind == DueTurn {
			continue
		}
		switch timers := s.timersWith(c.Timer); {
		case c.By > longest || c.By < -longest || d.At.Sub(d.Since) > 12*longest.Duration():
			return refuse("that is longer than any vat takes")
		case c.By > 0:
			return forEach(timers, func(timer string) ([]Body, error) { return []Body{TimerStretched{timer, c.By}}, nil })
		case c.By < 0 && d.At.Add(c.By.Duration()).Before(now):
			return refuse("only %s are left", Countdown(max(d.At.Sub(now), 0)))
		case c.By < 0 && s.gates(c.Timer):
			return nil, errGateTime
		case c.By < 0 && d.At.Add(c.By.Duration()).Before(d.Since):
			return refuse("it would be over before it began")
		case c.By < 0:
			return forEach(timers, func(timer string) ([]Body, error) { return []Body{TimerCut{timer, -c.By}}, nil })
		}
		return refuse("say by how much")
	}
	return refuse("no such time is running")
}

// timersWith are the timers that are given or cut with one: those of all that the call takes out together, by the one it shows.
func (s State) timersWith(timer string) []string {
	if dues, ok := wording.First(s.lifts(), func(dues []Due) bool { return dues[0].Timer == timer }); ok {
		return wording.Each(dues, func(d Due) string { return d.Timer })
	}
	return []string{timer}
}

// gateRests tells whether acid, or what leads to it, went on after an event because of it: a rinse before a sour bath; a
// strip, a reading, a look or a caution before the next step of a vat's end.
func (s State) gateRests(e Event) bool {
	var rests func(Body) bool
	switch b := e.Body.(type) {
	case Rinsed:
		rests = func(later Body) bool {
			switch x := later.(type) {
			case BathBegun:
				return x.Tag == b.Tag && (x.Bath == bathSour || x.Bath == bathCitric)
			case Soured:
				return x.Tag == b.Tag
			}
			return false
		}
	case StripTest, Reading, VatJudged, CautionAnswered:
		if !s.Head.Setup.Ending {
			return false
		}
		rests = func(later Body) bool {
			switch later.(type) {
			case StepDone, Settled, PowderAdded, VatEnded:
				return true
			}
			return false
		}
	default:
		return false
	}
	for _, later := range slices.Backward(s.Log) {
		if later.Seq <= e.Seq {
			break
		}
		if rests(later.Body) && !s.undone(later.Seq) {
			return true
		}
	}
	return false
}

// lookOf are the numbers of the events that one answer to a look made, of which the event at i of the log is one; nil where it is
// none.
func (s State) lookOf(i int) []int {
	from := i
	for ; from >= 0 && i-from <= 2; from-- {
		if b, ok := s.Log[from].Body.(LookedAt); ok {
			if b.Said == "" {
				return nil
			}
			break
		}
	}
	if from < 0 || i-from > 2 {
		return nil
	}
	look := s.Log[from]
	seqs := []int{look.Seq}
	tag := look.Body.(LookedAt).Tag
	for n := from + 1; n < len(s.Log) && n <= from+2; n++ {
		e := s.Log[n]
		b, changed := e.Body.(PieceChanged)
		if changed = changed && n == from+1 && b.Tag == tag; !e.At.Equal(look.At) || !changed && (n != from+2 || timerOf(e.Body) != "air "+tag) {
			break
		}
		seqs = append(seqs, e.Seq)
	}
	if from+len(seqs) <= i {
		return nil
	}
	return seqs
}

// restsOn refuses to take back what later events need.
func (s State) restsOn(seq int, b Body) error {
	return fmt.Errorf("what came after act %d, %s, depends on it: take that back first", seq, s.briefly(b))
}

// rests says why a correction does not go together with what came after it, nil when it does.
func (s State) rests(c Corrected, b Body) error {
	begin, err := Begin(s.Head)
	if err != nil {
		return err
	}
	next, misfits := foldAll(begin, append(slices.Clip(s.Log), Event{Seq: math.MaxInt, At: s.At, Body: c}))
	switch {
	case len(misfits) > s.misfits:
		return s.restsOn(c.Of, b)
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

// movable tells whether a body carries the time at which it really was.
func movable(b Body) bool {
	switch b.(type) {
	case DipBegun, DipEnded, AiringEnded:
		return true
	}
	return false
}
