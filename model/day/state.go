package day

import (
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
)

// State is what a day is after its events so far. It is a value: Apply returns a new one and leaves the old as it was.
type State struct {
	Head      Head
	Plan      []Step
	Log       []Event   // as it was written; Corrected has it as it stands
	Seq       int       // the highest number of its events
	At        time.Time // of the last event
	Opened    time.Time
	Step      int       // number of the open step, from 1; len(Plan)+1 when all are behind
	StepSince time.Time // since when it is open
	Begun     time.Time // its own timer runs since; zero before it was begun
	Answered  time.Time // its caution was answered at; zero before
	Judged    time.Time // last "not yet" on the open step
	Given     []string  // cautions already given today
	Scoops    []Scoop
	Vat       Vat
	Pieces    []Piece
	Shifts    []Shift
	Assumed   int       // acts recorded as planned since the hands last answered
	RestSince time.Time // the rest of the vat, until RestUntil; zero when none runs
	RestUntil time.Time
	Said      string // the last caution answered that belongs to no step, and when
	SaidAt    time.Time
	Moved     string    // where the vat stands since it was changed today; empty: as set up
	Apart     string    // where goods are finished, if not at the vat
	Children  bool      // children are at the vat
	Hot       bool      // goods go in with sticks or tongs, until the vat is read again
	Treating  *Treating // a treatment whose recheck is to come
	Closed    bool
	Ended     bool
	liquid    liquid
	facts
	// Turn is whose turn it is, the next first, and Goes which pieces are lowered in one go, by the timetable of the day. They
	// are advice and stand in no book: without them the usual order holds, and each goes in alone. Advised sets them.
	Turn []string
	Goes [][]string

	held   []string  // the pieces that were called to go in at heldAt: at the last event, or when the advice changed
	heldAt time.Time // not before the last event
	looks  int       // times that the open step was judged not yet
	strips int       // strips pulled today by their own key

	stripJudged bool // the last strip was judged by: not yet

	fix     map[int]Corrected // what the log's corrections make of events, by number; nil: it has none
	misfits int               // events that did not fit
}

// Scoop is one weighing that counts towards a step's target.
type Scoop struct {
	Step int
	Mass quantity.Mass
}

// Shift is time given to a running timer, or taken from it.
type Shift struct {
	Timer string
	By    quantity.Span
}

// Vat is what is known of the liquor.
type Vat struct {
	Covered bool
	Ready   bool
	Heater  bool
	Sulfur  bool // a sulfur reducer went in, today or on an earlier day
	Alkali  bool
	Temp    *quantity.Temperature
	TempAt  time.Time
	StockT  *quantity.Temperature
	StockAt time.Time
	PH      *float64
	PHAt    time.Time
	Holds   *quantity.Volume // how much is in it, as read
	HoldsAt time.Time
	Strip   *quantity.Span
	StripAt time.Time
	Pulled  time.Time // a strip is watched since; zero: none
	Warmed  time.Time // last time that water, heat or cooling changed its temperature
	Skimmed time.Time
	Lifted  time.Time
	Work    time.Time // since when pieces go in without a rest
}

// Phase is where a piece is.
type Phase int

// The phases of a piece, in order.
const (
	Dry Phase = iota
	Wet
	InVat
	Airing
	Aired
	FinishedPiece
	Dropped
	Carried
)

// Piece is a piece of the day with all that happened to it.
type Piece struct {
	Tag   string
	Spec  PieceSpec
	Phase Phase
	Dips  int       // dips done, those of earlier days included
	Since time.Time // in the vat since, or airing since
	For   quantity.Span
	Past  []Dip

	Looked int // after how many dips the look that decides was last answered; 0: never

	listed  time.Time    // it came onto the list today; zero: it was brought
	handled time.Time    // anything was last done with it or said of it today
	rubbed  *CrockTested // the last rubbing test; nil: none today

	liftBack bool // the lift out of the dip that it is in was taken back

	Finishing Finishing
}

// Dip is one dip of a piece. EndSeq is the event that ended it.
type Dip struct {
	No      int
	Begun   time.Time
	Ended   time.Time
	Assumed bool
	EndSeq  int
}

