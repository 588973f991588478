package day

import (
	"math"
	"slices"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// Slot is one stretch of the morning, reckoned back from the wished start.
type Slot struct {
	At   time.Time
	For  quantity.Span
	What string
}

// What the hands take for a step that has no time of its own. From memory, one pair of hands; the dyer's own mornings
// will differ.
var handsTake = map[recipe.Do]quantity.Span{
	recipe.Weigh:    quantity.Minutes(3),
	recipe.Hydrate:  quantity.Minutes(10),
	recipe.Dissolve: quantity.Minutes(5),
	recipe.Simmer:   quantity.Minutes(20),
	recipe.Cool:     quantity.Minutes(20),
	recipe.Warm:     quantity.Minutes(20),
	recipe.Add:      quantity.Minutes(3),
	recipe.Sprinkle: quantity.Minutes(5),
	recipe.Stir:     quantity.Minutes(3),
	recipe.Cover:    quantity.Minutes(1),
	recipe.Check:    quantity.Minutes(5),
	recipe.Skim:     quantity.Minutes(2),
}

// heatTheWater is what is said of the hot water.
const heatTheWater = "heat the water"

// aCarry is the time to fetch and pour one jug, 8 L of cold water or 4 of hot. From memory.
const aCarry = quantity.Span(40 * time.Second)

// WetOut is how long goods soak before the first dip: cotton and linen at least an hour (common practice).
const WetOut = quantity.Span(time.Hour)

// Takes is how long the step takes: its own time, else what the hands take, filling by the carry.
func (s Step) Takes() quantity.Span {
	switch {
	case s.Do == recipe.Fill && s.Into == recipe.IntoVat:
		cold, hot := s.Cold, s.Hot
		if cold+hot == 0 {
			cold = s.Water
		}
		jugs := math.Ceil(cold.Litres()/8) + math.Ceil(hot.Litres()/4)
		return max(quantity.Minutes(3), quantity.Span(jugs*float64(aCarry)))
	case s.Do == recipe.Fill:
		return quantity.Minutes(3)
	case s.For > 0:
		return s.For
	}
	return handsTake[s.Do]
}

// Backwards lays the morning out so that the first piece can go in at an instant: the steps of the plan one after the
// other, the water heated before it is poured, the goods soaking meanwhile. heat is how long the hot water takes; 0 where
// it comes from the tap. In order of time; the first slot is when to begin.
func Backwards(h Head, ready time.Time, heat quantity.Span) ([]Slot, error) {
	out, err := laid(h, ready, heat)
	if err != nil {
		return nil, err
	}
	out = append(out, Slot{ready.Add(-WetOut.Duration()), WetOut, "wet the goods out"})
	slices.SortStableFunc(out, func(a, b Slot) int { return a.At.Compare(b.At) })
	return out, nil
}

// laid is the morning at the vat alone: the steps that are still to come, the last first, and then the heating of the water.
func laid(h Head, ready time.Time, heat quantity.Span) ([]Slot, error) {
	plan, err := Plan(h)
	if err != nil {
		return nil, err
	}
	var out []Slot
	at := ready
	pour := time.Time{}
	for i := len(plan) - 1; i >= 0 && plan[i].No >= h.Opening.Step; i-- {
		st := plan[i]
		at = at.Add(-st.Takes().Duration())
		out = append(out, Slot{at, st.Takes(), wording.Lower(st.Title)})
		if st.Do == recipe.Fill && st.Into == recipe.IntoVat {
			pour = at
		}
	}
	if heat > 0 && !pour.IsZero() {
		out = append(out, Slot{pour.Add(-heat.Duration()), heat, heatTheWater})
	}
	return out, nil
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
		takes, err := s.Head.Setup.heating(st.Hot, cold, hot)
		if err != nil || takes == 0 {
			return time.Time{}, 0, false
		}
		pour := now
		for _, before := range s.Plan[max(s.Step, 1)-1 : st.No-1] {
			pour = pour.Add(before.Takes().Duration())
		}
		if ready := s.Head.Setup.ReadyBy; ready != nil {
			if wished := ready.Add(-s.takesFrom(st.No)); wished.After(pour) {
				pour = wished
			}
		}
		return pour.Add(-takes.Duration()), takes, true
	}
	return time.Time{}, 0, false
}

// takesFrom is how long the steps from a number on take.
func (s State) takesFrom(no int) time.Duration {
	var sum quantity.Span
	for _, st := range s.Plan[no-1:] {
		sum += st.Takes()
	}
	return sum.Duration()
}

// heating is how long the stove of the setup takes for an amount of hot water, poured at its own °C; 0 without a stove.
func (s Setup) heating(hotWater quantity.Volume, cold, hot quantity.Temperature) (quantity.Span, error) {
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

// Wished is the next instant of a time of day, such as 10:00; nil where there is none.
func Wished(now time.Time, clock string) *time.Time {
	t, err := time.Parse("15:04", clock)
	if err != nil {
		return nil
	}
	at := time.Date(now.Year(), now.Month(), now.Day(), t.Hour(), t.Minute(), 0, 0, now.Location())
	if !at.After(now) {
		at = time.Date(now.Year(), now.Month(), now.Day()+1, t.Hour(), t.Minute(), 0, 0, now.Location())
	}
	return &at
}
