package load

import "slices"

// The bounds of things add up whole days. Here each moment of each thing has a price: a piece goes the cheapest way through the day
// that its airings and the breaks leave it, and if all of them together pay more than all the moments are worth, they do not fit in,
// whatever the prices are (the Lagrangian bound of time-indexed scheduling: Fisher, Management Science 27 (1981) 1, from memory). The
// prices are raised where too much is asked for, and lowered where something is left.

// tariff is the prices of a day that is to end by a time, and what they make the dips cost. Moments are whole steps from the start of
// the plan; all that there is of all things in the whole day is worth 1.
type tariff struct {
	p       *problem
	step, n int         // seconds of a moment; moments
	worth   []float64   // by moment: all that there is from it on
	all     [][]float64 // by job: what it costs to hold the vat from the start to a moment
	work    [][]float64 // by job: and to have a pair of hands
	togo    [][]float64 // by dip: the least that it and those after it cost, not lowered before a moment
	first   [][]int     // by dip: when it is lowered then
	paid    float64     // what all pay together at least, less what all is worth: above 0 the day does not fit
}

// tooDear is what is above 0 for sure, in floating point.
const tooDear = 1e-7

// priced looks for prices at which a day that ends by a time does not fit, in so many rounds; else it gives the dearest found.
func (p *problem) priced(end, step, rounds int) tariff {
	q := tariff{p: p, step: step, n: (end - p.now) / step}
	for range p.jobs {
		q.all, q.work = append(q.all, make([]float64, q.n+1)), append(q.work, make([]float64, q.n+1))
	}
	for range p.ops {
		q.togo, q.first = append(q.togo, make([]float64, q.n+2)), append(q.first, make([]int, q.n+2))
	}
	things := slices.DeleteFunc(p.things(), func(u uses) bool {
		sum := int64(0)
		for _, w := range u.of {
			sum += w
		}
		return sum <= u.cap && !u.hands
	})
	price, asked := make([][]float64, len(things)), make([][]float64, len(things))
	for r := range things {
		price[r], asked[r] = slices.Repeat([]float64{1}, q.n), make([]float64, q.n)
	}
	best, most, stale, stride := price, -2.0, 0, 2.0
	for round := range rounds {
		sum := 0.0
		for r := range price {
			for _, v := range price[r] {
				sum += v
			}
		}
		for r := range price {
			for t := range price[r] {
				price[r][t] /= sum
			}
		}
		if q.reckon(things, price); q.paid > most {
			best, most, stale = nil, q.paid, 0
			for _, ps := range price {
				best = append(best, slices.Clone(ps))
			}
		}
		if most > tooDear || round == rounds-1 {
			break
		}
		if stale++; stale > 15 {
			stride, stale = stride*0.7, 0
		}
		q.ask(things, asked)
		over := 1e-9
		for r := range asked {
			for _, v := range asked[r] {
				over += (v - 1) * (v - 1)
			}
		}
		for r := range asked {
			for t, v := range asked[r] {
				price[r][t] = max(0, price[r][t]+stride*(0.02-q.paid)/over*(v-1))
			}
		}
	}
	q.reckon(things, best)
	return q
}

// reckon reckons what all costs at some prices.
func (q *tariff) reckon(things []uses, price [][]float64) {
	p := q.p
	q.worth, q.paid = make([]float64, q.n+1), -1
	for t := q.n - 1; t >= 0; t-- {
		q.worth[t] = q.worth[t+1]
		for r := range things {
			q.worth[t] += price[r][t]
		}
	}
	for i := range p.jobs {
		j, all, work := &p.jobs[i], q.all[i], q.work[i]
		for t := range q.n {
			all[t+1], work[t+1] = all[t], work[t]
			for r, u := range things {
				if v := price[r][t] * float64(u.of[i]) / float64(u.cap); u.hands {
					work[t+1] += v
				} else {
					all[t+1] += v
				}
			}
			for _, w := range p.breaks {
				if at := p.now + t*q.step; w.within(at, at+q.step) {
					work[t+1] += far
				}
			}
		}
		for k := j.n - 1; k >= 0; k-- {
			togo, first := q.togo[j.base+k], q.first[j.base+k]
			togo[q.n+1] = far
			for t := q.n; t >= 0; t-- {
				togo[t], first[t] = togo[t+1], first[t+1]
				if d := j.d() / q.step; t+d <= q.n {
					a0, a1, b0, b1 := t, t+d, t+d, t+d
					if !j.moved {
						a1, b0 = t+j.h/q.step, t+d-j.h/q.step
					}
					cost := all[t+d] - all[t] + work[a1] - work[a0] + work[b1] - work[b0]
					if k < j.n-1 {
						cost += q.togo[j.base+k+1][min(q.n+1, t+d+j.a/q.step)]
					}
					if cost < togo[t] {
						togo[t], first[t] = cost, t
					}
				}
			}
		}
		if j.n > 0 {
			q.paid += q.togo[j.base][q.at(j.ready)]
		}
	}
}

// at is the moment of a time.
func (q *tariff) at(t int) int { return min(q.n+1, max(0, t-q.p.now)/q.step) }

// ask adds up what the cheapest ways take of each thing in each moment, as a part of what there is.
func (q *tariff) ask(things []uses, asked [][]float64) {
	for r, u := range things {
		clear(asked[r])
		for i := range q.p.jobs {
			j := &q.p.jobs[i]
			t := q.at(j.ready)
			for k := range j.n {
				t = q.first[j.base+k][t]
				d, h := j.d()/q.step, j.h/q.step
				for m := t; m < t+d && m < q.n; m++ {
					if !u.hands || j.moved || m < t+h || m >= t+d-h {
						asked[r][m] += float64(u.of[i]) / float64(u.cap)
					}
				}
				t = min(q.n+1, t+d+j.a/q.step)
			}
		}
	}
}
