package liquor

import (
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// What was read of the stock jar bars a powder for it: acid, more than the 60 °C that ruin it, too little alkali. The vat's own heat
// does not; its build has steps of its own up to 50 °C.
func TestTheStockJarIsJudged(t *testing.T) {
	var p recipe.Powder
	for _, c := range []struct {
		what    string
		c, ph   float64
		do      string
		says    string
		caution string
	}{
		{"as the recipe has it", 50, 12.5, DoReducer, "add 60 g", "a stock of 60 °C"},
		{"not read", 0, 0, DoReducer, "add 60 g", "read the jar's °C first"},
		{"too hot", 62, 12.5, DoWait, "let the stock jar cool to 60 °C", ""},
		{"acid", 50, 6.5, DoStop, "nothing goes into the stock jar, nor from it into the vat", "doctor"},
		{"its lye was left out", 50, 8.5, DoWait, "read its pH again", ""},
	} {
		n := vat(t, "lye")
		p, _ = n.Recipe.Powder("reducer")
		p.AtOnce = 1
		n.Temp = at(n.Recipe.Liquor.High)
		if c.c > 0 {
			n.JarTemp, n.JarPH = at(quantity.Celsius(c.c)), at(quantity.PH(c.ph))
		}
		for i, r := range n.Recipe.Powders {
			if r.ID == p.ID {
				n.Recipe.Powders[i].AtOnce = 1
			}
		}
		a := n.Give(p, 1)
		how, cautions := n.Handling(p, true)
		said := strings.Join(append(cautions, a.Cautions...), "; ") + how
		if a.Do != c.do || !strings.Contains(a.Sentence, c.says) || !strings.Contains(said, c.caution) || (a.Mass > 0) != (c.do == DoReducer) {
			t.Errorf("%s: %s %q %v; %q", c.what, a.Do, a.Sentence, a.Mass, said)
		}
	}
}
