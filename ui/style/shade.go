package style

import (
	"math"

	"github.com/lucasb-eyer/go-colorful"
)

// Density is a shade without colour: five steps of ink.
type Density int

const (
	Blank Density = iota
	Light
	Medium
	Dark
	Full
)

// Shade is cloth or liquor as data: its colour, and density and name for where there is none.
type Shade struct {
	Colour  colorful.Color
	Density Density
	Name    string
}

// depth is one named step of indigo on cotton.
type depth struct {
	name    string
	hex     string
	density Density
}

// depths are evenly spaced on ClothColour's scale. sRGB by eye, from memory, for dry rinsed cotton in
// daylight: to be replaced by the colour computed from the unit spectrum.
var depths = []depth{
	{"undyed", "#EFE8D8", Blank},
	{"milk", "#CDDADC", Light},
	{"pale", "#A6C0D0", Light},
	{"sky", "#779CBE", Medium},
	{"mid", "#4874A3", Medium},
	{"dark", "#2A4D80", Dark},
	{"navy", "#1D3058", Dark},
	{"blue-black", "#141A33", Full},
}

// ClothColour is indigo on cotton from undyed (0) to blue-black (1), blended in Lab between the named
// depths; outside that range it is the nearer end.
func ClothColour(fraction float64) colorful.Color {
	place, last := ladderPlace(fraction)
	i := min(int(place), last-1)
	a, b := mustHex(depths[i].hex), mustHex(depths[i+1].hex)
	return a.BlendLab(b, place-float64(i)).Clamped()
}

// Cloth is the shade at a fraction of ClothColour's scale, under the nearest depth's name.
func Cloth(fraction float64) Shade {
	place, _ := ladderPlace(fraction)
	d := depths[int(math.Round(place))]
	return Shade{Colour: ClothColour(fraction), Density: d.density, Name: d.name}
}

// DepthFraction is where a named depth lies on ClothColour's scale.
func DepthFraction(name string) (fraction float64, ok bool) {
	for i, d := range depths {
		if d.name == name {
			return float64(i) / float64(len(depths)-1), true
		}
	}
	return 0, false
}

func ladderPlace(fraction float64) (place float64, last int) {
	last = len(depths) - 1
	if math.IsNaN(fraction) {
		fraction = 0
	}
	return min(max(fraction, 0), 1) * float64(last), last
}

// Stage is how far the liquor has come.
type Stage int

const (
	Water      Stage = iota
	CloudyBlue       // fresh powder
	Green
	YellowGreen // ready
	Amber
	Tired
)

// stages: sRGB by eye, from memory, of liquor in a clear glass.
var stages = [...]struct {
	hex     string
	density Density
	name    string
}{
	Water:       {"#A9C3CC", Blank, "water"},
	CloudyBlue:  {"#5F83AC", Light, "cloudy blue"},
	Green:       {"#5D9A68", Medium, "green"},
	YellowGreen: {"#B3BD3C", Dark, "yellow-green"},
	Amber:       {"#CF9630", Full, "amber"},
	Tired:       {"#4E8A8B", Light, "tired blue-green"},
}

// Liquor is the shade of a stage; a stage not known is water.
func Liquor(stage Stage) Shade {
	if stage < 0 || int(stage) >= len(stages) {
		stage = Water
	}
	s := stages[stage]
	return Shade{Colour: mustHex(s.hex), Density: s.density, Name: s.name}
}

// mustHex is only for the constants of this package, all of which a test reads.
func mustHex(s string) colorful.Color {
	c, err := colorful.Hex(s)
	if err != nil {
		panic(err)
	}
	return c
}
