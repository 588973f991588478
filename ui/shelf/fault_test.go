package shelf

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"slices"
	"syscall"
	"testing"
)

// disk is a home's disk that can fail.
type disk struct {
	room      int  // bytes that the next write can still take; -1: enough
	spared    int  // so many writes are whole all the same
	badSyncs  int  // so many syncs fail, and what was written since is forgotten
	badCuts   int  // so many truncations fail
	badOpens  int  // so many openings fail
	opened    int  // how often a file was opened
	writeErrs bool // a short write says why
}

// faulty is a file on that disk.
type faulty struct {
	file
	disk *disk
	kept int64 // what the last good sync put on disk
}

func (d *disk) open(path string, flag int) (file, error) {
	if d.badOpens > 0 {
		d.badOpens--
		return nil, syscall.EIO
	}
	d.opened++
	f, err := openFile(path, flag)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	return &faulty{f, d, info.Size()}, nil
}

func (f *faulty) WriteAt(b []byte, at int64) (int, error) {
	if f.disk.spared > 0 {
		f.disk.spared--
		return f.file.WriteAt(b, at)
	}
	if f.disk.room < 0 || f.disk.room >= len(b) {
		return f.file.WriteAt(b, at)
	}
	n, err := f.file.WriteAt(b[:f.disk.room], at)
	f.disk.room = 0
	if err == nil && f.disk.writeErrs {
		err = syscall.ENOSPC
	}
	return n, err
}

func (f *faulty) Sync() error {
	if f.disk.badSyncs > 0 {
		f.disk.badSyncs--
		return errors.Join(syscall.EIO, f.file.Truncate(f.kept)) // the system drops what it could not write
	}
	info, err := f.file.Stat()
	if err == nil {
		f.kept = info.Size()
	}
	return err // the machine's own disk is not waited for
}

func (f *faulty) Truncate(n int64) error {
	if f.disk.badCuts > 0 {
		f.disk.badCuts--
		return syscall.EIO
	}
	return f.file.Truncate(n)
}

// onDisk begins a day on a disk that does not fail yet, with one event.
func onDisk(t *testing.T) (*Writer, *disk) {
	t.Helper()
	h, w := begin(t)
	must(t, w.Close())
	d := &disk{room: -1}
	h.open, h.places = d.open, nil
	w, _, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	t.Cleanup(func() { _ = w.Close() })
	must(t, w.Append(note(1, "sun")))
	return w, d
}

func TestFullDisk(t *testing.T) {
	for _, writeErrs := range []bool{true, false} {
		for room := range 60 {
			w, d := onDisk(t)
			before, err := os.ReadFile(w.Path())
			must(t, err)
			d.room, d.writeErrs = room, writeErrs
			for range 3 { // the caller tries again, and the disk is still full
				if err := w.Append(note(2, "rain")); err == nil {
					t.Fatal("a short write was called saved")
				}
				if after, _ := os.ReadFile(w.Path()); !bytes.Equal(before, after) {
					t.Fatalf("room for %d: the file is not as it was: %q", room, after[len(before):])
				}
			}
			d.room = -1
			must(t, w.Append(note(2, "rain")))
			if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) {
				t.Fatalf("events %v", got)
			}
			must(t, w.Close())
		}
	}
}

// A disk so ill that even the rest of a write cannot be cut off: it is cut off later, before the next write.
func TestRestIsCutLater(t *testing.T) {
	w, d := onDisk(t)
	d.room, d.badCuts = 20, 1
	if w.Append(note(2, "rain")) == nil {
		t.Fatal("a short write was called saved")
	}
	d.badOpens = 1
	if w.Append(note(2, "rain")) == nil {
		t.Fatal("saved without a file")
	}
	d.room = -1
	must(t, w.Append(note(2, "rain")))
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) {
		t.Errorf("events %v", got)
	}
}

func TestFailedSync(t *testing.T) {
	w, d := onDisk(t)
	d.badSyncs, d.opened = 1, 0
	must(t, w.Append(note(2, "rain")))
	if d.opened != 1 {
		t.Errorf("the file was opened %d times after a failed fsync", d.opened)
	}
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) {
		t.Errorf("events %v", got)
	}
	d.badSyncs = 2
	if w.Append(note(3, "wind")) == nil {
		t.Fatal("never synced, and called saved")
	}
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) {
		t.Errorf("events %v", got)
	}
	must(t, w.Append(note(3, "wind")))
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("events %v", got)
	}
}

// A day that could not be begun leaves no file behind.
func TestNewDayOnFullDisk(t *testing.T) {
	h := Open(t.TempDir())
	d := &disk{room: 100}
	h.open = d.open
	if _, err := h.NewDay(head(t)); err == nil {
		t.Fatal("a day was begun on a full disk")
	}
	if days, _ := h.Days("garden-bin"); len(days) != 0 {
		t.Errorf("days %v", days)
	}
	d.room = -1
	w, err := h.NewDay(head(t))
	must(t, err)
	if w.Head().Day != "2026-11-25" {
		t.Errorf("the day is %s", w.Head().Day)
	}
	must(t, w.Close())
}

// A day's file is whole from the moment that it has the day's name, so that a kill leaves no half of a head.
func TestANewDayIsWholeFromItsBeginning(t *testing.T) {
	h := Open(t.TempDir())
	h.open = func(path string, flag int) (file, error) {
		if flag != 0 && path == h.DayFile("garden-bin", "2026-11-25") {
			t.Errorf("%s is made empty, and written after that", path)
		}
		return openFile(path, flag)
	}
	w, err := h.NewDay(head(t))
	must(t, err)
	must(t, w.Append(note(1, "sun")))
	must(t, w.Close())
	entries, err := os.ReadDir(h.VatDir("garden-bin"))
	must(t, err)
	for _, e := range entries {
		if e.Name() != "2026-11-25.toml" && e.Name() != ".lock" {
			t.Errorf("%s is left", e.Name())
		}
	}
}

// The dyer mends the file in an editor while the day is open: it replaces the file, or writes into it.
func TestMendedWhileOpen(t *testing.T) {
	w, _ := onDisk(t)
	mended, err := os.ReadFile(w.Path())
	must(t, err)
	mended = append(mended, "# the lid was off\n"...)
	must(t, os.WriteFile(w.Path()+"~", mended, 0o644))
	must(t, os.Rename(w.Path()+"~", w.Path()))
	must(t, w.Append(note(2, "rain")))
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) {
		t.Errorf("replaced: events %v", got)
	}
	f, err := os.OpenFile(w.Path(), os.O_APPEND|os.O_WRONLY, 0)
	must(t, err)
	_, err = f.WriteString("# and on again")
	must(t, errors.Join(err, f.Close()))
	must(t, w.Append(note(3, "wind")))
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("written into: events %v", got)
	}
	must(t, os.Rename(w.Path(), w.Path()+"~"))
	if err := w.Append(note(4, "gone")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the file is gone: %v", err)
	}
}
