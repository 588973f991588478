package command

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/book"
	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
)

// likeJSON is the answer of like, and what it told on stderr.
func likeJSON(t *testing.T, home string, args ...string) (pieces []map[string]any, today map[string]any, errs string) {
	t.Helper()
	out, errs, code := run(t, home, append([]string{"like", "--json"}, args...)...)
	var m struct {
		Pieces []map[string]any
		Today  map[string]any
	}
	if err := json.Unmarshal([]byte(out), &m); err != nil || code != 0 {
		t.Fatalf("%v: %v %d %s", args, err, code, errs)
	}
	return m.Pieces, m.Today, errs
}

func tags(pieces []map[string]any) (out []string) {
	for _, p := range pieces {
		out = append(out, fmt.Sprintf("%s/%s=%s", p["vat"], p["tag"], p["lab_known"]))
	}
	return out
}

const (
	likeForm = "{air_min number, day text, de00 number, dip_min number, dips number, dry_g number, fibre text, lab [number], lab_known text, " +
		"recipe text, tag text, vat text, what text, words text}"
	todayForm = "{claim text, dips {chance number, chance_within_one number, high number, likely number, low number, words text}, " + nextForm + ", vat text}"
)

func TestLikeKeys(t *testing.T) {
	home := rehearsed(t, 1)
	pieces, today, errs := likeJSON(t, home, "--lab", "31,-3,-20")
	if got := form(map[string]any(today)); got != todayForm || errs != "" {
		t.Errorf("%s %s", got, errs)
	}
	// The rehearsal's three pieces, by the depths that were named for them: mid, sky and pale.
	if got := tags(pieces); !slices.Equal(got, []string{"garden-bin/A1=depth", "garden-bin/B1=depth", "garden-bin/C2=depth"}) {
		t.Error(got)
	}
	for _, p := range pieces {
		if got := form(map[string]any(p)); got != likeForm {
			t.Errorf("%s", got)
		}
	}
	runner := pieces[0]
	for key, want := range map[string]any{"what": "runner", "fibre": "linen", "dry_g": 420.0, "dips": 4.0, "recipe": "soda", "words": "plain"} {
		if runner[key] != want {
			t.Errorf("%s is %v, want %v", key, runner[key], want)
		}
	}
	// Linen, mid: 5 min a dip if nothing is said; the rehearsal says 8, airs as long or longer, and counts in 4 s.
	if dip, air := runner["dip_min"].(float64), runner["air_min"].(float64); dip < 8 || dip > 8.2 || air < 10 || air > 20 {
		t.Errorf("%v min in, %v min out", dip, air)
	}
	// The middle of the band of mid: 1.2 % on the fibre, at K/S 8 for 1 %.
	mid := answer(t, "reckon colour --ks 9.6")["lab"].([]any)
	for i, v := range runner["lab"].([]any) {
		if math.Abs(v.(float64)-mid[i].(float64)) > 0.0051 { // to a hundredth
			t.Errorf("%v, want %v", runner["lab"], mid)
		}
	}
	de := of(t, answer(t, fmt.Sprintf("reckon difference --lab 31,-3,-20 --lab %v,%v,%v", mid[0], mid[1], mid[2])), "de00")
	if got := runner["de00"].(float64); math.Abs(got-de) > 0.01 {
		t.Errorf("%v apart, want %v", got, de)
	}
}

