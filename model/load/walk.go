package load

import (
	"math/bits"
	"slices"
)

// The bounds look at one limit at a time. A small day is gone through whole, by all orders of its work, for a plan that ends sooner
// than what is known. Only what every plan keeps is asked for: room, hands, breaks and airings, two vats taken as one; so where
// nothing is found no plan ends sooner, and what is found may not be one.
//
// Work is a lowering, a lift, or the whole of a dip that is moved, in the order of its beginnings, each as soon as it can be. A lift that
// comes late for its dip puts the dip off, and all that hangs on it (stage.go). Taken loosely, what hangs is lifted without hands.
// Beginnings of as much work are looked at side by side. Of two with the same dips that one is dropped that leaves no piece, no room and no
// hands sooner than the other (dominance, as in Demeulemeester and Herroelen, Management Science 38 (1992) 1803, from memory).
type walk struct {
	p      *problem
	things []uses
	loose  bool
	pairs  int // that are reckoned with; 0: no limit
	busy   []window
	from   int   // nothing begins sooner
	gap    int   // the vat stands empty for so long once; 0: it need not
	until  int   // only what ends sooner is looked for
	steps  int   // left
	kinds  []int // per job: the first of its kind
	takes  []int // per job: how long its next work takes the hands
	found  *did
	ahead  map[begun][]*stage // beginnings with a task more
	all    []*stage           // the same, in the order in which they were found
	live   []chain            // room for reckoning, as made
	made   stage
}

// did is a list of work, the last first: a job's next at a time.
type did struct {
	job, s int
	up     *did
}

// A walk has half the steps of the search, of more than usualWalked pieces a quarter, by no source but the time that it takes. A day of
// more pieces than mostWalked or more dips than mostDips is not walked: it would take a second and prove nothing.
const (
	usualWalked = 6
	mostWalked  = 8
	mostDips    = 48
)

// walked is a plan that ends sooner than best, if one is found and may be, and a bound on the last lift, from low, one that is known. A day
// that asks for a pause is gone through as one stretch of work, begun as late as it ends in time, and with a pause in it.
func (p *problem) walked(low int, best draft) (draft, int) {
	if len(p.jobs) > mostWalked || p.ops > mostDips {
		return best, low
	}
	steps, sure := p.limits.effort()/2, far
	if len(p.jobs) > usualWalked {
		steps /= 2
	}
	if p.old != nil { // beside the third that replan takes: it is waited for with wet hands
		steps /= 4
	}
	var due pause
	for _, q := range p.pauses {
		if q.after < best.score[ofSpan] && q.long > due.long && p.vats == 1 && p.now+len(p.breaks)+len(p.fixed) == 0 {
			due = q
		}
	}
	lifts := p.pairs > 0 && p.pairs < len(p.jobs) && slices.ContainsFunc(p.jobs, func(j job) bool { return !j.moved && j.h > 0 })
	for _, stretch := range []bool{true, false} {
		known := low
		for _, loose := range []bool{true, false} {
			end := best.score[ofSpan]
			if known >= end || steps <= 0 || stretch && due.long == 0 || loose && lifts && p.pairs == 1 || !loose && !lifts {
				continue
			}
			w := p.walk(loose, end, steps)
			if w.gap = due.long; stretch {
				w.from, w.gap = end-1-due.after, 0
			}
			w.run(low)
			if steps = w.steps; steps > 0 && (!stretch || w.found == nil) {
				known = max(known, w.until)
			}
			if p.old == nil && p.holds == 0 && !p.limits.Fair {
				best = p.laid(w.dips(), best)
			}
		}
		if !stretch || due.long > 0 {
			sure = min(sure, known)
		}
	}
	return best, max(low, min(sure, best.score[ofSpan]))
}

// walk is a walk that is to be begun.
func (p *problem) walk(loose bool, until, steps int) *walk {
	w := &walk{p: p, things: p.things(true), loose: loose, until: until, steps: steps, busy: slices.Clone(p.breaks), from: p.now,
		kinds: newLine(p).kinds}
	if p.pairs < len(p.jobs) {
		w.pairs = p.pairs
	}
	for _, x := range p.fixed {
		if _, _, b0, b1 := p.hands(x); w.pairs == 1 {
			w.busy = append(w.busy, window{b0, b1})
		}
	}
	w.busy = merged(w.busy)
	for _, j := range p.jobs {
		if w.takes = append(w.takes, j.h); j.moved {
			w.takes[len(w.takes)-1] = j.d()
		}
	}
	return w
}

// run goes through all that ends sooner than until, which is then the soonest end, if the steps suffice.
func (w *walk) run(low int) {
	for layer := []*stage{w.root()}; len(layer) > 0 && w.steps > 0 && w.until > low; layer = w.all {
		w.ahead, w.all = map[begun][]*stage{}, nil
		for _, s := range layer {
			if s.worse || w.steps <= 0 {
				continue
			}
			if w.next(s, 0); w.gap > 0 && s.hangs == 0 && !s.stood && s.did != nil {
				s.stood = true
				w.next(s, int(slices.Max(s.rows[0][atOut:atLow]))+w.gap)
			}
		}
	}
}

