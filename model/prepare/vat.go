package prepare

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// atTheVat adds what is done at the vat: the water heated, the build as one stretch; or a living vat warmed and looked at.
// It gives the times at which the hands or the stove are wanted there.
func (r *Schedule) atTheVat(h day.Head) ([]Slot, error) {
	sys := h.Setup.System()
	var busy []Slot
	if h.Opening.Built {
		h.Setup.Ending = false // a vat that is to end is warmed and looked at as any
		tend, err := day.Plan(h)
		if err != nil {
			return nil, err
		}
		at := r.Ready
		for _, st := range slices.Backward(tend) {
			takes, kind, how := st.Takes(), ToLook, st.Look
			if st.Do == recipe.Warm {
				takes, kind, how = max(takes, warms(h)), ToWarm, "lid on, in place, to "+h.Recipe.Liquor.Aim.Format(sys)
			}
			at = at.Add(-takes.Duration())
			a := Task{Slot: Slot{at, takes, strings.TrimSuffix(wording.Lower(st.Title), "?")}, Kind: kind, How: how}
			if kind == ToLook {
				busy = append(busy, a.Slot)
			}
			r.Tasks = append(r.Tasks, a)
		}
		return busy, nil
	}
	slots, err := laid(h, r.Ready, heats(h))
	if err != nil {
		return nil, err
	}
	waits := waits(h)
	first, steps := Slot{}, 0
	for _, s := range slots {
		if s.What == heatTheWater {
			busy = append(busy, s)
			r.Tasks = append(r.Tasks, Task{Slot: s, Kind: ToHeat, How: heatHow(h)})
			continue
		}
		if !waits[s.What] {
			busy = append(busy, s)
		}
		first, steps = s, steps+1
	}
	if steps == 0 {
		return busy, nil
	}
	noun := wording.Either(steps == 1, "step", "steps")
	build := Task{Slot: Slot{first.At, quantity.Span(r.Ready.Sub(first.At)), "build the vat"}, Kind: ToBuild,
		How: fmt.Sprintf("%s, %s: %d %s, first %s; its wait of %s is in it", h.Recipe.Name, h.Setup.Fill.Format(sys), steps, noun, first.What, h.Recipe.Liquor.Ready)}
	r.Tasks = append(r.Tasks, build)
	return busy, nil
}

// waits are the steps of the build, as they are laid out, that want neither hands nor stove.
func waits(h day.Head) map[string]bool {
	out := map[string]bool{}
	plan, _ := day.Plan(h) // laid has told its error
	for _, st := range plan {
		switch st.Do {
		case recipe.Wait, recipe.Settle, recipe.Rest, recipe.Cool:
			out[wording.Lower(st.Title)] = true
		}
	}
	return out
}

// stove is the setup with its heater for a stove, where it has no stove: the same heat goes into the same water.
func stove(s day.Setup) day.Setup {
	if s.Stove <= 0 && s.Heater > 0 {
		s.Stove, s.StoveBy, s.Pot = s.Heater, water.Immersion.String(), 0
	}
	return s
}

// pour is the hot water of the build, 0 where it wants none.
func pour(h day.Head) quantity.Volume {
	plan, _ := day.Plan(h)
	st, _ := wording.First(plan, func(st day.Step) bool {
		return st.Do == recipe.Fill && st.Into != recipe.IntoStock && st.No >= h.Opening.Step
	})
	return st.Hot
}

// heats is how long the build's hot water takes; 0 where it comes from the tap.
func heats(h day.Head) quantity.Span {
	cold, hot := h.Setup.Waters()
	v := pour(h)
	if v <= 0 {
		return 0
	}
	takes, err := stove(h.Setup).Heating(v, cold, hot)
	if err != nil {
		return 0
	}
	return takes
}

func heatHow(h day.Head) string {
	_, hot := h.Setup.Waters()
	by := wording.Either(h.Setup.Stove <= 0, "with the heater", "on the stove, one pot after the other")
	return fmt.Sprintf("%s to %s, %s", pour(h).Format(h.Setup.System()), hot.Format(h.Setup.System()), by)
}

// warms is how long the heater takes from the air's °C to the recipe's aim, without losses; 0 where there is none.
func warms(h day.Head) quantity.Span {
	return h.Setup.Warms(wording.Told(h.Setup.Air, day.NightAir), h.Recipe.Liquor.Aim)
}

// NextHead is the head of the day after this one, as far as it is known what lies before it: the vat built, or at the step
// where its build stands.
func NextHead(s day.State) day.Head {
	h := s.Head
	h.Opening.Built = h.Opening.Built || s.Vat.Ready || s.Step > len(s.Plan)
	if !h.Opening.Built {
		h.Opening.Step = s.Step
	}
	return h
}

// WithChildren says of a vat that is not for children's hands what to take instead, for goods of these lots; empty for any other, or
// for none. Wool and silk bear no lime.
func WithChildren(h day.Head, lots []Lot) string {
	what := ""
	switch h.Recipe.Family {
	case recipe.DithioniteSoda, recipe.DithioniteLye:
		what = "dithionite"
	case recipe.ThioureaDioxideSoda:
		what = "thiourea dioxide"
	case recipe.IronLime:
		what = "iron"
	default:
		return ""
	}
	what += wording.If(h.Recipe.Family == recipe.DithioniteLye, " and lye")
	instead := practice.WithoutSulfur(h.Recipe, wording.Each(lots, func(l Lot) fibre.Fibre { return l.Fibre })...)
	return "with children about take " + instead + ", not one with " + what + "; adults alone weigh and add, before the children come"
}

// Around is what the checklist goes by, as far as the head and the goods tell it.
func Around(h day.Head, lots []Lot) practice.Circumstances {
	c := practice.Circumstances{
		Recipe: h.Recipe, Fill: h.Setup.Fill, Built: h.Opening.Built, Place: h.Setup.Place, Heater: h.Setup.Heater,
		Pieces: len(lots), System: h.Setup.System(),
	}
	if m, err := vessel.ParseMaterial(h.Setup.Material); err == nil {
		c.Material = m
	}
	for _, l := range lots {
		c.Fibres = append(c.Fibres, l.Fibre)
	}
	return c
}
