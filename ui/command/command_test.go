package command

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
)

// run runs one command line without a terminal.
func run(t *testing.T, home string, args ...string) (out, errs string, code int) {
	t.Helper()
	return typed(t, home, "", args...)
}

func typed(t *testing.T, home, in string, args ...string) (out, errs string, code int) {
	t.Helper()
	var o, e bytes.Buffer
	code = Main(args, World{In: strings.NewReader(in), Out: &o, Err: &e, Getenv: func(k string) string {
		if k == "VATSIDE_HOME" {
			return home
		}
		return ""
	}})
	return o.String(), e.String(), code
}

func write(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// seeHelp is what a wrong usage ends with: where the help of the command is that a line names.
func seeHelp(args ...string) string {
	c, _, err := (&program{}).root().Find(args)
	if err != nil {
		return "; see vatside --help"
	}
	return "; see " + c.CommandPath() + " --help"
}

func TestCodes(t *testing.T) {
	for _, c := range []struct {
		line string
		code int
		out  string
		err  string
	}{
		{"", 0, "Recipes at hand: soda, lye", ""},
		{"--version", 0, "vatside " + Version, ""},
		{"sgns", 2, "", "did you mean signs? See vatside --help"}, {"version", 2, "", "did you mean --version? See vatside --help"},
		{"dips --recpie soda", 2, "", "unknown flag: --recpie; did you mean --recipe? See"},
		{"settings set unit us", 1, "", "did you mean units?"},
		{"help carre", 2, "", "did you mean care?"},
		{"settings nonsense", 2, "", `unknown command "nonsense"`},
		{"settings set", 2, "", "write it as vatside settings set KEY VALUE"},
		{"settings set nonsense 1", 1, "", `no setting is called "nonsense"`},
		{"settings set units stones", 1, "", `units is metric or us or imperial, not "stones"`},
		{"completion bash", 0, "vatside", ""},
		{"--help", 0, "rehearse", ""},
		{"help weigh", 0, "--fill", ""},
		{"help nonsense", 2, "", "no command"},
		{"nonsense", 2, "", "nonsense"},
		{"--nonsense", 2, "", "nonsense"},
		{"recipes", 0, "soda", ""},
		{"recipes nonsense", 2, "", "nonsense"},
		{"recipes show", 2, "", "write it as vatside recipes show ID; nothing was given"},
		{"recipes show soda lye", 2, "", "2 arguments were given"},
		{"recipes show nonsense", 1, "", `no recipe is called "nonsense"`},
		{"recipes check", 2, "", "nothing was given"},
		{"stock weigh T1", 2, "", "write it as vatside stock weigh TIN MASS; only T1 was given"},
		{"recipes check nowhere.toml", 1, "", "there is no file nowhere.toml"},
		{"recipes check .", 1, "", ". is a folder: name a file in it"},
		{"weigh --recipe ../command --fill 60L", 1, "", "../command is a folder: name a file in it"},
		{"load /nowhere.toml --recipe soda --fill 60L", 1, "", "there is no file /nowhere.toml"},
		{"weigh", 2, "", "--recipe"},
		{"weigh --recipe soda", 2, "", "--fill"},
		{"weigh --recipe soda --fill", 2, "", "fill"},
		{"weigh --recipe soda --fill 60", 1, "", "--fill"},
		{"weigh --recipe soda --fill 60kg", 1, "", "--fill"},
		{"weigh --recipe soda --fill 0L", 1, "", "no vat"},
		{"weigh --recipe soda --fill 2e7L", 1, "", "--fill: 2e7L is more than is reckoned here; 10000 L at most"},
		{"sheet --recipe soda --fill 2e7L", 1, "", "--fill: 2e7L is more than is reckoned here; 10000 L at most"},
		{"reckon capacity --recipe soda --fill 2e7L", 1, "", "--fill: 2e7L is more than is reckoned here"},
		{"reckon dose --recipe soda --fill 2e7L", 1, "", "--fill: 2e7L is more than is reckoned here"},
		{"weigh --recipe nonsense --fill 60L", 1, "", "nonsense"},
		{"weigh --recipe soda --fill 4gal", 1, "", "--fill"},
		{"weigh --recipe soda --fill 4gal --units us", 0, "oz", ""},
		{"weigh --recipe soda --fill 60L --units feet", 1, "", "--units"},
		{"weigh --recipe soda --fill 60L --have indigo", 1, "", "--have"},
		{"weigh --recipe soda --have woad=3g", 1, "", "woad"},
		{"weigh --recipe soda --fill 60L --indigo-strength 45", 1, "", "--indigo-strength"},
		{"weigh --recipe soda --fill 60L more", 2, "", "more"},
		{"rehearse --speed 0.5 --plain", 1, "", "--speed"},
		{"rehearse --speed NaN --plain", 1, "", "--speed"},
		{"rehearse surplus", 2, "", "surplus"},
		{"now", 0, "No day is open.", ""},
		{"now then", 2, "", "then"},
		{"book", 0, "The book is empty.", ""},
		{"book nowhere", 1, "", "none in the book"},
		{"book a b c", 2, "", "arg"},
		{"book verify", 0, "0 days", ""},
		{"book verify all", 2, "", "all"},
	} {
		t.Run(c.line, func(t *testing.T) {
			home := filepath.Join(t.TempDir(), "none")
			out, errs, code := run(t, home, strings.Fields(c.line)...)
			if code != c.code || !strings.Contains(out, c.out) || !strings.Contains(errs, c.err) {
				t.Errorf("code %d, out %q, err %q; want %d, %q, %q", code, out, errs, c.code, c.out, c.err)
			}
			if code != 0 && strings.Count(strings.TrimSpace(errs), "\n") > 0 {
				t.Errorf("more than one sentence: %q", errs)
			}
			if code == 0 && errs != "" {
				t.Errorf("stderr: %q", errs)
			}
			if _, err := os.Stat(home); err == nil {
				t.Error("a command that only looks has made the home")
			}
		})
	}
}

// A home that is a file is one sentence, whatever is asked; and nothing is written.
func TestAHomeThatIsAFile(t *testing.T) {
	file := write(t, "home", "not a home\n")
	for _, line := range []string{"", "now", "care", "cost", "stock", "book", "book verify", "sheet", "stock add --material lime --mass 1kg", "--plain",
		"begin bin --recipe soda --fill 60L", "say bin done"} {
		out, errs, code := run(t, file, strings.Fields(line)...)
		if code != 1 || out != "" || errs != "vatside: the home "+file+" is a file: name a folder with --home or VATSIDE_HOME\n" {
			t.Errorf("%s: %d %q %q", line, code, out, errs)
		}
	}
}

func TestDumbTerminalIsToldOfPlain(t *testing.T) {
	var o, e bytes.Buffer
	code := Main(nil, World{In: strings.NewReader(""), Out: &o, Err: &e, Getenv: func(k string) string {
		return map[string]string{"TERM": "dumb", "VATSIDE_HOME": t.TempDir()}[k]
	}})
	if code != 0 || !strings.Contains(o.String(), "vatside --plain") {
		t.Errorf("%d %q %q", code, o.String(), e.String())
	}
}

func weighJSON(t *testing.T, args ...string) map[string]any {
	t.Helper()
	out, errs, code := run(t, t.TempDir(), append([]string{"weigh", "--json"}, args...)...)
	if code != 0 {
		t.Fatalf("%v: %d %s", args, code, errs)
	}
	var m map[string]any
	if err := json.Unmarshal([]byte(out), &m); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"recipe", "fill_l", "powders", "cautions", "limited_by"} {
		if _, ok := m[key]; !ok || len(m) != 5 {
			t.Fatalf("keys: %v", m)
		}
	}
	return m
}

