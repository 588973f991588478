package outlook_test

import (
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// The longer first dip of tight cloth is in the plan and in the blue: as many dips take that much longer, and come out as dark or darker.
func TestTheFirstDipOfTightClothIsReckoned(t *testing.T) {
	told := func(form string) (ends quantity.Span, ks float64) {
		v := open(t, "soda", nil)
		v.reads(36)
		v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Dip: quantity.Minutes(8), Form: form}},
			day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}})
		o := v.sight()
		b := outlook.Blues(v.s, o, v.now)
		table := outlook.Timetable(v.s, o, b, load.Plan{}, v.now, 0)
		if table.Fault != "" {
			t.Fatal(table.Fault)
		}
		p, _ := v.s.Piece("A1")
		steps := b.Plan(p).Steps
		return table.Plan.Makespan, float64(steps[2].KS.Likely)
	}
	loose, pale := told("cloth")
	tight, dark := told(day.Tight)
	if got := tight - loose; got != quantity.Minutes(6) || !(dark > pale) {
		t.Errorf("tight cloth's plan is %v longer, its third dip K/S %.2f of %.2f", got, dark, pale)
	}
}
