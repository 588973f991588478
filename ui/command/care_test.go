package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/ui/shelf"
)

// playedDays puts days of testdata into a home, "name:vat/day".
func playedDays(t *testing.T, days ...string) string {
	t.Helper()
	home := t.TempDir()
	for _, d := range days {
		name, at, _ := strings.Cut(d, ":")
		vat, day, _ := strings.Cut(at, "/")
		text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "days", name+".toml"))
		if err != nil {
			t.Fatal(err)
		}
		place(t, home, vat, day, text)
	}
	return home
}

var theBin = []string{"soda-bin:garden-bin/2026-05-09", "soda-bin-second-day:garden-bin/2026-05-10"}

func TestCareInWords(t *testing.T) {
	home := playedDays(t, append(theBin, "sugar-lime-pail:pail/2026-05-16")...)
	now := time.Date(2026, 5, 19, 9, 0, 0, 0, time.FixedZone("", 7200))
	out, errs, code := runAt(t, now, "care", "--home", home)
	if code != 0 || errs != "" {
		t.Fatalf("%d %q", code, errs)
	}
	for _, must := range []string{
		"Garden bin\n", "  Look at it, overdue by 1 day: note °C", "Top it up, 2.2 L, due now: warm water", "indigo: ", "enough for: ", "pH: 10.2, measured, on 10 May",
		"What worked here: the last time (", "Pail\n  See if it is ready, overdue by 1 day\n",
	} {
		if !strings.Contains(out, must) {
			t.Errorf("no %q in\n%s", must, out)
		}
	}
	if out, _, _ := runAt(t, now.AddDate(0, 0, -5), "care", "--home", home, "--vat", "garden-bin"); !strings.Contains(out, "Nothing is due.\n  Next: Look at it, in 3 days, on 17 May\n") {
		t.Errorf("nothing is due on the 14th:\n%s", out)
	}
	if strings.Index(out, "Garden bin") > strings.Index(out, "Pail") { // since 11:21 a week and 2 days ago, and since 14:24 two days ago
		t.Errorf("the more overdue vat comes first:\n%s", out)
	}
	if out, _, _ := runAt(t, now, "care", "--home", home, "--vat", "pail"); strings.Contains(out, "Garden") || !strings.Contains(out, "Pail") {
		t.Errorf("one vat:\n%s", out)
	}
	// Rehearsed vats stand at their own time, and say so.
	if out, _, _ := runAt(t, now, "care", "--home", rehearsed(t, 1)); !strings.Contains(out, "(rehearsed)\n") || strings.Contains(out, "overdue") {
		t.Errorf("rehearsed:\n%s", out)
	}
	if out, _, code := runAt(t, now, "care", "--home", t.TempDir()); code != 0 || out != "No vat is in the book yet.\n" {
		t.Errorf("%d %q", code, out)
	}
	gone := playedDays(t, append(theBin, "soda-bin-last-day:garden-bin/2026-05-24", "soda-bin-gone:garden-bin/2026-05-25")...)
	if out, _, code := runAt(t, now, "care", "--home", gone); code != 0 || out != "No vat is kept: those of the book have ended.\n" {
		t.Errorf("%d %q", code, out)
	}
	if out, _, _ := runAt(t, now, "care", "--home", gone, "--vat", "garden-bin"); !strings.Contains(out, "The vat has ended.") || strings.Contains(out, "Next") {
		t.Errorf("%s", out)
	}
}

