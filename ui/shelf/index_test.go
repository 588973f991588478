package shelf

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// indexToday is when the tests of the index are, and indexStill a time of change that is long past by then.
var (
	indexToday = time.Date(2026, 12, 1, 12, 0, 0, 0, time.UTC)
	indexStill = time.Date(2026, 11, 30, 9, 0, 0, 5000, time.UTC)
)

// indexedDays are the days of the home of these tests, by VAT/DAY: played days, and one that is not whole.
func indexedDays(t *testing.T) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	for i, name := range []string{"soda-bin", "soda-bin-second-day", "sugar-lime-pail", "pail-asked"} {
		text, err := os.ReadFile("../../testdata/days/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		out[[]string{"bin/2026-05-09", "bin/2026-05-10", "pail/2026-05-09", "open/2026-11-25"}[i]] = text
	}
	torn := out["bin/2026-05-10"]
	out["torn/2026-05-10"] = torn[:len(torn)-4]
	return out
}

// indexedHome is a home of such days that have been still, with an index in a folder, and places of its own for spills.
func indexedHome(t *testing.T) (h Home, cache string) {
	t.Helper()
	dir, cache := t.TempDir(), filepath.Join(t.TempDir(), "index")
	h = At(dir, func() time.Time { return indexToday }).Indexed(cache)
	h.places = []place{{filepath.Join(t.TempDir(), "spilled"), false}}
	for path, text := range indexedDays(t) {
		vat, name, _ := strings.Cut(path, "/")
		put(t, h.DayFile(vat, name), text)
	}
	return h, cache
}

// put writes a file and gives it its time.
func put(t *testing.T, path string, text []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(path, indexStill, indexStill); err != nil {
		t.Fatal(err)
	}
}

// again is the home as another program opens it.
func again(h Home) Home {
	if h.index != nil {
		h = h.Indexed(h.index.dir)
	}
	return h
}

// told is all that a home tells of its days, as text.
func told(t *testing.T, h Home) string {
	t.Helper()
	var w strings.Builder
	vats, err := h.Vats()
	fmt.Fprintln(&w, vats, err)
	for _, vat := range vats {
		days, err := h.VatDays(vat)
		since, sinceErr := h.DaysSince(vat, time.Date(2026, 5, 10, 7, 0, 0, 0, time.UTC))
		fmt.Fprintln(&w, vat, days, err, since, sinceErr)
		for _, read := range []func(vat, day string) (book.Book, error){h.ReadDay, h.ReadThrough} {
			for _, d := range days.All {
				b, err := read(vat, d)
				head, headErr := book.EncodeHead(b.Head)
				fmt.Fprintf(&w, "%s %v %v %s %v %x %x %d %d %q %v %d\n%s", d, err, headErr, b.File, b.HeadWhole, b.HeadCRC, b.HeadWas, b.TornAt, b.NextSeq(),
					b.Damage(), book.Verify(b), len(b.Spilled), head)
				for _, e := range b.Events {
					text, err := book.EncodeEvent(e)
					fmt.Fprintf(&w, "%v %s", err, text)
				}
			}
		}
	}
	return w.String()
}

// sameTold holds what a home tells with its index against what it tells without one.
func sameTold(t *testing.T, what string, h Home) {
	t.Helper()
	bare := h
	bare.index = nil
	want := told(t, bare)
	if got := told(t, again(h)); got != want {
		at := 0
		for at < min(len(got), len(want)) && got[at] == want[at] {
			at++
		}
		t.Errorf("%s: with the index it tells …%.200s, without it …%.200s", what, got[max(0, at-60):], want[max(0, at-60):])
	}
}

// kept reads all of a home, writes its index and gives the file.
func kept(t *testing.T, h Home) string {
	t.Helper()
	h = again(h)
	told(t, h)
	h.KeepIndex()
	path, _ := h.indexFile()
	if _, err := os.Stat(path); err != nil {
		t.Fatal(err)
	}
	return path
}

