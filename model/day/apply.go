package day

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

func (s *growing) change(e Event) error {
	at := s.At
	if p, ok := e.Body.(Presumed); ok && p.IsAssumed() {
		_, skims := e.Body.(FrothSkimmed)                // it counts with the entry behind it
		if !skims && !s.sameLift(e) && !s.sameEntry(e) { // what comes out or goes in together is one act
			s.Assumed++
		}
	} else if answers(e.Body) {
		s.Assumed = 0
	}
	if b, ok := e.Body.(Goods); ok { // no word on a piece tells of the level
		return s.applyGoods(b, e, at)
	}
	s.liquid = s.liquid.after(&s.State, e.Body, at)
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
			s.Given = append(s.Given, b.Caution)
		}
	case PowderWeighed:
		s.Scoops = append(s.Scoops, Scoop{b.Step, b.Mass})
	case StepBegun:
		if b.Step != s.Step {
			return fmt.Errorf("step %d is open, not step %d", s.Step, b.Step)
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
		if st, ok := s.Open(); ok && b.Step == s.Step && slices.Contains([]recipe.Do{recipe.Fill, recipe.Warm, recipe.Cool, recipe.Simmer}, st.Do) {
			s.Vat.Warmed = at
		}
	case VatJudged:
		if b.Of == "" {
			s.Vat.Ready = b.Ready
		}
		s.Vat.Pulled, s.stripJudged = time.Time{}, true
		if !b.Ready {
			s.Judged = at
			s.looks++
			s.clearShifts(stepTimer(b.Step))
			return nil
		}
	case Reading:
		if b.Temp != nil {
			if b.Of == "stock" {
				s.Vat.StockT, s.Vat.StockAt = b.Temp, at
			} else {
				s.Vat.Temp, s.Vat.TempAt, s.Hot = b.Temp, at, false
			}
		}
		if b.PH != nil && b.Of == "stock" {
			s.Vat.StockPH = b.PH
		} else if b.PH != nil {
			s.Vat.PH, s.Vat.PHAt = b.PH, at
			if s.phTemp = b.PHTemp; s.phTemp == nil {
				s.phTemp = s.Vat.Temp
			}
		}
		if v, ok := s.Holds(b); ok && b.Of == "" {
			s.Vat.Holds, s.Vat.HoldsAt = &v, at
		}
		return nil
	case StripBegun:
		s.Vat.Pulled, s.pulled = at, e.Seq
		s.strips++
		return nil
	case StripTest:
		s.Treating = s.Treating.strip(b.Stayed, e.At)
		s.Vat.Strip, s.Vat.StripAt, s.Vat.Pulled, s.stripJudged = &b.Stayed, at, time.Time{}, false
		return nil
	case VatCovered:
		s.Vat.Covered = true
	case VatUncovered:
		s.Vat.Covered = false
	case FrothSkimmed:
		s.Vat.Skimmed, s.entryBack = at, false
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
		s.give(Shift(b))
	case TimerCut:
		s.give(Shift{b.Timer, -b.By})
	case HelperChanged:
		s.Children = b.Children
	case Talking:
		if s.TalkSince = (time.Time{}); b.On {
			s.TalkSince = at
		}
	case WayChosen:
		s.Way = b.Way
	case HandsTold:
		s.HandsTold, s.AtVat = b.Hands, b.People
	case PlaceChanged:
		if s.Apart = ""; b.Of == OfGoods {
			s.Apart = b.Place
			break
		}
		s.Moved = b.Place
	case VesselTold:
		s.Head.Setup.Material = b.Material
	case HotWork:
		s.Hot = true
	case Treated:
		s.Treating = nil
		if b.Wait > 0 {
			s.Treating = &Treating{Cause: b.Cause, Do: b.Do, Since: at, Until: at.Add(b.Wait.Duration()), before: s.Vat.Strip}
			s.clearShifts(recheckTimer)
			s.Vat.Work = time.Time{}
		}
	case Rechecked:
		s.Treating = nil
	case SoundChecked:
		s.Sound = Sound{At: at, Heard: b.Heard}
	case SoundFailed:
		s.Sound.Failed = b.Why
	case Closed:
		s.Closed = true
	case VatEnded:
		s.Closed, s.Ended = true, true
	}
	return s.advance(e.Body, at)
}

// answers tells whether a body is an answer of the hands, which ends a run of assumed acts.
func answers(b Body) bool {
	switch b := b.(type) {
	case ClockStepped, Slept, SoundFailed, Lost, Unknown:
		return false
	case AiringEnded:
		return !b.Assumed
	}
	return true
}

// sameEntry tells whether an assumed dip, the last event of the log, was assumed at once with the one before it.
func (s *growing) sameEntry(e Event) bool {
	if _, dip := e.Body.(DipBegun); !dip {
		return false
	}
	for i := len(s.Log) - 2; i >= 0 && s.Log[i].At.Equal(e.At); i-- {
		switch b := s.Log[i].Body.(type) {
		case AiringEnded:
			if b.Assumed {
				continue
			}
		case DipBegun:
			return b.Assumed
		}
		return false
	}
	return false
}

