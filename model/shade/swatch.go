package shade

import (
	"fmt"
	"math"
	"slices"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/wording"
)

// How is the way in which a swatch was looked at.
type How int

// By a colour meter; by eye against the rungs of the dyer's ladder; by eye as a depth name; by a photograph.
const (
	ByMeter How = iota
	ByRung
	ByEye
	ByPhoto
)

// String is "by meter", "by rung", "by eye" or "by photo".
func (h How) String() string { return wording.Named(h, "by meter", "by rung", "by eye", "by photo") }

// Swatch is cloth of known dips that was looked at: a swatch, a rung of the ladder, or a piece on its way.
//
// A rung of the ladder is a swatch with its Rung and its Dips, seen by meter, eye or photo. A look ByRung means "looks like
// rung so-and-so": the piece is compared with what that many dips of the ladder would give in the same possible vat.
type Swatch struct {
	Piece   Piece
	Dips    []Dip // none: the swatch is passed over, and Words says so
	How     How
	Lab     colour.Lab // by meter or photo, D65 and 2° (see FromMeter)
	Rung    int        // 1 up; with ByRung the one that it looks like, else the one that it is; 0: no rung
	Place   float64    // with ByRung: between two rungs, such as 4.3; 0: at Rung
	Error   float64    // standard deviation of Lab (CIEDE2000), or of the place in rungs; 0: the usual of its How
	Name    string     // by eye: the depth name
	Wet     bool
	DaysAgo int    // 0: today
	Vat     string // "": the vat that is forecast; else another one, by name
	// Unrinsed cloth reads too dark, which is taken off with its width. The zero Swatch is rinsed.
	Unrinsed bool
}

// term is one cloth in a look.
type term struct {
	runs []run
	like int // its place among the different courses of dips
	days int
	vat  string
	tag  string
	sign float64
}

// row is one look as arithmetic: the logarithms of the K/S of its cloths, with their signs, add up to y.
type row struct {
	terms []term
	y     float64
	noise float64 // variance besides the scatter of the cloths
	level float64 // how y moves with the level: 1, or 0 for a comparison
}

// square is a small thing squared.
func square(x float64) float64 { return x * x }