// The surest look counts: the last dry and rinsed one since the last dip, else what was named, else what the dips give.
func TestLikeByTheLook(t *testing.T) {
	text, err := played()
	if err != nil {
		t.Fatal(err)
	}
	last := len(book.Read(theDay, text).Events) - 1 // before the day was closed
	tag := func(s string) day.OfPiece { return day.OfPiece{Tag: s} }
	look := func(s, looks string, wet, rinsed bool) day.Body {
		return day.LookedAt{OfPiece: tag(s), Looks: looks, Wet: wet, Rinsed: rinsed}
	}
	wished := func(s day.PieceSpec) day.Body {
		s.Fibre, s.Dry, s.Dips = "cotton", quantity.Grams(90), 2
		return day.PieceChanged{OfPiece: tag("C2"), PieceSpec: s}
	}
	spec := func(depth string) day.Body { return wished(day.PieceSpec{Depth: depth}) }
	ladder := day.PieceAdded{OfPiece: tag("L"), PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: quantity.Grams(10), Form: "ladder", Had: 3}}
	strip := day.SwatchJudged{Swatch: "L", Looks: "lab 50 -5 -20", Dips: 3}
	for _, c := range []struct {
		name   string
		bodies []day.Body
		known  string
		near   string // a colour that C2 has
	}{
		{"by meter", []day.Body{look("C2", "lab 60 -5 -18", false, true)}, "measured", "60,-5,-18"},
		{"the last one", []day.Body{look("C2", "lab 40 -5 -18", false, true), look("C2", "lab 60 -5 -18", false, true)}, "measured", "60,-5,-18"},
		{"not wet", []day.Body{look("C2", "lab 60 -5 -18", false, true), look("C2", "lab 40 -5 -18", true, true)}, "measured", "60,-5,-18"},
		{"not unrinsed", []day.Body{look("C2", "lab 60 -5 -18", false, true), look("C2", "lab 40 -5 -18", false, false)}, "measured", "60,-5,-18"},
		{"of another condition", []day.Body{look("C2", "lab@D65/2 60 -5 -18", false, true)}, "measured", "60,-5,-18"},
		{"by photograph", []day.Body{look("C2", "#7a9ab0", false, true)}, "photo", ""},
		{"by eye", []day.Body{look("C2", "dark", false, true)}, "depth", "ks 17.6"},
		{"by instrument", []day.Body{look("C2", "ks 9", false, true)}, "measured", "ks 9"},
		{"a strip after the last dip", []day.Body{day.SwatchJudged{Swatch: "C2", Looks: "lab 60 -5 -18", Dips: 2}}, "measured", "60,-5,-18"},
		{"a strip of an earlier dip", []day.Body{day.SwatchJudged{Swatch: "C2", Looks: "lab 60 -5 -18", Dips: 1}}, "depth", "ks 2.4"},
		{"a rung, with a ladder", []day.Body{look("C2", "rung 3", false, true), ladder, strip}, "rung", "50,-5,-20"},
		{"a rung, without", []day.Body{look("C2", "rung 3", false, true)}, "depth", "ks 2.4"},
		{"a look that was taken back", []day.Body{look("C2", "lab 60 -5 -18", false, true), day.Corrected{Of: last + 1, Way: "undone"}}, "depth", "ks 2.4"},
		{"never seen, no depth named", []day.Body{spec("")}, "forecast", ""},
		{"never seen, a depth named", []day.Body{spec("navy")}, "depth", "ks 28"},
		{"never seen, a colour named", []day.Body{wished(day.PieceSpec{Lab: [3]float64{60, -5, -18}})}, "depth", "60,-5,-18"},
		{"never seen, a rung named", []day.Body{wished(day.PieceSpec{Rung: 3}), ladder, strip}, "depth", "50,-5,-20"},
		{"a rung between", []day.Body{look("C2", "rung 2", false, true), ladder, strip}, "rung", ""},
		{"words that are no look", []day.Body{look("C2", "as the sea", false, true)}, "depth", "ks 2.4"},
	} {
		home := rehearsed(t, 1)
		rewritten(t, home, "garden-bin", open, append(c.bodies, day.Closed{})...)
		pieces, _, errs := likeJSON(t, home, "--lab", "50,-5,-20", "--most", "9")
		i := slices.IndexFunc(pieces, func(p map[string]any) bool { return p["tag"] == "C2" })
		if i < 0 || errs != "" {
			t.Errorf("%s: %v %s", c.name, tags(pieces), errs)
			continue
		}
		if p := pieces[i]; p["lab_known"] != c.known {
			t.Errorf("%s: %v by %v, want %s", c.name, p["lab"], p["lab_known"], c.known)
		}
		if c.near == "" {
			continue
		}
		flag := "--lab " + c.near
		if ks, ok := strings.CutPrefix(c.near, "ks "); ok {
			flag = "--ks " + ks
		}
		want := answer(t, "reckon colour "+flag)["lab"].([]any)
		lab := pieces[i]["lab"].([]any)
		if de := of(t, answer(t, fmt.Sprintf("reckon difference --lab %v,%v,%v --lab %v,%v,%v", lab[0], lab[1], lab[2], want[0], want[1], want[2])), "de00"); de > 0.05 {
			t.Errorf("%s: %v, want %v", c.name, lab, want)
		}
	}
}

