// Package recipes holds the recipes that come with the program, one TOML file each.
package recipes

import (
	"embed"
	"fmt"
	"sync"

	"example.org/vatside/model/recipe"
)

//go:embed *.toml
var files embed.FS

// order is the order in which the recipes are offered: the readiest vat first, the slowest after it, the one for wool and
// silk last.
var order = []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"}

// parsed reads all of them at the first need; starting the program costs nothing.
var parsed = sync.OnceValue(func() []recipe.Recipe {
	list := make([]recipe.Recipe, len(order))
	for i, id := range order {
		name := id + ".toml"
		text, err := files.ReadFile(name)
		if err != nil {
			panic(fmt.Sprintf("recipes: %v", err)) // cannot happen: the files are in the program, and tested
		}
		r, faults := recipe.Parse(name, text)
		if err := faults.Err(); err != nil {
			panic(fmt.Sprintf("recipes: %v", err))
		}
		list[i] = r
	}
	return list
})

// Builtin is the built-in recipes in the order in which they are offered. The list is the caller's to sort; what the
// recipes point to is shared and must not be changed.
func Builtin() []recipe.Recipe {
	return append([]recipe.Recipe(nil), parsed()...)
}

// Find is the built-in recipe with an id.
func Find(id string) (recipe.Recipe, bool) {
	for _, r := range parsed() {
		if r.ID == id {
			return r, true
		}
	}
	return recipe.Recipe{}, false
}
