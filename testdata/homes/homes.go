// Package homes makes homes on disk for the tests of several packages.
package homes

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
)

// Tend puts a day of the vat "bin" into a home: opened at an instant (RFC 3339), and closed an hour later if it is.
func Tend(t *testing.T, h shelf.Home, name, zone, opened string, closed bool) {
	t.Helper()
	soda, _ := recipes.Find("soda")
	w, err := h.NewDay(day.Head{Vat: "bin", Day: name, Zone: zone, Recipe: soda,
		Opening: day.Opening{Number: 2, Built: true}, Setup: day.Setup{Name: "bin", Fill: 60, Place: day.Outdoors}})
	must(t, err)
	at, err := time.Parse(time.RFC3339, opened)
	must(t, err)
	must(t, w.Append(day.Event{Seq: 1, At: at, Body: day.Opened{How: "tend"}}))
	if closed {
		must(t, w.Append(day.Event{Seq: 2, At: at.Add(time.Hour), Body: day.Closed{Why: "dusk"}}))
	}
	must(t, w.Close())
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// Tainted is screentest.TaintedHome on disk, in a folder of such a name; root leads to the top of the module.
func Tainted(t *testing.T, root string) (home string, files map[string][]byte) {
	t.Helper()
	read := func(path string) []byte {
		t.Helper()
		text, err := os.ReadFile(path)
		must(t, err)
		return text
	}
	names, err := filepath.Glob(filepath.Join(root, "testdata/days/*.toml"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no played days: %v", err)
	}
	var played [][]byte
	for _, n := range names {
		played = append(played, read(n))
	}
	files, err = screentest.TaintedHome(played, read(filepath.Join(root, "testdata/days/soda-bin.toml")), read(filepath.Join(root, "recipes/soda.toml")))
	must(t, err)
	home = filepath.Join(t.TempDir(), "home \x1b]2;"+screentest.TaintMark+"\a\u202e")
	for path, text := range files {
		path = filepath.Join(home, path)
		must(t, os.MkdirAll(filepath.Dir(path), 0o755))
		must(t, os.WriteFile(path, text, 0o644))
	}
	return home, files
}
