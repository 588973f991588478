package load

import (
	"cmp"
	"fmt"
	"slices"

	"example.org/vatside/model/quantity"
)

// Where is where a piece stands when a day is replanned.
type Where int

// A piece waits for its first dip, hangs in the vat, or airs.
const (
	Waiting Where = iota
	InVat
	Airing
)

// PieceState is where a piece is at the time of a replan, and its dips so far. A piece without one waits for its first dip.
type PieceState struct {
	Tag   string
	Dips  int // done; one that it is in is not counted
	Where Where
	Vat   int           // the one it is in, from 1; 0 is 1
	Since quantity.Span // in the vat: since when the dip counts, ahead while it is being lowered; airing: since when it is out
}

// Replan plans what is left of a day from now on. pieces are those of the day as they are wanted now: one dropped is not
// among them, one added is, one that needs another dip has it in its Dips. What is in the vat stays in it until its dip is
// over, or is lifted at once where it is overdue; while its lifting would last it is taken as being lifted. The plan changes as little as it can: every dip keeps its time unless
// its own piece, or the vat, cannot; another order is taken only if the day then ends sooner by more than l.Worth, or
// keeps a limit that it would break. The rows of dips that are done stay in the plan, marked as past.
//
// The vat's rest is reckoned from the plan's own past rows. Errors are those of Make, and a standing that cannot be.
func (p Plan) Replan(now quantity.Span, standing []PieceState, pieces []Piece, l Limits) (Plan, error) {
	q, err := pose(pieces, l)
	if err != nil {
		return Plan{}, err
	}
	q.now = seconds(now)
	byTag := map[string]PieceState{}
	for _, s := range standing {
		if s.Dips < 0 || s.Where < Waiting || s.Where > Airing || s.Where == Airing && s.Since > now || s.Vat < 0 || s.Vat > q.vats {
			return Plan{}, fmt.Errorf("piece %s cannot stand so: its dips are 0 or more, it went in or came out before now, its vat is one of %d", s.Tag, q.vats)
		}
		byTag[s.Tag] = s
	}
	q.gather(func(i int) (done, ready int, apart bool) {
		s := byTag[pieces[i].Tag]
		switch s.Where {
		case InVat:
			return s.Dips + 1, 0, true
		case Airing:
			return s.Dips, seconds(s.Since) + seconds(pieces[i].Air), false
		}
		return s.Dips, 0, false
	})
	for i := range q.jobs {
		j := &q.jobs[i]
		j.n = max(0, j.n-j.done)
		lowering := j.h
		if l.Together { // of a bundle it takes the time of all
			lowering *= MostPieces
		}
		if s := byTag[q.pieces[j.members[0]].Tag]; s.Where == InVat && seconds(s.Since) > q.now+lowering {
			return Plan{}, fmt.Errorf("piece %s cannot be in the vat since a time that is to come", s.Tag)
		}
	}
	if err := q.settle(); err != nil {
		return Plan{}, err
	}
	done := p.behind(q, byTag)
	q.stay(byTag)
	q.remember(done)

	starts := map[Row]int{}
	for _, r := range p.Rows {
		starts[Row{Tag: r.Tag, Dip: r.Dip}] = seconds(r.Lower)
	}
	q.old = make([]int, q.ops)
	for i := range q.jobs {
		j := &q.jobs[i]
		for k := range j.n {
			s, ok := starts[Row{Tag: q.pieces[j.members[0]].Tag, Dip: j.done + k + 1}]
			if !ok {
				s = -1
			}
			q.old[j.base+k] = s
		}
	}
	out := q.replan()
	out.Rows = append(done, out.Rows...)
	slices.SortStableFunc(out.Rows, func(a, b Row) int { return cmp.Compare(a.Lower, b.Lower) })
	for i := range out.Done { // one with nothing left to do was done when its last airing began
		d := &out.Done[i]
		if s := byTag[d.Tag]; s.Where == Airing && s.Dips >= pieces[i].Dips {
			d.At = s.Since
			if !l.Plain {
				d.At += pieces[i].FinalAir + pieces[i].Finish
			}
		}
	}
	return out, nil
}

// behind are the rows of the old plan whose dips are done.
func (p Plan) behind(q *problem, standing map[string]PieceState) []Row {
	known := map[string]bool{}
	for _, x := range q.pieces {
		known[x.Tag] = true
	}
	var out []Row
	for _, r := range p.Rows {
		if known[r.Tag] && r.Dip <= standing[r.Tag].Dips || !known[r.Tag] && seconds(r.Lifted) <= q.now {
			r.Past = true
			r.Lifted = min(r.Lifted, span(q.now))
			r.Out = min(r.Out, r.Lifted)
			r.In = min(r.In, r.Out)
			r.Lower = min(r.Lower, r.In)
			out = append(out, r)
		}
	}
	return out
}

