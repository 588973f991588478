package load

import (
	"cmp"
	"fmt"
	"slices"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
)

// Replan plans what is left of a day from now on. pieces are those of the day as they are wanted now: one dropped is not among them, one
// added is, one that needs another dip has it in its Dips. What is in the vat stays in it until its dip is over, or is lifted at once where
// it is overdue; while its lifting would last it is taken as being lifted. The plan changes as little as it can: what is planned slides, in
// its order, and a piece that is late steps out and comes back in; another order, of all but the next two calls, is taken only if the day
// then ends sooner by more than a fifth of l.Worth, and one of the next two calls only if by more than three fifths. The rows of dips that
// are done stay in the plan, marked as past.
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
	q.gather(byTag)
	for i := range q.jobs {
		j := &q.jobs[i]
		j.n = max(0, j.n-j.done)
		lowering := j.h
		if l.Together { // of a bundle it takes the time of all
			lowering *= MostPieces
		}
		if s := byTag[q.tag(j)]; s.Where == InVat && seconds(s.Since) > q.now+lowering {
			return Plan{}, fmt.Errorf("piece %s cannot be in the vat since a time that is to come", s.Tag)
		}
	}
	if err := q.settle(); err != nil {
		return Plan{}, err
	}
	done := p.behind(q, byTag)
	q.stay(byTag)
	q.remember(done)

	q.old = slices.Repeat([]int{-1}, q.ops)
	for _, r := range p.Rows {
		for i := range q.jobs {
			j := &q.jobs[i]
			if k := r.Dip - j.done - 1; q.tag(j) == r.Tag && k >= 0 && k < j.n {
				q.old[j.base+k] = seconds(r.Lower)
			}
		}
	}
	out := q.choose((*problem).replan)
	out.Rows = append(done, out.Rows...)
	sorted.By(out.Rows, func(a, b Row) int { return cmp.Compare(a.Lower, b.Lower) })
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
	var out []Row
	for _, r := range p.Rows {
		known := slices.ContainsFunc(q.pieces, func(x Piece) bool { return x.Tag == r.Tag })
		if known && r.Dip <= standing[r.Tag].Dips || !known && seconds(r.Lifted) <= q.now {
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
		s := standing[q.tag(j)]
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
	sorted.By(in, func(a, b held) int {
		x, y := &q.jobs[a.job], &q.jobs[b.job]
		return cmp.Or(btoi(y.moved)-btoi(x.moved), cmp.Compare(a.e-x.h, b.e-y.h))
	})
	l := newLine(q)
	for _, x := range in {
		j := &q.jobs[x.job]
		for until := 1; !j.moved && until > 0; {
			l.handle(q.fixed)
			if until = l.busy(window{x.e - j.h, x.e}); until > 0 {
				x.e = until + j.h
			}
		}
		for _, w := range q.breaks {
			if _, _, b0, b1 := q.hands(x); w.within(max(b0, x.e-j.h), b1) {
				q.warn = append(q.warn, fmt.Sprintf("Piece %s is to be lifted at %s, within a break.", q.tag(j), q.at(x.e-j.h)))
			}
		}
		q.fixed = append(q.fixed, x)
		j.ready = max(j.ready, x.e+j.a)
	}
	for v := range q.vats {
		w, n := int64(0), 0
		for _, x := range q.fixed {
			if x.vat == v {
				w, n = w+q.jobs[x.job].w, n+1
			}
		}
		if w > q.cap || n > q.most {
			q.warn = append(q.warn, "More is in the vat than it takes at once: nothing goes in until some of it is out.")
		}
	}
}

// remember reckons how long the vats work already.
func (q *problem) remember(done []Row) {
	all := slices.Clone(q.fixed)
	for _, r := range done {
		if r.Vat >= 1 && r.Vat <= q.vats {
			all = append(all, held{vat: r.Vat - 1, s: seconds(r.Lower), e: seconds(r.Lifted)})
		}
	}
	byTime(all)
	for _, x := range all {
		q.before[x.vat].work(q, x.s, x.e)
	}
}

// told is how many calls of the old plan a search leaves alone: the hands have heard them.
const told = 2

// slid is the old plan as it is now: its dips keep their order and none is lowered sooner than it was to be; a piece that is
// not there steps out, and goes first when it is back, or, with aside, if it is late by more than a change is worth, goes
// where it is in nobody's way, as new dips do. ok is false where that cannot be.
func (p *problem) slid(aside bool) (d draft, ok bool) {
	rank, all := make([]int, p.ops), make([]int, len(p.jobs))
	for i := range p.jobs {
		j := &p.jobs[i]
		all[i], j.n = j.n, 0
		for j.n < all[i] && p.old[j.base+j.n] >= 0 && (!aside || j.ready <= p.old[j.base]+seconds(p.limits.Worth)) {
			rank[j.base+j.n] = p.old[j.base+j.n]
			j.n++
		}
		for ; j.n < all[i] && j.demo && j.done == 0; j.n++ { // what is shown to all comes first, new or not
			rank[j.base+j.n] = far
		}
	}
	l := newLine(p)
	l.fair = false // the order that was told was fair when it was told
	ok = l.list(rank, p.old)
	for i := range p.jobs {
		for p.jobs[i].n = all[i]; ok && l.next[i] < all[i]; {
			ok = l.place(i, l.ready[i])
		}
	}
	if ok {
		d.placed, d.feeds = l.planned(nil), l.feeds
		d.score = (&scorer{p: p}).of(d.placed, d.feeds, nil)
	}
	return d, ok
}

// replan is the plan that changes the least, or one that is better by more than that is worth.
func (p *problem) replan() draft {
	p.limits.Effort = (p.limits.effort() + 2) / 3 // a replan is waited for with wet hands
	kept, ok := p.slid(false)
	if !ok {
		return p.seek(nil)
	}
	if other, ok := p.slid(true); ok && (p.asGood(other, kept, lessWorth) && (other.score[ofMoved] < kept.score[ofMoved] || !p.asGood(kept, other, lessWorth))) {
		kept = other
	}
	least := draft{score: score{ofSpan: p.bound()}} // no plan is better
	if p.asGood(kept, least, lessWorth) {
		return kept
	}
	if len(kept.feeds) == 0 && len(kept.placed) > 0 && p.old[p.jobs[kept.placed[0].job].base+kept.placed[0].k] >= 0 {
		p.head = kept.placed[:min(told, len(kept.placed))]
	}
	best := p.seek(&kept)
	if p.asGood(kept, best, lessWorth) {
		best = kept
	}
	if len(p.head) > 0 && !p.asGood(best, least, nextWorth) { // the next calls change only for more
		p.head = nil
		if other := p.seek(&best); !p.asGood(best, other, nextWorth) {
			best = other
		}
	}
	p.head = nil
	return best
}

// How much of what a change is worth a plan is to end sooner, in hundredths: one that leaves the next calls as they were told, and one
// that changes them. No source: with these few replans of testdata/bench/timetable change one of the next two calls, and the days end no
// later than with plans made afresh.
const (
	lessWorth = 20
	nextWorth = 60
)

// asGood tells whether a plan is as good as another but for a part of what a change is worth.
func (p *problem) asGood(a, b draft, part int) bool {
	worth := seconds(p.limits.Worth) * part / 100
	for _, f := range []int{ofOver, ofLate, ofLeaving, ofEach, ofPast, ofSpan} {
		if a.score[f] > b.score[f]+worth {
			return false
		}
	}
	return a.score[ofWeak] <= b.score[ofWeak]
}
