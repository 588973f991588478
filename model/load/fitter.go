package load

import "slices"

// fitter puts dips into a timetable that stands, anywhere between those that are placed.
type fitter struct {
	p   *problem
	all []held // in the order of lowering; those in the vat from before have k -1
}

// try tells whether a dip fits where it is, and finds its vat.
func (f *fitter) try(x *held) bool {
	p := f.p
	near := f.all[:0:0]
	for _, y := range f.all {
		if y.s < x.e && x.s < y.e {
			near = append(near, y)
		}
	}
	if x.s < p.now || !p.handsFree(near, x.job, x.s) {
		return false
	}
	for v := range p.vats {
		x.vat = v
		if f.room(near, *x) && f.rested(*x) && f.strong(*x) {
			return true
		}
	}
	return false
}

// room tells whether the vat holds the dip beside those near it, from its lowering to its lifting.
func (f *fitter) room(near []held, x held) bool {
	p := f.p
	fits := func(at int) bool {
		w, n := p.jobs[x.job].w, p.jobs[x.job].cnt
		for _, y := range near {
			if y.vat == x.vat && y.s <= at && at < y.e {
				w += p.jobs[y.job].w
				n += p.jobs[y.job].cnt
			}
		}
		return w <= p.cap && n <= p.most
	}
	if !fits(x.s) {
		return false
	}
	for _, y := range near {
		if y.vat == x.vat && y.s > x.s && !fits(y.s) {
			return false
		}
	}
	return true
}

// rested tells whether the vat, with the dip, still rests when it must.
func (f *fitter) rested(x held) bool {
	p := f.p
	if len(p.pauses) == 0 {
		return true
	}
	u := p.before[x.vat]
	put := false
	step := func(y held) bool {
		ok, _ := p.rested(&u, y.s, y.e)
		u.work(p, y.s, y.e)
		return ok
	}
	for _, y := range f.all {
		if y.vat != x.vat || y.k < 0 {
			continue
		}
		if !put && y.s >= x.s {
			put = true
			if !step(x) {
				return false
			}
		}
		if !step(y) {
			return false
		}
	}
	return put || step(x)
}

// strong tells whether the vat, with the dip in its place, is strong enough for it and for all after it.
func (f *fitter) strong(x held) bool {
	p := f.p
	if p.holds == 0 {
		return true
	}
	left := p.holds
	put := false
	step := func(y held) bool {
		ok := left >= p.jobs[y.job].least
		left -= p.jobs[y.job].takes
		return ok
	}
	for _, y := range f.all {
		if y.vat != x.vat || y.k < 0 {
			continue
		}
		if !put && y.s > x.s {
			put = true
			if !step(x) {
				return false
			}
		}
		if !step(y) {
			return false
		}
	}
	return put || step(x)
}

// add places a dip, after those of the same moment.
func (f *fitter) add(x held) {
	at := len(f.all)
	for at > 0 && f.all[at-1].s > x.s {
		at--
	}
	f.all = slices.Insert(f.all, at, x)
}

// soonest is the first time from a moment on at which dip k of a job fits.
func (f *fitter) soonest(i, k, from int) (held, bool) {
	p := f.p
	j := &p.jobs[i]
	times := []int{from}
	see := func(at int) {
		if at > from {
			times = append(times, at)
		}
	}
	for _, y := range f.all {
		_, a1, b0, _ := p.hands(y)
		see(y.e)
		see(a1)
		see(a1 - j.h - j.p)
		see(y.e - j.h - j.p)
		see(b0 - j.d()) // just done when the hands go to another
		for _, q := range p.pauses {
			see(y.e + q.long)
		}
	}
	for _, w := range p.breaks {
		see(w.to)
		see(w.to - j.h - j.p)
	}
	slices.Sort(times)
	for _, t := range slices.Compact(times) {
		x := held{job: i, k: k, s: t, e: t + j.d()}
		if f.try(&x) {
			return x, true
		}
	}
	return held{}, false
}

// weak counts the dips that find too little indigo, of those placed.
func (f *fitter) weak() int {
	p := f.p
	if p.holds == 0 {
		return 0
	}
	n := 0
	taken := make([]int64, p.vats)
	for _, y := range f.all {
		if y.k >= 0 {
			if p.holds-taken[y.vat] < p.jobs[y.job].least {
				n++
			}
			taken[y.vat] += p.jobs[y.job].takes
		}
	}
	return n
}