// open is the first time from t on at which the hands are there for a job's next work.
func (w *walk) open(i, t int) int {
	if w.loose {
		return w.p.open(i, t)
	}
	for _, b := range w.busy {
		if b.within(t, t+w.takes[i]) {
			t = b.to
		}
	}
	return t
}

// start is the soonest time, not before from, for the next of a job's work. fits is false where the vat has no room for it before a lift.
func (w *walk) start(s *stage, i, from int) (t int, fits bool) {
	p, j, r := w.p, &w.p.jobs[i], &s.rows[0]
	t = max(w.soonest(r, i), from)
	if s.hung(i) {
		return w.open(i, max(t, int(r[atLow+i])+j.h+j.p)), true
	}
	for t = max(t, j.ready, int(r[atOut+i])+j.a); ; {
		room, places, later := int64(p.vats)*min(p.cap, far/8)-j.w, p.vats*min(p.most, far/8)-j.cnt, far
		for k := range p.jobs {
			if e := int(r[atOut+k]); s.hung(k) || e > t {
				if room, places = room-p.jobs[k].w, places-p.jobs[k].cnt; !s.hung(k) {
					later = min(later, e)
				}
			}
		}
		if fits = room >= 0 && places >= 0; fits {
			later = w.open(i, t)
		}
		if later == t || later == far {
			return t, fits
		}
		t = later
	}
}

// next notes what can follow a stage from a time on.
func (w *walk) next(s *stage, from int) {
	var starts [mostWalked]int
	soonest := far
	for i := range w.p.jobs {
		j := &w.p.jobs[i]
		left, hangs := j.n-int(s.next[i]), s.hung(i)
		starts[i] = far
		if left == 0 && !hangs {
			continue
		}
		t, fits := w.start(s, i, from)
		if t+left*(j.d()+j.a)+btoi(hangs)*(j.h+j.a)-j.a >= w.until {
			return
		}
		o := w.kinds[i]
		like := &w.p.jobs[o]
		if fits && !(o < i && s.next[i]+s.next[o] == 0 && like.n == j.n && like.a == j.a && like.ready == j.ready) { // of like pieces the first goes first
			starts[i] = t
		}
		if s.hangs == 0 {
			soonest = min(soonest, t+j.d())
		}
	}
	for i := range w.p.jobs {
		if starts[i] < soonest { // else another dip could go in before
			w.steps -= 3 + bits.OnesCount8(s.hangs)
			if n := w.after(s, i, starts[i]); n != nil && w.bounded(n) < w.until {
				n.did = &did{i, starts[i], s.did}
				w.add(n)
			}
		}
	}
}

// add adds a stage to those ahead, if none of them stands as well with the same dips, and drops those that it stands as well as.
func (w *walk) add(n *stage) {
	left := n.hangs > 0
	for i := range w.p.jobs {
		left = left || int(n.next[i]) < w.p.jobs[i].n
	}
	if !left {
		if w.gap == 0 || n.stood {
			w.until, w.found = int(slices.Max(n.rows[0][atOut:atLow])), n.did
		}
		return
	}
	old := w.ahead[n.begun]
	w.steps -= len(old) / 4
	for _, o := range old {
		better, worse := true, true
		for q := 0; q < len(n.rows) && (better || worse); q++ {
			if n.has(q) {
				x, y := &n.rows[q], &o.rows[q]
				for k := range x {
					better, worse = better && y[k] <= x[k], worse && x[k] <= y[k]
				}
			}
		}
		if o.worse = worse && !better; better {
			return
		}
	}
	kept := *n
	w.ahead[n.begun] = append(slices.DeleteFunc(old, func(o *stage) bool { return o.worse }), &kept)
	w.all = append(w.all, &kept)
}

// dips is what was found: its work gone through again, as often as a lift puts a lowering off. It is empty where nothing was found.
func (w *walk) dips() (out []held) {
	var order []*did
	for x := w.found; x != nil; x = x.up {
		order = append(order, x)
	}
	slices.Reverse(order)
	lowered := make([]*did, len(w.p.jobs))
	for again := len(order) > 0; again; {
		s := w.root()
		again, out = false, out[:0]
		for _, x := range order {
			j := &w.p.jobs[x.job]
			x.s, _ = w.start(s, x.job, x.s)
			if due := x.s - j.h - j.p; !s.hung(x.job) {
				lowered[x.job], out = x, append(out, held{job: x.job, s: x.s, e: x.s + j.d()})
			} else if y := lowered[x.job]; due > y.s {
				y.s, again = due, true
			}
			if n := w.after(s, x.job, x.s); n != nil && x.s < 2*w.until {
				*s = *n
			} else {
				return nil
			}
		}
	}
	byTime(out)
	return out
}
