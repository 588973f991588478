// Package longday makes days of any number of events, for benchmarks and tests: a living vat that is dyed in without end.
package longday

import (
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// Morning is when each of them opens.
var Morning = time.Date(2026, 5, 9, 9, 0, 0, 0, time.UTC)

// DipsEach is how many dips each piece has.
const DipsEach = 12

// Head is a garden bin that was built on an earlier day.
func Head(r recipe.Recipe) day.Head {
	return day.Head{Vat: "bin", Day: "2026-05-09", Zone: "UTC", Recipe: r, Opening: day.Opening{Number: 2, Built: true}, Setup: day.Setup{
		Fill: 60, Vessel: "frustum 36 cm 44 cm 62 cm", Material: "HDPE", Place: day.Outdoors, Units: "metric",
		Gear: day.Gear{Heater: quantity.Watts(1000)},
	}}
}

// Events are the first n of such a day, one each 20 s: pieces of DipsEach dips, one after the other, each dip with its
// lowering, its lift and its airing; a reading each fifth dip, a strip each seventh, a look, a note, time given and taken
// back, and a correction of each kind for each piece.
func Events(n int) []day.Event {
	out := make([]day.Event, 0, n)
	put := func(bodies ...day.Body) {
		for _, b := range bodies {
			out = append(out, day.Event{Seq: len(out) + 1, At: Morning.Add(time.Duration(len(out)) * 20 * time.Second), Body: b})
		}
	}
	put(day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm", Reason: "warm already"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true})
	for piece := 1; len(out) < n; piece++ {
		of := day.OfPiece{Tag: fmt.Sprintf("A%d", piece)}
		put(day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: DipsEach, Dip: quantity.Minutes(2), Air: quantity.Minutes(2)}},
			day.WettedOut{OfPiece: of}, day.FrothSkimmed{})
		for dip := 1; dip <= DipsEach; dip++ {
			put(day.DipBegun{OfPiece: of, Dip: dip, For: quantity.Minutes(2)}, day.TimerStretched{Timer: "dip " + of.Tag, By: quantity.Seconds(30)})
			lifted := len(out) + 1
			put(day.DipEnded{OfPiece: of, Dip: dip, Air: quantity.Minutes(2), Assumption: day.Assumption{Assumed: dip == 3}})
			switch {
			case dip == 3:
				put(day.Corrected{Of: lifted, Way: "confirmed"})
			case dip == 4:
				when := out[lifted-1].At.Add(-10 * time.Second)
				put(day.Corrected{Of: lifted, Way: "moved", To: &when})
			case dip == 6:
				put(day.Note{Text: "the film comes back"}, day.Corrected{Of: lifted + 1, Way: "undone"}, day.LookedAt{OfPiece: of, Looks: "mid", Wet: true})
			case dip%5 == 0:
				t, ph := quantity.Celsius(38-float64(piece%4)), 10.8
				put(day.Reading{Temp: &t, PH: &ph, With: "glass thermometer"})
			case dip%7 == 0:
				put(day.StripTest{Stayed: quantity.Seconds(45)})
			}
			put(day.AiringEnded{OfPiece: of, Dip: dip})
		}
		put(day.Finished{OfPiece: of, Dips: DipsEach}, day.Rinsed{OfPiece: of}, day.Rinsed{OfPiece: of}, day.Rested{For: quantity.Minutes(1)})
	}
	return out[:n]
}

// NextDue is the first deadline after an instant.
func NextDue(s day.State, after time.Time) (day.Due, bool) {
	for _, d := range day.Dues(s) {
		if d.At.After(after) {
			return d, true
		}
	}
	return day.Due{}, false
}
