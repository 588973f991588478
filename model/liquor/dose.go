package liquor

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Amount is a powder by its id in the recipe, and how much of it.
type Amount struct {
	Powder string
	Mass   quantity.Mass
}

// dithioniteADay is the most dithionite in a day, where a recipe says nothing. C
const dithioniteADay = quantity.Concentration(2)

// gentleReducer is the most reducer at a time with wool or silk in the vat, where its recipe does not say less: a gram brings a
// mild soda vat from pH 9.3 to 8.8. K
const gentleReducer = quantity.Concentration(1)

// limits is the most of a powder at once and in a day, a litre: the recipe's own, else a third of its dose at once and
// the whole of it in a day, of dithionite 2 g/L (C).
func limits(r recipe.Recipe, p recipe.Powder) (atOnce, perDay quantity.Concentration) {
	dose := r.PerLitre(p)
	atOnce, perDay = p.AtOnce, p.PerDay
	if !(atOnce > 0) {
		atOnce = dose / 3
	}
	if !(perDay > 0) {
		perDay = dose
		if p.Substance() == recipe.Dithionite {
			perDay = dithioniteADay
		}
	}
	return min(atOnce, perDay), perDay
}

// Most is the most of a powder that may still go in: now, and in all of today, when some was given today. Both are 0 for
// an id that the recipe does not have or a fill that is none. The limits are the recipe's at_once and per_day; where it
// says nothing a third of the dose at once and the whole of it in a day, of dithionite 2 g/L a day (C).
func Most(r recipe.Recipe, powderID string, fill quantity.Volume, given quantity.Mass) (now, today quantity.Mass) {
	p, ok := r.Powder(powderID)
	litres := notBelowZero(fill.Litres())
	if !ok || litres == 0 {
		return 0, 0
	}
	atOnce, perDay := limits(r, p)
	today = perDay.Of(quantity.Volume(litres)) - quantity.Mass(notBelowZero(given.Grams()))
	today = quantity.Mass(notBelowZero(today.Grams()))
	if math.IsInf(given.Grams(), 1) {
		today = 0
	}
	return min(atOnce.Of(quantity.Volume(litres)), today), today
}

// Crumb is what a day's limit may leave of a dose that is not worth a weighing: a quarter of it does nothing to be seen. M
func Crumb(dose quantity.Mass) quantity.Mass { return dose / 4 }

// GivenToday is what was given today of a powder and of others of the same substance: a day's limit is for the substance.
func GivenToday(r recipe.Recipe, powderID string, given map[string]quantity.Mass) quantity.Mass {
	own, ok := r.Powder(powderID)
	var sum quantity.Mass
	for _, p := range r.Powders {
		same := p.Role == own.Role && p.Substance() == own.Substance() && own.Substance() != recipe.Other
		if ok && (p.ID == powderID || same) {
			sum += quantity.Mass(notBelowZero(given[p.ID].Grams()))
		}
	}
	return sum
}

// onScale rounds a dose to what the scale shows, and never above the limit: to the finest step if it is known, else to
// 0.1 g below 50 g and to 1 g from there. It is 0 for less than half a step.
func onScale(want, limit, finest quantity.Mass) quantity.Mass {
	step := cmp.Or(notBelowZero(finest.Grams()), wording.Either(want < 50, 0.1, 1))
	n := math.Round(want.Grams() / step)
	if n*step > limit.Grams() {
		n = math.Floor(limit.Grams()/step + 1e-9)
	}
	m := n * step
	if r := math.Round(m*1e6) / 1e6; r != 0 { // 0.1 steps without their tail
		m = r
	}
	return quantity.Mass(math.Min(m, notBelowZero(limit.Grams())))
}

// Reducer is the powder that tops up the reducer. A ferment vat has none, whatever its recipe holds.
func Reducer(r recipe.Recipe) (recipe.Powder, bool) {
	if r.Family == recipe.Ferment {
		return recipe.Powder{}, false
	}
	return wording.First(r.Powders, func(p recipe.Powder) bool { return p.Role == recipe.Reducer })
}

// ReducerStep is one dose of reducer for a weak strip, a litre: dithionite 0.5, thiourea dioxide 0.3, fructose 1, iron
// 0.5 with as much lime (S1, S4, C); of another a quarter of its dose. M
func ReducerStep(r recipe.Recipe, p recipe.Powder) quantity.Concentration {
	switch p.Substance() {
	case recipe.Dithionite, recipe.IronSulfate:
		return quantity.GramsPerLitre(0.5)
	case recipe.ThioureaDioxide:
		return quantity.GramsPerLitre(0.3)
	case recipe.ReducingSugar:
		return quantity.GramsPerLitre(1)
	}
	return r.PerLitre(p) / 4
}

