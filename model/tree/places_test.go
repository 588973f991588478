package tree

import (
	"maps"
	"testing"
)

// Keys, values and the texts of lists stand where a person sees them, however they are written.
func TestPlaces(t *testing.T) {
	p := PlacesOf([]byte("a . b = 1 # é\n\"é d\".'e' = [ \"x\\\"y\", 'z', # ]\n  [\"in\"], \"w\" ]  \r\n[ g . \"h i\" ] # k\n" +
		"l = { m = \"n\", o = [\"p\"] }\nq = \"\"\"r\ns = 2\"\"\"\n[[t]]\n\tu = 2020-01-01 10:00:00Z\n[[t]]\n'v'=3\n'v'=4"))
	for _, x := range []struct {
		name      string
		got, want map[string]Spot
	}{
		{"tables", p.heads, map[string]Spot{"g.h i": {4, 1, 13}, "t.0": {8, 1, 5}, "t.1": {10, 1, 5}}},
		{"keys", p.keys, map[string]Spot{"a.b": {1, 1, 5}, "é d.e": {2, 1, 9}, "g.h i.l": {5, 1, 1}, "g.h i.q": {6, 1, 1}, "t.0.u": {9, 2, 1}, "t.1.v": {11, 1, 3}}},
		{"values", p.values, map[string]Spot{"a.b": {1, 9, 1}, "é d.e": {2, 13, 18}, "g.h i.l": {5, 5, 22}, "g.h i.q": {6, 5, 4}, "t.0.u": {9, 6, 20}, "t.1.v": {11, 5, 1}}},
		{"texts", p.texts["é d.e"], map[string]Spot{`x"y`: {2, 15, 6}, "z": {2, 23, 3}, "w": {3, 11, 3}}},
	} {
		if !maps.Equal(x.got, x.want) {
			t.Errorf("%s stand at\n%v, not\n%v", x.name, x.got, x.want)
		}
	}
	for _, text := range []string{"a", "a =", "[", "[a", "[[a]", "= 1", "a.", "\"", "a = [", "a = \"", "a = ]\nb = 1", "\xff"} {
		PlacesOf([]byte(text)) // ends
	}
}