func TestCareAsJSON(t *testing.T) {
	home := playedDays(t, theBin...)
	out, errs, code := runAt(t, time.Date(2026, 5, 18, 9, 0, 0, 0, time.FixedZone("", 7200)), "care", "--home", home, "--vat", "Garden bin", "--json")
	var got cared
	if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" || len(got.Vats) != 1 {
		t.Fatalf("%v %d %q\n%s", err, code, errs, out)
	}
	v := got.Vats[0]
	if v.Vat != "garden-bin" || v.Name != "Garden bin" || v.DayOpen || v.Ended || v.LastDay != "2026-05-10" || v.RestsSince != nil || v.Worked == "" {
		t.Errorf("%+v", v)
	}
	ids := map[string]bool{}
	for i, d := range v.Due {
		ids[d.ID] = true
		if d.PastH != nil && *d.PastH < 0 || d.Do == "" || d.When == "" || i > 0 && d.PastH != nil && v.Due[i-1].PastH != nil && *d.PastH > *v.Due[i-1].PastH {
			t.Errorf("due: %+v", d)
		}
	}
	if !ids["look"] || !ids["swatch"] {
		t.Errorf("a week and a day on: %v", ids)
	}
	if v.IndigoG == nil || v.IndigoG.Likely < 40 || v.IndigoG.Likely > 54 || v.IndigoUsed == nil || *v.IndigoUsed <= 0 || len(v.Capacity) < 4 || v.LevelKnown == nil {
		t.Errorf("%+v", v)
	}
	if len(v.Readings) != 3 || v.Readings[1].What != "ph" || v.Readings[1].Value != 10.2 || !strings.HasPrefix(v.Readings[1].At, "2026-05-10T10:01") {
		t.Errorf("%+v", v.Readings)
	}
	var keys struct{ Vats []map[string]any }
	if err := json.Unmarshal([]byte(out), &keys); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"due", "next", "under_full_l", "sediment_cm", "sediment_deep", "last_readings", "indigo_used_percent", "rests_since"} {
		if _, ok := keys.Vats[0][key]; !ok {
			t.Errorf("no key %s", key)
		}
	}
}

