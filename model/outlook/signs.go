package outlook

import (
	"math"
	"slices"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
)

// Asked is what the signs are asked at an instant: what was seen since something was last done to the vat, what was read of
// it and still speaks for it, what was tried today; and the vat with its goods, hands and heater.
func Asked(s day.State, o Outlook, now time.Time) (signs.Seen, signs.Vat) {
	vat := signs.Vat{
		Recipe: s.Head.Recipe, Fill: holds(s), GivenToday: map[string]quantity.Mass{}, HandsIn: len(s.InVat()) > 0, HeaterOn: s.Vat.Heater,
		Class: s.Children, Heater: quantity.Watts(s.Head.Setup.Heater.Watts() * reaches.Fraction()), System: s.Head.Setup.System(),
	}
	for _, p := range s.Pieces {
		if f, err := fibre.Parse(p.Spec.Fibre); err == nil && p.Live() && !slices.Contains(vat.Goods, f) {
			vat.Goods = append(vat.Goods, f)
		}
	}
	vat.Building, vat.Ending, vat.Ended = stage(s)
	vat.SinceFood, vat.Strength = SinceFood(s, now), s.Head.Setup.Strength
	if f := o.Indigo.Feeding; f.Soon || f.Now {
		vat.IndigoGone = f.Gone
	}
	given, _ := lastGiven(s, vat.GivenToday)
	seen := signs.Seen{Signs: s.Seen(), PHError: 2 * pHError(s), Tried: s.Tried()}
	if o.Heat.Known != Unknown {
		t := quantity.Celsius(math.Round(o.Heat.Now.Celsius()*2) / 2)
		seen.Temp = &t
	}
	if s.Vat.PH != nil && !s.Vat.PHAt.IsZero() && s.Vat.PHAt.After(given) && now.Sub(s.Vat.PHAt) <= pHSpeaks {
		p := quantity.PH(*s.Vat.PH)
		seen.PH = &p
	}
	if s.Vat.Strip != nil && s.Vat.StripAt.After(given) && now.Sub(s.Vat.StripAt) <= stripSpeaks {
		seen.Strip = s.Vat.Strip
	}
	return seen, vat
}

// Answer is what two strips say of the treatment whose recheck has come: the last one before it and the last one since.
// NotSaid where one of them was not pulled.
func Answer(s day.State) signs.Answer {
	if s.Treating == nil {
		return signs.NotSaid
	}
	before, after := quantity.Span(-1), quantity.Span(-1)
	first, last := s.Treating.Strips()
	if first != nil {
		before = *first
	}
	if last != nil {
		after = *last
	}
	return signs.Judge(before, after)
}
