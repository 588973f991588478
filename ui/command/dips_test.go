package command

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"
)

const (
	soda60 = "dips --recipe soda --fill 60L "
	linen  = soda60 + "--piece 420+g+linen "
	cotton = soda60 + "--piece 420+g+cotton "
	one    = "--swatch 1x5min+cotton+=+lab+70,-5,-14 "
	two    = "--swatch 2x5min+cotton+=+lab+57,-5,-19 "
	five   = "--swatch 5x5min+cotton+=+lab+39,-4,-22 "
)

const (
	dipsForm = "{claim text, dips {chance number, chance_within_one number, high number, likely number, low number, words text}, " +
		"forecast [{depth text, dips number, ks number, ks_high number, ks_low number, lab [number], srgb text}], " + nextForm + ", warnings [text]}"
	nextForm = "next_swatch {dips number, leaves number, rungs [number], takes_min number, words text}" // or null
)

// The contract: keys and types, 16 dips of forecast, low ≤ likely ≤ high from 1 to 30, a chance from 0 to 1.
func TestDipsKeys(t *testing.T) {
	for _, line := range []string{
		linen + "--depth dark", linen + "--depth Navy --dip 12min --temp 20C --ph 10,2", cotton + "--depth lab:31,-3,-20 --mercerised " + one,
		cotton + "--depth lab@D50/10:31,-3,-20", cotton + "--depth ks:9 --ground greige", cotton + "--depth ks:500", cotton + "--depth ks:0",
		cotton + "--depth rung:5 --swatch 3x5min+cotton+rung+3+=+#33557a",
		"dips --recipe sugar-lime --fill 20L --piece 90+g+wool --depth pale", "dips --recipe lye --fill 5gal --units us --piece 4+oz+silk --depth mid",
	} {
		m := answer(t, line)
		if got := form(m); got != dipsForm && got != strings.Replace(dipsForm, nextForm, "next_swatch null", 1) {
			t.Errorf("%s:\n got %s\nwant %s", line, got, dipsForm)
		}
		low, likely, high, chance := of(t, m, "dips", "low"), of(t, m, "dips", "likely"), of(t, m, "dips", "high"), of(t, m, "dips", "chance")
		if low < 1 || low > likely || likely > high || high > 30 || chance < 0 || chance > 1 {
			t.Errorf("%s: %v", line, m["dips"])
		}
		steps := m["forecast"].([]any)
		for i, s := range steps {
			s := s.(map[string]any)
			if of(t, s, "dips") != float64(i+1) || of(t, s, "ks_low") > of(t, s, "ks") || of(t, s, "ks") > of(t, s, "ks_high") || len(s["lab"].([]any)) != 3 || len(s["srgb"].(string)) != 7 {
				t.Errorf("%s: %v", line, s)
			}
		}
		if len(steps) != 16 {
			t.Errorf("%s: %d dips", line, len(steps))
		}
	}
}

// Tight cloth is in longer at its first dip, 14 min of 8: that dip gives what one of 14 min gives, those after it what they give loose
// cloth and more, and as many or fewer reach the wish. The answer names both times.
func TestTightClothsFirstDip(t *testing.T) {
	for _, goods := range []string{linen, soda60 + "--piece 3+kg+linen ", cotton + five} {
		line := goods + "--dip 8min --depth dark"
		loose, tight, long := steps(t, line, "ks"), steps(t, line+" --tight", "ks"), steps(t, goods+"--dip 14min --depth dark", "ks")
		if tight[0] != long[0] || !(tight[0] > loose[0]) || len(tight) != len(loose) {
			t.Errorf("%s: the first dip gives %v, of loose cloth %v, one of 14 min %v", goods, tight[0], loose[0], long[0])
		}
		for i := range tight {
			if tight[i] < 0.99*loose[i] {
				t.Errorf("%s: after %d dips %v, of loose cloth %v", goods, i+1, tight[i], loose[i])
			}
		}
		m := answer(t, line+" --tight")
		if of(t, m, "first_dip_min") != 14 || of(t, m, "dips", "likely") > of(t, answer(t, line), "dips", "likely") {
			t.Errorf("%s: %v", goods, m["dips"])
		}
	}
	if out, _, _ := runAt(t, thursday, words(linen+"--depth dark --dip 8min --tight")...); !strings.Contains(out, "14 min the first dip and 8 min each other") {
		t.Errorf("%s", out)
	}
}

