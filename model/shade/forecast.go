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

// Going is a piece that goes on in the vat as it stands: all that is asked of its next dips goes by one walk of every possible vat.
type Going struct {
	w       *Weighted
	p       Piece
	had     int // dips that it had
	wish    *Wish
	low     float64 // of the wish's band, and high: logarithms of K/S
	high    float64
	claim   string
	act     act
	load    float64 // grams of goods a litre
	courses []course
	dye     [][]float64             // by number of next dips, from 0, and possible vat: the dye on the piece; the courses stand at the last row
	steps   []*Step                 // by the same number; nil where not asked for yet
	once    []float64               // by possible vat: what one dip gives
	strip   []float64               // the part of the earlier layers that a dip takes off
	seen    []float64               // room for the depths as they are seen
	off     []float64               // how far the piece is known to be off, logarithm of K/S
	own     [scatterClasses]float64 // standard deviation of what stays with the piece, besides
	read    [scatterClasses]float64 // and of all, as it will be read
	s       spread
}

// Going takes the piece through the dips that it had, in the liquors that they had, and puts it before the vat as it is now, for dips
// that are all of one length. What the piece takes out of the vat is reckoned, what others take is not. Looks at the piece itself count
// if they carry its Tag. A nil wish leaves all chances at 0.
func (w Weighted) Going(p Piece, v Liquor, dip quantity.Span, done []Dip, wish *Wish) *Going {
	g := w.begin(p, v, dip, done)
	g.wish, g.claim = wish, w.ClaimFor(p)
	if wish != nil {
		b := wish.Band(w.Cloth(p.Ground))
		g.low, g.high = lnKS(tidy(b.Low)), lnKS(tidy(b.High))
	}
	return g
}

