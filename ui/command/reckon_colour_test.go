package command

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestColourKeys(t *testing.T) {
	const colour = "{ks number, ks_660 number, lab [number], off_de00 number, srgb text}"
	ramp := write(t, "ramp.csv", "wavelength_nm,reflectance\n380,0.05\n780,0.95\n")
	for _, c := range []struct{ line, want string }{
		{"reckon colour --ks 9", colour},
		{"reckon colour --ks 0 --ground natural+silk", colour},
		{"reckon colour --lab 31,-3,-20 --ground greige", colour},
		{"reckon colour --spectrum " + ramp, colour},
		{"reckon difference --lab 50,0,0 --lab 51,0,0", "{de00 number, words text}"},
	} {
		m := answer(t, c.line)
		if got := form(m); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.line, got, c.want)
		}
		if lab, ok := m["lab"].([]any); ok && len(lab) != 3 {
			t.Errorf("%s: %v", c.line, lab)
		}
	}
}

// ciede2000_pairs.csv: Sharma, Wu & Dalal 2005, Table 1.
func TestPublishedDifferences(t *testing.T) {
	pairs := reference(t, "ciede2000_pairs.csv")
	if len(pairs) != 34 {
		t.Errorf("%d pairs", len(pairs))
	}
	for _, r := range pairs {
		one, two := "--lab "+r["L1"]+","+r["a1"]+","+r["b1"], "--lab "+r["L2"]+","+r["a2"]+","+r["b2"]
		near(t, "reckon difference "+one+" "+two, figure(t, r["dE00_pub"]), 0.0001, "de00")
		near(t, "reckon difference "+two+" "+one, figure(t, r["dE00_pub"]), 0.0001, "de00")
	}
	for line, words := range map[string]string{
		"--lab 50,0,0 --lab 50,0,0":                           "unseen",
		"--lab 50,0,0 --lab 60,0,0":                           "plain",
		"--lab lab@A/10+50+0+0 --lab lab@A/10+50+0+0":         "unseen",
		"--lab lab@D65/2+50+0+0 --lab 50+0+0":                 "unseen",
		"--lab 50.0000,2.5000,0.0000 --lab 50,0.0000,-2.5000": "plain",
	} {
		if m := answer(t, "reckon difference "+line); m["words"] != words {
			t.Errorf("%s: %v, want %s", line, m, words)
		}
	}
}

// spectrum_to_lab.csv: the curves of spectra_10nm.csv by two other programs.
func TestPublishedSpectra(t *testing.T) {
	curves := reference(t, "spectra_10nm.csv")
	for _, r := range reference(t, "spectrum_to_lab.csv") {
		csv, red := "# "+r["method"]+"\nwavelength_nm,reflectance\n", 0.0
		for _, c := range curves {
			csv += c["wavelength_nm"] + "," + c[r["spectrum"]] + "\n"
			if c["wavelength_nm"] == "660" {
				red = figure(t, c[r["spectrum"]])
			}
		}
		m := answer(t, "reckon colour --spectrum "+write(t, r["spectrum"]+".csv", csv))
		for i, key := range []string{"L", "a", "b"} {
			if got, want := m["lab"].([]any)[i].(float64), figure(t, r[key]); math.Abs(got-want) > 0.1 {
				t.Errorf("%s by %s: %s is %v, want %v", r["spectrum"], r["method"], key, got, want)
			}
		}
		if got, want := of(t, m, "ks_660"), (1-red)*(1-red)/(2*red); math.Abs(got-want) > 1e-4 {
			t.Errorf("%s: K/S at 660 nm is %v, want %v", r["spectrum"], got, want)
		}
		if r["sR"] != "" && m["srgb"] != fmt.Sprintf("#%02x%02x%02x", byteOf(t, r["sR"]), byteOf(t, r["sG"]), byteOf(t, r["sB"])) {
			t.Errorf("%s by %s: %v", r["spectrum"], r["method"], m["srgb"])
		}
	}
}

