package history

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// survives is what cold does to a family.
func survives(f recipe.Family) string {
	switch f {
	case recipe.SugarLime, recipe.IronLime:
		return "It survives cold"
	case recipe.Ferment:
		return "Cold may kill a ferment: keep it warm each 8 to 10 days, or end it"
	}
	return "Its reducer is gone by then: it needs alkali and reducer by its signs, or an end"
}

// revival is what a resting vat waits for.
func revival(s day.State, since time.Time, said bool) Due {
	d := reviveBy(s)
	d.Coming = said
	if said {
		d.Why = "it rests since " + since.Format("2 Jan") + ": before it dyes again"
		return d
	}
	d.Why = "nothing was done to it since " + since.Format("2 Jan") + "; or let it rest for the winter, or end it: " + wording.Lower(d.Why)
	return d
}

// reviving is what a vat wants that was woken from its rest, and is not revived yet.
func reviving(s day.State, r rest) Due {
	d := reviveBy(s)
	d.Why = "it rested since " + r.Since.Format("2 Jan") + ": until it is judged ready, or a strip of it is good"
	return d
}

// reviveBy is how a family is revived.
func reviveBy(s day.State) Due {
	d := Due{ID: "revive", Do: doing["revive"]}
	d.How, d.Why, d.Evidence = "warm it to its aim, stir, let it settle; look at it; then one dose at a time by its signs; a test dip", survives(s.Head.Recipe.Family), "M"
	for _, t := range practice.Care(s.Head.Recipe.Family) {
		if t.ID == "revive" {
			d.How, d.Why, d.Evidence = t.What, t.Why, t.Evidence
		}
	}
	return d
}
