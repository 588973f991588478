package command

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// halves leaves of each day the first n events.
func halves(t testing.TB, home string, n int) {
	t.Helper()
	files, _ := filepath.Glob(filepath.Join(home, "vats", "*", "*.toml"))
	if len(files) == 0 {
		t.Fatal("no days")
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		i := bytes.Index(text, fmt.Appendf(nil, "\n# end %d ", n))
		end := i + 1 + bytes.IndexByte(text[i+1:], '\n') + 1
		if err := os.WriteFile(file, text[:end], 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func nowJSON(t *testing.T, home string) (days, due []any) {
	t.Helper()
	out, errs, code := run(t, home, "now", "--json")
	var m map[string]any
	if err := json.Unmarshal([]byte(out), &m); err != nil || code != 0 || errs != "" || len(m) != 3 {
		t.Fatalf("%v %d %s %s", err, code, errs, out)
	}
	return m["days"].([]any), m["due"].([]any)
}

const liquorForm = "{below_low_at %s, indigo_g %s, indigo_known %s, lidded_below_low_at %s, ph_high %s, ph_known %s, ph_likely %s, ph_low %s, " +
	"reducer_known %s, reducer_rest_h %s, reducer_work_h %s, temp_c %s, temp_known %s}"

func TestNowTellsOfTheLiquor(t *testing.T) {
	home := t.TempDir()
	run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	halves(t, home, 46)
	days, _ := nowJSON(t, home)
	m := days[0].(map[string]any)
	for _, key := range []string{"vat", "day", "rehearsed", "at", "line", "due_at", "left_s", "liquor", "call", "sound"} {
		if _, ok := m[key]; !ok || len(m) != 10 {
			t.Fatalf("keys: %v", m)
		}
	}
	want := fmt.Sprintf(liquorForm, "text", rangeForm, "text", "text", "number", "text", "number", "number", "text", rangeForm, rangeForm, "number", "text")
	liquor := m["liquor"].(map[string]any)
	if got := form(liquor); got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
	at, _ := time.Parse(time.RFC3339, m["at"].(string))
	open, err := time.Parse(time.RFC3339, liquor["below_low_at"].(string))
	lidded, err2 := time.Parse(time.RFC3339, liquor["lidded_below_low_at"].(string))
	if err != nil || err2 != nil || !open.After(at) || lidded.Before(open) {
		t.Errorf("at %v, open %v, lidded %v", at, open, lidded)
	}
	for key, one := range map[string]string{"temp_known": "reckoned", "ph_known": "reckoned", "reducer_known": "guessed", "indigo_known": "reckoned"} {
		if liquor[key] != one {
			t.Errorf("%s is %v, want %s", key, liquor[key], one)
		}
	}
	// 60 L of the built-in soda vat hold 54 g of pure indigo (60 · 1.5 · 0.60); no piece has had a dip.
	if g := of(t, liquor, "indigo_g", "likely"); g != 54 {
		t.Errorf("%v g of indigo", g)
	}
	if l, p, h := of(t, liquor, "ph_low"), of(t, liquor, "ph_likely"), of(t, liquor, "ph_high"); l > p || p > h || l < 8 || h > 12.5 {
		t.Errorf("pH %v %v %v", l, p, h)
	}
}

// A vessel into which nothing was filled has no liquor to tell of; a closed day's is not reckoned.
func TestNowKnowsNothingOfAnEmptyVessel(t *testing.T) {
	home := t.TempDir()
	typed(t, home, "1\n1\n25\n\n\nname Blue pail\n\n1\n1\n1\n\nq\n", "--plain")
	days, _ := nowJSON(t, home)
	var none []any
	for range 13 {
		none = append(none, "null")
	}
	if got := form(days[0].(map[string]any)["liquor"]); got != fmt.Sprintf(liquorForm, none...) {
		t.Errorf("%s", got)
	}
	home = t.TempDir()
	run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	days, due := nowJSON(t, home)
	if len(days) != 0 {
		t.Errorf("%v", days)
	}
	for _, d := range due {
		if m := d.(map[string]any); len(m) != 4 || m["liquor"] != nil {
			t.Errorf("%v", m)
		}
	}
}

// Each open day has its call, and at the top stands the one that rules: danger, then lifting, then the earliest due.
func TestNowTellsTheCallThatRules(t *testing.T) {
	read := func(home string) (days []map[string]any, top map[string]any) {
		out, _, _ := run(t, home, "now", "--json")
		var m struct {
			Days []struct{ Call map[string]any }
			Call map[string]any
		}
		if err := json.Unmarshal([]byte(out), &m); err != nil {
			t.Fatal(err)
		}
		for _, d := range m.Days {
			days = append(days, d.Call)
		}
		return days, m.Call
	}
	if days, top := read(t.TempDir()); len(days) != 0 || top != nil {
		t.Errorf("without a day the call is %v", top)
	}
	home := t.TempDir()
	for range 3 {
		run(t, "", "rehearse", "--plain", "--speed", "max", "--home", home)
	}
	halves(t, home, 46)
	days, top := read(home)
	want := "{danger bool, due_at text, figure number, id text, object text, press text, short text, unit text, verb text}"
	if len(days) != 3 || form(top) != want || fmt.Sprint(top) != fmt.Sprint(days[0]) || top["id"] != "lift A1 1" || top["short"] != "A1 IN" || top["unit"] != "s" {
		t.Errorf("%v, at the top %v", days, top)
	}
	first, _ := filepath.Glob(filepath.Join(home, "vats", "garden-bin", "*.toml"))
	text, _ := os.ReadFile(first[0])
	halves(t, home, 3) // a weighing
	if err := os.WriteFile(first[0], text, 0o644); err != nil {
		t.Fatal(err)
	}
	days, top = read(home)
	if len(days) != 3 || top["danger"] != true || top["verb"] != "weigh" || days[2]["verb"] != "lift" {
		t.Errorf("%v, at the top %v", days, top)
	}
}

// Twenty vats with a day open in each: the budget for opening a home of that size is 100 ms (DESIGN.md).
func BenchmarkNow20(b *testing.B) {
	home := b.TempDir()
	look := func(args ...string) {
		var o, e bytes.Buffer
		if code := Main(args, World{In: bytes.NewReader(nil), Out: &o, Err: &e}); code != 0 {
			b.Fatal(e.String())
		}
	}
	for range 20 {
		look("rehearse", "--plain", "--speed", "max", "--home", home)
	}
	halves(b, home, 46)
	b.Run("line", func(b *testing.B) {
		for b.Loop() {
			look("now", "--home", home)
		}
	})
	b.Run("json", func(b *testing.B) {
		for b.Loop() {
			look("now", "--json", "--home", home)
		}
	})
}
