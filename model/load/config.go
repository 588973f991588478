package load

import (
	"cmp"
	"slices"

	"example.org/vatside/model/sorted"
)

// The bounds of things look at one limit at a time. Here whole moments are looked at: who may be in together. Each moment of
// the vat's work has such a set in it, each piece has to be in some for as long as its dips take, and so the work lasts at
// least as long as the shortest mixture of sets that gives every piece its time (the configuration bound of cutting-stock
// problems, Gilmore and Gomory, Operations Research 9 (1961) 849, from memory). Any prices of the pieces' time prove a
// bound: what all of it is worth, by the most that a set is worth a second. The prices come from a small linear programme.

// mixed is the prices as a thing of which each dip takes its part, in millionths, rounded down.
func (p *problem) mixed() uses {
	u, dips := uses{make([]int64, len(p.jobs)), 1e6, false, false, true}, make([]int, len(p.jobs))
	for i, j := range p.jobs {
		dips[i] = j.n
	}
	_, each := p.mixture(dips)
	for i, v := range each {
		u.of[i] = int64(1e6 * (1 - 1e-6) * v / float64(p.jobs[i].d()))
	}
	return u
}

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

// mixture is a length of work, in seconds, that no plan of so many dips of each job can beat: of each of the vats, as all
// of them could be at work all that while. each is, by job, how many seconds of it a dip has: no plan makes any dips in less than the sum of theirs.
func (p *problem) mixture(dips []int) (long int, each []float64) {
	var parts []part
	add := func(job int, hands bool, time int) {
		if time > 0 {
			parts = append(parts, part{job: job, hands: hands, time: float64(time)})
		}
	}
	for i, n := range dips {
		if j := &p.jobs[i]; j.moved || p.pairs == 0 {
			add(i, j.moved, n*j.d())
		} else {
			add(i, false, n*j.p)
			add(i, true, 2*n*j.h)
		}
	}
	best := 0.0
	var sets [][]int
	for i := range parts { // each alone, so that the first prices have an end
		sets = append(sets, []int{i})
	}
	for range min(mostRounds, mostRounds*len(parts)) {
		prices(parts, sets)
		worth := 0.0
		for _, x := range parts {
			worth += x.price * x.time
		}
		set, most, ok := p.dearest(parts)
		if !ok || most <= 0 {
			break
		}
		if worth/most > best {
			best, each = worth/most, make([]float64, len(p.jobs))
			for _, x := range parts {
				each[x.job] += x.price * x.time / most / float64(dips[x.job])
			}
		}
		if most <= 1+1e-6 {
			break
		}
		sets = append(sets, set)
	}
	return int(best*(1-1e-7) + 0.999), each
}

// prices sets the prices that make all the time worth the most while no set is worth more than 1 a second: a simplex
// tableau, which begins with all prices nought. Its first columns are the parts, then each set's slack, then what a set is
// worth; its last row is what is to be gained.
func prices(parts []part, sets [][]int) {
	n, m := len(parts), len(sets)
	t, base := make([][]float64, m+1), make([]int, m)
	for r := range t {
		t[r] = make([]float64, n+m+1)
	}
	for r, set := range sets {
		for _, c := range set {
			t[r][c] = 1
		}
		t[r][n+r], t[r][n+m], base[r] = 1, 1, n+r
	}
	for c, x := range parts {
		t[m][c] = -x.time
	}
	for step := range 40 * (n + m) {
		in, out, low := -1, -1, -1e-7
		for c := range n + m {
			if t[m][c] < low && (in < 0 || step <= 10*(n+m)) { // later the first that gains: it cannot go in circles (Bland's rule)
				in, low = c, t[m][c]
			}
		}
		if in < 0 {
			break
		}
		for r := range m {
			if t[r][in] > 1e-9 && (out < 0 || t[r][n+m]/t[r][in] < t[out][n+m]/t[out][in]) {
				out = r
			}
		}
		if out < 0 {
			break
		}
		base[out] = in
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

// apart tells whether two jobs are never in at once: one pair of hands that moves the one all through cannot lower or lift the other, and does
// not get done while it hangs.
func (p *problem) apart(a, b *job) bool {
	if b.moved {
		a, b = b, a
	}
	return p.pairs == 1 && a.moved && !b.moved && b.h > 0 && a.d() > b.p
}

// dearest is the set that may be in the vats together and is worth the most, and what that is. ok is false if the looks did
// not suffice.
func (p *problem) dearest(parts []part) (set []int, most float64, ok bool) {
	all := far
	if p.pairs > 0 {
		all = p.pairs
	}
	room, places := int64(p.vats)*min(p.cap, far/8), p.vats*min(p.most, far/8)
	// all limits taken as one, each as a part of what there is
	bulk := func(w int64, n, hands int) float64 {
		sum := 1e-9
		for _, x := range [3][2]int{{int(w), int(p.cap)}, {n, p.most}, {hands, all}} {
			if x[1] < far {
				sum += float64(x[0]) / float64(x[1])
			}
		}
		return sum
	}
	size := make([]float64, len(parts))
	var order []int
	for i, x := range parts {
		j := &p.jobs[x.job]
		if size[i] = bulk(j.w, j.cnt, btoi(x.hands)); x.price > 1e-12 {
			order = append(order, i)
		}
	}
	sorted.By(order, func(a, b int) int { return cmp.Compare(parts[b].price*size[a], parts[a].price*size[b]) })
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
		var fits []int
		for k, i := range order[q:] {
			j := &p.jobs[parts[i].job]
			if used[parts[i].job] || j.w > room || j.cnt > places || parts[i].hands && pairs == 0 || slices.ContainsFunc(now, func(k int) bool { return p.apart(j, &p.jobs[parts[k].job]) }) {
				continue
			}
			fits = append(fits, q+k)
			bound += parts[i].price * min(1, max(0, left)/size[i])
			left -= size[i]
		}
		if bound <= most+1e-12 || looks > mostLooks {
			return
		}
		for _, k := range fits {
			x := &parts[order[k]]
			used[x.job] = true
			now = append(now, order[k])
			look(k+1, room-p.jobs[x.job].w, places-p.jobs[x.job].cnt, pairs-btoi(x.hands), worth+x.price)
			now = now[:len(now)-1]
			used[x.job] = false
		}
	}
	look(0, room, places, all, 0)
	return set, most, looks <= mostLooks
}
