package library

import (
	"errors"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/pack"
	"example.org/vatside/ui/shelf"
)

// oldDay is a day of testdata/old.
func oldDay(t *testing.T, name string) history.Day {
	t.Helper()
	text, err := os.ReadFile("../../testdata/old/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	b := book.Read(name, text)
	s, _ := day.Replay(b.Head, b.Events)
	return history.Day{Name: name, State: s}
}

// oldVats are vats of such days: the pieces of some go by their dips, of others by a rung.
var oldVats = [][]string{{"played-soda-bin", "played-soda-bin-second-day", "played-soda-bin-last-day"}, {"workshop"}, {"kept-03-02", "kept-03-24", "kept-05-12"}, {"rehearsed-soda"}}

// blueLines are the blues of such vats, each a line with all that is reckoned of a Piece.
func blueLines(t *testing.T, know bool) (lines []string, vats []history.Vat) {
	t.Helper()
	for _, names := range oldVats {
		var v history.Vat
		for _, n := range names {
			d := oldDay(t, n)
			if know {
				d.Known = history.Known{}
			}
			// No wish tells the blue: it has to be reckoned.
			for i := range d.State.Pieces {
				if spec := &d.State.Pieces[i].Spec; i%2 == 0 {
					spec.Depth, spec.Lab, spec.Rung = "", [3]float64{}, 0
				} else {
					spec.Depth, spec.Lab, spec.Rung = "", [3]float64{}, 3
				}
			}
			v = append(v, d)
		}
		for _, b := range history.BluesOf(v) {
			dip, air := b.Took()
			lines = append(lines, fmt.Sprintf("%s/%s %.2f %.2f %.2f %s %d %v %v", b.Of.Name, b.Piece.Tag, b.Lab.L, b.Lab.A, b.Lab.B, b.Told, b.Piece.Dips, dip, air))
		}
		vats = append(vats, v)
	}
	return lines, vats
}

// Colours that an earlier version reckoned count while the number of the reckoning is this version's.
func TestBluesGoWithTheNumberOfTheReckoning(t *testing.T) {
	const number, want = 5, "343f3dd5"
	lines, vats := blueLines(t, false)
	for _, v := range vats {
		past, _ := history.LifeOf(v).Kept()
		var p pack.Packer
		if err := p.Value(reflect.ValueOf(past)); err != nil {
			t.Fatal(err)
		}
		lines = append(lines, fmt.Sprintf("%x", p.Out))
	}
	if got := fmt.Sprintf("%08x", crc32.ChecksumIEEE([]byte(strings.Join(lines, "\n")))); history.Reckoning != number || got != want {
		t.Errorf("Reckoning is %d and the sum of the blues %s, not %d and %s: where a blue or a past comes out otherwise than it did, raise Reckoning, and put both here\n%s",
			history.Reckoning, got, number, want, strings.Join(lines, "\n"))
	}
}

// A colour that is known is not reckoned again, and is the one that is reckoned.
func TestKnownColours(t *testing.T) {
	bare, _ := blueLines(t, false)
	got, vats := blueLines(t, true)
	if !reflect.DeepEqual(got, bare) {
		t.Errorf("known %q, reckoned %q", got, bare)
	}
	n := 0
	for _, v := range vats {
		for _, d := range v {
			for of, k := range d.Known {
				k.Lab.L = 7.25 // none that any blue has
				d.Known[of] = k
				n++
			}
		}
		said := 0
		for _, b := range history.BluesOf(v) {
			if b.Lab.L == 7.25 {
				said++
			}
		}
		if len(v[0].Known) > 0 && said == 0 {
			t.Errorf("of the vat of %s nothing known is taken", v[0].Name)
		}
	}
	if n < 4 {
		t.Errorf("only %d colours were reckoned", n)
	}
}

// What the days before the newest say is kept, and says the same; a day of them that changed is gone through again.
func TestALifeIsKept(t *testing.T) {
	today := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	h := shelf.At(t.TempDir(), func() time.Time { return today }).Indexed(filepath.Join(t.TempDir(), "index"))
	put := func(name, day string) {
		t.Helper()
		text, err := os.ReadFile("../../testdata/old/" + name + ".toml")
		path := h.DayFile("bin", day)
		err = errors.Join(err, os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, text, 0o644), os.Chtimes(path, today, today.Add(-time.Hour)))
		if err != nil {
			t.Fatal(err)
		}
	}
	put("played-soda-bin", "2026-05-09")
	put("played-soda-bin-second-day", "2026-05-10")
	put("played-soda-bin-last-day", "2026-05-24")
	said := func(when string, before int) {
		t.Helper()
		names, err := h.Days("bin")
		if err != nil || len(names) != before+1 {
			t.Fatal(names, err)
		}
		days, errs := Days(h, "bin", names)
		life, wrong := Life(h, "bin", names)
		want := history.LifeOf(days)
		if got, want := fmt.Sprintf("%+v %+v", life.Care(today), life.Stand(today)), fmt.Sprintf("%+v %+v", want.Care(today), want.Stand(today)); got != want || len(errs)+len(wrong) > 0 {
			t.Errorf("%s: %v\n%s\nof all days\n%s", when, wrong, got, want)
		}
		if _, known := pastKnown(h, "bin", names[:before], days[before].State.Head); !known {
			t.Errorf("%s: the past is not known", when)
		}
	}
	said("cold", 2)
	said("warm", 2)
	if err := os.Remove(h.DayFile("bin", "2026-05-10")); err != nil {
		t.Fatal(err)
	}
	said("a day less", 1)
	put("played-soda-bin-second-day", "2026-05-10")
	said("a day more", 2)
}
