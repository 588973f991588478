package load

import "math"

// list places the dips by preference: at each moment the job whose next dip has the lowest number goes first, and what
// fits beside it goes too. after, if any, is per dip a time before which it is not lowered. ok is false only if the steps
// run out of moments, which a settled problem never does.
func (l *line) list(rank, after []int) bool {
	p := l.p
	l.reset()
	begin := func(i int) {
		if l.next[i] == p.jobs[i].n {
			l.begins[i] = never
			return
		}
		l.begins[i] = max(l.ready[i], l.last)
		if k := p.jobs[i].base + l.next[i]; after != nil {
			l.begins[i] = max(l.begins[i], after[k])
		}
	}
	for i := range p.jobs {
		begin(i)
	}
	for {
		best := -1
		t := never
		for i, at := range l.begins {
			if at < t || at == t && at < never && l.goesBefore(i, best, rank) {
				best, t = i, at
			}
		}
		if best < 0 {
			return true
		}
		if t >= far {
			if !l.feed() {
				return false
			}
			for i := range p.jobs {
				begin(i)
			}
			continue
		}
		l.steps += len(p.jobs) / 8
		if until := l.turn(best, t); until > t {
			l.begins[best] = until
			continue
		}
		x, later := l.at(best, t)
		if l.begins[best] = later; later == 0 {
			l.put(x)
			begin(best)
		}
	}
}

// never is when a job begins that has no dip left.
const never = math.MaxInt

// goesBefore tells whether list looks at job a before it looks at job b, at the same time.
func (l *line) goesBefore(a, b int, rank []int) bool {
	if l.fair {
		if x, y := l.round(a), l.round(b); x != y {
			return x < y
		}
	}
	return rank[l.p.jobs[a].base+l.next[a]] < rank[l.p.jobs[b].base+l.next[b]]
}

// sequence places the dips of a list of jobs one by one, each at the earliest time there is. With strict none is lowered
// before the one ahead of it: so a plan can wait for a dip.
func (l *line) sequence(seq []int, strict bool) bool {
	p := l.p
	l.reset()
	for _, i := range seq {
		from := l.ready[i]
		if strict || p.holds > 0 && !p.anyhow {
			from = max(from, l.last)
		}
		if l.next[i] < p.jobs[i].n && !l.place(i, from) { // the others are settled
			return false
		}
	}
	return true
}

// jobsOf is the jobs of a plan in the order of its dips.
func jobsOf(placed []held, into []int) []int {
	for _, x := range placed {
		into = append(into, x.job)
	}
	return into
}
