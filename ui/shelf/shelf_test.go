package shelf

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// oldFile is the sample day that is kept for ever; here it lends its head.
const oldFile = "../../testdata/old/format-1.toml"

// head is the head of a day at a new vat.
func head(t *testing.T) day.Head {
	t.Helper()
	data, err := os.ReadFile(oldFile)
	if err != nil {
		t.Fatal(err)
	}
	b := book.Read(oldFile, data)
	if !b.HeadWhole {
		t.Fatal(b.HeadErr)
	}
	return b.Head
}

// note is one event.
func note(seq int, text string) day.Event {
	return day.Event{Seq: seq, At: time.Date(2026, 11, 25, 9, seq, 0, 0, time.UTC), Body: day.Note{Text: text}}
}

// begin makes a home with one day, open for writing.
func begin(t *testing.T) (Home, *Writer) {
	t.Helper()
	h := Open(filepath.Join(t.TempDir(), "home"))
	w, err := h.NewDay(head(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = w.Close() })
	return h, w
}

// must fails the test on an error.
func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// seqs are the numbers of the events in a file that must be whole.
func seqs(t *testing.T, path string) []int {
	t.Helper()
	data, err := os.ReadFile(path)
	must(t, err)
	b := book.Read(path, data)
	if fs := book.Verify(b); len(fs) > 0 {
		t.Errorf("not whole: %v\n%s", fs, data)
	}
	var out []int
	for _, e := range b.Events {
		out = append(out, e.Seq)
	}
	return out
}

func TestDayOnDisk(t *testing.T) {
	h, w := begin(t)
	must(t, w.Append(note(1, "sun")))
	must(t, w.Append(note(2, "shade")))
	must(t, w.Close())
	must(t, w.Close())
	if err := w.Append(note(3, "late")); err == nil {
		t.Error("a closed day took an event")
	}

	w, b, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	if len(b.Events) != 2 || b.NextSeq() != 3 {
		t.Errorf("%d events", len(b.Events))
	}
	must(t, w.Append(note(3, "rain")))
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("events %v", got)
	}
	must(t, w.Close())

	w, err = h.NewDay(head(t))
	must(t, err)
	if w.Head().Day != "2026-11-25-2" {
		t.Errorf("the second day is %s", w.Head().Day)
	}
	must(t, w.Close())
	last, b, found, err := h.Last("garden-bin")
	if last != "2026-11-25-2" || !found || err != nil || b.Head.Day != last {
		t.Errorf("last %q %v %v", last, found, err)
	}
}

// A day that begins with its first event is one file, there whole or not at all; what makes it sees the vat locked.
func TestADayBeginsWhole(t *testing.T) {
	h := Open(t.TempDir())
	refusal := errors.New("not today")
	if _, err := h.BeginDay("garden-bin", func() (day.Head, []day.Event, error) { return head(t), nil, refusal }); !errors.Is(err, refusal) {
		t.Errorf("it says %v", err)
	}
	if vats, err := h.Vats(); len(vats) > 0 || err != nil {
		t.Errorf("a refusal has left %v, %v", vats, err)
	}
	w, err := h.BeginDay("garden-bin", func() (day.Head, []day.Event, error) {
		if _, err := h.NewDay(head(t)); !errors.Is(err, ErrLocked) {
			t.Errorf("meanwhile another begins one: %v", err)
		}
		return head(t), []day.Event{note(1, "sun"), note(2, "shade")}, nil
	})
	must(t, err)
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) || w.Last() != 2 {
		t.Errorf("events %v, the last %d", got, w.Last())
	}
	must(t, w.Append(note(3, "rain")))
	must(t, w.Close())
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("events %v", got)
	}
}

func TestReadingChangesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "none")
	h := Open(dir)
	vats, err := h.Vats()
	days, err2 := h.Days("x")
	recipes, err3 := h.Recipes()
	_, _, found, err4 := h.Last("x")
	_, err5 := h.Settings()
	if len(vats)+len(days)+len(recipes) > 0 || found || errors.Join(err, err2, err3, err4, err5) != nil {
		t.Errorf("%v %v %v %v %v", vats, days, recipes, found, errors.Join(err, err2, err3, err4, err5))
	}
	if _, err := h.ReadDay("x", "2026-11-25"); err == nil {
		t.Error("a day that is not there was read")
	}
	if _, _, err := h.OpenDay("x", "2026-11-25"); err == nil {
		t.Error("a day that is not there was opened")
	}
	if _, err := os.Stat(dir); !errors.Is(err, os.ErrNotExist) {
		t.Error("reading made the home's folder")
	}
}

func TestOneWriterAVat(t *testing.T) {
	h, w := begin(t)
	if _, _, err := h.OpenDay("garden-bin", "2026-11-25"); !errors.Is(err, ErrLocked) {
		t.Errorf("second writer: %v", err)
	}
	if _, err := h.NewDay(head(t)); !errors.Is(err, ErrLocked) {
		t.Errorf("second day: %v", err)
	}
	must(t, w.Append(note(1, "sun")))
	if b, err := h.ReadDay("garden-bin", "2026-11-25"); err != nil || len(b.Events) != 1 {
		t.Errorf("looking only: %v", err)
	}
	other := head(t)
	other.Vat = "barrel"
	w2, err := h.NewDay(other)
	must(t, err)
	must(t, w2.Close())
	must(t, w.Close())
	w, _, err = h.OpenDay("garden-bin", "2026-11-25") // the lock file is still there, and nobody holds it
	must(t, err)
	must(t, w.Close())
}

func TestTornTailIsSetAside(t *testing.T) {
	h, w := begin(t)
	must(t, w.Append(note(1, "sun")))
	must(t, w.Close())
	whole, err := os.ReadFile(w.Path())
	must(t, err)
	for n, torn := range []string{"\n[[event]]\nseq = 2\nat = 20", "\n[[ev", "\x00\x00\x00"} {
		must(t, os.WriteFile(w.Path(), append(bytes.Clone(whole), torn...), 0o644))
		if b, err := h.ReadDay("garden-bin", "2026-11-25"); err != nil || len(b.Torn) == 0 {
			t.Fatalf("looking only: %v", err)
		}
		w, b, err := h.OpenDay("garden-bin", "2026-11-25")
		must(t, err)
		if string(b.Torn) != torn || !strings.HasSuffix(w.TornFile(), ".torn-"+string(rune('1'+n))) {
			t.Errorf("torn %q in %s", b.Torn, w.TornFile())
		}
		kept, err := os.ReadFile(w.TornFile())
		if string(kept) != torn || err != nil {
			t.Errorf("kept %q, %v", kept, err)
		}
		must(t, w.Append(note(2, "again")))
		if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) {
			t.Errorf("events %v", got)
		}
		must(t, w.Close())
	}
	if days, _ := h.Days("garden-bin"); len(days) != 1 {
		t.Errorf("days %v", days)
	}
}

// What cannot be gone on with is left as it is.
func TestLeftAlone(t *testing.T) {
	h, w := begin(t)
	must(t, w.Close())
	whole, err := os.ReadFile(w.Path())
	must(t, err)
	for _, c := range []struct{ name, text string }{
		{"killed in the head", string(whole[:200])},
		{"empty", ""},
		{"a later format", strings.Replace(string(whole), "format = 1", "format = 9", 1) + "\n[[event]]\nseq"},
	} {
		name, text := c.name, c.text
		must(t, os.WriteFile(w.Path(), []byte(text), 0o644))
		_, b, err := h.OpenDay("garden-bin", "2026-11-25")
		if err == nil || b.Empty() != errors.Is(err, ErrNoDay) {
			t.Errorf("%s: %v", name, err)
		}
		if got, _ := os.ReadFile(w.Path()); string(got) != text {
			t.Errorf("%s: the file was changed", name)
		}
	}
	if _, _, found, _ := h.Last("garden-bin"); !found {
		t.Error("a later format is a day all the same")
	}
	must(t, os.WriteFile(w.Path(), whole[:200], 0o644))
	if _, _, found, _ := h.Last("garden-bin"); found {
		t.Error("a file killed in its head is no day")
	}
	w, err = h.NewDay(head(t))
	must(t, err)
	if w.Head().Day != "2026-11-25-2" {
		t.Errorf("the next day is %s", w.Head().Day)
	}
	must(t, w.Close())
}

