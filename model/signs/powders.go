package signs

import (
	"fmt"
	"strings"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// alkali is one small step of the vat's alkali; of lime so much a litre (S1, S6, C). Nothing where the recipe has none.
func (t task) alkali(lime float64) liquor.Advice {
	p, ok := liquor.Alkali(t.v.Recipe)
	if !ok {
		return liquor.Advice{}
	}
	step := liquor.AlkaliStep(t.v.Recipe, p)
	if p.Substance() == recipe.SlakedLime {
		step = quantity.GramsPerLitre(lime)
	}
	return t.v.Give(p, step)
}

// reducer is one step of the vat's reducer: of dithionite so much a litre, of others their usual step; where a strip was read too short
// what that asks for, if it is more or no colour of the liquor asks for any. So a strip a little better never gets more than a worse one.
// Nothing in a ferment vat.
func (t task) reducer(dithionite float64) liquor.Advice {
	p, ok := liquor.Reducer(t.v.Recipe)
	if !ok {
		return liquor.Advice{}
	}
	step := liquor.ReducerStep(t.v.Recipe, p)
	if p.Substance() == recipe.Dithionite {
		step = quantity.GramsPerLitre(dithionite)
	}
	a, _ := t.v.Reduce(step, 1)
	coloured := t.has("grass-green") || t.has("blue-green") || t.has("blue")
	if t.gate.Do == liquor.DoReducer && (t.gate.Mass >= a.Mass || !coloured) {
		return t.gate
	}
	return a
}

func (t task) food() liquor.Advice {
	if p, ok := wording.First(t.v.Recipe.Powders, func(p recipe.Powder) bool { return p.Role == recipe.Food }); ok {
		return t.v.Give(p, liquor.FoodStep(t.v.Recipe, p))
	}
	return liquor.Advice{}
}

// indigo is what a vat that is used up wants, to go in as reduced stock: now one lot of it, and one a day.
func (t task) indigo() liquor.Advice {
	up, ok := liquor.TopUpOf(t.v.Recipe, t.v.Fill, t.v.Strength, t.v.IndigoGone)
	p, _ := t.v.Recipe.Powder(up.Powder)
	if !ok {
		return liquor.Advice{}
	}
	if liquor.GivenToday(t.v.Recipe, p.ID, t.v.GivenToday) > 0 {
		return liquor.Advice{Do: liquor.DoStop, Sentence: "no more " + p.Material + " today: one lot a day", How: "no more goods today; lid on and let it rest till tomorrow"}
	}
	p.Into = recipe.IntoVat
	return t.v.Give(p, up.Lot.Per(t.v.Fill))
}

// iron is the copperas of an iron vat alone.
func (t task) iron() liquor.Advice {
	if p, ok := liquor.Reducer(t.v.Recipe); ok && p.Substance() == recipe.IronSulfate {
		return t.v.Give(p, liquor.ReducerStep(t.v.Recipe, p))
	}
	return liquor.Advice{}
}

// inJar is reducer for the stock jar, 2.5 g for each litre of stock (S1). Nothing where the recipe has no jar.
func (t task) inJar() liquor.Advice {
	r := t.v.Recipe
	if r.Stock == nil || t.v.Fill == 0 {
		return liquor.Advice{}
	}
	jar := quantity.Litres(max(r.Stock.Volume.Litres(), r.Stock.PerLitre.Litres()*t.v.Fill.Litres()))
	p, ok := wording.First(r.Powders, func(p recipe.Powder) bool { return p.Role == recipe.Reducer && p.Into == recipe.IntoStock })
	if !ok {
		return liquor.Advice{}
	}
	return t.v.Give(p, quantity.GramsPerLitre(2.5).Of(jar).Per(t.v.Fill))
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

// handling is how a powder goes in, and what to beware of, as the right dose says it.
func (t task) handling(p recipe.Powder, d Dose) (how string, cautions []string) {
	how, cautions = t.v.Handling(p, d.Into == recipe.IntoStock)
	switch {
	case p.Role == recipe.Indigo:
		return t.indigoHow(d), cautions
	case p.SulfurReducer():
		return strings.Replace(how, "in small lots", fmt.Sprintf("in %d small lots", d.Portions), 1), cautions
	}
	return how, cautions
}
