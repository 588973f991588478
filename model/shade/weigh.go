package shade

import (
	"cmp"
	"math"
	"math/bits"
	"sync"

	"example.org/vatside/model/sorted"
)

// farBelow is the part of its ceiling up to which a blue is taken as if there were none: it is then half a hundredth too dark.
const farBelow = 0.37

// picked is how many possible vats, counted as often as their weight says, are asked after they were weighted.
const picked = 1024

// nearCeiling is the part of its ceiling above which a look no longer tells how much dye is there.
const nearCeiling = 0.9

// weighing has room for weigh.
var weighing = sync.Pool{New: func() any { return new([]float64) }}

// weigh draws the possible vats with a prior so wide and looks so noisy, and weights them. chi is what the residuals add
// up to, about the number of rows less one if all is as it should be.
func (w *Weighted) weigh(v *Vats, wide, noise float64) (chi float64) {
	drawn := v.plain
	if wide != 1 {
		drawn = v.draw(wide)
	}
	for c, scatter := range v.scatters {
		w.scatters[c] = scatter * noise
	}
	n, all := len(w.rows), len(drawn)
	if n == 0 {
		w.weights, w.level, w.vats = make([]float64, all), make([]float64, all), make([]*possible, all)
		for i := range w.weights {
			w.weights[i] = 1 / float64(all)
			w.level[i] = drawn[i].level
			w.vats[i] = &drawn[i]
		}
		w.effective = float64(all)
		return 0
	}
	s := w.sums(v.level, v.spread*wide, noise)
	room := weighing.Get().(*[]float64) // it is left again by pick
	defer weighing.Put(room)
	if len(*room) < (n+3)*all {
		*room = make([]float64, (n+3)*all)
	}
	w.weights, w.level, w.left = (*room)[:all], (*room)[all:2*all], (*room)[3*all:]
	chis := (*room)[2*all : 3*all]
	most := math.Inf(-1)
	for j := range drawn {
		p := &drawn[j]
		x := w.left[j*n : (j+1)*n]
		s.reckon(p)
		move, paid := s.settle(p, x)
		w.level[j] = v.level + move
		chis[j] = squares(x)
		w.weights[j] = paid - chis[j]/2
		if w.weights[j] > most {
			most = w.weights[j]
		}
	}
	var sum, square float64
	for j, ln := range w.weights {
		w.weights[j] = 0
		if ln > most-40 {
			w.weights[j] = exp(ln - most)
			sum += w.weights[j]
			chi += w.weights[j] * chis[j]
		}
	}
	for _, weight := range w.weights {
		square += weight * weight
	}
	w.effective = sum * sum / square
	w.pick(drawn, sum)
	return chi / sum
}

// pick leaves some of the possible vats for what is asked later, each as often as its weight says: those that a comb of picked teeth laid
// along the weights hits. A forecast of these is as good to a hundredth of its range, and goes three times as fast. The comb goes by the
// places of the vats in their sequence with the bits turned round, so that of equal weights it hits the first of the sequence, which are as
// even as all, and not each fourth, which all lie on one side of some figure.
func (w *Weighted) pick(drawn []possible, sum float64) {
	n, all := len(w.rows), len(drawn)
	vats := make([]*possible, 0, picked)
	room := make([]float64, (n+2)*picked)
	level, weights, left := room[:0:picked], room[picked:picked:2*picked], room[2*picked:2*picked]
	tooth := sum / picked
	next, held := tooth/2, 0.0
	turn := bits.LeadingZeros32(uint32(all - 1)) // all is a power of two
	for i := range all {
		j := int(bits.Reverse32(uint32(i)) >> turn)
		held += w.weights[j]
		hits := 0
		for ; next < held && hits < picked; next += tooth {
			hits++
		}
		if hits == 0 {
			continue
		}
		vats, level, weights = append(vats, &drawn[j]), append(level, w.level[j]), append(weights, float64(hits)/picked)
		left = append(left, w.left[j*n:(j+1)*n]...)
	}
	w.vats, w.level, w.weights, w.left = vats, level, weights, left
}

// settling is the arithmetic that all possible vats share, and its room.
type settling struct {
	w             *Weighted
	level, spread float64 // of the prior of the level
	// by class of scatter: the whitened effect of the level far below the ceiling, its precision and the logarithm of that, and half the
	// logarithm of the determinant
	to                         [scatterClasses][]float64
	precise, lnPrecise, determ [scatterClasses]float64
	sd                         [scatterClasses]float64 // the root of the precision
	given                      []gives
	dye                        []float64 // logarithm of each course's dye, at the prior's level
	fourth                     []float64 // its dye to the fourth power
	seen, part                 []float64 // each course under a ceiling: logarithm of K/S, and how it moves with the level
	slope                      []float64
	lifted                     []float64 // what each look at one cloth saw, to the fourth power
	looks                      []look
	terms                      []summand
	deepest                    float64  // the greatest of them; without end where looks compare
	order                      []walked // the courses: those of one kind of dip together, the shorter first
}

