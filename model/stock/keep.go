package stock

import (
	"fmt"
	"math"
	"strings"
	"time"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

var month = quantity.Days(30.44)

// How long powders keep. All from memory (M); no published shelf life was found.
var (
	sealedKeeps = quantity.Days(365)     // a sulfur reducer keeps a year or two sealed,
	sealedMost  = quantity.Days(2 * 365) // and is tested from then on
	openedKeeps = 3 * month              // opened three to six months in a tight tin: tested from three on
	limeLooked  = 6 * month              // lime turns to chalk in air: said from then on
	ironLooked  = 3 * month              // copperas goes brown: said from then on
	trialHolds  = 3 * month              // a test that turned speaks for so long
)

// Due is what a tin wants, the most pressing first in the list.
type Due int

// What a tin can want.
const (
	Nothing  Due = iota
	Look         // look at it, and use more where it has aged
	Refill       // it is used up: say that it is gone
	ToTest       // test it before it is used
	ToWeigh      // the books drew more than it held
	ToHandIn     // hazardous waste
	Danger       // caked, warm or acrid
)

// Wants is what a tin wants now, and why: one clause, such as "opened 7 months ago".
func (t TinBalance) Wants(now time.Time) (Due, string) {
	switch t.Fitness() {
	case Off:
		return Nothing, ""
	case Unfit:
		return Danger, strings.Join(t.unfit(), ", ")
	case Failed:
		return ToHandIn, "it did not turn the test"
	}
	if t.Over >= half && t.Opened == nil {
		return ToWeigh, "the books drew on it while it was sealed"
	}
	if t.Over >= half {
		return ToWeigh, "the books drew more than it held"
	}
	since := t.Since(now)
	switch {
	case t.Left < half && t.Opened != nil:
		return Refill, "used up, as the books say"
	case t.fades() && t.testDue(now):
		return ToTest, since
	case t.Opened == nil:
		return Nothing, ""
	case t.Substance == recipe.SlakedLime && t.Age(now) >= limeLooked:
		return Look, since + ", and lime turns to chalk in air"
	case t.Substance == recipe.IronSulfate && t.Age(now) >= ironLooked:
		return Look, since + ", and copperas goes brown"
	}
	return Nothing, ""
}

// unfit is what was seen that forbids the use of a tin.
func (t Tin) unfit() []string {
	for i := len(t.Tests) - 1; i >= 0; i-- {
		if s := t.Tests[i].Seen; len(s) > 0 {
			return s
		}
	}
	return nil
}

// testDue tells whether a reducer is to be tested before it is used: opened three months ago or more, or sealed for more
// than two years, and no test since that speaks for it.
func (t Tin) testDue(now time.Time) bool {
	if n := len(t.Tests); n > 0 && t.Tests[n-1].Turned && quantity.Span(now.Sub(t.Tests[n-1].At)) < trialHolds {
		return false
	}
	if t.Opened == nil {
		return t.Age(now) >= sealedMost
	}
	return t.Age(now) >= openedKeeps
}

// Since is since when the tin is open, or stands sealed: "opened 7 months ago", "bought today".
func (t Tin) Since(now time.Time) string {
	if t.Opened == nil {
		return "bought " + ago(t.Age(now))
	}
	return "opened " + ago(t.Age(now))
}

// ago is a span as a dyer says it: days to two weeks, weeks to two months, months to two years, then years.
func ago(s quantity.Span) string {
	n, unit := math.Floor(s.Hours()/24), "day"
	switch days := n; {
	case days < 1:
		return "today"
	case days >= 730:
		n, unit = math.Floor(days/365.25), "year"
	case days >= 61:
		n, unit = math.Floor(days/30.44), "month"
	case days >= 14:
		n, unit = math.Floor(days/7), "week"
	}
	unit += wording.If(n != 1, "s")
	return fmt.Sprintf("%.0f %s ago", n, unit)
}

// StrengthNow is the share of a tin's strength that is likely left: the dyer's own figure where there is one, else what
// liquor.StrengthLeft reckons of an opened reducer (M), else all of it.
func (t Tin) StrengthNow(now time.Time) quantity.Range[quantity.Share] {
	switch s := t.Strength(); {
	case !t.fades():
		return quantity.Exactly(quantity.Share(1))
	case s < 1:
		return quantity.Exactly(s)
	case t.Opened == nil:
		return quantity.Exactly(quantity.Share(1))
	}
	return liquor.StrengthLeft(t.Age(now))
}

// worth is the share of its strength that a tin is counted for: what the dyer's own test says while it speaks for the tin,
// else, of an opened reducer, what its age leaves of its last own figure or of all; of anything else its strength.
func (t Tin) worth(now time.Time) quantity.Range[quantity.Share] {
	own := t.Strength()
	if !t.fades() || t.Opened == nil {
		return quantity.Exactly(own)
	}
	from := *t.Opened
	for _, x := range t.Tests {
		if !x.Turned {
			continue
		}
		if quantity.Span(now.Sub(x.At)) < trialHolds {
			return quantity.Exactly(own)
		}
		if x.Tested.Strength > 0 {
			from = x.At
		}
	}
	return quantity.Map(liquor.StrengthLeft(quantity.Span(now.Sub(from))), func(s quantity.Share) quantity.Share { return s * own })
}

// overdrawn is what to do where the books drew more than the tin could give.
func (t TinBalance) overdrawn(u quantity.System) string {
	if t.Opened == nil {
		return fmt.Sprintf("Open %s or weigh it: the books drew %s of %s, and it is sealed", t.ID, t.Over.Format(u), t.Name())
	}
	return fmt.Sprintf("Weigh %s: the books drew %s more than it held", t.ID, t.Over.Format(u))
}

// Words are all that is to be said of the tin: its Cautions, then how it is stored and what it must never meet.
func (t TinBalance) Words(now time.Time, u quantity.System) []string {
	return append(t.Cautions(now, u), t.Keep()...)
}

// Cautions are what the tin wants now first, then how it ages. Each is a clause without a full stop.
func (t TinBalance) Cautions(now time.Time, u quantity.System) []string {
	var out []string
	due, why := t.Wants(now)
	switch due {
	case Danger:
		out = append(out, why+": "+UnfitRule)
	case ToHandIn:
		out = append(out, why+": "+FailedRule)
	case ToWeigh:
		out = append(out, t.overdrawn(u))
	case ToTest:
		s := t.StrengthNow(now)
		words := why + ": test it before it is used"
		if t.Opened != nil && s.Low < s.High {
			words += fmt.Sprintf("; by its age %.0f–%.0f %% of its strength is left", s.Low.Percent(), s.High.Percent())
		}
		out = append(out, words)
	case Refill:
		out = append(out, why+": say that it is gone, or weigh it")
	case Look:
		out = append(out, why+": look at it, and use more of it")
	}
	switch {
	case t.fades() && t.Opened == nil && due == Nothing && t.Age(now) >= sealedKeeps:
		out = append(out, t.Since(now)+": sealed it keeps a year or two")
	case t.fades() && t.Opened != nil && due == Nothing:
		out = append(out, "opened it keeps three to six months, shut tight, with a dry spoon")
	}
	return out
}

// Keep is how the powder is stored and what it must never meet, by practice.ChemicalOf; nothing where no card says it.
func (t Tin) Keep() []string {
	c, ok := practice.ChemicalOf(t.Substance)
	if !ok {
		return nil
	}
	return wording.Filled(wording.If(c.Store != "", "store it "+c.Store), c.Never())
}

// Act is the one thing most pressing at the shelf.
type Act struct {
	Due      Due
	Buy      bool   // the thing is to buy
	Tin      string // the tin that it is about; empty for none
	Sentence string // such as "Test the dithionite of T2: opened 7 months ago"
}

// Why is the clause behind the act's colon, if it has one.
func (a Act) Why() string {
	_, why, _ := strings.Cut(a.Sentence, ": ")
	return why
}

// Pressing is the one thing most pressing: a tin that is a danger, one to hand in, to weigh, to test; then what is short;
// then what is used up or to be looked at. Of needs only those count of whose powder the dyer keeps account.
func Pressing(tins []TinBalance, needs []Need, now time.Time, u quantity.System) Act {
	best := Act{Sentence: "All there"}
	if len(tins) == 0 {
		best.Sentence = "Put the first tin on the list"
	}
	for _, t := range tins {
		due, why := t.Wants(now)
		if due <= best.Due {
			continue
		}
		best = Act{Due: due, Tin: t.ID, Sentence: t.sentence(due, why)}
		if due == ToWeigh {
			best.Sentence = t.overdrawn(u)
		}
	}
	if best.Due >= ToTest {
		return best
	}
	if n, short := wording.First(needs, func(n Need) bool { return n.Listed && !n.Enough() && !n.Perhaps() }); short {
		return Act{Buy: true, Sentence: fmt.Sprintf("Buy %s: %s short for the next vat", n.Powder.Material, n.Short.Format(u))}
	}
	return best
}

// sentence is what a tin wants, as an act.
func (t TinBalance) sentence(due Due, why string) string {
	of := "the " + t.Name() + " of " + t.ID
	switch due {
	case Danger:
		return "Do not use " + of + ": " + why
	case ToHandIn:
		return "Hand in " + of + " as hazardous waste"
	case ToTest:
		return "Test " + of + ": " + why
	case Refill:
		return t.ID + ", " + t.Name() + ": " + why
	}
	return "Look at " + of + ": " + why
}

// Says is one powder of a wished vat in words: "enough soda ash", "60 g of soda ash short", "perhaps not enough sodium
// dithionite: test T1".
func (n Need) Says(u quantity.System) string {
	switch {
	case n.Enough():
		return "enough " + n.Powder.Material
	case n.Perhaps():
		return "perhaps not enough " + n.Powder.Material + ": test " + strings.Join(n.Test, ", ")
	}
	return n.Short.Format(u) + " of " + n.Powder.Material + " short"
}

// Says is what could stand in, in words: "972 g of washing soda (T3) do the same, if it is the crystals: 1 kg are there".
func (s Stead) Says(u quantity.System) string {
	words := fmt.Sprintf("%s of %s (%s) would do the same", s.Needed.Format(u), s.Material, s.Tin)
	if substanceOf(s.Material) == recipe.SodaCrystals {
		words += fmt.Sprintf(", %.1f times the weight, if it is the clear crystals and not dried powder", crystals)
	}
	words += wording.If(s.There < s.Needed, "; "+s.There.Format(u)+" of it are there")
	return words
}
