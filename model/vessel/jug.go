package vessel

import (
	"math"
	"slices"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// MostMarks is how many marks a jug table holds.
const MostMarks = 24

// Mark is one line of a jug table: how deep the water stands when so many litres in all have been poured in.
type Mark struct {
	Poured quantity.Volume
	Depth  quantity.Length
}

// Jug is a vessel of any form, measured with a jug: litres poured so far against depth, from the floor up, and the height
// of the rim. Marks rise strictly in both; the first one that is zero ends them. Make it with NewJug or ParseShape.
//
// Between the floor and the last mark the volume is a monotone cubic through the marks (F. N. Fritsch, R. E. Carlson,
// SIAM J. Numer. Anal. 17(2), 1980; slopes by the weighted harmonic mean of Fritsch and Butland, SIAM J. Sci. Stat.
// Comput. 5(2), 1984); above it the walls go straight on with the last surface. The surface is the slope of the volume:
// it has no jumps and is above nothing everywhere. Three marks or more, evenly spread, give the volumes of a pail
// within 1 % and its surface within 3 % up to the last mark; above it a pail is wider than this reckons (marks up to three
// quarters of the rim: 7 % of its surface there). One mark makes the vessel upright.
type Jug struct {
	Marks  [MostMarks]Mark
	Height quantity.Length
}

const jugForm = "a jug table is written jug LITRES=DEPTH … HEIGHT, such as jug 5L=8.4cm 10L=16.1cm 36.8cm"

// NewJug makes a vessel of marks and the height of its rim. No marks, more than MostMarks, marks that do not rise strictly
// in volume and in depth, a last mark above the rim, or a vessel narrower or wider between two marks than any vat is (1 cm
// to 5 m, as if round) give a *FormError.
func NewJug(marks []Mark, height quantity.Length) (Jug, error) {
	j := Jug{Height: height}
	if len(marks) > MostMarks {
		return Jug{}, &FormError{"", "a jug table holds " + ratio(MostMarks) + " marks at most; leave out those that lie close together"}
	}
	if m, none := wording.First(marks, func(m Mark) bool { return !(m.Poured > 0) || !(m.Depth > 0) }); none {
		return Jug{}, &FormError{"", "a jug mark is above 0 L and above 0 cm; " + m.String() + " is given"}
	}
	copy(j.Marks[:], marks)
	return j, j.fault("")
}

// marks are the marks that were given: those before the first empty one.
func (j Jug) marks() []Mark {
	if n := slices.Index(j.Marks[:], Mark{}); n >= 0 {
		return j.Marks[:n:n]
	}
	return j.Marks[:]
}

// String is "5L=8.4cm", exact.
func (m Mark) String() string { return bare(m.Poured) + "=" + bare(m.Depth) }

// fault is the *FormError of a table that cannot be, or nil.
func (j Jug) fault(input string) error {
	no := func(reason string) error { return &FormError{input, reason} }
	if len(j.marks()) == 0 {
		return no(jugForm)
	}
	var last Mark
	for _, m := range j.marks() {
		between := "up to " + m.String()
		if last.Poured > 0 {
			between = "between " + last.String() + " and " + m.String()
		}
		across := 2 * math.Sqrt((m.Poured-last.Poured).Litres()/1000/(m.Depth-last.Depth).Metres()/math.Pi)
		switch {
		case !(m.Poured > last.Poured) || !(m.Depth > last.Depth):
			return no("a jug table rises in litres and in depth; " + m.String() + " does not lie above " + last.String())
		case !(across >= smallest.Metres()) || !(across <= largest.Metres()):
			return no(between + " the vessel would be " + quantity.Metres(across).String() + " across; no vat is below " +
				smallest.String() + " or above " + largest.Format(quantity.Metric))
		case m.Depth > j.Height:
			return no(m.String() + " lies above the rim, which is at " + j.Height.String())
		}
		last = m
	}
	return nil
}

// parseJug reads what follows the word jug. Blanks round an equals sign, and between number and unit, are accepted.
func parseJug(s, rest string, sys quantity.System) (Shape, error) {
	for _, glue := range []string{" =", "= "} {
		for strings.Contains(rest, glue) {
			rest = strings.ReplaceAll(rest, glue, "=")
		}
	}
	measures := join(strings.Fields(rest))
	n := len(measures) - 1
	if n < 1 || strings.Contains(measures[n], "=") {
		return nil, &FormError{s, jugForm}
	}
	var marks []Mark
	for _, m := range measures[:n] {
		poured, depth, found := strings.Cut(m, "=")
		if !found {
			return nil, &FormError{s, wording.Typed(m) + " is no jug mark; " + jugForm}
		}
		v, err := quantity.ParseVolume(poured, sys)
		if err != nil {
			return nil, err
		}
		d, err := quantity.ParseLength(depth, sys)
		if err != nil {
			return nil, err
		}
		marks = append(marks, Mark{v, d})
	}
	height, err := quantity.ParseLength(measures[n], sys)
	if err != nil {
		return nil, err
	}
	j, err := NewJug(marks, height)
	if err != nil {
		if f, ok := err.(*FormError); ok {
			f.Input = s
		}
		return nil, err
	}
	return j, check(s, j)
}

// measures is the height alone; fault looks at the marks.
func (j Jug) measures() []quantity.Length { return []quantity.Length{j.Height} }

// String is "jug LITRES=DEPTH … HEIGHT", exact.
func (j Jug) String() string {
	out := "jug"
	for _, m := range j.marks() {
		out += " " + m.String()
	}
	return out + " " + bare(j.Height)
}

// bare is the exact text of a measure without its blank.
func bare(m interface{ MarshalText() ([]byte, error) }) string {
	text, err := m.MarshalText()
	if err != nil {
		text = []byte("?")
	}
	return strings.ReplaceAll(string(text), " ", "")
}

// knot is a mark in m and m³ with the surface there, in m².
type knot struct{ h, v, a float64 }

// knots is the floor and the marks, with the slope of the volume at each.
func (j Jug) knots() (out [MostMarks + 1]knot, n int) {
	marks := j.marks()
	n = len(marks) + 1
	for i, m := range marks {
		out[i+1] = knot{h: m.Depth.Metres(), v: m.Poured.Litres() / 1000}
	}
	step := func(i int) (h, slope float64) {
		h = out[i+1].h - out[i].h
		return h, (out[i+1].v - out[i].v) / h
	}
	switch n {
	case 1:
		return out, n
	case 2:
		_, s := step(0)
		out[0].a, out[1].a = s, s
		return out, n
	}
	for i := 1; i < n-1; i++ {
		h0, s0 := step(i - 1)
		h1, s1 := step(i)
		w0, w1 := 2*h1+h0, h1+2*h0
		out[i].a = (w0 + w1) / (w0/s0 + w1/s1)
	}
	// The three-point slope at the ends, held between a third and twice the slope of its own step: then it is never
	// nothing, and the cubic rises everywhere (Fritsch and Carlson's condition is three times at most).
	end := func(h0, s0, h1, s1 float64) float64 {
		return min(max(((2*h0+h1)*s0-h0*s1)/(h0+h1), s0/3), 2*s0)
	}
	h0, s0 := step(0)
	h1, s1 := step(1)
	out[0].a = end(h0, s0, h1, s1)
	h0, s0 = step(n - 2)
	h1, s1 = step(n - 3)
	out[n-1].a = end(h0, s0, h1, s1)
	return out, n
}

// cubic is the volume in m³ and the surface in m² at a part t, 0 to 1, of the way from knot p to knot q.
func cubic(p, q knot, t float64) (v, a float64) {
	h, dv := q.h-p.h, q.v-p.v
	s := dv / h
	v = p.v + h*t*(p.a+t*(3*s-2*p.a-q.a+t*(p.a+q.a-2*s)))
	a = p.a*(1-t)*(1-3*t) + q.a*t*(3*t-2) + 6*s*t*(1-t)
	return v, a
}

// at is the volume and the surface at h metres, which lies between floor and rim.
func (j Jug) at(h float64) (v, a float64) {
	k, n := j.knots()
	for i := 1; i < n; i++ {
		if h <= k[i].h {
			return cubic(k[i-1], k[i], (h-k[i-1].h)/(k[i].h-k[i-1].h))
		}
	}
	last := k[n-1]
	return last.v + last.a*(h-last.h), last.a
}

// Rim is the inside height, as it was given.
func (j Jug) Rim() quantity.Length { return j.Height }

// Volume is the cubic through the marks.
func (j Jug) Volume(depth quantity.Length) quantity.Volume {
	v, _ := j.at(within(depth, j.Height))
	return cubicMetres(v)
}

// Surface is the slope of Volume.
func (j Jug) Surface(depth quantity.Length) quantity.Area {
	_, a := j.at(within(depth, j.Height))
	return quantity.SquareMetres(a)
}

// Depth inverts Volume, by Newton's steps held within halves that close in.
func (j Jug) Depth(volume quantity.Volume) quantity.Length {
	v := volume.Litres() / 1000
	if !(v > 0) {
		return 0
	}
	k, n := j.knots()
	for i := 1; i < n; i++ {
		if v > k[i].v {
			continue
		}
		p, q := k[i-1], k[i]
		lo, hi := 0.0, 1.0
		t := (v - p.v) / (q.v - p.v)
		for range 100 {
			got, a := cubic(p, q, t)
			if got > v {
				hi = t
			} else {
				lo = t
			}
			next := t - (got-v)/(a*(q.h-p.h))
			if !(next > lo && next < hi) {
				next = (lo + hi) / 2
			}
			if math.Abs(next-t) < 1e-16 || next == t {
				break
			}
			t = next
		}
		return quantity.Metres(math.Min(j.Height.Metres(), p.h+t*(q.h-p.h)))
	}
	last := k[n-1]
	if !(last.a > 0) {
		return 0
	}
	return quantity.Metres(math.Min(j.Height.Metres(), last.h+(v-last.v)/last.a))
}

// The four-point rule of Gauss and Legendre on 0 to 1.
var gauss = [4][2]float64{{0.0694318442029737, 0.1739274225687269}, {0.3300094782075719, 0.3260725774312731},
	{0.6699905217924281, 0.3260725774312731}, {0.9305681557970263, 0.1739274225687269}}

// WettedWall is reckoned as if the vessel were round and its wall rose in upright rings: the sum of 2 √(π A) over the depth.
// The slope of the wall is left out (0.2 % in a pail), and so are the corners of a vessel that is not round (a square
// one has 13 % more wall).
func (j Jug) WettedWall(depth quantity.Length) quantity.Area {
	h := within(depth, j.Height)
	k, n := j.knots()
	sum := 0.0
	const panels = 8
	for i := 1; i < n && h > k[i-1].h; i++ {
		wide := k[i].h - k[i-1].h
		top := math.Min(1, (h-k[i-1].h)/wide)
		for from := 0.0; from < top; from += 1.0 / panels {
			part := math.Min(top-from, 1.0/panels)
			for _, g := range gauss {
				_, a := cubic(k[i-1], k[i], from+g[0]*part)
				sum += g[1] * part * wide * 2 * math.Sqrt(math.Pi*math.Max(0, a))
			}
		}
	}
	if last := k[n-1]; h > last.h {
		sum += 2 * math.Sqrt(math.Pi*last.a) * (h - last.h)
	}
	return quantity.SquareMetres(sum)
}
