package load

import (
	"slices"
)

// The bounds look at one limit at a time. A small day is gone through whole, by all orders of its work, for a plan that ends sooner
// than what is known. Only what every plan keeps is asked for: room, hands, breaks and airings, two vats taken as one; so where
// nothing is found no plan ends sooner, and what is found may not be one.
//
// With one pair of hands the order is that of all its work, lowerings and lifts; a lift that comes late for its dip puts the
// dip off, and all that hangs on it. Else it is that of the lowerings, each as soon as it can be, and only moved pieces take
// hands: then nothing is worth waiting for. All beginnings of as much work are looked at before longer ones. Of two with the same dips
// that one is dropped that leaves no piece, no room and no hands sooner than the other (dominance, as in Demeulemeester and
// Herroelen, Management Science 38 (1992) 1803, from memory).
type walk struct {
	p      *problem
	things []uses
	each   []float64 // what a dip of a job takes at least of the day, beside all others
	single bool // one pair of hands, and its order is looked at
	busy   []window
	until  int // only what ends sooner is looked for
	steps  int // left
	found  *dipped
	ahead  map[string][]*stage // beginnings with a task more, by their dips
	all    []*stage            // the same, in the order in which they were found
}

// stage is how a day stands that is begun.
type stage struct {
	next    []int  // per job: the dip to come
	out     []int  // per job: when its latest dip is out of the vat, or would be
	last    int    // nothing that is to come begins sooner
	block   []task // the work since something hangs, for one pair of hands; none of it is settled yet
	hanging int
	dips    *dipped
	at      []int32 // what is compared: of a stage with the same dips, no larger is worse
	worse   bool    // than another
}

// task is a stretch of work: a lowering, a lift, or the whole of a dip.
type task struct {
	job, s, long int
	lowers       bool
	of           int // of a lift: its lowering in the block, else -1
	after        int // the end of its piece's dip before, -1 if that is not in the block
}

// dipped is a list of dips, the last first.
type dipped struct {
	held
	up *dipped
}

// walkPart is how many steps of the search a walk goes for one of its own, mostWalked the most dips of a day that is walked.
const (
	walkPart   = 2
	mostWalked = 48
)

// walked is a bound on the last lift, from low, one that is known, to until, the end of a plan, and dips that end sooner, if there are.
func (p *problem) walked(low, until int) (int, []held) {
	if p.ops > mostWalked {
		return low, nil
	}
	w := &walk{p: p, things: p.things(), until: until, steps: p.limits.effort() / walkPart, busy: slices.Clone(p.breaks)}
	w.single = p.pairs == 1 && !slices.ContainsFunc(p.jobs, func(j job) bool { return !j.moved && j.h == 0 })
	s := &stage{next: make([]int, len(p.jobs)), out: slices.Repeat([]int{-far}, len(p.jobs)), last: p.now}
	for _, x := range p.fixed {
		_, _, b0, b1 := p.hands(x)
		s.out[x.job] = x.e
		w.busy = append(w.busy, window{b0, b1})
	}
	w.busy = merged(w.busy)
	var dips []int
	for _, j := range p.jobs {
		dips = append(dips, j.n)
	}
	_, w.each = p.mixture(dips)
	for layer := []*stage{s}; len(layer) > 0 && w.steps >= 0 && w.until > low; layer = w.all {
		w.ahead, w.all = map[string][]*stage{}, nil
		for _, s := range layer {
			if !s.worse {
				w.look(s)
			}
		}
	}
	if w.steps >= 0 {
		low = max(low, w.until)
	}
	var out []held
	for x := w.found; x != nil; x = x.up {
		out = append(out, x.held)
	}
	byTime(out)
	return low, out
}

// hangs is which of the block's work lowered a job that hangs, -1 if it does not hang.
func (s *stage) hangs(i int) int {
	for q := len(s.block) - 1; q >= 0; q-- {
		if s.block[q].job == i {
			if s.block[q].lowers {
				return q
			}
			break
		}
	}
	return -1
}

// past is the first time from t on at which the hands are there for so long.
func (w *walk) past(t, long int) int {
	for _, b := range w.busy {
		if b.within(t, t+long) {
			t = b.to
		}
	}
	return t
}

