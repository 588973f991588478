package stock

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// Tin is one tin, bag or jar of a powder with all that happened to it.
type Tin struct {
	ID        string // short and stable, such as T1
	Material  string // as the dyer said it
	Substance recipe.Substance
	Form      recipe.Form   // of indigo: pre-reduced or powder, told from the material
	Holds     quantity.Mass // when bought
	Price     *quantity.Money
	Labelled  quantity.Share // strength as told when it was bought; 0: not told
	Bought    time.Time
	Opened    *time.Time // nil: sealed
	Weighings []Weighing // in their order; none: as bought
	Tests     []Test     // in their order
	Gone      *Gone      // nil: on the shelf
}

// Weighing is what was in the tin.
type Weighing struct {
	At   time.Time
	Mass quantity.Mass
}

// Test is one guided test, or what forbade it.
type Test struct {
	At time.Time
	Tested
}

// Gone is when a tin left the shelf, and why.
type Gone struct {
	At  time.Time
	Why string
}

// Fitness is whether a tin may be used.
type Fitness string

// The states of a tin.
const (
	Sealed Fitness = "sealed"
	Open   Fitness = "opened"
	Unfit  Fitness = "unfit"  // caked, warm or acrid: neither tested nor used
	Failed Fitness = "failed" // the test did not turn: hazardous waste
	Off    Fitness = "gone"
)

// Fitness is the state that the tin is in. The last test rules: a tin that was unfit stays so.
func (t Tin) Fitness() Fitness {
	if t.Gone != nil {
		return Off
	}
	if slices.ContainsFunc(t.Tests, func(x Test) bool { return len(x.Seen) > 0 }) {
		return Unfit
	}
	if n := len(t.Tests); n > 0 && !t.Tests[n-1].Turned {
		return Failed
	}
	if t.Opened == nil {
		return Sealed
	}
	return Open
}

// Usable tells whether powder may be taken from the tin.
func (t Tin) Usable() bool { f := t.Fitness(); return f == Sealed || f == Open }

// LastWeighed is what was in the tin when it was last weighed, and when: as bought where it never was.
func (t Tin) LastWeighed() (quantity.Mass, time.Time) {
	if n := len(t.Weighings); n > 0 {
		return t.Weighings[n-1].Mass, t.Weighings[n-1].At
	}
	return t.Holds, t.Bought
}

// Strength is the active share of the powder: by the dyer's last own figure, else as told when it was bought, else 1; of
// indigo without a label 0, which stands for the recipe's own.
func (t Tin) Strength() quantity.Share {
	for i := len(t.Tests) - 1; i >= 0; i-- {
		if s := t.Tests[i].Tested.Strength; s > 0 {
			return s
		}
	}
	if t.Labelled > 0 || t.Substance == recipe.IndigoDye {
		return t.Labelled
	}
	return 1
}

// Age is how long the tin has been open, or since when it has stood sealed; never below zero.
func (t Tin) Age(now time.Time) quantity.Span {
	return max(0, quantity.Span(now.Sub(wording.Told(t.Opened, t.Bought))))
}

// LastPaid is the tin of a draw's powder that was bought last of those whose price was told; false where there is none.
func LastPaid(tins []Tin, d history.Draw) (Tin, bool) {
	s := cmp.Or(d.Substance, substanceOf(d.Material))
	last, found := Tin{}, false
	for _, t := range tins {
		if t.Price != nil && t.Holds > 0 && t.same(d.Material, s, formOf(d.Material)) && (!found || !t.Bought.Before(last.Bought)) {
			last, found = t, true
		}
	}
	return last, found
}

// Name is the powder as it is called at the shelf: dithionite for sodium dithionite, else the material.
func (t Tin) Name() string {
	return wording.Either(t.Substance == recipe.Dithionite, "dithionite", t.Material)
}

// fades tells of a sulfur reducer: it loses strength in the tin, and can be tested.
func (t Tin) fades() bool { return recipe.Powder{Material: t.Material}.SulfurReducer() }

func substanceOf(material string) recipe.Substance {
	return recipe.Powder{Material: material}.Substance()
}

// formOf tells the form of indigo from its name; one never stands in for the other.
func formOf(material string) recipe.Form {
	switch {
	case substanceOf(material) != recipe.IndigoDye:
		return ""
	case strings.Contains(strings.ToLower(material), "reduced"):
		return recipe.PreReduced
	}
	return recipe.PowderForm
}

// same tells whether a tin holds what a recipe or a book calls by a name: the same substance, of indigo in the same form;
// of what has no substance of its own one name must hold the other ("bran", "wheat bran").
func (t Tin) same(material string, s recipe.Substance, f recipe.Form) bool {
	if t.Substance != s {
		return false
	}
	if s != recipe.Other {
		return t.Form == f
	}
	a, b := strings.ToLower(strings.TrimSpace(t.Material)), strings.ToLower(strings.TrimSpace(material))
	return a != "" && b != "" && (strings.Contains(a, b) || strings.Contains(b, a))
}
