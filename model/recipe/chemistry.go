package recipe

import (
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// chemistry checks what a recipe that is well formed may still get wrong with hands, powders and water. It says
// nothing about a key that already has a fault of its own.
type chemistry struct {
	r       *reading
	rec     *Recipe
	powders []*table
	steps   []*table
}

func (c *chemistry) check() {
	c.roles()
	c.materials()
	c.stockJar()
	c.fills()
	for i, p := range c.rec.Powders {
		if p.ID == "" || slices.ContainsFunc(c.rec.Powders[:i], func(q Powder) bool { return q.ID == p.ID }) {
			continue
		}
		c.wetted(i, p)
		c.used(i, p)
		if c.sulfur(p) {
			c.sprinkled(p)
			c.weighedLast(p)
		}
		if p.Lye() {
			c.lyeInCold(p)
		}
	}
}

// sulfur tells whether a powder is a sulfur reducer, by its material or by the family's word for its role.
func (c *chemistry) sulfur(p Powder) bool {
	return p.SulfurReducer() || c.rec.Family.SulfurReducer() && p.Role == Reducer
}

// atPowder notes a fault at a key of powder i.
func (c *chemistry) atPowder(i int, key, what, right string) {
	c.powders[i].r.fault(c.r.places().Value(c.powders[i].full(key)), what, right)
}

// atStep notes a fault at a key of step i, or at its header.
func (c *chemistry) atStep(i int, key, what, right string) {
	c.r.fault(c.r.places().Value(c.steps[i].full(key)), what, right)
}

// roles asks for indigo, reducer and alkali, or food in place of the reducer.
func (c *chemistry) roles() {
	if len(c.rec.Powders) == 0 || c.rec.Family == "" {
		return
	}
	want := []Role{Indigo, Reducer, Alkali}
	if c.rec.Family == Ferment {
		want[1] = Food
	}
	for _, role := range want {
		has := func(p Powder) bool { return p.Role == role }
		broken := func(t *table) bool { return t.broken["role"] }
		if !slices.ContainsFunc(c.rec.Powders, has) && !slices.ContainsFunc(c.powders, broken) {
			c.r.fault(c.r.places().Value("family"), fmt.Sprintf("a %s vat needs %s, and no powder has that role", c.rec.Family, withArticle(role)),
				fmt.Sprintf("write a [[powder]] with role = %q", role))
		}
	}
	for i, p := range c.rec.Powders {
		if c.rec.Family == Ferment && p.Role == Reducer {
			c.atPowder(i, "role", fmt.Sprintf("%q is a chemical reducer in a ferment vat", p.ID), "bacteria reduce here: feed them with role = \"food\", or choose another family")
		}
	}
}

// withArticle is a role as a sentence says it.
func withArticle(role Role) string {
	switch role {
	case Reducer:
		return "a reducer"
	case Alkali:
		return "an alkali"
	}
	return string(role)
}

// familyReducer is what reduces in each family.
var familyReducer = map[Family][]Substance{
	DithioniteSoda:      {Dithionite},
	DithioniteLye:       {Dithionite},
	SugarLime:           {ReducingSugar, Other}, // fruit and honey are other
	IronLime:            {IronSulfate},
	ThioureaDioxideSoda: {ThioureaDioxide},
}

// materials faults what has no business in a vat, or not in this family.
func (c *chemistry) materials() {
	for i, p := range c.rec.Powders {
		s := p.Substance()
		switch {
		case p.Material == "":
		case s == Acid:
			c.atPowder(i, "material", fmt.Sprintf("%q is an acid", p.Material), "acid never goes into a reducing vat: it frees a choking gas or wastes the alkali")
		case s == Oxidiser:
			c.atPowder(i, "material", fmt.Sprintf("%q is an oxidiser", p.Material), "it turns on the reducer, violently with a sulfur one: keep it away from the vat")
		case s == Quicklime:
			c.atPowder(i, "material", "quicklime boils when it meets water", "use slaked lime, which is calcium hydroxide")
		case s == Chalk && p.Role == Alkali:
			c.atPowder(i, "material", "chalk is no alkali", "use slaked lime, which is calcium hydroxide")
		case s == TableSugar && p.Role == Reducer:
			c.atPowder(i, "material", "table sugar reduces nothing", "use fructose or glucose")
		case p.SulfurReducer() && p.Role != Reducer && p.Role != "":
			c.atPowder(i, "role", fmt.Sprintf("%s is a reducer, not %s", p.Material, p.Role), `write role = "reducer"`)
		case p.Role == Reducer && familyReducer[c.rec.Family] != nil && !slices.Contains(familyReducer[c.rec.Family], s):
			c.atPowder(i, "material", fmt.Sprintf("%q does not reduce a %s vat", p.Material, c.rec.Family),
				"its reducer is "+reducerWord(c.rec.Family)+": name that, or choose the family that fits")
		}
		if per := float64(c.rec.PerLitre(p)); c.sulfur(p) && per > sulfurDoseMost {
			c.atPowder(i, "dose", fmt.Sprintf("%q comes to %.3g g/L", p.ID, per), fmt.Sprintf("more than %d g/L strips more than it dyes, and is a danger", sulfurDoseMost))
		}
	}
	if f := c.rec.Family; f == DithioniteLye && len(c.rec.Powders) > 0 && !slices.ContainsFunc(c.rec.Powders, Powder.Lye) {
		c.r.fault(c.r.places().Value("family"), "a dithionite-lye vat needs lye, and no powder is lye", `name sodium hydroxide (lye), or write family = "dithionite-soda"`)
	}
	if c.rec.Family.SulfurReducer() && c.rec.Liquor.Build > sulfurVatMost {
		c.r.fault(c.r.places().Value("liquor.build"), "build is too hot for a sulfur reducer", fmt.Sprintf("it must be at most %d °C, since the reducer goes in at that", sulfurVatMost))
	}
}

// reducerWord is a family's reducer as a sentence says it.
func reducerWord(f Family) string {
	if f == SugarLime {
		return "fructose or glucose"
	}
	return string(familyReducer[f][0])
}

// stockJar checks that the jar, its powders and its pouring belong together.
func (c *chemistry) stockJar() {
	into := func(t *table) bool { return t.has("into") }
	pour := slices.IndexFunc(c.rec.Steps, func(s Step) bool { return s.From == IntoStock })
	if c.rec.Stock == nil {
		if slices.ContainsFunc(append(slices.Clone(c.powders), c.steps...), into) || pour >= 0 {
			c.r.fault(c.firstStockSpot(), "there is no stock jar", "write a [stock] table with volume, per_litre, build, ready, recheck")
		}
		return
	}
	at := func() tree.Spot { return c.r.places().Head("stock") }
	if !slices.ContainsFunc(c.powders, into) {
		c.r.fault(at(), "no powder goes into the stock jar", `write into = "stock" on those that do`)
	}
	if len(c.rec.Steps) == 0 {
		return
	}
	if pour < 0 {
		c.r.fault(at(), "the stock is never poured into the vat", `write a step with do = "add" and from = "stock"`)
	} else if !slices.ContainsFunc(c.rec.Steps[:pour], func(s Step) bool { return s.Do == Wait && s.Into == IntoStock }) {
		c.atStep(pour, "from", "the stock is poured before it had its wait", `write a step with do = "wait" and into = "stock" before it`)
	}
}

// firstStockSpot is where the missing jar is first spoken of.
func (c *chemistry) firstStockSpot() tree.Spot {
	for _, t := range append(slices.Clone(c.powders), c.steps...) {
		for _, key := range []string{"into", "from"} {
			if t.has(key) {
				return c.r.places().Value(t.full(key))
			}
		}
	}
	return tree.Spot{Line: 1, Col: 1, Width: 1}
}

// fills checks the water: it goes in before the powders, cold before hot, and never again once dye or reducer is in.
func (c *chemistry) fills() {
	if len(c.rec.Steps) == 0 {
		return
	}
	c.fillsOf(IntoVat)
	if c.rec.Stock != nil {
		c.fillsOf(IntoStock)
	}
}

// fillsOf checks the water of the vat or of the stock jar.
func (c *chemistry) fillsOf(place Place) {
	filled, last, holds := false, (*quantity.Temperature)(nil), ""
	early := false
	for i, s := range c.rec.Steps {
		switch {
		case s.Do == Fill && s.Into == place:
			if holds != "" {
				c.atStep(i, "do", fmt.Sprintf("water is poured into %s, which already holds %s", placeWord(place), holds), "fill first: cold, then hot; never into liquor that holds reducer or indigo")
			}
			if last != nil && s.To != nil && *s.To < *last {
				c.atStep(i, "to", "hot water stands in the vessel before the cold", "cold water first, then hot")
			}
			filled, last = true, s.To
		case (s.Do == Add || s.Do == Sprinkle) && s.Into == place:
			p, _ := c.rec.Powder(s.Powder)
			if p.Role == Indigo || p.Role == Reducer || s.From == IntoStock {
				holds = "reducer or indigo"
			}
			if !filled && !early {
				early = true
				c.atStep(i, "powder", fmt.Sprintf("something goes into %s before its water", placeWord(place)), `powder goes to water: write a step with do = "fill" before it`)
			}
		}
	}
	if !filled && !early {
		c.r.fault(c.r.places().Head("step.0"), placeWord(place)+" is never filled", `write a step with do = "fill"`)
	}
}

// placeWord is a place as a sentence says it.
func placeWord(p Place) string {
	return wording.Either(p == IntoStock, "the stock jar", "the vat")
}

// wetted checks the wetting water of the powders that water endangers.
func (c *chemistry) wetted(i int, p Powder) {
	if c.powders[i].broken["hydrate"] || p.Hydrate == 0 {
		return
	}
	switch {
	case c.sulfur(p) && p.Hydrate < sulfurWetLeast:
		c.atPowder(i, "hydrate", fmt.Sprintf("%q is a sulfur reducer with so little water that it heats itself", p.ID),
			fmt.Sprintf("leave hydrate out and sprinkle it dry; below %d mL/g is never right", sulfurWetLeast))
	case p.Lye():
		c.atPowder(i, "hydrate", fmt.Sprintf("%q is lye, and hydrate puts water onto it", p.ID), `leave hydrate out: a dissolve step puts the lye into cold water`)
	}
}

// used checks that a powder is weighed, wetted and added, in this order and whole.
func (c *chemistry) used(i int, p Powder) {
	if len(c.rec.Steps) == 0 {
		return
	}
	var weighed, added float64
	wet, lastWeigh, lastAdd := false, -1, -1
	told := map[string]bool{}
	once := func(n int, what, right string) {
		if !told[what] {
			told[what] = true
			c.atStep(n, "powder", what, right)
		}
	}
	for n, s := range c.rec.Steps {
		if s.Powder != p.ID {
			continue
		}
		switch s.Do {
		case Weigh:
			weighed, lastWeigh = weighed+float64(s.Part), n
		case Hydrate, Dissolve, Simmer:
			wet = true
			if weighed == 0 {
				once(n, fmt.Sprintf("%q goes into water before it was weighed", p.ID), "weigh it first")
			}
			if s.Do == Hydrate && p.Hydrate == 0 && !c.powders[i].broken["hydrate"] {
				once(n, fmt.Sprintf("%q is to be wetted, but with how much water", p.ID), `write hydrate = "20 mL/g" on the powder, or leave the step out`)
			}
		case Add, Sprinkle:
			added, lastAdd = added+float64(s.Part), n
			if weighed == 0 {
				once(n, fmt.Sprintf("%q is added before it was weighed", p.ID), `write a step with do = "weigh" before it`)
			}
			if p.Hydrate > 0 && !wet {
				once(n, fmt.Sprintf("%q is added before it was wetted", p.ID), `write a step with do = "hydrate" before it`)
			}
			if s.Into != p.Into && !c.steps[n].broken["into"] && !c.powders[i].broken["into"] {
				once(n, fmt.Sprintf("%q goes into %s here, but belongs in %s", p.ID, placeWord(s.Into), placeWord(p.Into)), "make into the same on the powder and on its steps")
			}
		}
	}
	switch {
	case lastAdd < 0:
		c.atPowder(i, "id", fmt.Sprintf("%q is never added", p.ID), `write a step with do = "add" for it`)
	case added > 1+partsAllow || added < 1-partsAllow:
		c.atStep(lastAdd, "part", fmt.Sprintf("the parts of %q that are added come to %s", p.ID, sum(added)), "they must come to 1")
	}
	if lastWeigh >= 0 && (weighed > 1+partsAllow || weighed < 1-partsAllow) {
		c.atStep(lastWeigh, "part", fmt.Sprintf("the parts of %q that are weighed come to %s", p.ID, sum(weighed)), "they must come to 1")
	}
}

// sum is a sum of parts without idle noughts.
func sum(f float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", f), "0"), ".")
}
