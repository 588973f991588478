package photo

import (
	"fmt"
	"image"
	"math"
	"slices"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/sorted"
)

// Reading is what a photograph of the card shows.
type Reading struct {
	Code    Code
	Coded   bool // the code was read; else the card may be any
	Seen    []Seen
	Warning []Warning
	Pixels  float64 // of a window's shorter side
}

// Seen is the cloth in one window. Windows with nothing but paper in them are left out.
type Seen struct {
	Window
	Lab    colour.Lab // D65, 2°, the paper around taken for white: see Alone for what it is worth
	Spread float64    // how uneven the cloth is: standard deviation over patches of 2 mm, CIELAB 1976
}

// Kind is a reason to doubt a photograph, as the warnings begin.
type Kind string

// The kinds of warning.
const (
	Glare      Kind = "glare"
	Blur       Kind = "blur"
	Clipped    Kind = "clipped"
	ShadowEdge Kind = "shadow edge"
	FewPixels  Kind = "too few pixels"
	NoCard     Kind = "no card"
	Tinted     Kind = "paper not white"
	NoCode     Kind = "no code"
)

// Warning is one reason to doubt. Where it says Unread the window, or without Row the whole photograph, was not read.
type Warning struct {
	Kind        Kind
	Row, Column int // 0: the whole photograph
	Unread      bool
	Words       string // what to do
}

// String is the kind, where, and what to do.
func (w Warning) String() string {
	if w.Row > 0 {
		return fmt.Sprintf("%s: row %d, column %d: %s", w.Kind, w.Row, w.Column, w.Words)
	}
	return fmt.Sprintf("%s: %s", w.Kind, w.Words)
}

// The limits of reading; set by testdata/bench/photo.
const (
	fewPixels   = 40.0 // of a window's side: below it is told
	leastPixels = 20.0 // below it is not read
	blurTold    = 2.2  // mm of edgeWidth
	blurMost    = 3.6
	unevenMost  = 0.20 // part by which the paper around a window may be off a plane
	unevenlyLit = 1.2  // times the light on the paper on both sides: it shines
	shineMost   = 0.04 // of uneven, beside a window that shines
	paperPart   = 0.86 // what white paper throws back of the light; common practice, no source
)

const shining = "it shines: turn the card or yourself out of the light"

// Read reads a photograph of the card. It takes any picture, and says what is wrong with it.
func Read(img image.Image) Reading {
	f, g, ok := findCard(img)
	if !ok {
		return Reading{Warning: []Warning{g.whyNot(img.Bounds())}}
	}
	r := Reading{Code: f.code, Coded: f.coded, Pixels: f.pixel}
	doubt := func(k Kind, unread bool, words string) {
		r.Warning = append(r.Warning, Warning{Kind: k, Unread: unread, Words: words})
	}
	if f.pixel < fewPixels {
		doubt(FewPixels, f.pixel < leastPixels, fmt.Sprintf("a hole has %.0f pixels a side, and should have %.0f: go nearer", f.pixel, fewPixels))
	}
	if width := edgeWidth(img, f.at); width > blurTold && f.pixel >= leastPixels {
		doubt(Blur, width > blurMost, "edges are spread over "+fmt.Sprintf("%.1f mm: hold still, let the camera focus on the card", width))
	}
	if slices.ContainsFunc(r.Warning, func(w Warning) bool { return w.Unread }) {
		return r
	}
	if !f.coded {
		doubt(NoCode, false, "the code of vat and piece cannot be read: name them")
	}
	tinted := 0
	var light, uneven [5][6]float64 // of the paper around the windows, by row and column
	for _, w := range Windows() {
		p := paperAround(img, f.at, w)
		light[w.Row][w.Column], uneven[w.Row][w.Column] = p.plane[1][0], math.Abs(p.uneven)
		if p.ok && p.tinted() {
			tinted++
		}
		s, doubts, cloth := readWindow(img, f.at, w, p)
		for _, d := range doubts {
			d.Row, d.Column = w.Row, w.Column
			r.Warning = append(r.Warning, d)
		}
		if cloth {
			r.Seen = append(r.Seen, s)
		}
	}
	for _, w := range Windows() {
		both := light[w.Row][w.Column-1] + light[w.Row][w.Column+1]
		if w.Hole {
			both = light[w.Row-1][w.Column] + light[w.Row+1][w.Column]
		} else if w.Column == 1 || w.Column == 4 {
			continue
		}
		if light[w.Row][w.Column] > unevenlyLit*both/2 && both > 0 {
			r.shine(w)
		}
	}
	// What shines on one window reaches over to the next, where it is little beside the paper's light and much beside dark cloth's.
	for _, g := range slices.Clone(r.Warning) {
		for _, s := range slices.Clone(r.Seen) {
			if g.Kind == Glare && beside(g, s.Row, s.Column) && uneven[s.Row][s.Column] > shineMost {
				r.shine(s.Window)
			}
		}
	}
	r.tidyWarnings()
	if tinted > 6 {
		doubt(Tinted, true, "the paper is tinted, or lies under coloured light: print on white, go into open shade")
		r.Seen = nil
	}
	return r
}

