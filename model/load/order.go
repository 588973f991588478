package load

import (
	"cmp"
	"math"

	"example.org/vatside/model/sorted"
)

// look is when list looks at a job's next dip; at the same time the lowest round goes first, in it the lowest rank.
type look struct {
	at, round, rank int
	promised        bool
}

// behind is above 0 where job i goes after job k if both can go at once.
func (l *line) behind(i, k int) int {
	x, y := &l.looks[i], &l.looks[k]
	return cmp.Or(x.round-y.round, x.rank-y.rank, i-k)
}

// list places the dips by preference: at each moment the job whose next dip has the lowest number goes first, and what
// fits beside it goes too. The later dips of a job have no lower numbers than those before. after, if any, is per dip a time
// before which it is not lowered. ok is false only if the steps run out of moments, which a settled problem never does.
func (l *line) list(rank, after []int) bool {
	p, looks, order := l.p, l.looks, l.order
	l.reset()
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
	for i := range order {
		begin(i)
		order[i] = i
	}
	sorted.By(order, l.behind)
	for {
		t := never
		for i := range looks {
			t = min(t, looks[i].at)
		}
		switch {
		case t == never:
			return true
		case t >= far:
			if !l.feed() {
				return false
			}
			for i := range looks {
				begin(i)
			}
			continue
		}
		l.steps += len(looks) / 8
		for q := 0; q < len(order); q++ {
			i := order[q]
			if looks[i].at != t {
				continue
			}
			if looks[i].at = l.turn(i, t); looks[i].at > t {
				continue
			}
			x, until := l.at(i, t)
			if looks[i].at = until; until > 0 {
				continue
			}
			l.put(x)
			begin(i)
			for k := q; k+1 < len(order) && l.behind(i, order[k+1]) > 0; k++ {
				order[k], order[k+1] = order[k+1], i
			}
			q--
		}
	}
}

// never is when a job begins that has no dip left.
const never = math.MaxInt

// sequence places the dips of a list of jobs one by one, each at the earliest time there is. With strict none is lowered
// before the one ahead of it: so a plan can wait for a dip.
func (l *line) sequence(seq []int, strict bool) bool {
	l.reset()
	for _, i := range seq {
		from := l.ready[i]
		if strict {
			from = max(from, l.last)
		}
		if l.next[i] < l.p.jobs[i].n && !l.place(i, from) { // the others are settled
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
