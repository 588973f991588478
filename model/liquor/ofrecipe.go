package liquor

import (
	"math"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// The acids that are made where sugar or food does the reducing. Estimates, from memory: a whole spent sugar or food may
// well have made half as much, or half as much again.
const (
	// acidsPerSugar is the acid a molecule of fructose or glucose gives in hot lime: two of lactic acid, or one of
	// saccharinic acid; two is the most.
	acidsPerSugar = 2
	// acidsPerFood is the acid that a gram of bran or madder gives when it has fermented out, in mmol: three tenths of it
	// are starch and sugars that become lactic acid, two from 180 g.
	acidsPerFood = 0.30 * 2 * 1000 / float64(MolarFructose)
)

// The molar masses that only a dyer's own recipe may need, from the same atomic weights.
const (
	molarPotashLye   MolarMass = weightK + weightO + weightH                                          // KOH
	molarSulfoxylate MolarMass = weightNa + weightC + 3*weightH + weightS + 3*weightO + 2*weightWater // with 2 H2O
)

// SodaAshOf is the soda ash, without water, that is in a dose of soda ash or of soda crystals, which are 2.700 times as
// heavy (the decahydrate, Na2CO3·10H2O; crystals that have lost water and turned to powder hold more). It refuses, with a
// *PHError, every other substance: baking soda and potash are not soda ash.
func SodaAshOf(s recipe.Substance, c quantity.Concentration) (quantity.Concentration, error) {
	switch s {
	case recipe.SodaAsh:
		return c, nil
	case recipe.SodaCrystals:
		return c * quantity.Concentration(MolarSodaAsh/MolarSodaCrystals), nil
	default:
		return 0, refuse("%s is not a form of soda ash", name(s))
	}
}

// name is a substance in words.
func name(s recipe.Substance) string {
	return wording.Either(s == recipe.Other, "an unknown substance", string(s))
}

// OfRecipe is the make-up of a vat built to a recipe, by the litre of its whole liquor, with a share of its reducer spent:
// 0 as built, 100 % when there is none left. Powders count at their strength.
//
// As built means: indigo powder is reduced where a chemical reducer does it, and what that took of the reducer is spent in
// any case (dithionite and thiourea dioxide a mole for a mole; the share is of the rest), and stands as leuco indigo,
// which takes alkali. Pre-reduced indigo is taken as the leuco indigo's salt with one sodium: it brings the alkali that it
// holds. The oxygen that the fill brings along, which eats a little at once, is not counted.
//
// Where sugar or food reduces, the indigo is taken as reduced in step with the share, and the share makes acids
// (acidsPerSugar, acidsPerFood). In a ferment the lime that stands beside soda ash or potash is given in step with
// them as well, since it is there to meet them. Iron(II) sulfate is thrown down at once, and no share of it changes pH.
// Sulfoxylate takes one alkali: HOCH2SO2- + O2 + OH- = CH2O + SO4-- + H2O. Zinc, chalk, food as such and table sugar take
// none.
//
// It refuses, with a *PHError, a share outside 0 to 100 %, an acid, and an alkali that it does not know. The make-up
// may still be more than PH reckons with.
func OfRecipe(r recipe.Recipe, spent quantity.Share) (Makeup, error) {
	share := spent.Fraction()
	if !(share >= 0 && share <= 1) {
		return Makeup{}, refuse("the share of the reducer that is spent is 0 to 100 %%, not %g %%", spent.Percent())
	}
	var b brew
	for _, p := range r.Powders {
		if err := b.take(p, r.PerLitre(p)*quantity.Concentration(p.Strength)); err != nil {
			return Makeup{}, err
		}
	}
	return b.makeup(r.Family, share), nil
}

// Plus is the make-up with so much more of an alkali in it, by its powder's substance and strength. Any other powder changes
// nothing. It refuses, with a *PHError, an alkali that it does not know.
func (m Makeup) Plus(p recipe.Powder, c quantity.Concentration) (Makeup, error) {
	if p.Role != recipe.Alkali {
		return m, nil
	}
	if p.Strength > 0 {
		c *= quantity.Concentration(p.Strength)
	}
	var b brew
	if err := b.take(p, c); err != nil {
		return m, err
	}
	m.SodaAsh += b.m.SodaAsh
	m.BakingSoda += b.m.BakingSoda
	m.Potash += b.m.Potash
	m.Lye += b.m.Lye
	m.Lime += b.m.Lime
	return m, nil
}

// brew is a recipe's doses, sorted; powders in mmol/L.
type brew struct {
	m                                                     Makeup // the alkalis
	powder, ready                                         float64
	dithionite, thiourea, sulfoxylate, sugar, fermentable float64
}

// take sorts one powder: c is what it is for, without its other matter.
func (b *brew) take(p recipe.Powder, c quantity.Concentration) error {
	milli := func(m MolarMass) float64 { return c.GramsPerLitre() / m.GramsPerMole() * 1000 }
	named := func(word string) bool { return strings.Contains(strings.ToLower(p.Material), word) }
	as := func(of, other MolarMass) quantity.Concentration { return c * quantity.Concentration(of/other) }
	switch s := p.Substance(); s {
	case recipe.IndigoDye:
		if p.Form == recipe.PreReduced {
			b.ready += milli(MolarIndigo)
		} else {
			b.powder += milli(MolarIndigo)
		}
	case recipe.SodaAsh, recipe.SodaCrystals:
		ash, err := SodaAshOf(s, c)
		if named("monohydrate") {
			ash = as(MolarSodaAsh, MolarSodaMonohydrate)
		}
		b.m.SodaAsh += ash
		return err
	case recipe.BakingSoda:
		b.m.BakingSoda += c
	case recipe.Potash:
		b.m.Potash += c
	case recipe.Lye:
		if named("potas") {
			c = as(MolarLye, molarPotashLye) // as strong, and potassium makes no more pairs than this sodium
		}
		b.m.Lye += c
	case recipe.SlakedLime:
		b.m.Lime += c
	case recipe.Quicklime:
		b.m.Lime += as(MolarSlakedLime, MolarQuicklime)
	case recipe.Dithionite:
		b.dithionite += milli(MolarDithionite)
	case recipe.ThioureaDioxide:
		b.thiourea += milli(MolarThioureaDioxide)
	case recipe.Sulfoxylate:
		b.sulfoxylate += milli(molarSulfoxylate)
	case recipe.ReducingSugar:
		if named("monohydrate") {
			b.sugar += milli(MolarGlucoseHydrate)
		} else {
			b.sugar += milli(MolarFructose)
		}
	case recipe.IronSulfate:
		mass := MolarIronHeptahydrate
		if named("anhydrous") {
			mass = MolarIronSulfate
		}
		b.m.Iron += quantity.Molarity(milli(mass))
	case recipe.Acid:
		return refuse("how strong the acid %q is, is not known", p.Material)
	default:
		switch p.Role {
		case recipe.Alkali:
			return refuse("how strong the alkali %q is, is not known", p.Material)
		case recipe.Indigo:
			b.powder += milli(MolarIndigo)
		case recipe.Food:
			b.fermentable += c.GramsPerLitre()
		}
	}
	return nil
}

// makeup is the liquor with a share of its reducer spent.
func (b brew) makeup(family recipe.Family, share float64) Makeup {
	m := b.m
	slow := family == recipe.SugarLime || family == recipe.Ferment
	onIndigo := b.powder
	if slow {
		onIndigo *= share
	}
	m.Leuco = quantity.Molarity(onIndigo + b.ready)
	m.Lye += quantity.Concentration(b.ready / 1000 * MolarLye.GramsPerMole())

	// Each reducer in turn takes what indigo is left, then its share of the rest goes to the air.
	use := func(has float64) (indigo, air float64) {
		indigo = math.Min(has, onIndigo)
		onIndigo -= indigo
		return indigo, (has - indigo) * share
	}
	indigo, air := use(b.dithionite)
	m.OnIndigo, m.Spent = quantity.Molarity(indigo), quantity.Molarity(air)
	indigo, air = use(b.thiourea)
	m.SpentThiourea = quantity.Molarity(indigo + air)
	indigo, air = use(b.sulfoxylate)
	acid := indigo + air

	acid += (acidsPerSugar*b.sugar + acidsPerFood*b.fermentable) * share
	m.Acid = quantity.Molarity(acid)
	if family == recipe.Ferment && m.SodaAsh+m.Potash > 0 {
		m.Lime *= quantity.Concentration(share)
	}
	return m
}
