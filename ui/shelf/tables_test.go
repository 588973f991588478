package shelf

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
)

// leaves are the day of a head and its namesake a day later, each with a note.
func leaves(t *testing.T, vats ...string) []book.Leaf {
	t.Helper()
	var out []book.Leaf
	for _, vat := range vats {
		h := head(t)
		h.Vat = vat
		text, err := book.EncodeHead(h)
		must(t, err)
		block, err := book.EncodeEvent(note(1, "sun on "+vat))
		must(t, err)
		out = append(out, book.Leaf{Vat: vat, Day: h.Day, Text: append(append(text, '\n'), block...)})
	}
	return out
}

// files are all the files below a folder, but for locks.
func files(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() && d.Name() != ".lock" {
			rel, _ := filepath.Rel(dir, path)
			out = append(out, filepath.ToSlash(rel))
		}
		return err
	})
	if !errors.Is(err, os.ErrNotExist) {
		must(t, err)
	}
	return out
}

func TestAddDays(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "home"))
	ls := leaves(t, "bin", "pail")
	made, passed, err := h.AddDays(ls[:1])
	must(t, err)
	if len(made) != 1 || len(passed) > 0 || !slices.Equal(seqs(t, h.DayFile("bin", ls[0].Day)), []int{1}) {
		t.Errorf("%v %v", made, passed)
	}
	made, passed, err = h.AddDays(ls) // one is there by now
	must(t, err)
	if len(made) != 1 || made[0].Vat != "pail" || !slices.Equal(passed, []string{"bin/2026-11-25"}) {
		t.Errorf("%v %v", made, passed)
	}
	made, passed, err = h.AddDays(ls)
	must(t, err)
	if len(made) > 0 || len(passed) != 2 {
		t.Errorf("%v %v", made, passed)
	}
	if got := files(t, h.Dir()); !slices.Equal(got, []string{"vats/bin/2026-11-25.toml", "vats/pail/2026-11-25.toml"}) {
		t.Errorf("%v", got)
	}
	if got, err := h.DayText("pail", "2026-11-25"); err != nil || string(got.Text) != string(ls[1].Text) {
		t.Errorf("%v\n%s", err, got.Text)
	}
	w, _, err := h.OpenDay("pail", "2026-11-25") // the locks are given back
	must(t, err)
	must(t, w.Close())
}

func TestAddDaysTouchesNoOtherDay(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "home"))
	ls := leaves(t, "bin", "pail")
	other := book.Leaf{Vat: "pail", Day: ls[1].Day, Text: []byte(strings.Replace(string(ls[1].Text), "60 L", "61 L", 1))}
	must(t, makeDir(h.VatDir("pail")))
	must(t, os.WriteFile(h.DayFile("pail", other.Day), other.Text, 0o644))
	_, _, err := h.AddDays(ls)
	if err == nil || err.Error() != "the vat pail has another day 2026-11-25 already, and no day is written over; give this one another name, such as 2026-11-25-2" {
		t.Errorf("%v", err)
	}
	got, err := h.DayText("pail", other.Day)
	must(t, err)
	if string(got.Text) != string(other.Text) || len(files(t, h.Dir())) != 1 {
		t.Errorf("something was written: %v", files(t, h.Dir()))
	}
	for _, l := range []book.Leaf{{Vat: "../bin", Day: "2026-11-25"}, {Vat: "bin", Day: "25.11.2026"}} {
		if _, _, err := h.AddDays([]book.Leaf{l}); err == nil {
			t.Errorf("%s was taken", l.Path())
		}
	}
}

func TestAddDaysWaitsForNoLock(t *testing.T) {
	h, w := begin(t)
	ls := leaves(t, "bin", "garden-bin")
	ls[1].Day = "2026-11-26"
	_, _, err := h.AddDays(ls)
	if err == nil || err.Error() != "the vat garden-bin is open in another program; close it there first" {
		t.Errorf("%v", err)
	}
	if got := files(t, h.Dir()); len(got) != 1 {
		t.Errorf("something was written: %v", got)
	}
	must(t, w.Close())
	if _, _, err := h.AddDays(ls); err != nil {
		t.Errorf("after it was closed: %v", err)
	}
}

