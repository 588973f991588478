package load

import "slices"

// begun is what is done of a day: per job the dip to come, a bit for each job that hangs, and whether the vat stood empty as it must.
type begun struct {
	next  [mostWalked]uint8
	hangs uint8
	stood bool
}

// row is times: the latest beginning, when each pair of hands is free, in order, and from atOut on per job when its latest dip is out, from
// atLow on when what hangs was lowered.
type row [1 + 3*mostWalked]int32

const (
	atOut = 1 + mostWalked
	atLow = atOut + mostWalked
	none  = -1 << 29 // no time
)

// stage is how a day stands that is begun. Its first row has the soonest times, that of a job that hangs how much later they are at least
// than its lowering (longest paths): by that a lift that comes late puts them off.
type stage struct {
	begun
	rows  [1 + mostWalked]row
	did   *did
	worse bool // than another
}

// chain is what is still to come of a job: its dips, the seconds that its latest one still lasts, and those of a dip with its airing.
type chain struct{ job, left, lasts, each int }

// hung tells whether a job hangs, has whether there is a row.
func (s *stage) hung(i int) bool { return s.hangs>>i&1 == 1 }
func (s *stage) has(q int) bool  { return q == 0 || s.hung(q-1) }

// blank is a row without a time.
var blank = row(slices.Repeat([]int32{none}, len(row{})))

// root is the stage before all work.
func (w *walk) root() *stage {
	s := &stage{}
	r := &s.rows[0]
	*r = blank
	r[0] = int32(w.from)
	for _, x := range w.p.fixed {
		if r[atOut+x.job] = int32(x.e); w.pairs > 1 && w.p.jobs[x.job].moved {
			r[1] = int32(x.e)
			slices.Sort(r[1 : 1+w.pairs])
		}
	}
	return s
}

// soonest is, of a row, when the hands can begin a job's next work.
func (w *walk) soonest(r *row, i int) int {
	if w.pairs > 0 && w.takes[i] > 0 {
		return int(max(r[0], r[1]))
	}
	return int(r[0])
}

// after is the stage after a job's next work at a time, nil if there is none: what hangs would hang too long.
func (w *walk) after(s *stage, i, t int) *stage {
	j := &w.p.jobs[i]
	hold, long := int32(j.h+j.p), int32(w.takes[i])
	lifts := s.hung(i)
	lowers := !lifts && !w.loose && !j.moved
	n := &w.made
	*n = *s
	n.next[i] += uint8(btoi(!lifts))
	n.hangs ^= uint8(btoi(lifts || lowers) << i)
	if lifts && w.soonest(&s.rows[1+i], i) > int(hold) {
		return nil
	}
	for q := range n.rows {
		r := &n.rows[q]
		if !n.has(q) {
			continue
		}
		at := int32(w.soonest(r, i))
		switch {
		case q == 0:
			at = int32(t)
		case q == 1+i: // all is reckoned from this lowering
			*r, at = blank, 0
		case lifts:
			at = max(at, r[atLow+i]+hold)
		default:
			at = max(at, r[atOut+i]+int32(j.a))
		}
		if lifts {
			r.raise(&s.rows[1+i], i, at-hold)
			r[atLow+i] = none
		}
		if r[0] = at; w.pairs > 0 && long > 0 {
			r[1] = at + long
			slices.Sort(r[1 : 1+w.pairs])
		}
		if r[atOut+i] = at + long; lowers {
			r[atOut+i], r[atLow+i] = none, at
		} else if w.loose {
			r[atOut+i] = at + int32(j.d())
		}
	}
	for k := range w.p.jobs {
		j := &w.p.jobs[k]
		for q := range n.rows {
			if !n.has(q) {
				continue
			}
			r := &n.rows[q]
			if soonest := w.soonest(r, k); !n.hung(k) { // what is over when nothing waits for it is no matter
				r[atOut+k] = max(r[atOut+k], int32(soonest-btoi(int(n.next[k]) < j.n)*j.a))
			} else if by := int32(soonest - j.h - j.p); q != 1+k { // a lift comes after all of it
				r.raise(&n.rows[1+k], k, by)
			} else if by > 0 {
				return nil
			}
		}
	}
	return n
}

// raise puts a lowering of a job that hangs off to a time, and all that hangs on it.
func (r *row) raise(own *row, i int, by int32) {
	if by <= r[atLow+i] {
		return
	}
	for y, d := range own {
		if d > none {
			r[y] = max(r[y], by+d)
		}
	}
}

// bounded is a last lift that nothing beats that can come of a stage.
func (w *walk) bounded(s *stage) (low int) {
	p, r := w.p, &s.rows[0]
	w.live = w.live[:0]
	head, air, gap := int(r[0]), 0, btoi(!s.stood)*w.gap
	if w.pairs > 0 && !slices.ContainsFunc(p.jobs, func(j job) bool { return !j.moved && j.h == 0 }) {
		head = max(head, int(r[1]))
	}
	for i := range p.jobs {
		j := &p.jobs[i]
		e := int(r[atOut+i])
		if air = max(air, j.a); s.hung(i) {
			e = int(r[atLow+i]) + j.d()
		}
		if x := (chain{i, j.n - int(s.next[i]), e - head, j.d() + j.a}); x.left > 0 || x.lasts > 0 {
			w.live = append(w.live, x)
		}
	}
	for n := range w.things {
		u := &w.things[n]
		for q, more := 0, true; more && low < w.until; q++ { // of what still has so many dips after it
			sum, tail := int64(0), far
			more = false
			for _, x := range w.live {
				if k := x.left - q; k > 0 {
					sum += u.each[x.job] * int64(k)
					tail, more = min(tail, q*x.each), true
				}
				if e := x.lasts; e > 0 && x.left >= q {
					if u.hands {
						e = min(e, w.takes[x.job])
					}
					sum += u.of[x.job] * int64(e)
					tail = min(tail, x.left*x.each)
				}
			}
			if need := int((sum + u.cap - 1) / u.cap); tail < far {
				low = max(low, p.earliest(u, head, need)+tail, btoi(more && gap > 0)*(head+need+gap-btoi(q > 0)*air+tail))
			}
		}
	}
	for _, b := range w.live {
		if p.pairs == 1 && low < w.until {
			low = max(low, head+w.around(s, head, b))
		}
	}
	return low
}

// around is how long one piece takes at least with all that is never in beside it: what of its airings they do not fill is idle.
func (w *walk) around(s *stage, head int, b chain) int {
	p, j := w.p, &w.p.jobs[b.job]
	first, idle, long := j.a, (b.left-1)*j.a, b.left*j.d()
	if s.hung(b.job) {
		long += b.lasts
	} else {
		first = max(0, int(s.rows[0][atOut+b.job])+j.a-head, j.ready-head)
	}
	if b.left > 0 {
		idle += first
	}
	for _, x := range w.live {
		if o := &p.jobs[x.job]; x.job != b.job && o.moved && x.left > 0 && (j.moved || p.apart(j, o)) {
			long += x.left * o.d()
			idle -= x.left * min(o.d(), max(first, j.a))
		}
	}
	return long + max(0, idle)
}

// apart tells whether two jobs are never in at once: one pair of hands that moves the one all through cannot lower or lift the other, and
// does not get done while it hangs.
func (p *problem) apart(a, b *job) bool {
	if b.moved {
		a, b = b, a
	}
	return p.pairs == 1 && a.moved && !b.moved && b.h > 0 && a.d() > b.p
}