func TestNames(t *testing.T) {
	for name, want := range map[string]string{
		"Garden bin!": "garden-bin", "": "vat", "../../etc": "etc", "  A  --  B ": "a-b", "Küpe": "küpe", "藍甕": "藍甕",
		"CON": "vat-con", "a\x00b\xff": "a-b", strings.Repeat("x", 80): strings.Repeat("x", 40), ".lock": "lock",
	} {
		if got := Slug(name); got != want || CheckVat(got) != nil {
			t.Errorf("Slug(%q) = %q, want %q; %v", name, got, want, CheckVat(got))
		}
	}
	for _, name := range []string{"", ".", "..", ".lock", "a/b", `a\b`, "c:", "a\nb", "\xff"} {
		if CheckVat(name) == nil {
			t.Errorf("%q was taken for a folder's name", name)
		}
		if _, err := Open(t.TempDir()).ReadDay(name, "2026-11-25"); err == nil {
			t.Errorf("%q was read", name)
		}
	}
	for _, name := range []string{"", "2026-11-25.torn-1", "../2026-11-25", "2026-11-25-0", "today"} {
		if checkDay("vat", name) == nil {
			t.Errorf("%q was taken for a day", name)
		}
	}
	h, _ := begin(t)
	if got, err := h.FreeVat("Garden bin"); got != "garden-bin-2" || err != nil {
		t.Errorf("the second garden bin is %q, %v", got, err)
	}
	days := []string{"2026-11-25-10", "2026-11-26", "2026-11-25", "2026-11-25-2"}
	slices.SortFunc(days, compareDays)
	if !slices.Equal(days, []string{"2026-11-25", "2026-11-25-2", "2026-11-25-10", "2026-11-26"}) {
		t.Errorf("days %v", days)
	}
}

func TestLocate(t *testing.T) {
	dir := t.TempDir()
	if got, err := Locate(dir, "elsewhere"); got != dir || err != nil {
		t.Errorf("flag: %s %v", got, err)
	}
	if got, err := Locate("", dir); got != dir || err != nil {
		t.Errorf("environment: %s %v", got, err)
	}
	if got, err := Locate("", ""); filepath.Base(got) != "vatside" || !filepath.IsAbs(got) || err != nil {
		t.Errorf("platform: %s %v", got, err)
	}
}

func TestRecipes(t *testing.T) {
	h := Open(t.TempDir())
	must(t, os.Mkdir(filepath.Join(h.Dir(), "recipes"), 0o755))
	for _, name := range []string{"b.toml", "a.toml", "notes.txt", ".b.toml"} {
		must(t, os.WriteFile(filepath.Join(h.Dir(), "recipes", name), []byte(name), 0o644))
	}
	rs, err := h.Recipes()
	if err != nil || len(rs) != 2 || string(rs[0].Text) != "a.toml" {
		t.Errorf("%v %v", rs, err)
	}
}

