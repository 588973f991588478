package load

import "slices"

// The bounds of things look at one limit at a time. Here whole moments are looked at: who may be in together. Each moment of
// the vat's work has such a set in it, each piece has to be in some for as long as its dips take, and so the work lasts at
// least as long as the shortest mixture of sets that gives every piece its time (the configuration bound of cutting-stock
// problems, Gilmore and Gomory, Operations Research 9 (1961) 849, from memory). Any prices of the pieces' time prove a
// bound: what all of it is worth, by the most that a set is worth a second. The prices come from a small linear programme.

// part is one part of a job's time as the bound sees it: a moved piece's whole dip, a hung one's handling and its hanging.
type part struct {
	job   int
	hands bool
	time  float64 // all that is to be given
	price float64
}

// mostRounds is the most sets that are looked for, and mostLooks the most branches of a look.
const (
	mostRounds = 40
	mostLooks  = 4000
)

// parts are what dips take, so many of each job.
func (p *problem) parts(dips []int) []part {
	var out []part
	for i, n := range dips {
		j := &p.jobs[i]
		switch {
		case n == 0:
		case j.moved || p.pairs == 0:
			out = append(out, part{job: i, hands: j.moved, time: float64(n * j.d())})
		default:
			out = append(out, part{job: i, time: float64(n * j.p)})
			if j.h > 0 {
				out = append(out, part{job: i, hands: true, time: float64(2 * n * j.h)})
			}
		}
	}
	return out
}

// mixture is a length of work, in seconds, that no plan of so many dips of each job can beat: of each of the vats, as all
// of them could be at work all that while.
func (p *problem) mixture(dips []int) int {
	parts := p.parts(dips)
	if len(parts) == 0 {
		return 0
	}
	best := 0.0
	var sets [][]int
	for i := range parts { // each alone, so that the first prices have an end
		sets = append(sets, []int{i})
	}
	for range mostRounds {
		prices(parts, sets)
		worth := 0.0
		for _, x := range parts {
			worth += x.price * x.time
		}
		set, most, ok := p.dearest(parts)
		if !ok || most <= 0 {
			break
		}
		best = max(best, worth/most)
		if most <= 1+1e-6 {
			break
		}
		sets = append(sets, set)
	}
	return int(best*(1-1e-7) + 0.999)
}

// prices sets the prices that make all the time worth the most while no set is worth more than 1 a second: a simplex
// tableau, which begins with all prices nought.
func prices(parts []part, sets [][]int) {
	n, m := len(parts), len(sets)
	t := make([][]float64, m+1)
	base := make([]int, m)
	for r := range t {
		t[r] = make([]float64, n+m+1)
		if r < m {
			for _, c := range sets[r] {
				t[r][c] = 1
			}
			t[r][n+r], t[r][n+m] = 1, 1
			base[r] = n + r
		}
	}
	for c, x := range parts {
		t[m][c] = -x.time
	}
	for step := range 40 * (n + m) {
		in, low := -1, -1e-7
		for c := range n + m {
			if t[m][c] < low {
				in, low = c, t[m][c]
				if step > 10*(n+m) { // the first that gains cannot go in circles (Bland's rule)
					break
				}
			}
		}
		if in < 0 {
			break
		}
		out := -1
		for r := range m {
			if t[r][in] > 1e-9 && (out < 0 || t[r][n+m]/t[r][in] < t[out][n+m]/t[out][in]) {
				out = r
			}
		}
		if out < 0 {
			break
		}
		by := t[out][in]
		for c := range t[out] {
			t[out][c] /= by
		}
		for r := range t {
			if f := t[r][in]; r != out && f != 0 {
				for c, v := range t[out] {
					t[r][c] -= f * v
				}
			}
		}
		base[out] = in
	}
	for c := range parts {
		parts[c].price = 0
	}
	for r, c := range base {
		if c < n {
			parts[c].price = max(0, t[r][n+m])
		}
	}
}

// dearest is the set that may be in one vat together and is worth the most, and what that is; of several vats, their hands
// being shared, a vat's even part. ok is false if the looks did not suffice.
func (p *problem) dearest(parts []part) (set []int, most float64, ok bool) {
	vats := p.vats
	order := make([]int, 0, len(parts))
	for i, x := range parts {
		if x.price > 1e-12 {
			order = append(order, i)
		}
	}
	// all limits taken as one, each as a part of what there is
	bulk := func(w int64, n, hands int) float64 {
		s := 1e-9
		if p.cap < far {
			s += float64(w) / float64(p.cap)
		}
		if p.most < far {
			s += float64(n) / float64(p.most)
		}
		if p.pairs > 0 {
			s += float64(hands) / float64(p.pairs)
		}
		return s
	}
	size := func(i int) float64 {
		j := &p.jobs[parts[i].job]
		return bulk(j.w, j.cnt, btoi(parts[i].hands))
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := parts[a].price*size(b), parts[b].price*size(a)
		switch {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	pairs := far
	if p.pairs > 0 {
		pairs = p.pairs
	}
	room, places := int64(vats)*min(p.cap, far/8), vats*min(p.most, far/8)
	used := make([]bool, len(p.jobs))
	var now []int
	looks := 0
	var look func(q int, room int64, places, pairs int, worth float64)
	look = func(q int, room int64, places, pairs int, worth float64) {
		if looks++; worth > most+1e-12 {
			most, set = worth, slices.Clone(now)
		}
		// what the rest could still bring, broken at the last
		bound, left := worth, bulk(room, places, pairs)
		for _, i := range order[q:] {
			x := &parts[i]
			j := &p.jobs[x.job]
			if used[x.job] || j.w > room || j.cnt > places || x.hands && pairs == 0 {
				continue
			}
			s := size(i)
			if s >= left {
				bound += x.price * left / s
				break
			}
			bound, left = bound+x.price, left-s
		}
		if bound <= most+1e-12 || looks > mostLooks {
			return
		}
		for k, i := range order[q:] {
			x := &parts[i]
			j := &p.jobs[x.job]
			if used[x.job] || j.w > room || j.cnt > places || x.hands && pairs == 0 {
				continue
			}
			used[x.job] = true
			now = append(now, i)
			look(q+k+1, room-j.w, places-j.cnt, pairs-btoi(x.hands), worth+x.price)
			now = now[:len(now)-1]
			used[x.job] = false
		}
	}
	look(0, room, places, pairs, 0)
	return set, most, looks <= mostLooks
}
