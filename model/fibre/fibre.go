// Package fibre holds what the vat needs to know of each fibre: how much room it takes, what water it holds, what alkali and
// heat it bears, how long it soaks and airs. Every figure carries its evidence, so that the dyer can see where it stands.
package fibre

import (
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Fibre is one of the fibres below. The zero Fibre is Unknown: a fibre not yet said; it has no facts.
type Fibre int

// The fibres known here. Those from Cotton to Viscose are cellulose, the last two protein.
const (
	Unknown Fibre = iota
	Cotton
	Linen
	Hemp
	Ramie
	Jute
	Viscose
	Silk
	Wool
)

// All is every known fibre, cellulose first.
func All() []Fibre { return []Fibre{Cotton, Linen, Hemp, Ramie, Jute, Viscose, Silk, Wool} }

// Class is what a fibre is made of, which decides what alkali it bears.
type Class int

// The classes of fibre. The zero Class is that of the Unknown fibre.
const (
	NoClass Class = iota
	Cellulose
	Protein
)

// String is "cellulose", "protein" or "unknown".
func (c Class) String() string { return wording.Named(c, "unknown", "cellulose", "protein") }

var names = [...]string{"unknown", "cotton", "linen", "hemp", "ramie", "jute", "viscose", "silk", "wool"}

// aliases are other words for the same fibres.
var aliases = map[string]Fibre{"flax": Linen, "rayon": Viscose}

// Parse reads the name of a fibre in any case; "flax" is linen and "rayon" viscose.
// An unknown name gives an *UnknownError, whose sentence lists the known ones.
func Parse(name string) (Fibre, error) {
	n := strings.ToLower(strings.TrimSpace(name))
	for _, f := range All() {
		if n == names[f] {
			return f, nil
		}
	}
	if f, ok := aliases[n]; ok {
		return f, nil
	}
	return Unknown, &UnknownError{Name: name}
}

// UnknownError is a name that no fibre has.
type UnknownError struct{ Name string }

// Error is one sentence with the known fibres.
func (e *UnknownError) Error() string {
	name := wording.Typed(e.Name)
	known := strings.Join(names[1:len(names)-1], ", ") + " and " + names[len(names)-1]
	if name == "" {
		return "no fibre is named; known are " + known
	}
	return name + " is not a fibre known here; known are " + known
}

// String is the fibre's name.
func (f Fibre) String() string {
	if f < 0 || int(f) >= len(names) {
		return names[Unknown]
	}
	return names[f]
}

// MarshalText gives the fibre's name; the Unknown fibre has none, and gives an empty text.
func (f Fibre) MarshalText() ([]byte, error) {
	if f.Class() == NoClass {
		return nil, nil
	}
	return []byte(f.String()), nil
}

// UnmarshalText reads what Parse reads; an empty text is Unknown.
func (f *Fibre) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*f = Unknown
		return nil
	}
	return wording.Read(f, b, Parse)
}

// Class tells cellulose from protein.
func (f Fibre) Class() Class {
	switch {
	case f >= Cotton && f <= Viscose:
		return Cellulose
	case f == Silk || f == Wool:
		return Protein
	}
	return NoClass
}

// Displacement is the liquor that dry goods push up by the fibre itself: mass over density, 0.65 L a kilogram for
// cotton and 0.76 for wool. For the Unknown fibre it is the most of all, wool's.
func (f Fibre) Displacement(dry quantity.Mass) quantity.Volume {
	if f.Class() == NoClass {
		f = Wool
	}
	return quantity.Litres(dry.Kilograms() / f.Facts().Density.Value)
}

// Carried is the water or liquor that goods hold besides, dripping from the hand: their pick-up.
func (f Fibre) Carried(dry quantity.Mass) quantity.Range[quantity.Volume] {
	return quantity.Map(f.Facts().PickUp.Value, func(r quantity.Ratio) quantity.Volume {
		return quantity.Litres(r.Of(dry).Kilograms()) // 1 kg of liquor is 1 L within 1 %
	})
}
