package stock

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Event is one thing that happened to the shelf, in the order of Seq. At is when it was told.
type Event struct {
	Seq  int
	At   time.Time
	Body Body
}

// Body is what a kind of event carries besides its number and its time. The kinds are fixed for ever: the file is read by
// later versions.
type Body interface {
	Kind() string
	Sentence(quantity.System) string
}

// OfTin names the tin.
type OfTin struct {
	Tin string `toml:"tin"`
}

// The kinds of event. Each struct is one kind; its comment says what the hands did. When is there where an act was told
// afterwards: when it really was.
type (
	// Bought is a tin that came onto the shelf. Strength is the label's (indigo) or the dyer's own test; 0: not known.
	Bought struct {
		OfTin
		Material string          `toml:"material"`
		Holds    quantity.Mass   `toml:"holds"`
		Price    *quantity.Money `toml:"price,omitempty"` // of the whole tin, in the dyer's own currency
		Strength quantity.Share  `toml:"strength,omitzero"`
		When     *time.Time      `toml:"when,omitempty"`
	}
	// Opened is the tin broken open: from then on air and damp get at it.
	Opened struct {
		OfTin
		When *time.Time `toml:"when,omitempty"`
	}
	// Weighed is what is in the tin, without the tin itself.
	Weighed struct {
		OfTin
		Mass quantity.Mass `toml:"mass"`
	}
	// Tested is the guided test of a reducer, or what forbade it. Seen holds caked, warm, acrid; then nothing was tested.
	Tested struct {
		OfTin
		Turned   bool           `toml:"turned"`            // yellow-green within TestWait
		After    quantity.Span  `toml:"after,omitzero"`    // how long it took
		Strength quantity.Share `toml:"strength,omitzero"` // the dyer's own figure, 0: none
		Seen     []string       `toml:"seen,omitempty"`
	}
	// Discarded is a tin that left the shelf: used up, or handed in.
	Discarded struct {
		OfTin
		Why string `toml:"why"`
	}
	// Corrected takes an earlier event back; nothing is erased. Way is undone.
	Corrected struct {
		Of  int    `toml:"of"`
		Way string `toml:"way"`
	}
)

// Kinds are the bodies of this version, one of each.
func Kinds() []Body { return []Body{Bought{}, Opened{}, Weighed{}, Tested{}, Discarded{}, Corrected{}} }

// The kinds name the events in the file; they are part of its format, and once written never change.

func (Bought) Kind() string    { return "tin bought" }
func (Opened) Kind() string    { return "tin opened" }
func (Weighed) Kind() string   { return "tin weighed" }
func (Tested) Kind() string    { return "tin tested" }
func (Discarded) Kind() string { return "tin gone" }
func (Corrected) Kind() string { return "corrected" }

// The sentences say it in words, without a full stop.

func (b Bought) Sentence(u quantity.System) string {
	s := fmt.Sprintf("%s: %s of %s", b.Tin, b.Holds.Format(u), b.Material)
	if b.Price != nil {
		s += " for " + b.Price.String()
	}
	s += wording.If(b.Strength > 0, ", "+b.Strength.String()+" strong")
	return s
}

func (b Opened) Sentence(quantity.System) string { return b.Tin + " opened" }

func (b Weighed) Sentence(u quantity.System) string {
	return fmt.Sprintf("%s weighed: %s in it", b.Tin, b.Mass.Format(u))
}

func (b Tested) Sentence(quantity.System) string {
	switch {
	case len(b.Seen) > 0:
		return b.Tin + " is not fit for use: " + strings.Join(b.Seen, ", ")
	case !b.Turned:
		return fmt.Sprintf("%s tested: it did not turn yellow-green within %s", b.Tin, TestWait)
	}
	s := b.Tin + " tested: yellow-green" + wording.If(b.After > 0, " after "+b.After.String())
	s += wording.If(b.Strength > 0, ", "+b.Strength.String()+" strong")
	return s
}

func (b Discarded) Sentence(quantity.System) string { return b.Tin + " is gone: " + b.Why }

func (b Corrected) Sentence(quantity.System) string {
	return fmt.Sprintf("number %d taken back", b.Of)
}
