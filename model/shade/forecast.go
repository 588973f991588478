package shade

import (
	"math"
	"slices"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
)

// Step is how a piece will look after so many dips, dry and rinsed, as it would be read like a swatch.
type Step struct {
	Dips   int                // in all, those done before counted
	KS     quantity.Range[KS] // 10, 50 and 90 % of what it may be
	Lab    colour.Lab         // of the likely depth
	Depth  string             // its name; for a guess "pale", "medium", "dark" or from one to another
	Chance float64            // of being what was wished, 0 to 1; 0 without a wish
}

// Answer is the number of dips, in all, that comes nearest to a wish.
type Answer struct {
	Likely, Low, High int     // 8 times in 10 from Low to High; 1 to 30, and 30 also means: not within 30
	Chance            float64 // that a piece of Likely dips is what was wished
	Near              float64 // chance that the right number is Likely or one off, 0 to 1
	Less, More        float64 // CIEDE2000 of its likely colour from that of a dip less (0: none), and of a dip more
}

// longest is the greatest number of dips that an Answer gives.
const longest = 30

// going is a forecast on its way: every possible vat's course of the piece.
type going struct {
	w       *Weighted
	act     act
	load    float64 // grams of goods a litre
	courses []course
	once    []float64
	strip   []float64
	off     []float64 // what the piece is known to be off, logarithm
	own     []float64 // standard deviation of what stays with the piece, besides
	read    []float64 // and of all, as it will be read
}

// begin takes the piece through the dips that it had, in the liquors that they had, and puts it before the vat as it is now.
func (w *Weighted) begin(p Piece, v Liquor, long quantity.Span, done []Dip) *going {
	n := len(w.vats)
	all := make([]float64, 5*n)
	g := &going{w: w, act: actOf(p, v.dip(long)), courses: make([]course, n),
		once: all[:n], strip: all[n : 2*n], off: all[2*n : 3*n], own: all[3*n : 4*n], read: all[4*n:]}
	if v.Fill > 0 && p.Dry > 0 {
		g.load = p.Dry.Grams() / v.Fill.Litres()
	}
	var k kinds
	runs := k.runsOf(p, done)
	given := make([]gives, len(k))
	badly := dipError(done)
	same := w.sameOf(p.Tag)
	for j := range w.vats {
		q := w.vats[j]
		k.gives(q, w.level[j], given)
		c := course{ks: q.after(runs, given), dips: min(len(done), MostDips)}
		c.begin(q, g.act.lnPerLitre)
		g.courses[j] = c
		g.once[j], g.strip[j] = q.yield(&g.act, w.level[j]), q.stripped(&g.act)
		scatter := square(w.scatters[q.class])
		own := ownPart * scatter
		rest := scatter - own
		if s := same[q.class]; s.of != nil {
			g.off[j] = dot(s.of, w.left[j*len(w.rows):(j+1)*len(w.rows)])
			own = math.Max(0, own-s.known)
		} else {
			own += badly
		}
		g.own[j], g.read[j] = math.Sqrt(own), math.Sqrt(own+rest)
	}
	return g
}

// pieceSeen is what the looks at a piece tell of what stays with it.
type pieceSeen struct {
	of    []float64 // times the whitened residuals: its likely deviation
	known float64   // variance that is no longer open
}

// Looked tells whether a look was at the piece of a tag; the tag of any other tells a forecast nothing.
func (w Weighted) Looked(tag string) bool {
	return tag != "" && slices.ContainsFunc(w.rows, func(r row) bool {
		return slices.ContainsFunc(r.terms, func(t term) bool { return t.tag == tag })
	})
}

// sameOf finds the looks at the piece of a tag.
func (w *Weighted) sameOf(tag string) (same [scatterClasses]pieceSeen) {
	if !w.Looked(tag) {
		return same
	}
	with := make([]float64, len(w.rows))
	for i, r := range w.rows {
		for _, t := range r.terms {
			if t.tag == tag {
				with[i] += t.sign
			}
		}
	}
	for c := range same {
		of := make([]float64, len(with))
		for i := range of {
			of[i] = with[i] * ownPart * square(w.scatters[c])
		}
		w.factors[c].forward(of)
		same[c] = pieceSeen{of, dot(of, of)}
	}
	return same
}