func grams(t *testing.T, m map[string]any) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	for _, p := range m["powders"].([]any) {
		w := p.(map[string]any)
		for _, key := range []string{"id", "material", "role", "grams", "hydrate_ml"} {
			if _, ok := w[key]; !ok || len(w) != 5 {
				t.Fatalf("keys: %v", w)
			}
		}
		out[w["id"].(string)] = w["grams"].(float64)
	}
	return out
}

func TestWeigh(t *testing.T) {
	for _, c := range []struct {
		args  []string
		fill  float64
		want  map[string]float64
		limit any
	}{
		{[]string{"--fill", "60L"}, 60, map[string]float64{"indigo": 90, "soda": 360, "reducer": 120}, nil},
		{[]string{"--fill", "60L", "--indigo-strength", "45%"}, 60, map[string]float64{"indigo": 120, "soda": 360, "reducer": 120}, nil},
		{[]string{"--have", "indigo=38 g", "--have", "soda=120 g"}, 20, map[string]float64{"indigo": 30, "soda": 120}, "soda"},
		{[]string{"--have", "indigo = 1,5 g"}, 1, map[string]float64{"indigo": 1.5}, "indigo"},
		{[]string{"--fill", "10L", "--have", "soda=120 g"}, 10, map[string]float64{"soda": 60}, nil},
		{[]string{"--fill", "60L", "--have", "soda=120 g"}, 60, map[string]float64{"soda": 360}, "soda"},
		{[]string{"--fill", "60L", "--have", "soda=0 g"}, 60, map[string]float64{"soda": 360}, "soda"},
	} {
		m := weighJSON(t, append([]string{"--recipe", "soda"}, c.args...)...)
		got := grams(t, m)
		if m["fill_l"] != c.fill || m["limited_by"] != c.limit || m["recipe"] != "soda" || len(m["cautions"].([]any)) == 0 {
			t.Errorf("%v: %v", c.args, m)
		}
		for id, g := range c.want {
			if math.Abs(got[id]-g) > 1e-6 {
				t.Errorf("%v: %s %v g, want %v", c.args, id, got[id], g)
			}
		}
	}
}

