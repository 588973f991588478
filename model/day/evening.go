package day

import (
	"fmt"
	"strings"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// eveningRound marks the round after a day's dips.
const eveningRound = "evening"

// nightly is what a worked vat is given for the night, for a litre. C (reducers S1 too).
var nightly = map[recipe.Substance]quantity.Range[quantity.Concentration]{
	recipe.Dithionite:      {Low: 0.5, Likely: 0.75, High: 1},
	recipe.ThioureaDioxide: {Low: 0.3, Likely: 0.4, High: 0.5},
	recipe.SlakedLime:      {Low: 0.5, Likely: 0.5, High: 0.5},
	recipe.ReducingSugar:   {Low: 1, Likely: 1, High: 1},
}

// leastGiven is the part of a night's dose that is still worth giving. M
const leastGiven = quantity.Share(0.25)

// forNight are the powders for the night with their grams for so much liquor, at most what the recipe allows at once and, with
// what was given already, in a day; empty for a family that is given none.
func forNight(h Head, in quantity.Volume, given func(powder string) quantity.Mass) string {
	sys := h.Setup.System()
	var parts []string
	for _, p := range h.Recipe.Powders {
		dose, ok := nightly[p.Substance()]
		if !ok || h.Recipe.Family == recipe.Ferment || h.Recipe.Family == recipe.IronLime {
			continue
		}
		most := dose.High.Of(in)
		if p.AtOnce > 0 {
			most = min(most, p.AtOnce.Of(in))
		}
		if p.PerDay > 0 {
			most = min(most, p.PerDay.Of(in)-given(p.ID))
		}
		few := most < quantity.Mass(leastGiven)*dose.Low.Of(in)
		low, most := quantity.TwoFigures(min(dose.Low.Of(in), most)), quantity.TwoFigures(most)
		ash := ""
		if first, wants := liquor.AlkaliFirst(h.Recipe, p.ID, most, 0, nil); wants {
			a, _ := h.Recipe.Powder(first.Powder)
			ash = first.Mass.Format(sys) + " of " + a.Material + ", then "
		}
		switch {
		case few:
			parts = append(parts, "no more "+p.Material+" today")
		case low == most:
			parts = append(parts, ash+most.Format(sys)+" of "+p.Material)
		default:
			parts = append(parts, fmt.Sprintf("%s%s to %s of %s", ash, low.Format(sys), most.Format(sys), p.Material))
		}
	}
	return strings.Join(parts, ", ")
}

// EveningRound is what a vat wants after a day's dyeing, with its grams for so much liquor; given is what it was given today
// beyond its build.
func EveningRound(h Head, in quantity.Volume, given func(powder string) quantity.Mass) string {
	parts := []string{"froth back"}
	switch night := forNight(h, in, given); {
	case night != "":
		parts = append(parts, night+", if strip and pH ask for it")
	case h.Recipe.Family == recipe.Ferment:
		parts = append(parts, "bran only by the sign: no froth and a flat smell, three days after the last")
	default:
		parts = append(parts, "no powder, unless the signs ask for it")
	}
	parts = append(parts, "one stir")
	if h.Recipe.Family == recipe.Ferment {
		parts = append(parts, "lid on, never airtight")
	} else {
		parts = append(parts, "a sheet or film on the liquor, lid on")
	}
	return strings.Join(append(parts, "note "+h.Setup.System().DegreeUnit()+", pH and colour"), "; ")
}

// Evening is the evening round of this day's vat.
func (s State) Evening() string {
	return EveningRound(s.Head, s.Level().In, func(powder string) quantity.Mass {
		sum := quantity.Mass(0)
		for _, p := range s.portions {
			if p.Gave() && p.Powder == powder {
				sum += p.Mass
			}
		}
		return sum
	})
}