func byteOf(t *testing.T, s string) int { t.Helper(); return int(math.Round(figure(t, s))) }

// The colour of a depth has that depth again, on every ground; what is no indigo lies far off.
func TestColourAndDepthUndoEachOther(t *testing.T) {
	for _, on := range []string{"white", "greige", "natural+wool", "natural+silk"} {
		falls(t, on+": more dye is never lighter", true, ofLab(t, "reckon colour --ground "+on+" --ks %s", 0, "0", "0.5", "2", "9", "20", "40", "100"))
		rises(t, on+": an instrument reads more", true, along(t, "reckon colour --ground "+on+" --ks %s", "ks_660", "0", "0.5", "2", "9", "20", "40", "100"))
		for _, ks := range []float64{0.5, 2, 9, 20, 40} {
			m := answer(t, fmt.Sprintf("reckon colour --ground %s --ks %g", on, ks))
			l := m["lab"].([]any)
			back := answer(t, fmt.Sprintf("reckon colour --ground %s --lab %g,%g,%g", on, l[0], l[1], l[2]))
			if got := of(t, back, "ks"); math.Abs(got/ks-1) > 0.02 || of(t, back, "off_de00") > 0.05 || back["srgb"] != m["srgb"] {
				t.Errorf("%s at K/S %g: back at %v", on, ks, back)
			}
		}
	}
	if off := of(t, answer(t, "reckon colour --lab 60,50,30"), "off_de00"); off < 20 {
		t.Errorf("a red is only %v off", off)
	}
	near(t, "reckon colour --ks 9", 0, 0, "off_de00")
	near(t, "reckon colour --ks 9", 9, 0, "ks")
	// The same figures under another light are another blue.
	if a, b := answer(t, "reckon colour --lab 31,-3,-20"), answer(t, "reckon colour --lab lab@A/10+31+-3+-20"); of(t, a, "ks") == of(t, b, "ks") {
		t.Errorf("%v and %v", a, b)
	}
}

// ofLab is one of the three figures of a colour along a list.
func ofLab(t *testing.T, line string, i int, values ...string) (out []float64) {
	t.Helper()
	for _, v := range values {
		out = append(out, answer(t, fmt.Sprintf(line, v))["lab"].([]any)[i].(float64))
	}
	return out
}

