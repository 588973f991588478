package command

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

// Vessels and beginnings of commands that come again and again.
const (
	pail   = "frustum 25.4cm 29.9cm 36.8cm" // pail_frustum.csv
	bin    = "frustum 36cm 44cm 62cm"
	mixing = "warm --fill 15L --cold 12C --hot 60C"
	stand  = "reckon cooling --fill 15L --from 50C --air 20C --humidity 50% --vessel pail"
)

// words splits a command line; pail, bin and jug are vessels, and + joins words.
func words(line string) []string {
	named := map[string]string{"pail": pail, "bin": bin, "jug": "jug 5L=8.4cm 10L=16.1cm 36.8cm", "none": ""}
	args := strings.Fields(line)
	for i, a := range args {
		if v, ok := named[a]; ok {
			a = v
		}
		args[i] = strings.ReplaceAll(a, "+", " ")
	}
	return args
}

// runAt runs one command line with a clock that stands still.
func runAt(t *testing.T, now time.Time, args ...string) (out, errs string, code int) {
	t.Helper()
	var o, e bytes.Buffer
	home := t.TempDir()
	code = Main(args, World{In: strings.NewReader(""), Out: &o, Err: &e, Now: func() time.Time { return now }, Getenv: func(k string) string {
		return map[string]string{"VATSIDE_HOME": home}[k]
	}})
	return o.String(), e.String(), code
}

var thursday = time.Date(2026, 11, 26, 7, 12, 34, 567e6, time.FixedZone("", 3600))

// answer is the JSON of a command.
func answer(t *testing.T, line string) map[string]any {
	t.Helper()
	return answerAt(t, thursday, line)
}

func answerAt(t *testing.T, now time.Time, line string) map[string]any {
	t.Helper()
	out, errs, code := runAt(t, now, append(words(line), "--json")...)
	var m map[string]any
	if err := json.Unmarshal([]byte(out), &m); err != nil || code != 0 || errs != "" {
		t.Fatalf("%s: %d %v %q", line, code, err, errs)
	}
	return m
}

// of is a figure of an answer, by its path.
func of(t *testing.T, m map[string]any, path ...string) float64 {
	t.Helper()
	var v any = m
	for _, k := range path {
		v = v.(map[string]any)[k]
	}
	f, ok := v.(float64)
	if !ok {
		t.Fatalf("%v is %v", path, v)
	}
	return f
}

// form is what a JSON value looks like.
func form(v any) string {
	switch v := v.(type) {
	case nil:
		return "null"
	case float64:
		return "number"
	case string:
		return "text"
	case bool:
		return "bool"
	case []any:
		if len(v) == 0 {
			return "[]"
		}
		return "[" + form(v[0]) + "]"
	case map[string]any:
		var keys []string
		for k, w := range v {
			keys = append(keys, k+" "+form(w))
		}
		slices.Sort(keys)
		return "{" + strings.Join(keys, ", ") + "}"
	}
	return "?"
}

const rangeForm = "{high number, likely number, low number}"

