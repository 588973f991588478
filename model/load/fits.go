package load

import "slices"

// share is what something takes of a thing while it lasts, and whose it is.
type share struct {
	window
	of  int64
	who int
}

// full is 0 where beside the shares no more than there is of a thing is taken at any moment of a stretch that takes own of
// it, else when the first of those that are too much is over.
func full(shares []share, s window, own, most int64) (later int) {
	sum := own
	for _, y := range shares {
		sum += y.of
	}
	if sum <= most {
		return 0
	}
	look := func(t int) {
		sum, first := own, far
		for _, y := range shares {
			if y.from <= t && t < y.to {
				sum, first = sum+y.of, min(first, y.to)
			}
		}
		if sum > most {
			later = max(later, first)
		}
	}
	look(s.from)
	for _, y := range shares {
		if y.from > s.from && y.from < s.to {
			look(y.from)
		}
	}
	return later
}

// room is 0 where the vat of x has room for it all through, else when to look again.
func (l *line) room(x held) int {
	p := l.p
	j := &p.jobs[x.job]
	if v := &l.vats[x.vat]; x.s == l.moment {
		return btoi(j.w > v.room || j.cnt > v.places) * v.freer
	}
	l.weights, l.counts = l.weights[:0], l.counts[:0]
	for _, y := range l.near {
		if y.vat == x.vat {
			l.weights = append(l.weights, share{window{y.s, y.e}, p.jobs[y.job].w, 0})
			l.counts = append(l.counts, share{window{y.s, y.e}, int64(p.jobs[y.job].cnt), 0})
		}
	}
	s := window{x.s, x.e}
	return max(full(l.weights, s, j.w, p.cap), full(l.counts, s, int64(j.cnt), int64(p.most)))
}

// byPeople is 0 where not too many people have a piece in the vats beside x, else when to look again.
func (l *line) byPeople(x held) int {
	p := l.p
	own := p.jobs[x.job].person
	if p.people == 0 || own == 0 {
		return 0
	}
	l.counts = l.counts[:0]
	for _, y := range l.near { // from the latest lowering back
		who := p.jobs[y.job].person
		q := slices.IndexFunc(l.counts, func(z share) bool { return z.who == who && z.from <= y.e })
		switch {
		case who == 0 || who == own:
		case q < 0:
			l.counts = append(l.counts, share{window{y.s, y.e}, 1, who})
		default: // one person's pieces that are in one after the other are one stay
			l.counts[q].from, l.counts[q].to = y.s, max(l.counts[q].to, y.e)
		}
	}
	return full(l.counts, window{x.s, x.e}, 1, int64(p.people))
}

// byHands is 0 where the hands can lower, move and lift x, else when to look again.
func (l *line) byHands(x held) (later int) {
	p := l.p
	a0, a1, b0, b1 := p.hands(x)
	for _, s := range [2]window{{a0, a1}, {b0, b1}} {
		off := s.from - x.s
		for _, w := range p.breaks {
			if w.within(s.from, s.to) {
				later = max(later, w.to-off)
			}
		}
		if until := l.busy(s); until > 0 {
			later = max(later, until-off)
		}
	}
	return later
}

// handle notes what dips take of the hands.
func (l *line) handle(near []held) {
	l.work = l.work[:0]
	for _, y := range near {
		a0, a1, b0, b1 := l.p.hands(y)
		if l.work = append(l.work, share{window{a0, a1}, 1, 0}); b0 < b1 {
			l.work = append(l.work, share{window{b0, b1}, 1, 0})
		}
	}
}

// busy is 0 where a pair of hands is free all through a stretch, else a time before which none is.
func (l *line) busy(s window) int {
	pairs := l.p.pairs
	if s.from >= s.to || pairs == 0 || len(l.work) < pairs {
		return 0
	}
	l.counts = l.counts[:0]
	for _, y := range l.work {
		if y.from < s.to && s.from < y.to {
			l.counts = append(l.counts, y)
		}
	}
	return full(l.counts, s, 1, int64(pairs))
}

// within tells whether a stretch of work falls into the window; one of no length, if it lies inside it.
func (w window) within(from, to int) bool {
	if from == to {
		return w.from < from && from < w.to
	}
	return from < w.to && w.from < to
}

// rests is 0 where the vat of x, with it, rests when it must, else when to look again.
func (l *line) rests(x held) int {
	p := l.p
	if x.s >= l.last {
		return p.rested(&l.vats[x.vat].past, x.s, x.e)
	}
	if _, ok := l.course(x); ok {
		return 0
	}
	later := far
	see := func(at int) {
		if at > x.s {
			later = min(later, at)
		}
	}
	for _, y := range l.all {
		if y.vat == x.vat && y.k >= 0 {
			see(y.e)
			for _, q := range p.pauses {
				see(y.e + q.long)
			}
		}
	}
	return later
}

// course is how the vat of x stands with it and all that is placed, and whether it rests when it must.
func (l *line) course(x held) (u past, ok bool) {
	u, ok = l.p.before[x.vat], true
	step := func(y held) {
		ok = ok && l.p.rested(&u, y.s, y.e) == 0
		u.work(l.p, y.s, y.e)
	}
	put := false
	for _, y := range l.all {
		if !put && y.s > x.s {
			put = true
			step(x)
		}
		if y.vat == x.vat && y.k >= 0 {
			step(y)
		}
	}
	if !put {
		step(x)
	}
	return u, ok
}

// rested is 0 where a dip from s to e keeps the vat's rests, else when it is rested again.
func (p *problem) rested(v *past, s, e int) (until int) {
	if v.used {
		for k, q := range p.pauses {
			if s-v.last < q.long && e-v.beg[k] > q.after {
				until = max(until, v.last+q.long)
			}
		}
	}
	return until
}

// work notes a dip in the vat's course.
func (v *past) work(p *problem, s, e int) {
	for k, q := range p.pauses {
		if !v.used || s-v.last >= q.long {
			v.beg[k] = s
		}
	}
	v.used, v.last = true, max(v.last, e)
}
