package load

import "slices"

// The bounds look at one limit at a time. A small day is gone through whole, by all orders of its work, for a plan that ends sooner
// than what is known. Only what every plan keeps is asked for: room, hands, breaks and airings, two vats taken as one; so where
// nothing is found no plan ends sooner, and what is found may not be one.
//
// With one pair of hands the order is that of all its work, lowerings and lifts; a lift that comes late for its dip puts the
// dip off, and all that hangs on it. Else it is that of the lowerings, each as soon as it can be, and only moved pieces take
// hands: then nothing is worth waiting for. Beginnings of as much work are looked at side by side. Of two with the same dips
// that one is dropped that leaves no piece, no room and no hands sooner than the other (dominance, as in Demeulemeester and
// Herroelen, Management Science 38 (1992) 1803, from memory).
type walk struct {
	p      *problem
	things []uses
	single bool // one pair of hands
	busy   []window
	until  int // only what ends sooner is looked for
	steps  int // left
	found  *dipped
	ahead  map[string][]*stage // beginnings with a task more, by their dips
	all    []*stage            // the same, in the order in which they were found
	live   []chain             // room for reckoning
}

// chain is what is still to come of a job: its dips, the seconds that its latest one still lasts, and those of a dip with its airing.
type chain struct{ job, left, lasts, each int }

// stage is how a day stands that is begun.
type stage struct {
	next    []int  // per job: the dip to come
	out     []int  // per job: when its latest dip is out of the vat, or would be
	last    int    // nothing that is to come begins sooner
	block   []task // for one pair of hands: the work since something hangs; none of it is settled yet
	hanging int
	dips    *dipped // settled
	at      []int32 // when what is to come can begin: of a stage with the same dips, no larger is worse
	worse   bool    // than another
}

// task is a stretch of work: a lowering, a lift, or the whole of a dip. of is a lift's lowering in the block, after the end
// of its piece's dip before, -1 where there is none.
type task struct {
	job, s, long int
	lowers       bool
	of, after    int
}

// dipped is a list of dips, the last first.
type dipped struct {
	held
	up *dipped
}

// A walk has 1/walkPart of the steps of the search; by no source but the time that it takes. A day of more pieces than mostWalked or
// more dips than mostDips is not walked: it would take a second and prove nothing.
const (
	walkPart   = 2
	mostWalked = 8
	mostDips   = 48
)

