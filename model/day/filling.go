package day

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// Holds is how much a reading says is in the vat; false where it does not.
func (s State) Holds(r Reading) (quantity.Volume, bool) {
	switch {
	case r.Holds != nil:
		return *r.Holds, true
	case r.BelowRim != nil:
		if v := s.Head.Setup.Measured(); v.Shape != nil {
			return v.Volume(v.Rim() - *r.BelowRim), true
		}
	}
	return 0, false
}

// fullness says what is wrong with a reading of how full the vat is, nil when nothing is.
func (s State) fullness(r Reading) error {
	v := s.Head.Setup.Measured()
	switch {
	case r.BelowRim != nil && v.Shape == nil:
		return errors.New("this vessel is not measured: say the litres that are in it")
	case r.BelowRim != nil && !(*r.BelowRim >= 0 && *r.BelowRim <= v.Rim()):
		return fmt.Errorf("the vessel is %s deep: say how far below its rim the liquor stands", s.says(v.Rim()))
	case r.Holds != nil && !(*r.Holds >= 0 && *r.Holds <= 10000):
		return errors.New("a vat holds between 0 and 10,000 L")
	case r.Holds != nil && v.Shape != nil && *r.Holds > v.Brim():
		return fmt.Errorf("the vessel holds %s to the brim", s.says(v.Brim()))
	}
	return nil
}

// readErr is by how much a thermometer of the kitchen may read too high. M
const readErr = quantity.TempDiff(2)

// farPH is by how much a pH is beyond all that its vat has when it dyes, so that a slip of the meter or of the fingers is likelier. M
const farPH = 2

// slips is the question before a reading of the vat is taken down that is likely no reading of it; empty for any other.
func (s State) slips(r Reading) string {
	words := []string{s.tooWarm(r)}
	if r.Of != "" || !s.Vat.Ready || s.ending() {
		return words[0]
	}
	if l := s.Head.Recipe.Liquor; r.PH != nil && l.PHHigh > l.PHLow {
		far := func(ph float64) bool { return ph < l.PHLow-farPH || ph > l.PHHigh+farPH }
		if far(float64(*r.PH)) && !(s.Vat.PH != nil && far(float64(*s.Vat.PH))) { // the second time it is so
			words = append(words, fmt.Sprintf("pH %.1f is far from the %.1f to %.1f of this vat: rinse the meter, and read again", *r.PH, l.PHLow, l.PHHigh))
		}
	}
	if v, read := s.Holds(r); read && v < s.Level().In/2 {
		words = append(words, fmt.Sprintf("%s is less than half of the %s that were in the vat: read it again, and look for a leak", s.says(v), s.says(s.Level().In)))
	}
	return wording.Joined("; ", words...)
}

// tooWarm is the caution before a reading of the vat is taken down: it is too hot for the children that are at it, or hotter than all
// that was poured, which is a slip; empty for any other.
func (s State) tooWarm(r Reading) string {
	if r.Temp == nil || r.Of != "" {
		return ""
	}
	words := ""
	if s.Children {
		words = s.childrenOff(*r.Temp)
	}
	_, hot := s.Head.Setup.Waters()
	if st, ok := s.Open(); ok && st.Do == recipe.Fill && st.Into != recipe.IntoStock && !s.Vat.Heater && *r.Temp > hot.Plus(readErr) {
		words = wording.Joined("; ", words, fmt.Sprintf("%s is more than the hottest water that goes in, %s: read it again", s.says(*r.Temp), s.says(hot)))
	}
	return words
}

// Filling is the open filling step as a heat balance: what it wants, and what is in the vessel by the readings made since
// the step opened. False when no filling with an aim is open.
func (s State) Filling() (water.Filling, bool) {
	st, ok := s.Open()
	if !ok || st.Do != recipe.Fill || st.Into == recipe.IntoStock || st.To == nil {
		return water.Filling{}, false
	}
	cold, hot := s.Head.Setup.Waters()
	f := water.Filling{Fill: st.Water, Aim: max(*st.To, cold), Cold: cold, Hot: hot, Pot: s.Head.Setup.Pot}
	if s.Vat.Holds == nil || s.Vat.HoldsAt.Before(s.StepSince) {
		return f, true
	}
	f.Have, f.HaveAt = *s.Vat.Holds, cold // what is poured first is cold
	if s.Vat.Temp != nil && !s.Vat.TempAt.Before(s.StepSince) {
		f.HaveAt = *s.Vat.Temp
	}
	return f, true
}

// corrected is the filling step with what is still to be poured, by what was read, and how to pour it.
func (s State) corrected(st Step) Step {
	f, ok := s.Filling()
	if !ok {
		return st
	}
	rest, err := f.Rest()
	if err != nil {
		return st
	}
	sys := s.Head.Setup.System()
	st.Cold, st.Hot = rest.Cold, rest.Hot
	read := f.Have > 0
	var how string
	switch {
	case rest.Short != "":
		how = wording.Upper(rest.ShortIn(sys)) + "."
	case read && rest.Cold < smallPour && rest.Hot < smallPour:
		how = "It is full, and as warm as it should be: stir, and go on."
	}
	if hot := s.Head.Setup.Measured().Material.TooHot(f.Hot, sys); hot != "" && !read && rest.Cold < smallPour && how == "" {
		how = wording.Upper(hot) + ": let the water cool before it goes into the empty vessel."
	}
	pour := s.pouring(f, rest, sys)
	switch {
	case how == "":
		how = pour + "; stir, then read " + s.degrees() + " and depth."
	case pour != "":
		how += " " + wording.Upper(pour) + "."
	}
	if read {
		how = fmt.Sprintf("In it: %s at %s. ", f.Have.Format(sys), f.HaveAt.Format(sys)) + how
	}
	st.How = how
	return st
}