// What stands in the file of a day is not read again while the file is as it was; book verify reads it all the same.
func TestTheIndexIsUsedAndVerifyReadsEachByte(t *testing.T) {
	h, _ := indexedHome(t)
	kept(t, h)
	sameTold(t, "warm", h)
	path := h.DayFile("bin", "2026-05-09")
	text := indexedDays(t)["bin/2026-05-09"]
	bent := bytes.Replace(text, []byte("\nseq = 4\n"), []byte("\nseq = 5\n"), 1) // size, time and last checksum stay
	put(t, path, bent)
	h = again(h)
	if b, err := h.ReadDay("bin", "2026-05-09"); err != nil || b.Damage() != "" || len(b.Events) != len(book.Read("", text).Events) {
		t.Errorf("the day was read again: %v, %s", err, b.Damage())
	}
	if b, err := h.ReadThrough("bin", "2026-05-09"); err != nil || b.Damage() == "" {
		t.Errorf("a changed byte is not found: %v", err)
	}
	if b, err := h.ReadDay("bin", "2026-05-09"); err != nil || b.Damage() == "" {
		t.Errorf("what was found is forgotten: %v", err)
	}
}

// An index that is spoilt, or another's, counts as none.
func TestSpoiltIndices(t *testing.T) {
	h, cache := indexedHome(t)
	path := kept(t, h)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	summed := func(data []byte) []byte { return binary.LittleEndian.AppendUint64(data, textSum(data)) }
	body := whole[:len(whole)-8]
	_, begins := h.indexFile()
	spoilt := map[string][]byte{
		"empty":              {},
		"another version":    summed(bytes.Replace(body, []byte("index 1 "), []byte("index 0 "), 1)),
		"other types":        summed(bytes.Replace(body, []byte(book.Packing()), []byte("1-00000000"), 1)),
		"another year":       summed(bytes.Replace(body, []byte(" 2026\n"), []byte(" 2025\n"), 1)),
		"another home":       summed(bytes.Replace(body, []byte(h.real()), []byte(strings.Repeat("x", len(h.real()))), 1)),
		"cut, and summed":    summed(bytes.Clone(body[:len(body)*2/3])),
		"nothing in it":      summed([]byte(begins)),
		"more in it":         summed(append(bytes.Clone(body), 0)),
		"no index at all":    []byte("Grounds of the terminals\n"),
		"only how it begins": []byte(begins),
	}
	for at := 0; at < len(whole); at += len(whole)/30 + 1 {
		bent := bytes.Clone(whole)
		bent[at] ^= byte(at%255 + 1)
		spoilt[fmt.Sprint("bent at ", at)], spoilt[fmt.Sprint("cut at ", at)] = bent, whole[:at]
	}
	for what, data := range spoilt {
		if bytes.Equal(data, whole) {
			t.Errorf("%s: it is not spoilt", what)
		}
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if w := readIndex(path, begins); len(w.Days) > 0 {
			t.Errorf("%s: %d days are taken from it", what, len(w.Days))
		}
	}
	for _, what := range []string{"bent at 0", "cut, and summed", "another home"} { // and the home is read, and the index made again
		if err := os.WriteFile(path, spoilt[what], 0o600); err != nil {
			t.Fatal(err)
		}
		sameTold(t, what, h)
		kept(t, h)
		if again, _ := os.ReadFile(path); !bytes.HasPrefix(again, []byte(begins)) || len(readIndex(path, begins).Days) == 0 {
			t.Errorf("%s: it was not made again", what)
		}
	}
	if err := os.RemoveAll(cache); err != nil {
		t.Fatal(err)
	}
	sameTold(t, "deleted", h)
	later := h
	later.today = func() time.Time { return indexToday.AddDate(1, 0, 0) }
	kept(t, h)
	sameTold(t, "in another year", later)
}