// alkaliOrder is which alkali of a recipe is given first: the mildest that serves. In a ferment vat lime comes first, in
// small repeats (S6).
var (
	alkaliOrder  = []recipe.Substance{recipe.SodaAsh, recipe.SodaCrystals, recipe.Potash, recipe.SlakedLime, recipe.BakingSoda, recipe.Lye}
	fermentOrder = []recipe.Substance{recipe.SlakedLime, recipe.SodaAsh, recipe.Potash, recipe.SodaCrystals, recipe.BakingSoda, recipe.Lye}
)

// Alkali is the powder that raises pH.
func Alkali(r recipe.Recipe) (recipe.Powder, bool) {
	order := alkaliOrder
	if r.Family == recipe.Ferment {
		order = fermentOrder
	}
	for _, s := range append(order[:len(order):len(order)], recipe.Other) {
		if p, ok := wording.First(r.Powders, func(p recipe.Powder) bool { return p.Role == recipe.Alkali && p.Substance() == s }); ok {
			return p, true
		}
	}
	return recipe.Powder{}, false
}

// AlkaliStep is one small step of alkali, a litre: soda ash 1, lye 0.1, lime 0.4 and in a ferment vat 0.3 (S1, S6, C);
// crystals of soda hold water and weigh 2.7 times as much (K); of another a tenth of its dose. M
func AlkaliStep(r recipe.Recipe, p recipe.Powder) quantity.Concentration {
	switch p.Substance() {
	case recipe.SodaAsh, recipe.Potash, recipe.BakingSoda:
		return quantity.GramsPerLitre(1)
	case recipe.SodaCrystals:
		return quantity.GramsPerLitre(2.7)
	case recipe.Lye:
		return quantity.GramsPerLitre(0.1)
	case recipe.SlakedLime:
		if r.Family == recipe.Ferment {
			return quantity.GramsPerLitre(0.3)
		}
		return quantity.GramsPerLitre(0.4)
	}
	return r.PerLitre(p) / 10
}

// Handling is how a powder goes in, and what to beware of; whoever doses says this. What goes into the stock jar has the jar's °C.
func (n State) Handling(p recipe.Powder, jar bool) (how string, cautions []string) {
	how, cautions = n.handling(p, jar)
	switch words := n.Unsure(n.Hottest(p)); {
	case jar && n.JarTemp == nil:
		cautions = append(cautions, "read the jar's °C first: above "+n.says(hottestJar)+" nothing goes in")
	case !jar && words != "":
		cautions = append(cautions, "read "+n.System.DegreeUnit()+" once more before it goes in: "+words)
	}
	return how, cautions
}

func (n State) handling(p recipe.Powder, jar bool) (how string, cautions []string) {
	switch s := p.Substance(); {
	case p.SulfurReducer():
		where, top := "the surface", "a liquor of "+n.says(n.Hottest(p))
		if jar {
			where, top = "the stock jar", "a stock of "+n.says(hottestJar)
		}
		return "sprinkle it dry, in small lots over " + where + ", stir each under before the next; lid back on the tin at once",
			[]string{"dust mask, goggles and gloves, outdoors or in a cross-draught; anyone with asthma stays away",
				"never water on this powder, never a heap: it heats itself and can erupt", "never with acid: it frees a choking gas; nor with bleach or peroxide; a dry spoon",
				"into " + top + " at most, that holds its alkali"}
	case s == recipe.Lye:
		return "crystals into ten times their weight of cold water, in a jug of their own; pour it in low, stirring slowly",
			[]string{"face shield, long gloves, apron: lye burns skin and eyes at once", "lye into cold water, never water onto lye; acid far away",
				"no aluminium, no zinc"}
	case s == recipe.SlakedLime:
		return "powder into cold water, stirred to a smooth milk; pour it in low and slowly, stir to the floor",
			[]string{"tight goggles, mask, gloves, sleeves: lime burns eyes deeply", "no aluminium; acid far away"}
	case s == recipe.IronSulfate:
		return "into hand-warm water, stir till clear, use it at once; pour it in low, stirring slowly",
			[]string{"gloves and glasses: it poisons small children and stains"}
	case p.Role == recipe.Alkali:
		return "into warm water, a little at a time, stirring; pour it in low, stir to the floor",
			[]string{"gloves and glasses", "powder into water; acid far away, it froths; no aluminium"}
	case p.Role == recipe.Food:
		return "simmer it in a little water, let it cool to the warmth of the vat, stir it in slowly", []string{"hot water: a pot with a lid"}
	}
	return "dissolve it in a little hot water, pour it in low, stir slowly", []string{"gloves and glasses"}
}