// strength says by how much the powders come out weaker or stronger than the recipe, where the vat was read to hold less
// or more than was to be filled; empty where it is near enough.
func (s State) strength() string {
	want, ok := quantity.Volume(0), false
	for _, st := range s.Plan {
		if st.Do == recipe.Fill && st.Into == recipe.IntoVat && st.No < s.Step {
			want, ok = st.Water, true
		}
	}
	if !ok || s.Vat.Holds == nil || want <= 0 {
		return ""
	}
	off := want.Litres()/max(s.Vat.Holds.Litres(), 0.1) - 1
	if math.Abs(off) < 0.05 {
		return ""
	}
	word := wording.Either(off < 0, "weaker", "stronger")
	return fmt.Sprintf("The vat holds %s by your last reading, not %s: it comes out %.0f %% %s.", s.says(s.Vat.Holds), s.says(want), 100*math.Abs(off), word)
}

// Filled tells whether the filling is behind: whether there is liquor in the vat.
func Filled(s State) bool {
	return s.Head.Opening.Built || slices.ContainsFunc(s.Plan, func(st Step) bool {
		return st.Do == recipe.Fill && st.Into == recipe.IntoVat && st.No < s.Step
	})
}

// smallPour is less than is worth a jug.
const smallPour = quantity.Volume(0.2)

// pouring is what is still to be poured, in the order of the hands: cold to a mark, then hot in pots or carries, low.
func (s State) pouring(f water.Filling, rest water.Rest, sys quantity.System) string {
	v := s.Head.Setup.Measured()
	mark := func(in quantity.Volume) string {
		if v.Shape == nil {
			return ""
		}
		depth, err := v.Depth(in)
		if err != nil {
			return ""
		}
		return ", to " + quantity.Centimetres(math.Round((v.Rim() - depth).Centimetres())).Format(sys) + " below the rim"
	}
	var cold, hot string
	if rest.Cold >= smallPour {
		cold = "cold now: " + rest.Cold.Format(sys) + mark(f.Have+rest.Cold)
	}
	switch {
	case rest.Hot < smallPour:
	case rest.Pots > 0:
		hot = fmt.Sprintf("%s of %s hot, poured low", many(rest.Pots, "pot"), rest.PotFill.Format(sys))
		if rest.HotCarries > rest.Pots {
			hot = fmt.Sprintf("%s of %s hot, carried %s at a time, poured low", many(rest.Pots, "pot"), rest.PotFill.Format(sys), rest.HotCarry.Format(sys))
		}
	case rest.HotCarries > 1:
		hot = fmt.Sprintf("hot: %s in %s of %s, poured low", rest.Hot.Format(sys), many(rest.HotCarries, "carry"), rest.HotCarry.Format(sys))
	default:
		hot = "hot: " + rest.Hot.Format(sys) + ", poured low"
	}
	switch {
	case cold == "":
		return wording.Upper(hot)
	case hot == "":
		return wording.Upper(cold)
	}
	return wording.Upper(cold) + "; then " + hot
}

// many is a count in words: 1 pot, 2 pots, 3 carries.
func many(n int, what string) string {
	switch {
	case n == 1:
		return "1 " + what
	case what == "carry":
		return fmt.Sprintf("%d carries", n)
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// HeatBy is when the hot water must be on the stove, so that it is hot when the filling comes: by the wished start of
// dyeing where there is one, else by what the hands still have before them; and how long it takes. False where no stove is
// known, or no hot water is wanted any more.
func (s State) HeatBy(now time.Time) (at time.Time, takes quantity.Span, ok bool) {
	cold, hot := s.Head.Setup.Waters()
	for _, st := range s.Plan {
		if st.Do != recipe.Fill || st.Into == recipe.IntoStock || st.Hot <= 0 || st.No < s.Step {
			continue
		}
		takes, err := s.Head.Setup.Heating(st.Hot, cold, hot)
		if err != nil || takes == 0 {
			return time.Time{}, 0, false
		}
		pour := now
		for _, before := range s.Plan[max(s.Step, 1)-1 : st.No-1] {
			pour = pour.Add(before.Takes().Duration())
		}
		if ready := s.Head.Setup.ReadyBy; ready != nil {
			pour = Latest(pour, ready.Add(-s.takesFrom(st.No)))
		}
		return pour.Add(-takes.Duration()), takes, true
	}
	return time.Time{}, 0, false
}

// takesFrom is how long the steps from a number on take.
func (s State) takesFrom(no int) time.Duration {
	return wording.Sum(s.Plan[no-1:], Step.Takes).Duration()
}

// Heating is how long the stove of the setup takes for an amount of hot water, poured at its own °C; 0 without a stove.
func (s Setup) Heating(hotWater quantity.Volume, cold, hot quantity.Temperature) (quantity.Span, error) {
	if s.Stove <= 0 {
		return 0, nil
	}
	by := water.Electric
	if s.StoveBy != "" {
		var err error
		if by, err = water.ParseStove(s.StoveBy); err != nil {
			return 0, err
		}
	}
	part := by.Reaches()
	if s.PotTook > 0 && s.Pot > 0 {
		if timed, err := water.Timed(s.Pot, cold, hot, s.PotTook, s.Stove); err == nil {
			part = timed
		}
	}
	return water.HeatTime(water.VolumeOf(water.MassOf(hotWater, hot), cold), cold, hot, s.Stove, part)
}
