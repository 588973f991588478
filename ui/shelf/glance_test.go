package shelf

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
)

// A day is understood once for as long as its bytes and the date stay, and what one reader does to its lists no other sees.
func TestADayIsUnderstoodOnce(t *testing.T) {
	text, err := os.ReadFile("../../testdata/days/soda-bin.toml")
	if err != nil {
		t.Fatal(err)
	}
	text = append(text, "\n[[event]]\nseq = 87\nkind = \"later\"\n# end 87 00000000\n\n[[event]]\nseq = 88\n"...)
	today := time.Date(2026, 5, 9, 18, 0, 0, 0, time.UTC)
	want := book.ReadOn(today, "a", text)
	if len(want.Unread)+len(want.Marks) == 0 || len(want.Torn) == 0 || len(want.Gaps) == 0 {
		t.Fatalf("the day has nothing to spoil: %+v", want.Frame)
	}
	for range 3 {
		got := understood(today, "a", text, sighting{})
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("%+v\nnot\n%+v", got.Frame, want.Frame)
		}
		clear(got.Events)
		clear(got.Marks)
		clear(got.Unread)
		clear(got.Gaps)
		clear(got.Torn)
		_ = append(got.Events[:1], want.Events[3])
	}
	for _, other := range []struct {
		name, file string
		today      time.Time
		text       []byte
	}{{"in 200 years", "a", today.AddDate(200, 0, 0), text}, {"another text", "a", today, text[:len(text)-20]}, {"another file", "b", today, text}} {
		understood(today, "a", text, sighting{})
		if got := understood(other.today, other.file, other.text, sighting{}); reflect.DeepEqual(got, want) {
			t.Errorf("%s is taken for the day that was read before", other.name)
		}
	}
	for i := range 3 * latelyMost {
		understood(today, strings.Repeat("x", i), text, sighting{})
	}
	if n := len(lately.of); n > latelyMost {
		t.Errorf("%d days are kept", n)
	}
}

func TestGlance(t *testing.T) {
	h := Open(t.TempDir())
	if _, _, ok := h.Glance("bin"); ok {
		t.Error("a vat that is not there has an open day")
	}
	put := func(name, text string) {
		t.Helper()
		if err := os.MkdirAll(h.VatDir("bin"), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(h.DayFile("bin", name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	whole, err := os.ReadFile("../../testdata/days/soda-bin.toml")
	if err != nil {
		t.Fatal(err)
	}
	open, _, _ := strings.Cut(string(whole), "\n[[event]]\nseq = 40\n")
	put("2026-05-09", open)
	name, b, ok := h.Glance("bin")
	if want, err := h.ReadDay("bin", "2026-05-09"); !ok || name != "2026-05-09" || err != nil || !reflect.DeepEqual(b, want) {
		t.Errorf("%s, %v: %d events, not %d", name, ok, len(b.Events), len(want.Events))
	}
	put("2026-05-09-10", string(whole))
	if name, _, ok := h.Glance("bin"); ok {
		t.Errorf("%s is closed, and is shown", name)
	}
	put("2026-05-09-10", "format = 1\nvat = ")
	if name, _, ok := h.Glance("bin"); ok {
		t.Errorf("%s has no head, and is shown", name)
	}
	if _, _, ok := h.Glance("../bin"); ok {
		t.Error("a folder out of the home is looked at")
	}
}

// counted counts the files and the folders that the shelf opens to read, by their paths, for as long as the test runs.
func counted(t *testing.T) map[string]int {
	of := map[string]int{}
	open, read := openToRead, readDir
	t.Cleanup(func() { openToRead, readDir = open, read })
	openToRead = func(path string) (*os.File, error) { of[path]++; return open(path) }
	readDir = func(dir string) ([]os.DirEntry, error) { of[dir]++; return read(dir) }
	return of
}

// unclosed puts an open day into a home, that has been still.
func unclosed(t *testing.T, h Home, vat, name string) (path string) {
	t.Helper()
	text := indexedDays(t)["bin/2026-05-09"]
	end := bytes.Index(text, []byte("\n# end 40 "))
	path = h.DayFile(vat, name)
	put(t, path, text[:end+1+bytes.IndexByte(text[end+1:], '\n')+1])
	return path
}

// At the start of an open day its file is read to be shown and once more under its lock, and so are the spills listed.
func TestTheStartReadsADayOnce(t *testing.T) {
	h, _ := indexedHome(t)
	const vat, name = "run", "2026-05-09"
	path, spilled := unclosed(t, h, vat, name), h.places[0].dir
	must(t, os.Mkdir(spilled, 0o700))
	must(t, os.Chtimes(spilled, indexStill, indexStill))
	for _, kept := range []bool{false, true} {
		h = again(h)
		of := counted(t)
		if _, _, ok := h.Glance(vat); !ok {
			t.Fatal("the day is not seen at a glance")
		}
		days, err := h.VatDays(vat)
		must(t, err)
		if _, _, found, err := h.LastOf(vat, days); !found || err != nil || len(days.Open) != 1 {
			t.Fatalf("%v: %v", days, err)
		}
		w, b, err := h.OpenDay(vat, name)
		must(t, err)
		must(t, w.Close())
		if of[path] != 2 || of[spilled] != 2 || len(b.Events) == 0 {
			t.Errorf("with a kept index %v: the file is opened %d times, the spills are listed %d times", kept, of[path], of[spilled])
		}
		h.KeepIndex()
	}
}

// What is written between two readings is read, however short the time and whatever the file's own time of change then is.
func TestWhatIsWrittenBetweenTwoReadings(t *testing.T) {
	const vat, name = "run", "2026-05-09"
	for what, change := range map[string]func(t *testing.T, h Home, path string, text []byte){
		"it is longer": func(t *testing.T, _ Home, path string, text []byte) { put(t, path, text) },
		"another in its place": func(t *testing.T, _ Home, path string, text []byte) {
			must(t, os.Rename(path, path+"-was"))
			put(t, path, text)
		},
		"just now, and as long": func(t *testing.T, _ Home, path string, text []byte) { must(t, os.WriteFile(path, text, 0o644)) },
		"beside it, as a spill": func(t *testing.T, h Home, _ string, text []byte) {
			must(t, os.MkdirAll(h.places[0].dir, 0o700))
			put(t, filepath.Join(h.places[0].dir, "run.2026-05-09.x.toml"), nil)
		},
	} {
		h, _ := indexedHome(t)
		path := unclosed(t, h, vat, name)
		_, was, ok := h.Glance(vat)
		if !ok {
			t.Fatal("the day is not seen at a glance")
		}
		text, err := os.ReadFile(path)
		must(t, err)
		if what == "it is longer" {
			text = append(text, "\n[[event]]\nseq = 9"...)
		} else {
			text = bytes.Replace(text, []byte("seq = 12\n"), []byte("seq = 13\n"), 1)
		}
		of := counted(t)
		change(t, h, path, text)
		_, now, _ := h.Glance(vat)
		if strings.HasPrefix(what, "beside") {
			if of[filepath.Join(h.places[0].dir, "run.2026-05-09.x.toml")] == 0 {
				t.Errorf("%s: it is not looked at", what)
			}
		} else if reflect.DeepEqual(was.Frame, now.Frame) {
			t.Errorf("%s: it is not read", what)
		}
	}
}
