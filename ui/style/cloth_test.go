package style

import (
	"strings"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"example.org/vatside/model/shade"
	_ "example.org/vatside/testdata/long" // collects garbage less often
)

// Undyed cloth is ecru, of a yellow hue, and lighter than any dyed one.
func TestUndyedIsEcru(t *testing.T) {
	h, chroma, l := Cloth(0).Colour.Hcl()
	if h < 60 || h > 100 || chroma < 0.08 || l < 0.85 {
		t.Errorf("undyed cloth has hue %.0f°, chroma %.2f, lightness %.2f: %s", h, chroma, l, Cloth(0).Colour.Hex())
	}
	for _, g := range shade.Grounds() {
		if c := Dyed(g.Undyed()); c.Name != "undyed" || c.Colour.R <= c.Colour.B {
			t.Errorf("%s: %+v", g, c)
		}
	}
}

// dips are the blues of a strip on white cotton; their depth grows as in the middle of the shade model's possible vats.
func dips() (out []Shade) {
	for i := 1; i <= 16; i++ {
		out = append(out, Dyed(shade.White.Colour(shade.KS(0.9*float64(i)*(1+float64(i)/16)))))
	}
	return out
}

// With 256 colours sixteen dips stay apart wherever true colours are, each darker than the one before, and all of blues.
func TestIndexedDipsStayApart(t *testing.T) {
	s := New(Options{Theme: DarkTheme, Profile: Indexed})
	var last Shade
	seen := map[string]int{}
	for i, d := range dips() {
		text := s.Fill(d, 3)
		of := toneOf(d.Colour)
		if !isBlue(fixed(of.over-16)) || !isBlue(fixed(of.under-16)) {
			t.Errorf("dip %d is drawn with %d and %d, which are not both blue", i+1, of.over, of.under)
		}
		if off := of.l - lOf(d); off > 0.02 || off < -0.02 {
			t.Errorf("dip %d is %.3f too light", i+1, off)
		}
		if n, twice := seen[text]; twice {
			t.Errorf("dips %d and %d look the same", n, i+1)
		}
		if seen[text] = i + 1; i > 0 && of.l >= toneOf(last.Colour).l {
			t.Errorf("dip %d is no darker than the one before", i+1)
		}
		last = d
	}
}

// painted is how light a tone is of 100: of its dots' light added up, and flat, the numbers of its colours mixed.
func painted(of tone) [2]float64 {
	part := map[Density]float64{Light: 0.25, Medium: 0.5, Dark: 0.75, Full: 1}[of.density]
	over, under := fixed(of.over-16), fixed(of.under-16)
	r, g, b := over.LinearRgb()
	r2, g2, b2 := under.LinearRgb()
	mix := func(x, y float64) float64 { return part*x + (1-part)*y }
	dots := colorful.LinearRgb(mix(r, r2), mix(g, g2), mix(b, b2))
	flat := colorful.Color{R: mix(over.R, under.R), G: mix(over.G, under.G), B: mix(over.B, under.B)}
	return [2]float64{100 * lOf(Shade{Colour: dots}), 100 * lOf(Shade{Colour: flat})}
}

// With 256 colours a ramp of blues runs evenly from pale to dark, however a terminal paints its shades: sixteen blues in even steps, the
// dips of the planner's strip and all blues there are get darker at each step, the even ones by no more than twice the mean of all.
func TestIndexedRampIsEven(t *testing.T) {
	var even, every []tone
	for i := range 16 {
		even = append(even, toneOf(Dyed(shade.White.Colour(depthOf(82-57*float64(i)/15))).Colour))
	}
	var strip []tone
	for _, d := range dips() {
		strip = append(strip, toneOf(d.Colour))
	}
	every = append(every, tones()...)
	for name, ramp := range map[string][]tone{"even": even, "dips": strip, "all": every} {
		for way, how := range []string{"dots", "flat"} {
			mean := (painted(ramp[0])[way] - painted(ramp[len(ramp)-1])[way]) / float64(len(ramp)-1)
			for i := range ramp[1:] {
				step := painted(ramp[i])[way] - painted(ramp[i+1])[way]
				if step <= 0 || name == "even" && step > 2*mean {
					t.Errorf("%s, %s: from %+v to %+v L* falls by %.1f, in the mean by %.1f", name, how, ramp[i], ramp[i+1], step, mean)
				}
			}
		}
	}
}

func lOf(s Shade) float64 { l, _, _ := s.Colour.Lab(); return l }

// Blues of 256 colours are never grey or teal, whatever draws them.
func TestIndexedBluesAreBlue(t *testing.T) {
	for i, d := range dips() {
		if n := indexed(d.Colour); !isBlue(fixed(n - 16)) {
			t.Errorf("dip %d is %d of 256, %s", i+1, n, fixed(n-16).Hex())
		}
	}
}

// Deep cloth on a dark ground and undyed cloth on paper have a hem, which is seen there; not the other way round.
func TestHem(t *testing.T) {
	for _, c := range []struct {
		theme      Theme
		pale, deep bool
	}{{DarkTheme, false, true}, {LightTheme, true, false}, {SunTheme, true, false}} {
		s := New(Options{Theme: c.theme, Profile: TrueColour, PaintGround: true})
		if s.Hemmed(Cloth(0)) != c.pale || s.Hemmed(Cloth(1)) != c.deep {
			t.Errorf("%s: undyed %v, blue-black %v", c.theme, s.Hemmed(Cloth(0)), s.Hemmed(Cloth(1)))
		}
	}
	if s := New(Options{}); !s.Hemmed(Cloth(0)) || s.Hemmed(Cloth(1)) {
		t.Error("without colours undyed cloth is blank and needs an edge, blue-black none")
	}
}

// On a dark ground liquor is darker than on paper, and of the same hue.
func TestLiquorAtNight(t *testing.T) {
	for st := Water; st <= Tired; st++ {
		day, night := New(Options{Theme: LightTheme, Profile: TrueColour}).Shown(Liquor(st)), New(Options{Theme: DarkTheme, Profile: TrueColour}).Shown(Liquor(st))
		h, _, l := day.Hcl()
		h2, _, l2 := night.Hcl()
		if off := h - h2; l2 > 0.75*l || off > 3 || off < -3 {
			t.Errorf("%s: %s by day, %s at night", Liquor(st).Name, day.Hex(), night.Hex())
		}
	}
}

// Where there are few colours or none, density says what cloth it is.
func TestFewColoursGoByDensity(t *testing.T) {
	for _, p := range []Profile{NoColour, Ansi16} {
		s := New(Options{Profile: p})
		last := ""
		for _, f := range []float64{0, 0.3, 0.6, 0.8, 1} {
			got := s.Fill(Cloth(f), 2)
			if got == last || strings.Contains(got, "\x1b") {
				t.Errorf("%v: cloth %.1f is %q", p, f, got)
			}
			last = got
		}
	}
}
