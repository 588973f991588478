package library

import (
	"slices"

	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/shelf"
)

// Recipe is a recipe at hand.
type Recipe struct {
	recipe.Recipe
	File string // of the dyer's own; empty: built in
}

// Builtin are the recipes of a program without a home.
func Builtin() []Recipe {
	return wording.Each(recipes.Builtin(), func(r recipe.Recipe) Recipe { return Recipe{Recipe: r} })
}

// Recipes are the built-in recipes, with the dyer's own in the place of those whose id they have, and behind them. faulty are the
// dyer's own that cannot be used; err says which files cannot be read.
func Recipes(h shelf.Home) (all []Recipe, faulty []FaultyRecipe, err error) {
	all = Builtin()
	files, err := h.Recipes()
	for _, f := range files {
		r, faults := recipe.Parse(f.Path, f.Text)
		if len(faults) > 0 {
			faulty = append(faulty, FaultyRecipe{f.Path, faults[0].Error()})
			continue
		}
		own := Recipe{r, f.Path}
		if i := slices.IndexFunc(all, func(a Recipe) bool { return a.ID == r.ID }); i >= 0 {
			all[i] = own
		} else {
			all = append(all, own)
		}
	}
	return all, faulty, err
}

// FaultyRecipe is a recipe of the dyer's own that is left out, with its first fault.
type FaultyRecipe struct{ Path, Fault string }
