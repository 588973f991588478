package rehearse

import (
	"math"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// The end of the vat: what the acid does, by its three equivalents.
const (
	citricMole    = 192.12 // g/mol
	citricCharges = 3
)

// end leads the vat through the steps to its end.
func (k keeper) end(a day.Act, now time.Time) (time.Duration, day.Command, bool) {
	s, st := k.s, a.Step
	left, _ := a.Left(now)
	since := func(match func(day.Body) bool) bool {
		at := k.last(match)
		return !at.IsZero() && !at.Before(s.StepSince) && !at.Before(s.Opened)
	}
	switch {
	case s.Vat.TempAt.IsZero():
		return k.thermometer(3*time.Minute, true)
	case a.Caution != "":
		return 10 * time.Second, day.Done{}, true
	case st.Do == day.DoSpent:
		return k.spent(left)
	case left > 0 && st.Do == recipe.Settle:
		return k.night()
	case left > 0:
		return 0, nil, false
	case st.Do == day.DoDecant && !since(func(b day.Body) bool { _, ok := b.(day.Decanted); return ok }):
		return record(25*time.Minute, day.Decanted{Liquor: s.Head.Setup.Fill * 9 / 10, Why: "off the pigment"})
	case st.Do == day.DoAcid:
		return k.acid()
	case st.Do == day.DoEnd:
		return record(20*time.Minute, day.VatEnded{Why: "used up", Liquor: s.Head.Setup.Fill * 9 / 10, Route: "the foul sewer, as the water utility said"})
	}
	return 2 * time.Minute, day.Done{}, true
}

// spent looks whether the vat has stayed blue: the first look comes too soon.
func (k keeper) spent(left time.Duration) (time.Duration, day.Command, bool) {
	s := k.s
	not := k.count(func(b day.Body) bool { j, ok := b.(day.VatJudged); return ok && !j.Ready })
	free := not == 0
	since := wording.Either(!s.Judged.IsZero(), s.Judged, s.StepSince)
	switch {
	case left > 0:
		return 0, nil, false
	case !s.Vat.StripAt.After(since) && free:
		return record(time.Minute, day.StripTest{Stayed: quantity.Span(10 * time.Second), Colour: "yellow at first"})
	case !s.Vat.StripAt.After(since):
		return record(time.Minute, day.StripTest{Colour: "blue at once"})
	case free:
		return 20 * time.Second, day.Judge{Ready: false, Seen: "green below the surface: whisked again"}, true
	}
	return 20 * time.Second, day.Judge{Ready: true, Seen: "blue to the floor"}, true
}

// acid reads the pH, and brings it down lot by lot.
func (k keeper) acid() (time.Duration, day.Command, bool) {
	given, read := quantity.Mass(0), false
	for _, e := range k.s.Log {
		switch b := e.Body.(type) {
		case day.PowderAdded:
			given, read = given+b.Mass, false
		case day.Reading:
			if b.PH != nil {
				given, read = 0, !e.At.Before(k.s.Answered)
			}
		}
	}
	fill := k.s.Head.Setup.Fill
	acid := quantity.MillimolesPerLitre(given.Per(fill).GramsPerLitre() / citricMole * citricCharges * 1000)
	switch {
	case !read:
		o := k.sight(0)
		v := math.Round(float64(k.ph(o, acid))*100) / 100
		return record(5*time.Minute, day.Reading{PH: &v, With: "meter"})
	case *k.s.Vat.PH > 8.5:
		return 10 * time.Minute, day.Done{}, true
	}
	return time.Minute, day.Done{}, true
}