func TestLikeFilters(t *testing.T) {
	home := rehearsed(t, 2)
	at := func(args ...string) []string {
		pieces, _, _ := likeJSON(t, home, append([]string{"--lab", "31,-3,-20", "--most", "9"}, args...)...)
		return tags(pieces)
	}
	for _, c := range []struct {
		args []string
		n    int
	}{
		{nil, 6}, {[]string{"--fibre", "linen"}, 2}, {[]string{"--fibre", "Flax"}, 2}, {[]string{"--fibre", "silk"}, 0}, {[]string{"--vat", "garden-bin-2"}, 3},
		{[]string{"--vat", "Garden bin"}, 3}, {[]string{"--depth", "mid"}, 2}, {[]string{"--depth", "navy"}, 0}, {[]string{"--depth", "sky", "--vat", "garden-bin"}, 1},
		{[]string{"--most", "2"}, 2},
	} {
		if got := at(c.args...); len(got) != c.n {
			t.Errorf("%v: %v, want %d", c.args, got, c.n)
		}
	}
	pieces, _, _ := likeJSON(t, home, "--lab", "31,-3,-20", "--most", "9")
	var apart []float64
	for _, p := range pieces {
		apart = append(apart, p["de00"].(float64))
	}
	rises(t, "the nearest first", false, apart)
	if most, _, _ := likeJSON(t, home, "--lab", "31,-3,-20"); len(most) != 5 {
		t.Errorf("%d pieces if nothing is said", len(most))
	}
	// A piece is not like itself: its twin in the other vat is.
	twin, today, _ := likeJSON(t, home, "--piece", "garden-bin/"+theDay+"/A1", "--most", "9")
	if len(twin) != 5 || slices.Contains(tags(twin), "garden-bin/A1=depth") || twin[0]["vat"] != "garden-bin-2" || twin[0]["tag"] != "A1" || twin[0]["de00"] != 0.0 || twin[0]["words"] != "unseen" || today == nil {
		t.Errorf("%v %v", twin, today)
	}
}

