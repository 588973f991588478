package day

import (
	"fmt"
	"math"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// PieceSpec is what the dyer says of a piece: DESIGN's form, less the tag.
type PieceSpec struct {
	What  string        `toml:"what,omitempty"`
	Fibre string        `toml:"fibre"`
	Dry   quantity.Mass `toml:"dry"`
	About bool          `toml:"about,omitempty"` // the dry weight is a guess
	Depth string        `toml:"depth,omitempty"`
	Dips  int           `toml:"dips,omitzero"`
	Rung  int           `toml:"rung,omitzero"`  // of the vat's ladder, instead of a depth
	Lab   [3]float64    `toml:"lab,omitzero"`   // or a colour, D65 and 2°
	Like  string        `toml:"like,omitempty"` // or a piece of the book, vat/day/tag
	Form  string        `toml:"form,omitempty"`
	Work  string        `toml:"work,omitempty"`
	Who   string        `toml:"who,omitempty"`
	From  string        `toml:"from,omitempty"` // its person comes then, such as 10:30: the timetable waits for that
	Till  string        `toml:"till,omitempty"` // its person leaves then, such as 15:00: the timetable has its last lift by then, if it can
	Demo  bool          `toml:"demo,omitempty"` // shown to all: its first dip comes before every other, and alone
	Dip   quantity.Span `toml:"dip,omitzero"`
	Air   quantity.Span `toml:"air,omitzero"`
	Had   int           `toml:"had,omitzero"`    // dips it brought from an earlier day
	HadOf quantity.Span `toml:"had_of,omitzero"` // how long each of them was, in the mean
}

// wished checks the ways of saying a blue besides a depth's name.
func (p PieceSpec) wished() error {
	if p.Rung < 0 || p.Rung > 30 {
		return fmt.Errorf("a rung is one of 1 to 30, not %d", p.Rung)
	}
	if v, off := wording.First(p.Lab[:], func(v float64) bool { return math.IsNaN(v) || math.Abs(v) > 160 }); off {
		return fmt.Errorf("%g is no figure of a colour", v)
	}
	return nil
}

// Colour is the colour that a piece is wished to have, where one was said.
func (p PieceSpec) Colour() (colour.Lab, bool) {
	return colour.Lab{L: p.Lab[0], A: p.Lab[1], B: p.Lab[2]}, p.Lab != [3]float64{}
}
