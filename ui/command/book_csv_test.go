package command

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"example.org/vatside/model/book"
)

// playedHome is a home with the days of testdata/days.
func playedHome(t *testing.T) string {
	t.Helper()
	home := t.TempDir()
	for _, name := range []string{"soda-bin", "soda-bin-second-day", "sugar-lime-pail", "sugar-lime-pail-next-day"} {
		path := filepath.Join("..", "..", "testdata", "days", name+".toml")
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		h := book.Read(path, data).Head
		dir := filepath.Join(home, "vats", h.Vat)
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, h.Day+".toml"), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return home
}

// goesWell runs a command that must go well, and gives what it prints.
func goesWell(t *testing.T, home string, args ...string) string {
	t.Helper()
	out, errs, code := run(t, home, args...)
	if code != 0 || errs != "" {
		t.Fatalf("%v: %d %s", args, code, errs)
	}
	return out
}

// changeFile replaces text in a file once, and fails if it is not there.
func changeFile(t *testing.T, path, old, repl string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil || !strings.Contains(string(data), old) {
		t.Fatalf("no %q in %s: %v", old, path, err)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(data), old, repl, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
}

// The book goes into tables and comes out of them in another home: the same events in the same words.
func TestBookThereAndBack(t *testing.T) {
	home, away := playedHome(t), filepath.Join(t.TempDir(), "away")
	dir := filepath.Join(t.TempDir(), "new", "tables")
	if got, want := goesWell(t, home, "book", "export", "--csv", dir), "4 days, 188 events, 9 pieces, 10 readings in "+dir+".\n"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	if got, want := goesWell(t, away, "book", "import", "--csv", dir), "4 days, 188 events, 9 pieces, 10 readings imported.\n"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	if got, want := goesWell(t, away, "book", "verify"), "4 days, 188 events: all read whole.\n"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	for _, args := range [][]string{{"book"}, {"book", "--json"}, {"now"}} {
		if goesWell(t, home, args...) != goesWell(t, away, args...) {
			t.Errorf("%v tells another story", args)
		}
	}
	if got := goesWell(t, away, "book", "import", "--csv", dir); !strings.HasSuffix(got, "pail/2026-05-17 is in the book already, the same: passed over.\nNo day of the tables is new.\n") {
		t.Errorf("%q", got)
	}
}

func TestBookTablesAsJSON(t *testing.T) {
	home, away, dir := playedHome(t), t.TempDir(), t.TempDir()
	read := func(home string, args ...string) map[string]any {
		var m map[string]any
		if err := json.Unmarshal([]byte(goesWell(t, home, args...)), &m); err != nil {
			t.Fatal(err)
		}
		if keys := len(m); keys != 6 {
			t.Errorf("%d keys: %v", keys, m)
		}
		return m
	}
	want := map[string]any{"days": 2.0, "events": 137.0, "pieces": 8.0, "readings": 7.0, "passed_over": []any{}, "files": []any{}}
	for _, name := range book.TableFiles {
		want["files"] = append(want["files"].([]any), filepath.Join(dir, name))
	}
	if got := read(home, "book", "export", "--json", "--bom", "--csv", dir, "Garden bin", "garden-bin"); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, not %v", got, want)
	}
	if data, _ := os.ReadFile(filepath.Join(dir, book.DaysFile)); !strings.HasPrefix(string(data), "\ufeffvat,day,") {
		t.Errorf("no mark: %.20q", data)
	}
	want["files"] = []any{filepath.Join(away, "vats", "garden-bin", "2026-05-09.toml"), filepath.Join(away, "vats", "garden-bin", "2026-05-10.toml")}
	if got := read(away, "book", "import", "--json", "--csv", dir); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, not %v", got, want)
	}
	want = map[string]any{"days": 0.0, "events": 0.0, "pieces": 0.0, "readings": 0.0, "files": []any{}, "passed_over": []any{"garden-bin/2026-05-09", "garden-bin/2026-05-10"}}
	if got := read(away, "book", "import", "--json", "--csv", dir); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, not %v", got, want)
	}
}

