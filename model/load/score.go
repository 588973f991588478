package load

import (
	"slices"

	"example.org/vatside/model/sorted"
)

// score is what a plan is worth, the first figure that differs decides; less is better.
type score [12]int

func (s score) less(o score) bool { return slices.Compare(s[:], o[:]) < 0 }

// The figures of a score, in their order.
const (
	ofWeak    = iota // dips in too weak a vat, where they outrank time
	ofOver           // the next two together: to be in time is worth no more than that somebody can leave
	ofLate           // seconds past the latest finish, of pieces that can be done by then
	ofLeaving        // seconds that people who leave early must stay longer
	ofEach           // seconds past the latest finish of each of the pieces in ofLate: one that must be late makes no other so
	ofPast           // seconds past when a piece would be done by itself, of those that cannot be done by the latest finish
	ofSpan           // the last lift
	ofFaint          // dips in too weak a vat, where time outranks them
	ofMoved          // of a replan: seconds shifted, and anOrder for each dip that changes places with the one ahead of it
	ofFirst          // fair turns: the last first dip; else dark first
	ofSecond         // fair turns: the longest wait
	ofTrips
)

// anOrder is what a change of order is worth, in seconds of shift: hands that were told an order are led astray by another. M
const anOrder = 300

// scorer reckons scores; it keeps its room between plans.
type scorer struct {
	p    *problem
	ends []int
	segs []window
}

// of is the score of a plan in the order of its lowerings. If what comes before the trips is worse than best already, the
// trips are left uncounted.
func (c *scorer) of(placed, feeds []held, best *score) score {
	p := c.p
	var s score
	s[ofWeak], _ = p.weak(placed, feeds)
	if p.anyhow {
		s[ofFaint], s[ofWeak] = s[ofWeak], 0
	}
	s[ofSpan] = p.now
	c.ends = append(c.ends[:0], make([]int, len(p.jobs))...)
	for _, x := range p.fixed {
		c.ends[x.job] = x.e
	}
	before := -1
	for _, x := range placed {
		j := &p.jobs[x.job]
		from := j.ready
		if x.k > 0 {
			from = c.ends[x.job] + j.a
		}
		c.ends[x.job] = x.e
		if p.old != nil {
			if was := p.old[j.base+x.k]; was >= 0 {
				s[ofMoved] += max(was-x.s, x.s-was)
				if was < before {
					s[ofMoved] += anOrder
				}
				before = was
			}
		}
		switch first := x.k == 0 && j.done == 0; {
		case p.limits.Fair && !p.promised(x.job):
			s[ofSecond] = max(s[ofSecond], x.s-from)
			if first {
				s[ofFirst] = max(s[ofFirst], x.s)
			}
		case first && !p.limits.Fair:
			s[ofFirst] += j.dark * x.s
		}
	}
	for i, end := range c.ends {
		j := &p.jobs[i]
		if s[ofSpan] = max(s[ofSpan], end); j.till > 0 && end > 0 {
			s[ofLeaving] += max(0, end-j.till)
		}
		if soonest := j.soonest(); p.latest > 0 && end > 0 && soonest > p.latest {
			s[ofPast] = max(s[ofPast], end+j.tail-soonest)
		} else if p.latest > 0 && end > 0 {
			s[ofLate] = max(s[ofLate], end+j.tail-p.latest)
			s[ofEach] += max(0, end+j.tail-p.latest)
		}
	}
	s[ofOver] = s[ofLate] + s[ofLeaving]
	if best != nil {
		if s[ofTrips] = best[ofTrips]; best.less(s) {
			s[ofTrips] = far
			return s
		}
	}
	s[ofTrips] = c.trips(placed)
	return s
}

// weak counts the dips of a plan that find too little indigo, and tells the first.
func (p *problem) weak(placed, feeds []held) (n int, first held) {
	if p.holds == 0 {
		return 0, held{}
	}
	var taken [MostVats]int64
	fed := 0
	for _, x := range placed {
		for fed < len(feeds) && feeds[fed].e <= x.s {
			taken[feeds[fed].vat] -= p.feed
			fed++
		}
		j := &p.jobs[x.job]
		if p.holds-taken[x.vat] < j.least {
			if n++; n == 1 {
				first = x
			}
		}
		taken[x.vat] += j.takes
	}
	return n, first
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
	sorted.By(c.segs, func(a, b window) int { return a.from - b.from })
	n, until := 0, -1
	for _, w := range c.segs {
		if w.from > until {
			n++
		}
		until = max(until, w.to)
	}
	return n
}

// draft is a plan in the making.
type draft struct {
	placed, feeds []held
	score         score
}
