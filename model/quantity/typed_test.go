package quantity

import (
	"slices"
	"strings"
	"testing"
)

func TestWrittenHasEveryUnitThatIsShown(t *testing.T) {
	steps := slices.Concat(massMetric, massScale, massOunces, powerSteps, energySteps, ratioSteps, molaritySteps, shareSteps)
	for _, w := range []shown{lengths, areas, volumes, pressures, concentrations, wettings} {
		for _, in := range w {
			steps = slices.Concat(steps, in.steps, []step{{unit: in.zero}})
		}
	}
	for _, s := range steps {
		if word, _, _ := strings.Cut(s.unit, " "); !Written(word) && word != "in" {
			t.Errorf("%s is shown and not known as a unit", s.unit)
		}
	}
	for _, s := range []System{Metric, US, Imperial} {
		for _, u := range []string{s.MassUnit(), s.VolumeUnit(), s.LengthUnit(), s.DegreeUnit()} {
			if !Written(u) && u != "in" {
				t.Errorf("%s is a unit of figures and not known as one", u)
			}
		}
	}
	for _, word := range []string{"", "dips", "to", "A1", "G"} {
		if Written(word) {
			t.Errorf("%q is no unit", word)
		}
	}
}

func TestBareFiguresTakeAUnit(t *testing.T) {
	for typed, want := range map[string]string{
		" 420 ": "420 g", "1,5": "1,5 g", "-5": "-5 g", "1/2": "1/2 g", "420 g": "420 g", "12\"": "12\"", "5 %": "5 %", "10:30": "10:30", "": "", "40°": "40°",
	} {
		if got := WithUnit(typed, "g"); got != want {
			t.Errorf("%q: %q, want %q", typed, got, want)
		}
	}
}
