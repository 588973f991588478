package recipes

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/vatside/model/recipe"
)

func TestBuiltinRecipesHaveNoFaults(t *testing.T) {
	entries, err := files.ReadDir(".")
	if err != nil || len(entries) != len(order) {
		t.Fatalf("%d files for %d recipes, %v", len(entries), len(order), err)
	}
	for _, id := range order {
		text, err := files.ReadFile(id + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		r, faults := recipe.Parse(id+".toml", text)
		for _, f := range faults {
			t.Errorf("%s", f.Draw(text))
		}
		if r.ID != id {
			t.Errorf("file %s.toml has the id %q", id, r.ID)
		}
		if found, ok := Find(id); !ok || found.Name != r.Name || found.Text != string(text) {
			t.Errorf("%s is not found", id)
		}
	}
	if _, ok := Find("none"); ok {
		t.Error("a recipe that is not there is found")
	}
	list := Builtin()
	slices.Reverse(list)
	if Builtin()[0].ID != "soda" {
		t.Error("the list is shared")
	}
}

// TestFiguresAreWithinTheRangesOfTheTrade checks every figure against testdata/recipes/ranges.csv, which names its source.
func TestFiguresAreWithinTheRangesOfTheTrade(t *testing.T) {
	f, err := os.Open("../testdata/recipes/ranges.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in := csv.NewReader(f)
	in.Comment = '#'
	rows, err := in.ReadAll()
	if err != nil || len(rows) < 30 {
		t.Fatal(len(rows), err)
	}
	for _, row := range rows[1:] {
		r, ok := Find(row[0])
		if !ok {
			t.Fatalf("no recipe %s", row[0])
		}
		low, errLow := strconv.ParseFloat(row[2], 64)
		high, errHigh := strconv.ParseFloat(row[3], 64)
		got, ok := figure(r, row[1], row[4])
		if errLow != nil || errHigh != nil || !ok {
			t.Fatal(row)
		}
		if got < low-1e-9 || got > high+1e-9 {
			t.Errorf("%s: %s is %.3g %s, the trade has %g to %g", row[0], row[1], got, row[4], low, high)
		}
	}
}

// figure is one figure of a recipe in the unit of the table.
func figure(r recipe.Recipe, name, unit string) (float64, bool) {
	indigo, _ := r.Powder("indigo")
	switch name {
	case "build":
		return float64(r.Liquor.Build), true
	case "aim":
		return float64(r.Liquor.Aim), true
	case "stock build":
		return float64(r.Stock.Build), true
	case "stock":
		return float64(indigo.Dose) / float64(r.Stock.PerLitre), true
	}
	p, ok := r.Powder(name)
	perLitre := float64(r.PerLitre(p))
	if unit == "g/g" {
		return perLitre / float64(indigo.Dose), ok
	}
	return perLitre, ok
}

// dangerous are the kinds of step that need a caution, by what they handle.
func dangerous(r recipe.Recipe, s recipe.Step) bool {
	p, ok := r.Powder(s.Powder)
	harmless := ok && (p.Role == recipe.Food || p.Substance() == recipe.ReducingSugar)
	switch s.Do {
	case recipe.Fill, recipe.Warm, recipe.Simmer:
		return true
	case recipe.Weigh, recipe.Hydrate, recipe.Dissolve, recipe.Add, recipe.Sprinkle:
		return !harmless
	}
	return false
}

func TestStepsSpeakAsOneDyerToAnother(t *testing.T) {
	for _, r := range Builtin() {
		if r.Liquor.Evidence == "" || r.Stock != nil && r.Stock.Evidence == "" {
			t.Errorf("%s: liquor or stock without evidence", r.ID)
		}
		for _, p := range r.Powders {
			if p.Evidence == "" || p.Role != recipe.Indigo && (p.AtOnce == 0 || p.PerDay == 0) {
				t.Errorf("%s: powder %s without evidence or without its most at once and in a day", r.ID, p.ID)
			}
		}
		for i, s := range r.Steps {
			at := func(what string) { t.Errorf("%s: step %d (%s %s): %s", r.ID, i+1, s.Do, s.Powder, what) }
			if s.Why == "" || s.How == "" && s.Do != recipe.Wait {
				at("says too little")
			}
			for _, text := range []string{s.How, s.Why, s.Look, s.Caution, s.Meanwhile} {
				if utf8.RuneCountInString(text) > 110 {
					at("too long: " + text)
				}
				if strings.Contains(strings.ToLower(text), "please") {
					at("begs")
				}
			}
			for _, text := range []string{s.How, s.Why, s.Meanwhile} {
				if text != "" && !strings.HasSuffix(text, ".") {
					at("no full stop: " + text)
				}
			}
			if strings.HasSuffix(s.Look, ".") || strings.HasSuffix(s.Caution, ".") {
				at("a full stop too many")
			}
			if dangerous(r, s) && s.Caution == "" {
				at("no caution")
			}
			if (s.For > 0 || s.To != nil || s.AtMost != nil || s.Water > 0) && s.Evidence == "" {
				at("a figure without evidence")
			}
			if s.Do == recipe.Wait && s.Meanwhile == "" {
				at("nothing to do meanwhile")
			}
			if s.Do == recipe.Check && s.Look == "" {
				at("nothing to look for")
			}
		}
		last := r.Steps[len(r.Steps)-1]
		if last.Do != recipe.Check || last.Into != recipe.IntoVat {
			t.Errorf("%s does not end with a look at the vat", r.ID)
		}
	}
}

// TestWaitsAddUpToReady: what is waited after the last powder of the build is what the liquor's ready says.
func TestWaitsAddUpToReady(t *testing.T) {
	for _, r := range Builtin() {
		var waited, longest float64
		for _, s := range r.Steps {
			if s.Do == recipe.Wait && s.Into == recipe.IntoVat {
				waited += float64(s.For)
				longest = max(longest, float64(s.For))
			}
		}
		if ready := float64(r.Liquor.Ready); ready < longest || ready > waited {
			t.Errorf("%s: ready after %v, waits %v", r.ID, r.Liquor.Ready.Duration(), waited)
		}
	}
}