// walked is a bound on the last lift, from low, one that is known, to until, the end of a plan, and dips that end sooner, if there are.
func (p *problem) walked(low, until int) (int, []held) {
	if len(p.jobs) > mostWalked || p.ops > mostDips {
		return low, nil
	}
	w := &walk{p: p, things: append(p.things(), p.mixed()), until: until, steps: p.limits.effort() / walkPart, busy: slices.Clone(p.breaks),
		single: p.pairs == 1 && !slices.ContainsFunc(p.jobs, func(j job) bool { return !j.moved && j.h == 0 })}
	if p.old != nil { // beside the quarter that replan takes: it is waited for with wet hands
		w.steps /= 4
	}
	s := &stage{next: make([]int, len(p.jobs)), out: slices.Repeat([]int{-far}, len(p.jobs)), last: p.now}
	for _, x := range p.fixed {
		_, _, b0, b1 := p.hands(x)
		s.out[x.job], w.busy = x.e, append(w.busy, window{b0, b1})
	}
	w.busy = merged(w.busy)
	for layer := []*stage{s}; len(layer) > 0 && w.steps > 0 && w.until > low; layer = w.all {
		w.ahead, w.all = map[string][]*stage{}, nil
		for _, s := range layer {
			if !s.worse && w.steps > 0 {
				w.look(s)
			}
		}
	}
	if w.steps > 0 {
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
		if s.block[q].job == i && s.block[q].lowers {
			return q
		} else if s.block[q].job == i {
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
	t = max(s.last, j.ready, s.out[i]+j.a)
	if s.hangs(i) >= 0 {
		t = max(s.last, s.out[i]-j.h)
	}
	for {
		room, places, pairs, until := int64(p.vats)*min(p.cap, far/8)-j.w, p.vats*min(p.most, far/8)-j.cnt, p.pairs-btoi(j.moved), far
		for k, e := range s.out {
			if e > t && !w.single || k != i && s.hangs(k) >= 0 {
				room, places, pairs, until = room-p.jobs[k].w, places-p.jobs[k].cnt, pairs-btoi(p.jobs[k].moved), min(until, e)
			}
		}
		fits = room >= 0 && places >= 0 && (pairs >= 0 || p.pairs == 0 || !j.moved)
		switch open := p.open(i, t); {
		case w.single && j.moved:
			return w.past(t, j.d()), fits
		case w.single:
			return w.past(t, j.h), fits
		case !fits:
			t = until
		case open == t:
			return t, true
		default:
			t = open
		}
	}
}

// bounded is a last lift that nothing beats that can come of a stage.
func (w *walk) bounded(s *stage) (low int) {
	p := w.p
	w.live = w.live[:0]
	for i := range p.jobs {
		j := &p.jobs[i]
		if x := (chain{i, j.n - s.next[i], s.out[i] - s.last, j.d() + j.a}); x.left > 0 || x.lasts > 0 {
			w.live = append(w.live, x)
		}
	}
	for n := range w.things {
		u := &w.things[n]
		for r, more := 0, true; more && low < w.until; r++ { // of what still has so many dips after it
			sum, tail := int64(0), far
			more = false
			for _, x := range w.live {
				if k := x.left - r; k > 0 {
					sum += u.of[x.job] * int64(k*u.handled(&p.jobs[x.job]))
					tail, more = min(tail, r*x.each), true
				}
				if e := x.lasts; e > 0 && x.left >= r && !u.whole {
					if j := &p.jobs[x.job]; u.hands && !j.moved {
						e = min(e, j.h)
					}
					sum += u.of[x.job] * int64(e)
					tail = min(tail, x.left*x.each)
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
	starts, soonest := slices.Repeat([]int{far}, len(w.p.jobs)), far
	for i := range w.p.jobs {
		j := &w.p.jobs[i]
		left, hangs := j.n-s.next[i], s.hangs(i) >= 0
		if left == 0 && !hangs {
			continue
		}
		t, fits := w.start(s, i)
		if t+left*(j.d()+j.a)+btoi(hangs)*(j.h+j.a)-j.a >= w.until {
			return
		}
		if fits {
			starts[i] = t
		}
		if s.hanging == 0 {
			soonest = min(soonest, t+j.d())
		}
	}
	for i, t := range starts {
		if t < soonest { // else another dip could go in before
			w.follow(s, i, t)
		}
	}
}

// follow notes the stage after a job's next work at a time.
func (w *walk) follow(s *stage, i, t int) {
	p, j := w.p, &w.p.jobs[i]
	w.steps -= 2 + len(s.block)
	x := task{job: i, s: t, long: j.d(), of: s.hangs(i), after: -1}
	if x.of >= 0 || w.single && !j.moved {
		x.long, x.lowers = j.h, x.of < 0
	}
	between := x.long
	for q := len(s.block) - 1; q >= 0; q-- { // what hangs can hang as long as the work in between takes
		y := s.block[q]
		if y.lowers && y.job != i && s.hangs(y.job) == q && between > p.jobs[y.job].p {
			return
		}
		if between += y.long; y.job == i && x.of < 0 {
			x.after = max(x.after, q)
		}
	}
	n := &stage{next: slices.Clone(s.next), out: slices.Clone(s.out), last: t, hanging: s.hanging + btoi(x.lowers) - btoi(x.of >= 0), dips: s.dips,
		block: append(slices.Clone(s.block), x)}
	n.next[i] += btoi(x.of < 0)
	if w.single && !w.press(n.block) {
		return
	}
	for _, y := range n.block {
		end := y.s + p.jobs[y.job].d()
		if n.out[y.job] = end; !y.lowers {
			n.out[y.job] = y.s + y.long
		}
		if w.single {
			n.last = y.s + y.long
		}
		if n.hanging == 0 && y.of < 0 {
			n.dips = &dipped{held{job: y.job, s: y.s, e: end}, n.dips}
		}
	}
	if n.hanging == 0 {
		n.block = nil
	}
	if w.bounded(n) < w.until {
		w.add(n)
	}
}

// press puts the work of a block off so far that its order, the hands and the lengths of its dips are kept. It is false if there is no end of
// it, or it ends too late.
func (w *walk) press(block []task) bool {
	back := 1 // what hangs is put off as often as there are lifts, or without end
	for _, x := range block {
		back += btoi(x.of >= 0)
	}
	for again := true; again; back-- {
		again = false
		for q := range block {
			x := &block[q]
			j := &w.p.jobs[x.job]
			if q > 0 {
				x.s = max(x.s, block[q-1].s+block[q-1].long)
			}
			if x.after >= 0 {
				x.s = max(x.s, block[x.after].s+block[x.after].long+j.a)
			}
			if x.s = w.past(x.s, x.long); x.of >= 0 {
				due := block[x.of].s + j.h + j.p
				x.s = w.past(max(x.s, due), x.long)
				again = again || x.s > due
				block[x.of].s += x.s - due
			}
			if x.s+x.long >= w.until || back < 0 && len(w.busy) == 0 {
				return false
			}
		}
	}
	return true
}

// add adds a stage to those ahead, if none of them stands as well with the same dips, and drops those that it stands as well as.
func (w *walk) add(n *stage) {
	key := make([]byte, 0, len(n.next)+len(n.block))
	n.at = append(make([]int32, 0, 1+cap(key)), int32(n.last))
	left := n.hanging > 0
	for i, k := range n.next {
		at := n.out[i]
		if j := &w.p.jobs[i]; k < j.n {
			at, left = max(j.ready, at+j.a), true
		}
		key, n.at = append(key, byte(k)), append(n.at, int32(max(at, n.last)))
	}
	for _, x := range n.block {
		key, n.at = append(key, byte(x.job)), append(n.at, int32(x.s))
	}
	if !left {
		w.until, w.found = slices.Max(n.out), n.dips
		return
	}
	old := w.ahead[string(key)]
	w.steps -= len(old) / 4
	for _, o := range old {
		better, worse := true, true
		for k, v := range n.at {
			better, worse = better && o.at[k] <= v, worse && v <= o.at[k]
		}
		if o.worse = worse && !better; better {
			return
		}
	}
	w.ahead[string(key)] = append(slices.DeleteFunc(old, func(o *stage) bool { return o.worse }), n)
	w.all = append(w.all, n)
}
