// Package day is one working day at one vat as a pure state machine: what was opened, what the hands did, and what
// follows from it. It owns no clock and no disk: time is an input, and the same events always give the same state.
//
// The caller hands every event that Decide returns to Apply at once (the hands have acted already) and writes it to
// the book in that order; a day is what a fold of Apply over its events gives, and every prefix of a day is a day.
package day

import (
	"time"

	"example.org/vatside/model/quantity"
)

// Event is one thing that happened, in the order of Seq. At is day-time: it never runs back within a day.
type Event struct {
	Seq  int
	At   time.Time
	Boot string  // 8 hex figures of the boot id, empty where the platform has none
	Up   float64 // seconds of the boot clock at At, 3 decimals; without meaning when Boot is empty
	Body Body
}

// Body is what a kind of event carries besides its number and its time. The kinds are fixed for ever: the book is
// read by later versions. A kind that this version does not know is read as Unknown.
type Body interface {
	Kind() string
	Sentence(quantity.System) string
}

// Stepped is a body that belongs to a step of the plan.
type Stepped interface {
	Body
	StepNo() int
}

// Goods is a body that tells of one piece.
type Goods interface {
	Body
	PieceTag() string
}

// Presumed is a body that can have been recorded as planned, without a key.
type Presumed interface {
	Body
	IsAssumed() bool
}

// OfStep is the number of the step, from 1, that an act belongs to; 0 when it belongs to none.
type OfStep struct {
	Step int `toml:"step,omitzero"`
}

// StepNo is the number of the step.
func (s OfStep) StepNo() int { return s.Step }

// OfPiece names the piece.
type OfPiece struct {
	Tag string `toml:"tag"`
}

// PieceTag is the tag of the piece.
func (p OfPiece) PieceTag() string { return p.Tag }

// Assumption marks what was recorded as planned, without a key.
type Assumption struct {
	Assumed bool `toml:"assumed,omitempty"`
}

// IsAssumed tells whether nobody confirmed it.
func (a Assumption) IsAssumed() bool { return a.Assumed }