func steps(t *testing.T, line, key string) (out []float64) {
	t.Helper()
	said, is := stepsSaid.Load(line)
	if !is { // a line is asked for one key after the other
		said = answer(t, line)["forecast"]
		stepsSaid.Store(line, said)
	}
	for _, s := range said.([]any) {
		if key == "L" {
			out = append(out, s.(map[string]any)["lab"].([]any)[0].(float64))
			continue
		}
		out = append(out, of(t, s.(map[string]any), key))
	}
	return out
}

// stepsSaid are the forecasts of the lines that steps was asked for.
var stepsSaid sync.Map

func TestDipsGoOneWay(t *testing.T) {
	for _, line := range []string{linen + "--depth dark", cotton + "--depth dark " + one + two + five, soda60 + "--piece 3+kg+linen --depth navy",
		"dips --recipe madder-bran --fill 40L --piece 200+g+wool --depth mid"} {
		for _, key := range []string{"ks", "ks_low", "ks_high"} {
			rises(t, line+": more dips are never paler", false, steps(t, line, key))
		}
		falls(t, line+": more dips are never lighter", false, steps(t, line, "L"))
	}
	dips, fibre := map[string][]float64{}, map[string][]float64{}
	ask := func(to map[string][]float64, line string) {
		said := answer(t, line)
		for _, key := range []string{"likely", "low", "high"} {
			to[key] = append(to[key], of(t, said, "dips", key))
		}
	}
	for _, depth := range []string{"milk", "pale", "sky", "mid", "dark", "navy", "blue-black"} {
		ask(dips, linen+"--dip 5min --depth "+depth)
	}
	for _, piece := range []string{"50+g", "400+g", "2+kg", "10+kg"} {
		ask(fibre, soda60+"--depth dark --piece "+piece+"+linen")
	}
	for key := range dips {
		rises(t, "a darker wish takes more dips: "+key, false, dips[key])
		rises(t, "more goods take more dips: "+key, false, fibre[key])
	}
	rises(t, "a longer dip is never paler", false, []float64{
		steps(t, cotton+"--depth dark --dip 1min", "ks")[4], steps(t, cotton+"--depth dark --dip 5min", "ks")[4], steps(t, cotton+"--depth dark --dip 15min", "ks")[4]})
	rises(t, "darker swatches make a darker forecast", true, []float64{
		steps(t, cotton+"--depth dark --swatch 2x5min+cotton+=+ks+1", "ks")[4], steps(t, cotton+"--depth dark --swatch 2x5min+cotton+=+ks+3", "ks")[4]})
}

// A swatch narrows the range; three of the piece's own cloth make it calibrated, and then a depth goes by its name.
func TestSwatchesNarrowTheRange(t *testing.T) {
	var wide []float64
	for _, swatches := range []string{"", one, one + two, one + two + five} {
		line := cotton + "--depth dark " + swatches
		wide = append(wide, steps(t, line, "ks_high")[4]/steps(t, line, "ks_low")[4])
	}
	falls(t, "swatches narrow the range after 5 dips", true, slices.Clone(wide))
	if wide[0] < 8 || wide[3] > 2.2 {
		t.Errorf("%v times wide", wide)
	}
	none, three := answer(t, cotton+"--depth dark"), answer(t, cotton+"--depth dark "+one+two+five)
	if none["claim"] != "guess" || three["claim"] != "calibrated" {
		t.Errorf("%v, then %v", none["claim"], three["claim"])
	}
	if w := fmt.Sprint(three["warnings"]); strings.Contains(w, "confirmed") || strings.Contains(w, "not known") {
		t.Errorf("the dips of a swatch are as they were said: %s", w)
	}
	guessed, named := none["forecast"].([]any)[4].(map[string]any)["depth"], three["forecast"].([]any)[4].(map[string]any)["depth"]
	if guessed != "pale to dark" || named != "mid" {
		t.Errorf("after 5 dips %v, then %v", guessed, named)
	}
	if of(t, three, "dips", "high")-of(t, three, "dips", "low") >= of(t, none, "dips", "high")-of(t, none, "dips", "low") ||
		of(t, three, "dips", "chance") <= of(t, none, "dips", "chance") {
		t.Errorf("%v, then %v", none["dips"], three["dips"])
	}
	// Cotton says less of wool than of cotton, and that is told.
	wool := answer(t, soda60+"--piece 420+g+wool --depth dark "+one+two+five)
	if w := fmt.Sprint(wool["warnings"]); wool["claim"] != "guess" || !strings.Contains(w, "other cloth was seen, and it says less of wool") {
		t.Errorf("%v: %s", wool["claim"], w)
	}
}

