package day

import (
	"fmt"
	"math"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// OnScale says what was weighed of a powder so far, and what is still to go or too much; empty before the first scoop.
func (s State) OnScale(st Step) string {
	sys, got := s.Head.Setup.System(), s.Weighed(st.No)
	text := "on the scale " + got.Format(sys)
	if sys == quantity.Metric && got < quantity.Grams(1000) { // to the tenth, so that it adds up with what is to go
		text = "on the scale " + strings.TrimSuffix(fmt.Sprintf("%.1f", got.Grams()), ".0") + " g"
	}
	switch to := (st.Mass - got).Format(sys); {
	case got == 0:
		return ""
	case got.Format(sys) == st.Mass.Format(sys):
		return text + ", all of it"
	case got > st.Mass:
		return text + ", " + (got - st.Mass).Format(sys) + " too much"
	default:
		return text + ", " + to + " to go"
	}
}

// roundMass is a mass as a scale shows it: 0.1 g below 50 g, 1 g above.
func roundMass(m quantity.Mass) quantity.Mass {
	if m < 50 {
		return quantity.Grams(math.Round(m.Grams()*10) / 10)
	}
	return quantity.Grams(math.Round(m.Grams()))
}

// targetOf is the whole mass of a powder that the plan weighs.
func (s State) targetOf(powder string) quantity.Mass {
	return wording.Sum(s.weighings(powder), func(st Step) quantity.Mass { return st.Mass })
}

// toAdd is what a step gives of its powder: its part of what was weighed, else of what was planned.
func (s State) toAdd(st Step) quantity.Mass {
	if whole := s.weighedOf(st.Powder); whole > 0 {
		if target := s.targetOf(st.Powder); target > 0 {
			return quantity.Mass(whole.Grams() * st.Mass.Grams() / target.Grams())
		}
	}
	return st.Mass
}

// weighed closes a weighing: nothing typed means that the scale showed the target; a sum may be 2 % off, or 0.1 g.
func (s State) weighed(st Step) ([]Body, error) {
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
		return refuse("%s to go: type the next scoop, or leave the rest out with s", s.says(-diff))
	case diff > tolerance:
		return refuse("%s too much: take it out and type it with a minus", s.says(diff))
	}
	return []Body{StepDone{OfStep{st.No}, string(st.Do), wording.Lower(st.Title)}}, nil
}
