package photo

import (
	"fmt"
	"math"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Rung is where a piece lies on the ladder, in rungs; 8 times in 10 from Low to High.
type Rung struct {
	Likely, Low, High float64
	Error             float64 // standard deviation, rungs
}

// Between is a place on the ladder with its error, a standard deviation in rungs.
func Between(likely, sd float64) Rung {
	const tenth = 1.2816 // of a normal spread, one tenth lies beyond
	return Rung{Likely: likely, Low: max(likely-tenth*sd, 0), High: likely + tenth*sd, Error: sd}
}

// Placed is a piece beside the rungs of the same photograph. Without a Rung, Words says why.
type Placed struct {
	Seen
	Rung  *Rung
	Words string
}

// alike is how far two windows of one colour come out apart, standard deviation in CIELAB 1976: light, paper and cloth differ
// from window to window. testdata/bench/photo has the outcomes.
const alike = 1.3

// Deepest is the L* below which a colour that stands alone says nothing: cameras differ most there. From memory, no source.
const Deepest = 25

// Place puts the cloth of the holes between rungs that lie in the places for them, named in the order of the places that hold
// any. The pieces come in the order of the holes.
func Place(seen []Seen, rungs []int) ([]Placed, error) {
	var ladder, holes []Seen
	for _, s := range seen {
		if s.Hole {
			holes = append(holes, s)
		} else {
			ladder = append(ladder, s)
		}
	}
	if len(ladder) != len(rungs) {
		return nil, fmt.Errorf("%d rungs are named, and %d places for rungs show cloth that can be read: name those that are there, row by row", len(rungs), len(ladder))
	}
	type step struct {
		n   int
		lab colour.Lab
	}
	var steps []step
	for i, n := range rungs {
		steps = append(steps, step{n, ladder[i].Lab})
	}
	sorted.By(steps, func(a, b step) int { return a.n - b.n })
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1], steps[i]
		if a.n == b.n {
			return nil, fmt.Errorf("rung %d is named twice", a.n)
		}
		if b.lab.L > a.lab.L+2*alike {
			return nil, fmt.Errorf("rung %d looks paler than rung %d: name the rungs in the order of their places, row by row", b.n, a.n)
		}
	}
	out := make([]Placed, len(holes))
	for i, h := range holes {
		out[i].Seen = h
		if len(steps) < 2 {
			out[i].Words = "two rungs or more on the photograph place a piece between them"
			continue
		}
		// The nearest place on the line through the rungs' colours.
		off, best, at := math.Inf(1), 0, 0.0
		for k := 1; k < len(steps); k++ {
			a, b := steps[k-1].lab, steps[k].lab
			dl, da, db := b.L-a.L, b.A-a.A, b.B-a.B
			long := max(dl*dl+da*da+db*db, 0.25)
			t := ((h.Lab.L-a.L)*dl + (h.Lab.A-a.A)*da + (h.Lab.B-a.B)*db) / long
			if k > 1 {
				t = max(t, 0)
			}
			if k < len(steps)-1 {
				t = min(t, 1)
			}
			if d := colour.Distance(h.Lab, colour.Lab{L: a.L + t*dl, A: a.A + t*da, B: a.B + t*db}); d < off {
				off, best, at = d, k, t
			}
		}
		a, b := steps[best-1], steps[best]
		long := max(colour.Distance(a.lab, b.lab), 0.5)
		noise := math.Sqrt(2*alike*alike+square(h.Spread)/16) / long // as a part of the step
		switch {
		case off > 10:
			out[i].Words = "its colour is not on the line of the rungs"
			continue
		case at < -2*noise:
			out[i].Words = fmt.Sprintf("paler than rung %d, the palest there", a.n)
			continue
		case at > 1+2*noise:
			out[i].Words = fmt.Sprintf("darker than rung %d, the darkest there", b.n)
			continue
		}
		// Between rungs the dips go by their logarithm: each dip adds a part, and the eye sees parts.
		dips := func(t float64) float64 {
			return float64(a.n) * math.Pow(float64(b.n)/float64(a.n), t)
		}
		shape := 0.08 * float64(b.n-a.n) // how far another form of the ladder between two rungs takes it
		slope := float64(b.n-a.n) * noise
		r := Between(dips(min(max(at, 0), 1)), math.Hypot(slope, shape))
		out[i].Rung = &r
	}
	return out, nil
}

// Alone is all that a colour says without rungs on the same photograph: "pale", "mid" or "dark"; "" for what is too deep.
func Alone(l colour.Lab, g shade.Ground) string {
	if l.L < Deepest {
		return ""
	}
	depth, _ := g.Depth(l)
	switch shade.Name(depth) {
	case "mid":
		return "mid"
	case "dark", "navy", "blue-black":
		return "dark"
	}
	return "pale"
}

// Unplaced are the pieces in the holes, without rungs to place them between.
func Unplaced(seen []Seen) (out []Placed) {
	return wording.Some(seen, func(s Seen) (Placed, bool) { return Placed{Seen: s}, s.Hole })
}

// Together is what all holes say of the one piece below them, in the words of a look (day.ParseLook): "rung 4.3 ±0.6" from those
// that lie between rungs, else "pale", "mid" or "dark" where they agree; "" where nothing can be said, and for wet cloth alone.
func Together(placed []Placed, g shade.Ground, wet bool) string {
	sum, weight := 0.0, 0.0
	least, most, worst, n := math.Inf(1), 0.0, 0.0, 0
	word, agreed := "", true
	for _, p := range placed {
		if r := p.Rung; r != nil {
			w := 1 / square(max(r.Error, 0.05))
			sum, weight, n = sum+w*r.Likely, weight+w, n+1
			least, most, worst = min(least, r.Likely), max(most, r.Likely), max(worst, r.Error)
			continue
		}
		if p.Words == "" {
			of := Alone(p.Lab, g)
			agreed = agreed && (word == "" || word == of)
			word = of
		}
	}
	switch {
	case n > 0:
		// The holes share their rungs, and so most of the error; what they differ by comes on top.
		return fmt.Sprintf("rung %.1f ±%.1f", sum/weight, max(math.Hypot(worst, (most-least)/2), 0.1))
	case wet || !agreed:
		return ""
	}
	return word
}