// Common practice, no source: 5, 12.5 and 25 g per US gallon are 20, 50, 100 g for 4 of them and 140, 350, 700 g for 28.
func TestWeighPerGallon(t *testing.T) {
	text, err := os.ReadFile("../../recipes/soda.toml")
	if err != nil {
		t.Fatal(err)
	}
	s := strings.ReplaceAll(string(text), `"soda"`, `"alkali"`)
	s = strings.Replace(s, `id = "alkali"`, `id = "mine"`, 1)
	for was, is := range map[string]string{`dose = "1.5 g/L"`: `dose = "5 g/usgal"`, `dose = "6 g/L"`: `dose = "25 g/usgal"`, `dose = "2 g/L"`: `dose = "12.5 g/usgal"`} {
		if !strings.Contains(s, was) {
			t.Fatalf("the recipe has no %s", was)
		}
		s = strings.Replace(s, was, is, 1)
	}
	file := write(t, "mine.toml", s)
	for fill, want := range map[string]map[string]float64{
		"4 usgal":  {"indigo": 20, "reducer": 50, "alkali": 100},
		"28 usgal": {"indigo": 140, "reducer": 350, "alkali": 700},
	} {
		got := grams(t, weighJSON(t, "--recipe", file, "--fill", fill))
		for id, g := range want {
			if math.Abs(got[id]-g) > 0.001 {
				t.Errorf("%s: %s %v g, want %v", fill, id, got[id], g)
			}
		}
	}
}

func TestRecipes(t *testing.T) {
	out, _, _ := run(t, t.TempDir(), "recipes", "--json")
	var l []map[string]string
	if err := json.Unmarshal([]byte(out), &l); err != nil || len(l) != 7 || l[0]["id"] != "soda" || l[0]["name"] == "" || l[0]["family"] != "dithionite-soda" || len(l[0]) != 3 {
		t.Errorf("%v %v", err, l)
	}
	for _, r := range l {
		text, errs, code := run(t, t.TempDir(), "recipes", "show", r["id"])
		if code != 0 || !strings.Contains(text, r["name"]) || strings.Contains(text, "%!") {
			t.Errorf("%d %s %s", code, text, errs)
		}
		text, _, code = run(t, t.TempDir(), "recipes", "show", r["id"], "--json")
		var m map[string]any
		if err := json.Unmarshal([]byte(text), &m); err != nil || code != 0 || m["id"] != r["id"] {
			t.Errorf("%v %d %v", err, code, m)
		}
	}
	home := t.TempDir()
	text, _ := os.ReadFile("../../recipes/soda.toml")
	_ = os.MkdirAll(filepath.Join(home, "recipes"), 0o755)
	_ = os.WriteFile(filepath.Join(home, "recipes", "x.toml"), bytes.Replace(text, []byte("Soda vat"), []byte("My vat"), 1), 0o644)
	if out, _, _ := run(t, home, "recipes"); !strings.Contains(out, "My vat") || !strings.Contains(out, "your own") {
		t.Errorf("the dyer's own recipe does not replace the built-in one: %s", out)
	}
}

