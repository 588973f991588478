package load

import (
	"math/bits"
	"slices"
)

// mostExact is the most pieces that the exact search takes on.
const mostExact = 16

// mostSteps is the most steps of a day that the exact search goes one by one: each is a turn deeper.
const mostSteps = 3000

// mostPrices is the most rounds in which the prices of a day are looked for.
const mostPrices = 150

// moment is what a day half made has besides its line: the time, and which dips are put off at it.
type moment struct {
	t   int
	off uint32
}

// exact looks through all plans that could end sooner, by the order of their lowerings: at each moment each dip that
// could begin does, or is put off to a later moment. It looks only at moments at which something ends or becomes ready,
// which is enough while whatever is taken is taken all through a dip; where lifts of hung pieces, breaks or rests may be
// worth waiting for, at every multiple of the days' common step. Moments alike but later are looked at once. A moved piece
// that could as well go in a step sooner is not lowered then, unless it is the first after a rest, which sets the next.
type exact struct {
	p      *problem
	l      *line
	best   int // a plan that ends at this or later is of no use
	low    int
	found  []held
	grid   int             // 0: only moments at which something happens
	late   bool            // moments compare only at one time
	last   [mostExact]held // per job: its latest dip
	was    [mostExact]int  // per job: since when it was ready for that
	end    int             // the last lift so far
	todo   int
	class  []int
	things []uses
	ns     []need
	seen   map[[2]uint64]int32
	priced tariff
	budget int
	nodes  int
	out    bool // of budget
}

// prove seeks plans that end before best. It gives the best found, in the order of its lowerings, its end (best, if there
// is none), and whether all were looked through. A problem that it does not take on is not looked through.
func (p *problem) prove(best, low, budget int) (found []held, end int, all bool, nodes int) {
	if len(p.jobs) > mostExact || p.vats > 1 || p.feeds > 0 || p.ops > 120 {
		return nil, best, false, 0
	}
	p = p.within(best)
	x := &exact{p: p, l: newLine(p), best: best, low: low, budget: budget, seen: map[[2]uint64]int32{},
		late: len(p.breaks) > 0, things: p.things(), ns: p.needs(), class: p.classes()}
	step := p.step()
	if (best-p.now)/step > mostSteps {
		return nil, best, false, 0
	}
	if p.tight || len(p.pauses) > 0 {
		x.grid = step
	}
	x.l.reset()
	m := moment{t: x.l.last}
	for i := range p.jobs {
		x.todo += p.jobs[i].n - x.l.next[i]
	}
	for _, y := range x.l.all {
		x.last[y.job] = y
		x.end = max(x.end, y.e)
	}
	if x.priced = p.priced(best-step, step, mostPrices); x.priced.paid > tooDear {
		return nil, best, true, 0
	}
	x.look(&m)
	return x.found, x.best, !x.out, x.nodes
}

// within is the problem for days that end before best: pauses that they cannot reach are left out.
func (p *problem) within(best int) *problem {
	if p.before[0].used || slices.ContainsFunc(p.pauses, func(q pause) bool { return best-p.now > q.after }) {
		return p
	}
	out := *p
	out.pauses = nil
	return &out
}

// step is the greatest length of which all times of the problem are multiples.
func (p *problem) step() int {
	var all []int
	for _, j := range p.jobs {
		if j.n > 0 {
			all = append(all, j.p, j.a, j.h, j.ready-p.now)
		}
	}
	for _, w := range p.breaks {
		all = append(all, max(0, w.from-p.now), max(0, w.to-p.now))
	}
	u := &p.before[0]
	for k, q := range p.pauses {
		if all = append(all, q.after, q.long); u.used {
			all = append(all, max(u.last, p.now)-p.now, max(0, p.now-u.beg[k]))
		}
	}
	for _, f := range p.fixed {
		all = append(all, f.e-p.now)
	}
	g := 0
	for _, v := range all {
		for v != 0 {
			g, v = v, g%v
		}
	}
	return max(1, g)
}

// classes gives jobs that are alike the same number.
func (p *problem) classes() []int {
	out := make([]int, len(p.jobs))
	for i, a := range p.jobs {
		like := slices.IndexFunc(p.jobs, func(b job) bool {
			return a.p == b.p && a.a == b.a && a.h == b.h && a.moved == b.moved && a.w == b.w && a.cnt == b.cnt &&
				a.takes == b.takes && a.least == b.least && (p.people == 0 || a.person == b.person) && !a.shown() && !b.shown()
		})
		if out[i] = like; like < 0 {
			out[i] = i
		}
	}
	return out
}

