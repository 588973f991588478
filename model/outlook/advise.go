package outlook

import (
	"cmp"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
)

// How long a reading or a strip speaks of the vat as it is.
const (
	pHSpeaks    = 12 * time.Hour
	stripSpeaks = 2 * time.Hour
)

// Advise is the one next thing for the vat of a day, from its outlook and what was read of it. What was given last is let
// work first: until its time is over the advice is to wait. Fed is how long ago a ferment vat got its last food, by its
// earlier days; nil where they do not know, or are not read.
func Advise(s day.State, o Outlook, now time.Time, fed *quantity.Span) liquor.Advice {
	n := liquor.Now{
		Recipe: s.Head.Recipe, Fill: holds(s), GivenToday: map[string]quantity.Mass{}, System: s.Head.Setup.System(),
		HandsIn: len(s.InVat()) > 0, HeaterOn: s.Vat.Heater, PHError: 2 * pHError(s),
		Heater: quantity.Watts(s.Head.Setup.Heater.Watts() * reaches.Fraction()),
	}
	n.Building, n.Ending, n.Ended = stage(s)
	n.Choking = slices.ContainsFunc(s.Seen(), func(x signs.Sign) bool { return x.ID == signs.Choking })
	if n.SinceFood = SinceFood(s, now); n.SinceFood == nil {
		n.SinceFood = fed
	}
	if o.Heat.Known != Unknown {
		t := o.Heat.Now
		n.Temp = &t
	}
	for _, p := range s.Pieces {
		if f, err := fibre.Parse(p.Spec.Fibre); err == nil && p.Live() && !slices.Contains(n.Goods, f) {
			n.Goods = append(n.Goods, f)
		}
	}
	given, after := lastGiven(s, n.GivenToday)
	if s.Vat.PH != nil && !s.Vat.PHAt.IsZero() && s.Vat.PHAt.After(given) && now.Sub(s.Vat.PHAt) <= pHSpeaks {
		p := quantity.PH(*s.Vat.PH)
		n.PH = &p
	}
	if s.Vat.Strip != nil && s.Vat.StripAt.After(given) && now.Sub(s.Vat.StripAt) <= stripSpeaks {
		n.Strip = s.Vat.Strip
	}
	n.Milky = s.Milky()
	if till := worksTill(s, given); after && now.Before(till) && !n.Choking && !n.Ending && n.Ended == "" {
		when := day.DateOf(till, now)
		return liquor.Advice{
			Do: liquor.DoWait, Sentence: "let the dose work till " + when, Why: "one thing at a time: what was given shows only then",
			How: "lid on, hands out", Wait: quantity.Span(till.Sub(now)), Recheck: "then pull a strip, and read °C",
		}
	}
	a := liquor.Advise(n)
	if in := s.InVat(); a.Mass > 0 && len(in) > 0 {
		tags := in[0].Tag
		for _, p := range in[1:] {
			tags += ", " + p.Tag
		}
		return liquor.Advice{
			Do: liquor.DoWait, Sentence: "first lift " + tags + " out: hands and goods out before a dose", Why: a.Why, How: "then look here again",
			Recheck: "what it wants",
		}
	}
	return a
}

// pHError is how far off the last reading of pH may be: a meter's, else a paper's.
func pHError(s day.State) float64 { return readError(s.PHWith()) }

// readError is how far off a reading of pH may be by what it was read with.
func readError(with string) float64 {
	if with == "meter" {
		return liquor.MeterError
	}
	return liquor.StripError
}

// stage tells whether the vat is being built, is past the first step of its end, or has ended, and on which day: nothing
// goes into it then beyond its steps.
func stage(s day.State) (building, ending bool, ended string) {
	if s.Ended {
		_, at := s.End()
		return false, false, cmp.Or(at, s.At).Format("2 January 2006")
	}
	_, open := s.Open()
	return open && !s.Head.Opening.Built, s.Head.Setup.Ending && s.Step > 1, ""
}

// worksTill is when what was given last shows: as the treatment that it was given with has it, else by its powder.
func worksTill(s day.State, given time.Time) time.Time {
	if t := s.Treating; t != nil && t.Since.Equal(given) {
		return t.Until
	}
	till := given
	for _, p := range s.Portions() {
		if p.Way != day.Weighed && p.At.Equal(given) {
			if t := given.Add(liquor.DoseWait(s.Head.Recipe, p.Powder).Duration()); t.After(till) {
				till = t
			}
		}
	}
	return till
}

// SinceFood is how long ago a day's vat last got food, in its build or after it; nil where the day does not know.
func SinceFood(s day.State, now time.Time) *quantity.Span {
	for _, in := range slices.Backward(s.Portions()) {
		p, own := s.Head.Recipe.Powder(in.Powder)
		if own && p.Role == recipe.Food && in.Way != day.Weighed || !own && in.Way == day.FedIn {
			ago := quantity.Span(max(0, now.Sub(in.At)))
			return &ago
		}
	}
	return nil
}

// lastGiven is when something was last given beyond the build, and sums what was given today.
func lastGiven(s day.State, sums map[string]quantity.Mass) (at time.Time, any bool) {
	for _, p := range s.Portions() {
		if p.Gave() {
			sums[p.Powder] += p.Mass
		}
	}
	return s.LastGiven()
}