func TestRecipesCheck(t *testing.T) {
	text, _ := os.ReadFile("../../recipes/soda.toml")
	good := write(t, "good.toml", string(text))
	if out, errs, code := run(t, "", "recipes", "check", good); code != 0 {
		t.Errorf("%d %s %s", code, out, errs)
	}
	s := strings.Replace(string(text), `"38 °C"`, `"38 grams"`, 1)
	s = strings.Replace(s, `dose = "6 g/L"`, `doze = "6 g/L"`, 1)
	bad := write(t, "bad.toml", s)
	out, errs, code := run(t, "", "recipes", "check", good, bad)
	if code != 1 || strings.Count(out, "bad.toml:") < 2 || !strings.Contains(out, "^^") || !strings.Contains(errs, "faults found") {
		t.Errorf("%d %s %s", code, out, errs)
	}
	if _, errs, code := run(t, "", "weigh", "--recipe", bad, "--fill", "60L"); code != 1 || !strings.Contains(errs, "not weighed from") {
		t.Errorf("%d %s", code, errs)
	}
}

var told = regexp.MustCompile(`(?m)^(\S+/\S+#\d+) \d\d:\d\d \S`)

func events(t *testing.T, home string, args ...string) (ids []string) {
	t.Helper()
	out, errs, code := run(t, home, append([]string{"book", "--json"}, args...)...)
	var l []struct {
		Vat, Day, Kind, At string
		Seq                int
	}
	if err := json.Unmarshal([]byte(out), &l); err != nil || code != 0 {
		t.Fatalf("%v %d %s", err, code, errs)
	}
	for _, e := range l {
		if e.Kind == "" || e.At == "" {
			t.Errorf("%+v", e)
		}
		ids = append(ids, fmt.Sprintf("%s/%s#%d", e.Vat, e.Day, e.Seq))
	}
	return ids
}

func printed(out string) (ids []string) {
	for _, m := range told.FindAllStringSubmatch(out, -1) {
		ids = append(ids, m[1])
	}
	return ids
}

func TestRehearseFromEndToEnd(t *testing.T) {
	home := t.TempDir()
	out, errs, code := run(t, "/nowhere", "rehearse", "--plain", "--speed", "max", "--home", home)
	ids := printed(out)
	if code != 0 || len(ids) < 50 || !strings.Contains(out, "day closed") || len(ids) != strings.Count(out, "\n") {
		t.Fatalf("%d %s %s", code, out, errs)
	}
	if got := events(t, home); strings.Join(got, " ") != strings.Join(ids, " ") {
		t.Errorf("printed\n%v\nin the book\n%v", ids, got)
	}
	if out, errs, code := run(t, home, "book", "verify"); code != 0 || !strings.Contains(out, "read whole") {
		t.Errorf("%d %s %s", code, out, errs)
	}
	if out, _, code := run(t, home, "now"); code != 0 || out != "No day is open.\n" {
		t.Errorf("%d %q", code, out)
	}
	out, errs, code = run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	if again := printed(out); code != 0 || len(again) == 0 || !strings.HasPrefix(again[0], "garden-bin-2/") {
		t.Errorf("a second rehearsal: %d %s %s", code, out, errs)
	}
	if got := events(t, home, "garden bin"); len(got) != len(ids) {
		t.Errorf("book VAT: %d events, want %d", len(got), len(ids))
	}
	if _, errs, code := run(t, home, "book", "vatt"); code != 1 || !strings.Contains(errs, "garden-bin, garden-bin-2") {
		t.Errorf("%d %s", code, errs)
	}
	if _, errs, code := run(t, home, "book", "garden-bin", "yesterday"); code != 1 || !strings.Contains(errs, "it has 2") {
		t.Errorf("%d %s", code, errs)
	}
}