// The ways of writing a swatch that mean the same, and those that do not.
func TestSwatchGrammar(t *testing.T) {
	depth := func(swatch string) float64 {
		return steps(t, cotton+"--depth dark --swatch "+strings.ReplaceAll(swatch, " ", "+"), "ks")[4]
	}
	same := depth("3x5min cotton = lab 55,-5,-20")
	for _, s := range []string{
		"3 x 5 min cotton=lab 55 -5 -20", "3×5min cotton = lab [55, -5, -20]", "3x300s Cotton, white, dry, rinsed, today = LAB 55;-5;-20",
		"3x5min, cotton = lab@D65/2 55 -5 -20", "3x5min white cotton = lab: 55,-5,-20", "3x5min 0 days ago cotton = lab 55,-5,-20", "3x5min cotton rung 3 = lab 55,-5,-20",
	} {
		if got := depth(s); got != same {
			t.Errorf("%s gives %v, want %v", s, got, same)
		}
	}
	for _, s := range []string{
		"4x5min cotton = lab 55,-5,-20", "3x6min cotton = lab 55,-5,-20", "3x5min linen = lab 55,-5,-20", "3x5min cotton wet = lab 55,-5,-20",
		"3x5min cotton unrinsed = lab 55,-5,-20", "3x5min cotton 2 days ago = lab 55,-5,-20", "3x5min cotton greige = lab 55,-5,-20",
		"3x5min cotton mercerised = lab 55,-5,-20", "3x5min cotton = lab@D65/10 55 -5 -20", "3x5min cotton = #33557a", "3x5min cotton = ks 6",
		"3x5min cotton = mid", "3x5min cotton = rung 2", "5min cotton = lab 55,-5,-20", "3x5min natural silk = lab 55,-5,-20",
	} {
		if got := depth(s); got == same {
			t.Errorf("%s tells the same as a plain swatch: %v", s, got)
		}
	}
	if wet, dry := depth("3x5min cotton wet = lab 55,-5,-20"), same; wet >= dry {
		t.Errorf("wet cloth reads too dark, and gives %v, not below %v", wet, dry)
	}
	if a, b := depth("3x5min cotton, wet, unrinsed = mid"), depth("3x5min unrinsed cotton wet = mid"); a != b {
		t.Errorf("the order of options matters: %v and %v", a, b)
	}
}

// A rung that a meter read is wished for as it was read, another one by the ladder of the swatches.
func TestDipsToARung(t *testing.T) {
	ladder := "--swatch 3x5min+cotton+rung+3+=+lab+55,-5,-20 "
	read, wished := answer(t, cotton+"--depth rung:3 "+ladder), answer(t, cotton+"--depth lab:55,-5,-20 "+ladder)
	if fmt.Sprint(read) != fmt.Sprint(wished) {
		t.Errorf("\n%v\n%v", read, wished)
	}
	var likely []float64
	for n := range 8 {
		likely = append(likely, of(t, answer(t, fmt.Sprintf("%s--dip 5min --depth rung:%d %s", cotton, n+1, ladder)), "dips", "likely"))
	}
	rises(t, "a higher rung takes more dips", true, likely)
	for i, n := range likely {
		if n < float64(i) || n > float64(i+2) {
			t.Errorf("rung %d of the same cloth and dip takes %v dips", i+1, n)
		}
	}
}

