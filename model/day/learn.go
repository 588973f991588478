package day

import (
	"slices"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
)

// learn takes what an event that stands tells.
func (s *growing) learn(e Event) {
	if p, ok := e.Body.(Presumed); ok && p.IsAssumed() {
		s.unsaid = append(s.unsaid, len(s.Log)-1)
	}
	s.brew(e)
	switch b := e.Body.(type) {
	case Opened:
		s.seen = nil
	case StepDone:
		if b.Step >= 1 && b.Step <= len(s.Plan) && !slices.Contains(s.doneToday, b.Step) {
			s.doneToday = append(s.doneToday, b.Step)
		}
		if b.Do == string(DoSpent) {
			s.spentAt = e.At
		}
	case PowderWeighed:
		s.portions = append(s.portions, Portion{Weighed, e.At, b.Step, b.Powder, b.Material, b.Mass})
	case PowderAdded:
		s.portions = append(s.portions, Portion{Added, e.At, b.Step, b.Powder, b.Material, b.Mass})
		s.seen, s.milky = nil, s.milky && b.Step != 0
	case Fed:
		s.portions = append(s.portions, Portion{FedIn, e.At, 0, b.Powder, b.Material, b.Mass})
		s.seen, s.milky = nil, false
	case SignSeen:
		if sign, ok := b.Known(); ok {
			if !slices.Contains(s.seen, sign) {
				s.seen = append(s.seen, sign)
			}
			switch {
			case sign.ID == "blue":
				s.unreduced = unreduced{"the liquor was seen blue", e.At}
			case sign.Group == signs.GroupColour:
				s.unreduced = unreduced{}
			}
		}
		s.milky = b.Sign == "milky"
	case Treated:
		s.seen, s.tried = nil, append(s.tried, signs.Tried{Cause: b.Cause})
	case Rechecked:
		s.seen = nil
		s.answer(b)
		if b.Answer == signs.Better.String() {
			s.unreduced = unreduced{}
		}
	case GoodsAsked:
		s.goodsAsked = true
	case HelperChanged:
		s.helperTold = true
	case VatJudged:
		if b.Ready && b.Of == "" {
			s.unreduced = unreduced{}
			if s.readyAt = e.At; s.firstReady.IsZero() {
				s.firstReady = e.At
			}
		}
	case Reading:
		if b.PH != nil && b.Of != "stock" {
			s.phWith = b.With
		}
	case StripTest:
		s.sinceStrip, s.unreduced = 0, unreduced{}
		if b.Stayed < liquor.WeakStrip && s.Head.Recipe.Family != recipe.Ferment {
			s.unreduced = unreduced{"the strip was blue after " + b.Stayed.String(), e.At}
		}
		switch {
		case b.Stayed > 0:
			s.yellow = yellowStrip{b.Stayed, e.At}
		case e.At.Sub(s.yellow.at) >= airOff.Duration():
			s.yellow = yellowStrip{}
		}
	case DipBegun:
		s.unreduced = unreduced{} // its caution was answered
		s.loads++
		s.sinceStrip++
	case SwatchJudged:
		s.samples = append(s.samples, Sample{At: e.At, Tag: b.Swatch, Looks: b.Looks, Dips: b.Dips, Rinsed: true, Strip: true})
	case VatEnded:
		s.end, s.endedAt = &b, e.At
	}
}

// answer puts what the look after a treatment said to the treatment.
func (s *growing) answer(b Rechecked) {
	n := len(s.tried)
	if n == 0 || s.tried[n-1].Cause != b.Cause {
		return
	}
	for _, a := range []signs.Answer{signs.Better, signs.Same, signs.Worse} {
		if a.String() == b.Answer {
			s.tried[n-1].Answer = a
		}
	}
}

// Known is the sign that was seen, of those that have causes; false for the dyer's own words.
func (b SignSeen) Known() (signs.Sign, bool) {
	if sign, ok := signs.Find(b.Sign); ok {
		return sign, true
	}
	if list, err := signs.Parse(b.Sign); err == nil && len(list) == 1 {
		return list[0], true
	}
	return signs.Sign{}, false
}