// shine takes a window out of what was read.
func (r *Reading) shine(w Window) {
	r.Warning = append(r.Warning, Warning{Glare, w.Row, w.Column, true, shining})
	r.Seen = slices.DeleteFunc(r.Seen, func(s Seen) bool { return s.Window == w })
}

// beside tells whether a warning is of a window next to another, across corners too.
func beside(w Warning, row, column int) bool {
	return max(w.Row-row, row-w.Row) <= 1 && max(w.Column-column, column-w.Column) <= 1
}

// tidyWarnings calls what is uneven beside a window that shines by the same name, says nothing twice, and says of the whole
// photograph what is so of most windows.
func (r *Reading) tidyWarnings() {
	for i, a := range r.Warning {
		for _, b := range r.Warning {
			if a.Kind == ShadowEdge && b.Kind == Glare && b.Unread && beside(b, a.Row, a.Column) {
				r.Warning[i].Kind, r.Warning[i].Words = b.Kind, b.Words
			}
		}
	}
	times := map[Warning]int{}
	whole := func(w Warning) Warning { w.Row, w.Column = 0, 0; return w }
	for _, w := range r.Warning {
		times[whole(w)]++
	}
	var out []Warning
	for _, w := range r.Warning {
		if times[whole(w)] > len(Windows())/2 {
			w = whole(w)
		}
		if !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	r.Warning = out
}

// findCard looks for the card in the picture made small first, where most cards are found, then larger. The second is the
// picture as it was last looked at.
func findCard(img image.Image) (found, grey, bool) {
	b := img.Bounds()
	long := max(b.Dx(), b.Dy())
	var g grey
	last := 0
	for _, size := range [3]int{900, 1800, 3600} {
		by := max(1, (long+size-1)/size)
		if by == last {
			break
		}
		last = by
		if g = greyOf(img, by); g.w < 16 || g.h < 16 {
			break
		}
		for _, reach := range [3]int{16, 30, 7} { // parts of the longer side
			if f, ok := lies(g, by, g.marks(max(g.w, g.h)/reach)); ok {
				return f, g, true
			}
		}
	}
	return found{}, g, false
}

// whyNot says why no card was found.
func (g grey) whyNot(b image.Rectangle) Warning {
	w := Warning{Kind: NoCard, Unread: true, Words: "the four corner marks and the code are not seen: take in the whole card, flat, nothing over its marks"}
	if max(b.Dx(), b.Dy()) < 260 || min(g.w, g.h) < 16 {
		return Warning{Kind: FewPixels, Unread: true, Words: fmt.Sprintf("the picture has %d × %d pixels: take the photograph as the camera makes it", b.Dx(), b.Dy())}
	}
	values := slices.Clone(g.pix)
	slices.Sort(values)
	low, high := float64(values[len(values)/50]), float64(values[len(values)*49/50])
	switch {
	case high < 30:
		w.Kind, w.Words = Clipped, "it is too dark to read: take it in open shade"
	case low > 225:
		w.Kind, w.Words = Clipped, "it is too bright to read: let less light in"
	case values[len(values)*7/10] >= 252:
		w.Kind, w.Words = Clipped, "much of it is whiter than the picture can tell: let less light in"
	case high-low > 25 && (high-low)/g.steepest() > blurredPixels:
		w.Kind, w.Words = Blur, "it is blurred: hold still, let the camera focus on the card"
	}
	return w
}

// blurredPixels is over how many pixels the sharpest edge of a picture, 900 to 3600 pixels long, is spread where nothing on it
// can be read.
const blurredPixels = 6

// steepest is the steepest step of brightness a pixel, over 3 × 3 pixels' means so that noise is none.
func (g grey) steepest() float64 {
	mean := func(x, y int) int {
		sum := 0
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				sum += int(g.pix[(y+dy)*g.w+x+dx])
			}
		}
		return sum
	}
	best := 1
	for y := 1; y < g.h-1; y += 2 {
		for x := 1; x < g.w-4; x += 2 {
			d := mean(x+3, y) - mean(x, y)
			best = max(best, d, -d)
		}
	}
	for y := 1; y < g.h-4; y += 2 {
		for x := 1; x < g.w-1; x += 2 {
			d := mean(x, y+3) - mean(x, y)
			best = max(best, d, -d)
		}
	}
	return float64(best) / 27
}