func (w *Weighted) begin(p Piece, v Liquor, long quantity.Span, done []Dip) *Going {
	n := len(w.vats)
	all := make([]float64, 4*n)
	g := &Going{w: w, p: p, had: len(done), act: actOf(p, v.dip(long)), courses: make([]course, n),
		once: all[:n], strip: all[n : 2*n], off: all[2*n : 3*n], seen: all[3*n:], dye: [][]float64{make([]float64, n)}}
	if v.Fill > 0 && p.Dry > 0 {
		g.load = p.Dry.Grams() / v.Fill.Litres()
	}
	var k kinds
	runs := k.runsOf(p, done)
	given := make([]gives, len(k))
	badly := dipError(done)
	same := w.sameOf(p.Tag)
	held := math.Exp(g.act.lnPerLitre)
	for j, q := range w.vats {
		k.gives(q, w.level[j], given)
		g.courses[j] = course{ks: q.after(runs, given), dips: min(len(done), MostDips), held: held, power: math.Exp(q.exhaustion * g.act.lnPerLitre)}
		g.dye[0][j] = g.courses[j].ks
		g.once[j], g.strip[j] = q.yield(&g.act, w.level[j]), q.stripped(&g.act)
		if of := same[q.class].of; of != nil {
			g.off[j] = dot(of, w.left[j*len(w.rows):(j+1)*len(w.rows)])
		}
	}
	for c, s := range same {
		scatter := square(w.scatters[c])
		own := ownPart * scatter
		rest := scatter - own
		if s.of != nil {
			own = math.Max(0, own-s.known)
		} else {
			own += badly
		}
		g.own[c], g.read[c] = math.Sqrt(own), math.Sqrt(own+rest)
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

// after is the dye of every course after so many dips more.
func (g *Going) after(n int) []float64 {
	for len(g.dye) <= n {
		row := make([]float64, len(g.courses))
		for j := range row {
			c := &g.courses[j]
			c.dip(g.w.vats[j], g.once[j], g.strip[j], g.load)
			row[j] = c.ks
		}
		g.dye = append(g.dye, row)
	}
	return g.dye[n]
}

// spread is the weighted logarithms of the piece's depth after so many dips more, as it would be read: each possible vat's twice, the
// piece's own deviation and the look's taken to one side and to the other.
func (g *Going) spread(n int) *spread {
	if g.s.x == nil {
		g.s = newSpread(2 * len(g.courses))
	}
	dye := g.after(n)
	for j, q := range g.w.vats {
		g.seen[j] = max(capped(dye[j], q.ceiling), palestSeen)
	}
	lnEach(g.seen, g.seen)
	s := g.s // a copy that nothing else points at, so that the loop is quicker
	s.reset()
	for j, q := range g.w.vats {
		x := g.seen[j] + g.off[j] + (dye[j] - dye[j]) // which is 0, or no number
		d := q.zPiece * g.read[q.class]
		s.add(x-d, g.w.weights[j])
		s.add(x+d, g.w.weights[j])
	}
	g.s = s
	return &g.s
}

// step is the piece after so many dips more; 0 is the piece as it is.
func (g *Going) step(n int) Step {
	for len(g.steps) <= n {
		g.steps = append(g.steps, nil)
	}
	if g.steps[n] == nil {
		s := g.spread(n)
		step := Step{Dips: g.had + n, KS: s.depths()}
		if g.wish != nil {
			step.Chance = s.inside(g.low, g.high)
		}
		if step.Dips == 0 {
			step.KS = quantity.Exactly(KS(0))
		}
		step.Lab, step.Depth = g.w.colourOf(g.p, step.KS), g.w.blue(step.KS, g.claim)
		g.steps[n] = &step
	}
	return *g.steps[n]
}

// Forecast is the piece after each of the next dips, 1 to most of them (at most 60).
func (g *Going) Forecast(most int) []Step {
	out := make([]Step, 0, min(max(0, most), MostDips))
	for n := range cap(out) {
		out = append(out, g.step(n+1))
	}
	return out
}

// Forecast is the same where nothing else is asked of the piece.
func (w Weighted) Forecast(p Piece, v Liquor, dip quantity.Span, done []Dip, most int, wish *Wish) []Step {
	return w.Going(p, v, dip, done, wish).Forecast(most)
}

// Dips is the number of dips, in all, that the wish needs. Each possible vat says how many bring the piece nearest to the
// wish's Aim (by the logarithm of K/S); Likely is the number that the most of them come to within one dip (the middle of them where the
// claim is a guess), Low to High eight tenths. It is never below the number done: blue is not taken off.
func (g *Going) Dips() Answer {
	held := g.numbers()
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
	a.Likely, a.Near = advised(held[:], g.claim == guess)
	a.Low, a.High = min(a.Low, a.Likely), max(a.High, a.Likely)
	more := max(a.Likely-g.had, 0)
	here := g.step(more)
	a.Chance = here.Chance
	if more > 0 && here.Dips > 1 {
		a.Less = colour.Difference(g.step(more-1).Lab, here.Lab)
	}
	a.More = colour.Difference(here.Lab, g.step(more+1).Lab)
	return a
}

// Dips is the same where nothing else is asked of the piece.
func (w Weighted) Dips(p Piece, v Liquor, dip quantity.Span, done []Dip, wish Wish) Answer {
	return w.Going(p, v, dip, done, &wish).Dips()
}

// numbers is the weight of each number of dips: how many bring a course, its piece's own deviation taken to one side and to the other,
// nearest to the aim.
func (g *Going) numbers() (held [longest + 1]float64) {
	aim := lnKS(tidy(g.wish.Aim(g.w.Cloth(g.p.Ground))))
	had := min(g.had, longest)
	first := max(had, 1) // a wish for blue needs a dip
	g.after(max(together-had, first-had))
	for j, q := range g.w.vats {
		d := q.zPiece * g.own[q.class]
		for _, ln := range [2]float64{aim - g.off[j] - d, aim - g.off[j] + d} {
			ks := math.Exp(ln)
			dye := uncapped(ks, q.ceiling)
			n, at, c := first, g.dye[first-had][j], g.courses[j]
			for before := at; at < dye && n < longest; before = at {
				if n++; n-had < len(g.dye) {
					at = g.dye[n-had][j]
				} else { // too rare to be kept
					c.dip(q, g.once[j], g.strip[j], g.load)
					at = c.ks
				}
				if at >= dye && ks*ks < capped(before, q.ceiling)*capped(at, q.ceiling) { // nearer by the logarithm
					n--
				}
			}
			held[n] += g.w.weights[j] / 2
		}
	}
	return held
}

// together is up to how many dips all courses are walked at once: more are rarely asked for.
const together = 16

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

// Leaves is the reduced indigo in the vat after so many dips of the piece: 10, 50 and 90 % of what it may be. Only what the
// goods take up is gone; liquor that is carried out, and indigo that the air turns blue, are not reckoned here.
func (w Weighted) Leaves(p Piece, v Liquor, dip quantity.Span, dips int) quantity.Range[quantity.Mass] {
	if !(v.Fill > 0) {
		return quantity.Exactly(v.Indigo)
	}
	g := w.begin(p, v, dip, nil)
	g.after(min(max(0, dips), MostDips))
	s := newSpread(len(w.vats))
	for j := range g.courses {
		s.add(math.Log(g.courses[j].held), w.weights[j])
	}
	q := s.quantiles(0.1, 0.5, 0.9)
	of := func(ln float64) quantity.Mass { return quantity.Concentration(math.Exp(ln)).Of(v.Fill) }
	return quantity.Range[quantity.Mass]{Low: of(q[0]), Likely: of(q[1]), High: of(q[2])}
}