// bears is the gravest that any of the goods says to a pH or a warmth, and the fibre that says it.
func bears(goods []fibre.Fibre, ask func(fibre.Fibre) (fibre.Verdict, string)) (worst fibre.Verdict, sentence string, of fibre.Fibre) {
	for _, f := range goods {
		if v, s := ask(f); v > worst {
			worst, sentence, of = v, s, f
		}
	}
	return worst, sentence, of
}

// protein tells whether wool or silk is among the goods.
func protein(goods []fibre.Fibre) bool {
	return slices.ContainsFunc(goods, func(f fibre.Fibre) bool { return f.Class() == fibre.Protein })
}

// FoodStep is one feed of a ferment vat, a litre: 1 g of bran, at most its dose (S6, C).
func FoodStep(r recipe.Recipe, p recipe.Powder) quantity.Concentration {
	return min(quantity.GramsPerLitre(1), r.PerLitre(p))
}

// Give is a dose of one powder, a step or so much of it, within its limits and on the scale; or to stop or wait where no dose may
// be given. What goes into the stock jar
// has the jar's own °C.
func (n State) Give(p recipe.Powder, step quantity.Concentration) Advice {
	n = n.Clean()
	if p.Into == recipe.IntoStock {
		if a, barred := n.Jar(p); barred {
			return a
		}
	} else if a, hot := n.TooHot(p); hot {
		return a
	}
	do := map[recipe.Role]string{recipe.Alkali: DoAlkali, recipe.Reducer: DoReducer, recipe.Food: DoFood, recipe.Indigo: DoIndigo}[p.Role]
	return n.give(do, p, step, 1)
}

func (n State) give(do string, p recipe.Powder, step quantity.Concentration, part float64) Advice {
	now, today := Most(n.Recipe, p.ID, n.Fill, GivenToday(n.Recipe, p.ID, n.GivenToday))
	want := min(step.Of(n.Fill), now) * quantity.Mass(part)
	m := onScale(want, now, n.Finest)
	wait := DoseWait(n.Recipe, p.ID)
	_, perDay := limits(n.Recipe, p)
	switch {
	case m > 0 && (today > Crumb(step.Of(n.Fill)) || today >= perDay.Of(n.Fill)):
		how, cautions := n.Handling(p, false)
		return Advice{Do: do, Powder: p.ID, Mass: m, Sentence: fmt.Sprintf("add %s of %s", m.Scale(n.System), p.Material), How: how, Cautions: cautions, Wait: wait}
	case today <= Crumb(step.Of(n.Fill)):
		return Advice{Do: DoStop, Sentence: fmt.Sprintf("no more %s today: %s is the most in a day", p.Material, perDay.Of(n.Fill).Format(n.System)),
			How: "lid on and let it rest till tomorrow", Wait: wait}
	}
	return Advice{Do: DoWait, Sentence: fmt.Sprintf("what may go in of %s is less than the scale shows: wait and look again", p.Material), How: "lid on", Wait: wait}
}

// giveBoth is iron and then as much lime in the same dose (S4 has 0.48 g/L, S7 "more of both"); where either is at its
// limit, both are less.
func (n State) giveBoth(iron, lime recipe.Powder, step quantity.Concentration, part float64) Advice {
	room, _ := Most(n.Recipe, lime.ID, n.Fill, GivenToday(n.Recipe, lime.ID, n.GivenToday))
	l := n.give(DoReducer, lime, step, part)
	if l.Mass == 0 {
		return l
	}
	a := n.give(DoReducer, iron, min(step, room.Per(n.Fill)), part)
	if a.Mass == 0 {
		return a
	}
	if a.Mass = min(a.Mass, l.Mass); a.Mass < l.Mass {
		l.Mass = a.Mass
	}
	a.Sentence = fmt.Sprintf("add %s of %s, then %s of %s", a.Mass.Scale(n.System), iron.Material, l.Mass.Scale(n.System), lime.Material)
	a.With = []Amount{{lime.ID, l.Mass}}
	a.How = "first the iron: " + a.How + "; then the lime: " + l.How + "; stir slowly to the floor, and let it settle"
	a.Cautions = append(a.Cautions, l.Cautions...)
	return a
}
