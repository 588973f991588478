package day

import (
	"slices"
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
	portions   []Portion // weighed and given, in their order
	samples    []Sample  // what was seen of pieces and strips, in its order
	readyAt    time.Time // the vat was last judged ready
	firstReady time.Time // and first
	phWith     string    // what the vat's own pH was last read with
	pulled     int       // the event that pulled the last strip
	end        *VatEnded // how the vat ended; nil: it lives
	endedAt    time.Time
	doneToday  []int         // the steps of the plan that were done today, not left out
	tried      []signs.Tried // the treatments of the day
	seen       []signs.Sign  // since something was last given or done to the vat
	milky      bool          // the last sign since something was given beyond the build was milky
	helperTold bool          // who is at the vat was said today
	yellow     yellowStrip
	spentAt    time.Time // the vat was called oxidised at
	unsaid     []int     // places in Log of what was recorded as planned and never confirmed or moved
	loads      int       // dips begun today
	sinceStrip int       // of them since the last strip
}

// yellowStrip is the last strip that stayed yellow and that no blue one, an hour or more after it, has answered. The zero
// value: none.
type yellowStrip struct {
	stayed quantity.Span
	at     time.Time
}

// learn takes what an event that stands tells.
func (s *growing) learn(e Event) {
	if p, ok := e.Body.(Presumed); ok && p.IsAssumed() {
		s.unsaid = append(s.unsaid, len(s.Log)-1)
	}
	switch b := e.Body.(type) {
	case Opened:
		s.seen = nil
	case StepDone:
		if b.Step >= 1 && b.Step <= len(s.Plan) && !slices.Contains(s.doneToday, b.Step) {
			s.doneToday = append(s.doneToday, b.Step)
		}
		if b.Do == string(DoSpent) {
			s.spentAt = e.At
		}
	case PowderWeighed:
		s.portions = append(s.portions, Portion{Weighed, e.At, b.Step, b.Powder, b.Material, b.Mass})
	case PowderAdded:
		s.portions = append(s.portions, Portion{Added, e.At, b.Step, b.Powder, b.Material, b.Mass})
		s.seen, s.milky = nil, s.milky && b.Step != 0
	case Fed:
		s.portions = append(s.portions, Portion{FedIn, e.At, 0, b.Powder, b.Material, b.Mass})
		s.seen, s.milky = nil, false
	case SignSeen:
		if sign, ok := b.Known(); ok {
			s.seen = append(s.seen, sign)
		}
		s.milky = b.Sign == "milky"
	case Treated:
		s.seen, s.tried = nil, append(s.tried, signs.Tried{Cause: b.Cause})
	case Rechecked:
		s.seen = nil
		s.answer(b)
	case HelperChanged:
		s.helperTold = true
	case VatJudged:
		if b.Ready && b.Of == "" {
			if s.readyAt = e.At; s.firstReady.IsZero() {
				s.firstReady = e.At
			}
		}
	case Reading:
		if b.PH != nil && b.Of != "stock" {
			s.phWith = b.With
		}
	case StripTest:
		s.sinceStrip = 0
		switch {
		case b.Stayed > 0:
			s.yellow = yellowStrip{b.Stayed, e.At}
		case e.At.Sub(s.yellow.at) >= airOff.Duration():
			s.yellow = yellowStrip{}
		}
	case DipBegun:
		s.loads++
		s.sinceStrip++
	case SwatchJudged:
		s.samples = append(s.samples, Sample{At: e.At, Tag: b.Swatch, Looks: b.Looks, Dips: b.Dips, Rinsed: true, Strip: true})
	case VatEnded:
		s.end, s.endedAt = &b, e.At
	}
}

// answer puts what the look after a treatment said to the treatment.
func (s *growing) answer(b Rechecked) {
	n := len(s.tried)
	if n == 0 || s.tried[n-1].Cause != b.Cause {
		return
	}
	for _, a := range []signs.Answer{signs.Better, signs.Same, signs.Worse} {
		if a.String() == b.Answer {
			s.tried[n-1].Answer = a
		}
	}
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
