package load

// vatNow is how a vat stands while a plan is made in the order of its lowerings.
type vatNow struct {
	past
	taken int64 // of its indigo, less what was fed
	shut  int   // empty until then, after a feed
	fed   int

	weight int64 // of what is in it
	count  int
}

// placer makes one plan after another from lists of preference.
type placer struct {
	p      *problem
	t      int
	in     []held // holding room after t
	vats   []vatNow
	next   []int // per job: the dip to come
	ready  []int // per job: not before
	placed []held
	feeds  []held // a feed's wait, job -1
	weak   int
	queue  []int
	steps  int
}

func newPlacer(p *problem) *placer {
	n := len(p.jobs)
	return &placer{p: p, vats: make([]vatNow, p.vats), next: make([]int, n), ready: make([]int, n)}
}

func (pl *placer) reset() {
	p := pl.p
	pl.t, pl.weak = p.now, 0
	pl.in = append(pl.in[:0], p.fixed...)
	for v := range pl.vats {
		pl.vats[v] = vatNow{past: p.before[v]}
	}
	for _, x := range pl.in {
		pl.vats[x.vat].weight += p.jobs[x.job].w
		pl.vats[x.vat].count += p.jobs[x.job].cnt
	}
	for i := range p.jobs {
		pl.next[i], pl.ready[i] = 0, p.jobs[i].ready
	}
	pl.placed, pl.feeds = pl.placed[:0], pl.feeds[:0]
}

// room tells whether vat v has room for job i: whatever is in it now only leaves it later.
func (pl *placer) room(i, v int) bool {
	j := &pl.p.jobs[i]
	return pl.vats[v].weight+j.w <= pl.p.cap && pl.vats[v].count+j.cnt <= pl.p.most
}

// handsFree tells whether the hands can lower, move and lift job i in a dip from t.
func (p *problem) handsFree(in []held, i, t int) bool {
	j := &p.jobs[i]
	x := held{job: i, s: t, e: t + j.d()}
	a0, a1, b0, b1 := p.hands(x)
	for _, w := range p.breaks {
		if w.from >= x.e {
			break
		}
		if w.within(a0, a1) || w.within(b0, b1) {
			return false
		}
	}
	return p.pairFree(in, a0, a1) && p.pairFree(in, b0, b1)
}

// within tells whether a stretch of work falls into the window; one of no length, if it lies inside it.
func (w window) within(from, to int) bool {
	if from == to {
		return w.from < from && from < w.to
	}
	return from < w.to && w.from < to
}

// pairFree tells whether one pair of hands is free all through from..to.
func (p *problem) pairFree(in []held, from, to int) bool {
	if from >= to || p.pairs == 0 {
		return true
	}
	if p.pairs == 1 {
		for _, y := range in {
			a0, a1, b0, b1 := p.hands(y)
			if a0 < a1 && a0 < to && from < a1 || b0 < b1 && b0 < to && from < b1 {
				return false
			}
		}
		return true
	}
	if len(in) < p.pairs {
		return true
	}
	busyAt := func(t int) int {
		n := 0
		for _, y := range in {
			a0, a1, b0, b1 := p.hands(y)
			if a0 <= t && t < a1 || b0 <= t && t < b1 {
				n++
			}
		}
		return n
	}
	if busyAt(from) >= p.pairs {
		return false
	}
	for _, y := range in {
		a0, _, b0, b1 := p.hands(y)
		if from < a0 && a0 < to && busyAt(a0) >= p.pairs || b0 < b1 && from < b0 && b0 < to && busyAt(b0) >= p.pairs {
			return false
		}
	}
	return true
}

// rested tells whether a dip from s to e keeps the vat's rests, and else when it is rested again.
func (p *problem) rested(v *past, s, e int) (ok bool, until int) {
	if !v.used {
		return true, 0
	}
	ok = true
	for k, q := range p.pauses {
		if s-v.last < q.long && e-v.beg[k] > q.after {
			ok, until = false, max(until, v.last+q.long)
		}
	}
	return ok, until
}

// work notes a dip in the vat's course.
func (v *past) work(p *problem, s, e int) {
	for k, q := range p.pauses {
		if !v.used || s-v.last >= q.long {
			v.beg[k] = s
		}
	}
	v.used, v.last = true, max(v.last, e)
}

