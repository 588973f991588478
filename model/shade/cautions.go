package shade

import (
	"fmt"
	"slices"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
)

// Cautions are sentences on a piece that the recipe was not made for: fibre, °C, pH, weight, liquor ratio, length of the
// dip, indigo left. A forecast is answered all the same; outside the recipe it rests on less. Metric units; what is not
// known (0) is passed over.
func Cautions(p Piece, s liquor.State, dip quantity.Span) []string {
	var out []string
	r, v := s.Recipe, Of(s)
	say := func(form string, args ...any) { out = append(out, fmt.Sprintf(form, args...)) }
	bears, words := s.BearsDip(p.Fibre, dip)
	if words != "" {
		say("%s", words)
	}
	if bears != fibre.Warned && p.Fibre != fibre.Unknown && len(r.Fibres) > 0 && !slices.Contains(r.Fibres, p.Fibre.String()) {
		say("the recipe is not for %s", p.Fibre)
	}
	l := r.Liquor
	if v.Temp > 0 || s.Temp != nil {
		switch {
		case l.High > l.Low && v.Temp < l.Low:
			say("%s is below the recipe's %s to %s", v.Temp, l.Low, l.High)
		case l.High > l.Low && v.Temp > l.High:
			say("%s is above the recipe's %s to %s", v.Temp, l.Low, l.High)
		}
	}
	if v.PH > 0 || s.PH != nil {
		switch ph := float64(v.PH); {
		case l.PHHigh > l.PHLow && ph < l.PHLow:
			say("pH %s is below the recipe's %.1f to %.1f", v.PH, l.PHLow, l.PHHigh)
		case l.PHHigh > l.PHLow && ph > l.PHHigh:
			say("pH %s is above the recipe's %.1f to %.1f", v.PH, l.PHLow, l.PHHigh)
		}
	}
	if p.Dry > 0 && v.Fill > 0 {
		usual, most := vessel.AtOnce(v.Fill)
		ratio := v.Fill.Litres() / p.Dry.Kilograms()
		switch {
		case p.Dry > most:
			say("%.0f L a kilogram is too little for goods to move (at least %.0f): the blue comes out uneven", ratio, vessel.LeastRatio)
		case p.Dry > usual:
			say("%.0f L a kilogram is tight: %.0f lets goods move freely", ratio, vessel.UsualRatio)
		}
		if day := liquor.DayLoad(r.Family).Of(v.Fill); p.Dry > day {
			say("%s is more than the %s that such a vat takes in a day", p.Dry, day)
		}
		if takes := quantity.Percent(1).Of(p.Dry); v.Indigo < takes {
			say("%s of indigo is left, less than the 1 %% on the goods that a mid blue takes", v.Indigo)
		}
	}
	if v.Strong && dip > quantity.Minutes(15) {
		say("the reducer is strong: a dip of over 15 min takes off earlier layers")
	}
	if dip > quantity.Minutes(30) {
		say("little is gained after 30 min in one dip: lift, air and dip again")
	}
	return out
}