// look goes through all that can come of a moment.
func (x *exact) look(m *moment) {
	p, l := x.p, x.l
	x.nodes++
	x.out = x.out || x.nodes > x.budget
	if x.todo == 0 && x.end < x.best && !x.out {
		x.best, x.found = x.end, l.planned(x.found[:0])
	}
	if x.out || x.best <= x.low || x.todo == 0 || x.dear(m) || x.least(m) >= x.best {
		return
	}
	// Of dips that begin at one moment the one that asks the most of the vat beyond what it takes goes first: if any
	// order of them finds it strong enough, this one does.
	pick, rest, asks := -1, 0, int64(0)
	for i := range p.jobs {
		if m.off&(1<<i) != 0 || x.left(i) == 0 || l.ready[i] > m.t || !l.strong(i, 0) {
			continue
		}
		if _, later := l.at(i, m.t); later > 0 || x.grid > 0 && p.jobs[i].moved && x.sooner(m, i) {
			continue
		}
		a, r := p.jobs[i].least-p.jobs[i].takes, x.chain(i)
		if pick < 0 || a > asks || a == asks && r > rest {
			pick, rest, asks = i, r, a
		}
	}
	if pick < 0 {
		x.wait(*m)
		return
	}
	x.lower(*m, pick)
	if x.out {
		return
	}
	o := *m
	for i := range p.jobs { // one like it, with as much ahead, is put off with it
		if i == pick || x.class[i] == x.class[pick] && x.left(i) == x.left(pick) && l.ready[i] <= o.t && x.last[i].e <= o.t {
			o.off |= 1 << i
		}
	}
	x.look(&o)
}

// sooner tells whether job i's next dip could as well be lowered a step sooner, as far as what is placed goes.
func (x *exact) sooner(m *moment, i int) bool {
	l, t := x.l, m.t-x.grid
	if l.ready[i] > t || t < x.p.now {
		return false
	}
	for k, q := range x.p.pauses {
		if u := &l.vats[0]; !u.used || m.t-u.last >= q.long || u.beg[k] == m.t {
			return false
		}
	}
	_, later := l.at(i, t)
	return later == 0
}

// early tells whether job i's dip, if it hangs, could as well have been lowered a step sooner, once all that is lowered before its lift is
// placed.
func (x *exact) early(i int) bool {
	l, p, y := x.l, x.p, x.last[i]
	if x.grid == 0 || p.jobs[i].moved || y.k < 0 || len(p.pauses) > 0 || p.holds > 0 {
		return false
	}
	if y.s, y.e = y.s-x.grid, y.e-x.grid; y.s < max(x.was[i], p.now) {
		return false
	}
	l.gather(y)
	l.near = slices.DeleteFunc(l.near, func(z held) bool { return z.job == i })
	return max(l.byHands(y), l.byPeople(y), l.room(y)) == 0
}

// left is how many dips of job i are to come.
func (x *exact) left(i int) int { return x.p.jobs[i].n - x.l.next[i] }

// chain is how long job i still takes by itself from its next dip on.
func (x *exact) chain(i int) int {
	j := &x.p.jobs[i]
	return x.left(i)*(j.d()+j.a) - j.a
}

// lower begins the next dip of job i at the moment, looks on, and takes it back.
func (x *exact) lower(m moment, i int) {
	l := x.l
	vat, ready, before, last, end := l.vats[0], l.ready[i], l.last, x.last[i], x.end
	d := held{i, l.next[i], 0, m.t, m.t + x.p.jobs[i].d()}
	l.put(d)
	since := x.was[i]
	x.last[i], x.end, x.was[i] = d, max(end, d.e), ready
	x.todo--
	x.look(&m)
	x.was[i] = since
	l.all = l.all[:len(l.all)-1]
	l.vats[0], l.ready[i], l.last, x.last[i], x.end = vat, ready, before, last, end
	l.next[i]--
	x.todo++
}

