package load

import (
	"cmp"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
)

// Break is a stretch in which the hands are away, From included, To not.
type Break struct {
	From, To quantity.Span
	Why      string
}

// Pause is a standing still that the vat asks for: after so much work, empty for so long. Zero in either: none.
type Pause struct{ After, For quantity.Span }

// Indigo is the vat's balance of pure indigo. The zero Indigo is not reckoned with.
type Indigo struct {
	Holds quantity.Mass // what the liquor holds at the start of the plan; of a replan, less what is in the vat takes up
	Floor quantity.Mass // what stays in it: below this it gives no even blue
	Feed  quantity.Mass // pure indigo of one feed of reduced stock; 0: the plan does not feed
	Wait  quantity.Span // the vat stands empty for so long after a feed
	Feeds int           // at most so many, in each vat
}

// Limits are what a plan must keep. Times are spans from the start of the day.
type Limits struct {
	Capacity quantity.Mass            // dry goods in the vat at once; 0: no limit
	Most     int                      // pieces in the vat at once, to keep them apart; 0: no limit
	Vats     int                      // like vats side by side; 0 is one
	Hands    int                      // pairs of hands; 0: no limit
	Handling map[string]quantity.Span // one lowering or lifting by form; nil: UsualHandling
	Rest     Pause                    // of the vat
	Reheat   Pause                    // as the liquor's cooling asks: the heater never runs with goods or hands in
	Breaks   []Break
	Zero     time.Time     // when the plan's times begin, in the zone of the day: sentences say times of day by it; zero: from the start
	Latest   quantity.Span // every piece done, its final airing, rinses and souring in it; 0: no matter when
	Together bool          // like pieces of one person go in and come out as one
	Fair     bool          // fair turns (see Round), instead of dark first
	AtVat    int           // people with a piece in the vats at once; pieces of nobody do not count; 0: no limit
	Choice   string        // the id of the choice that is taken where the vat tires; "": the wished finish rules
	Indigo   Indigo
	Worth    quantity.Span // a replan that changes more than it must is taken only if it ends sooner by more than a fifth of this
	Effort   int           // steps of the search; 0: UsualEffort
	// Bears tells what the vat's liquor does to a fibre in a dip so long: a warning comes with the plan, a refusal is an error. nil: fine.
	Bears func(fibre.Fibre, quantity.Span) (fibre.Verdict, string)
	// Plain is the problem of --fixed-dips: capacity in weight, dips, airing, and hands and handling where they are given.
	// No rests, reheats, breaks, indigo, latest finish or most pieces, one vat; no time for final airing and rinses.
	Plain bool
}

// UsualEffort is the search's usual budget, in steps: each looks at one piece at one moment.
const UsualEffort = 1_200_000

// effort is the search's budget.
func (l Limits) effort() int { return cmp.Or(max(0, l.Effort), UsualEffort) }

// UsualHandling is the time for one lowering or lifting by form. M
func UsualHandling() map[string]quantity.Span {
	return map[string]quantity.Span{
		Skein: quantity.Seconds(30), Bound: quantity.Seconds(45),
		Garment: quantity.Seconds(60), Cloth: quantity.Seconds(90), Pasted: quantity.Seconds(90),
	}
}

// Usual are the usual limits of a fill: goods at 30 L a kilogram (C), one pair of hands, the usual handling (M), 1 h of
// rest after 3 h of work (S1), a replan only for more than 5 min (M).
func Usual(fill quantity.Volume) Limits {
	usual, _ := vessel.AtOnce(fill)
	return Limits{
		Capacity: usual, Hands: 1, Handling: UsualHandling(),
		Rest: Pause{After: quantity.Hours(3), For: quantity.Hours(1)}, Worth: quantity.Minutes(5),
	}
}

// plain is what the plain problem has of the limits.
func (l Limits) plain() Limits {
	if l.Plain {
		return Limits{Capacity: l.Capacity, Vats: 1, Hands: l.Hands, Handling: l.Handling, Together: l.Together, Fair: l.Fair,
			Worth: l.Worth, Effort: l.Effort, Bears: l.Bears, Plain: true}
	}
	if l.Handling == nil {
		l.Handling = UsualHandling()
	}
	l.Vats = max(1, l.Vats)
	return l
}

// The ids of choices.
const (
	ChoiceWeak = "weak" // no time is lost for a strong vat: the last dips may be weak
	ChoiceFull = "full" // no dip in a weak vat, or as few as can be, whatever it takes
	ChoiceFeed = "feed" // reduced stock is fed, and the vat waits
)

// PromisedDips is the most dips of a wish that stands outside the rounds of a day with longer ones.
const PromisedDips = 2
