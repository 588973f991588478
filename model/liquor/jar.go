package liquor

import (
	"fmt"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// SourJar tells whether the stock jar of a sulfur reducer was read as acid: below 7, whatever the reading's error.
func (s State) SourJar() bool {
	return s.Recipe.Family.SulfurReducer() && s.JarPH != nil && *s.JarPH < 7
}

// Jar is why a powder may not go into the stock jar, by what was read of it: acid in a jar with a sulfur reducer, a jar above 60 °C,
// a pH below the vat's own low mark, where its alkali is short or not in yet. The recipe's build has its own steps and limits.
func (s State) Jar(p recipe.Powder) (Advice, bool) {
	s = s.Clean()
	low, to := quantity.PH(s.Recipe.Liquor.PHLow), hottestJar
	switch {
	case s.SourJar():
		a, _ := acid(State{Recipe: s.Recipe, PH: s.JarPH, HeaterOn: s.HeaterOn})
		a.Sentence = "stop: step upwind, send everyone else away; nothing goes into the stock jar, nor from it into the vat"
		return a, true
	case s.JarTemp != nil && *s.JarTemp > to:
		return Advice{Do: DoWait, Cause: "hot", To: &to, Sentence: "let the stock jar cool to " + s.says(to) + " before any powder",
			Why: s.says(*s.JarTemp) + " is too hot for " + p.Material + ": above " + s.says(to) + " a stock is ruined, and throws steam and powder back (S1)",
			How: "out of its bath, lid on, hands off the hot jar", Wait: HeatWait, Recheck: "read the °C of the jar"}, true
	case p.Role == recipe.Reducer && s.JarPH != nil && *s.JarPH < low-quantity.PH(s.PHError):
		return Advice{Do: DoWait, Cause: "alkali-eaten", Sentence: "no reducer into the stock jar: read its pH again with a fresh strip",
			Why: fmt.Sprintf("pH %v is below %v: its alkali is short or was left out, or the strip is wrong; reducer without alkali gives off a choking gas", *s.JarPH, low),
			How: "outdoors, at arm's length; lid on. If a fresh strip reads the same: make a new jar by the recipe", Wait: quantity.Minutes(5), Recheck: "read the pH of the jar"}, true
	}
	return Advice{}, false
}
