package load

import "slices"

// dice is a fixed sequence of numbers (xorshift of Marsaglia, Journal of Statistical Software 8 (2003) 14): the search
// takes the same turns every time.
type dice uint64

func (d *dice) below(n int) int {
	x := uint64(*d)
	x ^= x << 13
	x ^= x >> 7
	x ^= x << 17
	*d = dice(x)
	return int(x >> 11 % uint64(max(n, 1)))
}

// seeker looks for a good plan within a count of steps.
type seeker struct {
	p     *problem
	l     *line
	back  *line // of the day run backwards
	sc    scorer
	best  draft
	any   bool
	limit int // of steps
	dice  dice
	rank  []int
	dips  []held
	count []int
}

// take keeps the line's plan if it is the best yet, and gives its score.
func (s *seeker) take(than *score) score {
	s.dips = s.l.planned(s.dips[:0])
	return s.keep(s.dips, s.l.feeds, than)
}

// keep keeps a plan if it is the best yet, and gives its score.
func (s *seeker) keep(placed, feeds []held, than *score) score {
	got := s.sc.of(placed, feeds, than)
	if !s.any || got.less(s.best.score) {
		s.any = true
		s.best = draft{append(s.best.placed[:0], placed...), append(s.best.feeds[:0], feeds...), got}
	}
	return got
}

// rules are the rules of the trade by which start ranks a dip of a job, ahead being the time that its piece still takes:
// dark first, the longest way ahead first, who waits longest first, the heaviest first, who leaves first; some with the
// rounds of all pieces side by side.
var rules = []func(j *job, i, k, ahead int) int{
	func(j *job, _, _, ahead int) int { return -j.dark<<32 - ahead },
	func(_ *job, _, _, ahead int) int { return -ahead },
	func(_ *job, _, k, ahead int) int { return k<<32 - ahead },
	func(j *job, _, _, ahead int) int { return int(-j.w>>8)<<20 - ahead },
	func(j *job, i, k, _ int) int { return k<<32 - j.dark<<24 - i },
	func(_ *job, i, _, _ int) int { return i },
	func(j *job, _, k, _ int) int { return -(j.n-k)<<32 - j.dark },
	func(j *job, _, _, ahead int) int {
		if j.till > 0 {
			return j.till - ahead - 1<<32
		}
		return -ahead - j.tail
	},
}

// start tries the rules, one that orders the dips as another does only once; its steps count all the same.
func (s *seeker) start() {
	var tried [][]int
	var took []int
	for _, rule := range rules {
		for i := range s.p.jobs {
			j := &s.p.jobs[i]
			for k := range j.n {
				s.rank[j.base+k] = rule(j, i, k, (j.n-k)*(j.d()+j.a)+j.tail/4)
			}
		}
		places := slices.Compact(slices.Sorted(slices.Values(s.rank)))
		for q, r := range s.rank {
			s.rank[q], _ = slices.BinarySearch(places, r)
		}
		if q := slices.IndexFunc(tried, func(o []int) bool { return slices.Equal(o, s.rank) }); q >= 0 {
			s.l.steps += took[q]
			continue
		}
		before := s.l.steps
		if s.l.list(s.rank, nil) {
			s.take(nil)
		}
		tried, took = append(tried, slices.Clone(s.rank)), append(took, s.l.steps-before)
	}
}

// justify runs the day backwards from its end, each dip as late as it can be, and then forwards again from there
// (forward–backward improvement of Li and Willis, European Journal of Operational Research 56 (1992) 370, from memory).
func (s *seeker) justify(placed []held, than *score) (score, bool) {
	p, b, end := s.p, s.back, 0
	for _, x := range placed {
		end = max(end, x.e)
	}
	b.p.breaks = b.p.breaks[:0]
	for q := len(p.breaks) - 1; q >= 0; q-- {
		if w := p.breaks[q]; w.from < end {
			b.p.breaks = append(b.p.breaks, window{end - w.to, end - w.from})
		}
	}
	for _, x := range placed {
		j := &p.jobs[x.job]
		s.rank[j.base+j.n-1-x.k] = -x.e
	}
	ok := b.list(s.rank, nil)
	if s.l.steps, b.steps = s.l.steps+b.steps, 0; !ok {
		return score{}, false
	}
	for _, x := range b.all {
		j := &p.jobs[x.job]
		s.rank[j.base+j.n-1-x.k] = -x.e
	}
	if !s.l.list(s.rank, nil) {
		return score{}, false
	}
	return s.take(than), true
}

