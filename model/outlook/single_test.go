package outlook_test

import (
	"reflect"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// What is asked of a single piece is what the plan of it has, with looks and without; and one forecast is not dearer for the rest.
func TestSinglePieces(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	v.wish("A1", day.PieceSpec{Depth: "mid", Dip: quantity.Minutes(5)})
	v.wish("A2", day.PieceSpec{Rung: 2, Dip: quantity.Minutes(5)})
	v.wish("A3", day.PieceSpec{Dips: 3, Dip: quantity.Minutes(5)})
	same := func(when string) {
		t.Helper()
		all, single := v.blues(), outlook.Weighed(v.s, v.sight(), v.now)
		if len(single.Pieces) != 0 || len(all.Pieces) == 0 {
			t.Errorf("%s: %d and %d pieces", when, len(single.Pieces), len(all.Pieces))
		}
		if single.Claim != all.Claim || !reflect.DeepEqual(single.Words, all.Words) || !reflect.DeepEqual(single.Rungs, all.Rungs) {
			t.Errorf("%s: %s %v, not %s %v", when, single.Claim, single.Words, all.Claim, all.Words)
		}
		for _, p := range v.s.Pieces {
			plan := all.Plan(p)
			if got := single.Now(p); !reflect.DeepEqual(got, plan.Now) {
				t.Errorf("%s: %s is %+v, not %+v", when, p.Tag, got, plan.Now)
			}
			if got := single.Wished(p); !reflect.DeepEqual(got, plan.Wished) {
				t.Errorf("%s: %s is wished %v, not %v", when, p.Tag, got, plan.Wished)
			}
		}
	}
	same("before any look")
	v.strips("L1", 2)
	same("after two dips")
	v.put(day.SwatchJudged{Swatch: "L1", Dips: 2, Looks: "lab 68 -7 -17"})
	same("after a look")
}
