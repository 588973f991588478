package shade_test

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
)

// The stated noise.
const (
	Noise = 0.12 // of a swatch or piece in K/S, each for itself
	Drift = 0.12 // of the vat from one day to the next
)

// Set is what was seen before a forecast.
type Set struct {
	Name  string
	Today []int // the rungs, by their dips
	Old   []int // and those of a day
	Ago   int   // so many days ago
}

// Case is a row of the study.
type Case struct {
	Form    Form
	Set     Set
	Minutes float64 // of a dip of the piece; the swatches had 5 min
	Load    float64 // g of goods a litre
	Oracle  *oracle // or nil
}

// bandsOf are the numbers of dips that the tables part by.
var bandsOf = [][2]int{{1, 4}, {5, 8}, {9, 12}, {13, 16}}

// Cell is what came out for pieces of some numbers of dips.
type Cell struct {
	Pieces int
	Inside int       // within the 80 % range
	Off    []float64 // CIEDE2000 of the likely colour from the piece as read
	Own    []float64 // and from what the vat gives, without the piece's scatter
	Number []int     // the number of dips advised, less the right one
	Plain  []int     // of these, those wishes for which a dip less and a dip more are seen apart (CIEDE2000 of 1)
	Silent []int     // of answers that do not say that they may well be more than one off, or beyond the swatches
	Best   []int     // the same of an oracle, where the case has one
	Trust  float64   // the chances that the answers gave themselves of being right or one off, added up
	Held   int       // the right number is within the answer's 80 %
	Wide   []float64 // High/Low of the range
	// Said and Came are, by tenths of the chance that was said of a depth name, the chances and what came of them.
	Said, Came [10]float64
	Times      [10]int
}

// Coverage is the part inside the 80 % range, in hundredths.
func (c Cell) Coverage() float64 { return 100 * float64(c.Inside) / float64(max(1, c.Pieces)) }

// Near is the part of the numbers advised that is at most so many off, in hundredths.
func (c Cell) Near(by int) float64 { return near(c.Number, by) }

// NearPlain is the same of the wishes for which a dip less and a dip more are seen apart.
func (c Cell) NearPlain(by int) float64 { return near(c.Plain, by) }

// NearBest is the same of the oracle: what the swatches tell at best.
func (c Cell) NearBest(by int) float64 { return near(c.Best, by) }

func near(off []int, by int) float64 {
	n := 0
	for _, d := range off {
		if d >= -by && d <= by {
			n++
		}
	}
	return 100 * float64(n) / float64(max(1, len(off)))
}

// Answered is the part of right numbers within the answer's 80 %, in hundredths.
func (c Cell) Answered() float64 { return 100 * float64(c.Held) / float64(max(1, len(c.Number))) }

// Part is a quantile of a list.
func Part(x []float64, p float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	s := slices.Clone(x)
	slices.Sort(s)
	return s[min(int(p*float64(len(s))), len(s)-1)]
}

// Result is a case with its cells, by bands of dips, and what the answers claimed.
type Result struct {
	Case    Case
	Cells   []Cell
	Widened int // vats for which the prior was widened
}

// Joined is the cells of some bands as one.
func (r Result) Joined(from, to int) (c Cell) {
	for i, b := range bandsOf {
		if b[0] >= from && b[1] <= to {
			c.add(r.Cells[i])
		}
	}
	return c
}

// add takes in another cell.
func (c *Cell) add(o Cell) {
	c.Pieces, c.Inside, c.Held = c.Pieces+o.Pieces, c.Inside+o.Inside, c.Held+o.Held
	c.Off, c.Own, c.Wide = append(c.Off, o.Off...), append(c.Own, o.Own...), append(c.Wide, o.Wide...)
	c.Number, c.Plain, c.Best = append(c.Number, o.Number...), append(c.Plain, o.Plain...), append(c.Best, o.Best...)
	c.Trust, c.Silent = c.Trust+o.Trust, append(c.Silent, o.Silent...)
	for k := range c.Said {
		c.Said[k], c.Came[k], c.Times[k] = c.Said[k]+o.Said[k], c.Came[k]+o.Came[k], c.Times[k]+o.Times[k]
	}
}

// Run plays a case with so many vats. The same seed gives the same result on any number of processors. With most below 16
// the pieces stop there.
func Run(v *shade.Vats, c Case, vats int, seed uint64, most int) Result {
	parts := make([]Result, vats)
	var next sync.Mutex
	var wait sync.WaitGroup
	at := 0
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for {
				next.Lock()
				i := at
				at++
				next.Unlock()
				if i >= vats {
					return
				}
				parts[i] = one(v, c, rand.New(rand.NewPCG(seed, uint64(i))), most)
			}
		})
	}
	wait.Wait()
	all := Result{Case: c, Cells: make([]Cell, len(bandsOf))}
	for _, p := range parts {
		all.Widened += p.Widened
		for i := range bandsOf {
			all.Cells[i].add(p.Cells[i])
		}
	}
	return all
}

// dipsOf are n dips of 5 min in the vat.
func dipsOf(t truth, n int) []shade.Dip {
	out := make([]shade.Dip, n)
	for i := range out {
		out[i] = shade.Dip{For: quantity.Minutes(5), Confirmed: true, Temp: 35, PH: quantity.PH(t.ph),
			PerLitre: quantity.GramsPerLitre(t.perLitre)}
	}
	return out
}