func TestColourRefusals(t *testing.T) {
	spectrum := func(body string) string { return write(t, "strip.csv", body) }
	percent := spectrum("wavelength_nm,reflectance\n380,12\n780,40\n")
	short := spectrum("wavelength_nm,reflectance\n450,0.1\n780,0.4\n")
	head := spectrum("nm;R\n380,0.1\n")
	word := spectrum("# a strip\nwavelength_nm,reflectance\n\n380,0.1\n390,pale\n")
	falling := spectrum("wavelength_nm,reflectance\n380,0.1\n370,0.1\n780,0.4\n")
	empty := spectrum("")
	black := spectrum("wavelength_nm,reflectance\n380,0\n780,0\n")
	folder := t.TempDir()
	const number = "; a K/S is needed, such as 9"
	const lab = ": write L, a and b, such as 31 -3 -20"
	for _, c := range []refusal{
		{2, "reckon colour", "reckon colour needs --ks, --spectrum or --lab"},
		{2, "reckon colour --ks 9 --lab 31,-3,-20", "give one of --ks, --spectrum and --lab, not --ks and --lab"},
		{2, "reckon colour --ks 9 --spectrum x --lab 31,-3,-20", "give one of --ks, --spectrum and --lab, not --ks and --spectrum and --lab"},
		{2, "reckon colour --ks none", "--ks is given with nothing in it"},
		{2, "reckon colour --lab none", "--lab is given with nothing in it"},
		{2, "reckon colour --spectrum none", "--spectrum is given with nothing in it"},
		{2, "reckon colour --ks 9 --ground none", "--ground is given with nothing in it"},
		{2, "reckon colour 9", `unknown command "9" for "vatside reckon colour"`},
		{1, "reckon colour --ks x", "--ks: x is not a number" + number},
		{1, "reckon colour --ks NaN", "--ks: NaN is not a number" + number},
		{1, "reckon colour --ks -1", "--ks: a K/S goes from 0, undyed, to 500, not -1"},
		{1, "reckon colour --ks 501", "--ks: a K/S goes from 0, undyed, to 500, not 501"},
		{1, "reckon colour --ks 9 --ground denim", `--ground: no undyed cloth is called "denim": say one of white, greige, natural wool, natural silk`},
		{1, "reckon colour --lab 31,-3", `--lab: a colour is three numbers, and "31,-3" has 2` + lab},
		{1, "reckon colour --lab 131,-3,-20", "--lab: L is 131, and it goes from 0, black, to 100, white"},
		{1, "reckon colour --spectrum nowhere.csv", "there is no file nowhere.csv"},
		{1, "reckon colour --spectrum " + folder, folder + " is a folder: name a file in it"},
		{1, "reckon colour --spectrum " + percent, percent + ":2: all reflectances are above 2, as in percent: divide them by 100, 12 becomes 0.12"},
		{1, "reckon colour --spectrum " + short, short + ": the spectrum goes from 450 to 780 nm: it must reach from 400 to 700 nm, better from 380 to 780"},
		{1, "reckon colour --spectrum " + head, head + `:1: the first line must be wavelength_nm,reflectance, this is "nm;R"`},
		{1, "reckon colour --spectrum " + word, word + `:5: "pale" is not a number: write 450,0.38`},
		{1, "reckon colour --spectrum " + empty, empty + ": the text is empty: begin with the line wavelength_nm,reflectance"},
		{1, "reckon colour --spectrum " + black, black + ": at 660 nm it reflects nothing, of which no K/S can be made; the least that cloth reflects is about 0.005"},
		{2, "reckon difference", "reckon difference needs --lab, twice"},
		{2, "reckon difference --lab 50,0,0", "reckon difference compares two colours: give --lab twice; it was given once"},
		{2, "reckon difference --lab 50,0,0 --lab 50,0,0 --lab 50,0,0", "reckon difference compares two colours: give --lab twice; it was given 3 times"},
		{2, "reckon difference --lab 50,0,0 --lab none", "--lab is given with nothing in it"},
		{1, "reckon difference --lab 50,0,0 --lab 50,0,x", `--lab: "x" is not a number for b` + lab},
		{1, "reckon difference --lab 50,0,0 --lab lab@D65/10+50+0+0",
			"one colour is of D65/2 and the other of D65/10, and they cannot be compared: measure both under one light and observer"},
		{1, "reckon difference --lab lab@F2/2+50+0+0 --lab 50,0,0", `--lab: no viewing condition is called "F2/2": say one of D65/2, D65/10, D50/2, D50/10, A/2, A/10`},
	} {
		c.check(t)
	}
	if _, errs, code := runAt(t, thursday, "reckon", "colour", "--spectrum", falling); code != 1 || !strings.HasPrefix(errs, "vatside: "+falling+":3: ") {
		t.Errorf("%d %s", code, errs)
	}
}

// refusal is a line, its code and its one sentence.
type refusal struct {
	code       int
	line, says string
}

// check holds it with and without --json.
func (c refusal) check(t *testing.T) {
	t.Helper()
	for _, line := range []string{c.line, c.line + " --json"} {
		want := "vatside: " + c.says
		if c.code == 2 {
			want += seeHelp(words(line)...)
		}
		out, errs, code := runAt(t, thursday, words(line)...)
		if code != c.code || errs != want+"\n" || out != "" {
			t.Errorf("%s: %d %q\n got %swant %s", line, code, out, errs, want)
		}
	}
}
