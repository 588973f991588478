package shelf

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"sync"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// The days of a vat stand in the order of their events, not of their names: a name is a date where the day was opened, and
// the next day may be opened where it is still the day before. The first and the last time of each are read off its text.

// extent is when a day was, as far as its events tell.
type extent struct {
	from, to time.Time // of its first and its last event; zero where it has none
	open     bool      // it is begun, and not closed
}

// shortDay is how long most days are at most, in bytes: they are read into room that is kept.
const shortDay = 64 << 10

var room = sync.Pool{New: func() any { return new([shortDay]byte) }}

// extentOf reads when a day was. A file that cannot be read tells nothing.
func (h Home) extentOf(vat, name string) extent {
	path := h.DayFile(vat, name)
	info, err := os.Stat(path)
	if err != nil || regular(path, info) != nil {
		return extent{}
	}
	if is, ok := h.indexedExtent(vat, name, info); ok {
		return is
	}
	var is extent
	if text, ok := h.seen(path, info); ok {
		is, err = h.extentIn(vat, name, text)
	} else {
		is, err = h.readExtent(vat, name, info.Size())
	}
	if err != nil {
		return extent{}
	}
	h.learnExtent(vat, name, info, is)
	return is
}

// readExtent reads when a day was off all of its file.
func (h Home) readExtent(vat, name string, size int64) (extent, error) {
	if size > shortDay {
		data, err := readFile(h.DayFile(vat, name))
		if err != nil {
			return extent{}, err
		}
		return h.extentIn(vat, name, data)
	}
	f, err := openToRead(h.DayFile(vat, name))
	if err != nil {
		return extent{}, err
	}
	defer f.Close()
	into := room.Get().(*[shortDay]byte)
	defer room.Put(into)
	n, err := f.ReadAt(into[:], 0)
	if err != nil && err != io.EOF {
		return extent{}, err
	}
	return h.extentIn(vat, name, into[:n])
}

// extentIn is the extent of a day whose whole text is at hand.
func (h Home) extentIn(vat, name string, data []byte) (extent, error) {
	today := h.now()
	x := extent{from: firstTime(data, today), to: lastTime(data, today)}
	switch {
	case !bytes.Contains(data, []byte("\n# end 0 ")) || !plainly(data):
		return h.decoded(vat, name)
	case closedAtEnd(data, today):
	case !bytes.Contains(data, []byte(`"closed"`)) && !bytes.Contains(data, []byte(`"vat ended"`)):
		x.open = true
	default: // it was closed, and something came after
		whole, err := h.decoded(vat, name)
		return extent{x.from, x.to, whole.open}, err
	}
	return x, nil
}

// plainly tells whether all the times and kinds of the events are written as the program writes them.
func plainly(data []byte) bool {
	from := bytes.Index(data, eventHead)
	if from < 0 {
		return true
	}
	data = data[from:]
	blocks := bytes.Count(data, []byte("[[event]]"))
	return bytes.Count(data, timeKey) == blocks && bytes.Count(data, []byte("\nkind = \"")) == blocks
}

// decoded is the extent of a day by all that stands in it.
func (h Home) decoded(vat, name string) (extent, error) {
	b, err := h.readAnew(vat, name)
	if err != nil || b.Empty() || b.HeadErr != nil {
		return extent{}, err
	}
	var x extent
	for _, e := range b.Events {
		if x.from.IsZero() {
			x.from = e.At
		}
		x.to = e.At
	}
	s, _ := day.Replay(b.Head, b.Events)
	x.open = !s.Closed
	return x, nil
}

var (
	eventHead = []byte("\n[[event]]")
	timeKey   = []byte("\nat = ")
)

// firstTime is the time of the first event of a text whose time can be, zero for none.
func firstTime(data []byte, today time.Time) time.Time {
	from := bytes.Index(data, eventHead)
	for from >= 0 {
		at := bytes.Index(data[from:], timeKey)
		if at < 0 {
			break
		}
		from += at + len(timeKey)
		if t := timeAt(data[from:], today); !t.IsZero() {
			return t
		}
	}
	return time.Time{}
}

// lastTime is the time of the last event of a text whose time can be, zero for none.
func lastTime(data []byte, today time.Time) time.Time {
	if from := bytes.Index(data, eventHead); from >= 0 {
		data = data[from:]
	} else {
		return time.Time{}
	}
	for {
		at := bytes.LastIndex(data, timeKey)
		if at < 0 {
			return time.Time{}
		}
		if t := timeAt(data[at+len(timeKey):], today); !t.IsZero() {
			return t
		}
		data = data[:at]
	}
}

// timeAt is the time that a text begins with, zero where it is none that can be.
func timeAt(text []byte, today time.Time) time.Time {
	line, _, _ := bytes.Cut(text, []byte("\n"))
	t, err := time.Parse(time.RFC3339, string(bytes.TrimSpace(line)))
	if err != nil || !book.CanBe(t, today) {
		return time.Time{}
	}
	return t
}

// closedAtEnd tells whether a text ends with a whole event, as the program wrote it, that closes the day.
func closedAtEnd(data []byte, today time.Time) bool {
	from := bytes.LastIndex(data, eventHead)
	if from < 0 {
		return false
	}
	block := data[from+1:]
	if !bytes.Contains(block, []byte("\nkind = \"closed\"\n")) && !bytes.Contains(block, []byte("\nkind = \"vat ended\"\n")) || !book.WholeBlock(block) {
		return false
	}
	at := bytes.Index(block, timeKey)
	return at >= 0 && !timeAt(block[at+len(timeKey):], today).IsZero()
}