// Live tells whether the piece still wants hands today.
func (p Piece) Live() bool { return p.Phase < FinishedPiece }

// MostDips bounds what is told or drawn dip by dip: far more than any piece has. A book may say any number.
const MostDips = 1000

// Want is the number of dips planned: as given, else the usual number for its depth (common practice), else 4.
func (p Piece) Want() int {
	if p.Spec.Dips > 0 {
		return p.Spec.Dips
	}
	if d, err := shade.ByName(p.Spec.Depth); err == nil {
		return d.Dips
	}
	return 4
}

// protein tells whether the fibre is hair or silk, which air sooner and take longer dips.
func (p Piece) protein() bool { return p.Spec.Fibre == "wool" || p.Spec.Fibre == "silk" }

// DipTime is one dip: as given, else by depth and fibre (common practice), else 5 min.
func (p Piece) DipTime() quantity.Span {
	if p.Spec.Dip > 0 {
		return p.Spec.Dip
	}
	if d, err := shade.ByName(p.Spec.Depth); err == nil {
		if p.protein() {
			return d.Protein
		}
		return d.Cellulose
	}
	return quantity.Minutes(5)
}

// AirTime is the airing after a dip: as given, else the longer of the dip and 10 min (5 for silk and wool, 20 for
// bound goods); after the last dip 30 min (20 for silk and wool, 2 h for bound goods). Common practice.
func (p Piece) AirTime(last bool) quantity.Span {
	least, final := quantity.Minutes(10), quantity.Minutes(30)
	switch {
	case p.Spec.Form == "bound":
		least, final = quantity.Minutes(20), quantity.Minutes(120)
	case p.protein():
		least, final = quantity.Minutes(5), quantity.Minutes(20)
	}
	if last {
		return final
	}
	if p.Spec.Air > 0 {
		return p.Spec.Air
	}
	return max(least, p.DipTime())
}

// Listed is when it came onto the list today; zero: it was brought from an earlier day.
func (p Piece) Listed() time.Time { return p.listed }

// Rubbed is the last rubbing test of it today; nil: none.
func (p Piece) Rubbed() *CrockTested { return p.rubbed }

// Name is the piece as it is called out: its tag and what it is.
func (p Piece) Name() string {
	if p.Spec.What == "" {
		return p.Tag
	}
	return p.Spec.What + " " + p.Tag
}

// Piece finds a piece by its tag.
func (s State) Piece(tag string) (Piece, bool) {
	for _, p := range s.Pieces {
		if p.Tag == tag {
			return p, true
		}
	}
	return Piece{}, false
}

// Open is the step that is open, and false when all are behind.
func (s State) Open() (Step, bool) {
	if s.Step < 1 || s.Step > len(s.Plan) {
		return Step{}, false
	}
	return s.Plan[s.Step-1], true
}

// Weighed is what the scale holds for a step so far.
func (s State) Weighed(step int) quantity.Mass {
	var sum quantity.Mass
	for _, sc := range s.Scoops {
		if sc.Step == step {
			sum += sc.Mass
		}
	}
	return sum
}

// weighedOf is what was weighed of a powder today, and false when nothing was.
func (s State) weighedOf(powder string) (quantity.Mass, bool) {
	var sum quantity.Mass
	found := false
	for _, st := range s.Plan {
		if st.Do == doWeigh && st.Powder == powder {
			if m := s.Weighed(st.No); m > 0 {
				sum, found = sum+m, true
			}
		}
	}
	return sum, found
}

// shift is what the dyer gave a timer, less what was taken.
func (s State) shift(timer string) time.Duration {
	var sum quantity.Span
	for _, sh := range s.Shifts {
		if sh.Timer == timer {
			sum += sh.By
		}
	}
	return sum.Duration()
}

// InVat lists the pieces that hang in the liquor.
func (s State) InVat() []Piece {
	var in []Piece
	for _, p := range s.Pieces {
		if p.Phase == InVat {
			in = append(in, p)
		}
	}
	return in
}

// LiveAny tells whether any piece of the day still wants hands.
func (s State) LiveAny() bool {
	for _, p := range s.Pieces {
		if p.Live() {
			return true
		}
	}
	return false
}
