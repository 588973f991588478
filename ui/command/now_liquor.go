package command

import (
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/library"
)

// The keys of the liquor in now --json. What is not known is null, and so is how it is known.
type nowLiquor struct {
	TempC            *float64 `json:"temp_c"`
	TempKnown        *string  `json:"temp_known"`
	BelowLowAt       *string  `json:"below_low_at"`        // null: not within twelve hours or a longer wait, or it is already
	LiddedBelowLowAt *string  `json:"lidded_below_low_at"` // the same with the lid on; null where it is on
	PHLow            *float64 `json:"ph_low"`
	PHLikely         *float64 `json:"ph_likely"`
	PHHigh           *float64 `json:"ph_high"`
	PHKnown          *string  `json:"ph_known"`
	ReducerRestH     *spread  `json:"reducer_rest_h"`
	ReducerWorkH     *spread  `json:"reducer_work_h"`
	ReducerKnown     *string  `json:"reducer_known"`
	IndigoG          *spread  `json:"indigo_g"`
	IndigoKnown      *string  `json:"indigo_known"`
}

// liquorOf is how the liquor of an open day stands at its present.
func liquorOf(s library.Day) *nowLiquor {
	o := outlook.Of(s.State, s.Now)
	var out nowLiquor
	if known := knownAs(o.Heat.Known); known != nil {
		out.TempC, out.TempKnown = new(tidy(o.Heat.Now.Celsius())), known
		out.BelowLowAt, out.LiddedBelowLowAt = instant(o.Heat.Below), instant(o.Heat.Lidded)
	}
	if known := knownAs(o.PH.Known); known != nil {
		ph := spreadOf(o.PH.Now, func(p quantity.PH) float64 { return float64(p) })
		out.PHLow, out.PHLikely, out.PHHigh, out.PHKnown = &ph.Low, &ph.Likely, &ph.High, known
	}
	if known := knownAs(o.Reducer.Known); known != nil {
		out.ReducerRestH, out.ReducerWorkH, out.ReducerKnown = new(spreadOf(o.Reducer.Rest, quantity.Span.Hours)), new(spreadOf(o.Reducer.Work, quantity.Span.Hours)), known
	}
	if known := knownAs(o.Indigo.Known); known != nil {
		out.IndigoG, out.IndigoKnown = new(spreadOf(o.Indigo.Left, quantity.Mass.Grams)), known
	}
	return &out
}
