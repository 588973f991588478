package recipe

import (
	"fmt"
	"slices"
)

// The checks of this file keep sulfur reducers dry, last and cool, and lye in cold water. They have no override.

// sprinkled checks each addition of a sulfur reducer: over liquor that holds its alkali, with a °C read, in small lots.
func (c *chemistry) sprinkled(p Powder) {
	most := sulfurVatMost
	if p.Into == IntoStock {
		most = sulfurStockMost
	}
	dissolved, alkaline, toldAlkali := false, false, false
	for n, s := range c.rec.Steps {
		q, _ := c.rec.Powder(s.Powder)
		adds := s.Do == Add || s.Do == Sprinkle
		switch {
		case adds && s.From == IntoStock && s.Into == p.Into:
			alkaline = alkaline || slices.ContainsFunc(c.rec.Powders, func(q Powder) bool { return q.Role == Alkali && q.Into == IntoStock })
		case adds && q.Role == Alkali && s.Into == p.Into:
			alkaline = true
		case s.Powder != p.ID:
		case s.Do == Dissolve || s.Do == Hydrate:
			dissolved = true
			if s.Do == Dissolve {
				c.dissolvedCold(n, s, p.ID, sulfurWetLeast, "a sulfur reducer")
			}
		case adds:
			c.sulfurStep(n, s, p, most, dissolved)
			if !alkaline && !toldAlkali {
				toldAlkali = true
				c.atStep(n, "powder", fmt.Sprintf("%q goes in before the alkali", p.ID), "the liquor must hold its alkali first")
			}
		}
	}
}

func (c *chemistry) sulfurStep(n int, s Step, p Powder, most int, dissolved bool) {
	switch {
	case c.steps[n].broken["at_most"]:
	case s.AtMost == nil:
		c.atStep(n, "powder", fmt.Sprintf("%q goes in with no °C checked before it", p.ID), fmt.Sprintf(`write at_most = "%d °C" on this step, or lower`, most))
	case float64(*s.AtMost) > float64(most):
		c.atStep(n, "at_most", fmt.Sprintf("%q goes into liquor that is too hot", p.ID), fmt.Sprintf(`write at_most = "%d °C", or lower`, most))
	}
	if s.Do == Add && !dissolved {
		c.atStep(n, "do", fmt.Sprintf("%q goes in as a heap", p.ID), `write do = "sprinkle": dry, in small lots, stirred under between lots`)
	}
}

// dissolvedCold checks a dissolve step of a powder that heats water: enough water, and cold.
func (c *chemistry) dissolvedCold(n int, s Step, id string, least float64, called string) {
	t := c.steps[n]
	if !t.broken["water"] && float64(s.Water) < least && (s.Water > 0 || called != "lye") {
		c.atStep(n, "water", fmt.Sprintf("%q is %s and gets too little water", id, called), fmt.Sprintf(`write water = "%g mL/g", or more`, least))
	}
	if !t.broken["at_most"] && (s.AtMost == nil || *s.AtMost > coldMost) {
		c.atStep(n, "at_most", fmt.Sprintf("%q is %s and must go into cold water", id, called), fmt.Sprintf(`write at_most = "%d °C" on this step, or lower`, coldMost))
	}
}

// weighedLast checks that a sulfur reducer is weighed once its liquor has its temperature, with nothing between but
// looking, stirring and covering.
func (c *chemistry) weighedLast(p Powder) {
	weigh := slices.IndexFunc(c.rec.Steps, func(s Step) bool { return s.Do == Weigh && s.Powder == p.ID })
	add := slices.IndexFunc(c.rec.Steps, func(s Step) bool {
		return (s.Do == Add || s.Do == Sprinkle) && s.Powder == p.ID
	})
	if weigh < 0 || add < weigh {
		return
	}
	const right = "weigh it last, into a dry lidded pot, once the fill has its temperature"
	heats := func(s Step) bool { return (s.Do == Fill || s.Do == Warm || s.Do == Cool) && s.Into == p.Into }
	if !slices.ContainsFunc(c.rec.Steps[:weigh], heats) || slices.ContainsFunc(c.rec.Steps[weigh:add], heats) {
		c.atStep(weigh, "powder", fmt.Sprintf("%q is weighed before %s has its temperature", p.ID, placeWord(p.Into)), right)
		return
	}
	for _, s := range c.rec.Steps[weigh+1 : add] {
		if s.Powder != p.ID && slices.Contains([]Do{Weigh, Hydrate, Dissolve, Simmer, Wait, Settle, Rest}, s.Do) {
			c.atStep(weigh, "powder", fmt.Sprintf("%q is weighed and left to stand", p.ID), right)
			return
		}
	}
}

// lyeInCold checks that lye is put into cold water in a step of its own before it is added.
func (c *chemistry) lyeInCold(p Powder) {
	dissolved := false
	for n, s := range c.rec.Steps {
		if s.Powder != p.ID {
			continue
		}
		switch s.Do {
		case Dissolve:
			dissolved = true
			c.dissolvedCold(n, s, p.ID, lyeWaterLeast, "lye")
		case Hydrate:
			c.atStep(n, "do", fmt.Sprintf("%q is lye, and this step puts water onto it", p.ID), `write do = "dissolve": lye into cold water, never water onto lye`)
		case Add, Sprinkle:
			if !dissolved {
				dissolved = true
				c.atStep(n, "powder", fmt.Sprintf("%q is lye and has not been put into cold water", p.ID), fmt.Sprintf(`write a step before it with do = "dissolve" and at_most = "%d °C"`, coldMost))
			}
		}
	}
}