// dip takes every course one dip further.
func (g *going) dip() {
	for j := range g.courses {
		g.courses[j].dip(g.w.vats[j], g.once[j], g.strip[j], g.load)
	}
}

// spread collects the logarithms of the piece's depth as it would be read: each possible vat's twice, the piece's own
// deviation and the look's taken to one side and to the other.
func (g *going) spread(s *spread) {
	s.reset()
	for j := range g.courses {
		q := g.w.vats[j]
		x, d := lnKS(capped(g.courses[j].ks, q.ceiling))+g.off[j], q.zPiece*g.read[j]
		s.add(x-d, g.w.weights[j])
		s.add(x+d, g.w.weights[j])
	}
}

// steps are the piece after each of its next dips, from the first of these to the last; 0 is the piece as it is.
func (w *Weighted) steps(p Piece, v Liquor, long quantity.Span, done []Dip, first, last int, wish *Wish) []Step {
	g := w.begin(p, v, long, done)
	claim := w.ClaimFor(p)
	var low, high float64
	if wish != nil {
		b := wish.Band(w.Cloth(p.Ground))
		low, high = lnKS(tidy(b.Low)), lnKS(tidy(b.High))
	}
	s := newSpread(2 * len(w.vats))
	out := make([]Step, 0, last+1-first)
	for n := range last + 1 {
		if n > 0 {
			g.dip()
		}
		if n < first {
			continue
		}
		g.spread(s)
		step := Step{Dips: len(done) + n, KS: s.depths()}
		if wish != nil {
			step.Chance = s.inside(low, high)
		}
		if step.Dips == 0 {
			step.KS = quantity.Exactly(KS(0))
		}
		step.Lab, step.Depth = w.colourOf(p, step.KS), w.blue(step.KS, claim)
		out = append(out, step)
	}
	return out
}

// Forecast is a piece after each of the next dips, 1 to most of them (at most 60), all of one length in the vat as it
// stands; done are the dips that it had. What the piece takes out of the vat is reckoned, what others take is not. Looks at
// the piece itself count if they carry its Tag. A nil wish leaves Chance at 0.
func (w Weighted) Forecast(p Piece, v Liquor, dip quantity.Span, done []Dip, most int, wish *Wish) []Step {
	return w.steps(p, v, dip, done, 1, min(max(0, most), MostDips), wish)
}

// Dips is the number of dips, in all, that a wish needs. Each possible vat says how many bring the piece nearest to the
// wish's Aim (by the logarithm of K/S); Likely is the number that the most of them come to within one dip (the middle of them where the
// claim is a guess), Low to High eight tenths. It is never below the number done: blue is not taken off.
func (w Weighted) Dips(p Piece, v Liquor, dip quantity.Span, done []Dip, wish Wish) Answer {
	g := w.begin(p, v, dip, done)
	now := slices.Clone(g.courses)
	aim := lnKS(tidy(wish.Aim(w.Cloth(p.Ground))))
	least := min(len(done), longest)
	if least == 0 {
		g.dip() // a wish for blue needs a dip
		least = 1
	}
	var held [longest + 1]float64
	for j := range g.courses {
		d := w.vats[j].zPiece * g.own[j]
		for _, n := range g.numbers(j, least, [2]float64{aim - g.off[j] - d, aim - g.off[j] + d}) {
			held[n] += w.weights[j] / 2
		}
	}
	a := Answer{Low: -1, High: -1}
	sum := 0.0
	for n, h := range held {
		sum += h
		if a.Low < 0 && sum >= 0.1 {
			a.Low = n
		}
		if a.High < 0 && sum >= 0.9-1e-9 {
			a.High = n
		}
	}
	a.Likely, a.Near = advised(held[:], w.ClaimFor(p) == guess)
	a.Low, a.High = min(a.Low, a.Likely), max(a.High, a.Likely)
	g.courses = now
	read := newSpread(2 * len(w.vats))
	likely := func() colour.Lab {
		g.spread(read)
		return w.colourOf(p, read.depths())
	}
	var less, here colour.Lab
	more := a.Likely - min(len(done), a.Likely)
	for i := range more {
		if i == more-1 && (i > 0 || len(done) > 0) {
			less = likely()
		}
		g.dip()
	}
	here = likely()
	band := wish.Band(w.Cloth(p.Ground))
	a.Chance = read.inside(lnKS(tidy(band.Low)), lnKS(tidy(band.High)))
	if less != (colour.Lab{}) {
		a.Less = colour.Difference(less, here)
	}
	g.dip()
	a.More = colour.Difference(here, likely())
	return a
}

