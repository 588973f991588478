package load

import "slices"

// Each moment of each thing has a price, all of them together 1. A piece goes the cheapest way through the day that its airings and the
// breaks leave it; if all of them together pay more than 1, they do not fit into the day, whatever the prices are (the Lagrangian bound
// of time-indexed scheduling: Fisher, Management Science 27 (1981) 1, from memory). Prices rise where too much is asked for, and fall
// where something is left. Days that do not fit whole are looked at in halves: some dip is lowered early, or late.

// tariff is the prices of a day that is to end by a time. Moments are whole steps from the start of the plan.
type tariff struct {
	p            *problem
	step, n      int         // seconds of a moment; moments
	things       []uses      // hands among them
	price, asked [][]float64 // by thing and moment; what is asked for is a part of what there is
	all, work    []float64   // of a job: what it costs to be in the vat, and to have hands, from the start to a moment
	togo         [][]float64 // of a job by dip: the least that it and those after it cost, not lowered before a moment
	first        [][]int     // and when it is lowered then
}

// mostPriced is the most dips of a day that is priced: larger ones do not get proven in the time that there is.
const mostPriced = 64

// Of what paid gives. Above tooDear a day does not fit: rounding of sums is less. Below hopeless no halves of a day lift it above that
// (tried on the days of testdata/bench/timetable).
const (
	tooDear  = 1e-7
	hopeless = -0.04
)

// tariff is the prices, at first all equal, of a day that ends by a time. step is the seconds of a moment. A thing that all jobs together
// cannot use up is left out, but for hands.
func (p *problem) tariff(end, step int) *tariff {
	q := &tariff{p: p, step: step, n: (end - p.now) / step}
	for _, u := range p.things() {
		sum := int64(0)
		for _, w := range u.of {
			sum += w
		}
		if sum > u.cap || u.hands {
			q.things = append(q.things, u)
			q.price, q.asked = append(q.price, slices.Repeat([]float64{1}, q.n)), append(q.asked, make([]float64, q.n))
		}
	}
	q.all, q.work = make([]float64, q.n+1), make([]float64, q.n+1)
	for i := range p.jobs {
		for len(q.togo) < p.jobs[i].n {
			q.togo, q.first = append(q.togo, make([]float64, q.n+2)), append(q.first, make([]int, q.n+2))
		}
	}
	return q
}

// paid is the most found, in so many rounds of prices, that all pay together beyond 1: above 0 the day does not fit. spans are when each
// dip may be lowered. The rounds are a subgradient ascent (Polyak's step towards 0.02, shorter after each 15 rounds without gain).
func (q *tariff) paid(spans []window, rounds int) float64 {
	stride, stale, most := 2.0, 0, -2.0
	for range rounds {
		sum, paid, over := 0.0, -1.0, 1e-9
		for r := range q.price {
			for _, v := range q.price[r] {
				sum += v
			}
			clear(q.asked[r])
		}
		for r := range q.price {
			for t := range q.price[r] {
				q.price[r][t] /= sum
			}
		}
		for i := range q.p.jobs {
			paid += q.cheapest(i, spans)
		}
		if stale++; paid > most {
			most, stale = paid, 0
			if most > tooDear {
				break
			}
		} else if stale > 15 {
			stride, stale = stride*0.7, 0
		}
		for r := range q.asked {
			for _, v := range q.asked[r] {
				over += (v - 1) * (v - 1)
			}
		}
		for r := range q.asked {
			for t, v := range q.asked[r] {
				q.price[r][t] = max(0, q.price[r][t]+stride*(0.02-paid)/over*(v-1))
			}
		}
	}
	return most
}

