package style

import (
	"math"
	"slices"
	"sort"
	"sync"

	"github.com/lucasb-eyer/go-colorful"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/shade"
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
	Liquor  bool // a liquid: on a dark ground it is shown darker, since its area would outshine the letters
}

// named are the depths by name, evenly spaced on ClothColour's scale, from undyed: what the measured unit spectrum gives
// on white cloth at the likely depth of each name.
var named = sync.OnceValue(func() []Shade {
	out := []Shade{dyed(shade.White.Undyed())}
	for _, d := range shade.Depths() {
		s := dyed(shade.White.Colour(shade.Band(d).Likely))
		s.Name = d.Name
		out = append(out, s)
	}
	return out
})

// The lightness (L*) down to which cloth is drawn blank, light, medium and dark where there is no colour: undyed cloth of
// all grounds is blank, pale light, mid medium, navy dark and blue-black full.
const leastBlank, leastLight, leastMedium, leastDark = 79, 55, 36.5, 25

// Dyed is cloth of a colour (D65, 2°, dry), each part brought into what a screen can show. Its name is that of the depth
// which is as light on white cloth: who knows how sure the depth is gives it the words for that.
func Dyed(l colour.Lab) Shade {
	s := dyed(l)
	if s.Name == "" {
		s.Name = shade.Name(depthOf(l.L))
	}
	return s
}

// dyed is Dyed without the name of the depth, which takes a table of them.
func dyed(l colour.Lab) Shade {
	c := l.RGB().Clip()
	s := Shade{Colour: colorful.Color{R: c.R, G: c.G, B: c.B}, Density: Full}
	switch {
	case l.L >= leastBlank:
		s.Density, s.Name = Blank, "undyed"
	case l.L >= leastLight:
		s.Density = Light
	case l.L >= leastMedium:
		s.Density = Medium
	case l.L >= leastDark:
		s.Density = Dark
	}
	return s
}

// lightness is L* of white cloth by depth, in even steps of its logarithm from a tenth to 500.
var lightness = sync.OnceValue(func() []float64 {
	out := make([]float64, steps+1)
	for i := range out {
		out[i] = shade.White.Colour(stepDepth(float64(i))).L
	}
	return out
})

const steps = 120

func stepDepth(i float64) shade.KS { return shade.KS(0.1 * math.Pow(5000, i/steps)) }

// depthOf is the depth of white cloth that is as light.
func depthOf(l float64) shade.KS {
	table := lightness()
	i := sort.Search(len(table), func(i int) bool { return table[i] <= l })
	if i == 0 {
		return stepDepth(0)
	}
	if i == len(table) {
		return stepDepth(steps)
	}
	return stepDepth(float64(i) - (l-table[i])/(table[i-1]-table[i]))
}

// ClothColour is indigo on cotton from undyed (0) to blue-black (1), blended in Lab between the named
// depths; outside that range it is the nearer end.
func ClothColour(fraction float64) colorful.Color {
	place, last := ladderPlace(fraction)
	i := min(int(place), last-1)
	return named()[i].Colour.BlendLab(named()[i+1].Colour, place-float64(i)).Clamped()
}

// Cloth is the shade at a fraction of ClothColour's scale, under the nearest depth's name: the usual blue, for where
// nothing is known of a vat.
func Cloth(fraction float64) Shade {
	place, _ := ladderPlace(fraction)
	s := named()[int(math.Round(place))]
	s.Colour = ClothColour(fraction)
	return s
}

// DepthFraction is where a named depth lies on ClothColour's scale.
func DepthFraction(name string) (fraction float64, ok bool) {
	at := slices.IndexFunc(named(), func(s Shade) bool { return s.Name == name })
	return float64(max(at, 0)) / float64(len(named())-1), at >= 0
}

func ladderPlace(fraction float64) (place float64, last int) {
	last = len(named()) - 1
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
	Straw // spent
	Milky
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
	Straw:       {"#DDD39A", Light, "pale straw"},
	Milky:       {"#BCC7BC", Light, "milky"},
}

// Liquor is the shade of a stage; a stage not known is water.
func Liquor(stage Stage) Shade {
	if stage < 0 || int(stage) >= len(stages) {
		stage = Water
	}
	s := stages[stage]
	return Shade{Colour: mustHex(s.hex), Density: s.density, Name: s.name, Liquor: true}
}

// mustHex is only for the constants of this package, all of which a test reads.
func mustHex(s string) colorful.Color {
	c, err := colorful.Hex(s)
	if err != nil {
		panic(err)
	}
	return c
}