// start is the soonest time for the next of a job's work. fits is false where the vat has no room for it before a lift.
func (w *walk) start(s *stage, i int) (t int, fits bool) {
	p, j := w.p, &w.p.jobs[i]
	if s.hangs(i) >= 0 {
		return w.past(max(s.last, s.out[i]-j.h), j.h), true
	}
	room, places := int64(p.vats)*min(p.cap, far/8)-j.w, p.vats*min(p.most, far/8)-j.cnt
	t = max(s.last, j.ready, s.out[i]+j.a)
	if w.single {
		for _, x := range s.block {
			if k := &p.jobs[x.job]; x.lowers {
				room, places = room-k.w, places-k.cnt
			} else if x.of >= 0 {
				room, places = room+k.w, places+k.cnt
			}
		}
		if j.moved {
			return w.past(t, j.d()), room >= 0 && places >= 0
		}
		return w.past(t, j.h), room >= 0 && places >= 0
	}
	for {
		t = p.open(i, t)
		r, n, pairs, until := room, places, p.pairs-btoi(j.moved), far
		for k, e := range s.out {
			if e > t {
				r, n, pairs, until = r-p.jobs[k].w, n-p.jobs[k].cnt, pairs-btoi(p.jobs[k].moved), min(until, e)
			}
		}
		if r >= 0 && n >= 0 && (pairs >= 0 || p.pairs == 0 || !j.moved) {
			return t, true
		}
		t = until
	}
}

// least is a last lift that nothing beats that can come of a stage.
func (w *walk) least(s *stage) (low int) {
	p := w.p
	for r, more := 0, true; more; r++ {
		sum, tail := 0.0, far
		more = false
		for i := range p.jobs {
			j := &p.jobs[i]
			if k := j.n - s.next[i] - r; k > 0 {
				sum += w.each[i] * float64(k)
				tail, more = min(tail, r*(j.d()+j.a)), true
			}
		}
		if more {
			low = max(low, s.last+int(sum*(1-1e-7)+0.999)+tail)
		}
	}
	if low >= w.until {
		return low
	}
	for n := range w.things {
		u := &w.things[n]
		for r, more := 0, true; more; r++ { // of what still has so many dips after it
			sum, tail := int64(0), far
			more = false
			for i := range p.jobs {
				j := &p.jobs[i]
				left := j.n - s.next[i]
				if k := left - r; k > 0 {
					sum += u.of[i] * int64(k*u.handled(j))
					tail, more = min(tail, r*(j.d()+j.a)), true
				}
				if e := s.out[i]; e > s.last && left >= r {
					if e -= s.last; u.hands && !j.moved {
						e = min(e, j.h)
					}
					sum += u.of[i] * int64(e)
					tail = min(tail, left*(j.d()+j.a))
				}
			}
			if tail < far {
				low = max(low, p.earliest(u, s.last, int((sum+u.cap-1)/u.cap))+tail)
			}
		}
	}
	return low
}

// look looks at what can follow a stage.
func (w *walk) look(s *stage) {
	p := w.p
	starts, ways, soonest := make([]int, len(p.jobs)), make([]int, 0, len(p.jobs)), far
	for i := range p.jobs {
		j := &p.jobs[i]
		left, hangs := j.n-s.next[i], s.hangs(i) >= 0
		if left == 0 && !hangs {
			continue
		}
		t, fits := w.start(s, i)
		end := t + left*(j.d()+j.a) - j.a
		if hangs {
			end += j.h + j.a
		}
		if end >= w.until {
			return
		}
		if s.hanging == 0 {
			soonest = min(soonest, t+j.d())
		}
		if starts[i] = t; fits {
			ways = append(ways, i)
		}
	}
	for _, i := range ways {
		if starts[i] < soonest { // else another dip could go in before
			w.follow(s, i, starts[i])
		}
	}
}

// follow is a stage after a job's next work at a time.
func (w *walk) follow(s *stage, i, t int) {
	p, j := w.p, &w.p.jobs[i]
	if w.steps -= 2 + len(s.block); w.steps < 0 {
		return
	}
	x := task{job: i, s: t, long: j.d(), of: s.hangs(i), after: -1}
	for q, y := range s.block {
		if y.job == i && x.of < 0 {
			x.after = q
		}
	}
	if x.of >= 0 || w.single && !j.moved {
		x.long = j.h
		x.lowers = x.of < 0
	}
	n := &stage{next: s.next, out: slices.Clone(s.out), last: t, hanging: s.hanging, dips: s.dips}
	if x.of < 0 {
		n.next = slices.Clone(s.next)
		n.next[i]++
	}
	switch n.hanging += btoi(x.lowers) - btoi(x.of >= 0); {
	case s.hanging > 0 || x.lowers:
		n.block = append(slices.Clone(s.block), x)
		at := make([]int, len(n.block))
		for q, y := range n.block {
			at[q] = y.s
		}
		if !s.holds(p, x) || !w.press(n.block, at, w.past) {
			return
		}
		for q, s := range at {
			y := &n.block[q]
			y.s, n.last = s, s+y.long
			if n.out[y.job] = s + y.long; y.lowers {
				n.out[y.job] = s + p.jobs[y.job].d()
			}
		}
	case w.single:
		n.last, n.out[i] = t+x.long, t+x.long
		n.dips = &dipped{held{job: i, s: t, e: t + x.long}, n.dips}
	default:
		n.out[i] = t + x.long
		n.dips = &dipped{held{job: i, s: t, e: t + x.long}, n.dips}
	}
	if n.hanging == 0 {
		for _, y := range n.block {
			if y.of < 0 {
				n.dips = &dipped{held{job: y.job, s: y.s, e: y.s + p.jobs[y.job].d()}, n.dips}
			}
		}
		n.block = nil
	}
	if w.least(n) < w.until {
		w.add(n)
	}
}

