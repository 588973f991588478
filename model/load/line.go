package load

import (
	"slices"

	"example.org/vatside/model/sorted"
)

// vatNow is how a vat stands at the end of a line.
type vatNow struct {
	past
	taken  int64 // of its indigo, less what was fed
	fed    int
	room   int64 // at the moment that is looked at: for so much weight, so many pieces, and when more of it is free
	places int
	freer  int
}

// line is the one timeline of the vats and the hands: dips are placed on it at the earliest time that keeps every limit.
type line struct {
	p       *problem
	all     []held // in the order of lowering; what was in the vat from before has k -1
	vats    []vatNow
	next    []int   // per job: the dip to come
	ready   []int   // per job: not before
	feeds   []held  // a feed's wait, job -1
	last    int     // the latest lowering
	long    int     // no dip holds its room for longer
	moment  int     // the one that is looked at, where nothing is lowered later; -1: none such
	near    []held  // shares a moment with the dip that is looked at
	work    []share // what near takes of the hands
	handy   int     // when a pair of hands is free again, if all work at the moment
	counts  []share // room for reckoning
	weights []share
	looks   []look // per job
	kinds   []int  // per job: the first of its kind
	order   []int  // jobs as list looks at them
	steps   int
	fair    bool // turns go by rounds
}

// kind is all of a job that tells at which times the vats and the hands take its dips.
type kind struct {
	p, h, cnt, person int
	w, least          int64
	moved             bool
	demo              int // the job's number from 1, if its first dip is shown to all
}

func newLine(p *problem) *line {
	own := func() []int { return make([]int, len(p.jobs)) }
	l := &line{p: p, fair: p.limits.Fair, vats: make([]vatNow, p.vats), next: own(), ready: own(), kinds: own(), order: own(),
		looks: make([]look, len(p.jobs))}
	first := map[kind]int{}
	for i := range p.jobs {
		j := &p.jobs[i]
		l.long = max(l.long, j.d())
		k := kind{j.p, j.h, j.cnt, j.person, j.w, j.least, j.moved, btoi(j.demo) * (i + 1)}
		if _, known := first[k]; !known {
			first[k] = i
		}
		l.kinds[i] = first[k]
	}
	for _, x := range p.fixed {
		l.long = max(l.long, x.e-x.s)
	}
	return l
}

// reset empties the line but for what is settled: what is in the vats, the first calls of a replan, what is shown to all.
func (l *line) reset() {
	p := l.p
	l.all = append(l.all[:0], p.fixed...)
	byTime(l.all)
	for v := range l.vats {
		l.vats[v] = vatNow{past: p.before[v]}
	}
	for i := range p.jobs {
		l.next[i], l.ready[i] = 0, p.jobs[i].ready
	}
	l.feeds, l.last, l.moment = l.feeds[:0], p.now, -1
	for _, x := range p.head {
		l.put(x)
	}
	open := l.last
	for i := range p.jobs {
		if j := &p.jobs[i]; j.shown() {
			if l.next[i] == 0 {
				l.place(i, max(l.ready[i], open))
			}
			open = max(open, l.ready[i]-j.a)
		}
	}
	for i := range p.jobs {
		l.ready[i] = max(l.ready[i], open)
	}
}

// place puts the next dip of a job at the earliest time from a moment on, and feeds a vat for it if nothing else helps.
func (l *line) place(i, from int) bool {
	for {
		if x, ok := l.earliest(i, from); ok {
			l.put(x)
			return true
		}
		if !l.feed() {
			return false
		}
	}
}

// earliest is the first time from a moment on at which the next dip of a job keeps every limit, as far as it is looked
// for. ok is false where the vat has too little indigo for it and can be fed.
func (l *line) earliest(i, from int) (x held, ok bool) {
	for t := from; t < far; {
		x, later := l.at(i, t)
		if later == 0 {
			return x, true
		}
		t = later
	}
	return held{}, false
}

// at is the next dip of job i, lowered at t. Where that breaks a limit, later is the next time at which it may not.
func (l *line) at(i, t int) (x held, later int) {
	p := l.p
	j := &p.jobs[i]
	x = held{i, l.next[i], 0, t, t + j.d()}
	if l.steps++; t != l.moment {
		l.gather(x)
	}
	if t == l.moment && l.handy > t && (j.moved || j.h > 0) {
		return x, l.handy
	}
	l.steps += 2 + len(l.near)/2
	if j.shown() && x.k == 0 {
		for _, y := range l.near {
			later = max(later, y.e)
		}
	}
	if later = max(later, l.byHands(x), l.byPeople(x)); later == 0 {
		x.vat, later = l.vatFor(x)
	}
	return x, later
}

