package recipe

import "time"

// Bounds of sense: beyond them a figure is a slip of the pen. They are wider than any recipe found in print and are
// no advice. Common practice, no source, except where named.

// Temperatures in °C.
var (
	anyHeat     = limit{"a temperature", "35 °C", 0, 100, "between 0 °C and 100 °C"}
	workingHeat = limit{"a temperature", "35 °C", 5, 60, "between 5 °C and 60 °C"}
	stockHeat   = limit{"a temperature", "50 °C", 10, 60, "between 10 °C and 60 °C: hotter ruins the stock"} // Mairet 1938
)

// Times in nanoseconds, as a Span counts.
var (
	longWait  = limit{"a time", "30 min", float64(time.Minute), float64(60 * 24 * time.Hour), "between 1 min and 60 days"}
	shortWait = limit{"a time", "15 min", float64(time.Minute), float64(7 * 24 * time.Hour), "between 1 min and 7 days"}
	stepTime  = limit{"a time", "30 min", float64(time.Second), float64(60 * 24 * time.Hour), "between 1 s and 60 days"}
)

// Depth in m, wetting in mL/g, volume in L, share of stock in L per L.
var (
	sludge   = limit{"a length", "5 cm", 0, 1, "between 0 cm and 1 m"}
	wetting  = limit{"water for each gram", "20 mL/g", 0.5, 200, "between 0.5 mL/g and 200 mL/g"}
	rinsing  = limit{"water for each gram", "10 mL/g", 0, 200, "at most 200 mL/g"}
	jarful   = limit{"a volume", "1 L", 0.05, 200, "between 0.05 L and 200 L"}
	perLitre = limit{"millilitres for each litre", "60 mL/L", 0.001, 0.5, "between 1 mL/L and 500 mL/L"}
)

// Doses in g/L of the whole liquor, by role. Printed extremes: indigo 8.3, iron sulfate 16.6, lime 24.9 (Mairet
// 1916), soda ash 25 (common practice).
var doseOf = map[Role]limit{
	Indigo:  {"grams for each litre", "1.5 g/L", 0.05, 30, "between 0.05 g/L and 30 g/L"},
	Reducer: {"grams for each litre", "2 g/L", 0.05, 40, "between 0.05 g/L and 40 g/L"},
	Alkali:  {"grams for each litre", "6 g/L", 0.05, 60, "between 0.05 g/L and 60 g/L"},
	Food:    {"grams for each litre", "5 g/L", 0.05, 100, "between 0.05 g/L and 100 g/L"},
}

var (
	ratio    = limit{"grams for each gram", "2 g/g", 0.01, 20, "between 0.01 g/g and 20 g/g"}
	addition = limit{"grams for each litre", "0.5 g/L", 0.005, 60, "between 0.005 g/L and 60 g/L"}
)

// Limits of danger. These are law for every recipe.
const (
	sulfurVatMost   = 50 // °C, liquor that a sulfur reducer is sprinkled over (working knowledge, 17b)
	sulfurStockMost = 60 // °C, the same in a stock jar (Mairet 1938)
	sulfurWetLeast  = 20 // mL/g, water that a sulfur reducer may be stirred into; none is better
	sulfurDoseMost  = 10 // g/L, beyond it the liquor strips more than it dyes and the powder is a hazard; from memory
	lyeWaterLeast   = 10 // mL/g, cold water that lye goes into: ten times its weight (from memory; ICSC 0360)
	coldMost        = 25 // °C, what counts as cold water
	partsAllow      = 0.005
	watersMost      = 0.9 // L/L, jar, rinse, jug and stock water together in each litre of the fill
)
