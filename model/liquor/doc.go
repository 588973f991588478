// Package liquor holds what is dissolved in a vat and what becomes of it: the pH of its alkali, fresh and as the reducer is
// spent; the oxygen that gets in and the reducer that it eats; the indigo; and the doses that put a vat right.
//
// pH: a Makeup says what is in a litre; OfRecipe makes one from a recipe. PH solves it, PHRange says how far the answer
// may be trusted, and Reanchor moves it to what a strip or a meter has read. A pH goes with a temperature: a soda liquor
// loses about 0.02 for each kelvin, a lime liquor 0.03, and nothing has been added or lost.
//
// Everything in the package is reckoned from its arguments alone. Figures that are estimates or from memory say so.
package liquor
