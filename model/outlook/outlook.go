// Package outlook tells how the liquor of a day stands and where it goes: its °C, its pH, its reducer, its indigo, each
// with how it is known. It reads the events of the day, reckons with model/water and model/liquor between them, and lets
// every reading correct the reckoning.
package outlook

import (
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/water"
	"example.org/vatside/model/wording"
)

// Known is how a figure is known.
type Known int

// The ways of knowing. Unknown is a figure that cannot be told at all.
const (
	Unknown  Known = iota
	Measured       // read at the vat just now
	Reckoned       // from a reading or a weighing, by physics or stoichiometry
	Guessed        // from common practice or memory; nothing of this vat was read
)

// Mark is the sign behind a figure: = measured, ~ reckoned, ? guessed.
func (k Known) Mark() string { return wording.Named(k, "", "=", "~", "?") }

// String is the word.
func (k Known) String() string { return wording.Named(k, "unknown", "measured", "reckoned", "guessed") }

// fresh is how long a reading counts as the vat's present state.
const fresh = 10 * time.Minute

// horizon is how far ahead the °C is reckoned, where no wait is longer; farthest of the longest wait.
const (
	horizon  = 12 * time.Hour
	farthest = 14 * 24 * time.Hour
)

// ahead is how far ahead pH and reducer are told.
const ahead = 4 * time.Hour

// Outlook is all that is known of the liquor at an instant. The zero Outlook knows nothing: an empty vessel.
type Outlook struct {
	Now     time.Time
	Empty   bool // nothing is filled in yet, or it has ended
	Heat    Heat
	PH      PH
	Reducer Reducer
	Indigo  Indigo
}

// At is a temperature at an instant.
type At struct {
	When time.Time
	Temp quantity.Temperature
}

// Spread is a temperature to come.
type Spread struct {
	When time.Time
	Temp quantity.Range[quantity.Temperature]
}

// Heat is the °C of the liquor, from the day's first reading to twelve hours ahead, or to the end of a longer wait. Without a measured
// vessel nothing is forecast.
type Heat struct {
	Known          Known
	Now            quantity.Temperature
	ReadAt         time.Time // the last reading; zero where there is none today
	AsRead         bool      // Now is what was read at ReadAt, and not reckoned on
	Low, Aim, High quantity.Temperature
	Far            time.Duration  // how far ahead it is told; 0 without a forecast
	Kept           bool           // a thermostat keeps it above Low
	Below          time.Time      // when it falls below Low as it stands; zero: not within Far, or it is already
	Surely         time.Time      // of a long wait: by when it is below Low whatever the thermometer, the air and the losses; zero: that is not sure within Far
	Perhaps        time.Time      // the same: from when on it may be; zero: it is not within Far
	Long           bool           // it is told for a long wait, and with how sure it is
	Lidded         time.Time      // the same with the lid on; zero where the lid is on, or as Below
	LiddedHolds    bool           // with the lid on it stays above Low as far ahead as Far
	Heater         quantity.Power // of the setup
	Back           quantity.Span  // how long that heater takes from now back to Aim; 0: warm enough, or never
	Fitted         water.Fitted   // what the day's readings say of its losses
	Past           []At
	Readings       []At
	Coming         []Spread
	UnderLid       []At
}

// PH is the alkalinity of the liquor.
type PH struct {
	Known  Known
	Now    quantity.Range[quantity.PH]
	ReadAt time.Time
	Later  quantity.Range[quantity.PH] // at LaterAt, if no alkali is added
	At     time.Time
}

// Reducer is how long the free reducer lasts.
type Reducer struct {
	Known   Known
	Left    quantity.Range[quantity.Mass]
	Sulfite quantity.Range[quantity.Molarity] // that what is spent left
	Rest    quantity.Range[quantity.Span]     // left alone under the lid
	Work    quantity.Range[quantity.Span]     // in work
	Longer  []liquor.Change                   // what would lengthen it most
	Why     string                            // why nothing can be reckoned, for families that no budget fits
}

// Indigo is what is left to dye with.
type Indigo struct {
	Known    Known
	Left     quantity.Range[quantity.Mass]
	PerLitre quantity.Range[quantity.Concentration]
	Blue     quantity.Range[quantity.Mass] // of it, what air turned blue again once the reducer was gone
	Capacity []liquor.Capacity
	Feed     string         // when to feed; empty: not yet
	Feeding  liquor.Feeding // how much of what a vat as strong as the recipe can give is used
}

// Of is the outlook of a day at an instant that is not before its last event.
func Of(s day.State, now time.Time) Outlook {
	o := Outlook{Now: now}
	if !day.Filled(s) || s.Ended {
		o.Empty = true
		return o
	}
	o.Heat = heatOf(s, now)
	balance(s, now, &o)
	if s.Head.Setup.Ending && s.Step > 1 { // air is whisked in: what reduces is looked at, not reckoned, and nobody dyes in it
		o.Reducer = Reducer{Why: "it is being ended"}
		o.Indigo.Capacity, o.Indigo.Feed, o.Indigo.Feeding = nil, "", liquor.Feeding{}
	}
	return o
}
