package load

import "slices"

// score is what a plan is worth, the first figure that differs decides; less is better. In order: dips in too weak a vat,
// seconds past the latest finish, the last lift, dips that a replan moves, dark first or who waits longest (two figures),
// trips.
type score [7]int

func (s score) less(o score) bool {
	for i := range s {
		if s[i] != o[i] {
			return s[i] < o[i]
		}
	}
	return false
}

// The figures of a score.
const (
	ofWeak = iota
	ofLate
	ofSpan
	ofMoved
	ofFirst
	ofSecond
	ofTrips
)

// scorer reckons scores; it keeps its room between plans.
type scorer struct {
	p    *problem
	ends []int
	segs []window
}

// of is the score of a plan in the order of its lowerings. If what comes before the trips is worse than best already, the
// trips are left uncounted.
func (c *scorer) of(placed []held, weak int, best *score) score {
	p := c.p
	var s score
	s[ofWeak] = weak
	s[ofSpan] = p.now
	c.ends = append(c.ends[:0], make([]int, len(p.jobs))...)
	for _, x := range p.fixed {
		c.see(&s, x)
	}
	longest, sum := 0, 0
	for _, x := range placed {
		j := &p.jobs[x.job]
		from := j.ready
		if x.k > 0 {
			from = c.ends[x.job] + j.a
		}
		longest, sum = max(longest, x.s-from), sum+x.s-from
		c.see(&s, x)
		if p.old != nil && p.old[j.base+x.k] != x.s {
			s[ofMoved]++
		}
		if x.k == 0 && j.done == 0 && !p.limits.Fair {
			s[ofFirst] += j.dark * x.s
		}
	}
	if p.limits.Fair {
		s[ofFirst], s[ofSecond] = longest, sum
	}
	if best != nil && best[ofTrips] > 0 {
		t := s
		t[ofTrips] = best[ofTrips]
		if best.less(t) {
			s[ofTrips] = far
			return s
		}
	}
	s[ofTrips] = c.trips(placed)
	return s
}

// see counts a dip's end.
func (c *scorer) see(s *score, x held) {
	c.ends[x.job] = x.e
	s[ofSpan] = max(s[ofSpan], x.e)
	if c.p.latest > 0 {
		s[ofLate] = max(s[ofLate], x.e+c.p.jobs[x.job].tail-c.p.latest)
	}
}

// trips counts the moments at which the hands go to the vat: stretches of handling that touch are one.
func (c *scorer) trips(placed []held) int {
	p := c.p
	c.segs = c.segs[:0]
	for _, x := range p.fixed {
		_, _, b0, b1 := p.hands(x)
		c.segs = append(c.segs, window{max(b0, p.now), max(b1, p.now)})
	}
	for _, x := range placed {
		a0, a1, b0, b1 := p.hands(x)
		c.segs = append(c.segs, window{a0, a1})
		if b0 < b1 || !p.jobs[x.job].moved {
			c.segs = append(c.segs, window{b0, b1})
		}
	}
	slices.SortFunc(c.segs, func(a, b window) int { return a.from - b.from })
	n, until := 0, -1
	for _, w := range c.segs {
		if w.from > until {
			n++
		}
		until = max(until, w.to)
	}
	return n
}