// wait goes on to the next moment.
func (x *exact) wait(m moment) {
	p := x.p
	next := far
	see := func(at int) {
		if at > m.t && at < next {
			next = at
		}
	}
	for i := range p.jobs {
		see(x.last[i].e)
		if x.left(i) > 0 {
			see(x.l.ready[i])
		}
	}
	for _, w := range p.breaks {
		see(w.to)
	}
	if x.grid > 0 {
		next = m.t + x.grid
	}
	if next >= far {
		return
	}
	for i := range p.jobs {
		if lift := x.last[i].e - p.jobs[i].h; m.t < lift && lift <= next && x.early(i) {
			return
		}
	}
	m.t, m.off = next, 0
	key := x.key(&m)
	if t, ok := x.seen[key]; ok && int(t) <= m.t {
		return
	}
	x.seen[key] = int32(m.t)
	x.look(&m)
}

// key tells moments apart: two with the same key have the same days ahead, the later one later. Two sums of 64 bits: that
// two unlike moments of a search share both is not to be expected in any number of days.
func (x *exact) key(m *moment) [2]uint64 {
	p := x.p
	var a, b uint64
	mix := func(h, v uint64) uint64 {
		h = (h ^ v) * 0x9e3779b97f4a7c15
		return h ^ bits.RotateLeft64(h, 29)
	}
	for i := range p.jobs {
		in, out := max(0, x.last[i].e-m.t), max(0, x.l.ready[i]-m.t)
		if in == 0 && x.left(i) == 0 {
			continue
		}
		_, lowered, _, _ := p.hands(x.last[i])
		h := mix(uint64(x.class[i]+1), uint64(x.left(i)))
		h = mix(mix(h, uint64(in)), uint64(out)+1<<40)
		h = mix(h, uint64(max(0, lowered-m.t))+1<<41)
		a += h * 0xd6e8feb86659fd93
		b += mix(h, 0xa0761d6478bd642f)
	}
	if x.late {
		a = mix(a, uint64(m.t))
	}
	vat := &x.l.vats[0]
	if p.holds > 0 && !p.anyhow {
		a = mix(a, uint64(vat.taken))
	}
	if vat.used {
		for k, q := range p.pauses {
			if gap := m.t - vat.last; gap < q.long {
				a = mix(mix(a, uint64(max(gap, -far))), uint64(m.t-vat.beg[k])+uint64(k)<<50)
			}
		}
	}
	return [2]uint64{a, b}
}

// dear tells whether what is still to be done costs more than all that is left of the day.
func (x *exact) dear(m *moment) bool {
	q := &x.priced
	now := q.at(m.t)
	if now > q.n {
		return true
	}
	sum := -q.worth[now]
	for i := range x.p.jobs {
		if x.left(i) > 0 {
			sum += q.togo[x.p.jobs[i].base+x.l.next[i]][q.at(max(m.t, x.l.ready[i]))]
		}
		if y := x.last[i]; y.e > m.t {
			to := func(t int) int { return min(q.n, max(now, q.at(t))) }
			a0, a1, b0, b1 := x.p.hands(y)
			all, work := q.all[i], q.work[i]
			sum += all[to(y.e)] - all[now] + work[to(a1)] - work[to(a0)] + work[to(b1)] - work[to(b0)]
		}
	}
	return sum > tooDear
}

// least is a last lift that nothing from this moment on can beat.
func (x *exact) least(m *moment) int {
	p := x.p
	low := x.end
	for i := range p.jobs {
		if x.left(i) > 0 {
			low = max(low, max(x.l.ready[i], m.t)+x.chain(i))
		}
	}
	for t := range x.things {
		u := &x.things[t]
		var sum int64
		// dips in the order of what comes after them
		for q, n := range x.ns {
			j := &p.jobs[n.job]
			k, done := n.k, x.l.next[n.job]
			switch {
			case k >= done:
				sum += u.of[n.job] * int64(u.handled(j))
			case k == done-1 && x.last[n.job].e > m.t && (!u.hands || j.moved):
				sum += u.of[n.job] * int64(x.last[n.job].e-m.t)
			default:
				continue
			}
			if q+1 < len(x.ns) && x.ns[q+1].tail == n.tail {
				continue
			}
			low = max(low, p.earliest(u, m.t, int((sum+u.cap-1)/u.cap))+n.tail)
			if low >= x.best {
				return low
			}
		}
	}
	return low
}
