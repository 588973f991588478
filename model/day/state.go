package day

import (
	"cmp"
	"slices"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
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
	TalkSince time.Time // since when no piece is called to go in; zero: each is called
	Way       string    // that the timetable takes where the vat tires; "": the wished finish rules
	HandsTold int       // pairs of hands at the vat, as it was said today; 0: as set up
	AtVat     int       // people that have a piece in the vat at once, at most; 0: no matter
	Hot       bool      // goods go in with sticks or tongs, until the vat is read again
	Treating  *Treating // a treatment whose recheck is to come
	Closed    bool
	Ended     bool
	Sound     Sound // what is known of how the calls are heard
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

// Sound is what is known of how the calls of the day are heard.
type Sound struct {
	At     time.Time // when the dyer answered the sound check; zero: not yet
	Heard  bool      // and heard it
	Failed string    // why a call could not be sounded since; empty: none failed
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
	StockPH *float64 // of the stock jar
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

// Listed is when it came onto the list today; zero: it was brought from an earlier day.
func (p Piece) Listed() time.Time { return p.listed }

// Rubbed is the last rubbing test of it today; nil: none.
func (p Piece) Rubbed() *CrockTested { return p.rubbed }

// says is a quantity in the day's units. Inlined where it is used it was 16 KB of the program.
//
//go:noinline
func (s State) says(q quantity.Quantity) string { return q.Format(s.Head.Setup.System()) }

// degrees is the unit in which the dyer reads a thermometer.
func (s State) degrees() string { return s.Head.Setup.System().DegreeUnit() }

// Piece finds a piece by its tag. Inlined where it is used it was 45 KB of the program.
//
//go:noinline
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

// Talks tells whether the class is talked to: then no piece is called to go in, and all else is.
func (s State) Talks() bool { return !s.TalkSince.IsZero() }

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

// weighedOf is what was weighed of a powder today; 0 when nothing was.
func (s State) weighedOf(powder string) quantity.Mass {
	return wording.Sum(s.weighings(powder), func(st Step) quantity.Mass { return max(s.Weighed(st.No), 0) })
}

// weighings are the steps of the plan that weigh a powder.
func (s State) weighings(powder string) []Step {
	return wording.Only(s.Plan, func(st Step) bool { return st.Do == recipe.Weigh && st.Powder == powder })
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

// InVat lists the pieces that hang in the liquor. Not inlined: that was 10 kB of the program.
//
//go:noinline
func (s State) InVat() []Piece {
	return wording.Only(s.Pieces, func(p Piece) bool { return p.Phase == InVat })
}

// LiveAny tells whether any piece of the day still wants hands.
func (s State) LiveAny() bool { return slices.ContainsFunc(s.Pieces, Piece.Live) }

// Tried are the treatments of the day, oldest first, with what the look after each said. A treatment without its look
// counts once another followed it.
func (s State) Tried() []signs.Tried { return s.tried }

// Seen are the signs that were seen since something was last given or done to the vat; those that nobody knows any more
// are left out.
func (s State) Seen() []signs.Sign { return s.seen }

// Milky tells whether the vat was last seen milky, and nothing was given beyond the build since.
func (s State) Milky() bool { return s.milky }

// Loads are the dips begun today, and those of them since the last strip.
func (s State) Loads() (all, sinceStrip int) { return s.loads, s.sinceStrip }

// LastGiven is when something was last given beyond the build; false for never today.
func (s State) LastGiven() (time.Time, bool) {
	for _, p := range slices.Backward(s.portions) {
		if p.Gave() {
			return p.At, true
		}
	}
	return time.Time{}, false
}

// Portions are the powders that were weighed and given today, in their order.
func (s State) Portions() []Portion { return s.portions }

// Samples are the looks at pieces and strips of today, in their order.
func (s State) Samples() []Sample { return s.samples }

// Ready is when the vat was first and last judged ready today; zero: it was not.
func (s State) Ready() (first, last time.Time) { return s.firstReady, s.readyAt }

// PHWith is what the vat's own pH was last read with today; empty where nobody said.
func (s State) PHWith() string { return s.phWith }

// End is how the vat ended, and when; nil: it lives.
func (s State) End() (how *VatEnded, at time.Time) { return s.end, s.endedAt }

// Treating is the treatment whose recheck is still to come.
type Treating struct {
	Cause string // by the list of signs
	Do    string
	Since time.Time
	Until time.Time // look again

	before, after *quantity.Span // the last strip before it and the last one since; nil: none
}

// strip is the treatment with one more strip pulled; nil where none is.
func (t *Treating) strip(stayed quantity.Span, at time.Time) *Treating {
	if t == nil {
		return nil
	}
	next := *t
	if at.After(t.Since) {
		next.after = &stayed
	} else {
		next.before = &stayed
	}
	return &next
}

// Strips are how long the last strip before it and the last one since stayed yellow; nil: none was pulled.
func (t Treating) Strips() (before, after *quantity.Span) { return t.before, t.after }

// Place is where the vat stands now: as set up, or as it was changed since.
func (s State) Place() string { return cmp.Or(s.Moved, s.Head.Setup.Place) }

// BenchPlace is where goods are finished: at the vat, or apart from it, as a full vat is not carried into a draught. It
// speaks for acid alone, never for what goes into the vat.
func (s State) BenchPlace() string { return cmp.Or(s.Apart, s.Place()) }

// Level is how much liquor is in a vat, by what was read of it, poured in and drawn off. What the air takes and goods carry
// out is not in it: only a reading tells of that.
type Level struct {
	In   quantity.Volume
	Read bool // by a reading, and what came and went since; else as it was filled
}

// liquid is what is reckoned of the liquor between two readings. It stands in no book.
type liquid struct {
	level  Level
	poured time.Time             // water came in since its °C was read
	mixed  *quantity.Temperature // what that water makes of the °C that was read

	drawn    bool            // liquor was drawn off today
	undrawn  Level           // before it was first
	decanted quantity.Volume // off its sludge today
}