// walked is a course: its place, and its dips of one kind, or its runs where it has several.
type walked struct {
	at, kind, dips int
	runs           []run
}

// look is a row, and where its terms end.
type look struct {
	y   float64
	end int
}

// summand is a term: its sign, and its place among the courses.
type summand struct {
	sign float64
	like int
}

func (w *Weighted) sums(level, spread, noise float64) *settling {
	n := len(w.rows)
	m := len(w.courses)
	s := &settling{w: w, level: level, spread: spread, given: make([]gives, len(w.kinds)), dye: make([]float64, m),
		fourth: make([]float64, m), seen: make([]float64, m), part: make([]float64, m), slope: make([]float64, n), lifted: make([]float64, n)}
	for i, r := range w.rows {
		for _, t := range r.terms {
			s.terms = append(s.terms, summand{t.sign, t.like})
		}
		s.looks = append(s.looks, look{r.y, len(s.terms)})
		if len(r.terms) == 1 {
			s.lifted[i] = math.Exp(4 * r.y)
			s.deepest = math.Max(s.deepest, s.lifted[i])
		} else {
			s.deepest = math.Inf(1)
		}
	}
	for i, c := range w.courses {
		s.order = append(s.order, walked{i, c[0].kind, c[0].dips, c})
	}
	sorted.By(s.order, func(a, b walked) int {
		return cmp.Or(cmp.Compare(len(a.runs), len(b.runs)), cmp.Compare(a.kind, b.kind), cmp.Compare(a.dips, b.dips))
	})
	for c := range w.factors {
		w.factors[c] = cholesky(w.covariances(w.scatters[c], square(noise)))
		u := make([]float64, n)
		for i, r := range w.rows {
			u[i] = r.level
			s.determ[c] -= math.Log(w.factors[c][i*(i+1)/2+i]) // the factor has inverse diagonals
		}
		w.factors[c].forward(u)
		s.to[c], s.precise[c] = u, squares(u)+1/square(spread)
		s.lnPrecise[c], s.sd[c] = math.Log(s.precise[c]), math.Sqrt(s.precise[c])
	}
	return s
}

// reckon finds the dye of all courses in a possible vat. Courses of one kind of dip are one course, looked at on its way.
func (s *settling) reckon(p *possible) {
	s.w.kinds.gives(p, s.level, s.given)
	kind, dips, ks := -1, 0, 0.0
	var g gives
	for i := range s.order {
		c := &s.order[i]
		switch {
		case len(c.runs) != 1:
			kind, ks = -1, p.after(c.runs, s.given)
		case c.kind != kind:
			kind, dips, ks, g = c.kind, 0, 0, s.given[c.kind]
			fallthrough
		default:
			for ; dips < c.dips; dips++ {
				ks += g.once*p.gain(dips+1) - ks*g.strip
			}
		}
		dye := max(ks, 1e-6)
		s.seen[c.at], s.fourth[c.at] = dye, square(dye*dye)
	}
	lnEach(s.dye, s.seen)
}

// settle moves the level of a possible vat to where the looks want it, fills in the whitened residuals there, and tells what the
// move costs in the logarithm of the weight.
func (s *settling) settle(p *possible, x []float64) (move, paid float64) {
	f, c := s.w.factors[p.class], p.class
	inverse := p.overCeiling
	straight := s.deepest*inverse < farBelow*farBelow*farBelow*farBelow
	at := 0
	for i, l := range s.looks {
		e := l.y
		if !straight {
			part := min(s.lifted[i]*inverse, nearCeiling*nearCeiling*nearCeiling*nearCeiling)
			if u := part / (1 - part); u > 1 { // −ln(1 − part) is ln(1 + part/(1 − part))
				e += math.Log(1+u) / 4
			} else if u > 0 {
				e += ln1p(u) / 4
			}
		}
		for ; at < l.end; at++ {
			e -= s.terms[at].sign * s.dye[s.terms[at].like]
		}
		x[i] = e
	}
	u, precise, lnPrecise := s.to[c], s.precise[c], s.lnPrecise[c]
	f.forward(x)
	start := dot(u, x) / precise
	if straight {
		move = start + p.zLevel/s.sd[c]
		for i := range x {
			x[i] -= u[i] * move
		}
	} else { // one step of Newton's
		s.under(inverse, start, x, s.slope)
		f.forwardBoth(x, s.slope)
		prior := 1 / square(s.spread)
		precise = squares(s.slope) + prior
		lnPrecise = ln(precise)
		move = start + (dot(s.slope, x)-start*prior)/precise + p.zLevel/math.Sqrt(precise)
		s.under(inverse, move, x, nil)
		f.forward(x)
	}
	return move, -s.determ[c] - square(move/s.spread)/2 + square(p.zLevel)/2 - lnPrecise/2
}

