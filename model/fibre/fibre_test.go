package fibre

import (
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
)

// Density, regain and natural regain against fibres.csv, where it has them: the figures are the table's own.
func TestAgainstTable(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/reference/fibres.csv")
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, line := range strings.Split(strings.TrimSpace(string(raw)), "\n") {
		c := strings.Split(strings.TrimSpace(line), ",")
		if strings.HasPrefix(line, "#") || c[0] == "fibre" {
			continue
		}
		name, _, _ := strings.Cut(c[0], "(")
		f, err := Parse(name)
		if err != nil {
			t.Error(err)
			continue
		}
		seen++
		facts := f.Facts()
		same := func(what, cell string, got float64) {
			want, err := strconv.ParseFloat(cell, 64)
			if err == nil && math.Abs(got-want) > 1e-9 {
				t.Errorf("%s of %s: %v, want %v", what, f, got, want)
			}
		}
		same("density", c[1], facts.Density.Value)
		if c[1] == "" {
			same("density", c[2], facts.Density.Value)
		}
		same("regain", c[4], facts.Regain.Value.Percent())
		for _, end := range strings.Split(strings.ReplaceAll(c[5], " or ", "-"), "-") {
			if v, err := strconv.ParseFloat(end, 64); err == nil && !facts.Natural.Value.Contains(quantity.Percent(v)) {
				t.Errorf("natural regain of %s: %v is outside %v", f, v, facts.Natural.Value)
			}
		}
	}
	if seen != 7 {
		t.Errorf("%d fibres in the table", seen)
	}
}

// Every figure of every fibre is there, possible, and says where it comes from.
func TestFactsAreWhole(t *testing.T) {
	for _, f := range All() {
		x := f.Facts()
		for what, e := range map[string]string{"density": x.Density.Evidence, "regain": x.Regain.Evidence, "natural": x.Natural.Evidence,
			"pick-up": x.PickUp.Evidence, "pH": x.PH.Evidence, "heat": x.Heat.Evidence, "wet-out": x.WetOut.Evidence, "airing": x.Airing.Evidence} {
			if e == "" {
				t.Errorf("%s of %s has no evidence", what, f)
			}
		}
		if x.Density.Value < 1.2 || x.Density.Value > 1.6 || x.PH.Value < 9 || x.PH.Value > 13 || x.Heat.Value < 40 || x.WetOut.Value <= 0 ||
			x.Airing.Value <= 0 || x.Regain.Value <= 0 || !x.Natural.Value.Valid() || !x.PickUp.Value.Valid() {
			t.Errorf("%s: %+v", f, x)
		}
	}
}

// The room that goods take: 0.65 to 0.76 L a kilogram, and 1 to 1.5 L carried.
func TestRoom(t *testing.T) {
	for _, f := range append(All(), Unknown) {
		l := f.Displacement(quantity.Kilograms(1)).Litres()
		if l < 0.649 || l > 0.764 {
			if f != Jute { // lighter than cotton, heavier than wool
				t.Errorf("%s pushes up %.3f L", f, l)
			}
		}
		c := f.Carried(quantity.Kilograms(2))
		if c.Low != 2 || c.High != 3 {
			t.Errorf("%s carries %v", f, c)
		}
	}
}

func TestNames(t *testing.T) {
	for _, f := range All() {
		text, err := f.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		var back Fibre
		if err := back.UnmarshalText(text); err != nil || back != f {
			t.Errorf("%s: %v, %v", f, back, err)
		}
	}
	if f, err := Parse(" Flax "); f != Linen || err != nil {
		t.Error(f, err)
	}
	_, err := Parse("felt")
	var ue *UnknownError
	want := "felt is not a fibre known here; known are cotton, linen, hemp, ramie, jute, viscose, silk and wool"
	if !errors.As(err, &ue) || err.Error() != want {
		t.Errorf("%v", err)
	}
	if Cotton.Class() != Cellulose || Viscose.Class() != Cellulose || Wool.Class() != Protein || Unknown.Class() != NoClass || Fibre(99).String() != "unknown" {
		t.Error("classes")
	}
}

func TestBears(t *testing.T) {
	for _, tt := range []struct {
		f    Fibre
		ph   quantity.PH
		want Verdict
	}{
		{Cotton, 12.5, Fine}, {Cotton, 13.5, Warned}, {Wool, 9.5, Fine}, {Wool, 10.5, Warned}, {Wool, 10.6, Refused},
		{Silk, 10, Fine}, {Silk, 11, Warned}, {Silk, 11.1, Refused}, {Unknown, 14, Fine},
	} {
		if got, why := tt.f.BearsPH(tt.ph); got != tt.want || (why == "") != (got == Fine) {
			t.Errorf("%s at pH %v: %v %q", tt.f, tt.ph, got, why)
		}
	}
	for _, tt := range []struct {
		f    Fibre
		c    quantity.Temperature
		want Verdict
	}{{Wool, 50, Fine}, {Wool, 55, Warned}, {Wool, 61, Refused}, {Cotton, 60, Fine}} {
		if got, _ := tt.f.BearsHeat(tt.c); got != tt.want {
			t.Errorf("%s at %v: %v", tt.f, tt.c, got)
		}
	}
	if _, why := Wool.BearsPH(11); why != "wool bears pH 9.5 and this liquor has 11.0, which harms it" {
		t.Error(why)
	}
}