// cutAt leaves the first n events of the only day, and a torn tail.
func cutAt(t *testing.T, home string, n int, tail string) string {
	t.Helper()
	files, _ := filepath.Glob(filepath.Join(home, "vats", "*", "*.toml"))
	text, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	i := bytes.Index(text, fmt.Appendf(nil, "\n# end %d ", n))
	end := i + 1 + bytes.IndexByte(text[i+1:], '\n') + 1
	if err := os.WriteFile(files[0], append(text[:end:end], tail...), 0o644); err != nil {
		t.Fatal(err)
	}
	return files[0]
}

func TestRehearseGoesOnAfterATornTail(t *testing.T) {
	home := t.TempDir()
	run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	cutAt(t, home, 46, "\n[[event]]\nseq = 47\nat = 20")
	now, _, code := run(t, home, "now")
	if code != 0 || !strings.Contains(now, "Garden bin (rehearsed): ") || !strings.Contains(now, "dip 1 of 4") {
		t.Errorf("%d %s", code, now)
	}
	if out, _, code := run(t, home, "book", "verify"); code != 1 || !strings.Contains(out, "torn") {
		t.Errorf("%d %s", code, out)
	}
	out, _, _ := run(t, home, "now", "--json")
	var m struct {
		Days []map[string]any `json:"days"`
		Due  []map[string]any `json:"due"`
	}
	if err := json.Unmarshal([]byte(out), &m); err != nil || len(m.Days) != 1 || m.Days[0]["vat"] != "garden-bin" || m.Days[0]["left_s"] == 0.0 {
		t.Errorf("%v %s", err, out)
	}
	out, errs, code := run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	ids := printed(out)
	if code != 0 || len(ids) == 0 || !strings.HasSuffix(ids[0], "#47") || !strings.Contains(out, "set aside") {
		t.Fatalf("%d %s %s", code, out, errs)
	}
	for i, id := range events(t, home) {
		if !strings.HasSuffix(id, fmt.Sprintf("#%d", i+1)) {
			t.Errorf("event %d is %s", i+1, id)
		}
	}
}

func TestVerifyTellsWhatCannotBeRead(t *testing.T) {
	home := t.TempDir()
	run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	file := cutAt(t, home, 20, "")
	text, _ := os.ReadFile(file)
	_ = os.WriteFile(file, bytes.Replace(text, []byte("seq = 7\n"), []byte("seq = = 7\n"), 1), 0o644)
	out, errs, code := run(t, home, "book", "verify")
	if code != 1 || !strings.Contains(out, filepath.Base(file)+":") || errs == "" {
		t.Errorf("%d %s %s", code, out, errs)
	}
	_ = os.WriteFile(file, text[:200], 0o644) // killed before its head was whole
	_ = os.MkdirAll(filepath.Join(home, "vats", "empty"), 0o755)
	if out, errs, code := run(t, home, "book", "verify"); code != 1 || !strings.Contains(out, ":1: the file ends inside its head: a day that was never begun") {
		t.Errorf("%d %s %s", code, out, errs)
	}
	if out, errs, code := run(t, home, "stock", "add", "--material", "soda ash", "--mass", "1kg"); code != 0 {
		t.Fatal(out, errs)
	}
	if out, _, code := run(t, home, "book", "verify"); code != 1 || !strings.Contains(out, "1 act on the tins") {
		t.Errorf("%d %s", code, out)
	}
	tins := filepath.Join(home, "stock.toml")
	text, _ = os.ReadFile(tins)
	_ = os.WriteFile(tins, bytes.Replace(text, []byte("seq = 1"), []byte("seq = = 1"), 1), 0o644)
	if out, _, code := run(t, home, "book", "verify"); code != 1 || !strings.Contains(out, "stock.toml:") {
		t.Errorf("%d %s", code, out)
	}
	if out, _, code := run(t, home, "now"); code != 0 || out != "No day is open.\n" {
		t.Errorf("%d %s", code, out)
	}
}

