package liquor

import (
	"fmt"
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// topUpStep is the indigo that brings a vat's blue back, a litre: 1 g of the recipe's own indigo, as it is weighed (C: the
// table of signs and the pages behind it weigh the dyer's powder; 1 g of pure indigo would be more than a built-in vat
// holds when fresh). So it is 1 g × the recipe's strength of pure indigo.
const topUpStep = quantity.Concentration(1)

// TopUp is indigo for a vat that has little left: how much of the recipe's own, and in how many lots.
type TopUp struct {
	Powder string        // its id in the recipe
	Whole  quantity.Mass // all of it
	Lot    quantity.Mass // the most of it that goes in at once; all of it where that is within the recipe's at_once
	Lots   int           // a day apart; 1 up
	Wait   quantity.Span // after each lot, and then a swatch
}

// TopUpOf is the indigo that a vat wants when its blue is used up: pure indigo a litre × fill ÷ strength of the tin, never
// more than gone, the pure indigo that has left it, where that is known (0: not known). Strength is of the tin at hand; 0
// for the recipe's. One lot is within at_once and per_day. False for a recipe without indigo, or without a fill.
func TopUpOf(r recipe.Recipe, fill quantity.Volume, strength quantity.Share, gone quantity.Mass) (TopUp, bool) {
	litres := quantity.Volume(notBelowZero(fill.Litres()))
	for _, p := range r.Powders {
		if p.Role != recipe.Indigo || litres == 0 {
			continue
		}
		of := orWhole(p.Strength)
		pure := of.Of(topUpStep.Of(litres))
		if gone > 0 {
			pure = min(pure, gone)
		}
		if !(strength > 0 && strength <= 1) {
			strength = of
		}
		t := TopUp{Powder: p.ID, Whole: quantity.Grams(pure.Grams() / strength.Fraction()), Wait: StockWait(r), Lots: 1}
		t.Lot = t.Whole
		if most, _ := Most(r, p.ID, litres, 0); most > 0 && t.Whole > most {
			t.Lot, t.Lots = most, int(math.Ceil(t.Whole.Grams()/most.Grams()-1e-9))
		}
		return t, true
	}
	return TopUp{}, false
}

// Says is the amount in words, with the recipe's own name for it: "60 g of pre-reduced indigo grains, in 2 lots, a day apart".
func (t TopUp) Says(r recipe.Recipe, sys quantity.System) string {
	p, _ := r.Powder(t.Powder)
	s := fmt.Sprintf("%s of %s", t.Whole.Scale(sys), p.Material)
	s += wording.If(t.Lots > 1, fmt.Sprintf(", in %d lots of at most %s, a day apart", t.Lots, t.Lot.Scale(sys)))
	return s
}
