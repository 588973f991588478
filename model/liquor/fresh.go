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

// WorkingPH is the pH that goods meet in a vat built to a recipe where nobody has read any: of a vat that sours as it works the pH that it is kept at, within half a unit; of all others from fresh down to what
// is left when its reducer is spent. Likely is the fresh one, or the kept. All 0 where it cannot be reckoned.
func WorkingPH(r recipe.Recipe) quantity.Range[quantity.PH] {
	l := r.Liquor
	kept := quantity.PH(l.PHKept)
	if kept == 0 && r.Family == recipe.Ferment && l.PHHigh > 0 {
		kept = quantity.PH(min(max(fermentKept, l.PHLow), l.PHHigh))
	}
	if kept > 0 {
		return quantity.Range[quantity.PH]{Low: kept - keptWidth, Likely: kept, High: kept + keptWidth}
	}
	fresh := FreshPH(r)
	w := quantity.Range[quantity.PH]{Low: fresh, Likely: fresh, High: fresh}
	if m, err := OfRecipe(r, 1); err == nil {
		if p, err := PHRange(m, l.Build); err == nil {
			w.Low = min(w.Low, p.Low)
		}
	}
	if m, err := OfRecipe(r, 0); err == nil {
		if p, err := PHRange(m, l.Build); err == nil {
			w.High = max(w.High, p.High)
		}
	}
	return w
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
