package shelf

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
)

// RecipeFile is one of the dyer's own recipes, as text.
type RecipeFile struct {
	Path string
	Text []byte
}

// Recipes are the dyer's own recipes, by file name.
func (h Home) Recipes() ([]RecipeFile, error) {
	dir := filepath.Join(h.dir, "recipes")
	entries, err := list(dir)
	var out []RecipeFile
	for _, e := range entries {
		if e.IsDir() || strings.HasPrefix(e.Name(), ".") || !strings.EqualFold(filepath.Ext(e.Name()), ".toml") {
			continue
		}
		path := filepath.Join(dir, e.Name())
		text, readErr := readFile(path)
		if readErr != nil {
			err = errors.Join(err, fmt.Errorf("the recipe cannot be read: %w", readErr))
			continue
		}
		out = append(out, RecipeFile{path, text})
	}
	return out, err
}
