package style

import (
	"math"
	"testing"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/shade"
)

// A colour of the model comes back from the shade as it went in, under the name that the depth has, and deeper cloth is
// darker: also where a screen cannot show the colour.
func TestDyedIsTheModelsColour(t *testing.T) {
	for _, g := range shade.Grounds() {
		last := math.Inf(1)
		for ks := shade.KS(0); ks < 60; ks = ks*1.2 + 0.05 {
			lab := g.Colour(ks)
			s := Dyed(lab)
			r, gr, b := s.Colour.R, s.Colour.G, s.Colour.B
			if d := colour.Difference(lab, (colour.RGB{R: r, G: gr, B: b}).Lab()); lab.RGB().Inside() && d > 1e-6 {
				t.Errorf("%s %.2f: %v is %.3f off as a shade", g, ks, lab, d)
			}
			l, _, _ := s.Colour.Lab()
			if l >= last {
				t.Errorf("%s %.2f is no darker than less dye", g, ks)
			}
			last = l
			if want := shade.Name(ks); g == shade.White && ks > 0.5 && s.Name != want {
				t.Errorf("%.2f is called %q, not %q", ks, s.Name, want)
			}
		}
	}
	for _, l := range []colour.Lab{{L: 40, A: -60, B: -70}, {L: 120, A: 0, B: 0}, {L: -5, A: 0, B: 0}} {
		if c := Dyed(l).Colour; !c.IsValid() {
			t.Errorf("%v gives %v, which no screen shows", l, c)
		}
	}
}

// Without colour undyed, mid and navy cloth are still told apart, on every ground.
func TestDensitiesTellDepthsApart(t *testing.T) {
	for _, g := range shade.Grounds() {
		last := Density(-1)
		for _, name := range []string{"", "pale", "mid", "navy", "blue-black"} {
			ks := shade.KS(0)
			if d, err := shade.ByName(name); err == nil {
				ks = shade.Band(d).Likely
			}
			if got := Dyed(g.Colour(ks)).Density; got <= last {
				t.Errorf("%s: %q has density %d, the paler one %d", g, name, got, last)
			} else {
				last = got
			}
		}
	}
}