func TestSettings(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "new"))
	want := Defaults()
	want.Units, want.GoingOn, want.Emergency, want.Hot, want.Place = "us", false, "+49 112", 58.5, "closed room"
	want.Sound.Speech, want.NoLook = true, true
	must(t, h.SaveSettings(want))
	if got, err := h.Settings(); got != want || err != nil {
		t.Errorf("%+v %v", got, err)
	}
	if entries, _ := os.ReadDir(h.Dir()); len(entries) != 1 {
		t.Errorf("left behind: %v", entries)
	}
	want.Theme = "neon"
	if h.SaveSettings(want) == nil {
		t.Error("a theme that is not there was saved")
	}
	for text, told := range map[string]string{
		"units = \"metric\"\ncolour = 1\n":                    `settings.toml:2:1: the setting "colour" is unknown`,
		"[sound]\nbell = true\nhorn = true":                   `settings.toml:3:1: the setting "sound.horn" is unknown`,
		"\nunits = \"stones\"\n":                              "settings.toml:2:1: units",
		"cold = \"5 g\"\n":                                    `settings.toml:1:1: cold = "5 g" cannot be read; write cold = "15 °C"; the usual settings are used`,
		"[sound]\nbell = 3\n":                                 "settings.toml:2:1: bell = 3 cannot be read; write bell = true or bell = false",
		"hands = \"two\"\n":                                   `settings.toml:1:1: hands = "two" cannot be read; write hands = 1`,
		"units \"us\"\n":                                      `settings.toml:1:1: units "us" cannot be read; write it as a key, = and its value`,
		"heater = \"1e30 W\"\n":                               "settings.toml:1:1: heater of 1e+30 W cannot be: no heater has 100 MW",
		"hour = \"999999999999999\"\n":                        "settings.toml:1:1: hour of 999999999999999.00 cannot be",
		strings.Repeat("a.", 50_000) + "a=1":                  "settings.toml:1:1: its tables or lists lie too deep in one another; a text of a dyer's goes 4 deep",
		"hot = \"5 °C\"\n":                                    "cold is 15 °C, and not below hot, 5 °C",
		"click = \"twice\"\n":                                 `settings.toml:1:1: click is "twice"; it can be under it, the call anywhere; the usual settings are used`,
		"click = yes\n":                                       `settings.toml:1:1: click = yes cannot be read; write click = "under it"; the usual settings are used`,
		"  units = \"us\"\nplace = \"\"\n   units = \"us\"\n": "settings.toml:3:4: units stands twice; keep one of the two; the usual settings",
		"sound = { bell = true, bell = false }\n":             "settings.toml:1:1: sound.bell stands twice; keep one of the two",
		"[sound]\n  bell = 3\n":                               "settings.toml:2:3: bell = 3 cannot be read",
		"units = \n":                                          `settings.toml:1:1: units = cannot be read; write units = "metric"; the usual settings are used till it is mended`,
	} {
		must(t, os.WriteFile(h.SettingsFile(), []byte(text), 0o644))
		if got, err := h.Settings(); err == nil || !strings.Contains(err.Error(), told) || got != Defaults() {
			t.Errorf("%q: %v", text, err)
		}
	}
	must(t, os.WriteFile(h.SettingsFile(), []byte("emergency = \"112\"\n"), 0o644))
	if got, err := h.Settings(); err != nil || got.Emergency != "112" || !got.GoingOn || got.Units != "metric" {
		t.Errorf("%+v %v", got, err)
	}
}

func TestSound(t *testing.T) {
	dir := t.TempDir()
	old := soundDir
	soundDir = func() (string, error) { return dir, nil }
	t.Cleanup(func() { soundDir = old })
	h := Open(t.TempDir())
	a, err := h.Sound("dip over", []byte("RIFF"))
	must(t, err)
	b, err := h.Sound("dip over", []byte("RIFF"))
	must(t, err)
	c, err := h.Sound("dip over", []byte("RIFFS"))
	must(t, err)
	if data, _ := os.ReadFile(a); a != b || a == c || string(data) != "RIFF" {
		t.Errorf("%s %s %s", a, b, c)
	}
}

// A vat's folder with a name that cannot be shown is not read, and is told, with its name shown otherwise.
func TestAFolderThatCannotBeShownIsTold(t *testing.T) {
	h := Open(t.TempDir())
	for _, name := range []string{"bin", "bin\u202e", "bin\x1b]2;x\a", ".hidden"} {
		if err := os.MkdirAll(h.VatDir(name), 0o755); err != nil {
			t.Skipf("this disk has no such names: %v", err)
		}
	}
	vats, told, err := h.VatFolders()
	if err != nil || len(vats) != 1 || vats[0] != "bin" {
		t.Errorf("%q, %v", vats, err)
	}
	if len(told) != 2 || !strings.Contains(told[0].Error(), "U+001B") || !strings.Contains(told[1].Error(), "U+202E") {
		t.Errorf("%v", told)
	}
	if _, err := h.Days("bin\u202e"); err == nil || strings.Contains(err.Error(), "\u202e") {
		t.Errorf("%v", err)
	}
}
