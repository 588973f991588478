package shade

import (
	"math"
	"sync"

	"example.org/vatside/model/colour"
)

// Cloth is the line of colours that indigo gives on one cloth, as the eye or meter that judges it sees them. The zero Cloth of a
// ground is the line of the one garment that was measured; looks at swatches turn it to the dyer's own.
type Cloth struct {
	Ground Ground
	// Flat is the light that comes back without having met dye, beyond the garment's, as a part of white: a coarse or loose weave has
	// more, down to none.
	Flat float64
	// Turn is how far the hue lies from the garment's (degrees, counted as hue angles are), Chroma the logarithm of how many times its
	// chroma.
	Turn, Chroma float64
	// White is how far the undyed cloth lies from its ground's: it goes as the blue covers it.
	White [3]float64
}

// clothSpreads are the standard deviations of a Cloth's figures before a swatch was seen, in the order of figures. Measured indigo of
// other cloth lies 2 to 6 off the garment's line (testdata/reference/indigo_measured_lab.csv); the figures M.
var clothSpreads = [...]float64{0.015, 7, 0.25, 3, 1.5, 4}

// figures are a cloth's as one list: flat, turn, chroma, white.
func (c *Cloth) figures() [len(clothSpreads)]*float64 {
	return [...]*float64{&c.Flat, &c.Turn, &c.Chroma, &c.White[0], &c.White[1], &c.White[2]}
}

// covers is the K/S at which half of what is odd about the white still shows. M
const covers = 1.0

// plain tells whether nothing was learned of it.
func (c Cloth) plain() bool { return c == Cloth{Ground: c.Ground} }

// Colour is the colour of dry cloth at a depth (D65, 2°).
func (c Cloth) Colour(s KS) colour.Lab {
	if c.plain() {
		return c.Ground.Colour(s)
	}
	return c.onLine(false, s)
}

// Wet is an estimate of the same wet, as Ground.Wet.
func (c Cloth) Wet(s KS) colour.Lab {
	if c.plain() {
		return c.Ground.Wet(s)
	}
	return c.onLine(true, s)
}

// Depth is the depth whose colour is nearest to one of dry cloth, and how far off that is (CIEDE2000).
func (c Cloth) Depth(l colour.Lab) (KS, float64) { return trackOf(c.turned(false)).nearest(l) }

// onLine is the colour of a depth on the cloth's line.
func (c Cloth) onLine(wet bool, s KS) colour.Lab { return c.turned(wet)(s) }

// turned turns the ground's line to the cloth's.
func (c Cloth) turned(wet bool) func(KS) colour.Lab {
	line, white := lineOf(c.Ground, wet), colour.D65At2.White()
	keep := 1 - c.Flat
	sin, cos := math.Sincos(c.Turn * math.Pi / 180)
	k := math.Exp(c.Chroma)
	return func(s KS) colour.Lab {
		at := line.at(s)
		l := colour.XYZ{X: keep*at.X + c.Flat*white.X, Y: keep*at.Y + c.Flat*white.Y, Z: keep*at.Z + c.Flat*white.Z}.Lab(colour.D65At2)
		show := covers / (covers + tidy(s))
		return colour.Lab{L: l.L + show*c.White[0], A: k*(cos*l.A-sin*l.B) + show*c.White[1], B: k*(sin*l.A+cos*l.B) + show*c.White[2]}
	}
}

// lineTable is a ground's line at depths of equal steps of the logarithm, as light.
type lineTable struct {
	bare colour.XYZ
	xyz  [lineSteps + 1]colour.XYZ
}

const lineSteps = 320

var lnPalest, lineStep = math.Log(float64(palest)), math.Log(float64(deepest/palest)) / lineSteps

// at is straight between the table's points; below the palest straight to the bare cloth.
func (t *lineTable) at(s KS) colour.XYZ {
	between := func(a, b colour.XYZ, f float64) colour.XYZ {
		return colour.XYZ{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y), Z: a.Z + f*(b.Z-a.Z)}
	}
	if x := tidy(s); x < float64(palest) {
		return between(t.bare, t.xyz[0], x/float64(palest))
	}
	at := math.Min((math.Log(tidy(s))-lnPalest)/lineStep, lineSteps)
	i := min(int(at), lineSteps-1)
	return between(t.xyz[i], t.xyz[i+1], at-float64(i))
}

// lines are the tables of all grounds, dry and wet, made at their first use.
var lines = func() (out [NaturalSilk + 1][2]func() *lineTable) {
	for g := range out {
		for i, wet := range []float64{1, wetDarkensPrior().Likely} {
			out[g][i] = sync.OnceValue(func() *lineTable {
				l := Ground(g).line(wet, colour.D65At2)
				t := &lineTable{bare: l.spectrum(0).XYZ(l.seen)}
				for k := range t.xyz {
					t.xyz[k] = l.spectrum(KS(math.Exp(lnPalest + lineStep*float64(k)))).XYZ(l.seen)
				}
				return t
			})
		}
	}
	return out
}()

func lineOf(g Ground, wet bool) *lineTable {
	if g < White || g > NaturalSilk {
		g = White
	}
	if wet {
		return lines[g][1]()
	}
	return lines[g][0]()
}
