package signs

import (
	"fmt"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// alkaliOrder is which alkali goes in first, the mildest that serves; in a ferment vat lime, in small repeats (S6).
var (
	alkaliOrder  = []recipe.Substance{recipe.SodaAsh, recipe.SodaCrystals, recipe.Potash, recipe.SlakedLime, recipe.BakingSoda, recipe.Lye, recipe.Other}
	fermentOrder = []recipe.Substance{recipe.SlakedLime, recipe.SodaAsh, recipe.Potash, recipe.SodaCrystals, recipe.BakingSoda, recipe.Lye, recipe.Other}
)

// alkali is one small step of the vat's alkali: soda ash 1 g/L, crystals 2.7 as they hold water (K), lye 0.1, lime as
// asked; of another a tenth of its dose (S1, S6, C, M). None where the recipe has no alkali.
func (t task) alkali(lime float64) []need {
	order := alkaliOrder
	if t.v.Recipe.Family == recipe.Ferment {
		order = fermentOrder
	}
	for _, s := range order {
		for _, p := range t.v.Recipe.Powders {
			if p.Role != recipe.Alkali || p.Substance() != s {
				continue
			}
			step := quantity.GramsPerLitre(1)
			switch s {
			case recipe.SodaCrystals:
				step = quantity.GramsPerLitre(2.7)
			case recipe.Lye:
				step = quantity.GramsPerLitre(0.1)
			case recipe.SlakedLime:
				step = quantity.GramsPerLitre(lime)
			case recipe.Other:
				step = t.v.Recipe.PerLitre(p) / 10
			}
			return []need{{powder: p, step: step}}
		}
	}
	return nil
}

// reducer is one step of the vat's reducer: so much dithionite, thiourea dioxide 0.3, fructose 1, iron 0.5 and as much
// lime, g/L (S1, S4 0.48, C); of another a quarter of its dose (M). None in a ferment vat.
func (t task) reducer(dithionite float64) []need {
	r := t.v.Recipe
	if r.Family == recipe.Ferment {
		return nil
	}
	for _, p := range r.Powders {
		if p.Role != recipe.Reducer {
			continue
		}
		// A lye vat's own dose goes into the jar; later doses go into the vat all the same.
		n := need{powder: p, step: r.PerLitre(p) / 4}
		n.powder.Into = recipe.IntoVat
		switch p.Substance() {
		case recipe.Dithionite:
			n.step = quantity.GramsPerLitre(dithionite)
		case recipe.ThioureaDioxide:
			n.step = quantity.GramsPerLitre(0.3)
		case recipe.ReducingSugar:
			n.step = quantity.GramsPerLitre(1)
		case recipe.IronSulfate:
			n.step = quantity.GramsPerLitre(0.5)
			return append([]need{n}, t.alkali(0.5)...)
		}
		return []need{n}
	}
	return nil
}

// food is what feeds a ferment vat: so much bran a litre (S6, C), at most its dose.
func (t task) food(step float64) []need {
	for _, p := range t.v.Recipe.Powders {
		if p.Role == recipe.Food {
			return []need{{powder: p, step: min(quantity.GramsPerLitre(step), t.v.Recipe.PerLitre(p))}}
		}
	}
	return nil
}

// indigo is what a vat that is used up wants, to go in as reduced stock: now one lot of it.
func (t task) indigo() []need {
	up, ok := liquor.TopUpOf(t.v.Recipe, t.v.Fill, t.v.Strength, t.v.IndigoGone)
	p, _ := t.v.Recipe.Powder(up.Powder)
	if !ok {
		return nil
	}
	p.Into = recipe.IntoVat
	return []need{{powder: p, mass: up.Lot}}
}

// iron is the copperas of an iron vat alone.
func (t task) iron() []need {
	for _, p := range t.v.Recipe.Powders {
		if p.Role == recipe.Reducer && p.Substance() == recipe.IronSulfate {
			return []need{{powder: p, step: quantity.GramsPerLitre(0.5)}}
		}
	}
	return nil
}

// inJar is reducer for the stock jar, 2.5 g for each litre of stock (S1). None where the recipe has no jar.
func (t task) inJar() []need {
	r := t.v.Recipe
	if r.Stock == nil || t.v.Fill == 0 {
		return nil
	}
	jar := quantity.Litres(max(r.Stock.Volume.Litres(), r.Stock.PerLitre.Litres()*t.v.Fill.Litres()))
	for _, p := range r.Powders {
		if p.Role == recipe.Reducer && p.Into == recipe.IntoStock {
			return []need{{powder: p, mass: quantity.GramsPerLitre(2.5).Of(jar)}}
		}
	}
	return nil
}

// indigoHow is how more blue gets into a vat: grains that are already reduced are dissolved, powder is reduced apart
// first, as the recipe does it, in a jar as for a small vat.
func (t task) indigoHow(d Dose) string {
	p, _ := t.v.Recipe.Powder(d.Powder)
	if p.Form == recipe.PreReduced {
		return "stir the grains into hot, never boiling, water until none is left; pour it in low, stir slowly"
	}
	per := t.v.Recipe.PerLitre(p)
	if !(per > 0) {
		return "as reduced stock, never as dry powder"
	}
	small := quantity.Litres(d.Mass.Grams() / per.GramsPerLitre())
	return fmt.Sprintf("make it up and reduce it apart first, with all that the recipe gives for a fill of %s, by the recipe's "+
		"own steps and limits; when its glass is clear and its strip good, pour it in low, stir slowly",
		small.Format(t.v.System))
}

// handling is how a powder goes in, and what to beware of: first what its dose needs, then the powder's own dangers.
func (t task) handling(p recipe.Powder, d Dose) (how string, cautions []string) {
	s := p.Substance()
	if c, ok := practice.ChemicalOf(s); ok {
		cautions = c.Cautions()
	}
	switch {
	case p.Role == recipe.Indigo:
		return t.indigoHow(d), cautions
	case p.SulfurReducer():
		top, where := sprinkleMax, "the surface"
		if d.Into == recipe.IntoStock {
			top, where = stockMax, "the stock jar"
		}
		return fmt.Sprintf("sprinkle it dry in %d small lots over %s, stir each under before the next; lid back on tin and vat at "+
				"once", d.Portions, where),
			append(cautions, "into a liquor of "+t.says(top)+" at most, that holds its alkali", "outdoors or in a cross-draught; "+
				"tell who has asthma to stand off")
	case s == recipe.Lye:
		return "crystals into ten times their weight of cold water, in a jug of their own; pour it in low, stir slowly",
			append(cautions, "lye into cold water, never water onto lye")
	case s == recipe.SlakedLime:
		return "powder into cold water, stirred to a smooth milk; pour it in low and slowly, stir to the floor", cautions
	case s == recipe.IronSulfate:
		return "into hand-warm water, stir till clear, use it at once; pour it in low, stir slowly", cautions
	case p.Role == recipe.Alkali:
		return "powder into warm water, a little at a time, stirring; pour it in low, stir to the floor", cautions
	case p.Role == recipe.Food:
		return "simmer it in a little water under a lid, let it cool to the warmth of the vat, stir it in slowly",
			append(cautions, "hot water: lid on, nobody in the way")
	}
	return "dissolve it in a little hot water, pour it in low, stir slowly", append(cautions, "gloves and glasses")
}