var zoneLine = wording.Pattern(`(?m)^zone = "([^"\n]*)"\s*$`)

// endOfDate is the last second of the date that a day is named by, in the zone of its head.
func (h Home) endOfDate(vat, name string) time.Time {
	date, err := time.Parse(time.DateOnly, name[:len(time.DateOnly)])
	if err != nil {
		return time.Time{}
	}
	zone := time.UTC
	if data, err := readFile(h.DayFile(vat, name)); err == nil {
		if m := zoneLine().FindSubmatch(data); m != nil {
			if t, err := time.Parse("-07:00", string(m[1])); err == nil {
				zone = t.Location()
			} else if z, err := time.LoadLocation(string(m[1])); err == nil {
				zone = z
			}
		}
	}
	return time.Date(date.Year(), date.Month(), date.Day(), 23, 59, 59, 0, zone)
}

// placed is a day with its place among the days of its vat.
type placed struct {
	name string
	at   time.Time // its first event; of a day without one the end of its date
	extent
}

// placed are the days of a vat, the oldest first.
func (h Home) placed(vat string) ([]placed, error) {
	names, err := h.named(vat)
	days := make([]placed, len(names))
	spills := h.spillFiles(vat)
	for i, name := range names {
		days[i] = placed{name: name}
		if slices.ContainsFunc(spills, func(file string) bool { return strings.HasPrefix(file, spillName(vat, name)) }) {
			days[i].extent, _ = h.decoded(vat, name) // its last events lie elsewhere
		} else {
			days[i].extent = h.extentOf(vat, name)
		}
		days[i].at = days[i].from
	}
	for i, d := range slices.Backward(days) {
		if !d.from.IsZero() {
			continue
		}
		days[i].at = h.endOfDate(vat, d.name)
		for _, later := range days[i+1:] { // it was begun before the next of its date
			if later.at.Before(days[i].at) && strings.HasPrefix(later.name, d.name[:len(time.DateOnly)]) {
				days[i].at = later.at.Add(-time.Second)
			}
		}
	}
	sorted.By(days, func(a, b placed) int {
		return cmp.Or(a.at.Compare(b.at), a.to.Compare(b.to), compareDays(a.name, b.name))
	})
	return days, err
}

// VatDays are the names of a vat's days.
type VatDays struct {
	All  []string // the oldest first by their events
	Open []string // of those the ones that are begun and not closed
}

// VatDays looks at the days of a vat. One that is not there has none.
func (h Home) VatDays(vat string) (VatDays, error) {
	days, err := h.placed(vat)
	all := VatDays{All: namesOf(days)}
	all.Open = namesOf(slices.DeleteFunc(days, func(d placed) bool { return !d.open }))
	return all, err
}

// Days are the names of a vat's days, the oldest first by their events. A vat that is not there has none.
func (h Home) Days(vat string) ([]string, error) {
	days, err := h.VatDays(vat)
	return days.All, err
}

// DaysSince are the names of the days of a vat that have an event at an instant or later, or no event at all.
func (h Home) DaysSince(vat string, since time.Time) ([]string, error) {
	days, err := h.placed(vat)
	return namesOf(slices.DeleteFunc(days, func(d placed) bool { return !d.to.IsZero() && d.to.Before(since) })), err
}

func namesOf(days []placed) []string {
	return wording.Each(days, func(d placed) string { return d.name })
}

// Last is the newest day of a vat that can be read, else the newest whose head cannot. Files that were killed before their
// head was whole are passed over; the error names the newer ones that cannot be read, also where a day is found.
func (h Home) Last(vat string) (name string, b book.Book, found bool, err error) {
	days, err := h.VatDays(vat)
	name, b, found, lastErr := h.LastOf(vat, days)
	return name, b, found, errors.Join(err, lastErr)
}

// LastOf is Last of days that were looked at already.
func (h Home) LastOf(vat string, days VatDays) (name string, b book.Book, found bool, err error) {
	for _, d := range slices.Backward(days.All) {
		read, readErr := h.ReadDay(vat, d)
		switch {
		case readErr != nil:
			err = errors.Join(err, LeftOut(vat, d, readErr))
		case read.HeadErr != nil:
			err = errors.Join(err, LeftOut(vat, d, fmt.Errorf("its first lines cannot be read: %w", read.HeadErr)))
			if !found {
				name, b, found = d, read, true
			}
		case !read.Empty():
			return d, read, true, err
		}
	}
	return name, b, found, err
}

// LeftOut is the error for a day that is passed over: vat, day and why.
func LeftOut(vat, name string, why error) error {
	return fmt.Errorf("vat %s, day %s is left out: %w", vat, name, why)
}

// Glance is the newest day of a vat by its name, with its spills, if it is open and whole as far as its head: what the first
// screen shows before all days of the vat are looked at. False where it is closed, where it cannot be read, or where there is
// none. Which day is the newest by its events, and whether another one is open too, VatDays says.
func (h Home) Glance(vat string) (name string, b book.Book, ok bool) {
	names, _ := h.named(vat) // what cannot be read is told by VatDays
	if len(names) == 0 {
		return "", b, false
	}
	name = names[len(names)-1]
	text, info, err := h.dayText(vat, name)
	if err != nil || closedAtEnd(text, h.now()) {
		return name, b, false
	}
	if b = understood(h.now(), h.DayFile(vat, name), text, h.sighted(info, text)); b.Empty() || b.HeadErr != nil {
		return name, b, false
	}
	return name, b.With(h.now(), text, h.spills(vat, name, b.Frame)), true
}
