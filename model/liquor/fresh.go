package liquor

import (
	"fmt"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// fermentKept is the pH that a ferment is kept at where its recipe does not say: 9.5 to 11 in practice (C).
const fermentKept = 10.2

// keptWidth is how far a kept vat may stand from that, either way. M
const keptWidth = 0.5

// FreshPH is the pH of a recipe's liquor freshly built: its ph_fresh, else what its doses give at its build °C; 0 where that
// cannot be reckoned, as with an alkali of unknown strength.
func FreshPH(r recipe.Recipe) quantity.PH {
	if r.Liquor.PHFresh > 0 {
		return quantity.PH(r.Liquor.PHFresh)
	}
	return ReckonedPH(r)
}

// ReckonedPH is what a recipe's doses give at its build °C as built; 0 where that cannot be reckoned.
func ReckonedPH(r recipe.Recipe) quantity.PH {
	m, err := OfRecipe(r, 0)
	if err != nil {
		return 0
	}
	ph, err := PH(m, r.Liquor.Build)
	if err != nil {
		return 0
	}
	return ph
}

// freshAllow is how far a reckoned pH may lie outside the recipe's own range, as that is written to a decimal.
const freshAllow = 0.05

// Faults are the faults of a recipe without ph_fresh: doses whose pH cannot be reckoned, or lies outside ph.
func Faults(file string, r recipe.Recipe) recipe.Faults {
	l := r.Liquor
	if l.PHFresh > 0 {
		return nil
	}
	ph := ReckonedPH(r)
	switch at := float64(ph); {
	case at == 0:
		return recipe.Faults{r.Fault(file, "liquor", "ph_fresh is left out and cannot be reckoned: how strong an alkali is, is not known", "write ph_fresh = 11.0, as read in the fresh vat")}
	case at < l.PHLow-freshAllow || at > l.PHHigh+freshAllow:
		return recipe.Faults{r.Fault(file, "liquor.ph", fmt.Sprintf("the doses give pH %v fresh, reckoned, which is outside ph", ph), "widen ph, or change the alkali; or write ph_fresh, as read")}
	}
	return nil
}