// The contract: keys and their types; what does not apply is null.
func TestKeys(t *testing.T) {
	warm := "{begin_at %s, cold_l number, heat_min %s, hot_l number, pot_l %s, pots %s, reaches_c number, steps %s, warnings []}"
	fill := "{below_rim_cm %[1]s, brim_l number, depth_cm %[1]s, litres %[1]s, rim_cm number, rise_l %[2]s, surface_m2 %[1]s}"
	ph := "{ph number, ph_high number, ph_low number}"
	cooling := "{series [{hour number, temp_c number}], temp_c number}"
	reducer := "{fill_water_g %[1]s, indigo_g %[1]s, longer %[3]s, note %[5]s, parts %[4]s, per_hour_g %[2]s, per_hour_work_g %[2]s, reserve_rest_h %[2]s, reserve_work_h %[2]s}"
	dose := "{cautions %s, do text, grams %s, how %s, next %s, powder %s, recheck text, refused bool, sentence text, to_c %s, wait_min number, warnings %s, why text, with %s}"
	for _, c := range []struct{ line, want string }{
		{mixing + " --aim 40C", fmt.Sprintf(warm, "null", "null", "null", "null", "[]")},
		{mixing + " --aim 40C --pot 8L --stove 1800W --ready-by 10:00", fmt.Sprintf(warm, "text", "number", "number", "number", "[]")},
		{mixing + " --aim 38C --stove 1800W --ready-by 10:00 --recipe soda", fmt.Sprintf(warm, "text", "number", "null", "null", "[{at text, minutes number, what text}]")},
		{"warm --fill 0L --cold 12C --hot 60C --aim 40C", fmt.Sprintf(warm, "null", "null", "null", "null", "[]")},
		{"reckon ph --soda 10g/L --temp 25C", ph},
		{"reckon ph --bicarbonate 6g/L --potash 5g/L --lye 1g/L --spent 10mmol/L --bisulfite 10mmol/L --temp 25C", ph},
		{"reckon ph --soda 0g/L --spent 0mmol/L --bisulfite 0mmol/L --lime saturated --temp 25C", ph},
		{"reckon ph --temp 25C", ph},
		{"reckon oxygen --temp 20C", "{mg_per_l number}"},
		{"reckon oxygen --temp 20C --pressure 101325Pa", "{mg_per_l number}"},
		{"reckon fill --vessel pail", fmt.Sprintf(fill, "null", "null")},
		{"reckon fill --vessel pail --depth 20cm", fmt.Sprintf(fill, "number", "null")},
		{"reckon fill --vessel pail --litres 15L --goods 600+g+cotton", fmt.Sprintf(fill, "number", rangeForm)},
		{"reckon fill --vessel cylinder+40cm+60cm --depth 0cm", fmt.Sprintf(fill, "number", "null")},
		{"reckon fill --vessel box+60cm+40cm+50cm --litres 0L", fmt.Sprintf(fill, "number", "null")},
		{"reckon fill --vessel jug --depth 12cm", fmt.Sprintf(fill, "number", "null")},
		{stand + " --hours 4", cooling},
		{stand + " --hours 0 --lid --wrap 25mm", cooling},
		{"reckon heat --fill 15L --from 15C --to 40C --power 1000W", "{minutes number}"},
		{"reckon reducer --recipe soda --fill 60L --temp 36C --vessel bin --lid",
			fmt.Sprintf(reducer, "number", rangeForm, "[text]", "[{loss text, part number, per_hour_g "+rangeForm+", when text, why text}]", "null")},
		{"reckon reducer --recipe sugar-lime --fill 60L --temp 32C --vessel bin", fmt.Sprintf(reducer, "null", "null", "[]", "[]", "text")},
		{"reckon capacity --recipe soda --fill 60L", "{depths [{depth text, kg_left " + rangeForm + ", kg_today number, reach text}], indigo_g number}"},
		{"reckon dose --recipe soda --fill 60L --temp 33C --strip 12s", fmt.Sprintf(dose, "[text]", "number", "text", "text", "text", "null", "[]", "[]")},
		{"reckon dose --recipe soda --fill 60L --temp 35C --strip 45s", fmt.Sprintf(dose, "[]", "null", "null", "null", "null", "null", "[]", "[]")},
		{"reckon dose --recipe soda --fill 60L --temp 25C --heater 1000W", fmt.Sprintf(dose, "[text]", "null", "text", "null", "null", "number", "[]", "[]")},
		{"reckon dose --recipe iron-lime --fill 20L --temp 20C --strip 8s", fmt.Sprintf(dose, "[text]", "number", "text", "text", "text", "null", "[]", "[{grams number, powder text}]")},
	} {
		if got := form(answer(t, c.line)); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.line, got, c.want)
		}
	}
}

// Text: no line runs on, none is empty, nothing of Go shows; a dyer in gallons is not told of litres to pour.
func TestText(t *testing.T) {
	for _, c := range []struct{ line, want, not string }{
		{mixing + " --aim 40C", "     6.2 L  cold, 12 °C, first\n     8.8 L  hot, 60 °C, in 3 carries of 2.9 L", "begin"},
		{mixing + " --aim 40C --pot 3L --stove 1800W --ready-by 10:00", "     09:38  begin, on Thursday 26 November", "carries"},
		{mixing + " --aim 45C --ready-by 10:00 --recipe soda", "Note: recipe soda is built at 38 °C, and the aim is 45 °C.", "heat the water"},
		{mixing + " --aim 40C --have 5L --at 13C", "with 5 L at 13 °C in it already", "first"},
		{mixing + " --aim 40C --have 15L --at 40C", "nothing  is to be poured", "Caution"},
		{"warm --fill 4gal --cold 54F --hot 140F --aim 104F --units us", "1.66 gal  cold, 54 °F", " L "},
		{"warm --fill 4gal --cold 12C --hot 60C --aim 40C --units imperial", "1.65 gal  cold", " L "},
		{"reckon ph --soda 10g/L --temp 25C", "pH 11.3 at 25 °C, between 11.2 and 11.4.", "!"},
		{"reckon ph --soda 1oz/gal --temp 77F --units us", "pH 11.3 at 77 °F", "°C"},
		{"reckon oxygen --temp 68F --units us", "9.09 mg/L of oxygen at 68 °F", "oz"},
		{"reckon fill --vessel pail --litres 15L --goods 600+g+cotton", "   27.9 cm  deep", "in²"},
		{"reckon fill --vessel frustum+10in+11.8in+14.5in --depth 10in --units us", "3.84 gal  of liquor", "cm"},
		{stand + " --hours 2.5", "   42.5 °C  after 1 h\n", "°F"},
		{"reckon cooling --vessel pail --fill 4gal --from 120F --air 68F --humidity 50% --hours 4 --units us", "120 °F  now", "°C"},
		{"reckon heat --fill 15L --from 15C --to 40C --power 1000W", "26 min 7 s", "!"},
		{"reckon reducer --recipe soda --fill 60L --temp 36C --vessel bin", "In work: 4–11 h", "about more"},
		{"reckon reducer --recipe soda --fill 60L --temp 36C --vessel bin --lid", "At rest, under the lid: more than a day", "about more"},
		{"reckon reducer --recipe sugar-lime --fill 60L --temp 36C --vessel bin", "strip test tells", "!"},
		{"reckon capacity --recipe soda --fill 60L", "    1.5 kg  dark, 0.98–2 kg", "1.473"},
		{"reckon capacity --recipe soda --fill 15gal --units us", " lb  dark", "kg"},
		{"reckon dose --recipe soda --fill 60L --temp 33C --strip 12s", "Add 25.0 g of sodium dithionite.\n", "acid far"},
		{"reckon dose --recipe soda --fill 60L --strip 12s", "Note: read °C before the reducer goes in.\nCaution:", "!"},
		{"reckon dose --recipe soda --fill 16gal --temp 77F --heater 1000W --units us", "Warm it to 95 °F.", "41 s"},
	} {
		out, errs, code := runAt(t, thursday, words(c.line)...)
		if code != 0 || errs != "" || !strings.Contains(out, c.want) || strings.Contains(out, c.not) || strings.Contains(out, "%!") {
			t.Errorf("%s: %d %q\n%s", c.line, code, errs, out)
		}
		for line := range strings.Lines(out) {
			if n := utf8.RuneCountInString(line); n > 110 || n < 2 || strings.HasSuffix(line, "..\n") {
				t.Errorf("%s: a line of %d columns: %s", c.line, n, line)
			}
		}
	}
}

