package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Fresh mild-soda gives wool and silk no warning of fibre, pH or °C; in the others the warning says what is reckoned, and nobody
// is sent to the vat at hand. Silk has one caution from pH 10 to 11.
func TestWoolAndSilkHaveAWay(t *testing.T) {
	for _, c := range []struct {
		line  string
		notes int // of fibre, pH or °C
		says  string
	}{
		{"--recipe mild-soda --piece 300+g+wool", 0, ""}, {"--recipe mild-soda --piece 300+g+silk", 0, ""},
		{"--recipe madder-bran --piece 300+g+wool", 1, "10.2 (reckoned, 9.7 to 10.7, not read)"},
		{"--recipe madder-bran --piece 300+g+silk", 1, "dip short"}, {"--recipe soda --piece 300+g+silk", 1, "dip short"},
		{"--recipe madder-bran --ph 11.3 --piece 300+g+wool", 1, "let it come down by itself"},
		{"--recipe soda --piece 300+g+wool", 2, "use the mild soda vat (recipe mild-soda)"},
	} {
		var got struct {
			Warnings []string `json:"warnings"`
		}
		args := append([]string{"dips", "--fill", "60L", "--depth", "mid", "--json"}, words(c.line)...)
		out, errs, code := run(t, t.TempDir(), args...)
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 {
			t.Fatal(c.line, err, errs)
		}
		n := 0
		for _, w := range got.Warnings {
			if strings.Contains(w, "pH") || strings.Contains(w, "°C") || strings.Contains(w, "recipe is not for") {
				n++
			}
		}
		if all := strings.Join(got.Warnings, "\n"); n != c.notes || !strings.Contains(all, c.says) {
			t.Errorf("%s: %d notes\n%s", c.line, n, all)
		}
	}
}

// A recipe may leave out ph_fresh: the check says what it is reckoned to, faults what cannot be, and faults a ready look that is
// a sign against a ready vat.
func TestRecipesCheckReckons(t *testing.T) {
	text, err := os.ReadFile("../../recipes/mild-soda.toml")
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, l := range strings.Split(string(text), "\n") {
		if !strings.HasPrefix(l, "ph_fresh") {
			lines = append(lines, l)
		}
	}
	plain := strings.Join(lines, "\n")
	for _, c := range []struct {
		from, to, says string
		code           int
	}{
		{"", "", "no fault; ph_fresh is left out, and reckoned pH 9.3 at 43 °C", 0},
		{"dose = \"6 g/L\"", "dose = \"0.1 g/L\"", "the doses give pH 10.", 1},
		{`material = "soda ash"`, `material = "wood ash"`, "cannot be reckoned", 1},
		{"a coppery film", "a sour smell", `"sweet or sour smell" is named as the look of a ready vat`, 1},
	} {
		file := filepath.Join(t.TempDir(), "own.toml")
		if err := os.WriteFile(file, []byte(strings.Replace(plain, c.from, c.to, 1)), 0o644); err != nil {
			t.Fatal(err)
		}
		out, _, code := run(t, t.TempDir(), "recipes", "check", file)
		if code != c.code || !strings.Contains(out, c.says) {
			t.Errorf("%q: %d\n%s", c.to, code, out)
		}
	}
}