// A day that changed is read anew, whatever stayed as it was.
func TestChangedDaysAreReadAnew(t *testing.T) {
	days := indexedDays(t)
	bin := days["bin/2026-05-10"]
	b := book.Read("", bin)
	last := b.Events[len(b.Events)-1]
	block, err := book.EncodeEvent(last)
	if err != nil || !bytes.HasSuffix(bin, block) {
		t.Fatalf("the last block of the day: %v", err)
	}
	last.At = last.At.Add(time.Second) // as long, and with another checksum
	other, err := book.EncodeEvent(last)
	if err != nil || len(other) != len(block) {
		t.Fatal(err)
	}
	note, err := book.EncodeEvent(day.Event{Seq: last.Seq + 1, At: last.At, Body: day.Note{Text: "rain"}})
	if err != nil {
		t.Fatal(err)
	}
	for what, change := range map[string]func(h Home){
		"nothing": func(Home) {},
		"size and time, not the last sum": func(h Home) {
			put(t, h.DayFile("bin", "2026-05-10"), append(bytes.TrimSuffix(bytes.Clone(bin), block), other...))
		},
		"longer, of the same time": func(h Home) { put(t, h.DayFile("bin", "2026-05-10"), slices.Concat(bin, []byte("\n"), note)) },
		"torn":                     func(h Home) { put(t, h.DayFile("bin", "2026-05-10"), bin[:len(bin)-9]) },
		"another time, inside": func(h Home) {
			put(t, h.DayFile("bin", "2026-05-10"), bytes.Replace(bin, []byte("\nseq = 3\n"), []byte("\nseq = 9\n"), 1))
			if err := os.Chtimes(h.DayFile("bin", "2026-05-10"), indexStill, indexStill.Add(time.Millisecond)); err != nil {
				t.Fatal(err)
			}
		},
		"added":   func(h Home) { put(t, h.DayFile("bin", "2026-05-11"), bin) },
		"removed": func(h Home) { _ = os.Remove(h.DayFile("bin", "2026-05-10")) },
		"moved":   func(h Home) { _ = os.Rename(h.DayFile("bin", "2026-05-10"), h.DayFile("pail", "2026-05-10")) },
		"spilled": func(h Home) {
			head := book.EncodeSpillHead(h.whose("bin", "2026-05-10", b.HeadCRC))
			if err := os.MkdirAll(h.places[0].dir, 0o700); err != nil {
				t.Fatal(err)
			}
			put(t, filepath.Join(h.places[0].dir, spillFile(h.whose("bin", "2026-05-10", b.HeadCRC))+".toml"), slices.Concat(head, []byte("\n"), note))
			if got, err := again(h).ReadDay("bin", "2026-05-10"); err != nil || len(got.Spilled) != 1 || len(got.Events) != len(b.Events)+1 {
				t.Errorf("the spill is not read: %v", err)
			}
		},
	} {
		h, _ := indexedHome(t)
		kept(t, h)
		sameTold(t, what+", before", h)
		change(h)
		sameTold(t, what, h)
		kept(t, h)
		sameTold(t, what+", kept", h)
	}
}

// A file that changed just now may change again within the same time of change: it is not kept.
func TestTheIndexWaitsUntilAFileIsStill(t *testing.T) {
	h, _ := indexedHome(t)
	path := h.DayFile("bin", "2026-05-10")
	if err := os.Chtimes(path, indexToday, indexToday.Add(-30*time.Second)); err != nil {
		t.Fatal(err)
	}
	w := readIndex(kept(t, h), func() string { _, b := h.indexFile(); return b }())
	var names []string
	for _, d := range w.Days {
		if names = append(names, d.Name); (d.Is.Day == nil) != (d.Name == "torn/2026-05-10") {
			t.Errorf("%s: whole in the index: %v", d.Name, d.Is.Day != nil)
		}
	}
	slices.Sort(names)
	if !slices.Equal(names, []string{"bin/2026-05-09", "open/2026-11-25", "pail/2026-05-09", "torn/2026-05-10"}) {
		t.Errorf("kept are %v", names)
	}
}

// What the cache folder refuses is no matter, and nothing is ever written into the home.
func TestACacheThatCannotBeWritten(t *testing.T) {
	h, cache := indexedHome(t)
	listing := func() string {
		var names []string
		_ = filepath.WalkDir(h.Dir(), func(path string, e os.DirEntry, err error) error { names = append(names, path); return err })
		return strings.Join(names, " ")
	}
	before := listing()
	put(t, cache, []byte("a file in the place of the folder"))
	sameTold(t, "a file in the place of the folder", h)
	h = again(h)
	told(t, h)
	h.KeepIndex()
	if text, err := os.ReadFile(cache); err != nil || string(text) != "a file in the place of the folder" {
		t.Errorf("the file is gone: %v", err)
	}
	if err := os.Remove(cache); err != nil {
		t.Fatal(err)
	}
	kept(t, h)
	if listing() != before {
		t.Errorf("in the home are %s, and were %s", listing(), before)
	}
	if err := os.Chmod(cache, 0o777); err != nil {
		t.Fatal(err)
	}
	path, begins := h.indexFile()
	if len(readIndex(path, begins).Days) > 0 {
		t.Error("a folder that others can write to is believed")
	}
	if none := At(h.Dir(), nil).Indexed(cache); none.index != nil {
		t.Error("a home that does not know what day it is has an index")
	}
}