// The next day of a vat whose end has begun goes on with it, and says so where dyeing was asked for, before it opens.
func TestPlainSaysThatAnEndHasBegun(t *testing.T) {
	const said = "The end of Tub has begun: it is not dyed in any more, and the day goes on with its end.\n"
	soda, _ := recipes.Find("soda")
	since := time.Date(2026, 11, 24, 9, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		ending bool
		answer string
		says   bool
	}{{true, "1", true}, {true, "2", false}, {false, "1", false}} {
		head := day.Head{Vat: "tub", Day: "2026-11-24", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 3, Built: true},
			Setup: day.Setup{Name: "Tub", Fill: 60, Place: day.Outdoors, Ending: c.ending}}
		if c.ending {
			head.Opening.Step, head.Opening.Since = 5, &since
		}
		home := t.TempDir()
		place(t, home, "tub", head.Day, encoded(t, head, []day.Event{{At: since, Body: day.Opened{How: "end"}}, {At: since.Add(time.Hour), Body: day.Closed{}}}))
		out, errs, code := typed(t, home, "1\n"+c.answer+"\nq\n", "--plain")
		at, opens := strings.Index(out, said), strings.Index(out, "Enter says done")
		if code != 0 || opens < 0 || c.says != (at >= 0) || at > opens {
			t.Errorf("%+v: %d %q\n%s", c, code, errs, out)
		}
	}
}

// A day is named in two words or in one, as sheet takes it; half a name is a wrong use.
func TestBookOfADay(t *testing.T) {
	home := rehearsed(t, 1)
	want, errs, code := run(t, home, "book", "garden-bin", theDay)
	if code != 0 || errs != "" || !strings.HasPrefix(want, "garden-bin/"+theDay) {
		t.Fatalf("%d %q\n%s", code, errs, want)
	}
	for _, name := range []string{"garden-bin/" + theDay, "garden bin/" + theDay} {
		if out, errs, code := run(t, home, "book", name); code != 0 || errs != "" || out != want {
			t.Errorf("%s: %d %q\n%s", name, code, errs, out)
		}
	}
	if _, errs, code := run(t, home, "book", "garden-bin/2019-01-01"); code != 1 || !strings.Contains(errs, "has no day \"2019-01-01\"") {
		t.Errorf("%d %q", code, errs)
	}
	for _, args := range [][]string{{"garden-bin/"}, {"/" + theDay}, {"garden-bin/" + theDay, theDay}} {
		if _, errs, code := run(t, home, append([]string{"book"}, args...)...); code != 2 || errs == "" {
			t.Errorf("%v: %d %q", args, code, errs)
		}
	}
}

func TestPlainBuildsAndHomeWithRealDaysIsRefused(t *testing.T) {
	home := t.TempDir()
	out, errs, code := typed(t, home, "soda\n1\n1\n25\n\n\nname Blue pail\n\n1\nstainless\nyou alone\n?\n!\nnote sun on the pail\np A1 linen 420 g dark\nnonsense\n\n\nq\n", "--plain")
	if code != 0 || !strings.Contains(out, "\nBlue pail, ") || strings.Contains(out, "blue-pail/") || !strings.Contains(out, "Note: sun on the pail") ||
		!strings.Contains(out, "A1 on the list") || !strings.Contains(out, "Caution: ") || !strings.Contains(out, "is not understood") {
		t.Fatalf("%d %s %s", code, out, errs)
	}
	if out, _, code := run(t, home, "now"); code != 0 || !strings.HasPrefix(out, "Blue pail: step 1 of ") {
		t.Errorf("%d %s", code, out)
	}
	if out, _, code := run(t, home); code != 0 || !strings.Contains(out, "is open: step 1") {
		t.Errorf("%d %s", code, out)
	}
	out, errs, code = typed(t, home, "54 g\nq\n", "--plain")
	if code != 0 || !strings.Contains(out, "54 g") && !strings.Contains(out, "Not done") {
		t.Errorf("%d %s %s", code, out, errs)
	}
	if _, errs, code := run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home); code != 1 || !strings.Contains(errs, "real days") {
		t.Errorf("%d %s", code, errs)
	}
}
