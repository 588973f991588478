package liquor

import (
	"fmt"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// AlkaliFirst is the alkali that a dose of reducer is given after, in a recipe that says so (alkali_first), on the
// scale's steps: 36 g of soda ash before 30 g of dithionite. Spent dithionite takes up two alkalis, 1.2 g of soda ash
// a gram, and in a mild vat there is no more to take: without it pH falls from 8.8 to below 8 with the next gram a litre
// (calculated). It counts on no day's limit, since the reducer uses it up. False for all else, and where pH was read at the top of
// the recipe's range: there the reducer may bring it down.
func AlkaliFirst(r recipe.Recipe, reducer string, dose, finest quantity.Mass, read *quantity.PH) (Amount, bool) {
	p, _ := r.Powder(reducer)
	alkali, ok := Alkali(r)
	if !ok || read != nil && float64(*read) >= r.Liquor.PHHigh || !(p.AlkaliFirst > 0) || !(dose > 0) {
		return Amount{}, false
	}
	m := p.AlkaliFirst.Of(dose)
	m = onScale(m, 2*m, finest)
	return Amount{alkali.ID, m}, m > 0
}

// afterAlkali puts the alkali before a dose of reducer, where the recipe has it so.
func (n State) afterAlkali(a Advice, p recipe.Powder) Advice {
	first, ok := AlkaliFirst(n.Recipe, a.Powder, a.Mass, n.Finest, n.PH)
	if !ok {
		return a
	}
	alkali, _ := n.Recipe.Powder(first.Powder)
	how, cautions := n.Handling(alkali, false)
	a.Powder, a.Mass, a.With = first.Powder, first.Mass, []Amount{{p.ID, a.Mass}}
	a.Sentence = fmt.Sprintf("add %s of %s, then %s of %s", first.Mass.Scale(n.System), alkali.Material, a.With[0].Mass.Scale(n.System), p.Material)
	a.How = "first the " + alkali.Material + ": " + how + "; then the " + p.Material + ": " + a.How
	a.Cautions = append(a.Cautions, cautions...)
	return a
}
