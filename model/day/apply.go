package day

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/recipe"
)

const doWeigh = recipe.Weigh

// Begin is the state of a day before its first event.
func Begin(h Head) (State, error) {
	plan, err := Plan(h)
	if err != nil {
		return State{}, err
	}
	s := State{Head: h, Plan: plan, Step: 1}
	o := h.Opening
	s.Vat = Vat{Covered: o.Cover, Temp: o.Temp, PH: o.PH, Sulfur: o.Sulfur || (o.Built && h.Recipe.Family.SulfurReducer())}
	if o.Step > 0 && (!o.Built || h.Setup.Ending) {
		s.Step = min(o.Step, len(plan)+1)
	}
	if o.Since != nil {
		s.StepSince = *o.Since
	}
	for _, c := range o.Pieces {
		p := Piece{Tag: c.Tag, Spec: c.PieceSpec, Dips: c.Had}
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

// Replay folds Apply over events. It stops at nothing: an event that does not fit is kept in the log, and told.
func Replay(h Head, events []Event) (State, []error) {
	s, err := Begin(h)
	if err != nil {
		return s, []error{err}
	}
	return fold(s, events)
}

// fold applies events with the corrections among them taken into account.
func fold(s State, events []Event) (State, []error) {
	var errs []error
	fix := corrections(events)
	for _, e := range events {
		c, touched := fix[e.Seq]
		if touched && c.Way == "undone" {
			s = s.log(e)
			continue
		}
		kept := e
		if touched {
			e.Body = amend(e.Body, c)
		}
		next, err := s.apply(e)
		if err != nil {
			errs = append(errs, fmt.Errorf("event %d, %s: %w", e.Seq, e.Body.Kind(), err))
		}
		next.Log[len(next.Log)-1] = kept
		s = next
	}
	return s, errs
}

// corrections says what the later events make of the earlier ones. A correction can itself be undone.
func corrections(events []Event) map[int]Corrected {
	fix := map[int]Corrected{}
	for i := len(events) - 1; i >= 0; i-- {
		c, ok := events[i].Body.(Corrected)
		if !ok {
			continue
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

// Told is the log as it stands corrected: what was undone is left out, what was moved or confirmed reads so, and the
// corrections themselves are gone.
func (s State) Told() []Event {
	fix := corrections(s.Log)
	out := make([]Event, 0, len(s.Log))
	for _, e := range s.Log {
		c, touched := fix[e.Seq]
		if _, is := e.Body.(Corrected); is || touched && c.Way == "undone" {
			continue
		}
		if touched {
			e.Body = amend(e.Body, c)
		}
		out = append(out, e)
	}
	return out
}

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

// Apply is the state after one more event. It is total: an event that does not fit changes nothing but the log, and
// the error says why.
func Apply(s State, e Event) (State, error) {
	if _, ok := e.Body.(Corrected); ok {
		b, err := Begin(s.Head)
		if err != nil {
			return s, err
		}
		next, _ := fold(b, append(slices.Clone(s.Log), e))
		next.Turn = s.Turn
		return next, nil
	}
	return s.apply(e)
}

func (s State) log(e Event) State {
	s.Log = append(s.Log[:len(s.Log):len(s.Log)], e)
	if e.At.After(s.At) {
		s.At = e.At
	}
	return s
}

func (s State) apply(e Event) (State, error) {
	s = s.log(e)
	at := s.At
	if p, ok := e.Body.(Presumed); ok && p.IsAssumed() {
		s.Assumed++
	} else if answers(e.Body) {
		s.Assumed = 0
	}
	if b, ok := e.Body.(Goods); ok {
		return s.applyGoods(b, e.Seq, at)
	}
	switch b := e.Body.(type) {
	case Opened:
		s.Opened = at
		if s.StepSince.IsZero() {
			s.StepSince = at
		}
	case CautionAnswered:
		switch {
		case b.Step == 0:
			s.Said, s.SaidAt = b.Caution, at
		case b.Step == s.Step:
			s.Answered = at
		}
		if !slices.Contains(s.Given, b.Caution) {
			s.Given = append(s.Given[:len(s.Given):len(s.Given)], b.Caution)
		}
	case PowderWeighed:
		s.Scoops = append(s.Scoops[:len(s.Scoops):len(s.Scoops)], Scoop{b.Step, b.Mass})
	case StepBegun:
		if b.Step != s.Step {
			return s, fmt.Errorf("step %d is open, not step %d", s.Step, b.Step)
		}
		s.Begun = at
		s.clearShifts(stepTimer(b.Step))
	case PowderAdded:
		if p, ok := s.Head.Recipe.Powder(b.Powder); ok {
			s.Vat.Alkali = s.Vat.Alkali || p.Role == recipe.Alkali
			if p.Role == recipe.Reducer && s.Head.Recipe.Family.SulfurReducer() {
				s.Vat.Sulfur = true
			}
		}
	case StepDone:
		if st, ok := s.Open(); ok && b.Step == s.Step && changesTemp(st.Do) {
			s.Vat.Warmed = at
		}
	case VatJudged:
		if b.Of == "" {
			s.Vat.Ready = b.Ready
		}
		if !b.Ready {
			s.Judged = at
			s.clearShifts(stepTimer(b.Step))
			return s, nil
		}
	case Reading:
		if b.Temp != nil {
			t := *b.Temp
			if b.Of == "stock" {
				s.Vat.StockT, s.Vat.StockAt = &t, at
			} else {
				s.Vat.Temp, s.Vat.TempAt, s.Hot = &t, at, false
			}
		}
		if b.PH != nil {
			v := *b.PH
			s.Vat.PH, s.Vat.PHAt = &v, at
		}
		if v, ok := s.Holds(b); ok && b.Of == "" {
			s.Vat.Holds, s.Vat.HoldsAt = &v, at
		}
		return s, nil
	case StripTest:
		v := b.Stayed
		s.Vat.Strip, s.Vat.StripAt = &v, at
		return s, nil
	case VatCovered:
		s.Vat.Covered = true
	case VatUncovered:
		s.Vat.Covered = false
	case FrothSkimmed:
		s.Vat.Skimmed = at
	case Rested:
		if b.Step == 0 {
			s.RestSince, s.RestUntil = at, at.Add(b.For.Duration())
			s.clearShifts("rest")
			s.Vat.Work = time.Time{}
		}
	case HeaterOn:
		s.Vat.Heater = true
	case HeaterOff:
		s.Vat.Heater, s.Vat.Warmed = false, at
	case TimerStretched:
		s.Shifts = append(s.Shifts[:len(s.Shifts):len(s.Shifts)], Shift(b))
	case TimerCut:
		s.Shifts = append(s.Shifts[:len(s.Shifts):len(s.Shifts)], Shift{b.Timer, -b.By})
	case HelperChanged:
		s.Children = b.Children
	case PlaceChanged:
		if s.Apart = ""; b.Of == OfGoods {
			s.Apart = b.Place
			break
		}
		s.Moved = b.Place
	case HotWork:
		s.Hot = true
	case Treated:
		s.Treating = nil
		if b.Wait > 0 {
			s.Treating = &Treating{b.Cause, b.Do, at, at.Add(b.Wait.Duration())}
			s.clearShifts(recheckTimer)
			s.Vat.Work = time.Time{}
		}
	case Rechecked:
		s.Treating = nil
	case Closed:
		s.Closed = true
	case VatEnded:
		s.Closed, s.Ended = true, true
	}
	return s.advance(e.Body, at)
}

// answers tells whether a body is an answer of the hands, which ends a run of assumed acts.
func answers(b Body) bool {
	switch b.(type) {
	case ClockStepped, Slept, Lost, Unknown:
		return false
	}
	return true
}

func changesTemp(d recipe.Do) bool {
	return d == recipe.Fill || d == recipe.Warm || d == recipe.Cool || d == recipe.Simmer
}

// advance opens the next step when the body closes the open one.
func (s State) advance(b Body, at time.Time) (State, error) {
	st, ok := b.(Stepped)
	if !ok || st.StepNo() == 0 {
		return s, nil
	}
	switch b.(type) {
	case CautionAnswered, PowderWeighed, StepBegun, Reading, StripTest:
		return s, nil
	}
	if st.StepNo() != s.Step {
		return s, fmt.Errorf("step %d is open, not step %d", s.Step, st.StepNo())
	}
	s.Step++
	s.clearShifts(stepTimer(s.Step))
	s.StepSince, s.Begun, s.Answered, s.Judged = at, time.Time{}, time.Time{}, time.Time{}
	if s.Step > len(s.Plan) {
		s.Vat.Ready = true
	}
	return s, nil
}

// applyGoods is what happens to pieces.
func (s State) applyGoods(b Goods, seq int, at time.Time) (State, error) {
	i := slices.IndexFunc(s.Pieces, func(p Piece) bool { return p.Tag == b.PieceTag() })
	if add, ok := b.(PieceAdded); ok {
		s.Pieces = slices.Clone(s.Pieces)
		switch {
		case i >= 0 && s.Pieces[i].Brought(): // its tag is free again
			s.Pieces = slices.Delete(s.Pieces, i, i+1)
		case i >= 0:
			return s, fmt.Errorf("%s is on the list already", add.Tag)
		}
		s.Pieces = append(s.Pieces, Piece{Tag: add.Tag, Spec: add.PieceSpec, Dips: add.Had})
		return s, nil
	}
	if i < 0 {
		return s, fmt.Errorf("no piece is tagged %q", b.PieceTag())
	}
	s.Pieces = slices.Clone(s.Pieces)
	p := &s.Pieces[i]
	p.Past = slices.Clone(p.Past)
	p.Finishing.take(b, at)
	when := func(told *time.Time) time.Time {
		if told != nil {
			return *told
		}
		return at
	}
	switch b := b.(type) {
	case PieceChanged:
		p.Spec = b.PieceSpec
	case PieceDropped:
		p.Phase = Dropped
	case WettedOut:
		if p.Phase == Dry {
			p.Phase = Wet
		}
	case DipBegun:
		if p.Phase == InVat {
			return s, fmt.Errorf("%s is in the vat since %s", p.Tag, Clock(p.Since))
		}
		p.Phase, p.Since, p.For = InVat, when(b.When).Add(b.CountIn.Duration()), b.For
		p.Past = append(p.Past, Dip{No: b.Dip, Begun: p.Since})
		s.clearShifts("dip " + p.Tag)
		if s.Vat.Work.IsZero() {
			s.Vat.Work = at
		}
		s.RestSince, s.RestUntil = time.Time{}, time.Time{}
		s.Vat.Covered = false
	case DipEnded:
		if p.Phase != InVat {
			return s, fmt.Errorf("%s is not in the vat", p.Tag)
		}
		p.Phase, p.Since, p.For = Airing, when(b.When), b.Air
		p.Dips++
		if n := len(p.Past); n > 0 {
			p.Past[n-1].Ended, p.Past[n-1].Assumed, p.Past[n-1].EndSeq = p.Since, b.Assumed, seq
		}
		s.clearShifts("air " + p.Tag)
		s.Vat.Lifted = at
	case AiringEnded:
		if p.Phase == Airing {
			p.Phase = Aired
		}
	case BathBegun:
		s.Said = ""
		s.clearShifts("bath " + p.Tag)
	case Finished:
		p.Phase = FinishedPiece
	case CarriedOver:
		p.Phase = Carried
	}
	return s, nil
}

// clearShifts forgets what was given to a timer that begins anew.
func (s *State) clearShifts(timer string) {
	s.Shifts = slices.DeleteFunc(slices.Clone(s.Shifts), func(sh Shift) bool { return sh.Timer == timer })
}
