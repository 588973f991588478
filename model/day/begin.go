package day

import (
	"math"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/water"
)

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

// aCarry is the time to fetch and pour one jug, 8 L of cold water or 4 of hot. From memory.
const aCarry = quantity.Span(40 * time.Second)

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
