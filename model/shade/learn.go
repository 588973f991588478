package shade

import (
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

const (
	// mostRows is how many looks count, the newest.
	mostRows = 24
	// leastEffective is the effective number of possible vats below which the prior is widened: by a smaller one a look that all of them
	// find unlikely (linen as dark as twice its dips on cotton) is believed by half.
	leastEffective = 150
	// manyDips is how many dips a swatch should have to tell how a vat builds up: in the study of vats that build up in
	// another way the ranges hold up to 8 dips with such a swatch, and up to 4 without.
	manyDips = 8
	// sure is the standard deviation of the logarithm of K/S below which a forecast is called calibrated: 80 % within
	// three fifths more or less. Swatches of cotton make linen so, not silk.
	sure = 0.37
)

// Weighted are the possible vats, weighted by what was seen. Make it with Vats.Seen.
type Weighted struct {
	vats      []*possible // those that count, shared with Vats: what was seen moves level and weights only
	level     []float64   // of each, as the looks want it
	weights   []float64   // add up to 1
	rows      []row
	kinds     kinds                  // of the rows' dips
	courses   [][]run                // and the different courses of them
	factors   [scatterClasses]factor // of the rows' covariance
	left      []float64              // whitened residuals, one vat after the other
	scatters  [scatterClasses]float64
	effective float64
	cloths    [NaturalSilk + 1]Cloth
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
// (importance sampling; far below its ceiling the logarithm of a swatch's K/S is straight in the level, and the move exact):
// so that thousands of possible vats stay in play where the plain weights would leave a handful.
//
// Where the weights still fall on fewer than 150, or what was seen is too unlikely in all of them, every prior is widened
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
	sorted.By(newest, func(a, b Swatch) int { return a.DaysAgo - b.DaysAgo })
	if len(newest) > mostRows {
		newest = newest[:mostRows]
		w.say(fmt.Sprintf("only the newest %d looks count", mostRows))
	}
	for g := range w.cloths {
		w.cloths[g] = clothOf(Ground(g), newest)
	}
	here, newestAgo, most, lines := false, math.MaxInt, 0, map[bool]map[Cloth]*track{true: {}, false: {}} // lines of wet cloth, and of dry
	for _, s := range newest {
		r, cautions, ok := rowOf(&w.kinds, s, w.rung, w.Cloth(s.Piece.Ground), lines[s.Wet])
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
		words += wording.If(most < manyDips, fmt.Sprintf("; one swatch of %d dips would tell", manyDips))
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

// Cloth is the line of colours on a ground, as the swatches on it want it.
func (w Weighted) Cloth(g Ground) Cloth {
	if g < White || g > NaturalSilk {
		return Cloth{Ground: g}
	}
	return w.cloths[g]
}

// None tells whether it is the zero Weighted, of no vat.
func (w Weighted) None() bool { return len(w.vats) == 0 }

// Seen tells whether any look stands behind it.
func (w Weighted) Seen() bool { return len(w.rows) > 0 }
