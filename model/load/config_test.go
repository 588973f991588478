package load

import (
	"testing"

	"example.org/vatside/model/quantity"
)

// shortest is the least number of minutes in which a vat gives each piece its one dip, found by trying every minute for
// every piece. It knows weights, numbers and hands, and nothing of sets or prices.
func shortest(dips, weights []int, moved []bool, capacity, most, hands int) int {
	for end := 0; ; end++ {
		load, number, busy := make([]int, end), make([]int, end), make([]int, end)
		var put func(n int) bool
		put = func(n int) bool {
			if n == len(dips) {
				return true
			}
			for s := 0; s+dips[n] <= end; s++ {
				fits := true
				for t := s; t < s+dips[n]; t++ {
					load[t] += weights[n]
					number[t]++
					if moved[n] {
						busy[t]++
					}
					fits = fits && (capacity == 0 || load[t] <= capacity) && (most == 0 || number[t] <= most) && (hands == 0 || busy[t] <= hands)
				}
				done := fits && put(n+1)
				for t := s; t < s+dips[n]; t++ {
					load[t] -= weights[n]
					number[t]--
					if moved[n] {
						busy[t]--
					}
				}
				if done {
					return true
				}
			}
			return false
		}
		if put(0) {
			return end
		}
	}
}

// posed is a day of one dip a piece, in minutes and grams, without handling.
func posed(t *testing.T, dips, weights []int, moved []bool, capacity, most, hands int) *problem {
	t.Helper()
	var pieces []Piece
	for i := range dips {
		p := Piece{Tag: string(rune('A' + i)), Dry: quantity.Grams(float64(weights[i])), Dips: 1, Dip: quantity.Minutes(float64(dips[i])), Work: Hung}
		if moved[i] {
			p.Work = Moved
		}
		pieces = append(pieces, p)
	}
	p, err := pose(pieces, Limits{Capacity: quantity.Grams(float64(capacity)), Most: most, Hands: hands, Handling: map[string]quantity.Span{}})
	if err != nil {
		t.Fatal(err)
	}
	p.gather(nil)
	if err := p.settle(); err != nil {
		t.Fatal(err)
	}
	return p
}

// Days worked by hand. Four of 34 g go two at a time into 100 g: 20 min, where their weights alone ask for 13.6. Three of 40 g
// go two at a time too: 15 min of work if a dip could be halved, 20 as they are. A moved one of 10 min and two hung ones of
// 5 and 5 that fit beside it: 10. Two moved and two hung ones, one pair of hands, two at once: 20.
func TestMixture(t *testing.T) {
	yes, no := []bool{true, true, true, true}, []bool{false, false, false, false}
	for _, c := range []struct {
		dips, weights         []int
		moved                 []bool
		capacity, most, hands int
		want, shortest        int
	}{
		{[]int{10, 10, 10, 10}, []int{34, 34, 34, 34}, no, 100, 0, 0, 20, 20},
		{[]int{10, 10, 10}, []int{40, 40, 40}, no, 100, 0, 0, 15, 20},
		{[]int{10, 5, 5}, []int{60, 40, 40}, []bool{true, false, false}, 100, 0, 1, 10, 10},
		{[]int{10, 10, 10, 10}, []int{1, 1, 1, 1}, []bool{true, true, false, false}, 0, 2, 1, 20, 20},
		{[]int{7, 5, 3}, []int{1, 1, 1}, yes, 0, 0, 1, 15, 15},
	} {
		p := posed(t, c.dips, c.weights, c.moved, c.capacity, c.most, c.hands)
		once := make([]int, len(c.dips))
		for i := range once {
			once[i] = 1
		}
		if got, _ := p.mixture(once); got != 60*c.want {
			t.Errorf("%v of %v: %d s, not %d", c.dips, c.weights, got, 60*c.want)
		}
		if got := shortest(c.dips, c.weights, c.moved, c.capacity, c.most, c.hands); got != c.shortest {
			t.Errorf("%v of %v: the shortest is %d, not %d", c.dips, c.weights, got, c.shortest)
		}
	}
}

// The bound is never above the shortest day, and on most small days it is the shortest.
func TestMixtureIsNeverAboveTheShortest(t *testing.T) {
	n := uint64(5)
	in := func(low, high int) int {
		n = n*6364136223846793005 + 1442695040888963407
		return low + int(n>>33)%(high-low+1)
	}
	same, days := 0, 300
	for range days {
		var dips, weights, once []int
		var moved []bool
		for range in(2, 5) {
			dips, weights, moved, once = append(dips, in(1, 4)), append(weights, in(1, 9)), append(moved, in(0, 1) == 0), append(once, 1)
		}
		capacity, most, hands := in(9, 14), max(0, in(-2, 3)), in(0, 2)
		got, _ := posed(t, dips, weights, moved, capacity, most, hands).mixture(once)
		best := shortest(dips, weights, moved, capacity, most, hands)
		if got > 60*best {
			t.Errorf("%v of %v, moved %v, %d g, %d at once, %d pairs: bound %d s, the shortest %d min", dips, weights, moved, capacity, most, hands, got, best)
		}
		if (got+59)/60 == best {
			same++
		}
	}
	if same < days*8/10 {
		t.Errorf("the bound is the shortest day in %d of %d only", same, days)
	}
}
