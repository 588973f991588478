package shelf

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// laid puts a day into a home as it stands: its name, its zone, and its events, each a body at an instant.
func laid(t *testing.T, h Home, name, zone string, events ...day.Event) {
	t.Helper()
	hd := head(t)
	hd.Vat, hd.Day, hd.Zone = "bin", name, zone
	data, err := book.EncodeHead(hd)
	must(t, err)
	for i, e := range events {
		e.Seq = i + 1
		block, err := book.EncodeEvent(e)
		must(t, err)
		data = append(append(data, '\n'), block...)
	}
	must(t, makeDir(h.VatDir("bin")))
	must(t, os.WriteFile(h.DayFile("bin", name), data, 0o644))
}

func on(at string, b day.Body) day.Event {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		panic(err)
	}
	return day.Event{At: t, Body: b}
}

func orderHome(t *testing.T) Home {
	return At(t.TempDir(), func() time.Time { return time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC) })
}

func order(t *testing.T, h Home, days, open string) {
	t.Helper()
	got, err := h.VatDays("bin")
	if list := strings.Join(got.All, " "); list != days || err != nil {
		t.Errorf("days %s, want %s; %v", list, days, err)
	}
	if list := strings.Join(got.Open, " "); list != open {
		t.Errorf("open %q, want %q", list, open)
	}
}

// A day that was made where it was tomorrow and closed does not stand after the one that was begun after it.
func TestDaysStandByTheirEvents(t *testing.T) {
	h := orderHome(t)
	laid(t, h, "2026-11-26", "Pacific/Kiritimati", on("2026-11-26T09:00:00+14:00", day.Opened{How: "build"}), on("2026-11-26T09:30:00+14:00", day.Closed{}))
	laid(t, h, "2026-11-25", "UTC", on("2026-11-25T20:00:00Z", day.Opened{How: "tend"}), on("2026-11-25T20:05:00Z", day.Note{Text: "sun"}))
	order(t, h, "2026-11-26 2026-11-25", "2026-11-25")
	if name, _, found, err := h.Last("bin"); name != "2026-11-25" || !found || err != nil {
		t.Errorf("last %s %v %v", name, found, err)
	}
	// One that was killed before its first event goes by its date, in its zone, before the next of that date.
	laid(t, h, "2026-11-25-2", "-11:00")
	order(t, h, "2026-11-26 2026-11-25 2026-11-25-2", "2026-11-25 2026-11-25-2")
	laid(t, h, "2026-11-25-3", "UTC", on("2026-11-25T21:00:00Z", day.Opened{How: "tend"}), on("2026-11-25T21:01:00Z", day.Closed{}))
	order(t, h, "2026-11-26 2026-11-25 2026-11-25-2 2026-11-25-3", "2026-11-25 2026-11-25-2")
	laid(t, h, "2026-11-24", "UTC")
	order(t, h, "2026-11-24 2026-11-26 2026-11-25 2026-11-25-2 2026-11-25-3", "2026-11-24 2026-11-25 2026-11-25-2")
	names, err := h.DaysSince("bin", time.Date(2026, 11, 25, 20, 30, 0, 0, time.UTC))
	if list := strings.Join(names, " "); err != nil || list != "2026-11-24 2026-11-25-2 2026-11-25-3" {
		t.Errorf("since half past eight: %s %v", list, err)
	}
}

// A time that cannot be decides nothing, at either end of a day.
func TestABadTimeDecidesNoOrder(t *testing.T) {
	h := orderHome(t)
	laid(t, h, "2026-11-20", "UTC", on("3026-11-20T09:00:00Z", day.Opened{How: "build"}), on("2026-11-20T09:10:00Z", day.Note{Text: "x"}),
		on("3026-11-20T09:20:00Z", day.Note{Text: "y"}), on("2026-11-20T09:30:00Z", day.Closed{}), on("3026-11-20T09:20:00Z", day.Note{Text: "y"}))
	laid(t, h, "2026-11-21", "UTC", on("0026-11-21T09:00:00Z", day.Opened{How: "tend"}), on("2026-11-21T09:10:00Z", day.Note{Text: "x"}), on("3026-11-21T09:30:00Z", day.Closed{}))
	laid(t, h, "2026-11-22", "UTC", on("3026-11-22T09:00:00Z", day.Opened{How: "tend"}))
	order(t, h, "2026-11-20 2026-11-21 2026-11-22", "2026-11-21 2026-11-22")
}

