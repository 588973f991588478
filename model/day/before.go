package day

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/vessel"
)

// Prepared is a lot with what makes it fit for the vat. Scour is nil for goods that are scoured.
type Prepared struct {
	Lot
	Scour *practice.Scour
	Wet   practice.Wetting
}

// The kinds of what is ahead.
const (
	ToScour = "scour"
	ToWet   = "wet out"
	ToHeat  = "heat"
	ToBuild = "build"
	ToWarm  = "warm"
	ToLook  = "look"
	ToDye   = "dye"
)

// Ahead is one stretch of time before the first dip.
type Ahead struct {
	Slot
	Kind  string
	How   string // amounts, in the dyer's own units
	Check string // what tells that it is done; may be empty
}

// End is when it is over.
func (a Ahead) End() time.Time { return a.At.Add(a.For.Duration()) }

// Readying is all that lies between goods and powders and the first dip.
type Readying struct {
	Lots  []Prepared
	Ahead []Ahead // in order of time; the last is the first piece going in
	Ready time.Time
	Unfit []string // which fibres the fresh vat harms, and what to take instead
	// Warnings are what stands against the wished start: it is late, or the night's; Notes what is good to know.
	Warnings, Notes []string

	night bool // the scouring begins in the night
}

// Begin is when the hands have to begin.
func (r Readying) Begin() time.Time { return r.Ahead[0].At }

// Late is by how much the beginning is past; 0 where it is still to come.
func (r Readying) Late(now time.Time) quantity.Span {
	return quantity.Span(max(0, now.Sub(r.Begin())))
}

// From memory, one pair of hands; the dyer's own will differ.
const (
	bathHeats  = quantity.Span(30 * time.Minute) // a bath above 60 °C without a known stove
	bathFills  = quantity.Span(5 * time.Minute)  // one that hot water from the tap makes
	bathCools  = quantity.Span(20 * time.Minute) // till a hot one may be lifted or poured, and no wool is shocked
	scourRinse = quantity.Span(10 * time.Minute) // rinse after a bath
	bathHot    = quantity.Temperature(50)        // above it, it is left to cool
	onePot     = quantity.Volume(40)             // the most water that goods are scoured in together
	early      = 6                               // o'clock: scouring that would begin sooner is laid into the day before
	evening    = 21                              // o'clock: and is then over, or by midnight
)

// Before lays out what comes before a day's first dip, backwards from when it is wished: the goods wetted out, and before
// that scoured, so many baths as are likely, one pot after the other, goods of one kind together; the vat built or warmed,
// its water heated first by the stove or the heater. There is one pair of hands and one stove: no bath stands while the vat
// wants them, only in a wait of the build. Scouring that would begin before 6 o'clock is laid into the day before, if that is
// still to come. A head without a recipe is a day whose vat is not chosen: then only the goods.
func Before(h Head, lots []Lot, now, ready time.Time) (Readying, error) {
	r := Readying{Ready: ready}
	sys := h.Setup.System()
	chosen := h.Recipe.Family != ""
	var vat *quantity.Temperature
	if chosen {
		vat = &h.Recipe.Liquor.Aim
	}
	for _, l := range lots {
		p := Prepared{Lot: l}
		s, err := l.scour()
		if err != nil {
			return r, err
		}
		if !l.Scoured {
			p.State, p.Scour = s.State, &s
		}
		if p.Wet, err = practice.WetOut(l.Fibre, l.Dry, vat); err != nil {
			return r, err
		}
		r.Lots = append(r.Lots, p)
	}
	wet := r.wetOut(vat, sys)
	var busy []Slot
	if chosen {
		var err error
		if busy, err = r.atTheVat(h); err != nil {
			return r, err
		}
	}
	r.scouring(h.Setup, now, wet, busy)
	r.unfit(h)
	r.tooHeavy(h)
	r.Ahead = append(r.Ahead, Ahead{Slot: Slot{ready, 0, "the first piece goes in"}, Kind: ToDye, How: "wet, squeezed and opened out, edge first"})
	slices.SortStableFunc(r.Ahead, func(a, b Ahead) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.For, b.For)*-1)
	})
	if late := r.Late(now); late > 0 {
		r.Warnings = append(r.Warnings, fmt.Sprintf("to dye at %s it should have begun %s, %s ago; begun now the first piece goes in %s",
			Clock(ready), onTheDay(r.Begin(), ready), Lasting(late.Duration()), onTheDay(ready.Add(late.Duration()), ready)))
	}
	return r, nil
}

