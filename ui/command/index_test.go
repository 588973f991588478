package command

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/ui/shelf"
)

// indexed runs a command with an index in a folder, at a fixed time; with an empty folder without one.
func indexed(t *testing.T, home, index string, at time.Time, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	code := Main(args, World{In: strings.NewReader(""), Out: &out, Err: &errs, Index: index, Now: func() time.Time { return at }, Getenv: func(k string) string {
		if k == "VATSIDE_HOME" {
			return home
		}
		return ""
	}})
	return strings.Join([]string{out.String(), errs.String(), string(rune('0' + code))}, "\n")
}

// What the commands answer does not depend on the index: cold, warm, with a day more, with one that is damaged, in another year.
func TestTheIndexChangesNoAnswer(t *testing.T) {
	home, index := rehearsed(t, 2), filepath.Join(t.TempDir(), "index")
	vats, err := shelf.Open(home).Vats()
	if err != nil || len(vats) != 2 {
		t.Fatal(vats, err)
	}
	days, err := shelf.Open(home).Days(vats[0])
	if err != nil || len(days) == 0 {
		t.Fatal(days, err)
	}
	path := fileOf(home, vats[0], days[0])
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	now := time.Now().Add(time.Hour) // the files are still by then
	same := func(when string) {
		t.Helper()
		for _, line := range []string{"now --json", "", "care", "care --json", "like --lab 31,-3,-20 --most 50 --json", "like --piece " + vats[1] + "/" + days[0] + "/A1", "book --json",
			"book verify --json", "sheet " + vats[0] + " --what vat", "cost --vat " + vats[0]} {
			args := strings.Fields(line)
			if want, got := indexed(t, home, "", now, args...), indexed(t, home, index, now, args...); got != want {
				t.Errorf("%s, %s: with the index\n%s\nwithout\n%s", when, line, got, want)
			}
		}
	}
	same("cold")
	entries, err := os.ReadDir(index)
	if err != nil || len(entries) != 1 {
		t.Fatalf("%d indices: %v", len(entries), err)
	}
	same("warm")
	place(t, home, vats[0], "2020-01-02", text)
	same("a day more")
	same("a day more, warm")
	place(t, home, vats[0], "2020-01-02", text[:len(text)-7])
	same("torn")
	if err := os.Remove(fileOf(home, vats[0], "2020-01-02")); err != nil {
		t.Fatal(err)
	}
	same("a day less")
	now = now.AddDate(1, 0, 0)
	same("in another year")

	// A changed byte in a file whose size, time and last checksum are as they were is found by book verify, warm.
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	bent := bytes.Replace(text, []byte("\nseq = 4\n"), []byte("\nseq = 5\n"), 1)
	place(t, home, vats[0], days[0], bent)
	if err := os.Chtimes(path, info.ModTime(), info.ModTime()); err != nil {
		t.Fatal(err)
	}
	if got := indexed(t, home, index, now, "book", "verify"); bytes.Equal(bent, text) || !strings.HasSuffix(got, "\n1") || !strings.Contains(got, days[0]+".toml:") {
		t.Errorf("book verify says %s", got)
	}
	same("after it was found")
}