// sameLift tells whether an assumed lift, the last event of the log, was assumed at once with the event before it.
func (s *growing) sameLift(e Event) bool {
	n := len(s.Log)
	if n < 2 || !s.Log[n-2].At.Equal(e.At) {
		return false
	}
	a, before := s.Log[n-2].Body.(DipEnded)
	b, is := e.Body.(DipEnded)
	if !before || !is || !a.Assumed || a.When == nil || b.When == nil {
		return false
	}
	p, _ := s.Piece(a.Tag)
	last := len(p.Past) - 1
	return last >= 0 && b.When.Sub(*a.When).Abs() <= p.near(p.Past[last].Ended.Sub(p.Past[last].Begun))
}

// advance opens the next step when the body closes the open one.
func (s *growing) advance(b Body, at time.Time) error {
	st, ok := b.(Stepped)
	if !ok || st.StepNo() == 0 {
		return nil
	}
	switch b.(type) {
	case CautionAnswered, PowderWeighed, StepBegun, Reading, StripTest:
		return nil
	}
	if st.StepNo() != s.Step {
		return fmt.Errorf("step %d is open, not step %d", s.Step, st.StepNo())
	}
	s.Step++
	s.Vat.Pulled = time.Time{}
	s.clearShifts(stepTimer(s.Step))
	s.StepSince, s.Begun, s.Answered, s.Judged, s.looks = at, time.Time{}, time.Time{}, time.Time{}, 0
	if s.Step > len(s.Plan) {
		s.Vat.Ready = true
	}
	if st, brews := s.brews(); brews && st.Waits() && s.brewing.Brews == nil && s.Head.Opening.Since == nil {
		s.brewing.Brews = &at
	}
	return nil
}

func (s *growing) applyGoods(b Goods, e Event, at time.Time) error {
	i, known := s.at[b.PieceTag()]
	if known {
		s.Pieces[i].handled = e.At
	}
	if add, ok := b.(PieceAdded); ok {
		p := Piece{Tag: add.Tag, Spec: add.PieceSpec, Dips: add.Had, listed: e.At, handled: e.At}
		switch {
		case known && s.Pieces[i].free(): // in its place: the others keep their pegs
			s.Pieces[i] = p
			return nil
		case known:
			return fmt.Errorf("%s is on the list already", add.Tag)
		}
		s.at[add.Tag], s.Pieces = len(s.Pieces), append(s.Pieces, p)
		return nil
	}
	if !known {
		return fmt.Errorf("no piece is tagged %q", b.PieceTag())
	}
	p := s.piece(i)
	p.Finishing.take(b, at)
	switch b := b.(type) {
	case PieceChanged:
		p.Spec = b.PieceSpec
	case PieceDropped:
		p.Phase = Dropped
	case Readied:
		p.readied.scour = p.readied.scour || b.What == ToScour
		p.readied.soak = p.readied.soak || b.What == ToSoak
		p.readied.scoured = p.readied.scoured || b.What == ToScour && !b.Left
		p.readied.soaks = p.readied.soaks || b.What == ToSoak && !b.Left
	case WettedOut:
		if p.Phase == Dry {
			p.Phase = Wet
		}
	case DipBegun:
		p.liftBack, s.entryBack = false, false
		if p.Phase == InVat {
			return fmt.Errorf("%s is in the vat since %s", p.Tag, Clock(p.Since))
		}
		p.Phase, p.Since, p.For = InVat, wording.Told(b.When, at).Add(b.CountIn.Duration()), b.For
		p.Past = append(p.Past, Dip{No: b.Dip, Begun: p.Since, Assumed: b.Assumed})
		s.clearShifts("dip " + p.Tag)
		if s.Vat.Work.IsZero() {
			s.Vat.Work = at
		}
		s.RestSince, s.RestUntil = time.Time{}, time.Time{}
		s.Vat.Covered = false
	case DipEnded:
		if p.Phase != InVat {
			return fmt.Errorf("%s is not in the vat", p.Tag)
		}
		p.Phase, p.Since, p.For = Airing, wording.Told(b.When, at), b.Air
		p.Dips++
		if n := len(p.Past); n > 0 {
			p.Past[n-1].Ended, p.Past[n-1].Assumed, p.Past[n-1].EndSeq = p.Since, p.Past[n-1].Assumed || b.Assumed, e.Seq
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
	case LookedAt:
		if b.Said != "" {
			p.Looked = p.Dips
		}
		if b.Looks != "" {
			s.samples = append(s.samples, Sample{At: e.At, Tag: b.Tag, Looks: b.Looks, Dips: p.Dips, Wet: b.Wet, Rinsed: b.Rinsed})
		}
	case CrockTested:
		p.rubbed = &b
	case Finished:
		p.Phase = FinishedPiece
	case CarriedOver:
		p.Phase = Carried
	}
	return nil
}