// Whether a day is open is what its events say, however they stand in its file.
func TestOpenDaysAreExact(t *testing.T) {
	opened, closed := on("2026-11-25T09:00:00Z", day.Opened{How: "tend"}), on("2026-11-25T17:00:00Z", day.Closed{})
	note := on("2026-11-25T18:00:00Z", day.Note{Text: `it was "closed" and kind = "closed"`})
	long := []day.Event{opened}
	for range 2000 {
		long = append(long, on("2026-11-25T10:00:00Z", day.Note{Text: strings.Repeat("sun ", 20)}))
	}
	text := func(f func(string) string) func(string) {
		return func(path string) {
			data, err := os.ReadFile(path)
			must(t, err)
			must(t, os.WriteFile(path, []byte(f(string(data))), 0o644))
		}
	}
	for _, c := range []struct {
		name   string
		events []day.Event
		spoil  func(path string)
		open   bool
	}{
		{"begun", []day.Event{opened}, nil, true},
		{"without an event", nil, nil, true},
		{"closed", []day.Event{opened, closed}, nil, false},
		{"ended", []day.Event{opened, on("2026-11-25T17:00:00Z", day.VatEnded{Why: "used up"})}, nil, false},
		{"a note of it", []day.Event{opened, note}, nil, true},
		{"a note after it", []day.Event{opened, closed, note}, nil, false},
		{"taken back", []day.Event{opened, closed, on("2026-11-25T17:01:00Z", day.Corrected{Of: 2, Way: "undone"})}, nil, true},
		{"taken back twice", []day.Event{opened, closed, on("2026-11-25T17:01:00Z", day.Corrected{Of: 2, Way: "undone"}), on("2026-11-25T17:02:00Z", day.Corrected{Of: 3, Way: "undone"})}, nil, false},
		{"long and open", long, nil, true},
		{"long and closed", append(slices.Clone(long), closed), nil, false},
		{"long, a note after it", append(slices.Clone(long), closed, note), nil, false},
		{"torn in its last event", []day.Event{opened, closed}, text(func(s string) string { return s[:strings.LastIndex(s, "# end")] }), true},
		{"mended in its last event", []day.Event{opened, closed}, text(func(s string) string {
			return strings.Replace(s, "17:00:00Z\nkind = \"closed\"", "17:00:01Z\nkind = 'closed'", 1)
		}), false},
		{"with CRLF", []day.Event{opened, closed}, text(func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") }), false},
		{"with a comment at its end", []day.Event{opened, closed}, text(func(s string) string { return s + "\n# dusk\n" }), false},
		{"killed in its head", nil, text(func(s string) string { return s[:len(s)/2] }), false},
		{"of a later format", []day.Event{opened}, text(func(s string) string { return strings.Replace(s, "format = 1", "format = 7", 1) }), true},
		{"emptied", nil, text(func(string) string { return "" }), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := orderHome(t)
			laid(t, h, "2026-11-25", "UTC", c.events...)
			if c.spoil != nil {
				c.spoil(h.DayFile("bin", "2026-11-25"))
			}
			want := ""
			if c.open {
				want = "2026-11-25"
			}
			order(t, h, "2026-11-25", want)
			if b, err := h.ReadDay("bin", "2026-11-25"); err != nil {
				t.Error(err)
			} else if s, _ := day.Replay(b.Head, b.Events); b.HeadWhole && s.Closed == c.open {
				t.Errorf("replayed it is closed: %v", s.Closed)
			}
		})
	}
}

// What was read of a day's ends holds until its file changes.
func TestAChangedDayIsLookedAtAgain(t *testing.T) {
	h := orderHome(t)
	laid(t, h, "2026-11-25", "UTC", on("2026-11-25T09:00:00Z", day.Opened{How: "tend"}))
	order(t, h, "2026-11-25", "2026-11-25")
	w, b, err := h.OpenDay("bin", "2026-11-25")
	must(t, err)
	must(t, w.Append(day.Event{Seq: b.NextSeq(), At: time.Date(2026, 11, 25, 17, 0, 0, 0, time.UTC), Body: day.Closed{}}))
	must(t, w.Close())
	order(t, h, "2026-11-25", "")
}

// Last is the newest day that can be read, with a word on the newer ones that cannot.
func TestLastTellsWhatCannotBeRead(t *testing.T) {
	h := orderHome(t)
	laid(t, h, "2026-11-24", "UTC", on("2026-11-24T09:00:00Z", day.Opened{How: "tend"}))
	laid(t, h, "2026-11-25", "UTC", on("2026-11-25T09:00:00Z", day.Opened{How: "tend"}))
	must(t, os.WriteFile(h.DayFile("bin", "2026-11-25"), bytes.Repeat([]byte{0}, 500), 0o644))
	pipe(t, h.DayFile("bin", "2026-11-26"))
	name, b, found, err := h.Last("bin")
	if name != "2026-11-24" || !found || !b.HeadWhole || err == nil {
		t.Fatalf("%s %v %v", name, found, err)
	}
	for _, told := range []string{"vat bin, day 2026-11-25 is left out: its first lines cannot be read: ", "vat bin, day 2026-11-26 is left out: the day cannot be read: ", "is a pipe"} {
		if !strings.Contains(err.Error(), told) {
			t.Errorf("%v says nothing of %q", err, told)
		}
	}
	must(t, os.Remove(h.DayFile("bin", "2026-11-24")))
	if name, b, found, _ := h.Last("bin"); name != "2026-11-25" || !found || b.HeadErr == nil {
		t.Errorf("%s %v", name, found)
	}
}

func BenchmarkDays(b *testing.B) {
	h := Open(filepath.Join(b.TempDir(), "home"))
	text, err := os.ReadFile("../../testdata/days/soda-bin.toml")
	if err != nil {
		b.Fatal(err)
	}
	for i := range 1000 {
		name := time.Date(2024, 1, 1+i, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
		if err := errorsOf(makeDir(h.VatDir("bin")), os.WriteFile(h.DayFile("bin", name), text, 0o644)); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		if days, err := h.VatDays("bin"); err != nil || len(days.All) != 1000 || len(days.Open) > 0 {
			b.Fatal(days, err)
		}
	}
	b.Log(fmt.Sprint(len(text), " bytes a day"))
}

func errorsOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
