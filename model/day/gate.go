package day

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// gate says in a sentence why a step cannot be done before the liquor was read; empty when it can.
func (s State) gate(st Step) string {
	if words := s.jarGasses(st); words != "" {
		return words
	}
	st = s.limited(st)
	if st.AtMost == nil && st.AtLeast == nil {
		return s.tooHotToWeigh(st)
	}
	t, at, where := s.Vat.Temp, s.Vat.TempAt, "the liquor"
	if st.Into == recipe.IntoStock {
		t, at, where = s.Vat.StockT, s.Vat.StockAt, "the stock jar"
	}
	limit := "at most "
	mark := st.AtMost
	if mark == nil {
		limit, mark = "at least ", st.AtLeast
	}
	if t == nil || at.IsZero() || (st.Into != recipe.IntoStock && (at.Before(s.Vat.Warmed) || at.Before(s.liquid.poured))) {
		return fmt.Sprintf("First read the %s of %s and type it: %s%s.", s.degrees(), where, limit, s.says(mark))
	}
	if st.AtMost != nil && *t > *st.AtMost {
		return fmt.Sprintf("%s reads %s: let it cool to %s, then type the new %s.", wording.Upper(where), s.says(t), s.says(st.AtMost), s.degrees())
	}
	if st.AtLeast != nil && *t < *st.AtLeast {
		return fmt.Sprintf("%s reads %s: warm it to %s, then type the new %s.", wording.Upper(where), s.says(t), s.says(st.AtLeast), s.degrees())
	}
	return ""
}

// notReduced is the question before goods go into a liquor that was last seen with its indigo not reduced: empty where it was not.
func (s State) notReduced() string {
	u := s.unreduced
	if u.seen == "" {
		return ""
	}
	return fmt.Sprintf("%s at %s: such a vat dyes pale, and its blue rubs off; first see what helps, u", u.seen, Clock(u.at))
}

// staleAfter is how long what was seen of a vat holds: over a night it cools, and its reducer goes on being used up. M
const staleAfter = 12 * time.Hour

// stale is the question before goods go into a vat of which nothing was read for a night or longer, and nothing dyed in it; empty where
// something was, or never was anything. What else was seen of it, such as its level, does not say that it dyes.
func (s State) stale(now time.Time) string {
	v := s.Vat
	seen := Latest(v.TempAt, v.PHAt, v.StripAt, s.readyAt, v.Lifted)
	for _, p := range s.InVat() {
		seen = Latest(seen, p.Since)
	}
	if seen.IsZero() || now.Sub(seen) < staleAfter {
		return ""
	}
	return fmt.Sprintf("no %s, pH or strip was read since %s: first read %[1]s and pH, and pull a strip", s.degrees(), DateOf(seen, now))
}

// warmEnough tells whether the open step is to warm the vat, and it was read since to be as warm as it should be.
func (s State) warmEnough() bool {
	st, open := s.Open()
	return open && st.Do == recipe.Warm && st.Into == recipe.IntoVat && st.To != nil && !s.Vat.Heater &&
		s.Vat.Temp != nil && *s.Vat.Temp >= *st.To && !s.Vat.TempAt.Before(s.StepSince)
}

// tooHotToWeigh says of the weighing of a sulfur reducer that the vat is too hot for it to go in: its tin stays shut till then.
func (s State) tooHotToWeigh(st Step) string {
	p, ok := s.Head.Recipe.Powder(st.Powder)
	if !ok || st.Do != recipe.Weigh || !p.SulfurReducer() || s.Vat.Temp == nil {
		return ""
	}
	for _, next := range s.Plan[st.No:] {
		if next.Powder != st.Powder || next.Into != recipe.IntoVat || next.Do != recipe.Add && next.Do != recipe.Sprinkle {
			continue
		}
		if next = s.limited(next); next.AtMost != nil && *s.Vat.Temp > *next.AtMost {
			return fmt.Sprintf("The liquor reads %s: let it cool to %s, then type the new %s; the reducer's tin stays shut.", s.says(s.Vat.Temp), s.says(next.AtMost), s.degrees())
		}
		break
	}
	return ""
}

// SourJar tells whether the stock jar of a sulfur reducer was last read as acid.
func (s State) SourJar() bool {
	return liquor.State{Recipe: s.Head.Recipe, JarPH: (*quantity.PH)(s.Vat.StockPH)}.SourJar()
}

// jarGasses says of a step at a stock jar that was read as acid, or of pouring from it, that nothing goes in; empty of any other.
func (s State) jarGasses(st Step) string {
	if pours := st.Do == recipe.Add && st.Powder == ""; !s.SourJar() || st.Into != recipe.IntoStock && !pours {
		return ""
	}
	return fmt.Sprintf("The stock jar reads pH %s: acid got in, and frees sulfur dioxide from its reducer. Step upwind, send everyone else away; nothing goes in, nor from it into the vat, no heat. Later one more reading, only outdoors, where nothing stings, of a ladled sample at arm's length: h.", pH(*s.Vat.StockPH))
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
		if !slices.Contains(s.doneToday, check.No) {
			st.AtMost, st.AtLeast = check.AtMost, check.AtLeast
		}
		break
	}
	return st
}

// ending tells whether the vat is past the first step to its end.
func (s State) ending() bool { return s.Head.Setup.Ending && s.Step > 1 }