// today is the open vat, else the newest that lives, else nothing.
func TestLikeToday(t *testing.T) {
	vat := func(home string) string {
		_, today, errs := likeJSON(t, home, "--lab", "31,-3,-20")
		if today == nil {
			return "none" + errs
		}
		low, likely, high := of(t, today, "dips", "low"), of(t, today, "dips", "likely"), of(t, today, "dips", "high")
		if low < 1 || low > likely || likely > high || high > 30 || today["claim"] != "guess" {
			t.Errorf("%v", today)
		}
		return today["vat"].(string)
	}
	if got := vat(filepath.Join(t.TempDir(), "none")); got != "none" {
		t.Error(got)
	}
	home := rehearsed(t, 2)
	rewritten(t, home, "garden-bin-2", open)
	if got := vat(home); got != "garden-bin-2" {
		t.Errorf("one is open: %s", got)
	}
	home = rehearsed(t, 2)
	rewritten(t, home, "garden-bin-2", open, day.Note{Text: "later"}, day.Closed{})
	if got := vat(home); got != "garden-bin-2" {
		t.Errorf("the newest: %s", got)
	}
	rewritten(t, home, "garden-bin-2", open, day.VatEnded{Why: "worn out"})
	if got := vat(home); got != "garden-bin" {
		t.Errorf("the newest that lives: %s", got)
	}
	rewritten(t, home, "garden-bin", open, day.VatEnded{Why: "worn out"})
	if got := vat(home); got != "none" {
		t.Errorf("none lives: %s", got)
	}
	// A closed vat is warmed again before it dyes; the goods are those of the piece that is sought.
	home = rehearsed(t, 1)
	dips := func(args ...string) string {
		_, today, _ := likeJSON(t, home, args...)
		d := today["dips"].(map[string]any)
		return fmt.Sprintf("%v, %v to %v, %.2f", d["likely"], d["low"], d["high"], d["chance"])
	}
	warm, cold := dips("--piece", "garden-bin/"+theDay+"/A1"), quantity.Celsius(5)
	rewritten(t, home, "garden-bin", open, day.Reading{Temp: &cold}, day.Closed{})
	if got := dips("--piece", "garden-bin/"+theDay+"/A1"); got != warm {
		t.Errorf("read at 5 °C before it was closed: %s, want %s", got, warm)
	}
	rewritten(t, rehearsedAt(t, home), "garden-bin", open, day.Reading{Temp: &cold})
	if got := dips("--piece", "garden-bin/"+theDay+"/A1"); got == warm {
		t.Errorf("open at 5 °C it takes as many as warm: %s", got)
	}
	rewritten(t, rehearsedAt(t, home), "garden-bin", open,
		day.PieceChanged{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: quantity.Grams(3000), Depth: "mid"}}, day.Closed{})
	if got := dips("--piece", "garden-bin/"+theDay+"/A1"); got == warm {
		t.Errorf("3 kg take as many as 420 g: %s", got)
	}
	// A vat of which swatches were seen narrows the range and claims more; darker blue takes more dips there.
	home = rehearsed(t, 1)
	narrow := func() (likely, wide float64, claim string) {
		_, today, _ := likeJSON(t, home, "--lab", "40,-4,-22", "--fibre", "cotton")
		return of(t, today, "dips", "likely"), of(t, today, "dips", "high") - of(t, today, "dips", "low"), today["claim"].(string)
	}
	_, before, claim := narrow()
	if claim != "guess" {
		t.Error(claim)
	}
	rewritten(t, home, "garden-bin", open, seenAs("B1", "lab 55 -5 -20"), seenAs("C2", "lab 72 -5 -14"), day.Closed{})
	likely, after, claim := narrow()
	if claim != "calibrated" || after >= before || likely < 4 {
		t.Errorf("%v dips, %v to %v wide, %s", likely, before, after, claim)
	}
}

// A day that cannot be read is told and passed over; the others are answered from. Nothing is changed by looking.
func TestLikePassesOverWhatItCannotRead(t *testing.T) {
	home := rehearsed(t, 2)
	file := fileOf(home, "garden-bin", theDay)
	text, _ := os.ReadFile(file)
	broken := strings.Replace(string(text), "format = 1", "format = = 1", 1)
	_ = os.WriteFile(file, []byte(broken), 0o644)
	_ = os.WriteFile(filepath.Join(filepath.Dir(file), "2020-01-01.toml"), text[:200], 0o644)
	before, _ := os.ReadDir(filepath.Dir(file))
	pieces, today, errs := likeJSON(t, home, "--lab", "31,-3,-20")
	if len(pieces) != 3 || today["vat"] != "garden-bin-2" {
		t.Errorf("%v %v", tags(pieces), today)
	}
	name := theDay
	torn := "vatside: vat garden-bin, day 2020-01-01 is left out: the file ends inside its head\n"
	if !strings.HasPrefix(errs, torn+"vatside: vat garden-bin, day "+name+" is left out: its first lines cannot be read: ") || strings.Count(errs, "\n") != 2 {
		t.Errorf("%q", errs)
	}
	if after, _ := os.ReadDir(filepath.Dir(file)); len(after) != len(before) {
		t.Error("looking has left a file behind")
	}
	// Of a vat whose newest day cannot be read, nobody knows how it stands today.
	rewritten(t, home, "garden-bin-2", open, day.VatEnded{})
	_ = os.WriteFile(file, text, 0o644)
	place(t, home, "garden-bin", "2026-11-28", []byte(broken))
	if pieces, today, _ := likeJSON(t, home, "--lab", "31,-3,-20", "--most", "9"); len(pieces) != 6 || today != nil {
		t.Errorf("%v %v", tags(pieces), today)
	}
	_ = os.Remove(fileOf(home, "garden-bin", "2026-11-28"))
	_ = os.WriteFile(file, []byte(strings.Replace(string(text), "seq = 50\n", "seq = = 50\n", 1)), 0o644)
	line := 1 + strings.Count(string(text[:strings.Index(string(text), "[[event]]\nseq = 50\n")]), "\n")
	damage := fmt.Sprintf("vatside: garden-bin/%s is not whole: an event cannot be read: it is not TOML: expected value but found '=' instead (line %d), and 1 more; see vatside book verify\n", name, line)
	if pieces, _, errs := likeJSON(t, home, "--lab", "31,-3,-20", "--most", "9"); len(pieces) < 5 || errs != torn+damage {
		t.Errorf("%v %q", tags(pieces), errs)
	}
}