// The kinds of event. Each struct is one kind; its comment says what the hands did.
type (
	// Opened begins a day.
	Opened struct {
		How string `toml:"how"` // build, tend, go on or end
	}
	// StepBegun starts the timer of a step: the stirring, the simmering, the settling.
	StepBegun struct {
		OfStep
		What string `toml:"what,omitempty"`
	}
	// StepDone closes a step that has no kind of its own.
	StepDone struct {
		OfStep
		Do   string `toml:"do"`
		What string `toml:"what,omitempty"`
	}
	// StepSkipped leaves a step out.
	StepSkipped struct {
		OfStep
		Do     string `toml:"do"`
		What   string `toml:"what,omitempty"`
		Reason string `toml:"reason"`
	}
	// PowderWeighed is one scoop on the scale; a negative mass was taken out again.
	PowderWeighed struct {
		OfStep
		Powder   string        `toml:"powder"`
		Material string        `toml:"material"`
		Mass     quantity.Mass `toml:"mass"`
	}
	// PowderAdded is a powder that went into the vat or its stock jar.
	PowderAdded struct {
		OfStep
		Powder   string        `toml:"powder"`
		Material string        `toml:"material"`
		Mass     quantity.Mass `toml:"mass"`
		Into     string        `toml:"into,omitempty"`
		Why      string        `toml:"why,omitempty"`
	}
	// VatJudged is the dyer's word on the vat after a look: ready, or not yet. By is what it was judged by, one of Ways; empty
	// where nobody said.
	VatJudged struct {
		OfStep
		Ready bool   `toml:"ready"`
		By    string `toml:"by,omitempty"`
		Seen  string `toml:"seen,omitempty"`
		Of    string `toml:"of,omitempty"` // stock, end for the look before a vat's end, or empty for the vat
	}
	// Reading is what an instrument showed. Temp is the liquor's; PH was read at PHTemp. How full the vat is was read as
	// the distance from the rim down to the liquor, or as the litres in it.
	Reading struct {
		OfStep
		Temp     *quantity.Temperature `toml:"temp,omitempty"`
		PH       *float64              `toml:"ph,omitempty"`
		PHTemp   *quantity.Temperature `toml:"ph_temp,omitempty"`
		BelowRim *quantity.Length      `toml:"below_rim,omitempty"`
		Holds    *quantity.Volume      `toml:"holds,omitempty"`
		Of       string                `toml:"of,omitempty"` // stock, or empty for the vat
		With     string                `toml:"with,omitempty"`
	}
	// StripBegun is a glass strip pulled from the vat: from now on it is watched until it turns blue.
	StripBegun struct{}
	// StripTest is how long a glass strip or a wetted slip stayed yellow.
	StripTest struct {
		OfStep
		Stayed quantity.Span `toml:"stayed"`
		Colour string        `toml:"colour,omitempty"`
	}
	// SignSeen is something seen that tells of the vat's state.
	SignSeen struct {
		Sign string `toml:"sign"`
	}
	// VatCovered puts the lid or the sheet on.
	VatCovered struct {
		OfStep
		With string `toml:"with,omitempty"`
	}
	// VatUncovered takes it off.
	VatUncovered struct {
		OfStep
	}
	// FrothSkimmed moves the flower aside before a load.
	FrothSkimmed struct {
		OfStep
		Assumption
	}
	// Stirred is a stirring that ended.
	Stirred struct {
		OfStep
		For quantity.Span `toml:"for,omitzero"`
		Assumption
	}
	// Rested begins a rest of the vat.
	Rested struct {
		OfStep
		For quantity.Span `toml:"for,omitzero"`
	}
	// Settled is a settling that ended.
	Settled struct {
		OfStep
		For quantity.Span `toml:"for,omitzero"`
	}
	// HeaterOn begins heating in place. Power is that of the heater; zero: the one of the setup.
	HeaterOn struct {
		Power quantity.Power `toml:"power,omitzero"`
	}
	// HeaterOff ends it: off and unplugged.
	HeaterOff struct{}
	// ToppedUp is water that made up for what was lost, and its °C as it was poured; 0 where an old book does not say.
	ToppedUp struct {
		Water quantity.Volume      `toml:"water"`
		Temp  quantity.Temperature `toml:"temp,omitzero"`
	}
	// DrawnOff is liquor that was taken out of the vat, with all that is dissolved in it.
	DrawnOff struct {
		Liquor quantity.Volume `toml:"liquor"`
		Why    string          `toml:"why,omitempty"`
	}
	// Fed is food given to a living ferment. In old books it is also other powders given to any living vat.
	Fed struct {
		Powder   string        `toml:"powder"`
		Material string        `toml:"material"`
		Mass     quantity.Mass `toml:"mass"`
		Why      string        `toml:"why,omitempty"`
	}
	// StockDrawn is stock that went from its jar into the vat.
	StockDrawn struct {
		OfStep
		Stock quantity.Volume `toml:"stock"`
	}
	// Decanted is clear liquor drawn off its sludge.
	Decanted struct {
		Liquor quantity.Volume `toml:"liquor"`
		Why    string          `toml:"why,omitempty"`
	}
	// TimerStretched gives a running time more.
	TimerStretched struct {
		Timer string        `toml:"timer"`
		By    quantity.Span `toml:"by"`
	}
	// TimerCut takes from it.
	TimerCut struct {
		Timer string        `toml:"timer"`
		By    quantity.Span `toml:"by"`
	}
	// HelperChanged is who works at the vat now. Children are kept from powders, lye, hot water and a hot vat.
	HelperChanged struct {
		Who      string `toml:"who"`
		Children bool   `toml:"children,omitempty"`
	}
	// Talking says that who leads the day talks to the class from now on, or no longer. Meanwhile no piece is called to go in; all
	// else is.
	Talking struct {
		On bool `toml:"on"`
	}
	// WayChosen is the way that the timetable takes where the vat tires: weak, full or feed, as load.Choice has them.
	WayChosen struct {
		Way string `toml:"way"`
	}
	// HandsTold is how many pairs of hands are at the vat from now on, and how many people at most have a piece in it at once; 0: no matter.
	HandsTold struct {
		Hands  int `toml:"hands"`
		People int `toml:"people,omitzero"`
	}
	// PlaceChanged is where the vat stands now: outdoors, cross-draught, closed room. Of OfGoods it is where goods are finished,
	// and the vat stays where it is.
	PlaceChanged struct {
		Place string `toml:"place"`
		Of    string `toml:"of,omitempty"`
	}
	// VesselTold is what the vessel is made of, where the head does not say.
	VesselTold struct {
		Material string `toml:"material"`
	}
	// HotWork is an adult's word that goods go into a vat above 45 °C, with sticks or tongs; it holds until the vat is read again.
	HotWork struct {
		Temp   quantity.Temperature `toml:"temp"`
		Reason string               `toml:"reason"`
	}
	// Treated is one treatment of what was seen: its cause by the list of signs, and what was done. Wait passes before the
	// recheck.
	Treated struct {
		Cause string        `toml:"cause"`
		Do    string        `toml:"do"`
		Wait  quantity.Span `toml:"wait,omitzero"`
	}
	// Rechecked is what the look after a treatment says: better, the same or worse.
	Rechecked struct {
		Cause  string `toml:"cause"`
		Answer string `toml:"answer"`
	}
	// CautionAnswered is the first press before a step with powder, hot water, heater, acid or lifting.
	CautionAnswered struct {
		OfStep
		Caution string `toml:"caution"`
	}
	// Note is the dyer's own line.
	Note struct {
		Text string `toml:"text"`
	}
	// Corrected changes what an earlier event says; nothing is erased. Way is undone, confirmed or moved.
	Corrected struct {
		Of  int        `toml:"of"`
		Way string     `toml:"way"`
		To  *time.Time `toml:"to,omitempty"` // moved: when it really was
	}
	// ClockStepped is a difference between the wall clock and day-time; it moves no deadline.
	ClockStepped struct {
		By quantity.Span `toml:"by"` // wall minus day-time; may be negative
	}
	// Slept is a stretch in which the machine was suspended.
	Slept struct {
		For quantity.Span `toml:"for"`
	}
	// SoundChecked is the dyer's word on the sound check of the day: whether it was heard.
	SoundChecked struct {
		Heard bool `toml:"heard"`
	}
	// SoundFailed is a call that no player could sound. What it called for is not taken as planned.
	SoundFailed struct {
		Call string `toml:"call"`
		Why  string `toml:"why"`
	}
	// Closed ends the day; the vat lives on.
	Closed struct {
		Why string `toml:"why,omitempty"`
	}
	// VatEnded ends the vat: how much liquor went, at which pH, and where to, by the local authority's word.
	VatEnded struct {
		Why    string          `toml:"why,omitempty"`
		Liquor quantity.Volume `toml:"liquor,omitzero"`
		PH     *float64        `toml:"ph,omitempty"`
		Route  string          `toml:"route,omitempty"`
	}
	// Lost stands in the place of an event that the file had lost, so that the numbers go on; only `book mend` writes it, and it
	// changes nothing. Text is the block that could not be read; empty where nothing stood.
	Lost struct {
		Text string `toml:"text,omitempty"`
	}
	// Unknown is a kind of a later version, kept and shown as text.
	Unknown struct {
		Name string
		Text string // the block as it stands in the book
	}
)

// acidID is the acid of a vat's end, as its lots stand in the book. No recipe has it.
const acidID = "citric acid"
