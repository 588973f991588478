package library_test

import (
	"os"
	"path/filepath"
	"testing"

	"example.org/vatside/ui/library"
	"example.org/vatside/ui/shelf"
)

// A recipe of the dyer's own takes the place of the built-in one of its id; what has faults or cannot be read is told, and the others
// are at hand.
func TestRecipesAtHand(t *testing.T) {
	home := shelf.Open(t.TempDir())
	dir := filepath.Join(home.Dir(), "recipes")
	soda, err := os.ReadFile("../../recipes/soda.toml")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"mine.toml": string(soda), "faulty.toml": "format = 1\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(filepath.Join(dir, "gone"), filepath.Join(dir, "none.toml")); err != nil {
		t.Skipf("this disk has no links: %v", err)
	}
	all, faulty, err := library.Recipes(home)
	if err == nil || len(faulty) != 1 || faulty[0].Path != filepath.Join(dir, "faulty.toml") || len(all) != len(library.Builtin()) {
		t.Errorf("%d recipes, %v, %v", len(all), faulty, err)
	}
	for i, r := range all {
		if mine := r.ID == "soda"; mine != (r.File != "") || r.ID != library.Builtin()[i].ID {
			t.Errorf("%s is of %q", r.ID, r.File)
		}
	}
}
