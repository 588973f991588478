package recipe

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write the expected faults beside the recipes")

// cases is where the bad recipes lie, each with the faults that are expected of it.
const cases = "../../testdata/recipes"

func TestEachBadRecipeTellsAllItsFaults(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(cases, "*.toml"))
	if err != nil || len(files) < 30 {
		t.Fatalf("%d recipes, %v", len(files), err)
	}
	for _, path := range files {
		name := filepath.Base(path)
		t.Run(name, func(t *testing.T) {
			_, faults := Parse(name, read(t, path))
			got := ""
			if len(faults) > 0 {
				got = faults.String() + "\n"
			}
			golden := strings.TrimSuffix(path, ".toml") + ".txt"
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if want := string(read(t, golden)); got != want {
				t.Errorf("faults:\n%swant:\n%s", got, want)
			}
			if good := strings.Contains(name, "good"); good != (len(faults) == 0) {
				t.Errorf("%d faults", len(faults))
			}
		})
	}
}

func TestAFaultIsDrawnUnderItsPlace(t *testing.T) {
	text := []byte("\taim = \"35 K/h\" # °C\r\n")
	f := Fault{"soda.toml", 1, 8, `aim "35 K/h" is not a temperature`, `write it as "35 °C"`, 8}
	want := `soda.toml:1:8: aim "35 K/h" is not a temperature
    1 |  aim = "35 K/h" # °C
      |        ^^^^^^^^
        write it as "35 °C"
`
	if got := f.Draw(text); got != want {
		t.Errorf("drawn\n%swant\n%s", got, want)
	}
	for _, f := range []Fault{{Line: 99, Col: 99}, {Line: -1, Col: -1}, {Line: 1, Col: 500, width: 70}, {}} {
		f.Draw(text)
		f.Draw(nil)
	}
}

// TestPlaces holds the line and column of what has gone wrong in each way that TOML can be written.
func TestPlaces(t *testing.T) {
	good := string(read(t, filepath.Join(cases, "good.toml")))
	for _, c := range []struct {
		name, from, to string
		line, col      int
		what           string
	}{
		{"unknown key", "high = \"40 °C\"", "high = \"40 °C\"\n  hihg = \"°\"", 14, 3, "unknown key"},
		{"bad unit behind blanks", "aim = \"35 °C\"", "aim   =    \"35 g\"", 12, 12, "not a temperature"},
		{"missing reference", "powder = \"soda\"", "powder = \"salt\"", 51, 10, "not in this recipe"},
		{"element of a list over lines", "\"linen\"", "# \"wol\"\n  \"wol\"", 7, 3, "fibre"},
		{"dotted key", "sediment = \"5 cm\"", "", 9, 1, "no sediment"},
		{"quoted key", "sediment = \"5 cm\"", "\"sediment\" = \"5 kg\"", 18, 14, "not a length"},
		{"after a long string", "source = \"made up for a test\"", "source = '''made\n[liquor]\nup'''", 7, 10, "line breaks"},
		{"an escape", "source = \"made up for a test\"", "source = \"made up \\u001b]52;c;\\u0007\"", 7, 10, "source holds the character U+001B, which cannot be shown"},
		{"an override", "source = \"made up for a test\"", "source = \"made \u202eup\"", 7, 16, "here stands the character U+202E, which cannot be shown"},
		{"C1 in a comment", "source = \"made up for a test\"", "source = \"x\" # °\u009b31m", 7, 17, "here stands the character U+009B, which cannot be shown"},
		{"unknown table", "[[powder]]", "[extra]\na = 1\n[[powder]]", 20, 1, "unknown key"},
		{"one bracket", "[[step]]\ndo = \"check\"\n", "[step.check]\ndo = \"check\"\n", 74, 1, "unknown key"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(good, c.from) {
				t.Fatalf("no %q in the recipe", c.from)
			}
			_, faults := Parse("x.toml", []byte(strings.Replace(good, c.from, c.to, 1)))
			if !slices.ContainsFunc(faults, func(f Fault) bool {
				return f.Line == c.line && f.Col == c.col && strings.Contains(f.What, c.what)
			}) {
				t.Errorf("no %q at %d:%d in\n%s", c.what, c.line, c.col, faults)
			}
		})
	}
}

func TestInlineTablesAreReadToo(t *testing.T) {
	good := string(read(t, filepath.Join(cases, "good.toml")))
	block := `[[powder]]
id = "soda"
material = "soda ash"
role = "alkali"
dose = "6 g/L"
`
	if !strings.Contains(good, block) {
		t.Fatal("the good recipe has changed")
	}
	_, faults := Parse("x.toml", []byte(strings.Replace(good, "[liquor]", "powder = [{id = 1}, 2]\n[liquor]", 1)))
	if len(faults) == 0 {
		t.Error("a list of odd things is taken for powders")
	}
	_, faults = Parse("x.toml", []byte("powder = [{id = \"a\"}, {id = \"a\"}]\nstep = []\nliquor = {low = \"x\"}\nstock = 3\n"))
	if !strings.Contains(faults.String(), "x.toml:1:1: there are two powders") || !strings.Contains(faults.String(), "x.toml:3:1: low") {
		t.Errorf("%s", faults)
	}
}

