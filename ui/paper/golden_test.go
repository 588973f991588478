package paper_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sheet"
	"example.org/vatside/ui/paper"
)

var update = flag.Bool("update", false, "write testdata/sheets anew")

// root is the module's folder.
const root = "../.."

// played is a day of testdata/days.
func played(t *testing.T, name string) sheet.Day {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "testdata", "days", name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	b := book.Read(name, text)
	s, errs := day.Replay(b.Head, b.Events)
	if b.HeadErr != nil || len(errs) > 0 {
		t.Fatalf("%s: %v %v", name, b.HeadErr, errs)
	}
	return sheet.Day{Name: b.Head.Day, State: s}
}

func builtIn(t *testing.T, id string) recipe.Recipe {
	t.Helper()
	file := filepath.Join(root, "recipes", id+".toml")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse(file, text)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return r
}

func toDye(t *testing.T) []load.Piece {
	t.Helper()
	var out []load.Piece
	for _, p := range []load.Piece{
		{Tag: "A1", What: "table runner", Fibre: fibre.Linen, Dry: 420, Depth: "dark"},
		{Tag: "B1", What: "napkins", Who: "Mo", Fibre: fibre.Cotton, Dry: 310, Dips: 3},
	} {
		full, err := p.Fill()
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, full)
	}
	return out
}

// sheets are one of each kind.
func sheets(t *testing.T) map[string]sheet.Sheet {
	t.Helper()
	first, second := played(t, "soda-bin"), played(t, "soda-bin-second-day")
	soda := builtIn(t, "soda")
	pieces := toDye(t)
	plan, err := load.Make(pieces, load.Usual(60))
	if err != nil {
		t.Fatal(err)
	}
	come, err := sheet.OfRecipe(soda, day.Setup{Fill: 60, Cold: 12, Hot: 60}, pieces, plan)
	if err != nil {
		t.Fatal(err)
	}
	whole := []sheet.Day{first, second, played(t, "soda-bin-last-day"), played(t, "soda-bin-gone")}
	return map[string]sheet.Sheet{
		"soda-bin-ended":  sheet.OfVat(whole, time.Time{}, false),
		"soda-bin-labels": sheet.OfLabels("Garden bin", whole, cost.Of(whole, nil, cost.Rates{}), time.Time{}),
		"soda-bin-day":    sheet.OfDay(first, time.Time{}),
		"soda-bin-card":   sheet.OfCard("soda-bin", "A1"),
		"soda-bin-vat":    sheet.OfVat([]sheet.Day{first, second}, time.Time{}, false),
		"soda-to-come":    come,
		"tags":            sheet.OfTags("Soda vat", sheet.TagsOf(pieces, quantity.Metric)),
		"slips":           sheet.OfSlips("Soda vat", sheet.SlipsOf(pieces, soda.Family, quantity.Metric)),
		"safety-lye":      sheet.Safety(ptr(builtIn(t, "lye")), "112", quantity.Metric),
	}
}

func ptr[T any](v T) *T { return &v }

// Each sheet in each form is as it stands in testdata/sheets; -update writes it anew, to be looked at.
func TestSheetsAreAsTheyStand(t *testing.T) {
	for name, s := range sheets(t) {
		for _, form := range paper.Forms() {
			page, err := paper.Set(s, form)
			if err != nil {
				t.Fatal(err)
			}
			got := page.String()
			file := filepath.Join(root, "testdata", "sheets", name+"."+form)
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("%s is not as it stands: run go test ./ui/paper -update and look at the difference", file)
			}
		}
	}
	if _, err := paper.Set(sheet.Sheet{}, "pdf"); err == nil {
		t.Error("a form that is none is taken")
	}
}
