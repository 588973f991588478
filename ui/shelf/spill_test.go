package shelf

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// spare is a home whose spills go to folders of the test's own, and whose disk can fail.
func spare(t *testing.T) (Home, *disk) {
	t.Helper()
	d := &disk{room: -1}
	h := Open(filepath.Join(t.TempDir(), "home"))
	h.open = func(path string, flag int) (file, error) {
		if strings.HasPrefix(path, h.dir) {
			return d.open(path, flag)
		}
		return openFile(path, flag)
	}
	away := t.TempDir()
	h.places = []place{{filepath.Join(away, "state"), false}, {filepath.Join(away, "passing"), true}}
	return h, d
}

// spilled is a day with one event in its file and two, rain and wind, in its spill.
func spilled(t *testing.T, h Home, d *disk) *Writer {
	t.Helper()
	w, err := h.NewDay(head(t))
	must(t, err)
	must(t, w.Append(note(1, "sun")))
	d.room, d.writeErrs = 30, true
	must(t, w.Append(note(2, "rain")))
	d.room = 0
	must(t, w.Append(note(3, "wind")))
	return w
}

// read are the numbers of a day's events, spill included.
func (h Home) numbers(t *testing.T) []int {
	t.Helper()
	b, err := h.ReadDay("garden-bin", "2026-11-25")
	must(t, err)
	var out []int
	for _, e := range b.Events {
		out = append(out, e.Seq)
	}
	return out
}

// merged are the spills that are kept after they were brought into their day.
func (h Home) merged(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, p := range h.places {
		paths, err := filepath.Glob(filepath.Join(p.dir, "*.merged-*"))
		must(t, err)
		out = append(out, paths...)
	}
	return out
}

func TestSpillOfAFullDisk(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	a := w.Away()
	if a.Events != 2 || a.Passing || !errors.Is(a.Why, syscall.ENOSPC) || filepath.Dir(a.File) != h.places[0].dir {
		t.Fatalf("away: %+v", a)
	}
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1}) {
		t.Errorf("the day's file has %v", got)
	}
	if got := h.numbers(t); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("day and spill read as %v", got)
	}
	text, err := h.DayText("garden-bin", "2026-11-25")
	must(t, err)
	if b := book.Read("", text.Text); len(b.Events) != 3 {
		t.Errorf("the text of the day has %d events", len(b.Events))
	}
	must(t, w.Close()) // the program ends; the disk is still full
	w, b, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	if len(b.Events) != 3 || w.Away().Events != 2 {
		t.Fatalf("opened on a full disk: %d events, away %+v", len(b.Events), w.Away())
	}
	must(t, w.Append(note(4, "hail")))
	must(t, w.Close())
	d.room = -1
	w, b, err = h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	defer w.Close()
	if len(b.Events) != 4 || len(b.Spilled) != 0 || w.Away() != (Away{}) {
		t.Errorf("opened on a disk with room: %d events, %v, away %+v", len(b.Events), b.Spilled, w.Away())
	}
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3, 4}) {
		t.Errorf("the day's file has %v", got)
	}
	if fs := book.Verify(b); len(fs) != 0 {
		t.Errorf("the day is not whole: %v", fs)
	}
	if got := h.merged(t); len(got) != 1 {
		t.Errorf("merged spills: %v", got)
	}
}

// writeProtected is how the system refuses to write on a disk that can only be read.
var writeProtected error = syscall.EROFS

// A day whose disk can only be read is gone on with: what is done lies in its spill. One that its user may not write is left alone.
func TestSpillOfADiskThatCanOnlyBeRead(t *testing.T) {
	h, d := spare(t)
	w, err := h.NewDay(head(t))
	must(t, err)
	must(t, w.Append(note(1, "sun")))
	must(t, w.Close())
	writable := h.open
	for _, why := range []error{writeProtected, syscall.EACCES} {
		h.open = func(path string, flag int) (file, error) {
			if strings.HasPrefix(path, h.dir) {
				return nil, &os.PathError{Op: "open", Path: path, Err: why}
			}
			return d.open(path, flag)
		}
		w, _, err := h.OpenDay("garden-bin", "2026-11-25")
		if why == syscall.EACCES {
			if err == nil || !strings.Contains(err.Error(), "nothing can be written into the day, nobody may write there: ") {
				t.Errorf("opened for writing where nobody may: %v", err)
			}
			continue
		}
		must(t, err)
		must(t, w.Append(note(2, "rain")))
		if a := w.Away(); a.Events != 1 || !errors.Is(a.Why, writeProtected) {
			t.Errorf("away: %+v", a)
		}
		must(t, w.Close())
	}
	h.open = writable
	if w, _, err = h.OpenDay("garden-bin", "2026-11-25"); err != nil || w.Away() != (Away{}) {
		t.Fatalf("opened on a disk that takes writes: %v", err)
	}
	defer w.Close()
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) {
		t.Errorf("the day's file has %v", got)
	}
}