// advised is the number of dips whose neighbourhood of one dip either way holds the most weight: the next two count a quarter, so that
// chance between a finite number of vats does not choose. Where no number is near many (a guess) it is the middle. held is the
// weight of each number; near is how much lies within one dip of the likely one.
func advised(held []float64, guessed bool) (likely int, near float64) {
	at := func(n int) float64 {
		if n < 0 || n >= longest { // the last stands for all beyond it
			return 0
		}
		return held[n]
	}
	sum := 0.0
	for likely = 0; likely < longest; likely++ {
		if sum += held[likely]; sum >= 0.5 {
			break
		}
	}
	if likely == longest {
		return longest, held[longest] + held[longest-1]
	}
	within := func(n int) float64 { return at(n-1) + at(n) + at(n+1) }
	if !guessed {
		best := 0.0
		for n := range longest {
			if score := within(n) + (at(n-2)+at(n+2))/4; held[n] > 0 && score > best {
				best, likely = score, n
			}
		}
	}
	return likely, within(likely)
}

// numbers is how many dips bring a course, which had so many, nearest to each of two aims.
func (g *going) numbers(j, had int, aims [2]float64) [2]int {
	q, c := g.w.vats[j], g.courses[j]
	out := [2]int{longest, longest}
	var open [2]bool
	var dye [2]float64
	before := c.ks
	for i, aim := range aims {
		aims[i] = math.Exp(aim)
		dye[i] = uncapped(aims[i], q.ceiling)
		if open[i] = before < dye[i]; !open[i] {
			out[i] = had
		}
	}
	for n := had; n < longest && (open[0] || open[1]); n++ {
		c.dip(q, g.once[j], g.strip[j], g.load)
		for i, aim := range aims {
			if open[i] && c.ks >= dye[i] {
				open[i] = false
				out[i] = n + 1
				if n > 0 && aim*aim < capped(before, q.ceiling)*capped(c.ks, q.ceiling) { // nearer by the logarithm
					out[i] = n
				}
			}
		}
		before = c.ks
	}
	return out
}

// Leaves is the reduced indigo in the vat after so many dips of the piece: 10, 50 and 90 % of what it may be. Only what the
// goods take up is gone; liquor that is carried out, and indigo that the air turns blue, are not reckoned here.
func (w Weighted) Leaves(p Piece, v Liquor, dip quantity.Span, dips int) quantity.Range[quantity.Mass] {
	if !(v.Fill > 0) {
		return quantity.Exactly(v.Indigo)
	}
	g := w.begin(p, v, dip, nil)
	for range min(max(0, dips), MostDips) {
		g.dip()
	}
	s := newSpread(len(w.vats))
	for j := range g.courses {
		s.add(math.Log(g.courses[j].held), w.weights[j])
	}
	q := s.quantiles(0.1, 0.5, 0.9)
	of := func(ln float64) quantity.Mass { return quantity.Concentration(math.Exp(ln)).Of(v.Fill) }
	return quantity.Range[quantity.Mass]{Low: of(q[0]), Likely: of(q[1]), High: of(q[2])}
}
