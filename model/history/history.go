// Package history is a vat over all its days: what was read of it, what its doses did, how it is kept alive, what it took
// and gave. It reads the days as they are in the book and reckons with model/outlook; nothing of it stands in a book.
package history

import (
	"cmp"
	"slices"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
)

// Day is one day of a vat, by its name in the book.
type Day struct {
	Name   string
	State  day.State
	Damage string // why its file is not whole, in a line; empty: it is
	Known  Known  // the colours that were reckoned of it; nil: each is reckoned when it is asked for
}

// Known are colours that were reckoned of a day as its events tell it, by what they are the colours of. Who keeps it beside a day
// keeps Reckoning with it.
type Known map[string]KnownColour

// KnownColour is one of them; None where nothing can be said.
type KnownColour struct {
	Lab  colour.Lab
	None bool
}

// Reckoning is raised when the blue of any piece, what its dips took, or the Past of the same days comes out otherwise than it did,
// so that nothing that an earlier version reckoned counts.
const Reckoning = 5

// colour is a colour of the day: one that is known, else as it is reckoned now.
func (d *Day) colour(of string, reckon func() (colour.Lab, bool)) (colour.Lab, bool) {
	if k, known := d.Known[of]; known {
		return k.Lab, !k.None
	}
	lab, ok := reckon()
	if d.Known != nil {
		d.Known[of] = KnownColour{lab, !ok}
	}
	return lab, ok
}

// Vat is a vat's days, the oldest first. It may lack the oldest: then what is said of its life holds from the first it has.
type Vat []Day

// Last is the newest day; false for a vat of no days.
func (v Vat) Last() (Day, bool) {
	if len(v) == 0 {
		return Day{}, false
	}
	return v[len(v)-1], true
}

// With is the vat with a day as it stands now in the place of the day of that name, or after them all.
func (v Vat) With(d Day) Vat {
	out := slices.Clone(v)
	i := slices.IndexFunc(out, func(o Day) bool { return o.Name == d.Name })
	if i < 0 {
		return append(out, d)
	}
	d.Damage = cmp.Or(d.Damage, out[i].Damage)
	out[i] = d
	return out
}

// Built is when the vat was first judged ready. Of a vat that was built before its first day here it is that day's
// opening, the latest that it can be. false while it is still to be built.
func (v Vat) Built() (time.Time, bool) {
	for i := range v {
		var before time.Time
		if i > 0 {
			before = v[i-1].State.At
		}
		if at, is := built(&v[i].State, i == 0, before); is {
			return at, true
		}
	}
	return time.Time{}, false
}

// built is when the vat of a day was first judged ready, if it was not on an earlier day, the last event of which was before.
func built(s *day.State, first bool, before time.Time) (time.Time, bool) {
	switch at, _ := s.Ready(); {
	case s.Head.Opening.Built && first:
		return s.Opened, true
	case s.Head.Opening.Built:
		return before, true // it was ready as that day ended
	case !at.IsZero():
		return at, true
	case len(s.Plan) > 0 && s.Step > len(s.Plan):
		return s.At, true
	}
	return time.Time{}, false
}

// roleOf is the role of a powder by the recipe of its day; by its material where the recipe does not have it.
func roleOf(r *recipe.Recipe, id, material string) recipe.Role {
	if p, ok := r.Powder(id); ok {
		return p.Role
	}
	switch (recipe.Powder{Material: material}).Substance() {
	case recipe.IndigoDye:
		return recipe.Indigo
	case recipe.Dithionite, recipe.ThioureaDioxide, recipe.Sulfoxylate, recipe.IronSulfate, recipe.ReducingSugar, recipe.Zinc:
		return recipe.Reducer
	case recipe.SodaAsh, recipe.SodaCrystals, recipe.BakingSoda, recipe.Potash, recipe.Lye, recipe.SlakedLime, recipe.Quicklime:
		return recipe.Alkali
	}
	return ""
}

// roleGiven is the role of what an event of a day by a recipe gave, empty where it gave nothing: of what is fed to a ferment everything
// that is none of its recipe's powders is food.
func roleGiven(r *recipe.Recipe, b day.Body) recipe.Role {
	switch b := b.(type) {
	case day.PowderAdded:
		return roleOf(r, b.Powder, b.Material)
	case day.Fed:
		if _, own := r.Powder(b.Powder); !own && r.Family == recipe.Ferment {
			return recipe.Food
		}
		return roleOf(r, b.Powder, b.Material)
	}
	return ""
}