// An event that cannot be read keeps its number: the next one gets another.
func TestLastCountsWhatCannotBeRead(t *testing.T) {
	h, _ := spare(t)
	w, err := h.NewDay(head(t))
	must(t, err)
	if w.Last() != 0 {
		t.Errorf("a new day begins behind event %d", w.Last())
	}
	must(t, w.Append(note(1, "sun")))
	must(t, w.Append(note(2, "rain")))
	must(t, w.Close())
	data, err := os.ReadFile(w.Path())
	must(t, err)
	must(t, os.WriteFile(w.Path(), bytes.Replace(data, []byte(`"rain"`), []byte(`rain`), 1), 0o644))
	w, b, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	defer w.Close()
	if len(b.Events) != 1 || w.Last() != 2 {
		t.Errorf("%d events read, the last is %d", len(b.Events), w.Last())
	}
}

// A day whose end lies in a spill is as open or closed as the two together say.
func TestADayClosedInItsSpill(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	days, err := h.VatDays("garden-bin")
	must(t, err)
	if len(days.Open) != 1 {
		t.Errorf("open days: %v", days.Open)
	}
	must(t, w.Append(day.Event{Seq: 4, At: note(3, "").At, Body: day.Closed{}}))
	must(t, w.Close())
	if days, err = h.VatDays("garden-bin"); err != nil || len(days.Open) != 0 {
		t.Errorf("closed in its spill, and open: %v %v", days.Open, err)
	}
}

// While the program runs it brings what is away home as soon as the disk takes it, and goes on there.
func TestSpillReturns(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	if err := w.Return(); err == nil || w.Away().Events != 2 {
		t.Fatalf("returned to a full disk: %v, %+v", err, w.Away())
	}
	d.spared, d.room = 1, 20 // room for one event and a piece of the second
	if err := w.Return(); err == nil {
		t.Fatal("returned to a disk without room")
	}
	if got := h.numbers(t); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("half returned it reads as %v", got)
	}
	d.room = -1
	must(t, w.Return())
	must(t, w.Append(note(4, "hail")))
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3, 4}) || w.Away() != (Away{}) {
		t.Errorf("the day's file has %v, away %+v", got, w.Away())
	}
	d.room = 0 // and full once more: a second spill
	must(t, w.Append(note(5, "dew")))
	d.room = -1
	must(t, w.Return())
	must(t, w.Close())
	if got := h.numbers(t); !slices.Equal(got, []int{1, 2, 3, 4, 5}) || len(h.merged(t)) != 2 {
		t.Errorf("events %v, merged %v", got, h.merged(t))
	}
}

func TestSpillWhereNoPlaceTakesIt(t *testing.T) {
	h, d := spare(t)
	must(t, os.WriteFile(h.places[0].dir, nil, 0o600)) // a file stands where the folder would be
	w := spilled(t, h, d)
	if a := w.Away(); !a.Passing || a.Events != 2 {
		t.Errorf("the first place is none, and away is %+v", a)
	}
	must(t, w.Close())
	if got := h.numbers(t); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("it reads as %v", got)
	}
	h, d = spare(t)
	for _, p := range h.places {
		must(t, os.WriteFile(p.dir, nil, 0o600))
	}
	w, err := h.NewDay(head(t))
	must(t, err)
	defer w.Close()
	d.room, d.writeErrs = 0, true
	err = w.Append(note(1, "sun"))
	if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "no folder") || w.Away() != (Away{}) {
		t.Errorf("no place takes it: %v, %+v", err, w.Away())
	}
}