func TestTextsThatAreNoTOML(t *testing.T) {
	for text, want := range map[string]string{
		"format = 1\n[liquor\nlow = \"30 °C\"\n": "x.toml:2:8:",
		"format = 1\nformat = 1\n":               "x.toml:2:1:",
		"a":                                      "x.toml:1:1:",
		"x = [1,\n2":                             "x.toml:2:1:",
		"\xff":                                   "a recipe is UTF-8 text",
		strings.Repeat("# long\n", textMost/7+1): "at most 1 MB",
	} {
		if _, faults := Parse("x.toml", []byte(text)); len(faults) != 1 || !strings.Contains(faults.String(), want) {
			t.Errorf("want %s:\n%s", want, faults)
		}
	}
	good := string(read(t, filepath.Join(cases, "good.toml")))
	for _, text := range []string{strings.ReplaceAll(good, "\n", "\r\n"), "\ufeff" + good, good + "\n\n# end"} {
		if _, faults := Parse("x.toml", []byte(text)); len(faults) > 0 {
			t.Errorf("%s", faults)
		}
	}
	if _, faults := Parse("x.toml", nil); len(faults) < 9 {
		t.Errorf("an empty recipe has the faults\n%s", faults)
	}
}

func BenchmarkParse(b *testing.B) {
	text := read(b, "../../recipes/lye.toml")
	for b.Loop() {
		Parse("lye.toml", text)
	}
}

func TestAnUnknownKeyIsFoundWhereverItStands(t *testing.T) {
	lines := strings.Split(string(read(t, filepath.Join(cases, "good.toml"))), "\n")
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, len(lines)-1).Draw(t, "line")
		indent := rapid.IntRange(0, 5).Draw(t, "indent")
		text := strings.Join(slices.Insert(slices.Clone(lines), n, strings.Repeat(" ", indent)+`zzz = "°C" # [[step]]`), "\n")
		_, faults := Parse("x.toml", []byte(text))
		if len(faults) != 1 || faults[0].Line != n+1 || faults[0].Col != indent+1 {
			t.Fatalf("line %d, column %d, but\n%s", n+1, indent+1, faults)
		}
	})
}

func TestAFaultLeavesTheOthersAlone(t *testing.T) {
	lines := strings.Split(string(read(t, filepath.Join(cases, "good.toml"))), "\n")
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, len(lines)-1).Draw(t, "line")
		text := strings.Join(slices.Delete(slices.Clone(lines), n, n+1), "\n")
		_, faults := Parse("x.toml", []byte(text))
		if !faultless(lines[n]) && len(faults) == 0 {
			t.Fatalf("without %q the recipe has no fault", lines[n])
		}
	})
}

// faultless lines can be left out: blank ones, comments, and what has a default.
func faultless(line string) bool {
	return line == "" || line[0] == '#' || strings.HasPrefix(line, "cover") || strings.HasPrefix(line, "ph_fresh") || strings.HasPrefix(line, "to =")
}

func FuzzParse(f *testing.F) {
	for _, dir := range []string{cases, "../../recipes"} {
		files, _ := filepath.Glob(filepath.Join(dir, "*.toml"))
		for _, path := range files {
			text, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text)
		}
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		r, faults := Parse("fuzz.toml", text)
		for _, fault := range faults {
			if fault.Line < 1 || fault.Col < 1 || fault.What == "" {
				t.Fatalf("%#v", fault)
			}
			fault.Draw(text)
		}
		if len(faults) > 0 {
			return
		}
		if r.Text != string(text) {
			t.Fatal("the text is not kept")
		}
		for _, fill := range []quantity.Volume{fillLeast, 20, fillMost} {
			a, err := Scale(r, fill, Options{})
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range a.Powders {
				if !(m.Grams > 0) {
					t.Fatalf("%s: %v g", m.Powder.ID, m.Grams)
				}
			}
		}
	})
}

// read is a file's text.
func read(t testing.TB, path string) []byte {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// builtin is one of the recipes that come with the program.
func builtin(t testing.TB, id string) Recipe {
	t.Helper()
	r, faults := Parse(id+".toml", read(t, fmt.Sprintf("../../recipes/%s.toml", id)))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return r
}

func TestIDsReadByHand(t *testing.T) {
	form := regexp.MustCompile(`^[a-z][a-z0-9-]{0,39}$`)
	rapid.Check(t, func(t *rapid.T) {
		if id := rapid.StringMatching(`[a-zA0-9-]?[a-z0-9é_-]{0,42}\n?`).Draw(t, "id"); isID(id) != form.MatchString(id) {
			t.Fatalf("%q: taken %v", id, isID(id))
		}
	})
}