func TestCareRefusals(t *testing.T) {
	home := playedDays(t, theBin...)
	for _, c := range []struct {
		code int
		says string
		args []string
	}{
		{1, `no vat is called "pot": there are garden-bin`, []string{"--vat", "pot"}},
		{2, "--vat is given with nothing in it", []string{"--vat", ""}},
		{2, "garden-bin", []string{"garden-bin"}},
		{1, "--units is metric, us or imperial", []string{"--units", "ells"}},
	} {
		out, errs, code := runAt(t, thursday, append([]string{"care", "--home", home}, c.args...)...)
		if code != c.code || out != "" || !strings.Contains(errs, c.says) || strings.Count(errs, "\n") != 1 {
			t.Errorf("care %v: %d %q %q", c.args, code, out, errs)
		}
	}
	// A day that cannot be read is told, and the others speak.
	broken := filepath.Join(shelf.Open(home).VatDir("garden-bin"), "2026-05-08.toml")
	if err := os.WriteFile(broken, []byte("format = 1\nvat = 3\n# end 0 00000000\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	out, errs, code := runAt(t, thursday, "care", "--home", home)
	if code != 0 || !strings.Contains(errs, "day 2026-05-08 is left out") || !strings.Contains(out, "Garden bin") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
}

// What worked at a vat opens the advice of its signs, in words and as JSON.
func TestSignsSayWhatWorkedHere(t *testing.T) {
	home := playedDays(t, theBin...)
	now := time.Date(2026, 5, 11, 9, 0, 0, 0, time.UTC)
	out, errs, code := runAt(t, now, "signs", "--home", home, "--vat", "garden-bin", "--seen", "grass green")
	if code != 0 || errs != "" || !strings.HasPrefix(out, "What worked here: the last time (") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
	var got signed
	out, _, _ = runAt(t, now, "signs", "--home", home, "--vat", "garden-bin", "--seen", "grass green", "--json")
	if err := json.Unmarshal([]byte(out), &got); err != nil || !strings.Contains(got.Worked, "15 g of sodium dithionite") {
		t.Errorf("%v %q", err, got.Worked)
	}
	out, _, _ = runAt(t, now, "signs", "--recipe", "soda", "--fill", "60L", "--seen", "grass green", "--json")
	if err := json.Unmarshal([]byte(out), &got); err != nil || got.Worked != "" {
		t.Errorf("no vat, and this worked: %q", got.Worked)
	}
}

// What was tried on an open day without help falls back among the causes.
func TestSignsCountWhatWasTried(t *testing.T) {
	weights := func(home string) map[string]float64 {
		out, errs, code := runAt(t, thursday, "signs", "--home", home, "--vat", "garden-bin", "--seen", "grass green", "--json")
		var got signed
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 || errs != "" {
			t.Fatalf("%v %d %q", err, code, errs)
		}
		sums := map[string]float64{}
		for _, c := range got.Causes {
			sums[c.ID] = c.Weight
		}
		return sums
	}
	home := playedDays(t, theBin...)
	file := filepath.Join(home, "vats", "garden-bin", "2026-05-10.toml")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	mended := strings.NewReplacer(`cause = "tired"`, `cause = "part-reduced"`, `answer = "better"`, `answer = "the same"`).Replace(string(text))
	if text = []byte(mended); strings.Count(mended, "part-reduced") != 2 {
		t.Fatalf("the played day has another treatment:\n%s", mended)
	}
	cut := func(n string) {
		at := strings.Index(string(text), "\n# end "+n+" ")
		end := at + 1 + strings.IndexByte(string(text[at+1:]), '\n') + 1
		if err := os.WriteFile(file, text[:end], 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cut("20")
	before := weights(home)
	cut("24")
	after := weights(home)
	if !(after["part-reduced"] < before["part-reduced"]) {
		t.Errorf("treated and no better, and it weighs %v, %v before", after["part-reduced"], before["part-reduced"])
	}
}

// Without a terminal the program says what is due, too.
func TestWhatIsDueWithoutATerminal(t *testing.T) {
	home := t.TempDir()
	for _, name := range []string{"soda-bin", "soda-bin-second-day"} { // years ago by any clock
		text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "days", name+".toml"))
		if err != nil {
			t.Fatal(err)
		}
		old := strings.ReplaceAll(string(text), "2026-05-", "2019-05-")
		at := map[string]string{"soda-bin": "2019-05-09", "soda-bin-second-day": "2019-05-10"}[name]
		place(t, home, "garden-bin", at, []byte(old))
	}
	if out, errs, code := run(t, home); code != 0 || errs != "" || !strings.Contains(out, "Garden bin: last day 2019-05-10") || !strings.Contains(out, "  Revive it: due now.\n") {
		t.Errorf("%d %q\n%s", code, errs, out)
	}
}

type cared struct {
	Vats []caredVat `json:"vats"`
}

type caredVat struct {
	Vat          string         `json:"vat"`
	Name         string         `json:"name"`
	Rehearsed    bool           `json:"rehearsed"`
	At           string         `json:"at"`
	LastDay      string         `json:"last_day"`
	DayOpen      bool           `json:"day_open"`
	Ended        bool           `json:"ended"`
	RestsSince   *string        `json:"rests_since"`
	Due          []caredDue     `json:"due"`
	Next         []caredDue     `json:"next"`
	IndigoG      *spread        `json:"indigo_g"`
	IndigoKnown  *string        `json:"indigo_known"`
	IndigoUsed   *float64       `json:"indigo_used_percent"` // of what a vat as strong as the recipe can give
	Feed         string         `json:"feed"`
	Capacity     []caredDepth   `json:"capacity"`
	UnderFullL   *spread        `json:"under_full_l"`
	LevelKnown   *string        `json:"level_known"`
	SedimentCM   *float64       `json:"sediment_cm"`
	SedimentDeep bool           `json:"sediment_deep"`
	Readings     []caredReading `json:"last_readings"`
	Worked       string         `json:"worked"`
}

type caredDue struct {
	ID       string   `json:"id"`
	Do       string   `json:"do"`
	AmountL  *float64 `json:"amount_l"` // of water, for a topping up
	How      string   `json:"how"`
	Why      string   `json:"why"`
	Evidence string   `json:"evidence"`
	At       *string  `json:"at"`     // null: the clock does not say
	PastH    *float64 `json:"past_h"` // hours past it; below 0 still to come
	Overdue  bool     `json:"overdue"`
	When     string   `json:"when"`
}

type caredDepth struct {
	Depth   string `json:"depth"`
	GoodsKG spread `json:"goods_kg"` // dry
}

type caredReading struct {
	What  string  `json:"what"` // temp_c, ph, strip_s
	Value float64 `json:"value"`
	At    string  `json:"at"`
}