// Outside the recipe it is answered, with a line each; a wish that indigo cannot give is told too.
func TestDipsOutsideTheRecipe(t *testing.T) {
	inside := len(answer(t, linen+"--depth dark")["warnings"].([]any))
	for line, says := range map[string]string{
		"--temp 45C": "45 °C is above the recipe's 30 °C to 40 °C", "--temp 12C": "12 °C is below the recipe's 30 °C to 40 °C",
		"--temp 0C": "0 °C is below the recipe's", "--ph 0": "pH 0.0 is below the recipe's",
		"--ph 9": "pH 9.0 is below the recipe's 10.0 to 11.5", "--ph 12.5": "pH 12.5 is above the recipe's 10.0 to 11.5",
		"--piece 3+kg+linen": "20 L a kilogram", "--piece 420+g+wool": "the recipe is not for wool", "--dip 45min": "little is gained after 30 min in one dip",
		"--piece 6+kg+linen":   "54 g of indigo is left, less than the 1 %",
		"--depth lab:60,30,30": "indigo alone on white cloth comes no nearer",
	} {
		m := answer(t, linen+"--depth dark "+line)
		w := m["warnings"].([]any)
		if !strings.Contains(fmt.Sprint(w), says) || len(w) <= inside {
			t.Errorf("%s: %v", line, w)
		}
		if steps := m["forecast"].([]any); len(steps) != 16 {
			t.Errorf("%s: %d dips", line, len(steps))
		}
	}
	plain := answer(t, cotton+"--depth lab:55,-5,-20")
	for _, other := range []string{"--mercerised", "--ground greige", "--temp 50C", "--ph 9", "--dip 2min", "--depth lab@D65/10:55,-5,-20"} {
		if m := answer(t, cotton+"--depth lab:55,-5,-20 "+other); fmt.Sprint(m["forecast"], m["dips"]) == fmt.Sprint(plain["forecast"], plain["dips"]) {
			t.Errorf("%s changes nothing", other)
		}
	}
	// What is left out is the recipe's and the depth's own.
	a, b := answer(t, linen+"--depth dark"), answer(t, linen+"--depth dark --temp 35C --dip 8min --ground white")
	if fmt.Sprint(a) != fmt.Sprint(b) {
		t.Errorf("\n%v\n%v", a, b)
	}
}

func TestDipsText(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{linen + "--depth dark", "420 g of linen for dark, 8 min a dip, at 35 °C and pH 11.1:\n      dips  likely 8, 2 to "},
		{linen + "--depth dark", " eight times in ten (guess)\n"},
		{cotton + "--depth dark " + one + two + five, "eight times in ten (calibrated)\n"},
		{linen + "--depth dark", "twentyfold"},
		{cotton + "--depth ks:40", "likely 30 or more, from "},
		{linen + "--depth dark --temp 45C", "Note: 45 °C is above the recipe's 30 °C to 40 °C.\n"},
		{cotton + "--depth ks:500", " 30 or more, eight times in ten (guess)\n"},
		{"dips --recipe soda --fill 15gal --units us --piece 1+lb+cotton --depth mid", "1 lb of cotton for mid, 5 min a dip, at 95 °F and pH 11.1:"},
		{"reckon colour --ks 9", "           9.0  K/S of the dye on white cloth: mid\n"},
		{"reckon colour --lab 60,30,30 --ground greige", "off what indigo gives on such cloth, by CIEDE2000: plain\n"},
		{"reckon difference --lab 50,2.6772,-79.7751 --lab 50,0,-82.7485", "2.0 by CIEDE2000: clear side by side.\n"},
	} {
		out, errs, code := runAt(t, thursday, words(c.line)...)
		again, _, _ := runAt(t, thursday, words(c.line)...)
		if code != 0 || errs != "" || !strings.Contains(out, c.want) || strings.Contains(out, "%!") || strings.Contains(out, "\x1b") {
			t.Errorf("%s: %d %q, want %q in\n%s", c.line, code, errs, c.want, out)
		}
		if out != again {
			t.Errorf("%s: another answer the second time", c.line)
		}
		for line := range strings.Lines(out) {
			if n := utf8.RuneCountInString(line); n > 110 || strings.HasSuffix(line, "..\n") || strings.HasSuffix(line, " \n") {
				t.Errorf("%s: a line of %d columns: %q", c.line, n, line)
			}
		}
	}
	a, _, _ := runAt(t, thursday, words(cotton+"--depth dark --json "+one+two)...)
	b, _, _ := runAt(t, thursday, words(cotton+"--depth dark --json "+one+two)...)
	if a != b || a == "" {
		t.Error("another JSON the second time")
	}
}

