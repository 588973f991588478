package day

import (
	"errors"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// stepDone answers the big key at a step of the plan.
func (s State) stepDone(a Act, now time.Time) ([]Body, error) {
	st := a.Step
	of := OfStep{st.No}
	if err := s.adults(st); err != nil {
		return nil, err
	}
	if a.Caution != "" {
		return []Body{CautionAnswered{of, s.stepCaution(st)}}, nil
	}
	if !s.Answered.IsZero() && now.Sub(s.Answered) < cautionLeast {
		return nil, ErrTooSoon
	}
	if words := s.gate(st); words != "" {
		return nil, errors.New(words)
	}
	if st.Do == recipe.Sprinkle || st.Do == recipe.Add {
		if st.Into == recipe.IntoVat {
			if err := s.handsOut("anything is added"); err != nil {
				return nil, err
			}
		}
		if err := s.noDraught(st.Powder); err != nil {
			return nil, err
		}
	}
	left, _ := a.Left(now)
	finished := StepDone{of, string(st.Do), wording.Lower(st.Title)}
	switch st.Do {
	case recipe.Weigh:
		return s.weighed(st)
	case recipe.Add, recipe.Sprinkle:
		if st.Powder == "" {
			return []Body{StockDrawn{of, st.Water}}, nil
		}
		return []Body{PowderAdded{OfStep: of, Powder: st.Powder, Material: st.Material, Mass: s.toAdd(st), Into: string(st.Into), Why: "build"}}, nil
	case recipe.Stir:
		if st.For <= 0 {
			return []Body{Stirred{OfStep: of}}, nil
		}
		if s.Begun.IsZero() {
			return []Body{StepBegun{of, wording.Lower(st.Title)}}, nil
		}
		if now.Sub(s.Begun) < bounce {
			return nil, ErrTooSoon
		}
		return []Body{Stirred{OfStep: of, For: quantity.Span(now.Sub(s.Begun).Round(time.Second))}}, nil
	case DoWhisk:
		if s.Begun.IsZero() {
			return []Body{StepBegun{of, wording.Lower(st.Title)}}, nil
		}
		if l := s.stepLeft(now); l > 0 {
			return refuse("whisk %s more, on and off", Countdown(l))
		}
		return []Body{finished}, nil
	case DoSpent:
		if why := s.notSpent(now); why != "" {
			return refuse("%s", why)
		}
		return []Body{finished}, nil
	case DoAcid:
		if why := s.stillReduces(); why != "" {
			return refuse("%s", why)
		}
		if s.wantsAcid() && s.Place() == ClosedRoom {
			return refuse("no acid in a closed room: go outdoors, or make a draught, and say so")
		}
		if s.wantsAcid() {
			if err := s.handsOut("acid goes in"); err != nil {
				return nil, err
			}
			return acidLotIn(st), nil
		}
		if why := s.notMild(); why != "" {
			return refuse("%s", why)
		}
		return []Body{finished}, nil
	case DoEnd:
		return refuse("say where it went: that ends the vat")
	case recipe.Simmer:
		if st.For > 0 && s.Begun.IsZero() {
			return []Body{StepBegun{of, wording.Lower(st.Title)}}, nil
		}
		if l := s.stepLeft(now); l > 0 {
			return refuse("it simmers %s more; s leaves the rest out", Countdown(l))
		}
		return []Body{finished}, nil
	case recipe.Cover:
		return []Body{VatCovered{OfStep: of}}, nil
	case recipe.Skim:
		return []Body{FrothSkimmed{of}}, nil
	case recipe.Check:
		if st.Judges() {
			return s.looked(a, now)
		}
		return []Body{finished}, nil
	case recipe.Settle:
		if left > 0 {
			return refuse("it settles %s more", Countdown(left))
		}
		return []Body{Settled{of, st.For}}, nil
	case recipe.Rest:
		if left > 0 {
			return refuse("the vat rests %s more", Countdown(left))
		}
		return []Body{Rested{of, st.For}}, nil
	case recipe.Wait, recipe.Cool:
		if left > 0 && s.Head.Setup.Ending {
			return refuse("%s more, without air and without hands: then look, and pull a strip", Countdown(left))
		}
		if left > 0 && st.For > 0 {
			return refuse("%s more to wait; if a strip says it is ready already, y says so", Countdown(left))
		}
		return []Body{finished}, nil
	}
	return []Body{finished}, nil
}

// limited is a step with the limits that it must keep to: its own, else those of the check of its °C before it, where that one was
// left out, or was done on another day.
func (s State) limited(st Step) Step {
	if st.AtMost != nil || st.AtLeast != nil || st.Do != recipe.Add && st.Do != recipe.Sprinkle || st.No < 1 || st.No > len(s.Plan) {
		return st
	}
	for _, check := range slices.Backward(s.Plan[:st.No-1]) {
		if check.Do != recipe.Check || check.Judges() || check.Into != st.Into {
			continue
		}
		if !s.didToday(check.No) {
			st.AtMost, st.AtLeast = check.AtMost, check.AtLeast
		}
		break
	}
	return st
}

// didToday tells whether a step was done today, and not left out.
func (s State) didToday(no int) bool {
	return slices.ContainsFunc(s.Told(), func(e Event) bool { b, ok := e.Body.(StepDone); return ok && b.Step == no })
}

func (s State) stepLeft(now time.Time) time.Duration {
	for _, d := range s.stepDues() {
		if d.Kind == DueStep {
			left, _ := d.left(now)
			return left
		}
	}
	return 0
}

// targetOf is the whole mass of a powder that the plan weighs.
func (s State) targetOf(powder string) quantity.Mass {
	var sum quantity.Mass
	for _, st := range s.Plan {
		if st.Do == recipe.Weigh && st.Powder == powder {
			sum += st.Mass
		}
	}
	return sum
}

// weighed closes a weighing: nothing typed means that the scale showed the target; a sum may be 2 % off, or 0.1 g.
func (s State) weighed(st Step) ([]Body, error) {
	sys := s.Head.Setup.System()
	sum := s.Weighed(st.No)
	if sum == 0 {
		return []Body{
			PowderWeighed{OfStep{st.No}, st.Powder, st.Material, roundMass(st.Mass)},
			StepDone{OfStep{st.No}, string(st.Do), wording.Lower(st.Title)},
		}, nil
	}
	tolerance := max(quantity.Mass(0.02*st.Mass.Grams()), quantity.Grams(0.1)) + 1e-6 // what sums of decimals are off by
	switch diff := sum - st.Mass; {
	case diff < -tolerance:
		return refuse("%s to go: type the next scoop, or leave the rest out with s", (-diff).Format(sys))
	case diff > tolerance:
		return refuse("%s too much: take it out and type it with a minus", diff.Format(sys))
	}
	return []Body{StepDone{OfStep{st.No}, string(st.Do), wording.Lower(st.Title)}}, nil
}

// roundMass is a mass as a scale shows it: 0.1 g below 50 g, 1 g above.
func roundMass(m quantity.Mass) quantity.Mass {
	if m < 50 {
		return quantity.Grams(math.Round(m.Grams()*10) / 10)
	}
	return quantity.Grams(math.Round(m.Grams()))
}

// scoop takes a weight typed at a weighing.
func (s State) scoop(c PutScoop) ([]Body, error) {
	st, ok := s.Open()
	if !ok || st.Do != recipe.Weigh {
		return refuse("nothing is being weighed")
	}
	if err := s.adults(st); err != nil {
		return nil, err
	}
	if c.Mass == 0 || math.IsNaN(c.Mass.Grams()) || math.IsInf(c.Mass.Grams(), 0) {
		return refuse("type what the scale shows for this scoop")
	}
	if sum := s.Weighed(st.No) + c.Mass; sum < 0 {
		return refuse("the scale holds %s only", s.Weighed(st.No).Format(s.Head.Setup.System()))
	} else if sum > 10*st.Mass {
		return refuse("that would be ten times the %s wanted: look at the scale again", st.Mass.Format(s.Head.Setup.System()))
	}
	return []Body{PowderWeighed{OfStep{st.No}, st.Powder, st.Material, c.Mass}}, nil
}
