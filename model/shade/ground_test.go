package shade

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/fibre"
)

// tableLines are a reference table's lines without its comments.
func tableLines(t *testing.T, name string) (lines []string) {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(raw)), "\n") {
		if !strings.HasPrefix(line, "#") {
			lines = append(lines, strings.TrimSpace(line))
		}
	}
	return lines
}

// columns reads a reference table: comments, a head, rows of numbers.
func columns(t *testing.T, name string) map[string][]float64 {
	t.Helper()
	out := map[string][]float64{}
	var head []string
	for _, line := range tableLines(t, name) {
		fields := strings.Split(line, ",")
		if head == nil {
			head = fields
			continue
		}
		for i, f := range fields {
			v, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			out[head[i]] = append(out[head[i]], v)
		}
	}
	return out
}

// indigo_unit_ks.csv holds the unit spectrum and the white cotton.
func TestSpectraAreThoseOfTheTable(t *testing.T) {
	table := columns(t, "indigo_unit_ks.csv")
	for i, nm := range table["wavelength_nm"] {
		if nm != firstBand+bandStep*float64(i) || unit[i] != table["f_corr"][i] || whiteCotton[i] != table["R_undyed"][i] {
			t.Errorf("%v nm: unit %v, white %v", nm, unit[i], whiteCotton[i])
		}
		if math.Abs(kubelka(whiteCotton[i])-table["KS_undyed"][i]) > 2e-4 {
			t.Errorf("%v nm: K/S of white is %v in the table", nm, table["KS_undyed"][i])
		}
	}
	if unit[redBand] != 1 || nmOf(redBand) != 660 {
		t.Error("the unit spectrum is not 1 at 660 nm")
	}
}

func nmOf(band int) float64 { return firstBand + bandStep*float64(band) }

// The measured dark garment (Vrhel, Gershon & Iwan 1994) holds white weft and surface that the unit spectrum has taken
// off, so it lies a little off the line: within 4.
func TestTheMeasuredGarmentIsNearTheLine(t *testing.T) {
	table := columns(t, "indigo_cotton_reflectance.csv")
	var samples []colour.Sample
	for i, nm := range table["wavelength_nm"] {
		samples = append(samples, colour.Sample{Nanometres: nm, Reflectance: table["indigo_cotton_dark"][i]})
	}
	spectrum, err := colour.NewSpectrum(samples)
	if err != nil {
		t.Fatal(err)
	}
	lab := spectrum.XYZ(colour.D65At2).Lab(colour.D65At2)
	s, off := White.Depth(lab)
	t.Logf("the garment: L* %.1f a* %.1f b* %.1f, hue %.0f; depth %.1f, %.1f off", lab.L, lab.A, lab.B, lab.Hue(), s, off)
	if off > 4 || s < 5 || s > 30 {
		t.Errorf("depth %.1f, %.1f off the line", s, off)
	}
}

// Published deep indigo on cotton has a hue of about 255 to 275° at L* 25 to 40.
func TestHueOfDeepIndigo(t *testing.T) {
	for _, g := range []Ground{White, Greige} {
		for s := KS(1); s < 60; s *= 1.05 {
			c := g.Colour(s)
			if h := c.Hue(); c.L >= 25 && c.L <= 40 && (h < 255 || h > 275) {
				t.Errorf("%s, K/S %.1f: L* %.1f, hue %.0f°", g, s, c.L, h)
			}
		}
	}
}

// +10 % in K/S is a CIEDE2000 of 0.8 to 1.3, +25 % one of 1.9 to 3.1, for L* 30 to 70 (the facts; the ends are rounded).
func TestDifferenceOfATenth(t *testing.T) {
	for s := KS(0.5); s < 60; s *= 1.05 {
		c := White.Colour(s)
		if c.L < 30 || c.L > 70 {
			continue
		}
		if d := colour.Difference(c, White.Colour(1.1*s)); d < 0.75 || d > 1.4 {
			t.Errorf("K/S %.1f, L* %.0f: 10 %% is %.2f", s, c.L, d)
		}
		if d := colour.Difference(c, White.Colour(1.25*s)); d < 1.85 || d > 3.2 {
			t.Errorf("K/S %.1f, L* %.0f: 25 %% is %.2f", s, c.L, d)
		}
	}
}

// depthOfKS660 is the depth of the dye at an instrument's K/S of 660 nm.
func depthOfKS660(g Ground, read KS) KS {
	r := (munk(float64(read)) - surface) / (1 - surface)
	return KS(kubelka(r) - g.line(1, colour.D65At2).undyed[redBand])
}

func TestColourAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(Grounds()).Draw(t, "ground")
		s := KS(math.Exp(rapid.Float64Range(math.Log(0.05), math.Log(100)).Draw(t, "ln s")))
		c := g.Colour(s)
		back, off := g.Depth(c)
		if math.Abs(math.Log(float64(back/s))) > 0.01 || off > 0.02 {
			t.Fatalf("%s %.3f came back as %.3f, %.3f off", g, s, back, off)
		}
		if read := depthOfKS660(g, g.KS660(s)); math.Abs(float64(read/s)-1) > 1e-6 {
			t.Fatalf("%s %.3f came back from 660 nm as %.3f", g, s, read)
		}
		if darker := g.Colour(s * 1.02); darker.L >= c.L {
			t.Fatalf("%s: more dye is not darker at %.2f", g, s)
		}
		if g.Wet(s).L >= c.L {
			t.Fatalf("%s: wet is not darker at %.2f", g, s)
		}
		for _, o := range []colour.Observer{colour.D65At10, colour.D50At2} {
			there := g.line(1, colour.D65At2).spectrum(s).XYZ(o).Lab(o)
			if d := colour.Difference(FromMeter(there, o, g), c); d > 0.05 {
				t.Fatalf("%s %.2f from another meter is %.3f off", g, s, d)
			}
		}
	})
}

func TestUndyedAndNonsense(t *testing.T) {
	for _, g := range Grounds() {
		if s, off := g.Depth(g.Colour(0)); s != 0 || off > 1e-9 {
			t.Errorf("undyed %s has depth %v, %v off", g, s, off)
		}
		for _, s := range []KS{KS(math.NaN()), -1, KS(math.Inf(-1))} {
			if g.Colour(s) != g.Colour(0) {
				t.Errorf("%s: %v is not taken as undyed", g, s)
			}
		}
		if c := g.Colour(KS(math.Inf(1))); math.IsNaN(c.L) {
			t.Errorf("%s: infinite depth has no colour", g)
		}
		if back, err := ParseGround(g.String()); err != nil || back != g {
			t.Errorf("%s reads back as %s, %v", g, back, err)
		}
		if g.Evidence() == "" {
			t.Errorf("%s has no evidence", g)
		}
	}
	if _, err := ParseGround("denim"); err == nil || !strings.Contains(err.Error(), "natural silk") {
		t.Errorf("an unknown ground gives %v", err)
	}
	if GroundOf(fibre.Wool) != NaturalWool || GroundOf(fibre.Silk) != NaturalSilk || GroundOf(fibre.Linen) != White {
		t.Error("usual grounds")
	}
}

// The estimated grounds look as their words say.
func TestGroundsLookAsTold(t *testing.T) {
	for g, want := range map[Ground]colour.Lab{Greige: {L: 83, A: 0, B: 14}, NaturalWool: {L: 82, A: 0, B: 18}, NaturalSilk: {L: 86, A: 0, B: 9}} {
		if c := g.Colour(0); colour.Difference(c, want) > 4 {
			t.Errorf("%s is L* %.0f a* %.0f b* %.0f", g, c.L, c.A, c.B)
		}
	}
}
