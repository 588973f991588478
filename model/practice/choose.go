package practice

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Wanted is what a vat is chosen for. What is not said counts for nothing.
type Wanted struct {
	Fibres   []fibre.Fibre
	Pasted   bool   // a resist of paste, which warm liquor softens
	Place    string // "outdoors", "cross-draught" or "closed room"
	Class    bool   // a class dips, adults
	Children bool   // children dip
	Asthma   bool   // somebody with asthma is about
}

// Fit is how well a recipe fits.
type Fit string

// The fits, best first.
const (
	Fits     Fit = "fits"
	FitsCare Fit = "with care"
	FitsNot  Fit = "not"
)

// Reason is why a recipe fits with care or not, and where that comes from.
type Reason struct{ Words, Evidence string }

// Choice is a recipe and how it fits.
type Choice struct {
	Recipe  recipe.Recipe
	Fit     Fit
	Reasons []Reason
}

// WithoutSulfur is which vat to take instead of a recipe's where its reducer may not be used, by the goods, or where none are known by the
// fibres that the recipe is for: the lime of a sugar vat harms wool and silk.
func WithoutSulfur(r recipe.Recipe, goods ...fibre.Fibre) string {
	protein := func(f fibre.Fibre) bool { return f.Class() == fibre.Protein }
	ofRecipe := func(name string) bool { f, err := fibre.Parse(name); return err == nil && protein(f) }
	switch {
	case slices.ContainsFunc(goods, protein):
		return "a ferment vat"
	case len(goods) == 0 && slices.ContainsFunc(r.Fibres, ofRecipe):
		return "a sugar–lime vat, for wool and silk a ferment"
	}
	return "a sugar–lime or a ferment vat"
}

// ForProtein says how a fresh or kept vat of a recipe fits wool and silk, and in a few words why.
func ForProtein(r recipe.Recipe) (fit Fit, words string) {
	c := Choose([]recipe.Recipe{r}, Wanted{Fibres: []fibre.Fibre{fibre.Wool, fibre.Silk}})[0]
	ph := liquor.State{Recipe: r}.Acidity().Likely.String()
	switch c.Fit {
	case Fits:
		return c.Fit, "wool and silk first: pH " + ph
	case FitsCare:
		return c.Fit, "wool and silk with care: pH " + ph
	}
	return c.Fit, "no wool, no silk: pH " + ph
}

// CoolForPaste is the warmest that a vat may be worked at with pasted resist. M
const CoolForPaste = quantity.Temperature(30)

// Choose puts recipes in the order in which they fit, those that fit alike in their own: wool and silk into dithionite with little
// alkali or a ferment, cotton and linen into any; pasted resist into cold iron–lime or cool dithionite; for a closed room, a
// sensitive nose or children neither dithionite nor iron (C).
func Choose(all []recipe.Recipe, w Wanted) []Choice {
	rank := map[Fit]int{Fits: 0, FitsCare: 1, FitsNot: 2}
	out := make([]Choice, 0, len(all))
	for _, r := range all {
		c := Choice{Recipe: r, Fit: Fits}
		say := func(f Fit, evidence, form string, args ...any) {
			if c.Reasons = append(c.Reasons, Reason{fmt.Sprintf(form, args...), evidence}); rank[f] > rank[c.Fit] {
				c.Fit = f
			}
		}
		for _, f := range w.Fibres {
			fibreFits(r, f, say)
		}
		if w.Pasted {
			pasteFits(r, say)
		}
		placeFits(r, w, say)
		out = append(out, c)
	}
	sorted.By(out, func(a, b Choice) int { return cmp.Compare(rank[a.Fit], rank[b.Fit]) })
	return out
}

type saying func(f Fit, evidence, form string, args ...any)

// fibreFits says what a fresh or kept vat does to a fibre.
func fibreFits(r recipe.Recipe, f fibre.Fibre, say saying) {
	evidence := f.Facts().PH.Evidence
	verdict, words := liquor.State{Recipe: r}.Bears(f)
	words, _, _ = strings.Cut(words, ", which harms it")
	switch {
	case verdict == fibre.Refused:
		say(FitsNot, evidence, "%s", words)
	case verdict == fibre.Warned:
		say(FitsCare, evidence, "%s", words)
	case f != fibre.Unknown && len(r.Fibres) > 0 && !slices.Contains(r.Fibres, f.String()):
		say(FitsCare, "the recipe's own list", "the recipe is not for %s", f)
	}
}

// PasteFits is whether pasted resist holds in a vat of a recipe, and what is to be said of it.
func PasteFits(r recipe.Recipe) (fit Fit, words string) {
	fit = Fits
	pasteFits(r, func(f Fit, evidence, form string, args ...any) { fit, words = f, fmt.Sprintf(form, args...) })
	return fit, words
}

// pasteFits says whether pasted resist holds in a vat.
func pasteFits(r recipe.Recipe, say saying) {
	l := r.Liquor
	switch dithionite := r.Family == recipe.DithioniteSoda || r.Family == recipe.DithioniteLye; {
	case r.Family == recipe.IronLime && l.Aim <= CoolForPaste:
	case dithionite && l.Low <= CoolForPaste:
		at := l.Low.String() + wording.Either(l.Low == CoolForPaste, " and no warmer", ", not above "+CoolForPaste.String())
		say(FitsCare, "C", "keep it at %s: warm liquor softens the paste; hang the goods still, short dips", at)
	default:
		say(FitsNot, "C", "a resist of paste needs cold iron–lime or cool dithionite")
	}
}

// placeFits says what a place and the people at it rule out.
func placeFits(r recipe.Recipe, w Wanted, say saying) {
	sulfur := r.Family.SulfurReducer()
	if sulfur && w.Place == closedRoom {
		say(FitsNot, "C; S20, S26", "no sulfur reducer in a closed room: its gas does not leave")
	}
	if sulfur && w.Asthma {
		say(FitsNot, "S21, S26", "its gas brings on asthma")
	}
	switch {
	case w.Children && sulfur:
		say(FitsNot, "C", "no sulfur reducer where children dip")
	case w.Children && r.Family == recipe.IronLime:
		say(FitsNot, "C; supplier sheets", "iron sulfate poisons small children")
	case w.Class && sulfur:
		say(FitsCare, "C", "the teacher alone weighs and adds, before the class comes; anyone with asthma stays away")
	}
	if (w.Children || w.Class) && r.Liquor.Aim > classMost {
		say(FitsCare, "C", "a class dips at %s at most: let it cool", classMost)
	}
	if (w.Children || w.Class) && r.Liquor.Ready > quantity.Hours(12) {
		say(FitsCare, "C", "build it %s before", r.Liquor.Ready)
	}
}
