package signs

import (
	"strings"
	"testing"

	"example.org/vatside/model/liquor"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/published"
)

// A ferment that smells flat and has no froth starves, as the evening round says; where its pH was read low its alkali is eaten;
// where nobody read it, it is read before anything goes in.
func TestAFlatSmell(t *testing.T) {
	fed := quantity.Days(4)
	at := func(ph float64) func(*Seen, *Vat) {
		return func(s *Seen, v *Vat) {
			v.SinceFood = &fed
			warm := quantity.Celsius(35)
			s.Temp = &warm
			if p := quantity.PH(ph); ph > 0 {
				s.PH = &p
			}
		}
	}
	for _, c := range []struct {
		recipe, seen string
		ph           float64
		powder, do   string
	}{
		{"madder-bran", "flat smell, no froth", 10.3, "bran", "bran"}, {"madder-bran", "flat smell", 10.3, "bran", "bran"},
		{"madder-bran", "flat smell, no froth", 0, "", "read pH first"}, {"madder-bran", "flat smell", 0, "", "read pH first"},
		{"madder-bran", "flat smell, no froth", 8.8, "lime", "lime"}, {"sugar-lime", "flat smell", 0, "", "read pH before"},
		{"madder-bran", "sour smell", 0, "", "read pH before"},
	} {
		a, powder := see(t, c.recipe, c.seen, at(c.ph))[0], ""
		if len(a.Doses) > 0 {
			powder = a.Doses[0].Powder
		}
		if powder != c.powder || !strings.Contains(a.Do, c.do) {
			t.Errorf("%s, %s, pH %g: %q of %q", c.recipe, c.seen, c.ph, a.Do, powder)
		}
	}
}

// Who smells a sulfur gas has other words for it than the book; each sends people away.
func TestAStingingSmellIsTheGas(t *testing.T) {
	for _, w := range []string{"sharp smell", "acrid", "pungent smell", "it stings", "clear, yellow, stinging"} {
		for _, id := range []string{"soda", "thiourea", "madder-bran"} {
			if a := see(t, id, w)[0]; a.Act != Stop || a.ID != chokingID {
				t.Errorf("%s, %s: %s", id, w, a.Do)
			}
		}
	}
}

// Who asks by signs and who asks for the right dose is told of the same dangers.
func TestOneWordingOfTheDangers(t *testing.T) {
	warm, weak := quantity.Celsius(35), quantity.Seconds(5)
	for _, id := range []string{"soda", "lye", "thiourea"} {
		a := see(t, id, "blue, cloudy", func(s *Seen, v *Vat) { s.Temp = &warm })[0]
		n := liquor.Advise(Vat{Recipe: published.Recipe(t, id), Fill: 60, Temp: &warm, Strip: &weak})
		if got, want := strings.Join(a.Cautions, "; "), strings.Join(n.Cautions, "; "); got != want {
			t.Errorf("%s: signs say %q, the dose %q", id, got, want)
		}
	}
}

// The weaker the strip the more reducer, whatever colour is seen beside it: nowhere does a strip a little better get more.
func TestAWeakerStripNeverGetsLess(t *testing.T) {
	warm := quantity.Celsius(35)
	for _, id := range []string{"soda", "lye", "thiourea", "mild-soda", "sugar-lime"} {
		for _, seen := range []string{"", "grass green", "blue-green, clear", "blue, clear", "blue, cloudy"} {
			last := quantity.Mass(1e6)
			for sec := 1.0; sec < 30; sec++ {
				strip := quantity.Seconds(sec)
				v, s := Vat{Recipe: published.Recipe(t, id), Fill: 60}, Seen{Temp: &warm, Strip: &strip}
				if seen != "" {
					s.Signs, _ = Parse(seen)
				}
				if a := Advise(s, v); a.Mass > last {
					t.Errorf("%s, %q, strip %g s: %v after %v", id, seen, sec, a.Mass, last)
				} else {
					last = a.Mass
				}
			}
		}
	}
}

// A pH that burns skin keeps hands and goods out, whatever was seen beside it.
func TestSoMuchAlkaliStandsAlone(t *testing.T) {
	for _, id := range []string{"soda", "lye", "thiourea", "mild-soda", "madder-bran"} {
		for _, seen := range []string{"milky", "clear, yellow", "too yellow", "foul smell", "sour smell", "streaks"} {
			for _, ph := range []quantity.PH{13, 13.5, 14} {
				list := see(t, id, seen, func(s *Seen, v *Vat) { s.PH = &ph })
				if len(list) != 1 || list[0].ID != "alkali-high" || !strings.Contains(list[0].Do, "no hands and no goods") {
					t.Errorf("%s, %s, pH %v: %s", id, seen, ph, list[0].Do)
				}
			}
		}
	}
}
