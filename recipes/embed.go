// Package recipes holds the recipes that come with the program, one TOML file each.
package recipes

import (
	"embed"
	"fmt"
	"slices"
	"sync"

	"example.org/vatside/model/recipe"
)

//go:embed *.toml
var files embed.FS

// order is the order in which the recipes are offered: the readiest vat first, the slowest after it, the one for wool and
// silk last.
var order = []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"}

// parsed reads one recipe each at its first need; starting the program costs nothing.
var parsed = func() (all []func() recipe.Recipe) {
	for _, id := range order {
		name := id + ".toml"
		all = append(all, sync.OnceValue(func() recipe.Recipe {
			text, err := files.ReadFile(name)
			if err != nil {
				panic(fmt.Sprintf("recipes: %v", err)) // cannot happen: the files are in the program, and tested
			}
			r, faults := recipe.Parse(name, text)
			if err := faults.Err(); err != nil {
				panic(fmt.Sprintf("recipes: %v", err))
			}
			return r
		}))
	}
	return all
}()

// Builtin is the built-in recipes in the order in which they are offered. The list is the caller's to sort; what the
// recipes point to is shared and must not be changed.
func Builtin() []recipe.Recipe {
	var all []recipe.Recipe
	for _, one := range parsed {
		all = append(all, one())
	}
	return all
}

// Find is the built-in recipe with an id, by which its file is named; the others are not read for it.
func Find(id string) (recipe.Recipe, bool) {
	if i := slices.Index(order, id); i >= 0 {
		return parsed[i](), true
	}
	return recipe.Recipe{}, false
}
