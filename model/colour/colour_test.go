package colour

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// labs draws colours, those of the extremes too.
func labs() *rapid.Generator[Lab] {
	return rapid.Custom(func(t *rapid.T) Lab {
		return Lab{
			rapid.Float64Range(0, 100).Draw(t, "L"),
			rapid.Float64Range(-128, 128).Draw(t, "a"),
			rapid.Float64Range(-128, 128).Draw(t, "b"),
		}
	})
}

func near(a, b Lab, tolerance float64) bool {
	return math.Abs(a.L-b.L) <= tolerance && math.Abs(a.A-b.A) <= tolerance && math.Abs(a.B-b.B) <= tolerance
}

// White is L 100, a 0, b 0 to the last digit under each condition, and so is a spectrum that reflects all; black is 0.
func TestWhiteIsWhite(t *testing.T) {
	white, err := NewSpectrum([]Sample{{400, 1}, {555, 1}, {700, 1}})
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range Observers() {
		for what, x := range map[string]XYZ{"the white": o.White(), "a full reflectance": white.XYZ(o)} {
			if got := x.Lab(o); got != (Lab{100, 0, 0}) {
				t.Errorf("%s under %s is %v", what, o, got)
			}
		}
		if got := (Spectrum{}).XYZ(o).Lab(o); !near(got, Lab{}, 1e-12) {
			t.Errorf("black under %s is %v", o, got)
		}
	}
	if got := (Lab{L: 100}).RGB(); got.Hex() != "#ffffff" || !got.Inside() {
		t.Errorf("white on a screen is %v", got)
	}
}

// Grey is grey in each condition and on the screen.
func TestGreyStaysGrey(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(0, 1).Draw(t, "reflectance")
		s, err := NewSpectrum([]Sample{{380, r}, {780, r}})
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range Observers() {
			lab := s.XYZ(o).Lab(o)
			if lab.Chroma() > 1e-10 {
				t.Fatalf("grey %g under %s is %v", r, o, lab)
			}
			if c := lab.RGB(); math.Abs(c.R-c.G) > 1e-12 || math.Abs(c.B-c.G) > 1e-12 {
				t.Fatalf("grey %g on a screen is %v", r, c)
			}
		}
	})
}

func TestRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := labs().Draw(t, "lab")
		for _, o := range Observers() {
			if back := l.xyzUnder(o.White()).Lab(o); !near(back, l, 1e-9) {
				t.Fatalf("%v by XYZ under %s is %v", l, o, back)
			}
		}
		// The standard's own gap between line and curve is 3e-8 in linear light, 1e-5 in Lab near black.
		if back := l.RGB().Lab(); !near(back, l, 1e-4) {
			t.Fatalf("%v by sRGB is %v", l, back)
		}
	})
}

func TestHexRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 0xffffff).Draw(t, "colour")
		text := fmt.Sprintf("#%06x", n)
		c, err := ParseHex(text)
		if err != nil || c.Hex() != text || !c.Inside() {
			t.Fatalf("%s became %v, %s, %v", text, c, c.Hex(), err)
		}
		if again := c.Lab().RGB().Hex(); again != text {
			t.Fatalf("%s by Lab is %s", text, again)
		}
	})
}

func TestParseHex(t *testing.T) {
	for text, want := range map[string]string{" 1F3A5F ": "#1f3a5f", "#13f": "#1133ff", "fff": "#ffffff"} {
		if c, err := ParseHex(text); err != nil || c.Hex() != want {
			t.Errorf("%q became %s, %v", text, c.Hex(), err)
		}
	}
	for _, text := range []string{"", "#", "#12", "#12345", "#1234567", "##123456", "#gggggg", "blü", "é1", "0x123456", "12 456"} {
		c, err := ParseHex(text)
		if err == nil {
			t.Errorf("%q was taken as %s", text, c.Hex())
		}
	}
}

// Colours that no screen can show, and their clipping.
func TestOutsideTheScreen(t *testing.T) {
	c := Lab{50, -80, -60}.RGB()
	if c.Inside() {
		t.Errorf("%v is inside", c)
	}
	if !c.Clip().Inside() {
		t.Errorf("%v clipped is outside", c)
	}
	if got := (RGB{math.NaN(), math.Inf(1), -3}).Hex(); got != "#00ff00" {
		t.Errorf("no numbers became %s", got)
	}
}

