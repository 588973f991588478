package days

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"example.org/vatside/model/book"
)

func playedDays(t *testing.T) map[string][]byte {
	files, err := filepath.Glob("../../days/*.toml")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	out := map[string][]byte{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[f] = text
	}
	return out
}

// Taken apart, signed anew and put together, a played day is the same file: what is signed here is signed as the book does.
func TestSignedAsTheBookDoes(t *testing.T) {
	for f, text := range playedDays(t) {
		d := Parse(text)
		d.Sign()
		if !bytes.Equal(d.Text(), text) {
			t.Errorf("%s is not the same", f)
		}
	}
}

// A day that is moved in time reads whole, ends when it was asked to, and is named by its date.
func TestEndAt(t *testing.T) {
	end := time.Date(2031, 2, 3, 0, 30, 0, 0, time.FixedZone("", 3600))
	for f, text := range playedDays(t) {
		d := Parse(text)
		name, err := d.EndAt(end)
		if err != nil {
			t.Fatal(err)
		}
		b := book.Read(f, d.Text())
		if faults := book.Verify(b); len(faults) > 0 || b.Head.Day != name {
			t.Errorf("%s: %q, %v", f, name, faults)
		}
		if last := b.Events[len(b.Events)-1]; !last.At.Equal(end) || last.Boot != "" {
			t.Errorf("%s ends at %s, boot %q", f, last.At, last.Boot)
		}
		if begun := b.Events[0].At.In(end.Location()).Format(time.DateOnly); begun != name {
			t.Errorf("%s begins on %s and is named %s", f, begun, name)
		}
	}
}

// Every edit does something to a day somewhere, and an edit of a signed day leaves no end line that does not fit.
func TestSpoil(t *testing.T) {
	text := playedDays(t)["../../days/soda-bin.toml"]
	for what := range byte(12) {
		changed := 0
		for where := range byte(100) {
			edit := []byte{what, where, 17 * where, where, 3 * where}
			spoilt := Spoil(text, edit, false)
			if !bytes.Equal(spoilt, text) {
				changed++
			}
			if !bytes.Equal(spoilt, Spoil(text, edit, false)) {
				t.Fatalf("edit %x comes out otherwise the second time", edit)
			}
			d := Parse(Spoil(text, edit, true))
			sums := slices.Clone(d.Sums)
			if d.Sign(); !slices.Equal(sums, d.Sums) {
				t.Errorf("edit %x is not signed", edit)
			}
		}
		if changed < 40 {
			t.Errorf("edits of the kind %d changed %d of 100 days", what, changed)
		}
	}
}

// The texts that a dyer types can be replaced without a fault in the day.
func TestWithText(t *testing.T) {
	for f, text := range playedDays(t) {
		b := book.Read(f, WithText(text, "anything", false))
		if faults := book.Verify(b); len(faults) > 0 {
			t.Errorf("%s: %v", f, faults)
		}
	}
}