// onTheDay is "at 10:00", with its date where that is not the other's.
func onTheDay(at, other time.Time) string {
	if at.Format(time.DateOnly) == other.Format(time.DateOnly) {
		return "at " + Clock(at)
	}
	return "on " + at.Format("Mon 2 Jan") + " at " + Clock(at)
}

// Lasting is Long, but from two days on in days and hours: "7 days 3 h".
func Lasting(d time.Duration) string {
	if d < 48*time.Hour {
		return Long(d)
	}
	hours := int(d.Round(time.Hour) / time.Hour)
	if hours%24 == 0 {
		return fmt.Sprintf("%d days", hours/24)
	}
	return fmt.Sprintf("%d days %d h", hours/24, hours%24)
}

// BeforeFrom is Before for the first of the wished start and the same time on the days after it that can still be kept, and
// without a night's work: for a start that is wished for each day. Where none of a month can be kept, the last.
func BeforeFrom(h Head, lots []Lot, now, ready time.Time) (Readying, error) {
	for d := 0; ; d++ {
		r, err := Before(h, lots, now, ready.AddDate(0, 0, d))
		if err != nil || r.Late(now) == 0 && !r.night || d == 31 {
			return r, err
		}
	}
}

// NextHead is the head of the day after this one, as far as it is known what lies before it: the vat built, or at the step
// where its build stands.
func (s State) NextHead() Head {
	h := s.Head
	h.Opening.Built = h.Opening.Built || s.Vat.Ready || s.Step > len(s.Plan)
	if !h.Opening.Built {
		h.Opening.Step = s.Step
	}
	return h
}

// unfit tells which fibres do not bear the fresh vat.
func (r *Readying) unfit(h Head) {
	for _, f := range fibre.All() {
		has := slices.ContainsFunc(r.Lots, func(p Prepared) bool { return p.Fibre == f })
		if !has || h.Recipe.Family == "" || slices.Contains(h.Recipe.Fibres, f.String()) {
			continue
		}
		if _, words := f.BearsPH(quantity.PH(h.Recipe.Liquor.PHFresh)); words != "" {
			r.Unfit = append(r.Unfit, words+"; that is the pH of this recipe, freshly built")
		}
	}
}

// WithChildren says of a vat that is not for children's hands what to take instead; empty for any other, or for none.
func (h Head) WithChildren() string {
	what := ""
	switch h.Recipe.Family {
	case recipe.DithioniteSoda, recipe.DithioniteLye:
		what = "dithionite"
	case recipe.ThioureaDioxideSoda:
		what = "thiourea dioxide"
	case recipe.IronLime:
		what = "iron"
	default:
		return ""
	}
	if h.Recipe.Family == recipe.DithioniteLye {
		what += " and lye"
	}
	return "with children about take a sugar–lime or a ferment vat, not one with " + what + "; adults alone weigh and add, before the children come"
}

// Around is what the checklist goes by, as far as the head and the goods tell it.
func (h Head) Around(lots []Lot) practice.Circumstances {
	c := practice.Circumstances{
		Recipe: h.Recipe, Fill: h.Setup.Fill, Built: h.Opening.Built, Place: h.Setup.Place, Heater: h.Setup.Heater,
		Pieces: len(lots), System: h.Setup.System(),
	}
	if m, err := vessel.ParseMaterial(h.Setup.Material); err == nil {
		c.Material = m
	}
	for _, l := range lots {
		c.Fibres = append(c.Fibres, l.Fibre)
	}
	return c
}
