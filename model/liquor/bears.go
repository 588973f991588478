package liquor

import (
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Instead is what to do with goods that do not bear the liquor of a vat built to a recipe.
func Instead(r recipe.Recipe, f fibre.Fibre) string {
	const mild = "the mild soda vat (recipe mild-soda)"
	switch {
	case f.Class() != fibre.Protein && (r.Family == recipe.DithioniteSoda || r.Family == recipe.ThioureaDioxideSoda):
		return "give no alkali, and read pH again before they go in"
	case f.Class() != fibre.Protein:
		return "use a vat with soda"
	case Creeps(r):
		return "stir in baking soda, 2 g/L at most, and read pH again; or use a ferment vat at its kept pH"
	case r.Family == recipe.Ferment:
		return "let it come down by itself, or use " + mild
	}
	return "use " + mild + ", or a ferment vat"
}

// Creeps tells whether a vat built to a recipe holds baking soda, and so gives off carbon dioxide as it is kept warm: its pH
// creeps up by itself.
func Creeps(r recipe.Recipe) bool {
	return slices.ContainsFunc(r.Powders, func(p recipe.Powder) bool {
		return p.Role == recipe.Alkali && p.Substance() == recipe.BakingSoda
	})
}

// PHHolds is how long a reading of pH holds for wool and silk in a vat that creeps. M
const PHHolds = quantity.Span(3 * 3600e9)
