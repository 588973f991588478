package shade

import (
	"fmt"
	"math"
	"strings"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/wording"
)

// Ground is the undyed cloth that the blue lies on. White is the zero Ground and the only one that was measured.
type Ground int

// The grounds. NaturalSilk is degummed and unbleached.
const (
	White Ground = iota
	Greige
	NaturalWool
	NaturalSilk
)

// Grounds lists all, the measured one first.
func Grounds() []Ground { return []Ground{White, Greige, NaturalWool, NaturalSilk} }

// String is "white", "greige", "natural wool" or "natural silk".
func (g Ground) String() string {
	return wording.Named(g, "white", "greige", "natural wool", "natural silk")
}

// ParseGround reads a ground's name in any case; "unbleached" and "grey" cloth are greige. The error lists the names.
func ParseGround(s string) (Ground, error) {
	name := strings.ToLower(strings.TrimSpace(s))
	switch name {
	case "unbleached", "grey":
		return Greige, nil
	}
	var names []string
	for _, g := range Grounds() {
		if name == g.String() || name == strings.ReplaceAll(g.String(), " ", "-") {
			return g, nil
		}
		names = append(names, g.String())
	}
	return White, fmt.Errorf("no undyed cloth is called %q: say one of %s", s, strings.Join(names, ", "))
}

// GroundOf is the usual ground of a fibre: natural wool and silk, white for the others.
func GroundOf(f fibre.Fibre) Ground {
	switch f {
	case fibre.Wool:
		return NaturalWool
	case fibre.Silk:
		return NaturalSilk
	}
	return White
}

// Evidence is where the ground's spectrum comes from.
func (g Ground) Evidence() string {
	return wording.Either(g == White, "measured, Vrhel, Gershon & Iwan 1994", "an estimate: no measured spectrum found")
}

const (
	// surface is the part of the light that the cloth throws back before it meets dye: 0.005 with the unit spectrum.
	surface = 0.005
	// deepest is the greatest depth looked for; beyond it the surface is all that is seen. M
	deepest = KS(500)
	// palest is the least depth that a look can tell from none. M
	palest = KS(0.02)
)

// reflectance is the ground's own, undyed.
func (g Ground) reflectance() [bands]float64 {
	switch g {
	case Greige:
		return between(greigeCotton)
	case NaturalWool:
		return between(naturalWool)
	case NaturalSilk:
		return between(naturalSilk)
	}
	return whiteCotton
}

// kubelka is K/S of a reflectance, munk the reflectance of a K/S: (1−R)²/2R, and its inverse (Kubelka & Munk 1931).
func kubelka(r float64) float64 { return (1 - r) * (1 - r) / (2 * r) }

func munk(k float64) float64 { return 1 / (1 + k + math.Sqrt(k*k+2*k)) } // 1 + k − √(k²+2k), without its loss of figures

// line is the spectrum of the ground at any depth: all of K/S times wet.
type line struct {
	undyed [bands]float64 // K/S of the cloth itself
	wet    float64        // 1 dry
	seen   colour.Observer
}

func (g Ground) line(wet float64, o colour.Observer) line {
	l := line{undyed: g.reflectance(), wet: wet, seen: o}
	for i, r := range l.undyed {
		l.undyed[i] = kubelka((r - surface) / (1 - surface))
	}
	return l
}

// spectrum is the reflectance as seen, at 10 nm from 380 to 780 nm: K/S(λ) = K/S_undyed(λ) + s f(λ), f the unit spectrum, then Kubelka
// and Munk, then 0.5 % that the surface throws back. It is a flat even cloth; pile and gloss look other than it.
func (l line) spectrum(s KS) colour.Spectrum {
	const beyond = 2 // bands below 400 nm
	var all [41]colour.Sample
	for i := range all {
		at := min(max(i-beyond, 0), bands-1)
		r := munk(l.wet * (l.undyed[at] + tidy(s)*unit[at]))
		all[i] = colour.Sample{Nanometres: firstBand + bandStep*float64(i-beyond), Reflectance: (1-surface)*r + surface}
	}
	spectrum, _ := colour.NewSpectrum(all[:]) // rising and within 0 and 1, so never refused
	return spectrum
}

func (l line) colour(s KS) colour.Lab { return l.spectrum(s).XYZ(l.seen).Lab(l.seen) }

// tidy is a depth as a number: nothing below 0, and no number as 0.
func tidy(s KS) float64 {
	if !(s > 0) {
		return 0
	}
	return math.Min(float64(s), 1e6)
}

// Colour is the colour of dry cloth at a depth, in daylight D65 for the 2° observer.
func (g Ground) Colour(s KS) colour.Lab { return g.line(1, colour.D65At2).colour(s) }

// Undyed is the colour of the cloth before its first dip, for pictures. White cotton was measured with the brightener of the
// trade in it, and looks lilac; what a dyer scours is ecru: L* 88, b* 11, from memory, between the greige and the white. The
// others are Colour(0). Forecasts go by Colour.
func (g Ground) Undyed() colour.Lab {
	if g == White {
		return colour.Lab{L: 88, A: 1, B: 11}
	}
	return g.Colour(0)
}

// Wet is an estimate of the colour of the same cloth wet: all of K/S by wetDarkensPrior, likely 1.7, 80 % between
// 1.3 and 2.2. Wet cloth follows no simple law; judge dry.
func (g Ground) Wet(s KS) colour.Lab {
	return g.line(wetDarkensPrior().Likely, colour.D65At2).colour(s)
}

// KS660 is what an instrument reads as K/S at 660 nm on the dry cloth: dye and cloth together, and the surface in it.
func (g Ground) KS660(s KS) KS {
	l := g.line(1, colour.D65At2)
	r := munk(l.undyed[redBand] + tidy(s)*unit[redBand])
	return KS(kubelka((1-surface)*r + surface))
}

// Depth is the depth nearest to the colour of dry cloth (D65, 2°), from 0 to 500, and how far off the dye's line the colour
// lies, in CIEDE2000. Above 3 or so it is another ground, another light, another dye, or a misreading.
func (g Ground) Depth(l colour.Lab) (s KS, off float64) { return g.line(1, colour.D65At2).nearest(l) }

func (l line) nearest(c colour.Lab) (KS, float64) { return trackOf(l.colour).nearest(c) }

// FromMeter turns what a colour meter read under another light or observer into D65 and 2°, for this dye on this ground:
// the nearest point of the dye's line is converted by its spectrum, and what the colour lies off it is kept.
func FromMeter(l colour.Lab, o colour.Observer, g Ground) colour.Lab {
	there := g.line(1, o)
	s, _ := there.nearest(l)
	from, to := there.colour(s), g.Colour(s)
	return colour.Lab{L: to.L + l.L - from.L, A: to.A + l.A - from.A, B: to.B + l.B - from.B}
}
