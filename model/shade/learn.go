package shade

import (
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/wording"
)

const (
	// mostRows is how many looks count, the newest.
	mostRows = 24
	// leastEffective is the effective number of possible vats below which the prior is widened.
	leastEffective = 100
	// manyDips is how many dips a swatch should have to tell how a vat builds up: in the study of vats that build up in
	// another way the ranges hold up to 8 dips with such a swatch, and up to 4 without.
	manyDips = 8
	// sure is the standard deviation of the logarithm of K/S below which a forecast is called calibrated: 80 % within
	// three fifths more or less. Swatches of cotton make linen so, not silk.
	sure = 0.37
)

// Weighted are the possible vats, weighted by what was seen. Make it with Vats.Seen.
type Weighted struct {
	vats      []possible
	weights   []float64 // add up to 1
	rows      []row
	kinds     kinds                       // of the rows' dips
	courses   [][]run                     // and the different courses of them
	factors   [scatterClasses][][]float64 // Cholesky factors of the rows' covariance
	left      []float64                   // whitened residuals, one vat after the other
	scatters  [scatterClasses]float64
	effective float64
	pieces    []Piece // those seen in this vat or another
	words     []string
	rung      *Swatch
}

// Seen weights the possible vats by what was seen of this vat and others, today's and older swatches together; with none
// it is the prior. Same inputs, same answer. At most the newest 24 looks count.
//
// The weight of a possible vat is its likelihood: looks go wrong like a factor, with the noise of their kind, the scatter
// that the possible vat has, and the wandering of days, which older looks share. The level of each possible vat is first
// moved to where the looks want it for that vat's other figures, by its own score, and the move is paid for in the weight
// (importance sampling with the exact conditional, since the logarithm of a swatch's K/S is straight in the level): so
// that thousands of possible vats stay in play where the plain weights would leave a handful.
//
// Where the weights still fall on fewer than 100, or what was seen is too unlikely in all of them, every prior is widened
// and the looks count for less, by steps; Words says so.
func (v *Vats) Seen(swatches []Swatch) Weighted {
	var w Weighted
	for i := range swatches {
		if s := &swatches[i]; s.Rung > 0 && s.How != ByRung && len(s.Dips) > 0 && (w.rung == nil || s.DaysAgo < w.rung.DaysAgo) {
			copied := *s
			w.rung = &copied
		}
	}
	newest := slices.Clone(swatches)
	slices.SortStableFunc(newest, func(a, b Swatch) int { return a.DaysAgo - b.DaysAgo })
	if len(newest) > mostRows {
		newest = newest[:mostRows]
		w.say(fmt.Sprintf("only the newest %d looks count", mostRows))
	}
	here, newestAgo, most := false, math.MaxInt, 0
	for _, s := range newest {
		r, cautions, ok := rowOf(&w.kinds, s, w.rung)
		for _, c := range cautions {
			w.say(c)
		}
		if !ok {
			continue
		}
		for i := range r.terms {
			t := &r.terms[i]
			t.like = slices.IndexFunc(w.courses, func(c []run) bool { return slices.Equal(c, t.runs) })
			if t.like < 0 {
				t.like = len(w.courses)
				w.courses = append(w.courses, t.runs)
			}
		}
		w.rows = append(w.rows, r)
		w.pieces = append(w.pieces, s.Piece)
		here = here || s.Vat == ""
		newestAgo, most = min(newestAgo, s.DaysAgo), max(most, len(s.Dips))
	}
	if len(w.rows) > 0 && !here {
		w.say("seen in other vats only: what a dip gives here is still a guess, if a better one")
	}
	if len(w.rows) > 0 && newestAgo > 0 {
		w.say(fmt.Sprintf("the newest swatch is %s old, and a vat wanders about %.0f %% from one day to the next: "+
			"one swatch today would do", wording.Counted(newestAgo, "day"), 100*Drift))
	}
	if len(w.rows) > 0 {
		words := fmt.Sprintf("the swatches have up to %s: beyond that the range is right only if this vat builds up "+
			"as vats usually do", wording.Counted(most, "dip"))
		if most < manyDips {
			words += fmt.Sprintf("; one swatch of %d dips would tell", manyDips)
		}
		w.say(words)
	}
	for i, step := range []struct{ wide, noise float64 }{{1, 1}, {1.5, 1}, {2, 1.5}, {3, 2.5}} {
		chi := w.weigh(v, step.wide, step.noise)
		n := float64(len(w.rows))
		if w.effective >= leastEffective && chi <= n+3*math.Sqrt(2*n) || len(w.rows) == 0 {
			if i > 0 {
				w.say(fmt.Sprintf("what was seen fits few of the possible vats: every prior was taken %g times as wide", step.wide))
			}
			if step.noise > 1 {
				w.say("the looks do not agree with each other: each counts for less")
			}
			return w
		}
	}
	w.say("what was seen fits hardly any possible vat, even with the widest prior: look at the swatches and their dips again")
	return w
}