// strong tells whether a vat still has the indigo that job i asks for.
func (pl *placer) strong(i, v int) bool {
	p := pl.p
	return p.holds == 0 || p.holds-pl.vats[v].taken >= p.jobs[i].least
}

// vatFor is the vat that takes job i now, or -1. While feeds are left a weak vat is not used. byHands tells that only the
// hands keep it out.
func (pl *placer) vatFor(i int) (vat int, byHands bool) {
	p := pl.p
	pl.steps++
	vat = pl.roomFor(i)
	if vat < 0 {
		return -1, false
	}
	pl.steps += 1 + len(pl.in)/2
	if !p.handsFree(pl.in, i, pl.t) {
		return -1, true
	}
	return vat, false
}

// roomFor is the vat that takes job i now if the hands can.
func (pl *placer) roomFor(i int) int {
	p := pl.p
	weak := -1
	for v := range pl.vats {
		if pl.vats[v].shut > pl.t || !pl.room(i, v) {
			continue
		}
		if len(p.pauses) > 0 {
			if ok, _ := p.rested(&pl.vats[v].past, pl.t, pl.t+p.jobs[i].d()); !ok {
				continue
			}
		}
		if pl.strong(i, v) {
			return v
		}
		if pl.vats[v].fed >= p.feeds && weak < 0 {
			weak = v
		}
	}
	if weak >= 0 { // another vat that is strong, or can be fed, is worth waiting for
		for v := range pl.vats {
			if v != weak && (pl.strong(i, v) || pl.vats[v].fed < p.feeds) {
				return -1
			}
		}
	}
	return weak
}

// put lowers job i into vat v at t.
func (pl *placer) put(i, v, t int) {
	p := pl.p
	j := &p.jobs[i]
	x := held{i, pl.next[i], v, t, t + j.d()}
	if !pl.strong(i, v) {
		pl.weak++
	}
	pl.vats[v].taken += j.takes
	pl.vats[v].weight += j.w
	pl.vats[v].count += j.cnt
	pl.vats[v].work(p, x.s, x.e)
	pl.in = append(pl.in, x)
	pl.placed = append(pl.placed, x)
	pl.next[i]++
	pl.ready[i] = x.e + j.a
}

// lifts is the earliest moment after now at which a hung job's lift would come just after the hands are free again.
func (pl *placer) lifts(i int) int {
	p := pl.p
	j := &p.jobs[i]
	best, wait := far, j.h+j.p
	see := func(end int) {
		if at := end - wait; at > pl.t && at < best {
			best = at
		}
	}
	if j.moved {
		return far
	}
	for _, x := range pl.in {
		_, a1, _, _ := p.hands(x)
		see(a1)
		see(x.e)
	}
	for _, w := range p.breaks {
		see(w.to)
	}
	return best
}

// soonest is the earliest moment after now at which something changes for all.
func (pl *placer) soonest() int {
	p := pl.p
	t, best := pl.t, far
	see := func(at int) {
		if at > t && at < best {
			best = at
		}
	}
	pl.steps += len(pl.in) / 2
	for _, x := range pl.in {
		see(x.e)
		if p.tight {
			_, a1, _, _ := p.hands(x)
			see(a1)
		}
	}
	for _, w := range p.breaks {
		see(w.to)
	}
	for v := range pl.vats {
		see(pl.vats[v].shut)
		if pl.vats[v].used {
			for _, q := range p.pauses {
				see(pl.vats[v].last + q.long)
			}
		}
	}
	return best
}

// leave forgets what has left the vats by t.
func (pl *placer) leave(t int) {
	kept := pl.in[:0]
	for _, x := range pl.in {
		if x.e > t {
			kept = append(kept, x)
			continue
		}
		pl.vats[x.vat].weight -= pl.p.jobs[x.job].w
		pl.vats[x.vat].count -= pl.p.jobs[x.job].cnt
	}
	pl.in = kept
	pl.t = t
}

// feed feeds a vat once it is empty, when the dips that are left find no strong one. It tells whether it did.
func (pl *placer) feed() bool {
	p := pl.p
	for v := range pl.vats {
		u := &pl.vats[v]
		if u.fed >= p.feeds {
			continue
		}
		from := max(pl.t, u.shut)
		if u.used {
			from = max(from, u.last)
		}
		pl.feeds = append(pl.feeds, held{-1, u.fed, v, from, from + p.wait})
		u.fed++
		u.taken -= p.feed
		u.shut = from + p.wait
		return true
	}
	return false
}