func TestDipsRefusals(t *testing.T) {
	const (
		write  = "; write '3x5min cotton, wet = lab 55,-5,-20'"
		names  = "say one of milk, pale, sky, mid, dark, navy, blue-black"
		needs  = "; a K/S is needed, such as 9"
		fibres = "not a fibre known here; known are cotton, linen, hemp, ramie, jute, viscose, silk and wool"
		behind = " stands behind the = sign; options stand before it, such as '3x5min cotton, wet = lab 55,-5,-20'"
		ladder = "give at least one of its rungs, such as --swatch '3x5min cotton, rung 3 = lab 55,-5,-20'"
	)
	dark := linen + "--depth dark "
	for _, c := range []refusal{
		{2, "dips", "dips needs --recipe, --fill, --piece, --depth"},
		{2, "dips --recipe soda --fill 60L --depth dark", "dips needs --piece"},
		{2, linen, "dips needs --depth"},
		{2, linen + "--depth none", "--depth is given with nothing in it"},
		{2, dark + "--swatch none", "--swatch is given with nothing in it"},
		{2, dark + "--temp none", "--temp is given with nothing in it"},
		{2, dark + "--ground none", "--ground is given with nothing in it"},
		{2, dark + "more", `unknown command "more" for "vatside dips"`},
		{1, "dips --recipe x --fill 60L --piece 420+g+linen --depth dark", `no recipe is called "x"; there are soda, lye, sugar-lime, iron-lime, thiourea, madder-bran, mild-soda`},
		{1, "dips --recipe soda --fill 0L --piece 420+g+linen --depth dark", "a fill of 0 L is no vat: it must be above zero"},
		{1, "dips --recipe soda --fill 60 --piece 420+g+linen --depth dark", "--fill: 60 has no unit; a volume is needed, such as 60 L"},
		{1, "dips --recipe soda --fill 1e9L --piece 420+g+linen --depth dark", "--fill: 1e9L is more than is reckoned here; 10000 L at most"},
		{1, soda60 + "--piece linen --depth dark", "--piece: linen: write the dry weight and the fibre, such as '600 g cotton'"},
		{1, soda60 + "--piece 420+g+nylon --depth dark", "--piece: nylon is " + fibres},
		{1, soda60 + "--piece 0+g+linen --depth dark", "--piece: 0 g linen weighs nothing; write its dry weight, such as '420 g linen'"},
		{1, soda60 + "--piece -1+g+linen --depth dark", "--piece: -1 g is negative; a mass is never below zero"},
		{1, dark + "--temp 150C", "--temp: 150 °C is outside what liquor can be; it goes from 0 °C to 100 °C"},
		{1, dark + "--ph 15", "--ph: a vat has no pH of 15; it goes from 0 to 14"},
		{1, dark + "--dip 0min", "--dip: 0 s is no dip; it takes 1 s or more"},
		{1, dark + "--dip 25h", "--dip: 25 h is more than is reckoned here; 24 h at most"},
		{1, dark + "--dip 5", "--dip: 5 has no unit; a time is needed, such as 30 min"},
		{1, dark + "--ground denim", `--ground: no undyed cloth is called "denim": say one of white, greige, natural wool, natural silk`},
		{1, dark + "--mercerised", "--mercerised: only cotton is mercerised, and the piece is linen"},
		{1, dark + "--units feet", `--units is metric, us or imperial, not "feet"`},
		// wishes
		{1, linen + "--depth darkish", `--depth: no depth is called "darkish": ` + names + "; or rung:5, lab:31,-3,-20, ks:9"},
		{1, linen + "--depth rung:5", "--depth: rung 5 needs your ladder; " + ladder},
		{1, linen + "--depth rung:5 --swatch 3x5min+cotton+=+dark", "--depth: rung 5 needs your ladder; " + ladder},
		{1, linen + "--depth rung:0", "--depth: a rung has a number from 1 to 30, such as rung:5"},
		{1, linen + "--depth rung", "--depth: a rung has a number from 1 to 30, such as rung:5"},
		{1, linen + "--depth rung:31", "--depth: a rung has a number from 1 to 30, such as rung:5"},
		{1, linen + "--depth ks:", "--depth: the K/S is missing; write a number from 0 to 500, such as 9"},
		{1, linen + "--depth ks:x", "--depth: x is not a number" + needs},
		{1, linen + "--depth ks:501", "--depth: a K/S goes from 0, undyed, to 500, not 501"},
		{1, linen + "--depth lab:31,-3", `--depth: a colour is three numbers, and "31,-3" has 2: write L, a and b, such as 31 -3 -20`},
		{1, linen + "--depth lab@E/2:31,-3,-20", `--depth: no viewing condition is called "E/2": say one of D65/2, D65/10, D50/2, D50/10, A/2, A/10`},
	} {
		c.check(t)
	}
	for swatch, says := range map[string]string{
		"3x5min cotton":                     "there is no = sign between what was done and what it looks like" + write,
		"= dark":                            "nothing is said of its dips" + write,
		"cotton = dark":                     `"cotton" does not begin with the time of a dip` + write,
		"3x5 cotton = dark":                 `"5 cotton" does not begin with the time of a dip` + write,
		"0x5min cotton = dark":              "0 is no number of dips; a swatch has 1 to 60",
		"61x5min cotton = dark":             "61 is no number of dips; a swatch has 1 to 60",
		"ax5min cotton = dark":              "a is no number of dips; a swatch has 1 to 60",
		"3x0min cotton = dark":              "0 s is no dip; it takes 1 s or more",
		"3x25h cotton = dark":               "25 h is more than is reckoned here; 24 h at most",
		"3x5min = dark":                     "the fibre is missing" + write,
		"3x5min greige = dark":              "the fibre is missing" + write,
		"3x5min nylon = dark":               `"nylon" is no fibre and no option of a swatch; options are wet, unrinsed, mercerised, 2 days ago, rung 3 and a ground`,
		"3x5min cotton damp = dark":         `"damp" is no fibre and no option of a swatch; options are wet, unrinsed, mercerised, 2 days ago, rung 3 and a ground`,
		"3x5min cotton linen = dark":        "a swatch is of one fibre, and this names cotton and linen",
		"3x5min linen mercerised = dark":    "only cotton is mercerised, and this is linen",
		"3x5min cotton rung = dark":         "a rung has a number from 1 to 30, such as rung 3",
		"3x5min cotton rung 0 = dark":       "a rung has a number from 1 to 30, such as rung 3",
		"3x5min cotton x days ago = dark":   "x is no number of days; write it so: 2 days ago",
		"3x5min cotton -2 days ago = dark":  "-2 is no number of days; write it so: 2 days ago",
		"3x5min cotton rung 3 = rung 2":     "rung 3 of the ladder cannot look like a rung; say its colour, such as = lab 55,-5,-20",
		"3x5min cotton =":                   "nothing is said of what it looks like" + write,
		"3x5min cotton = ks 0":              "K/S is a number above 0 and up to 500, such as ks 9, not \"0\"",
		"3x5min cotton = lab 55,-5,-20 wet": `"wet"` + behind,
		"3x5min cotton = dark 2 days ago":   `"ago"` + behind,
		"3x5min cotton = lab 55,-5":         `a colour is three numbers, and "55,-5" has 2: write L, a and b, such as 31 -3 -20`,
	} {
		refusal{1, dark + "--swatch " + strings.ReplaceAll(swatch, " ", "+"), fmt.Sprintf("--swatch %q: %s", swatch, says)}.check(t)
	}
	// Of a look that the book's own reader refuses, one sentence that begins with the swatch.
	for _, look := range []string{"darkish", "#12345", "rung 0", "rung x", "ks -1", "ks x", "lab@E/2 1 2 3"} {
		swatch := "3x5min cotton = " + look
		out, errs, code := runAt(t, thursday, append(words(dark), "--swatch", swatch)...)
		if code != 1 || out != "" || !strings.HasPrefix(errs, fmt.Sprintf("vatside: --swatch %q: ", swatch)) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%s: %d %q %q", swatch, code, out, errs)
		}
	}
}