// What a dose says, and when it says nothing but no: the family's own rules, trade.md §4.
func TestDose(t *testing.T) {
	const at60 = "reckon dose --recipe soda --fill 60L "
	for _, c := range []struct {
		line, do string
		powder   any
		grams    any
		refused  bool
	}{
		{at60 + "--temp 33C --strip 10s", "reducer", "reducer", 30.0, false}, // blue strip: 0.5–1 g/L
		{at60 + "--temp 33C --strip 12s", "reducer", "reducer", 25.0, false},
		{at60 + "--temp 33C --ph 9.8 --strip 12s", "alkali", "soda", 24.0, false},
		{at60 + "--temp 33C --ph 9,8", "alkali", "soda", 24.0, false},
		{at60 + "--temp 35C --milky", "alkali", "soda", 60.0, false}, // milky: soda 1 g/L
		{at60 + "--temp 35C --seen milky", "alkali", "soda", 60.0, false},
		{at60 + "--temp 35C --seen blue,cloudy --strip 10s", "reducer", "reducer", 30.0, false},
		{at60 + "--temp 35C --strip 5s --ph 3", "stop", nil, nil, false},
		{at60 + "--temp 75C --ph 9.6", "wait", nil, nil, false},
		{at60 + "--temp 25C --strip 12s", "warm", nil, nil, false},
		{at60 + "--temp 55C --strip 12s", "wait", nil, nil, false},
		{at60 + "--temp 35C --strip 4min", "wait", nil, nil, false},
		{at60 + "--temp 35C --strip 45s", "nothing", nil, nil, false},
		{at60 + "--temp 35C --strip 12s --given reducer=120g", "stop", nil, nil, false}, // 2 g/L a day
		{at60 + "--temp 35C --strip 12s --given reducer=60g --given reducer=60g", "stop", nil, nil, false},
		{at60 + "--temp 35C --strip 12s --hands-in --heater-on", "stop", nil, nil, false},
		{at60 + "--temp 35C --ph 10.8 --goods wool --goods wool", "stop", nil, nil, true},
		{at60 + "--temp 35C --ph 10.8 --goods cotton", "nothing", nil, nil, false},
		{"reckon dose --recipe madder-bran --fill 20L --temp 35C --strip 8s", "wait", nil, nil, false}, // nobody knows when it was fed
		{"reckon dose --recipe madder-bran --fill 20L --temp 35C --strip 8s --fed 72h", "food", "bran", 20.0, false},
		{"reckon dose --recipe iron-lime --fill 20L --temp 20C --strip 8s", "reducer", "iron", 10.0, false}, // iron 0.5 + lime 0.5
	} {
		m := answer(t, c.line)
		if m["do"] != c.do || m["powder"] != c.powder || m["grams"] != c.grams || m["refused"] != c.refused {
			t.Errorf("%s: %v %v %v %v", c.line, m["do"], m["powder"], m["grams"], m["refused"])
		}
	}
	first := func(line string) any { return answer(t, line)["cautions"].([]any)[0] }
	if got := first(at60 + "--temp 35C --strip 12s --class"); !strings.Contains(fmt.Sprint(got), "no child at the powders") {
		t.Error(got)
	}
	if got := first(at60 + "--temp 35C --strip 12s --heater-on"); got != "heater off and unplugged first" {
		t.Error(got)
	}
}