// say keeps a sentence, once.
func (w *Weighted) say(s string) {
	if s != "" && !slices.Contains(w.words, s) {
		w.words = append(w.words, s)
	}
}

// Effective is the effective number of possible vats behind the answers, 1/Σw², at most 4,096.
func (w Weighted) Effective() float64 { return w.effective }

// weigh draws the possible vats with a prior so wide and looks so noisy, and weights them. chi is what the residuals add
// up to, about the number of rows less one if all is as it should be.
func (w *Weighted) weigh(v *Vats, wide, noise float64) (chi float64) {
	drawn := v.plain
	if wide != 1 {
		drawn = v.draw(wide)
	}
	n := len(w.rows)
	w.vats = slices.Clone(drawn)
	w.weights = make([]float64, len(drawn))
	w.left = make([]float64, n*len(drawn))
	if n == 0 {
		for i := range w.weights {
			w.weights[i] = 1 / float64(len(w.weights))
		}
		w.effective = float64(len(w.weights))
		return 0
	}
	var toLevel [scatterClasses][]float64
	var precision, lnDet [scatterClasses]float64
	spread := v.spread * wide
	for c, scatter := range v.scatters {
		w.scatters[c] = scatter * noise
		w.factors[c] = cholesky(w.covariances(w.scatters[c], square(noise)))
		u := make([]float64, n)
		for i, r := range w.rows {
			u[i] = r.level
		}
		forward(w.factors[c], u)
		toLevel[c], precision[c] = u, dot(u, u)+1/square(spread)
		for i := range n {
			lnDet[c] += math.Log(w.factors[c][i][i])
		}
	}
	chis := make([]float64, len(drawn))
	dips, depths := make([]gives, len(w.kinds)), make([]float64, len(w.courses))
	most := math.Inf(-1)
	for j := range w.vats {
		p := &w.vats[j]
		p.scatter = w.scatters[p.class]
		x := w.left[j*n : (j+1)*n]
		w.kinds.gives(p, v.level, dips)
		for i, c := range w.courses {
			depths[i] = lnKS(p.after(c, dips))
		}
		for i := range w.rows {
			x[i] = w.rows[i].y
			for _, t := range w.rows[i].terms {
				x[i] -= t.sign * depths[t.like]
			}
		}
		u, precise := toLevel[p.class], precision[p.class]
		forward(w.factors[p.class], x)
		move := dot(u, x)/precise + p.zLevel/math.Sqrt(precise)
		p.level = v.level + move
		for i := range x {
			x[i] -= u[i] * move
		}
		chis[j] = dot(x, x)
		w.weights[j] = -chis[j]/2 - lnDet[p.class] - square(move/spread)/2 + square(p.zLevel)/2 - math.Log(precise)/2
		most = math.Max(most, w.weights[j])
	}
	var sum, squares float64
	for j, ln := range w.weights {
		w.weights[j] = math.Exp(ln - most)
		sum += w.weights[j]
	}
	for j := range w.weights {
		w.weights[j] /= sum
		squares += square(w.weights[j])
		chi += w.weights[j] * chis[j]
	}
	w.effective = 1 / squares
	return chi
}

// lnKS is the logarithm of a depth, with a floor for undyed cloth.
func lnKS(s float64) float64 { return math.Log(max(s, 1e-6)) }

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

// cholesky is the lower factor of a positive matrix, of which the lower half is read and overwritten.
func cholesky(m [][]float64) [][]float64 {
	for i := range m {
		for k := range i + 1 {
			s := m[i][k] - dot(m[i][:k], m[k][:k])
			if i == k {
				m[i][i] = math.Sqrt(math.Max(s, 1e-12))
			} else {
				m[i][k] = s / m[k][k]
			}
		}
	}
	return m
}

// forward solves for x in place, with a lower factor.
func forward(lower [][]float64, x []float64) {
	for i := range x {
		x[i] = (x[i] - dot(lower[i][:i], x[:i])) / lower[i][i]
	}
}

func dot(a, b []float64) (s float64) {
	for i := range a {
		s += a[i] * b[i]
	}
	return s
}
