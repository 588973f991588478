package colour

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParseLab(t *testing.T) {
	indigo := Lab{31, -3, -20}
	tenths := Lab{31.5, -3.2, -20.1}
	for _, c := range []struct {
		text string
		lab  Lab
		o    Observer
	}{
		{"31,-3,-20", indigo, D65At2},
		{"31 -3 -20", indigo, D65At2},
		{" 31  -3\t-20 ", indigo, D65At2},
		{"31, -3, -20", indigo, D65At2},
		{"31 ,-3 ,-20", indigo, D65At2},
		{"31; -3; -20", indigo, D65At2},
		{"lab 31 -3 -20", indigo, D65At2},
		{"LAB: 31 -3 -20", indigo, D65At2},
		{"lab(31, -3, -20)", indigo, D65At2},
		{"[31.0, -3.0, -20.0]", indigo, D65At2},
		{"31 \u22123 \u221220", indigo, D65At2},
		{"+31 -3 -20", indigo, D65At2},
		{"lab@D65/10 31 -3 -20", indigo, D65At10},
		{"lab@d50/2 31.5,-3.2,-20.1", tenths, D50At2},
		{"lab@D50/10° [31.5, -3.2, -20.1]", tenths, D50At10},
		{"lab@A/10[31.5,-3.2,-20.1]", tenths, AAt10},
		{"31,5; -3,2; -20,1", tenths, D65At2},
		{"31,5 -3,2 -20,1", tenths, D65At2},
		{"31,5 -3 -20", Lab{31.5, -3, -20}, D65At2},
		{"31,5,-3", Lab{31, 5, -3}, D65At2}, // three numbers; with decimal commas there would be two
		{"0 -0 -0.0", Lab{}, D65At2},
		{"100 160 -160", Lab{100, 160, -160}, D65At2},
	} {
		got, o, err := ParseLab(c.text)
		if err != nil || got != c.lab || o != c.o {
			t.Errorf("%q became %v under %s, %v; want %v under %s", c.text, got, o, err, c.lab, c.o)
		}
	}
}

// The sentence for what is refused.
func TestParseLabRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                     "no colour is given: write L, a and b, such as 31 -3 -20",
		"lab":                  "no colour is given: write L, a and b, such as 31 -3 -20",
		"lab@D65/10":           "no colour is given: write L, a and b, such as 31 -3 -20",
		"31 -3":                `a colour is three numbers, and "31 -3" has 2: write L, a and b, such as 31 -3 -20`,
		"31,-3":                `a colour is three numbers, and "31,-3" has 2: write L, a and b, such as 31 -3 -20`,
		"31 -3 -20 5":          `a colour is three numbers, and "31 -3 -20 5" has 4: write L, a and b, such as 31 -3 -20`,
		"31,5,-3,2,-20,1":      `the commas in "31,5,-3,2,-20,1" can be read in two ways: write 31.5 -3.2 -20.1, with points`,
		"31,5, -3, -20":        `the commas in "31,5, -3, -20" can be read in two ways: write 31.5 -3.2 -20.1, with points`,
		"31,5 -3,2":            `the commas in "31,5 -3,2" can be read in two ways: write 31.5 -3.2 -20.1, with points`,
		"31,-3 -20":            `the commas in "31,-3 -20" can be read in two ways: write 31.5 -3.2 -20.1, with points`,
		"navy":                 `a colour is three numbers, and "navy" has 1: write L, a and b, such as 31 -3 -20`,
		"31 x -20":             `"x" is not a number for a: write L, a and b, such as 31 -3 -20`,
		"31 -3 1e1":            `"1e1" is not a number for b: write L, a and b, such as 31 -3 -20`,
		"NaN 0 0":              `"NaN" is not a number for L: write L, a and b, such as 31 -3 -20`,
		"1_0 0 0":              `"1_0" is not a number for L: write L, a and b, such as 31 -3 -20`,
		"131 0 0":              "L is 131, and it goes from 0, black, to 100, white",
		"-1 0 0":               "L is -1, and it goes from 0, black, to 100, white",
		"31 -300 0":            "a is -300, and no cloth goes beyond 160",
		"31 0 161":             "b is 161, and no cloth goes beyond 160",
		"lab@C/2 31 -3 -20":    `no viewing condition is called "C/2": say one of D65/2, D65/10, D50/2, D50/10, A/2, A/10`,
		"lab@D65 31 -3 -20":    `no viewing condition is called "D65": say one of D65/2, D65/10, D50/2, D50/10, A/2, A/10`,
		"lab@ D65/2 31 -3 -20": `no viewing condition is called "": say one of D65/2, D65/10, D50/2, D50/10, A/2, A/10`,
	} {
		got, _, err := ParseLab(text)
		if err == nil {
			t.Errorf("%q was taken as %v", text, got)
			continue
		}
		var e *Error
		if !errors.As(err, &e) || err.Error() != want {
			t.Errorf("%q: %q, want %q", text, err, want)
		}
	}
}

