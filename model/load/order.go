package load

import "slices"

// list places the dips by preference: at each moment the job whose next dip has the lowest number goes first, and what
// fits beside it goes too. ok is false only if the steps run out of moments, which a settled problem never does.
func (pl *placer) list(rank []int) bool {
	p := pl.p
	pl.reset()
	left := p.ops
	for left > 0 {
		pl.leave(pl.t)
		pl.queue = pl.queue[:0]
		for i := range p.jobs {
			j := &p.jobs[i]
			if pl.next[i] == j.n || pl.ready[i] > pl.t {
				continue
			}
			pl.queue = append(pl.queue, i)
			for q := len(pl.queue) - 1; q > 0; q-- {
				a, b := pl.queue[q-1], pl.queue[q]
				if rank[p.jobs[a].base+pl.next[a]] <= rank[p.jobs[b].base+pl.next[b]] {
					break
				}
				pl.queue[q-1], pl.queue[q] = b, a
			}
		}
		pl.steps += len(p.jobs) / 4
		next := far
		for _, i := range pl.queue {
			v, byHands := pl.vatFor(i)
			if v >= 0 {
				pl.put(i, v, pl.t)
				left--
			} else if byHands {
				pl.steps += len(pl.in)
				next = min(next, pl.lifts(i))
			}
		}
		if left == 0 {
			break
		}
		next = min(next, pl.soonest())
		for i := range p.jobs {
			if pl.next[i] < p.jobs[i].n && pl.ready[i] > pl.t {
				next = min(next, pl.ready[i])
			}
		}
		if next >= far && !pl.feed() {
			return false
		}
		if next < far {
			if p.feeds > 0 && !pl.anyStrong() && pl.feed() {
				continue
			}
			pl.t = next
		}
	}
	return true
}

// anyStrong tells whether some dip that is left finds a vat strong enough for it.
func (pl *placer) anyStrong() bool {
	for i := range pl.p.jobs {
		if pl.next[i] < pl.p.jobs[i].n {
			for v := range pl.vats {
				if pl.strong(i, v) {
					return true
				}
			}
		}
	}
	return false
}

// inOrder places the dips of a list one by one, none lowered before the one ahead of it: so a plan can wait for a dip.
func (pl *placer) inOrder(seq []int) bool {
	p := pl.p
	pl.reset()
	for _, i := range seq {
		pl.leave(max(pl.t, pl.ready[i]))
		v, byHands := pl.vatFor(i)
		for v < 0 {
			next := pl.soonest()
			if byHands {
				next = min(next, pl.lifts(i))
			}
			if next < far {
				pl.leave(next)
			} else if !pl.feed() {
				return false
			}
			v, byHands = pl.vatFor(i)
		}
		pl.put(i, v, pl.t)
	}
	return len(seq) == p.ops
}

// sequence is the jobs of a plan in the order of their lowerings.
func sequence(placed []held) []int {
	seq := make([]int, len(placed))
	for q, x := range placed {
		seq[q] = x.job
	}
	return seq
}

// byTime puts dips in the order of their lowerings, those of one moment as they are.
func byTime(xs []held) {
	slices.SortStableFunc(xs, func(a, b held) int { return a.s - b.s })
}
