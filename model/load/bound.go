package load

import (
	"slices"

	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// need is a dip as the bounds see it: it cannot begin before head, and after its end the chain of its piece still takes
// tail. It takes use of a thing for len.
type need struct {
	job, k, head, tail, len int
}

// uses is a thing of which there is so much at once, and how much of it each job takes while it holds the vat.
type uses struct {
	of     []int64
	each   []int64 // of a dip in all: so much for so many seconds
	cap    int64
	hands  bool // only while the hands work
	breaks bool // none of it within breaks
}

// things are the limits as seen by the bounds: weight, weights rounded so that what never fits beside one another shows, places for pieces
// of some weight or more, of which one heavier than half the room takes all that it leaves no room for (dual feasible functions of Fekete
// and Schepers, Mathematical Methods of Operations Research 60 (2004) 311, from memory), pieces at once, hands. Each is a relaxation of the
// plan's problem, so each bound is proven. few leaves the places out: a walk asks at every stage, and they proved it no more days.
func (p *problem) things(few bool) []uses {
	n, vats, moved := len(p.jobs), int64(p.vats), p.allMoved()
	var out []uses
	add := func(cap int64, hands bool, use func(j *job) int64) {
		u := uses{make([]int64, n), make([]int64, n), cap, hands, hands || moved}
		for i := range p.jobs {
			u.of[i] = use(&p.jobs[i])
			u.each[i] = u.of[i] * int64(u.handled(&p.jobs[i]))
		}
		if !slices.ContainsFunc(out, u.within) {
			out = append(slices.DeleteFunc(out, func(v uses) bool { return v.within(u) }), u)
		}
	}
	if p.cap < far {
		add(vats*p.cap, false, func(j *job) int64 { return j.w })
		for k := int64(1); k <= 5; k++ {
			add(vats*k*(k+1), false, func(j *job) int64 {
				parts, rest := (k+1)*j.w/p.cap, (k+1)*j.w%p.cap
				return parts * (k + int64(btoi(rest > 0)))
			})
		}
	}
	for i := range p.jobs {
		if least := max(1, p.jobs[i].w); !few && p.cap < far && 2*least <= p.cap {
			places := p.cap / least
			add(vats*places, false, func(j *job) int64 {
				if 2*j.w > p.cap {
					return places - (p.cap-j.w)/least
				}
				return int64(btoi(j.w >= least))
			})
		}
	}
	if p.most < far {
		add(vats*int64(p.most), false, func(j *job) int64 { return int64(j.cnt) })
	}
	if p.pairs > 0 {
		add(int64(p.pairs), true, func(j *job) int64 { return 1 })
	}
	return out
}

// within tells whether no job takes a larger part of a thing than of another, whose bounds then are no lower.
func (u uses) within(v uses) bool {
	for i, of := range u.of {
		if of*v.cap > v.of[i]*u.cap {
			return false
		}
	}
	return u.hands == v.hands
}

// handled is how long a dip takes of a thing.
func (u *uses) handled(j *job) int {
	if u.hands && !j.moved {
		return 2 * j.h
	}
	return j.d()
}

// needs lists what is to be dipped, those with the longest tails first, the heads from each piece's own chain past the breaks.
func (p *problem) needs() []need {
	var out []need
	for i := range p.jobs {
		j := &p.jobs[i]
		t := j.ready
		for k := range j.n {
			t = p.open(i, t)
			out = append(out, need{i, k, t, (j.n - 1 - k) * (j.d() + j.a), j.d()})
			t += j.d() + j.a
		}
	}
	sorted.By(out, func(a, b need) int { return b.tail - a.tail })
	return out
}

// open is the first time from t on at which a dip of job i keeps the breaks.
func (p *problem) open(i, t int) int {
	for moved := true; moved; {
		moved = false
		for _, w := range p.breaks {
			x := held{job: i, s: t, e: t + p.jobs[i].d()}
			a0, a1, b0, b1 := p.hands(x)
			if w.within(a0, a1) {
				t, moved = w.to, true
			} else if w.within(b0, b1) {
				t, moved = max(t+1, w.to-(b0-x.s)), true
			}
		}
	}
	return t
}

// mostHeads is the most times from which the bounds look on.
const mostHeads = 200

// bound is a last lift that no plan can beat.
func (p *problem) bound() int {
	low, ns := p.now, p.needs()
	low = max(low, wording.Most(p.fixed, func(x held) int { return x.e }))
	var heads []int
	for _, n := range ns {
		low = max(low, n.head+n.len+n.tail)
		heads = append(heads, n.head)
	}
	for i := range p.jobs {
		low = max(low, p.restedChain(&p.jobs[i]))
	}
	slices.Sort(heads)
	heads = slices.Compact(heads)
	for _, u := range p.things(false) {
		for at := 0; at < len(heads); at += 1 + len(heads)/mostHeads {
			h, sum := heads[at], int64(0)
			for q, n := range ns {
				if n.head < h {
					continue
				}
				sum += u.each[n.job]
				if q+1 < len(ns) && ns[q+1].tail == n.tail {
					continue
				}
				low = max(low, p.earliest(&u, h, int((sum+u.cap-1)/u.cap))+n.tail)
			}
		}
	}
	return low
}

// allMoved tells whether the hands are needed all through every dip.
func (p *problem) allMoved() bool {
	return !slices.ContainsFunc(p.jobs, func(j job) bool { return !j.moved && j.n > 0 })
}

// restedChain is the least end of a piece that rests with the vat: in one stretch of work only so many of its dips fit.
func (p *problem) restedChain(j *job) int {
	low := 0
	for _, q := range p.pauses {
		if j.n == 0 || j.a >= q.long || p.vats > 1 {
			continue
		}
		fit := (q.after + j.a) / (j.d() + j.a)
		gaps := (j.n - 1) / fit
		low = max(low, j.ready+j.n*j.d()+(j.n-1)*j.a+gaps*(q.long-j.a))
	}
	return low
}

// earliest is the least time by which need seconds of a thing, all of it, can have passed from h on.
func (p *problem) earliest(u *uses, h, need int) int {
	if need == 0 {
		return h
	}
	end := h + need
	if u.breaks {
		for _, w := range p.breaks {
			if w.to > h && w.from < end {
				end += w.to - max(h, w.from)
			}
		}
	}
	if p.vats > 1 && u.hands {
		return end
	}
	return max(end, h+need+p.standstill(need))
}

// standstill is how long a vat stands empty at least while it works for need seconds. Of two pauses the
// shorter falls within the stretches of the longer, which so hold less work.
func (p *problem) standstill(need int) int {
	switch len(p.pauses) {
	case 0:
		return 0
	case 1:
		return (need - 1) / p.pauses[0].after * p.pauses[0].long
	}
	long, short := p.pauses[0], p.pauses[1]
	if long.long < short.long {
		long, short = short, long
	}
	round := short.after + short.long
	holds := long.after/round*short.after + min(short.after, long.after%round)
	gaps := (need - 1) / holds
	return gaps*long.long + max(0, (need-1)/short.after-gaps)*short.long
}