// stay fixes what is in the vat: moved pieces have their hands, hung ones get theirs in the order in which they are due.
func (q *problem) stay(standing map[string]PieceState) {
	q.since = map[int]int{}
	var in []held
	for i := range q.jobs {
		j := &q.jobs[i]
		s := standing[q.pieces[j.members[0]].Tag]
		if s.Where == InVat {
			since := seconds(s.Since)
			q.since[i] = since
			over := since + j.p
			if over+j.h <= q.now { // not even being lifted
				over = q.now
			}
			in = append(in, held{i, -1, max(0, s.Vat-1), min(since-j.h, q.now), over + j.h})
		}
	}
	slices.SortStableFunc(in, func(a, b held) int {
		am, bm := q.jobs[a.job].moved, q.jobs[b.job].moved
		if am != bm {
			if am {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.e-q.jobs[a.job].h, b.e-q.jobs[b.job].h)
	})
	for _, x := range in {
		j := &q.jobs[x.job]
		for !j.moved && !q.pairFree(q.fixed, x.e-j.h, x.e) {
			x.e++
		}
		for _, w := range q.breaks {
			if _, _, b0, b1 := q.hands(x); w.within(max(b0, x.e-j.h), b1) {
				q.warn = append(q.warn, fmt.Sprintf("Piece %s is to be lifted at %s, within a break.", q.pieces[j.members[0]].Tag, at(x.e-j.h)))
			}
		}
		q.fixed = append(q.fixed, x)
		j.ready = max(j.ready, x.e+j.a)
	}
	w, n := make([]int64, q.vats), make([]int, q.vats)
	for _, x := range q.fixed {
		w[x.vat] += q.jobs[x.job].w
		n[x.vat]++
	}
	for v := range w {
		if w[v] > q.cap || n[v] > q.most {
			q.warn = append(q.warn, "More is in the vat than it takes at once: nothing goes in until some of it is out.")
		}
	}
}

// remember reckons how long the vats work already.
func (q *problem) remember(done []Row) {
	var all []held
	for _, r := range done {
		if r.Vat >= 1 && r.Vat <= q.vats {
			all = append(all, held{vat: r.Vat - 1, s: seconds(r.Lower), e: seconds(r.Lifted)})
		}
	}
	all = append(all, q.fixed...)
	byTime(all)
	for _, x := range all {
		q.before[x.vat].work(q, x.s, x.e)
	}
}

// replan is the plan that moves the least, or one that ends sooner by more than that is worth.
func (q *problem) replan() Plan {
	var hint []held
	kept, ok := q.keep()
	if ok {
		hint = kept.placed
	}
	effort := q.limits.Effort
	if effort <= 0 {
		effort = UsualEffort
	}
	q.limits.Effort = effort / 2 // a replan is waited for with wet hands
	best, low := q.seek(hint)
	if ok {
		k, b := kept.score, best.score
		worth := seconds(q.limits.Worth)
		if k[ofWeak] <= b[ofWeak] && k[ofLate] <= b[ofLate] && k[ofSpan] <= b[ofSpan]+worth {
			best = kept
		}
	}
	return q.plan(best, low)
}

// keep places each dip at its old time; the dips of a piece that cannot, from the first that cannot on, and those that
// are new, go where they fit beside the rest, none sooner than it was to be. ok is false where that breaks a limit.
func (q *problem) keep() (draft, bool) {
	f := &fitter{p: q, all: slices.Clone(q.fixed)}
	byTime(f.all)
	type first struct{ job, k int }
	var loose []first
	var order []held
	for i := range q.jobs {
		j := &q.jobs[i]
		for k := range j.n {
			if s := q.old[j.base+k]; s >= 0 {
				order = append(order, held{job: i, k: k, s: s, e: s + j.d()})
			}
		}
	}
	byTime(order)
	next := make([]int, len(q.jobs))
	ready := make([]int, len(q.jobs))
	for i := range q.jobs {
		ready[i] = q.jobs[i].ready
	}
	for _, x := range order {
		if next[x.job] != x.k || x.s < ready[x.job] || !f.try(&x) {
			continue
		}
		f.add(x)
		next[x.job]++
		ready[x.job] = x.e + q.jobs[x.job].a
	}
	for i := range q.jobs {
		if next[i] < q.jobs[i].n {
			loose = append(loose, first{i, next[i]})
		}
	}
	slices.SortStableFunc(loose, func(a, b first) int { return q.jobs[b.job].dark - q.jobs[a.job].dark })
	for _, l := range loose {
		j := &q.jobs[l.job]
		for k := l.k; k < j.n; k++ {
			x, ok := f.soonest(l.job, k, max(ready[l.job], q.old[j.base+k]))
			if !ok {
				return draft{}, false
			}
			f.add(x)
			ready[l.job] = x.e + j.a
		}
	}
	var d draft
	for _, x := range f.all {
		if x.k >= 0 {
			d.placed = append(d.placed, x)
		}
	}
	sc := scorer{p: q}
	d.score = sc.of(d.placed, f.weak(), nil)
	return d, true
}