// cheapest is the least that a job pays for all its dips; what it takes on that way is added to asked.
func (q *tariff) cheapest(i int, spans []window) float64 {
	p, j := q.p, &q.p.jobs[i]
	d, h, a := j.d()/q.step, j.h/q.step, j.a/q.step
	for t := range q.n {
		q.all[t+1], q.work[t+1] = q.all[t], q.work[t]
		for r, u := range q.things {
			if v := q.price[r][t] * float64(u.of[i]) / float64(u.cap); u.hands {
				q.work[t+1] += v
			} else {
				q.all[t+1] += v
			}
		}
		for _, w := range p.breaks {
			if at := p.now + t*q.step; w.within(at, at+q.step) {
				q.work[t+1] += 10 // no way through an open day costs as much
			}
		}
	}
	for k := j.n - 1; k >= 0; k-- {
		togo, first, s := q.togo[k], q.first[k], spans[j.base+k]
		togo[q.n+1] = 1e9
		for t := q.n; t >= 0; t-- {
			togo[t], first[t] = togo[t+1], first[t+1]
			if at := p.now + t*q.step; at < s.from || at > s.to || t+d > q.n {
				continue
			}
			cost := q.all[t+d] - q.all[t] + q.work[t+d] - q.work[t]
			if !j.moved {
				cost -= q.work[t+d-h] - q.work[t+h]
			}
			if k < j.n-1 {
				cost += q.togo[k+1][min(q.n+1, t+d+a)]
			}
			if cost < togo[t] {
				togo[t], first[t] = cost, t
			}
		}
	}
	if j.n == 0 {
		return 0
	}
	for k, t := 0, 0; k < j.n && q.togo[0][0] < 1e6; k++ {
		t = q.first[k][t]
		for r, u := range q.things {
			for m := t; m < t+d; m++ {
				if !u.hands || j.moved || m < t+h || m >= t+d-h {
					q.asked[r][m] += float64(u.of[i]) / float64(u.cap)
				}
			}
		}
		t += d + a
	}
	return q.togo[0][0]
}

// priced is a bound on the last lift of a day, from low, a bound that is known, to best, the end of the best plan that is known; it is
// best where no plan ends sooner. effort is about how many steps it takes.
func (p *problem) priced(low, best, effort int) int {
	step := p.step()
	q := p.tariff(best-step, step)
	rounds := effort / max(1, (p.ops+len(q.things)*len(p.jobs))*q.n)
	if p.ops > mostPriced || rounds < 4*mostRounds || p.feeds > 0 {
		return low
	}
	spans := slices.Repeat([]window{{p.now, best}}, p.ops)
	if q.halves(spans, &rounds) {
		return min(best, p.now+(q.n+1)*step)
	}
	for from, to := low, best; rounds > 0; rounds -= mostRounds {
		mid := p.now + ((from+to)/2-p.now)/step*step
		if mid <= from {
			break
		}
		open := slices.Clone(spans)
		if p.narrow(open, mid); p.tariff(mid, step).paid(open, mostRounds) > tooDear {
			from, low = mid, mid+step
		} else {
			to = mid
		}
	}
	return low
}

// narrow narrows the times at which dips may be lowered to what their pieces' other dips leave of a day that ends by a time.
func (p *problem) narrow(spans []window, end int) {
	for i := range p.jobs {
		j := &p.jobs[i]
		from, to := max(p.now, j.ready), end-j.d()
		for k := range j.n {
			s, e := &spans[j.base+k], &spans[j.base+j.n-1-k]
			s.from, e.to = max(s.from, from), min(e.to, to)
			from, to = s.from+j.d()+j.a, e.to-j.d()-j.a
		}
	}
}

// step is the greatest length of which all times of the problem are multiples.
func (p *problem) step() int {
	var all []int
	for _, j := range p.jobs {
		if j.n > 0 {
			all = append(all, j.p, j.a, j.h, j.ready-p.now)
		}
	}
	for _, w := range p.breaks {
		all = append(all, max(0, w.from-p.now), max(0, w.to-p.now))
	}
	u := &p.before[0]
	for k, q := range p.pauses {
		if all = append(all, q.after, q.long); u.used {
			all = append(all, max(u.last, p.now)-p.now, max(0, p.now-u.beg[k]))
		}
	}
	for _, f := range p.fixed {
		all = append(all, f.e-p.now)
	}
	g := 0
	for _, v := range all {
		for v != 0 {
			g, v = v, g%v
		}
	}
	return max(1, g)
}

// halves tells whether it is proven that a day does not fit: as a whole, or by both halves of the time in which a dip may be lowered, of
// that with the least choice. rounds are those left.
func (q *tariff) halves(spans []window, rounds *int) bool {
	if *rounds -= 4 * mostRounds; *rounds < 0 {
		return false
	}
	q.p.narrow(spans, q.p.now+q.n*q.step)
	most := q.paid(spans, 4*mostRounds)
	if most > tooDear || most < hopeless {
		return most > tooDear
	}
	pick, least := -1, far
	for op, s := range spans {
		if free := s.to - s.from; free >= 2*q.step && free < least {
			pick, least = op, free
		}
	}
	if pick < 0 {
		return false
	}
	early, late := slices.Clone(spans), slices.Clone(spans)
	mid := spans[pick].from + least/2/q.step*q.step
	early[pick].to, late[pick].from = mid, mid+q.step
	return q.halves(early, rounds) && q.halves(late, rounds)
}
