package load_test

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/loadtest"
	"example.org/vatside/testdata/long"
)

// numbers is a fixed sequence.
type numbers uint64

func (n *numbers) in(low, high int) int {
	*n = *n*6364136223846793005 + 1442695040888963407
	return low + int(uint64(*n)>>33)%(high-low+1)
}

// sooner looks through every timetable of whole minutes that ends before a plan does, and gives one that the checker
// lets pass. It knows no rule of planning.
func sooner(pieces []load.Piece, l load.Limits, than quantity.Span, handling []int) (load.Plan, bool) {
	type place struct{ piece, dip int }
	var all []place
	for i, x := range pieces {
		for k := range x.Dips {
			all = append(all, place{i, k})
		}
	}
	end := int(than.Minutes()) - 1
	rows := make([]load.Row, len(all))
	var try func(n int) (load.Plan, bool)
	try = func(n int) (load.Plan, bool) {
		if n == len(all) {
			for _, flip := range []int{1, -1} { // of dips lowered at one moment either takes its indigo first
				var p load.Plan
				p.Rows = slices.Clone(rows)
				slices.SortStableFunc(p.Rows, func(a, b load.Row) int {
					return cmp.Or(cmp.Compare(a.Lower, b.Lower), flip*cmp.Compare(a.Tag, b.Tag))
				})
				for _, x := range pieces {
					last := rowOf(p, x.Tag, x.Dips).Lifted
					p.Done = append(p.Done, load.Done{Tag: x.Tag, At: last})
					p.Makespan = max(p.Makespan, last)
				}
				p.Bound, p.Proven = p.Makespan, true
				if len(loadtest.Check(pieces, l, p)) == 0 {
					return p, true
				}
			}
			return load.Plan{}, false
		}
		at := all[n]
		x, h := pieces[at.piece], handling[at.piece]
		long := int(x.Dip.Minutes()) + 2*h
		from := int(x.From.Minutes())
		if at.dip > 0 {
			from = int((rows[n-1].Lifted + x.Air).Minutes())
		}
		rest := (x.Dips - at.dip - 1) * (long + int(x.Air.Minutes()))
		for s := from; s+long+rest <= end; s++ {
			rows[n] = load.Row{Tag: x.Tag, Dip: at.dip + 1, Vat: 1, Lower: minutes(s), In: minutes(s + h), Out: minutes(s + long - h), Lifted: minutes(s + long)}
			if p, ok := try(n + 1); ok {
				return p, true
			}
		}
		return load.Plan{}, false
	}
	return try(0)
}

// On very small days with every kind of limit no timetable at all ends sooner than the plan, or than its bound.
func TestNoTimetableEndsSooner(t *testing.T) {
	n := numbers(7)
	proven, days := 0, long.Of(30, 10)
	for day := range days {
		l := load.Limits{Capacity: 1000, Most: n.in(0, 2), Hands: n.in(0, 2), Handling: map[string]quantity.Span{load.Cloth: 0, load.Skein: minutes(1)}}
		if n.in(0, 1) == 0 {
			l.Rest = load.Pause{After: minutes(n.in(5, 9)), For: minutes(n.in(2, 5))}
		}
		if n.in(0, 2) == 0 {
			l.Reheat = load.Pause{After: minutes(n.in(5, 9)), For: minutes(n.in(1, 3))}
		}
		if n.in(0, 2) == 0 {
			from := n.in(1, 6)
			l.Breaks = []load.Break{{From: minutes(from), To: minutes(from + n.in(1, 4))}}
		}
		if n.in(0, 1) == 0 {
			l.Indigo = load.Indigo{Holds: quantity.Grams(float64(n.in(8, 14)))}
		}
		var pieces []load.Piece
		var handling []int
		left := 4
		for i := range n.in(2, 3) {
			if left == 0 {
				break
			}
			k := min(left, n.in(1, 2))
			left -= k
			x := load.Piece{Tag: fmt.Sprint(i), Dry: quantity.Grams(float64(100 * n.in(2, 8))), Dips: k, Dip: minutes(n.in(1, 3)), Air: minutes(n.in(0, 3)),
				Work: []string{load.Moved, load.Hung}[n.in(0, 1)], Form: []string{load.Cloth, load.Skein}[n.in(0, 1)], Takes: quantity.Grams(float64(n.in(0, 2)))}
			if n.in(0, 2) == 0 {
				x.From = minutes(n.in(0, 4))
			}
			if l.Indigo.Holds > 0 && n.in(0, 1) == 0 {
				x.Least = quantity.Grams(float64(n.in(3, 9)))
			}
			pieces = append(pieces, x)
			handling = append(handling, int(l.Handling[x.Form].Minutes()))
		}
		p := plan(t, pieces, l)
		if p.Proven {
			proven++
		}
		if p.Weak > 0 {
			continue
		}
		if q, ok := sooner(pieces, l, p.Makespan, handling); ok {
			t.Errorf("day %d: the plan ends at %v (proven %v, bound %v), and %v is possible\n%+v\n%+v\n%+v\n%+v", day, p.Makespan, p.Proven, p.Bound, q.Makespan, l, pieces, p.Rows, q.Rows)
		}
	}
	t.Logf("%d of %d days are proven", proven, days)
}