// rowOf reads a swatch on its cloth. The cautions are for the dyer; ok is false if nothing can be learned.
func rowOf(k *kinds, s Swatch, ladder *Swatch, cloth Cloth, lines map[Cloth]*track) (r row, cautions []string, ok bool) {
	if len(s.Dips) == 0 {
		return r, []string{"a swatch without its dips tells nothing of the vat"}, false
	}
	r.level = 1
	r.terms = []term{{runs: k.runsOf(s.Piece, s.Dips), days: max(0, s.DaysAgo), vat: s.Vat, tag: s.Piece.Tag, sign: 1}}
	r.noise = dipError(s.Dips)
	if slices.ContainsFunc(s.Dips, func(d Dip) bool { return !d.Confirmed }) {
		cautions = append(cautions, "dips that nobody confirmed count with a third of their time either way")
	}
	if slices.ContainsFunc(s.Dips, func(d Dip) bool { return !(d.PerLitre > 0) }) {
		cautions = append(cautions, "a dip of which the indigo a litre is not known is taken as of 1 g/L, and counts for less")
	}
	wet := 1.0
	if s.Wet {
		wet = wetDarkensPrior().Likely
		r.noise += square(wetDarkensPrior().sd())
		cautions = append(cautions, "wet cloth is darker by no simple law: judged dry it would say more")
	}
	switch s.How {
	case ByMeter, ByPhoto:
		t := lines[cloth]
		if t == nil {
			t = trackOf(cloth.turned(s.Wet))
			lines[cloth] = t
		}
		depth, off := t.nearest(s.Lab)
		depth = max(depth, palest)
		r.y = math.Log(float64(depth))
		e := s.labError()
		if s.How != ByPhoto && off > offLine {
			e += off - offLine
			cautions = append(cautions, fmt.Sprintf("a colour lies %.0f off any line of indigo on %s cloth: it counts for less; was it read dry, "+
				"in daylight, and is it indigo alone?", off, s.Piece.Ground))
		}
		r.noise += square(e / t.slope(depth))
	case ByEye:
		d, err := ByName(s.Name)
		if err != nil {
			return r, []string{err.Error()}, false
		}
		b := Band(d)
		r.y = math.Log(float64(b.Low*b.High)) / 2
		r.noise += square(nameError) + square(math.Log(float64(b.High/b.Low)))/12 // even between its ends
		if s.Wet {
			r.y -= math.Log(wet)
		}
	case ByRung:
		if s.Rung < 1 {
			return r, []string{"a look by rung needs the rung, 1 or more"}, false
		}
		one := s.Dips[:1]
		other := term{days: r.terms[0].days, vat: s.Vat}
		p := s.Piece
		if ladder == nil {
			cautions = append(cautions, "a look by rung says no blue before one rung of the ladder was measured or named")
		} else {
			one, p = ladder.Dips[:1], ladder.Piece
			other.days, other.vat = max(0, ladder.DaysAgo), ladder.Vat
		}
		// between two rungs, by the logarithm of K/S: so much of the one below, the rest of the one above
		n := s.place()
		below := math.Floor(n)
		for _, part := range [2]struct{ rung, of float64 }{{below, below + 1 - n}, {below + 1, n - below}} {
			if part.of > 0 {
				other.sign = -part.of
				other.runs = k.runsOf(p, slices.Repeat([]Dip{one[0]}, min(int(part.rung), MostDips)))
				r.terms = append(r.terms, other)
			}
		}
		e := wording.Either(s.Error > 0, s.Error, rungError)
		r.noise += square(e * math.Log((n+0.5)/(n-0.5)))
		if s.Wet {
			r.y -= math.Log(wetDarkensPrior().Likely)
		}
		r.level = 0
	default:
		return r, []string{"a swatch was looked at in a way that is not known"}, false
	}
	if s.Unrinsed {
		r.y -= math.Log(unrinsedDarkensPrior().Likely)
		r.noise += square(unrinsedDarkensPrior().sd())
		cautions = append(cautions, "unrinsed cloth reads too dark: about a sixth was taken off")
	}
	return r, cautions, true
}

// labError is the standard deviation of the colour, CIEDE2000.
func (s Swatch) labError() float64 {
	switch {
	case s.Error > 0:
		return s.Error
	case s.How == ByPhoto:
		return photoError
	}
	return meterError
}

// place is the place on the ladder that it looks like, 1 or more.
func (s Swatch) place() float64 {
	if s.Place >= 1 && s.Place <= MostDips {
		return s.Place
	}
	return float64(max(1, s.Rung))
}

// dipError is the variance that badly known dips give the logarithm of K/S: an unconfirmed time, each dip for itself, at
// the likely time constant; a strength that is not known, once for all.
func dipError(dips []Dip) (v float64) {
	unknown := false
	for _, d := range dips {
		if !d.Confirmed {
			x := d.For.Minutes() / dipTimePrior().Likely
			if x > 1e-6 {
				v += square(timeError * x / math.Expm1(x)) // d ln(1 − e^(−x)) / d ln x
			} else {
				v += square(timeError)
			}
		}
		unknown = unknown || !(d.PerLitre > 0)
	}
	if n := float64(len(dips)); n > 0 {
		v /= n * n
	}
	if unknown {
		v += square(strengthError)
	}
	return v
}

// covariance is how two rows go wrong together: days that wander, another vat, the same piece. own is the part of the
// scatter that stays with a piece, squared.
func covariance(a, b row, own float64) (c float64) {
	for _, t := range a.terms {
		for _, u := range b.terms {
			both := wander(t.days, u.days)
			if t.vat == u.vat && t.vat != "" {
				both += square(otherVat)
			}
			if t.tag == u.tag && t.tag != "" {
				both += own
			}
			c += t.sign * u.sign * both
		}
	}
	return c
}

// wander is the covariance of two past days, seen from today: Drift squared for each day that both are ago, up to mostDrift.
func wander(a, b int) float64 { return math.Min(square(Drift)*float64(min(a, b)), square(mostDrift)) }
