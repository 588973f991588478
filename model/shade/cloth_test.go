package shade

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/quantity"
)

// turned is white cotton's line with its hue turned and its chroma scaled.
func turned(degrees, chroma float64) func(KS) colour.Lab {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return func(s KS) colour.Lab {
		l := White.Colour(s)
		return colour.Lab{L: l.L, A: chroma * (cos*l.A - sin*l.B), B: chroma * (sin*l.A + cos*l.B)}
	}
}

// measuredLine is the line of a cloth by its own reflectance undyed and the K/S of its dye, both measured, 400 to 700 nm.
func measuredLine(undyed, unit []float64) func(KS) colour.Lab {
	return func(s KS) colour.Lab {
		samples := make([]colour.Sample, len(unit))
		for i := range unit {
			r := munk(kubelka((undyed[i]-surface)/(1-surface)) + float64(s)*unit[i])
			samples[i] = colour.Sample{Nanometres: firstBand + bandStep*float64(i), Reflectance: (1-surface)*r + surface}
		}
		spectrum, err := colour.NewSpectrum(samples)
		if err != nil {
			panic(err)
		}
		return spectrum.XYZ(colour.D65At2).Lab(colour.D65At2)
	}
}

// column is a column of a table of testdata/reference at 400 to 700 nm in steps of 10.
func column(t *testing.T, name string, at int) (out []float64) {
	raw, err := os.ReadFile("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(string(raw), "\n") {
		parts := strings.Split(strings.TrimSpace(line), ",")
		nm, err := strconv.Atoi(parts[0])
		if err != nil || nm < firstBand || nm > firstBand+bandStep*(bands-1) || nm%bandStep != 0 {
			continue
		}
		v, err := strconv.ParseFloat(parts[at], 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	if len(out) != bands {
		t.Fatalf("%s has %d bands", name, len(out))
	}
	return out
}

// clothsKnown are lines of cloth that the model was not made from: turned and scaled ones, the garment's raw spectrum (with its white
// weft) on its two white cottons, and the lines of the other grounds judged as white cotton.
func clothsKnown(t *testing.T) map[string]func(KS) colour.Lab {
	out := map[string]func(KS) colour.Lab{}
	for _, degrees := range []float64{-10, -5, 0, 5, 10} {
		for _, chroma := range []float64{0.6, 0.8, 1, 1.2} {
			out[fmt.Sprintf("hue %+.0f°, chroma %.1f", degrees, chroma)] = turned(degrees, chroma)
		}
	}
	raw := column(t, "indigo_unit_ks.csv", 1)
	first, second := column(t, "indigo_unit_ks.csv", 3), column(t, "indigo_cotton_reflectance.csv", 3)
	out["raw garment, first white"] = measuredLine(first, raw)
	out["raw garment, second white"] = measuredLine(second, raw)
	out["unit dye, second white"] = measuredLine(second, unit[:])
	out["greige cotton"] = Greige.Colour
	return out
}

// After three swatches of a cloth (1, 2 and 4 dips), read by a meter with its error, the colours of other numbers of dips lie within
// a CIEDE2000 of 2 at the median, cloth by cloth, and nobody is told that his cloth is off what indigo gives.
func TestTheColourOfOtherClothIsLearned(t *testing.T) {
	r := rand.New(rand.NewPCG(18, 1))
	all := clothsKnown(t)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		line := all[name]
		var off, before []float64
		for _, level := range []float64{0.7, 1.5, 3.2} {
			depth := func(n int) KS { return KS(level * math.Pow(float64(n), 1.05)) }
			var seen []Swatch
			for _, n := range []int{1, 2, 4} {
				l := line(depth(n))
				l.L, l.A, l.B = l.L+0.3*r.NormFloat64(), l.A+0.3*r.NormFloat64(), l.B+0.3*r.NormFloat64()
				seen = append(seen, Swatch{Dips: dips(n), Rung: n, Lab: l})
			}
			w := shared.Seen(seen)
			if words := strings.Join(w.Words(), "; "); strings.Contains(words, "lies") {
				t.Errorf("%s: %s", name, words)
			}
			steps := w.Forecast(Piece{}, usual, quantity.Minutes(5), nil, 8, nil)
			for _, n := range []int{1, 2, 3, 5, 6, 8} {
				off = append(off, colour.Difference(steps[n-1].Lab, line(depth(n))))
				before = append(before, colour.Difference(White.Colour(depth(n)), line(depth(n))))
			}
		}
		slices.Sort(off)
		slices.Sort(before)
		middle := off[len(off)/2]
		t.Logf("%-28s %.2f at the median, %.2f at most; by the measured garment's line %.2f", name, middle, off[len(off)-1], before[len(before)/2])
		if middle > 2 {
			t.Errorf("%s: the others lie %.2f off at the median", name, middle)
		}
	}
}

// Swatches on the garment's own line leave it as it is, and one swatch of something else (rust) does not turn it far.
func TestTheLineStaysWhereItIsRight(t *testing.T) {
	w := shared.Seen(ladder(1, 2, 4, 8))
	for _, s := range []KS{1, 5, 20} {
		if d := colour.Difference(w.Cloth(White).Colour(s), White.Colour(s)); d > 0.2 {
			t.Errorf("K/S %v: %.2f off", s, d)
		}
	}
	rust := rung(3)
	rust.Lab = colour.Lab{L: 45, A: 35, B: 40}
	w = shared.Seen(append(ladder(1, 2, 4, 8), rust))
	if d := colour.Difference(w.Cloth(White).Colour(5), White.Colour(5)); d > 1.5 {
		t.Errorf("rust turns the line by %.2f", d)
	}
	if !strings.Contains(strings.Join(w.Words(), "; "), "counts for less") {
		t.Errorf("nothing said: %q", w.Words())
	}
}
