package shelf

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// What another writer keeps elsewhere while what is away comes home counts once, though it is appended after all.
func TestKeepWhileWhatIsAwayReturns(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	_, err := w.Keep([]day.Event{note(4, "hail")}) // a slow disk: event 4 waits
	must(t, err)
	d.room = -1
	must(t, w.Return())
	must(t, w.Append(note(4, "hail")))
	must(t, w.Append(note(5, "fog")))
	must(t, w.Close())
	if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3, 4, 5}) {
		t.Errorf("the day's file has %v", got)
	}
	b, err := h.ReadDay("garden-bin", "2026-11-25")
	must(t, err)
	if fs := book.Verify(b); len(fs) != 0 {
		t.Errorf("the day is not whole: %v", fs)
	}
}

// The same on a disk that fails at each byte of the way.
func TestKeepWhileWhatIsAwayReturnsInParts(t *testing.T) {
	for room := 0; room < 120; room += 7 {
		h, d := spare(t)
		w := spilled(t, h, d)
		_, err := w.Keep([]day.Event{note(4, "hail")})
		must(t, err)
		d.room = room
		d.spared = room % 4
		_ = w.Return()
		must(t, w.Append(note(4, "hail")))
		must(t, w.Append(note(5, "fog")))
		d.room = -1
		d.spared = 0
		must(t, w.Return())
		must(t, w.Close())
		w, b, err := h.OpenDay("garden-bin", "2026-11-25")
		must(t, err)
		must(t, w.Close())
		if got := seqs(t, w.Path()); !slices.Equal(got, []int{1, 2, 3, 4, 5}) || len(book.Verify(b)) > 0 {
			t.Fatalf("room %d: the day's file has %v; %v", room, got, book.Verify(b))
		}
	}
}

// A spill of which a part cannot be read is not called merged: nothing of it goes without a word.
func TestSpoiltSpillIsTold(t *testing.T) {
	for _, c := range []struct{ from, to string }{
		{`text = "wind"`, `text = "wind`},
		{`text = "rain"`, `text = "rain`},
		{`format = 1`, `format = x`},
		{`head = "`, `head = x"`},
	} {
		h, d := spare(t)
		w := spilled(t, h, d)
		file := w.Away().File
		must(t, w.Close())
		text, err := os.ReadFile(file)
		must(t, err)
		spoilt := bytes.Replace(text, []byte(c.from), []byte(c.to), 1)
		if bytes.Equal(text, spoilt) {
			t.Fatalf("%q is not in %s", c.from, text[bytes.Index(text, []byte("[[event")):])
		}
		must(t, os.WriteFile(file, spoilt, 0o600))
		d.room = -1
		b, err := h.ReadDay("garden-bin", "2026-11-25")
		must(t, err)
		if b.Damage() == "" {
			t.Errorf("%q: nothing is said before", c.to)
		}
		w, b, err = h.OpenDay("garden-bin", "2026-11-25")
		must(t, err)
		must(t, w.Append(day.Event{Seq: b.Events[len(b.Events)-1].Seq + 1, At: note(4, "").At, Body: day.Note{Text: "hail"}}))
		must(t, w.Close())
		b, err = h.ReadDay("garden-bin", "2026-11-25")
		must(t, err)
		if b.Damage() == "" {
			t.Errorf("%q: nothing is said after: %v", c.to, b.Events)
		}
	}
}

// A vat was thrown away, and one of the same name begun on the same date: its day does not take the other's spill.
func TestSpillOfAnotherDayOfTheSameName(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	must(t, w.Close())
	d.room = -1
	must(t, os.RemoveAll(h.VatDir("garden-bin")))
	other := head(t)
	other.Setup.Fill++
	w, err := h.NewDay(other)
	must(t, err)
	must(t, w.Append(note(1, "sun")))
	must(t, w.Close())
	w, b, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	defer w.Close()
	if len(b.Events) != 1 {
		t.Errorf("it took the events of another day: %v", b.Events)
	}
	if got := h.merged(t); len(got) > 0 {
		t.Errorf("merged: %v", got)
	}
}

// One spill that conflicts takes no other with it.
func TestSpillBesideOneThatConflicts(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	must(t, w.Close())
	d.room = -1
	w, err := func() (*Writer, error) { // a program that knew nothing of the spill went on
		places := h.places
		h.places = nil
		w, _, err := h.OpenDay("garden-bin", "2026-11-25")
		h.places = places
		return w, err
	}()
	must(t, err)
	must(t, w.Append(note(2, "frost")))
	must(t, w.Close())
	w, b, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	if len(b.Events) != 2 || len(b.Spilled) != 1 || b.Spilled[0].Err == nil {
		t.Fatalf("%v %v", b.Events, b.Spilled)
	}
	d.room, d.writeErrs = 0, true
	must(t, w.Append(note(3, "snow")))
	if got := h.numbers(t); !slices.Equal(got, []int{1, 2, 3}) {
		t.Errorf("read as %v", got)
	}
	must(t, w.Close())
	d.room = -1
	w, b, err = h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	defer w.Close()
	if len(b.Events) != 3 || len(b.Spilled) != 1 {
		t.Errorf("opened: %v %v", b.Events, b.Spilled)
	}
	if got := h.merged(t); len(got) != 1 {
		t.Errorf("merged: %v", got)
	}
}

// An editor that writes CRLF, and one that puts a new file in the place of the day's, come between the append and the rename.
func TestSpillMergedTwiceOverAnEditor(t *testing.T) {
	h, d := spare(t)
	w := spilled(t, h, d)
	d.room = -1
	file := w.Away().File
	spill, err := os.ReadFile(file)
	must(t, err)
	must(t, w.Return())
	must(t, w.Close())
	must(t, os.WriteFile(file, spill, 0o600)) // killed before the rename
	text, err := os.ReadFile(w.Path())
	must(t, err)
	must(t, os.WriteFile(w.Path(), bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n")), 0o644))
	w, b, err := h.OpenDay("garden-bin", "2026-11-25")
	must(t, err)
	defer w.Close()
	if len(b.Events) != 3 || len(b.Spilled) != 0 || b.Damage() != "" {
		t.Errorf("%v, %v, %s", b.Events, b.Spilled, b.Damage())
	}
	if files, _ := filepath.Glob(filepath.Dir(file) + "/*.toml"); len(files) > 0 {
		t.Errorf("still there: %s", strings.Join(files, " "))
	}
}

// A fault that comes again and again is written down nine times a day, and no more of them elsewhere.
func TestReportsOfOneDay(t *testing.T) {
	h, _ := spare(t)
	must(t, os.MkdirAll(h.dir, 0o755))
	now := note(1, "").At
	for n := 1; n <= 12; n++ {
		path, err := h.Report(now, []byte("x"))
		if (err == nil) != (n <= reportsMost) || err == nil && filepath.Dir(path) != h.dir {
			t.Errorf("report %d: %q %v", n, path, err)
		}
	}
}
