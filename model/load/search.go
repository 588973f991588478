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

// draft is a plan in the making.
type draft struct {
	placed, feeds []held
	score         score
}

// seeker looks for a good plan within a count of steps.
type seeker struct {
	p     *problem
	pl    *placer
	sc    scorer
	best  draft
	any   bool
	limit int
	low   int
	dice  dice
}

func newSeeker(p *problem, low, effort int) *seeker {
	return &seeker{p: p, pl: newPlacer(p), sc: scorer{p: p}, limit: effort, low: low, dice: 0x9e3779b97f4a7c15}
}

// spent is how many steps have gone.
func (s *seeker) spent() int { return s.pl.steps }

// take keeps the placer's plan if it is the best yet, and gives its score.
func (s *seeker) take(than *score) score {
	got := s.sc.of(s.pl.placed, s.pl.weak, than)
	if !s.any || got.less(s.best.score) {
		s.any = true
		s.best.score = got
		s.best.placed = append(s.best.placed[:0], s.pl.placed...)
		s.best.feeds = append(s.best.feeds[:0], s.pl.feeds...)
	}
	return got
}

// start tries the rules of the trade: dark first, the longest way ahead first, who waits longest first, the heaviest
// first; each as a plain list and with the rounds of all pieces side by side.
func (s *seeker) start() {
	p := s.p
	rank := make([]int, p.ops)
	for rule := range 8 {
		for i := range p.jobs {
			j := &p.jobs[i]
			for k := range j.n {
				ahead := (j.n-k)*(j.d()+j.a) + j.tail/4
				v := 0
				switch rule {
				case 0:
					v = -j.dark<<32 - ahead
				case 1:
					v = -ahead
				case 2:
					v = k<<32 - ahead
				case 3:
					v = int(-j.w>>8)<<20 - ahead
				case 4:
					v = k<<32 - j.dark<<24 - i
				case 5:
					v = i
				case 6:
					v = -(j.n-k)<<32 - j.dark
				case 7:
					v = -ahead - j.tail
				}
				rank[j.base+k] = v
			}
		}
		if s.pl.list(rank) {
			s.take(nil)
		}
	}
}

// improve changes the best plan a little, over and over: dips change places in the order of lowerings, pieces change
// ranks, and what is not worse is kept.
func (s *seeker) improve() {
	p := s.p
	n := p.ops
	if n < 2 || !s.any {
		return
	}
	cur := sequence(s.best.placed)
	now := s.best.score
	rank, try := make([]int, n), make([]int, n)
	count := make([]int, len(p.jobs))
	stuck, still, kept := 0, 0, s.best.score
	for s.spent() < s.limit && still < 4000 {
		if still++; s.best.score.less(kept) {
			still, kept = 0, s.best.score
		}
		copy(try, cur)
		span := max(3, n/6)
		for range 1 + s.dice.below(2) {
			from := s.dice.below(n)
			switch s.dice.below(4) {
			case 0: // two dips change places
				to := min(n-1, from+1+s.dice.below(span))
				try[from], try[to] = try[to], try[from]
			case 1, 2: // one goes before or after others
				to := min(max(0, from+s.dice.below(2*span)-span), n-1)
				x := try[from]
				if from < to {
					copy(try[from:to], try[from+1:to+1])
				} else {
					copy(try[to+1:from+1], try[to:from])
				}
				try[to] = x
			case 3: // two pieces change ranks, in all or in what is left of the day
				a, b := s.dice.below(len(p.jobs)), s.dice.below(len(p.jobs))
				for q := from; q < n; q++ {
					if try[q] == a {
						try[q] = b
					} else if try[q] == b {
						try[q] = a
					}
				}
				s.mend(try, count)
			}
		}
		var ok bool
		if s.dice.below(3) > 0 {
			clear(count)
			for q, i := range try {
				rank[p.jobs[i].base+count[i]] = q
				count[i]++
			}
			ok = s.pl.list(rank)
		} else {
			ok = s.pl.inOrder(try)
		}
		if !ok {
			continue
		}
		got := s.take(&now)
		stuck++
		if !now.less(got) || stuck > 400 && s.dice.below(40) == 0 && got[ofWeak] <= now[ofWeak] && got[ofLate] <= now[ofLate] {
			if got.less(now) {
				stuck = 0
			}
			if got[ofTrips] == far {
				got[ofTrips] = s.sc.trips(s.pl.placed)
			}
			now = got
			cur = append(cur[:0], sequence(s.pl.placed)...)
		}
		if stuck > 1500 {
			stuck, now = 0, s.best.score
			cur = append(cur[:0], sequence(s.best.placed)...)
		}
	}
}

// mend gives each job as many places in a list as it has dips, after a change of two unlike ones.
func (s *seeker) mend(seq, count []int) {
	clear(count)
	var over []int
	for q, i := range seq {
		count[i]++
		if count[i] > s.p.jobs[i].n {
			over = append(over, q)
		}
	}
	for i := range s.p.jobs {
		for ; count[i] < s.p.jobs[i].n && len(over) > 0; over = over[1:] {
			seq[over[0]] = i
			count[i]++
		}
	}
}

// seek is the best plan of a problem and the bound on its last lift.
func (p *problem) seek(hint []held) (draft, int) {
	low := p.bound()
	effort := p.limits.Effort
	if effort <= 0 {
		effort = UsualEffort
	}
	s := newSeeker(p, low, effort/6)
	if hint != nil {
		s.pl.inOrder(sequence(hint))
		s.take(nil)
	}
	s.start()
	s.improve()
	if !s.any {
		return draft{}, low
	}
	// Small days are looked through whole; larger ones as far as a part of the steps goes.
	if s.best.score[ofSpan] > low && s.best.score[ofWeak] == 0 {
		node := 40 + 4*p.ops // four times the steps that a moment of the exact search is worth
		found, span, all, nodes := p.prove(s.best.score[ofSpan], low, 2*effort/node)
		s.pl.steps += nodes * node / 4
		if all {
			low = span
		}
		if len(found) == p.ops && p.ops > 0 {
			if s.pl.inOrder(sequence(found)) {
				s.take(nil)
			}
			s.pl.placed = append(s.pl.placed[:0], found...)
			s.pl.weak, s.pl.feeds = 0, s.pl.feeds[:0]
			s.take(nil)
		}
	}
	s.limit = max(s.limit, min(effort, s.spent()+effort/2))
	s.low = low
	s.improve()
	slices.SortStableFunc(s.best.placed, func(a, b held) int { return a.s - b.s })
	return s.best, low
}
