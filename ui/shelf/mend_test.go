package shelf

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// holed is a closed day whose event 2 of 3 was cut out, and its file's text.
func holed(t *testing.T) (Home, string, string, []byte) {
	t.Helper()
	h, w := begin(t)
	for i, text := range []string{"sun", "shade", "dusk"} {
		must(t, w.Append(note(i+1, text)))
	}
	must(t, w.Close())
	data, err := os.ReadFile(w.Path())
	must(t, err)
	at := bytes.Index(data, []byte("[[event]]\nseq = 2"))
	data = append(data[:at:at], data[bytes.Index(data, []byte("[[event]]\nseq = 3")):]...)
	must(t, os.WriteFile(w.Path(), data, 0o644))
	must(t, os.Chmod(w.Path(), 0o640))
	return h, w.Head().Vat, w.Head().Day, data
}

// names are the files of a vat's folder, but for its lock.
func names(t *testing.T, h Home, vat string) string {
	t.Helper()
	entries, err := os.ReadDir(h.VatDir(vat))
	must(t, err)
	var out []string
	for _, e := range entries {
		if e.Name() != ".lock" {
			out = append(out, e.Name())
		}
	}
	return strings.Join(out, " ")
}

func TestMendOnDisk(t *testing.T) {
	h, vat, day, old := holed(t)
	path := h.DayFile(vat, day)
	m, err := h.MendPlan(vat, day)
	if err != nil || m.Whole || len(m.Steps) != 1 || names(t, h, vat) != day+".toml" {
		t.Fatalf("%v %+v, %s", err, m.Steps, names(t, h, vat))
	}
	done, kept, err := h.Mend(vat, day)
	must(t, err)
	if got, err := os.ReadFile(kept); err != nil || !bytes.Equal(got, old) || filepath.Base(kept) != day+".before-mend-1" {
		t.Errorf("%s: %v\n%s", kept, err, got)
	}
	if got, err := os.ReadFile(path); err != nil || !bytes.Equal(got, m.Text) || !bytes.Equal(got, done.Text) {
		t.Errorf("%v\n%s", err, got)
	}
	for _, file := range []string{path, kept} {
		if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o640 {
			t.Errorf("%s: %v %v", file, info.Mode(), err)
		}
	}
	if got := seqs(t, path); len(got) != 3 {
		t.Errorf("%v", got)
	}
	if names(t, h, vat) != day+".before-mend-1 "+day+".toml" {
		t.Errorf("left behind: %s", names(t, h, vat))
	}
	// Once more changes nothing; the next old file gets the next number; the day goes on.
	if m, kept, err := h.Mend(vat, day); err != nil || !m.Whole || kept != "" {
		t.Errorf("%v %v %s", err, m.Steps, kept)
	}
	must(t, os.WriteFile(path, old, 0o644))
	if _, kept, err := h.Mend(vat, day); err != nil || filepath.Base(kept) != day+".before-mend-2" {
		t.Errorf("%v %s", err, kept)
	}
	w, _, err := h.OpenDay(vat, day)
	must(t, err)
	must(t, w.Append(note(4, "night")))
	must(t, w.Close())
	if got := seqs(t, path); len(got) != 4 {
		t.Errorf("%v", got)
	}
}

// While another program writes the vat nothing is done; what cannot be mended is left as it is.
func TestMendIsRefused(t *testing.T) {
	h, vat, day, old := holed(t)
	path := h.DayFile(vat, day)
	w, _, err := h.OpenDay(vat, day)
	must(t, err)
	if _, _, err := h.Mend(vat, day); !errors.Is(err, ErrLocked) {
		t.Errorf("%v", err)
	}
	must(t, w.Close())
	must(t, os.WriteFile(path, old[:300], 0o644))
	if _, _, err := h.Mend(vat, day); err == nil || !strings.Contains(err.Error(), "ends inside its head") {
		t.Errorf("%v", err)
	}
	if got, _ := os.ReadFile(path); !bytes.Equal(got, old[:300]) || names(t, h, vat) != day+".toml" {
		t.Errorf("%s", names(t, h, vat))
	}
	if _, _, err := h.Mend(vat, "2020-01-01"); err == nil {
		t.Error("a day that is not there is mended")
	}
	if _, _, err := h.Mend("../x", day); err == nil {
		t.Error("another folder is mended")
	}
}

// A disk that fails at any call leaves the old file as it was.
func TestMendOnAFailingDisk(t *testing.T) {
	h, vat, day, old := holed(t)
	for name, d := range map[string]*disk{
		"full at the copy":       {room: 5},
		"no sync of the copy":    {room: -1, badSyncs: 1},
		"no opening of a file":   {room: -1, badOpens: 1},
		"full at the new text":   {room: len(old)},
		"no sync of the new one": {room: -1, badSyncs: 1},
	} {
		h.open = d.open
		if strings.HasSuffix(name, "new text") || strings.HasSuffix(name, "new one") {
			first := true
			h.open = func(path string, flag int) (file, error) {
				if first {
					first = false
					return openFile(path, flag)
				}
				if d.room > 0 {
					d.room = 5
				}
				return d.open(path, flag)
			}
		}
		if _, _, err := h.Mend(vat, day); err == nil {
			t.Errorf("%s: no error", name)
		}
		if got, err := os.ReadFile(h.DayFile(vat, day)); err != nil || !bytes.Equal(got, old) {
			t.Errorf("%s: %v\n%s", name, err, got)
		}
		if strings.Contains(names(t, h, vat), "draft") {
			t.Errorf("%s: %s", name, names(t, h, vat))
		}
	}
}

// A spill file whose events are in the day now keeps its text under another name.
func TestMergedSpillsStay(t *testing.T) {
	path := filepath.Join(t.TempDir(), "spill.toml")
	for n, want := range []string{"spill.merged-1", "spill.merged-2"} {
		must(t, os.WriteFile(path, []byte{byte(n)}, 0o644))
		must(t, setMerged(path))
		if got, err := os.ReadFile(filepath.Join(filepath.Dir(path), want)); err != nil || len(got) != 1 || got[0] != byte(n) {
			t.Errorf("%s: %v %v", want, got, err)
		}
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("it is still there")
	}
}