func TestLabString(t *testing.T) {
	for l, want := range map[Lab]string{
		{31, -3, -20}:          "lab 31.0 -3.0 -20.0",
		{99.96, -0.04, 0.0001}: "lab 100.0 0.0 0.0",
	} {
		if got := l.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

const good = "wavelength_nm,reflectance\n380,0.05\n780,0.95\n"

func TestParseSpectrum(t *testing.T) {
	for name, text := range map[string]string{
		"plain":           good,
		"CRLF":            strings.ReplaceAll(good, "\n", "\r\n"),
		"byte order mark": "\ufeff" + good,
		"comments":        "# measured in March\n\n" + good + "# end",
		"spaces":          "Wavelength_nm, Reflectance\n 380 , 0.05\n780,  0.95",
		"exponent":        "wavelength_nm,reflectance\n380,5e-2\n780,9.5E-1\n",
		"quoted header":   "\"wavelength_nm\",\"reflectance\"\n380,0.05\n780,0.95\n",
	} {
		s, err := ParseSpectrum(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for nm, want := range map[float64]float64{300: 0.05, 380: 0.05, 580: 0.5, 780: 0.95, 900: 0.95} {
			if got := s.At(nm); math.Abs(got-want) > 1e-15 {
				t.Errorf("%s at %g nm: %v, want %v", name, nm, got, want)
			}
		}
	}
}

func TestParseSpectrumRefuses(t *testing.T) {
	const h = "wavelength_nm,reflectance\n"
	for text, want := range map[string]string{
		"":                               "the text is empty: begin with the line wavelength_nm,reflectance",
		"# only this\n":                  "the text is empty: begin with the line wavelength_nm,reflectance",
		"380,0.1\n780,0.2\n":             `line 1: the first line must be wavelength_nm,reflectance, this is "380,0.1"`,
		"# x\nnm;R\n":                    `line 2: the first line must be wavelength_nm,reflectance, this is "nm;R"`,
		h:                                "a spectrum needs at least two samples, this has 0",
		h + "550,0.1\n":                  "a spectrum needs at least two samples, this has 1",
		h + "380,0.1\n780\n":             `line 3: "780" is not two numbers with a comma between: write 450,0.38, with a point for decimals`,
		h + "380,0,1\n":                  `line 2: "380,0,1" is not two numbers with a comma between: write 450,0.38, with a point for decimals`,
		h + "380;0.1\n":                  `line 2: "380;0.1" is not two numbers with a comma between: write 450,0.38, with a point for decimals`,
		h + "380,ten\n":                  `line 2: "ten" is not a number: write 450,0.38`,
		h + "380,NaN\n":                  `line 2: "NaN" is not a number: write 450,0.38`,
		h + "380,18%\n":                  `line 2: "18%" is not a number: write 450,0.38`,
		h + "0.38,0.1\n":                 "line 2: 0.38 is not a wavelength of light in nm: write 380 to 780",
		h + "380,0.1\n\n# c\n380,0.2\n":  "line 5: 380 nm comes after 380 nm: put the wavelengths in rising order, each once",
		h + "780,0.1\n380,0.2\n":         "line 3: 380 nm comes after 780 nm: put the wavelengths in rising order, each once",
		h + "380,-0.1\n780,0.2\n":        "line 2: the reflectance at 380 nm is -0.1: it must be from 0 to 1",
		h + "380,0.1\n500,2.5\n780,0.2":  "line 3: the reflectance at 500 nm is 2.5, which is above 2: write it from 0 to 1, and divide percent by 100",
		h + "380,18\n500,25\n780,30\n":   "line 2: all reflectances are above 2, as in percent: divide them by 100, 18 becomes 0.18",
		h + "450,0.1\n780,0.2\n":         "the spectrum goes from 450 to 780 nm: it must reach from 400 to 700 nm, better from 380 to 780",
		h + "380,0.1\n\x1b[31m680,0.2\n": `line 3: "?[31m680" is not a number: write 450,0.38`,
	} {
		_, err := ParseSpectrum(text)
		if err == nil || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", text, err, want)
		}
	}
}

func TestNewSpectrum(t *testing.T) {
	for name, samples := range map[string][]Sample{
		"none":       nil,
		"one":        {{500, 0.5}},
		"falling":    {{500, 0.5}, {400, 0.5}},
		"same":       {{500, 0.5}, {500, 0.5}},
		"NaN":        {{500, math.NaN()}, {600, 0.5}},
		"below 0":    {{500, -0.01}, {600, 0.5}},
		"percent":    {{500, 18}, {600, 20}},
		"no length":  {{0, 0.5}, {600, 0.5}},
		"infinite":   {{500, 0.5}, {math.Inf(1), 0.5}},
		"NaN length": {{math.NaN(), 0.5}, {500, 0.5}},
	} {
		if _, err := NewSpectrum(samples); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	samples := []Sample{{400, 0.5}, {700, 2}}
	s, err := NewSpectrum(samples)
	if err != nil {
		t.Fatal(err)
	}
	samples[0].Reflectance = 0
	if s.At(400) != 0.5 || s.At(700) != 2 {
		t.Error("a spectrum changed with the slice that it was made from")
	}
	if (Spectrum{}).At(500) != 0 {
		t.Error("the zero spectrum reflects")
	}
}

func FuzzParseLab(f *testing.F) {
	for _, s := range []string{"31,-3,-20", "lab@D65/10 31 -3 -20", "[31.0, -3.0, -20.0]", "31,5; -3,2; -20,1", "lab@x (1,2,3)", "lab\u00a0\u22121"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, o, err := ParseLab(s)
		if err != nil {
			sentence(t, err)
			return
		}
		again, _, err := ParseLab("lab@" + o.String() + l.String()[len("lab"):])
		if err != nil || !near(again, l, 0.0500001) {
			t.Fatalf("%q became %v, and that %v, %v", s, l, again, err)
		}
	})
}

func FuzzParseSpectrum(f *testing.F) {
	f.Add(good)
	f.Add("# c\r\n" + good)
	f.Add("wavelength_nm,reflectance\n380,18\n780,2.1\n")
	f.Fuzz(func(t *testing.T, s string) {
		spectrum, err := ParseSpectrum(s)
		if err != nil {
			sentence(t, err)
			return
		}
		if again, err := NewSpectrum(spectrum.samples); err != nil || again.At(555) != spectrum.At(555) {
			t.Fatalf("%q: %v", s, err)
		}
		for _, o := range Observers() {
			if l := spectrum.XYZ(o).Lab(o); !(l.L > -1e-9 && l.L < 140) {
				t.Fatalf("%q is %v", s, l)
			}
		}
	})
}

// sentence checks that an error is one line that a terminal can show.
func sentence(t *testing.T, err error) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) || e.Reason == "" || strings.ContainsAny(err.Error(), "\n\r\x1b\x00") || len(err.Error()) > 400 {
		t.Fatalf("not a sentence: %q", err)
	}
}