// A vat that is set up and not filled yet takes what its recipe gives when fresh: the same as dips says.
func TestLikeBeforeTheFilling(t *testing.T) {
	home := t.TempDir()
	typed(t, home, "1\n1\n25\n\n\nname Blue pail\n\n1\n1\n1\n\nq\n", "--plain")
	_, today, errs := likeJSON(t, home, "--lab", "31,-3,-20", "--fibre", "wool")
	// The wish is of dark blue, of which one dip of wool takes 15 min; goods that weigh next to nothing take nothing out.
	want := answer(t, "dips --recipe soda --fill 20L --piece 0.001+g+wool --depth lab:31,-3,-20 --dip 15min")["dips"]
	if errs != "" || today["vat"] != "blue-pail" || today["claim"] != "guess" || fmt.Sprint(today["dips"]) != fmt.Sprint(want) {
		t.Errorf("%v, want %v %s", today, want, errs)
	}
	out, _, _ := run(t, filepath.Join(home, "none"), "like", "--lab", "31,-3,-20")
	if out != "Like lab 31.0 -3.0 -20.0:\nNo piece of the book is of that kind.\nNo vat lives, in which it could be dyed today.\n" {
		t.Errorf("%q", out)
	}
}

func TestLikeTextAndTwice(t *testing.T) {
	home := rehearsed(t, 1)
	for _, args := range [][]string{{"like", "--lab", "31,-3,-20"}, {"like", "--lab", "31,-3,-20", "--json"}, {"like", "--lab", "31,-3,-20", "--units", "us"}} {
		a, errs, code := run(t, home, args...)
		b, _, _ := run(t, home, args...)
		if a != b || code != 0 || errs != "" || strings.Contains(a, "%!") {
			t.Errorf("%v: %d %s\n%s\n%s", args, code, errs, a, b)
		}
		if us := strings.Contains(a, " oz linen"); us != slices.Contains(args, "us") {
			t.Errorf("%v:\n%s", args, a)
		}
	}
	out, _, _ := run(t, home, "like", "--lab", "31,-3,-20")
	if !strings.HasPrefix(out, "Like lab 31.0 -3.0 -20.0:\n       8.0  garden-bin/") || !strings.Contains(out, "/A1 runner, 420 g linen: 4 dips of about 8 min, aired 13 min 30 s,") {
		t.Errorf("%s", out)
	}
}