// What the index has of a day counts while the times in it can be: a hundred years on, within one year, some no longer can.
func TestTheIndexGoesByToday(t *testing.T) {
	h, _ := indexedHome(t)
	at := func(today time.Time) Home {
		h.today = func() time.Time { return today }
		return again(h)
	}
	kept(t, at(indexToday))
	sameTold(t, "the clock put back behind the files", at(indexStill.Add(-time.Hour)))
	kept(t, at(indexStill.Add(-time.Hour)))
	sameTold(t, "put right again", at(indexToday))
	kept(t, at(time.Date(2126, 4, 1, 0, 0, 0, 0, time.UTC)))
	for month := time.April; month <= time.December; month++ {
		sameTold(t, month.String(), at(time.Date(2126, month, 20, 0, 0, 0, 0, time.UTC)))
	}
	if _, ok := at(time.Date(2126, 12, 20, 0, 0, 0, 0, time.UTC)).Sum("bin", []string{"2026-05-09"}); ok {
		t.Error("what was reckoned of a day counts when its times cannot be")
	}
}

// Of many homes only the newest indices are kept.
func TestFewIndicesAreKept(t *testing.T) {
	h, cache := indexedHome(t)
	if err := os.MkdirAll(cache, 0o700); err != nil {
		t.Fatal(err)
	}
	for i := range indexKept + 3 {
		put(t, filepath.Join(cache, fmt.Sprint("old-", i)), []byte("x"))
	}
	path := kept(t, h)
	entries, err := os.ReadDir(cache)
	if err != nil || len(entries) != indexKept {
		t.Errorf("%d are kept: %v", len(entries), err)
	}
	if _, err := os.Stat(path); err != nil {
		t.Error(err)
	}
}

// Of programs that write at once one is forgotten, and what is there is whole at each moment.
func TestTheIndexHasManyWriters(t *testing.T) {
	h, _ := indexedHome(t)
	path, begins := kept(t, h), ""
	_, begins = h.indexFile()
	sum, ok := h.Sum("bin", []string{"2026-05-09"})
	if !ok {
		t.Fatal("no sum")
	}
	var wait sync.WaitGroup
	for n := range 4 {
		g := again(h)
		wait.Go(func() {
			for k := range 25 {
				g.Remember("bin", fmt.Sprint(n, k), sum, []byte("reckoned"))
				g.KeepIndex()
				if w := readIndex(path, begins); len(w.Days) == 0 {
					t.Error("what is there is not whole")
				}
			}
		})
	}
	wait.Wait()
	sameTold(t, "after all", h)
	if left, _ := os.ReadDir(filepath.Dir(path)); len(left) != 1 {
		t.Errorf("%d files are left", len(left))
	}
}

// What was reckoned counts for the days by which it was reckoned, and no others.
func TestAnswersGoByTheirDays(t *testing.T) {
	h, _ := indexedHome(t)
	kept(t, h)
	h = again(h)
	sum, ok := h.Sum("bin", []string{"2026-05-09", "2026-05-10"})
	if !ok {
		t.Fatal("the index has not the days of the bin")
	}
	if _, ok := h.Sum("torn", []string{"2026-05-10"}); ok {
		t.Error("a day that is not whole has a sum")
	}
	h.Remember("bin", "pieces", sum, []byte("blue"))
	h.KeepIndex()
	h = again(h)
	if data, ok := h.Answer("bin", "pieces", sum); !ok || string(data) != "blue" {
		t.Errorf("remembered is %q", data)
	}
	if _, ok := h.Answer("bin", "pieces", sum+1); ok {
		t.Error("it counts for other days")
	}
	if other, _ := h.Sum("bin", []string{"2026-05-09"}); other == sum {
		t.Error("two days have the sum of one")
	}
}

// A day that went since its folder was listed is told, and leaves the index to who asks next.
func TestADayThatIsGone(t *testing.T) {
	h, _ := indexedHome(t)
	kept(t, h)
	h = again(h)
	if _, err := h.ReadDay("bin", "2026-05-12"); err == nil {
		t.Error("a day that is not there is read")
	}
	if !h.index.mu.TryLock() {
		t.Fatal("the index is still locked")
	}
	h.index.mu.Unlock()
	if _, err := h.ReadDay("bin", "2026-05-10"); err != nil {
		t.Error(err)
	}
}
