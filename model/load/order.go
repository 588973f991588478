package load

import "math"

// look is when list looks at a job's next dip; at the same time the lowest round goes first, in it the lowest rank.
type look struct {
	at, round, rank int
	promised        bool
}

// list places the dips by preference: at each moment the job whose next dip has the lowest number goes first, and what
// fits beside it goes too. after, if any, is per dip a time before which it is not lowered. ok is false only if the steps
// run out of moments, which a settled problem never does.
func (l *line) list(rank, after []int) bool {
	p, looks := l.p, l.looks
	l.reset()
	clear(l.no)
	begin := func(i int) {
		x, j, next := &looks[i], &p.jobs[i], l.next[i]
		if next == j.n {
			x.at = never
			return
		}
		x.at, x.rank = max(l.ready[i], l.last), rank[j.base+next]
		if after != nil {
			x.at = max(x.at, after[j.base+next])
		}
		if l.fair {
			x.round, x.promised = l.round(i), p.promised(i)
		}
	}
	for i := range looks {
		begin(i)
	}
	for {
		best, first := -1, look{at: never}
		for i := range looks { // field by field: most are later
			x := &looks[i]
			if at := x.at; at > first.at || at == never || at == first.at && (x.round > first.round || x.round == first.round && x.rank >= first.rank) {
				continue
			}
			best, first = i, *x
		}
		t := first.at
		if best < 0 {
			return true
		}
		if t >= far {
			if !l.feed() {
				return false
			}
			clear(l.no)
			for i := range looks {
				begin(i)
			}
			continue
		}
		l.steps += len(looks) / 8
		if until := l.turn(best, t); until > t {
			looks[best].at = until
			continue
		}
		no := &l.no[l.kinds[best]]
		if no.later > 0 && no.at == t {
			l.steps, looks[best].at = l.steps+no.steps, no.later
			continue
		}
		before := l.steps
		x, later := l.at(best, t)
		if looks[best].at = later; later > 0 {
			*no = refusal{t, later, l.steps - before}
			continue
		}
		l.put(x)
		begin(best)
		clear(l.no)
	}
}

// never is when a job begins that has no dip left.
const never = math.MaxInt

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
