package signs

import (
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/published"
)

// No recipe tells the dyer to look for what is then called a fault.
func TestReadyLooks(t *testing.T) {
	for _, id := range published.RecipeIDs {
		r := published.Recipe(t, id)
		for _, f := range Faults(id, r) {
			t.Errorf("%s", f)
		}
		n := slices.IndexFunc(r.Steps, func(s recipe.Step) bool { return s.Do == recipe.Check && s.Into == recipe.IntoVat })
		for look, want := range map[string]string{
			"a yellow glass, a coppery film, a sour smell": "sour smell",
			"a clear blue-green glass":                     "blue-green",
			"strip blue at once":                           "strip blue in less than 15 s",
			"a yellow to olive glass that turns blue in air, no foul smell, a dark froth": "",
		} {
			r.Steps[n].Look = look
			got := Faults("own.toml", r)
			if (len(got) > 0) != (want != "") || want != "" && (!strings.Contains(got[0].What, want) || got[0].Line < 2) {
				t.Errorf("%s, %q: %v", id, look, got)
			}
		}
	}
}