// The matrices are those of the primaries and the white of IEC 61966-2-1, and each other's inverse.
func TestScreenMatrices(t *testing.T) {
	primaries := [3][2]float64{{0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}}
	for i, p := range primaries {
		x, y, z := toXYZ[0][i], toXYZ[1][i], toXYZ[2][i]
		if s := x + y + z; math.Abs(x/s-p[0]) > 1e-14 || math.Abs(y/s-p[1]) > 1e-14 {
			t.Errorf("primary %d is at %v %v, want %v", i, x/s, y/s, p)
		}
	}
	x, y, z := times(toXYZ, 1, 1, 1)
	if w := screenWhite; math.Abs(x-w.X) > 1e-14 || math.Abs(y-1) > 1e-14 || math.Abs(z-w.Z) > 1e-14 {
		t.Errorf("white is %v %v %v, want %v", x, y, z, w)
	}
	for i := range 3 {
		var unit [3]float64
		unit[i] = 1
		a, b, c := times(toXYZ, unit[0], unit[1], unit[2])
		a, b, c = times(fromXYZ, a, b, c)
		if math.Abs(a-unit[0])+math.Abs(b-unit[1])+math.Abs(c-unit[2]) > 1e-14 {
			t.Errorf("unit %d came back as %v %v %v", i, a, b, c)
		}
	}
	// The rows as IEC 61966-2-1 prints them, to four decimals.
	for i, row := range [3][3]float64{{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}} {
		for j, want := range row {
			if math.Abs(toXYZ[i][j]-want) > 0.00005 {
				t.Errorf("element %d %d is %v, want %v", i, j, toXYZ[i][j], want)
			}
		}
	}
}

func TestHue(t *testing.T) {
	for _, c := range []struct{ a, b, chroma, hue float64 }{
		{0, 0, 0, 0}, {5, 0, 5, 0}, {0, 5, 5, 90}, {-5, 0, 5, 180}, {0, -5, 5, 270}, {-3, -4, 5, 233.13010235415598},
		{1, -1e-300, 1, 0},
	} {
		l := Lab{50, c.a, c.b}
		if l.Chroma() != c.chroma || math.Abs(l.Hue()-c.hue) > 1e-12 {
			t.Errorf("%v: chroma %v hue %v, want %v %v", l, l.Chroma(), l.Hue(), c.chroma, c.hue)
		}
	}
}

// A difference is 0 to itself, the same both ways, and never below 0.
func TestDifferenceProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := labs().Draw(t, "a"), labs().Draw(t, "b")
		d := Difference(a, b)
		if !(d >= 0) || d != Difference(b, a) || Difference(a, a) != 0 {
			t.Fatalf("%v to %v is %v, back %v, to itself %v", a, b, d, Difference(b, a), Difference(a, a))
		}
	})
	// In grey only L counts: at L 50 a step of 1 is 1 to the last 1e-3 (the weight S_L is 1 there).
	if d := Difference(Lab{49.5, 0, 0}, Lab{50.5, 0, 0}); math.Abs(d-1) > 1e-9 {
		t.Errorf("a step of 1 in L is %v", d)
	}
}

func TestSeen(t *testing.T) {
	for de, want := range map[float64]string{
		0: "unseen", 0.99: "unseen", 1: "on a close look", 1.99: "on a close look",
		2: "clear side by side", 3: "clear side by side", 3.01: "plain", math.Inf(1): "plain", math.NaN(): "", -1: "",
	} {
		if got := Seen(de); got != want {
			t.Errorf("%g is %q, want %q", de, got, want)
		}
	}
}

func TestParseObserver(t *testing.T) {
	for _, o := range Observers() {
		if got, err := ParseObserver(" " + o.String() + "° "); err != nil || got != o {
			t.Errorf("%s became %s, %v", o, got, err)
		}
	}
	if (Observer{}) != D65At2 {
		t.Error("the zero condition is not D65/2")
	}
	_, err := ParseObserver("F2/10")
	if want := `no viewing condition is called "F2/10": say one of D65/2, D65/10, D50/2, D50/10, A/2, A/10`; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}

func BenchmarkSpectrumToLab(b *testing.B) {
	s := spectra(b)["blue_mid_c2"]
	b.ReportAllocs()
	for b.Loop() {
		_ = s.XYZ(D65At2).Lab(D65At2)
	}
}

func BenchmarkDifference(b *testing.B) {
	x, y := Lab{31, -3, -20}, Lab{33, -2, -22}
	b.ReportAllocs()
	for b.Loop() {
		_ = Difference(x, y)
	}
}

func BenchmarkLabToRGB(b *testing.B) {
	x := Lab{31, -3, -20}
	for b.Loop() {
		_ = x.RGB()
	}
}