// under fills in the residuals at a move of the level under a ceiling (the inverse of its fourth power), and how the looks move with the
// level there.
func (s *settling) under(inverse, move float64, x, slope []float64) {
	scale := exp(4*move) * inverse
	dye, seen, part := s.dye[:len(s.fourth)], s.seen[:len(s.fourth)], s.part[:len(s.fourth)]
	for i, fourth := range s.fourth {
		over := fourth * scale
		if over > 1 {
			seen[i] = dye[i] + move - math.Log(1+over)/4
		} else {
			seen[i] = dye[i] + move - ln1p(over)/4
		}
		if slope != nil {
			part[i] = 1 / (1 + over)
		}
	}
	at := 0
	for i := range s.looks {
		l := &s.looks[i]
		ln, moves := l.y, 0.0
		for _, t := range s.terms[at:l.end] {
			ln -= t.sign * seen[t.like]
			moves += t.sign * part[t.like]
		}
		at, x[i] = l.end, ln
		if slope != nil {
			slope[i] = moves
		}
	}
}

// ln1p is the logarithm of 1 + u for u from 0 to 1, to 1e-6.
func ln1p(u float64) float64 {
	y := u / (2 + u)
	z := y * y
	return 2 * y * (1 + z*(1.0/3+z*(1.0/5+z*(1.0/7+z/9))))
}

// lnKS is the logarithm of a depth, with a floor for undyed cloth.
func lnKS(s float64) float64 { return math.Log(max(s, palestSeen)) }

// palestSeen is the depth of undyed cloth where its logarithm is asked for.
const palestSeen = 1e-6

// covariances are how the looks go wrong together in a vat of a scatter.
func (w *Weighted) covariances(scatter, noise float64) [][]float64 {
	m := make([][]float64, len(w.rows))
	for i := range m {
		m[i] = make([]float64, len(w.rows))
		for k := range i + 1 {
			m[i][k] = covariance(w.rows[i], w.rows[k], ownPart*square(scatter))
		}
		for _, t := range w.rows[i].terms {
			if t.tag != "" {
				m[i][i] -= ownPart * square(t.sign*scatter) // is in both
			}
			m[i][i] += square(t.sign * scatter)
		}
		m[i][i] += w.rows[i].noise * noise
	}
	return m
}

// factor is the lower Cholesky factor of a positive matrix, row after row, with the inverse of its diagonal.
type factor []float64

// cholesky is the factor of a matrix, of which the lower half is read and overwritten.
func cholesky(m [][]float64) factor {
	out := make(factor, 0, len(m)*(len(m)+1)/2)
	for i := range m {
		for k := range i + 1 {
			s := m[i][k] - dot(m[i][:k], m[k][:k])
			if i == k {
				m[i][i] = math.Sqrt(math.Max(s, 1e-12))
			} else {
				m[i][k] = s / m[k][k]
			}
		}
		out = append(out, m[i][:i]...)
		out = append(out, 1/m[i][i])
	}
	return out
}

// forward solves for x in place.
func (f factor) forward(x []float64) {
	at := 0
	for i := range x {
		s, row, before := x[i], f[at:at+i+1], x[:i]
		for k, m := range row[:len(before)] {
			s -= m * before[k]
		}
		x[i] = s * row[i]
		at += i + 1
	}
}

// forwardBoth solves for x and for y in place, at the speed of one.
func (f factor) forwardBoth(x, y []float64) {
	y = y[:len(x)]
	at := 0
	for i := range x {
		s, t := x[i], y[i]
		row := f[at : at+i+1]
		for k, m := range row[:i] {
			s -= m * x[k]
			t -= m * y[k]
		}
		x[i], y[i] = s*row[i], t*row[i]
		at += i + 1
	}
}

func dot(a, b []float64) (s float64) {
	for i := range a {
		s += a[i] * b[i]
	}
	return s
}

func squares(x []float64) (s float64) {
	for _, v := range x {
		s += v * v
	}
	return s
}
