package day

import (
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
)

// PortionWay is where a portion went.
type PortionWay int

// The ways of a portion.
const (
	Weighed PortionWay = iota // one scoop on the scale
	Added                     // into the vat or its stock jar
	FedIn                     // as food: event Fed
)

// Portion is one powder weighed or given.
type Portion struct {
	Way      PortionWay
	At       time.Time
	Step     int    // of the plan; 0: beyond the build
	Powder   string // its id in the recipe
	Material string
	Mass     quantity.Mass // negative on the scale: taken off it again
}

// Gave tells whether it went into the vat or its stock jar beyond the build.
func (p Portion) Gave() bool { return p.Way == FedIn || p.Way == Added && p.Step == 0 }

// Sample is what a piece, or a strip cut off it, was seen to look like.
type Sample struct {
	At     time.Time
	Tag    string
	Looks  string // ParseLook reads it
	Dips   int    // after how many of its dips; of a strip 0 where nobody said
	Wet    bool
	Rinsed bool
	Strip  bool // a strip that was cut off, rinsed and dried
}

// facts are what the rules ask of the day so far and no other field of State has. An event that was taken back is not among
// them; one that did not fit is, since the hands did it.
type facts struct {
	portions   []Portion             // weighed and given, in their order
	samples    []Sample              // what was seen of pieces and strips, in its order
	readyAt    time.Time             // the vat was last judged ready
	firstReady time.Time             // and first
	phTemp     *quantity.Temperature // the °C at which that was; nil: not known
	phWith     string                // what the vat's own pH was last read with
	pulled     int                   // the event that pulled the last strip
	end        *VatEnded             // how the vat ended; nil: it lives
	endedAt    time.Time
	doneToday  []int         // the steps of the plan that were done today, not left out
	tried      []signs.Tried // the treatments of the day
	seen       []signs.Sign  // since something was last given or done to the vat
	milky      bool          // the last sign since something was given beyond the build was milky
	helperTold bool          // who is at the vat was said today
	yellow     yellowStrip
	unreduced  unreduced
	spentAt    time.Time // the vat was called oxidised at
	unsaid     []int     // places in Log of what was recorded as planned and never confirmed or moved
	entryBack  bool      // an entry or a skimming was taken back, and none was told since
	loads      int       // dips begun today
	sinceStrip int       // of them since the last strip
	brewing    Brewing   // of a ferment
	goodsAsked bool      // it was said that all that is to be dyed is on the list
}

// unreduced is what was last seen of a liquor whose indigo is not reduced, and when: nothing better was seen since, and no dip begun.
// The zero value: nothing of the kind.
type unreduced struct {
	seen string
	at   time.Time
}

// yellowStrip is the last strip that stayed yellow and that no blue one, an hour or more after it, has answered. The zero
// value: none.
type yellowStrip struct {
	stayed quantity.Span
	at     time.Time
}
