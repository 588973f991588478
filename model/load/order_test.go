package load

import (
	"fmt"
	"slices"
	"testing"

	"example.org/vatside/model/quantity"
)

// What is put off with a refused job of its kind is put off as if each were asked alone: the same dips, in as many steps.
func TestJobsOfOneKindArePutOffAlike(t *testing.T) {
	d := dice(1)
	pick := func(of ...int) int { return of[d.below(len(of))] }
	for try := range 400 {
		var pieces []Piece
		for i := range 1 + d.below(24) {
			pieces = append(pieces, Piece{Tag: fmt.Sprint("P", i), Dry: quantity.Grams(float64(pick(80, 80, 80, 200, 400))), Dips: 1 + d.below(5),
				Dip: quantity.Minutes(float64(pick(5, 15, 15))), Air: quantity.Minutes(float64(pick(15, 25))), Work: []string{"moved", "hung"}[pick(0, 0, 1)],
				Least: quantity.Grams(float64(pick(0, 0, 1, 3))), Takes: quantity.Grams(1), Demo: d.below(12) == 0,
				From: quantity.Minutes(float64(pick(0, 0, 30, 60)))})
		}
		l := Limits{Capacity: quantity.Grams(float64(pick(0, 500, 1000))), Most: pick(0, 1, 3), Hands: pick(0, 1, 2), Vats: pick(1, 1, 2), Fair: d.below(3) == 0}
		if d.below(2) == 0 {
			l.Indigo = Indigo{Holds: quantity.Grams(float64(pick(5, 20, 60))), Feed: quantity.Grams(10), Wait: quantity.Minutes(30), Feeds: pick(0, 2)}
		}
		if d.below(3) == 0 {
			l.Rest = Pause{After: quantity.Minutes(90), For: quantity.Minutes(20)}
		}
		p, err := pose(pieces, l)
		if err == nil {
			p.gather(nil)
			err = p.settle()
		}
		if err != nil {
			continue
		}
		rank := make([]int, p.ops)
		for i := range rank {
			rank[i] = d.below(p.ops)
		}
		together, alone := newLine(p), newLine(p)
		for i := range alone.kinds {
			alone.kinds[i] = i
		}
		if a, b := together.list(rank, nil), alone.list(rank, nil); a != b || together.steps != alone.steps || !slices.Equal(together.all, alone.all) {
			t.Fatalf("try %d: %v in %d steps, alone %v in %d:\n%v\n%v", try, a, together.steps, b, alone.steps, together.all, alone.all)
		}
	}
}
