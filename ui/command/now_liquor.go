package command

import (
	"time"

	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/library"
)

// liquorOf is how the liquor of an open day stands at its present, as now --json has it. What is not known is null, and so is how
// it is known; below_low_at is null too where it is not within twelve hours or a longer wait, or is already.
func liquorOf(s library.Day) object {
	o := outlook.Of(s.State, s.Now)
	heat, ph, reducer, indigo := knownAs(o.Heat.Known), knownAs(o.PH.Known), knownAs(o.Reducer.Known), knownAs(o.Indigo.Known)
	at := func(t time.Time) *string { return when(heat != nil && !t.IsZero(), stamp(t)) }
	acid := func(p quantity.PH) *float64 { return when(ph != nil, tidy(float64(p))) }
	return object{
		{"temp_c", when(heat != nil, tidy(o.Heat.Now.Celsius()))}, {"temp_known", heat}, {"below_low_at", at(o.Heat.Below)}, {"lidded_below_low_at", at(o.Heat.Lidded)},
		{"ph_low", acid(o.PH.Now.Low)}, {"ph_likely", acid(o.PH.Now.Likely)}, {"ph_high", acid(o.PH.Now.High)}, {"ph_known", ph},
		{"reducer_rest_h", when(reducer != nil, spreadOf(o.Reducer.Rest, quantity.Span.Hours))},
		{"reducer_work_h", when(reducer != nil, spreadOf(o.Reducer.Work, quantity.Span.Hours))}, {"reducer_known", reducer},
		{"indigo_g", when(indigo != nil, spreadOf(o.Indigo.Left, quantity.Mass.Grams))}, {"indigo_known", indigo},
	}
}