// A folder that others may write to is nobody's word.
func TestSpillOfStrangersIsNotRead(t *testing.T) {
	if os.PathSeparator == '\\' {
		t.Skip("the folders of one user there")
	}
	h, d := spare(t)
	w := spilled(t, h, d)
	must(t, w.Close())
	must(t, os.Chmod(h.places[0].dir, 0o777))
	if got := h.numbers(t); !slices.Equal(got, []int{1}) {
		t.Errorf("read from a folder of everybody's: %v", got)
	}
}

func TestSpillOfADayThatWentOnWithoutIt(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	must(t, w.Close())
	d.room = -1
	data, err := os.ReadFile(w.Path())
	must(t, err)
	other, err := book.EncodeEvent(note(2, "snow")) // as another machine wrote it on the same stick
	must(t, err)
	must(t, os.WriteFile(w.Path(), slices.Concat(data, []byte{'\n'}, other), 0o644))
	b, err := h.ReadDay("garden-bin", "2026-11-25")
	must(t, err)
	if len(b.Events) != 2 || len(b.Spilled) != 1 || b.Spilled[0].Err == nil {
		t.Fatalf("%d events, spilled %+v", len(b.Events), b.Spilled)
	}
	w, _, err = h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	must(t, w.Close())
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2}) || len(h.merged(t)) != 0 {
		t.Errorf("events %v, merged %v", got, h.merged(t))
	}
	// Mending puts them behind, with numbers of their own.
	_, kept, err := h.Mend("garden-bin", "2026-11-25")
	must(t, err)
	b, err = h.ReadDay("garden-bin", "2026-11-25")
	must(t, err)
	if kept == "" || b.Damage() != "" || len(b.Events) != 4 || len(h.merged(t)) != 1 {
		t.Errorf("mended: %q, %d events, merged %v, kept %s", b.Damage(), len(b.Events), h.merged(t), kept)
	}
}

// A home that was moved, or a stick that is mounted elsewhere, finds its spill; a copy beside it does not take it.
func TestSpillOfAMovedHome(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	must(t, w.Close())
	moved := h
	moved.dir = h.dir + "-2"
	must(t, os.CopyFS(moved.dir, os.DirFS(h.dir)))
	if got := moved.numbers(t); !slices.Equal(got, []int{1}) {
		t.Errorf("a copy reads as %v", got)
	}
	must(t, os.RemoveAll(h.dir))
	if got := moved.numbers(t); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("the moved home reads as %v", got)
	}
}

// hung is a file whose fsync answers when it is let.
type hung struct {
	file
	asked, let chan struct{}
}

func (f hung) Sync() error { f.asked <- struct{}{}; <-f.let; return f.file.Sync() }

// Leaving while a disk does not answer cuts nothing off, and what is kept elsewhere meanwhile counts once.
func TestNothingIsCutUnderAWriteInFlight(t *testing.T) {
	h, d := spare(t)
	w, err := h.NewDay(head(t))
	must(t, err)
	must(t, w.Append(note(1, "sun")))
	asked, let := make(chan struct{}, 9), make(chan struct{})
	w.file = hung{w.file, asked, let}
	done := make(chan error, 1)
	go func() { done <- w.Append(note(2, "rain")) }()
	<-asked
	a, err := w.Keep([]day.Event{note(2, "rain"), note(3, "wind")})
	must(t, err)
	if a.Events != 2 || a.File == "" {
		t.Errorf("kept: %+v", a)
	}
	before, err := os.ReadFile(w.Path())
	must(t, err)
	if err := w.Close(); !errors.Is(err, ErrInFlight) {
		t.Errorf("closed under a write: %v", err)
	}
	if after, _ := os.ReadFile(w.Path()); !bytes.Equal(before, after) {
		t.Errorf("the file was cut from %d to %d bytes", len(before), len(after))
	}
	if got := h.numbers(t); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("day and spill read as %v", got)
	}
	close(let)
	must(t, <-done)
	must(t, w.Close())
	w, b, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	defer w.Close()
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3}) || len(b.Spilled) != 0 {
		t.Errorf("events %v, spilled %v", got, b.Spilled)
	}
	_ = d
}
