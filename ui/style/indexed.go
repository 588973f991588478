package style

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"github.com/lucasb-eyer/go-colorful"

	"example.org/vatside/model/sorted"
)

// fixed is one of the 240 colours of 256 that no terminal's own theme moves, from 16 on: the cube and the greys.
func fixed(i int) colorful.Color {
	level := func(i int) float64 {
		if i == 0 {
			return 0
		}
		return float64(55+40*i) / 255
	}
	if i >= 216 {
		grey := float64(8+10*(i-216)) / 255
		return colorful.Color{R: grey, G: grey, B: grey}
	}
	return colorful.Color{R: level(i / 36), G: level(i / 6 % 6), B: level(i % 6)}
}

// isBlue tells whether a colour is one of indigo's: its hue in L*a*b* from 215° (a pale blue) to 307° (the blue of screens), and
// enough of it to be no grey.
func isBlue(c colorful.Color) bool {
	h, chroma, _ := c.Hcl()
	return chroma > 0.06 && h > 215 && h < 307
}

// most is the most vivid blue that cloth is mixed of, as chroma; beyond lie the colours of lamps.
const most = 0.85

type indexedColour struct {
	no      int
	colour  colorful.Color
	l, a, b float64
}

// palette are the fixed colours; blues those of them that cloth is mixed of.
var palette = sync.OnceValues(func() (all, blues []indexedColour) {
	for i := range 240 {
		c := indexedColour{no: 16 + i, colour: fixed(i)}
		c.l, c.a, c.b = c.colour.Lab()
		all = append(all, c)
		if isBlue(c.colour) && math.Hypot(c.a, c.b) < most {
			blues = append(blues, c)
		}
	}
	return all, blues
})

// apart is how unlike two colours are, a hue or a lightness off counting more than how vivid they are.
func apart(l, a, b, fl, fa, fb float64) float64 {
	vivid := math.Hypot(fa, fb) - math.Hypot(a, b)
	return 2*(l-fl)*(l-fl) + 3*((a-fa)*(a-fa)+(b-fb)*(b-fb)-vivid*vivid) + vivid*vivid/2
}

// indexed is the nearest of the fixed colours, of a blue the nearest blue.
func indexed(c colorful.Color) int {
	of, blues := palette()
	if isBlue(c) {
		of = blues
	}
	best, least := 0, math.Inf(1)
	l, a, b := c.Lab()
	for _, f := range of {
		if d := apart(l, a, b, f.l, f.a, f.b); d < least {
			best, least = f.no, d
		}
	}
	return best
}

// tone is an area of 256 colours: one of them, or two in one cell.
type tone struct {
	over, under int     // numbers of the colours of glyph and ground
	density     Density // the glyph: a shade covers a quarter, a half or three quarters of its cell
	stands      float64 // for cloth of that L*; 0 for what is no blue
	l           float64 // L* of the whole, 0 to 1
}

// tones are the blues of cloth, the palest first. Each is darker than the one before, where a terminal paints a shade as dots and where
// it paints it flat; of all mixtures of two blues those are taken that come nearest to indigo on white cotton and to their neighbours,
// and show their pattern least. Below #005f87, L* 38, the next blue is #000087, L* 14: what is mixed between them lies up to 2 off and
// is more vivid.
var tones = sync.OnceValue(func() []tone {
	out := []tone{
		{189, 153, Dark, 87, 0}, {189, 117, Medium, 85, 0}, {153, 81, Dark, 83, 0}, {153, 74, Dark, 81, 0}, {117, 110, Dark, 79, 0},
		{117, 110, Medium, 77, 0}, {110, 81, Medium, 75, 0}, {110, 81, Dark, 73, 0}, {117, 74, Light, 71, 0}, {110, 74, Medium, 69, 0},
		{110, 67, Dark, 67, 0}, {103, 74, Light, 65, 0}, {103, 74, Medium, 63, 0}, {74, 67, Medium, 61, 0}, {74, 67, Light, 59, 0},
		{67, 38, Dark, 57, 0}, {103, 31, Medium, 55, 0}, {67, 31, Medium, 53, 0}, {67, 24, Dark, 51, 0}, {60, 38, Dark, 49, 0},
		{60, 31, Medium, 47, 0}, {31, 24, Medium, 45, 0}, {67, 24, Light, 43, 0}, {31, 24, Light, 41, 0}, {61, 24, Light, 38.9, 0},
		{24, 24, Full, 36.9, 0}, {25, 18, Dark, 35, 0}, {25, 17, Dark, 33.3, 0}, {24, 18, Dark, 31.7, 0}, {24, 17, Dark, 29.7, 0},
		{60, 18, Medium, 28.8, 0}, {60, 17, Medium, 27.8, 0}, {25, 17, Medium, 26.7, 0}, {24, 17, Medium, 24.6, 0},
	}
	all, _ := palette()
	for i, t := range out {
		out[i].l = mixture(all[t.over-16], all[t.under-16], t.density).l
	}
	return out
})

// mixed is a tone with its a* and b*, in hundredths, and how rough it is: two colours far from each other in lightness show their
// pattern, and terminals differ on them.
type mixed struct {
	tone
	a, b, rough float64
}

// mixture is what two colours look like from where their pattern is not seen: between their light added up, as dots do, and their
// numbers added up, as terminals do that paint a shade as a flat colour.
func mixture(over, under indexedColour, d Density) mixed {
	part := map[Density]float64{Light: 0.25, Medium: 0.5, Dark: 0.75, Full: 1}[d]
	r, g, b := over.colour.LinearRgb()
	r2, g2, b2 := under.colour.LinearRgb()
	mix := func(x, y float64) float64 { return part*x + (1-part)*y }
	l, a, bb := colorful.LinearRgb(mix(r, r2), mix(g, g2), mix(b, b2)).Lab()
	l2, a2, b3 := under.colour.BlendRgb(over.colour, part).Lab()
	m := mixed{tone: tone{over: over.no, under: under.no, density: d, l: (l + l2) / 2}, a: (a + a2) / 2, b: (bb + b3) / 2}
	m.rough = math.Abs(over.l-under.l) + 4*math.Abs(l-l2)
	return m
}

// mixtures are some colours, and each two of them mixed.
func mixtures(of []indexedColour) (all []mixed) {
	for i, p := range of {
		all = append(all, mixture(p, p, Full))
		for _, q := range of[:i] {
			all = append(all, mixture(p, q, Light), mixture(p, q, Medium), mixture(p, q, Dark))
		}
	}
	return all
}

// toneOf is a colour as an area of 256 colours: a blue is the tone that stands for cloth as light, any other what comes nearest of the
// dozen colours about it.
func toneOf(c colorful.Color) tone {
	const about = 12
	l, a, b := c.Lab()
	var best tone
	least := math.Inf(1)
	if isBlue(c) {
		for _, t := range tones() {
			if d := math.Abs(t.stands - 100*l); d < least {
				best, least = t, d
			}
		}
		return best
	}
	all, _ := palette()
	off := func(x indexedColour) float64 { return math.Hypot(math.Hypot(x.l-l, x.a-a), x.b-b) }
	near := slices.Clone(all)
	sorted.By(near, func(x, y indexedColour) int { return cmp.Compare(off(x), off(y)) })
	for _, m := range mixtures(near[:about]) {
		if d := math.Hypot(math.Hypot(m.l-l, m.a-a), m.b-b) + 0.05*m.rough; d < least {
			best, least = m.tone, d
		}
	}
	return best
}