// What is refused is told in one sentence, and nothing at all is written.
func TestBookTablesRefused(t *testing.T) {
	home, full := playedHome(t), t.TempDir()
	goesWell(t, home, "book", "export", "--csv", full)
	none := filepath.Join(t.TempDir(), "none")
	days, events := filepath.Join(full, "days.csv"), filepath.Join(full, "events.csv")

	for _, c := range []struct {
		name string
		home string
		args string
		code int
		says string
	}{
		{"no folder", home, "export", 2, "book export needs --csv; see vatside book export --help"},
		{"an empty one", home, "import --csv ", 2, "--csv is given with nothing in it; see vatside book import --help"},
		{"a word too many", none, "import --csv " + full + " bin", 2, `unknown command "bin" for "vatside book import"; see vatside book import --help`},
		{"no such vat", home, "export --csv " + none + " tub", 1, `no vat is called "tub": there are garden-bin, pail`},
		{"no vats", none, "export --csv " + none + " tub", 1, `no vat is called "tub": there is none in the book yet`},
		{"tables are there", home, "export --csv " + full, 1,
			"days.csv, events.csv, pieces.csv, readings.csv are in " + full + " already, and nothing is written over; name a folder without them"},
		{"a file", home, "export --csv " + days, 1, days + " is a file; name a folder for the tables"},
		{"no tables", none, "import --csv " + none, 1, "there is no days.csv in " + none + "; days come from days.csv and events.csv of one folder"},
	} {
		args := strings.Split("book "+c.args, " ")
		out, errs, code := run(t, c.home, args...)
		if code != c.code || out != "" || errs != "vatside: "+c.says+"\n" {
			t.Errorf("%s: %d %q\n got %swant %s", c.name, code, out, errs, c.says)
		}
		if _, err := os.Stat(none); err == nil {
			t.Fatalf("%s: something was made", c.name)
		}
	}

	for _, c := range []struct{ name, file, old, repl, says string }{
		{"a day of another form", days, "garden-bin,2026-05-09,Garden", "garden-bin,09.05.2026,Garden",
			days + `:2, column day: "09.05.2026" is not how the book names a day; write its date as 2026-11-25, a second day of that date as 2026-11-25-2`},
		{"a vat out of the home", days, "garden-bin,2026-05-09,Garden", "../x,2026-05-09,Garden",
			days + `:2, column vat: "../x" is not the name of a vat's folder; write it as garden-bin`},
		{"a time of another form", events, "2026-05-09T09:02:00+02:00", "09.05.26 09:02",
			events + `:3, column at: "09.05.26 09:02" is not a time as the book has it; write it as 2026-11-25T09:30:00+01:00; nothing is imported`},
		{"an amount without a unit", events, `mass = ""60 g""`, `mass = ""60""`,
			events + `:5, row 4, column fields: they cannot be read: mass: 60 has no unit; a mass is needed, such as 1.5 kg; each line is key = "value", as the export writes them; nothing is imported`},
	} {
		was, err := os.ReadFile(c.file)
		if err != nil {
			t.Fatal(err)
		}
		changeFile(t, c.file, c.old, c.repl)
		out, errs, code := run(t, none, "book", "import", "--csv", full)
		if code != 1 || out != "" || !strings.HasPrefix(errs, "vatside: "+c.says) || !strings.HasSuffix(errs, "nothing is imported\n") {
			t.Errorf("%s: %d %q\n got %swant %s", c.name, code, out, errs, c.says)
		}
		if _, err := os.Stat(none); err == nil {
			t.Fatalf("%s: something was made", c.name)
		}
		if err := os.WriteFile(c.file, was, 0o644); err != nil {
			t.Fatal(err)
		}
	}

	// A day that is another one here: it stays, and the three others do not come either.
	away := t.TempDir()
	other := filepath.Join(away, "vats", "pail", "2026-05-17.toml")
	if err := os.MkdirAll(filepath.Dir(other), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(other, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	out, errs, code := run(t, away, "book", "import", "--csv", full)
	if want := "vatside: nothing is imported: the vat pail has another day 2026-05-17 already, and no day is written over; give this one another name, such as 2026-05-17-2\n"; code != 1 || out != "" || errs != want {
		t.Errorf("%d %q %q", code, out, errs)
	}
	if data, _ := os.ReadFile(other); string(data) != "mine" {
		t.Errorf("the other day is now %q", data)
	}
	if entries, _ := os.ReadDir(filepath.Join(away, "vats")); len(entries) != 1 {
		t.Errorf("%v", entries)
	}
}

// Many faults are told one a line, the first twenty of them.
func TestBookTablesWithManyFaults(t *testing.T) {
	home, dir := playedHome(t), t.TempDir()
	goesWell(t, home, "book", "export", "--csv", dir)
	events := filepath.Join(dir, "events.csv")
	data, err := os.ReadFile(events)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(events, []byte(strings.ReplaceAll(string(data), "2026-05-09T", "9 May ")), 0o644); err != nil {
		t.Fatal(err)
	}
	_, errs, code := run(t, filepath.Join(t.TempDir(), "none"), "book", "import", "--csv", dir)
	lines := strings.Split(strings.TrimSpace(errs), "\n")
	if code != 1 || len(lines) != toldMost+2 || lines[toldMost] != "vatside: and 64 more" || lines[toldMost+1] != "vatside: 84 parts of the tables cannot be read; nothing is imported" {
		t.Errorf("%d, %d lines\n%s", code, len(lines), errs)
	}
}

// What cannot be read in the book is told with the export, and what is odd in a table with the import.
func TestBookTablesTellWhatIsOdd(t *testing.T) {
	home, dir := playedHome(t), t.TempDir()
	changeFile(t, filepath.Join(home, "vats", "garden-bin", "2026-05-09.toml"), `mass = "60 g"`, `mass = 60`)
	changeFile(t, filepath.Join(home, "vats", "pail", "2026-05-17.toml"), "format = 1", "format = 9")
	out, errs, code := run(t, home, "book", "export", "--csv", dir)
	for _, want := range []string{"garden-bin/2026-05-09:", ": an event is left out, it cannot be read: mass: it is not a text with its unit\n",
		"pail/2026-05-17:1: the day is left out, its head cannot be read: it is of format 9"} {
		if !strings.Contains(errs, want) {
			t.Errorf("no %q in %s", want, errs)
		}
	}
	if code != 0 || !strings.HasPrefix(out, "3 days, ") || !strings.HasSuffix(out, "; 2 parts of the book cannot be read and are not in them.\n") {
		t.Errorf("%d %s", code, out)
	}
	changeFile(t, filepath.Join(dir, "events.csv"), ",note,", ",moon watched,")
	_, errs, code = run(t, t.TempDir(), "book", "import", "--csv", dir)
	if code != 0 || !strings.Contains(errs, filepath.Join(dir, "events.csv")+":") ||
		!strings.Contains(errs, `column kind: no event known here is of the kind "moon watched"; it is kept for a later version`) ||
		!strings.Contains(errs, "garden-bin/2026-05-09:") || !strings.Contains(errs, "event 3 is missing before this line") {
		t.Errorf("%d %s", code, errs)
	}
}