// Whenever the disk fails, no day of the import is there, nor any half of one; a second try has them all.
func TestAddDaysAllOrNothing(t *testing.T) {
	ls := leaves(t, "bin", "pail")
	for name, d := range map[string]*disk{
		"no room":  {room: 100},
		"a sync":   {room: -1, badSyncs: 1},
		"openings": {room: -1, badOpens: 1},
	} {
		h := Open(filepath.Join(t.TempDir(), "home"))
		h.open = d.open
		if _, _, err := h.AddDays(ls); err == nil {
			t.Errorf("%s: no error", name)
		}
		if got := files(t, h.Dir()); len(got) > 0 {
			t.Errorf("%s: %v", name, got)
		}
		*d = disk{room: -1}
		if made, _, err := h.AddDays(ls); err != nil || len(made) != 2 {
			t.Errorf("%s, again: %v %v", name, made, err)
		}
	}

	// The second day cannot get its name: the first one's is taken back.
	h := Open(filepath.Join(t.TempDir(), "home"))
	must(t, makeDir(h.VatDir("bin")))
	must(t, makeDir(h.VatDir("pail")))
	block := h.DayFile("pail", ls[1].Day)
	must(t, os.WriteFile(block, []byte("mine"), 0o644))
	if err := h.place(ls); err == nil {
		t.Error("a day was written over another file")
	}
	if got := files(t, h.Dir()); !slices.Equal(got, []string{"vats/pail/2026-11-25.toml"}) {
		t.Errorf("%v", got)
	}
	if data, err := os.ReadFile(block); err != nil || string(data) != "mine" {
		t.Errorf("%q %v", data, err)
	}
}

// What a kill left half-way is no day, and does not stand in the way.
func TestLeftDraftIsNoDay(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "home"))
	ls := leaves(t, "bin")
	must(t, makeDir(h.VatDir("bin")))
	must(t, os.WriteFile(filepath.Join(h.VatDir("bin"), ".2026-11-25.draft-1"), []byte("format"), 0o644))
	if days, err := h.Days("bin"); err != nil || len(days) > 0 {
		t.Errorf("%v %v", days, err)
	}
	made, _, err := h.AddDays(ls)
	must(t, err)
	if len(made) != 1 {
		t.Errorf("%v", made)
	}
}

func TestTables(t *testing.T) {
	h := Open(filepath.Join(t.TempDir(), "home"))
	dir := filepath.Join(t.TempDir(), "a", "b")
	tables := book.Export(time.Time{}, leaves(t, "bin")).Tables
	paths, err := h.WriteTables(dir, tables)
	must(t, err)
	if len(paths) != 4 || len(files(t, dir)) != 4 {
		t.Errorf("%v", paths)
	}
	data, err := ReadTable(dir, book.DaysFile)
	if err != nil || string(data) != string(tables[0].Text) {
		t.Errorf("%v\n%s", err, data)
	}
	if _, err := os.Stat(h.Dir()); err == nil {
		t.Error("an export made the home's folder")
	}

	must(t, os.Remove(filepath.Join(dir, book.DaysFile)))
	must(t, os.WriteFile(filepath.Join(dir, book.EventsFile), []byte("mine"), 0o644))
	_, err = h.WriteTables(dir, tables)
	if want := "events.csv, pieces.csv, readings.csv are in " + dir + " already, and nothing is written over; name a folder without them"; err == nil || err.Error() != want {
		t.Errorf("%v", err)
	}
	if got := files(t, dir); len(got) != 3 {
		t.Errorf("%v", got)
	}
	if _, err := ReadTable(dir, book.DaysFile); err == nil || !strings.Contains(err.Error(), "there is no days.csv in "+dir) {
		t.Errorf("%v", err)
	}
	if _, err = h.WriteTables(filepath.Join(dir, book.EventsFile), tables); err == nil || !strings.Contains(err.Error(), "is a file; name a folder") {
		t.Errorf("%v", err)
	}

	slices.Reverse(tables) // the longest is the last
	h.open = (&disk{room: len(tables[3].Text) - 5}).open
	empty := t.TempDir()
	if _, err := h.WriteTables(empty, tables); err == nil || len(files(t, empty)) > 0 {
		t.Errorf("a full disk: %v, %v", err, files(t, empty))
	}
}
