package recipe

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"example.org/vatside/model/quantity"
)

// Largest is the largest fill that the powders at hand are enough for, and the id of the one that limits it; of two
// that limit it alike, the first of the recipe. Powders that are not in have are taken to be plenty.
//
// It refuses an id that the recipe does not have, a mass below zero or not a number, an empty have, a fill too small or
// too large for a vat, and what Scale refuses of opt.
func Largest(r Recipe, have map[string]quantity.Mass, opt Options) (fill quantity.Volume, limitedBy string, err error) {
	if err := opt.check(r); err != nil {
		return 0, "", err
	}
	if len(have) == 0 {
		return 0, "", fmt.Errorf("say of at least one powder how much there is")
	}
	for _, id := range sortedKeys(have) {
		if _, ok := r.Powder(id); !ok {
			return 0, "", r.unknownPowder(id)
		}
		if m := float64(have[id]); math.IsNaN(m) || math.IsInf(m, 0) || m < 0 {
			return 0, "", fmt.Errorf("%.4g g of %s cannot be on the shelf", m, id)
		}
	}
	for _, p := range r.Powders {
		m, ok := have[p.ID]
		perLitre := float64(r.PerLitre(p)) * opt.factor(p)
		if !ok || perLitre <= 0 {
			continue
		}
		if v := quantity.Volume(float64(m) / perLitre); limitedBy == "" || v < fill {
			fill, limitedBy = v, p.ID
		}
	}
	if fill < fillLeast {
		return 0, limitedBy, fmt.Errorf("%.3g g of %s is too little for any vat", have[limitedBy].Grams(), limitedBy)
	}
	if err := checkFill(fill); err != nil {
		return 0, limitedBy, err
	}
	return fill, limitedBy, nil
}

// sortedKeys are the ids of a map in a fixed order, so that the same mistake always gives the same sentence.
func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
