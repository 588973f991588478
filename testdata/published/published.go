// Package published reads for tests of the model what they check against: the published tables, and the recipes as they are shipped.
// It is asked from a package's folder, two below the top.
package published

import (
	"encoding/csv"
	"os"
	"testing"

	"example.org/vatside/model/recipe"
)

// RecipeIDs are the recipes that are shipped.
var RecipeIDs = []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"}

// Recipe reads one of them.
func Recipe(t testing.TB, id string) recipe.Recipe {
	t.Helper()
	text, err := os.ReadFile("../../recipes/" + id + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse(id+".toml", text)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return r
}

// Table reads a table of testdata/reference, a row by the names of its columns; lines that begin with # are its source.
func Table(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/reference/" + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[rows[0][i]] = v
		}
		out = append(out, m)
	}
	return out
}