func TestLikeRefusals(t *testing.T) {
	home := rehearsed(t, 1)
	const name = theDay
	busy := rehearsed(t, 1)
	rewritten(t, busy, "garden-bin", first(46))
	const fibres = "not a fibre known here; known are cotton, linen, hemp, ramie, jute, viscose, silk and wool"
	for _, c := range []struct {
		home string
		code int
		args []string
		says string
	}{
		{home, 2, nil, "like needs --lab or --piece: the blue to look for"},
		{home, 2, []string{"--lab", "31,-3,-20", "--piece", "a/b/c"}, "give --lab or --piece, not both"},
		{home, 2, []string{"--lab", ""}, "--lab is given with nothing in it"},
		{home, 2, []string{"--piece", " "}, "--piece is given with nothing in it"},
		{home, 2, []string{"--lab", "31,-3,-20", "--vat", ""}, "--vat is given with nothing in it"},
		{home, 2, []string{"--lab", "31,-3,-20", "more"}, `unknown command "more" for "vatside like"`},
		{home, 1, []string{"--lab", "31,-3"}, `--lab: a colour is three numbers, and "31,-3" has 2: write L, a and b, such as 31 -3 -20`},
		{home, 1, []string{"--lab", "31,-3,-20", "--fibre", "nylon"}, "--fibre: nylon is " + fibres},
		{home, 1, []string{"--lab", "31,-3,-20", "--depth", "darkish"}, `--depth: no depth is called "darkish": say one of milk, pale, sky, mid, dark, navy, blue-black`},
		{home, 1, []string{"--lab", "31,-3,-20", "--most", "0"}, "--most: 0 is no number of pieces; write 1 or more"},
		{home, 1, []string{"--lab", "31,-3,-20", "--most", "x"}, "--most: x is no number of pieces; write 1 or more"},
		{home, 1, []string{"--lab", "31,-3,-20", "--vat", "pail"}, `--vat: no vat is called "pail": there are garden-bin`},
		{t.TempDir(), 1, []string{"--lab", "31,-3,-20", "--vat", "pail"}, `--vat: no vat is called "pail": there is none in the book yet`},
		{home, 1, []string{"--piece", "A1"}, "--piece: A1 is no piece; write VAT/DAY/TAG, such as garden-bin/2026-11-25/A1"},
		{home, 1, []string{"--piece", "garden-bin//A1"}, "--piece: garden-bin//A1 is no piece; write VAT/DAY/TAG, such as garden-bin/2026-11-25/A1"},
		{home, 1, []string{"--piece", "pail/" + name + "/A1"}, `--piece: no vat is called "pail": there are garden-bin`},
		{home, 1, []string{"--piece", "garden-bin/2020-01-01/A1"}, `--piece: vat garden-bin has no day "2020-01-01" that can be read: it has ` + name},
		{home, 1, []string{"--piece", "garden-bin/" + name + "/Z9"}, `--piece: day ` + name + ` of vat garden-bin has no piece "Z9": it has A1, B1, C2`},
		{busy, 1, []string{"--piece", "garden-bin/" + name + "/A1"}, "--piece: A1 had no dip, so it has no blue"},
	} {
		for _, args := range [][]string{c.args, append(slices.Clone(c.args), "--json")} {
			want := "vatside: " + c.says
			if c.code == 2 {
				want += seeHelp("like")
			}
			out, errs, code := run(t, c.home, append([]string{"like"}, args...)...)
			if code != c.code || errs != want+"\n" || out != "" {
				t.Errorf("%q: %d %q\n got %swant %s", args, code, out, errs, want)
			}
		}
	}
}

// A colour that a meter read under another light is looked for as it is in daylight, and today's vat says how many dips it takes, with the
// chance.
func TestLikeUnderAKnownLight(t *testing.T) {
	home := rehearsed(t, 1)
	lab := shade.FromMeter(colour.Lab{L: 48, A: -4, B: -21}, colour.AAt10, shade.White)
	pieces, today, _ := likeJSON(t, home, "--lab", "lab@A/10:48,-4,-21", "--fibre", "cotton")
	same, alike, _ := likeJSON(t, home, "--lab", fmt.Sprintf("%v,%v,%v", lab.L, lab.A, lab.B), "--fibre", "cotton")
	if len(pieces) == 0 || !reflect.DeepEqual(pieces, same) || !reflect.DeepEqual(today, alike) {
		t.Errorf("%v, %v; in daylight %v, %v", pieces, today, same, alike)
	}
	if _, other, _ := likeJSON(t, home, "--lab", "48,-4,-21", "--fibre", "cotton"); reflect.DeepEqual(today, other) {
		t.Error("the light makes no difference")
	}
	if of(t, today, "dips", "chance") <= 0 || !strings.Contains(fmt.Sprint(today["dips"]), "eight times in ten") {
		t.Errorf("%v", today)
	}
}
