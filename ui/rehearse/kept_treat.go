package rehearse

import (
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
)

// tend asks the signs, and does what they say of the likeliest cause.
func (k keeper) tend() (time.Duration, day.Command, bool) {
	if after, c, ok := k.say(); ok {
		return after, c, true
	}
	s := k.s
	c := k.cause()
	if !k.treats(c) {
		st, open := s.Open()
		if !open || st.Do != recipe.Check || *s.Vat.Strip < weak { // a weak one: not today
			return k.night()
		}
		return 20 * time.Second, day.Judge{Ready: true, Seen: "clear yellow-green under a coppery film"}, true
	}
	return 6 * time.Minute, outlook.Treatment(c), true
}

// cause is the likeliest cause of what is seen; in a vat whose strip is good and that is too weak for the day's goods, the
// one that gives indigo, once.
func (k keeper) cause() signs.Cause {
	s := k.s
	all := signs.Causes(outlook.Asked(s, k.sight(0), s.At, nil))
	if *s.Vat.Strip >= 2*weak && k.pale() && !k.fed() {
		for _, c := range all {
			if slices.ContainsFunc(c.Doses, func(d signs.Dose) bool { return d.Role == recipe.Indigo }) {
				return c
			}
		}
	}
	return all[0]
}

// fed tells whether indigo was given today.
func (k keeper) fed() bool {
	return slices.ContainsFunc(k.s.Portions(), func(p day.Portion) bool { return p.Gave() && k.role(p) == recipe.Indigo })
}

// role is the role of what was given; empty for a powder that the recipe does not have.
func (k keeper) role(p day.Portion) recipe.Role {
	of, _ := k.s.Head.Recipe.Powder(p.Powder)
	return of.Role
}

// treats tells whether the dyer does what a cause asks for, or leaves it at that.
func (k keeper) treats(c signs.Cause) bool {
	good, tried := *k.s.Vat.Strip >= 2*weak, len(k.s.Tried())
	switch {
	case c.Wait > 0 && tried < mostTend && slices.ContainsFunc(c.Doses, func(d signs.Dose) bool { return d.Role == recipe.Indigo }):
		return true
	case c.Wait <= 0 || tried >= mostTend || good && tried >= mostGood:
		return false
	case good:
		return c.Act == signs.Give || c.Act == signs.Warm
	}
	return c.Act != signs.Dye && c.Act != signs.Stop && c.Act != signs.Look
}

// recheck looks again at what was treated, once its time is over. A vat that was too cold is warmed meanwhile.
func (k keeper) recheck(now time.Time) (time.Duration, day.Command, bool) {
	s := k.s
	over := !now.Before(s.Treating.Until)
	switch {
	case s.Vat.Heater && over:
		return record(30*time.Second, day.HeaterOff{})
	case s.Vat.Heater:
		return 0, nil, false
	case !over && !s.Vat.Covered:
		return record(30*time.Second, day.VatCovered{With: "the lid"})
	case !over && k.dosed() == "" && !k.warmEnough() && s.Vat.Warmed.Before(s.Treating.Since):
		return record(time.Minute, day.HeaterOn{})
	case !over:
		return 0, nil, false
	case !s.Vat.TempAt.After(s.Treating.Since) || s.Vat.TempAt.Before(s.Vat.Warmed):
		return k.thermometer(3*time.Minute, true)
	case s.Vat.StripAt.Before(s.Treating.Until):
		return k.strip()
	}
	return record(20*time.Second, day.Rechecked{Answer: k.answer().String()})
}

// dosed is the role of the powder that the treatment gave; empty for none.
func (k keeper) dosed() recipe.Role {
	for _, p := range slices.Backward(k.s.Portions()) {
		if p.Way == day.Added && p.At.Equal(k.s.Treating.Since) {
			return k.role(p)
		}
	}
	return ""
}

// answer is what the look after a treatment says: of alkali by the pH, of indigo by the swatch, of warmth by the °C, else by
// the strips.
func (k keeper) answer() signs.Answer {
	s := k.s
	better := func(yes bool) signs.Answer {
		if yes {
			return signs.Better
		}
		return signs.Same
	}
	var before *float64
	cold := false
	for e := range s.Corrected() {
		switch b := e.Body.(type) {
		case day.Reading:
			if b.PH != nil && !e.At.After(s.Treating.Since) {
				before = b.PH
			}
		case day.HeaterOn:
			cold = cold || e.At.After(s.Treating.Since)
		}
	}
	switch role := k.dosed(); {
	case role == recipe.Alkali && before != nil:
		return better(*s.Vat.PH > *before)
	case role == recipe.Indigo:
		return better(!k.pale())
	case role == "" && cold:
		return better(k.warmEnough())
	}
	if a := outlook.Answer(s); a != signs.NotSaid {
		return a
	}
	return signs.Same
}