// gather puts the dips that share a moment with x into near, and what they take where nothing is lowered later.
func (l *line) gather(x held) {
	p := l.p
	l.near, l.moment, l.handy = l.near[:0], -1, 0
	q := len(l.all)
	if q > 0 && l.all[q-1].s >= x.e {
		q, _ = slices.BinarySearchFunc(l.all, x.e, func(y held, e int) int { return y.s - e })
	}
	for q--; q >= 0 && l.all[q].s > x.s-l.long; q-- {
		if l.all[q].e > x.s {
			l.near = append(l.near, l.all[q])
		}
	}
	l.handle(l.near)
	if x.s < l.last {
		return
	}
	l.moment = x.s
	for v := range l.vats {
		l.vats[v].room, l.vats[v].places, l.vats[v].freer = p.cap, p.most, far
	}
	for _, y := range l.near {
		v, j := &l.vats[y.vat], &p.jobs[y.job]
		v.room, v.places, v.freer = v.room-j.w, v.places-j.cnt, min(v.freer, y.e)
	}
	if len(l.work) >= p.pairs && p.pairs > 0 {
		l.handy = full(l.work, window{x.s, x.s}, 1, int64(p.pairs))
	}
}

// vatFor is the vat that takes a dip at its time; none, and when to look again, where none does. A weak vat is used only
// if no other is strong or can be fed; later is then far if only a feed helps.
func (l *line) vatFor(x held) (vat, later int) {
	p := l.p
	later = far
	weak, hope := -1, false
	for v := range l.vats {
		x.vat = v
		t := l.room(x)
		for _, f := range l.feeds {
			if f.vat == v && f.s < x.e && x.s < f.e {
				t = max(t, f.e)
			}
		}
		if len(p.pauses) > 0 {
			t = max(t, l.rests(x))
		}
		strong, fed := l.strong(x.job, v), l.vats[v].fed >= p.feeds
		hope = hope || strong || !fed
		switch {
		case t > 0:
			later = min(later, t)
		case strong:
			return v, 0
		case fed && weak < 0:
			weak = v
		}
	}
	if hope || weak < 0 {
		return -1, later
	}
	return weak, 0
}

// strong tells whether a vat still has the indigo that job i asks for.
func (l *line) strong(i, v int) bool {
	p := l.p
	return p.holds == 0 || p.anyhow || p.holds-l.vats[v].taken >= p.jobs[i].least
}

// put places a dip, after those of the same moment.
func (l *line) put(x held) {
	p := l.p
	j := &p.jobs[x.job]
	v := &l.vats[x.vat]
	if v.taken += j.takes; x.s >= l.last || len(p.pauses) == 0 {
		v.work(p, x.s, x.e)
	} else {
		v.past, _ = l.course(x)
	}
	at := len(l.all)
	for at > 0 && l.all[at-1].s > x.s {
		at--
	}
	l.all = slices.Insert(l.all, at, x)
	l.last, l.moment = max(l.last, x.s), -1
	l.next[x.job], l.ready[x.job] = x.k+1, max(l.ready[x.job], x.e+j.a)
}

// feed feeds a vat once it is empty. It tells whether one could be.
func (l *line) feed() bool {
	p := l.p
	for v := range l.vats {
		u := &l.vats[v]
		if u.fed >= p.feeds {
			continue
		}
		from := max(l.last, u.last)
		for _, f := range l.feeds {
			if f.vat == v {
				from = max(from, f.e)
			}
		}
		l.feeds = append(l.feeds, held{-1, u.fed, v, from, from + p.wait})
		u.fed++
		u.taken -= p.feed
		return true
	}
	return false
}

// planned are the dips that were placed, in the order of lowering.
func (l *line) planned(into []held) []held {
	for _, x := range l.all {
		if x.k >= 0 {
			into = append(into, x)
		}
	}
	return into
}

// byTime puts dips in the order of their lowerings, those of one moment as they are.
func byTime(xs []held) {
	sorted.By(xs, func(a, b held) int { return a.s - b.s })
}