// backwards is the problem run from its end to its start, for justify: what the vats and people bring along from before, and
// the indigo, are left out, as the plan is made legal when it is run forwards again.
func (p *problem) backwards() *problem {
	b := &problem{pieces: p.pieces, limits: p.limits, cap: p.cap, most: p.most, pairs: p.pairs, vats: p.vats, pauses: p.pauses,
		people: p.people, before: make([]past, p.vats), ops: p.ops}
	b.limits.Fair = false
	for _, j := range p.jobs {
		j.ready, j.demo = 0, false
		b.jobs = append(b.jobs, j)
	}
	return b
}

// improve changes the best plan a little, over and over: dips change places in the order of lowerings, or go before or after
// others. What is worse by up to heat, in seconds, is kept too, less and less as the steps go (threshold accepting of Dueck and
// Scheuer, Journal of Computational Physics 90 (1990) 161, from memory).
func (s *seeker) improve(heat int) {
	p := s.p
	if p.ops < 2 || !s.any {
		return
	}
	cur, now, try := jobsOf(s.best.placed, nil), s.best.score, make([]int, p.ops)
	indigo := p.holds > 0 && !p.anyhow // how it is shared out asks for the order of the lowerings
	still, kept, begun := 0, s.best.score, s.l.steps
	for s.l.steps < s.limit && still < 4000 {
		if still++; s.best.score.less(kept) {
			still, kept = 0, s.best.score
			if got, ok := s.justify(s.best.placed, nil); ok && !now.less(got) {
				now, cur = got, jobsOf(s.dips, cur[:0])
			}
			continue
		}
		copy(try, cur)
		s.change(try)
		ok := false
		switch way := s.dice.below(6); {
		case p.limits.Fair || way > 1:
			clear(s.count)
			for q, i := range try {
				s.rank[p.jobs[i].base+s.count[i]] = q
				s.count[i]++
			}
			ok = s.l.list(s.rank, nil)
		case way == 1 || indigo || len(p.jobs) <= mostWalked:
			ok = s.l.sequence(try, way == 1 || indigo)
		default:
			ok = s.refit()
		}
		if !ok {
			continue
		}
		got := s.take(&now)
		warm := s.dice.below(heat * (s.limit - s.l.steps) / max(1, s.limit-begun))
		if !now.less(got) || warm > 0 && got[ofWeak] <= now[ofWeak] && max(got[ofLate]-now[ofLate], got[ofLeaving]-now[ofLeaving], got[ofPast]-now[ofPast], got[ofSpan]-now[ofSpan]) <= warm {
			if got[ofTrips] == far {
				got[ofTrips] = s.sc.trips(s.dips)
			}
			now, cur = got, jobsOf(s.dips, cur[:0])
		}
	}
}

// refit takes some jobs, two up to a third of them, out of the best plan and puts their dips in again, that with the longest way ahead
// first, each as soon as it fits beside the others (large-neighbourhood search of Shaw, CP98, Lecture Notes in Computer Science 1520 (1998)
// 417, from memory).
func (s *seeker) refit() bool {
	p, l := s.p, s.l
	clear(s.count)
	for range 2 + s.dice.below(len(p.jobs)/3) {
		s.count[s.dice.below(len(p.jobs))] = 1
	}
	l.reset()
	for _, x := range s.best.placed {
		if s.count[x.job] == 0 && x.k >= l.next[x.job] { // the others are settled
			l.put(x)
		}
	}
	for {
		next, most := -1, 0
		for i := range p.jobs {
			j := &p.jobs[i]
			if ahead := (j.n - l.next[i]) * (j.d() + j.a); ahead > most {
				next, most = i, ahead
			}
		}
		if next < 0 || !l.place(next, l.ready[next]) {
			return next < 0
		}
	}
}