// one plays one vat.
func one(v *shade.Vats, c Case, r *rand.Rand, most int) Result {
	t := newTruth(r, c.Form)
	then := t
	then.level *= math.Exp(Drift * math.Sqrt(float64(c.Set.Ago)) * r.NormFloat64())
	var seen []shade.Swatch
	var reads []reading
	swatch := func(t truth, n, ago int) {
		read := t.blue(n, 5, 0) * math.Exp(Noise*r.NormFloat64())
		reads = append(reads, reading{n, read})
		seen = append(seen, shade.Swatch{Piece: shade.Piece{Fibre: fibre.Cotton}, Dips: dipsOf(t, n),
			Lab: shade.White.Colour(shade.KS(read)), Rung: n, DaysAgo: ago})
	}
	for _, n := range c.Set.Old {
		swatch(then, n, c.Set.Ago)
	}
	for _, n := range c.Set.Today {
		swatch(t, n, 0)
	}
	w := v.Seen(seen)
	out := Result{Cells: make([]Cell, len(bandsOf))}
	for _, words := range w.Words() {
		if len(words) > 22 && words[:18] == "what was seen fits" {
			out.Widened = 1
		}
	}
	const fill = 60
	piece := shade.Piece{Fibre: fibre.Cotton, Dry: quantity.Grams(c.Load * fill)}
	vat := shade.Liquor{Fill: fill, Indigo: quantity.Grams(t.perLitre * fill), PH: quantity.PH(t.ph), Temp: 35}
	long := quantity.Minutes(c.Minutes)
	names := shade.Depths()
	wish, _ := shade.WishDepth(names[r.IntN(len(names))].Name)
	steps := w.Forecast(piece, vat, long, nil, most, &wish)
	for i, b := range bandsOf {
		if b[0] > most {
			continue
		}
		cell := &out.Cells[i]
		for n := b[0]; n <= b[1]; n++ {
			own := t.blue(n, c.Minutes, c.Load)
			read := own * math.Exp(Noise*r.NormFloat64())
			s := steps[n-1]
			cell.Pieces++
			k := min(int(10*s.Chance), 9)
			cell.Said[k] += s.Chance
			cell.Times[k]++
			if wish.Band(shade.Cloth{}).Contains(shade.KS(read)) {
				cell.Came[k]++
			}
			if s.KS.Contains(shade.KS(read)) {
				cell.Inside++
			}
			cell.Off = append(cell.Off, colour.Difference(s.Lab, shade.White.Colour(shade.KS(read))))
			cell.Own = append(cell.Own, colour.Difference(s.Lab, shade.White.Colour(shade.KS(own))))
			cell.Wide = append(cell.Wide, float64(s.KS.High/s.KS.Low))
		}
		// a wish for a blue that n dips nearly give: between half a dip less and half a dip more
		if len(c.Set.Today)+len(c.Set.Old) == 0 {
			continue
		}
		n := b[0] + r.IntN(b[1]-b[0]+1)
		own := t.blue(n, c.Minutes, c.Load)
		below, above := t.blue(n-1, c.Minutes, c.Load), t.blue(n+1, c.Minutes, c.Load)
		u := r.Float64() - 0.5
		aim := own * math.Exp(u*math.Log(above/own))
		if u < 0 && n > 1 {
			aim = own * math.Exp(u*math.Log(own/below))
		}
		a := w.Dips(piece, vat, long, nil, shade.WishKS(shade.KS(aim)))
		cell.Number = append(cell.Number, a.Likely-n)
		cell.Trust += a.Near
		if w.Unsure(a) == "" {
			cell.Silent = append(cell.Silent, a.Likely-n)
		}
		if c.Oracle != nil && b[1] <= 8 {
			cell.Best = append(cell.Best, c.Oracle.advise(t.perLitre, reads, c.Load, aim, rand.New(rand.NewPCG(17, uint64(n))))-n)
		}
		if colour.Difference(shade.White.Colour(shade.KS(below)), shade.White.Colour(shade.KS(above))) >= 1 {
			cell.Plain = append(cell.Plain, a.Likely-n)
		}
		if a.Low <= n && n <= a.High {
			cell.Held++
		}
	}
	return out
}

// The sets of the studies.
var (
	None       = Set{Name: "none"}
	Single     = Set{Name: "1 (2 dips)", Today: []int{2}}
	Three      = Set{Name: "3 (1, 2, 4 dips)", Today: []int{1, 2, 4}}
	Four       = Set{Name: "4 (1, 2, 4, 8 dips)", Today: []int{1, 2, 4, 8}}
	Six        = Set{Name: "6 (1, 2, 3, 4, 6, 8)", Today: []int{1, 2, 3, 4, 6, 8}}
	Yesterday  = Set{Name: "4 of yesterday", Old: []int{1, 2, 4, 8}, Ago: 1}
	Week       = Set{Name: "4 of a week ago", Old: []int{1, 2, 4, 8}, Ago: 7}
	WeekAndOne = Set{Name: "the same and 1 today", Old: []int{1, 2, 4, 8}, Ago: 7, Today: []int{2}}
)
