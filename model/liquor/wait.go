package liquor

import (
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// The waits of a vat stand here, and nowhere else: whoever advises takes them from here. They are those of the table of
// signs.

// The waits that are the same in every family.
const (
	OverWait   = quantity.Span(3600e9)      // a vat that strips: open 30 to 60 min, an hour in all (S1, M)
	SettleWait = quantity.Span(2 * 3600e9)  // stirred sediment: 1 to 4 h (C)
	FoodWait   = quantity.Span(24 * 3600e9) // bran: 1 to 3 days (S6, C)
	HeatWait   = quantity.Span(30 * 60e9)   // °C and strip after warming, °C of what cools (C)
)

// FoodEvery is the least between two feeds of a ferment vat: three days, more often it runs away. M
const FoodEvery = quantity.Span(3 * 24 * 3600e9)

// ReducerWait is how long a dose of reducer takes: dithionite and thiourea dioxide 30 min, sugar 2 h, iron 4 h (S1, S4, S7,
// C); a ferment vat, which gets none, shows a change in a day.
func ReducerWait(f recipe.Family) quantity.Span {
	switch f {
	case recipe.SugarLime:
		return quantity.Hours(2)
	case recipe.IronLime:
		return quantity.Hours(4)
	case recipe.Ferment:
		return FoodWait
	}
	return quantity.Minutes(30)
}

// AlkaliWait is how long a step of alkali takes: soda and lye 15 min (S1), lime 1 h (C), in a ferment vat 2 h (S6).
func AlkaliWait(f recipe.Family) quantity.Span {
	switch f {
	case recipe.SugarLime, recipe.IronLime:
		return quantity.Hours(1)
	case recipe.Ferment:
		return quantity.Hours(2)
	}
	return quantity.Minutes(15)
}

// StockWait is how long indigo takes as stock: as the recipe has it, an hour at least for the vat to take it in (C).
func StockWait(r recipe.Recipe) quantity.Span {
	ready := r.Liquor.Ready
	if r.Stock != nil {
		ready = r.Stock.Ready
	}
	return max(ready, quantity.Hours(1))
}

// DoseWait is how long a dose of one of a recipe's powders takes until it shows, by what the powder does; of a powder that
// the recipe does not have, as for its reducer.
func DoseWait(r recipe.Recipe, powderID string) quantity.Span {
	p, _ := r.Powder(powderID)
	switch p.Role {
	case recipe.Indigo:
		return StockWait(r)
	case recipe.Alkali:
		return AlkaliWait(r.Family)
	case recipe.Food:
		return FoodWait
	}
	return ReducerWait(r.Family)
}

// RestWait is how long a vat rests before another strip, where nothing was given: the recipe's recheck, half an hour
// where it has none. C
func RestWait(r recipe.Recipe) quantity.Span { return recheckOf(r) }

// recheckOf is the recipe's wait before the next look, half an hour where it has none. C
func recheckOf(r recipe.Recipe) quantity.Span {
	if r.Liquor.Recheck > 0 {
		return r.Liquor.Recheck
	}
	return quantity.Minutes(30)
}