// inside is how far from a window's edge the cloth is read: nearer there are the paper's shadow and blur.
const inside = 5.0

// readWindow reads the cloth in a window; false where there is none, or it cannot be read.
func readWindow(img image.Image, m mapping, w Window, p paper) (s Seen, doubts []Warning, cloth bool) {
	s.Window = w
	doubt := func(k Kind, unread bool, words string) bool {
		doubts = append(doubts, Warning{Kind: k, Unread: unread, Words: words})
		return unread
	}
	if !p.ok {
		doubt(NoCard, true, "it is not wholly on the photograph")
		return s, doubts, false
	}
	// The cloth in blocks of 4 × 4 pixels taken, 2 mm each: their means have little noise.
	const blocks, each = 8, 4
	q := w.Inset(inside)
	c := w.middle()
	var labs [blocks * blocks]colour.Lab
	var raw [blocks * blocks]seen
	black, white := 0, 0
	for i := range labs {
		for k := range each * each {
			x := q.X + q.Side*(float64(i%blocks*each+k%each)+0.5)/(blocks*each)
			y := q.Y + q.Side*(float64(i/blocks*each+k/each)+0.5)/(blocks*each)
			v, clip, _ := at(img, m.of(Point{x, y}))
			if clip {
				white++
			}
			if v[0]+v[1]+v[2] < 0.002 {
				black++
			}
			for ch := range 3 {
				raw[i][ch] += v[ch] / max(p.at(ch, x-c.X, y-c.Y), 1e-6) / (each * each)
			}
		}
		labs[i] = labOf(raw[i])
	}
	// The middle by lightness, and what is much lighter than it.
	order := slices.Clone(labs[:])
	sorted.By(order, func(a, b colour.Lab) int { return int(math.Copysign(1, a.L-b.L)) })
	middle := order[len(order)/2].L
	shiny := 0
	var sum seen
	kept := 0.0
	for i, l := range labs {
		if l.L > middle+9 {
			shiny++
			continue
		}
		kept++
		for ch := range 3 {
			sum[ch] += raw[i][ch]
		}
	}
	for ch := range 3 {
		sum[ch] /= kept
	}
	s.Lab = labOf(sum)
	for _, l := range labs {
		if l.L <= middle+9 {
			s.Spread += (square(l.L-s.Lab.L) + square(l.A-s.Lab.A) + square(l.B-s.Lab.B)) / kept
		}
	}
	s.Spread = math.Sqrt(s.Spread)
	const pixels = blocks * blocks * each * each
	// What shines adds light, to dark cloth many times its own; an edge of a shadow divides cloth and paper alike.
	var greens []float64
	for _, v := range raw {
		greens = append(greens, v[1])
	}
	slices.Sort(greens)
	bright, dim := greens[len(greens)*9/10], greens[len(greens)/10]
	shines := bright > 2.4*dim && bright > dim+0.04
	unread := false
	switch {
	case p.clipped > 0.25:
		unread = doubt(Clipped, true, "the paper around it is whiter than the picture can tell: let less light in")
	case white > pixels/3 || shines || dim > 1.15:
		unread = doubt(Glare, true, shining)
	case math.Abs(p.uneven) > unevenMost:
		unread = doubt(ShadowEdge, true, "an edge of light and shadow runs there: lay the card wholly in the shade")
	case shiny > 4:
		unread = doubt(Glare, true, shining)
	}
	if black > pixels/2 {
		unread = doubt(Clipped, true, "it is darker than the picture can tell: take it in more light") || unread
	}
	// Nothing but paper: as light as it, and as white; or cloth that shines as white as paper.
	if s.Lab.L > 90 && s.Lab.Chroma() < 6 && !unread {
		if bright > 1.07 || math.Abs(p.uneven) > 2*shineMost {
			doubt(Glare, true, shining)
		}
		return s, doubts, false
	}
	return s, doubts, !unread
}

func square(x float64) float64 { return x * x }

// labOf is the colour of cloth from what it throws back beside the paper.
func labOf(v seen) colour.Lab {
	var c [3]float64
	for i := range c {
		x := max(v[i]*paperPart, 0)
		if c[i] = 12.92 * x; x > 0.0031308 {
			c[i] = 1.055*math.Pow(x, 1/2.4) - 0.055
		}
	}
	return colour.RGB{R: c[0], G: c[1], B: c[2]}.Lab()
}