// change changes a list of jobs a little.
func (s *seeker) change(try []int) {
	n := len(try)
	span := max(3, n/6)
	for range 1 + s.dice.below(2) {
		from := s.dice.below(n)
		if s.dice.below(3) == 0 { // two dips change places
			to := min(n-1, from+1+s.dice.below(span))
			try[from], try[to] = try[to], try[from]
			continue
		}
		to := min(max(0, from+s.dice.below(2*span)-span), n-1) // one goes before or after others
		x := try[from]
		try = slices.Insert(slices.Delete(try, from, from+1), to, x)
	}
}

// pauseEffort is how many times the usual steps are gone for a day of one stretch that is not walked, pauseTries how often one that is
// walked is looked for. No source.
const (
	pauseEffort = 5
	pauseTries  = 4
)

// seek is the best plan found of a problem, empty where there is none. hint is a plan to begin with, if any. No small change of a day that
// only just needs a pause ends sooner: there a day of one stretch of work is looked for, as late as it still ends sooner.
func (p *problem) seek(hint *draft) draft {
	best, large := p.search(hint), len(p.jobs) > mostWalked
	for k, q := range p.pauses {
		for range pauseTries {
			r, end := *p, best.score[ofSpan]
			from := end - 1 - q.after
			if r.pauses, r.jobs = slices.Delete(slices.Clone(p.pauses), k, k+1), slices.Clone(p.jobs); large {
				r.limits.Effort = pauseEffort * p.limits.effort()
			}
			for i := range r.jobs {
				r.jobs[i].ready = max(r.jobs[i].ready, from)
			}
			if p.old != nil || end <= q.after || r.bound() >= end {
				break
			}
			best = p.laid(p.sooner(r.search(nil).placed), best)
			if large || best.score[ofSpan] == end {
				break
			}
		}
	}
	return best
}

// sooner is a plan put back to the time at which a first dip can begin; breaks keep it where it is.
func (p *problem) sooner(placed []held) []held {
	by := btoi(len(p.breaks) == 0) * far
	for _, x := range placed {
		if x.k == 0 {
			by = min(by, x.s-p.jobs[x.job].ready)
		}
	}
	for n := range placed {
		placed[n].s, placed[n].e = placed[n].s-by, placed[n].e-by
	}
	return placed
}

// search is seek without a look at pauses.
func (p *problem) search(hint *draft) draft {
	effort := p.limits.effort()
	s := &seeker{p: p, l: newLine(p), back: newLine(p.backwards()), sc: scorer{p: p}, limit: effort / 6, dice: 0x9e3779b97f4a7c15,
		rank: make([]int, p.ops), count: make([]int, len(p.jobs))}
	if hint != nil {
		s.keep(hint.placed, hint.feeds, nil)
	}
	s.start()
	s.improve(60)
	if !s.any {
		return draft{}
	}
	s.limit = effort / 2
	s.improve(0)
	byTime(s.best.placed)
	return s.best
}

// proven is a plan, or one that ends sooner, and the bound on the last lift: its end where none ends sooner. What a walk
// does not look at, replans, rounds and the indigo, keeps its plan.
func (p *problem) proven(best draft) (draft, int) {
	low, end := p.bound(), best.score[ofSpan]
	if end > low {
		return p.walked(low, best)
	}
	return best, low
}

// laid is a plan with its dips at given times, where that keeps every limit and is better than best.
func (p *problem) laid(at []held, best draft) draft {
	l, made := newLine(p), make([]int, len(p.jobs))
	l.reset()
	for _, x := range at {
		if made[x.job]++; made[x.job] <= l.next[x.job] { // it was settled
			continue
		}
		y, later := l.at(x.job, x.s)
		if later > 0 || x.s < l.ready[x.job] {
			return best
		}
		l.put(y)
	}
	d := draft{placed: l.planned(nil), feeds: l.feeds}
	if len(d.placed) < p.ops {
		return best
	}
	if d.score = (&scorer{p: p}).of(d.placed, d.feeds, nil); d.score.less(best.score) {
		return d
	}
	return best
}
