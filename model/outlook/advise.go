package outlook

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// How long a reading or a strip speaks of the vat as it is.
const (
	pHSpeaks    = 12 * time.Hour
	stripSpeaks = 2 * time.Hour
)

// StateOf is the state of a day's liquor at an instant, by its outlook. Fed is how long ago a ferment vat got its last food, by its
// earlier days; nil where they do not know, or are not read. A reading speaks until something is given.
func StateOf(s day.State, o Outlook, now time.Time, fed *quantity.Span) liquor.State {
	n := liquor.State{
		Recipe: s.Head.Recipe, Fill: holds(s), GivenToday: map[string]quantity.Mass{}, System: s.Head.Setup.System(),
		HandsIn: len(s.InVat()) > 0, HeaterOn: s.Vat.Heater, PHError: PHError(s.PHWith()), Class: s.Children, Strength: s.Head.Setup.Strength,
		Heater: quantity.Watts(s.Head.Setup.Heater.Watts() * reaches.Fraction()),
	}
	gate := s.Gate()
	n.Gate = &gate
	n.Building, n.Ending, n.Ended = stage(s)
	n.JarTemp, n.JarPH = s.Vat.StockT, (*quantity.PH)(s.Vat.StockPH)
	if n.SinceFood = SinceFood(s, now); n.SinceFood == nil {
		n.SinceFood = fed
	}
	if o.into(&n); n.Temp != nil {
		t := quantity.Celsius(math.Round(n.Temp.Celsius()*2) / 2) // as fine as a thermometer
		n.Temp = &t
	}
	if f := o.Indigo.Feeding; f.Soon || f.Now {
		n.IndigoGone = f.Gone
	}
	l := open(s, o.Heat)
	before := s.Head.Opening
	n.Spent, n.Acid = before.Spent+l.molar(before.Reducer), before.Acid-before.Alkali
	for _, p := range s.Portions() {
		if p.Gave() {
			n.GivenToday[p.Powder] += p.Mass
		}
	}
	given, _ := s.LastGiven()
	n.PH = speaking(s, given, now)
	if s.Vat.Strip != nil && s.Vat.StripAt.After(given) && now.Sub(s.Vat.StripAt) <= stripSpeaks {
		n.Strip = s.Vat.Strip
	}
	n.Goods = goodsFor(s, n)
	return n
}

// goodsFor are the fibres of the day's list. Those that a liquor is not for are kept out of it: it is judged by the others, if there
// are any.
func goodsFor(s day.State, n liquor.State) []fibre.Fibre {
	var all, fit []fibre.Fibre
	for _, p := range s.Pieces {
		f, err := fibre.Parse(p.Spec.Fibre)
		if err != nil || !p.Live() {
			continue
		}
		if !slices.Contains(all, f) {
			all = append(all, f)
		}
		if (p.Phase == day.InVat || !n.Unfit(f)) && !slices.Contains(fit, f) {
			fit = append(fit, f)
		}
	}
	if len(fit) == 0 {
		return all
	}
	return fit
}

// speaking is the pH that was read since something was last given, as long as it speaks; nil where none does. Acid that was read in a
// vat with a sulfur reducer speaks till it is read again, whatever was given since, and on the next day too.
func speaking(s day.State, given, now time.Time) *quantity.PH {
	if sour := (liquor.State{Recipe: s.Head.Recipe, PH: (*quantity.PH)(s.Vat.PH)}); sour.Sour() {
		return sour.PH
	}
	if s.Vat.PH == nil || s.Vat.PHAt.IsZero() || !s.Vat.PHAt.After(given) || now.Sub(s.Vat.PHAt) > pHSpeaks {
		return nil
	}
	p := quantity.PH(*s.Vat.PH)
	return &p
}

// into puts what the outlook knows into a state: °C, pH, indigo, and of it what is blue, reducer, sulfite.
func (o Outlook) into(n *liquor.State) {
	if o.Heat.Known != Unknown {
		n.Temp = &o.Heat.Now
	}
	if o.PH.Known != Unknown {
		n.Reckoned = &o.PH.Now
	}
	if o.Indigo.Known != Unknown {
		n.Indigo, n.Oxidised = &o.Indigo.Left, &o.Indigo.Blue
	}
	if o.Reducer.Known != Unknown {
		n.Reducer, n.Sulfite = &o.Reducer.Left, &o.Reducer.Sulfite
	}
}

// Advise is the one next thing for the vat of a day, by its state and what was seen of it. What was given last is let work first:
// until its time is over the advice is to wait.
func Advise(s day.State, o Outlook, now time.Time, fed *quantity.Span) liquor.Advice {
	seen, n := Asked(s, o, now, fed)
	given, after := s.LastGiven()
	choking := slices.ContainsFunc(seen.Signs, func(x signs.Sign) bool { return x.ID == signs.Choking })
	if till := worksTill(s, given); after && now.Before(till) && !choking && !n.Sour() && !n.Ending && n.Ended == "" {
		when := day.DateOf(till, now)
		return liquor.Advice{
			Do: liquor.DoWait, Sentence: "let the dose work till " + when, Why: "one thing at a time: what was given shows only then",
			How: "lid on, hands out", Wait: quantity.Span(till.Sub(now)), Recheck: "then pull a strip, and read " + s.Head.Setup.System().DegreeUnit(),
		}
	}
	a := signs.Advise(seen, n)
	if in := s.InVat(); a.Mass > 0 && len(in) > 0 {
		tags := wording.Each(in, func(p day.Piece) string { return p.Tag })
		return liquor.Advice{
			Do: liquor.DoWait, Sentence: "first lift " + strings.Join(tags, ", ") + " out: hands and goods out before a dose", Why: a.Why,
			How: "then look here again", Recheck: "what it needs",
		}
	}
	return a
}

// PHError is by how much a reading of pH may be off, either way, by what it was read with.
func PHError(with string) float64 { return 2 * liquor.ReadError(with) }

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
			till = day.Latest(till, given.Add(liquor.DoseWait(s.Head.Recipe, p.Powder).Duration()))
		}
	}
	return till
}

// SinceFood is how long ago a day's vat last got food, in its build or after it; nil where the day does not know.
func SinceFood(s day.State, now time.Time) *quantity.Span {
	at, _ := Fed(&s)
	return Ago(at, now)
}

// Ago is how long ago something was, 0 where that is still to come; nil for the zero time.
func Ago(at, now time.Time) *quantity.Span {
	if at.IsZero() {
		return nil
	}
	ago := quantity.Span(max(0, now.Sub(at)))
	return &ago
}

// Fed is when a day's vat last got food; false where the day does not know.
func Fed(s *day.State) (time.Time, bool) {
	for _, in := range slices.Backward(s.Portions()) {
		p, own := s.Head.Recipe.Powder(in.Powder)
		if own && p.Role == recipe.Food && in.Way != day.Weighed || !own && in.Way == day.FedIn {
			return in.At, true
		}
	}
	return time.Time{}, false
}