// holds tells whether what hangs can hang as long as the work in between takes, with x.
func (s *stage) holds(p *problem, x task) bool {
	long := x.long
	for q := len(s.block) - 1; q >= 0; q-- {
		y := s.block[q]
		if y.lowers && y.job != x.job && s.hangs(y.job) == q && long > p.jobs[y.job].p {
			return false
		}
		long += y.long
	}
	return true
}

// press moves the times of a block, to later ones only, so far that its order and the lengths of its dips are kept. It is false if there is
// no end of it, or it ends too late.
func (w *walk) press(block []task, at []int, past func(t, long int) int) bool {
	back := 1
	for _, x := range block {
		back += btoi(x.of >= 0)
	}
	for again := true; again; back-- {
		again = false
		if w.steps < 0 || back < 0 && len(w.busy) == 0 {
			return false
		}
		for q, x := range block {
			j, s := &w.p.jobs[x.job], at[q]
			if q > 0 {
				s = max(s, at[q-1]+block[q-1].long)
			}
			if x.after >= 0 {
				s = max(s, at[x.after]+block[x.after].long+j.a)
			}
			if x.of >= 0 {
				s = max(s, at[x.of]+j.h+j.p)
			}
			at[q] = past(s, x.long)
			if x.of >= 0 && at[q] > at[x.of]+j.h+j.p {
				at[x.of], again = at[q]-j.p-j.h, true
			}
			if at[q]+x.long >= w.until {
				return false
			}
		}
	}
	return true
}

// add adds a stage to those ahead, if none of them stands as well with the same dips, and drops those that it stands as well as.
func (w *walk) add(n *stage) {
	p := w.p
	key := make([]byte, 0, 2*len(n.next)+len(n.block))
	n.at = append(make([]int32, 0, (len(n.next)+1)*(1+n.hanging)), int32(n.last))
	left := false
	for i, k := range n.next {
		j := &p.jobs[i]
		key = append(key, byte(2*k+btoi(n.hangs(i) >= 0)))
		at := n.out[i]
		if k < j.n {
			at = max(j.ready, at+j.a)
			left = true
		}
		if n.hangs(i) < 0 {
			at = max(at, n.last)
		}
		n.at = append(n.at, int32(at))
	}
	if !left && n.hanging == 0 {
		if end := slices.Max(n.out); end < w.until {
			w.until, w.found = end, n.dips
		}
		return
	}
	for q, x := range n.block {
		if len(w.busy) > 0 { // what is put off may jump over a break: only the same work is compared, all of it
			key = append(key, byte(x.job))
			n.at = append(n.at, int32(x.s))
		} else if x.lowers && n.hangs(x.job) == q {
			w.drags(n, q)
		}
	}
	old := w.ahead[string(key)]
	w.steps -= len(old) / 4
	for _, o := range old {
		if better, worse := compared(o.at, n.at); better {
			return
		} else if worse {
			o.worse = true
		}
	}
	w.ahead[string(key)] = append(slices.DeleteFunc(old, func(o *stage) bool { return o.worse }), n)
	w.all = append(w.all, n)
}

// compared tells whether a is nowhere later than b, and whether b is nowhere later than a.
func compared(a, b []int32) (better, worse bool) {
	better, worse = true, true
	for k := range a {
		better, worse = better && a[k] <= b[k], worse && b[k] <= a[k]
		if !better && !worse {
			break
		}
	}
	return better, worse
}

// drags notes how long after a lowering the rest comes at least: nothing before it, what hangs, and each piece's next dip.
func (w *walk) drags(n *stage, lowering int) {
	gaps := slices.Repeat([]int{-far}, len(n.block))
	gaps[lowering] = 0
	w.press(n.block, gaps, func(t, _ int) int { return t })
	end := len(n.block) - 1
	last := gaps[end] + n.block[end].long
	n.at = append(n.at, int32(max(last, -1e9)))
	for i := range w.p.jobs {
		gap := last
		for q := end; q >= 0; q-- {
			if x := &n.block[q]; x.job == i {
				if gap = gaps[q]; !x.lowers {
					gap = max(gap+x.long+w.p.jobs[i].a, last)
				}
				break
			}
		}
		n.at = append(n.at, int32(max(gap, -1e9)))
	}
}
