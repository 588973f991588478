package shelf

import (
	"bytes"
	"slices"
	"sync"
	"time"

	"example.org/vatside/model/book"
)

// The days that were read last, as they were understood. The start of the program reads an open day to show it, to take it up
// under its lock, and for what its vat wants: the bytes are read from the disk each time, and understood once.

// lately are those days, by path.
var lately = struct {
	sync.Mutex
	of map[string]latelyRead
}{of: map[string]latelyRead{}}

type latelyRead struct {
	text  []byte
	today string // the date that its times were held against
	book  book.Book
}

// How many days are kept, and how long a text each has at most, in bytes.
const (
	latelyMost     = 8
	latelyTextMost = 256 << 10
)

// understood is book.ReadOn, without reading the same text twice. The caller may change the lists in the Book.
func understood(today time.Time, path string, text []byte) book.Book {
	date := today.Format(time.DateOnly)
	lately.Lock()
	was, there := lately.of[path]
	lately.Unlock()
	if there && was.today == date && bytes.Equal(was.text, text) {
		return own(was.book)
	}
	b := book.ReadOn(today, path, text)
	if len(text) > latelyTextMost {
		return b
	}
	lately.Lock()
	defer lately.Unlock()
	if _, there := lately.of[path]; !there && len(lately.of) >= latelyMost {
		clear(lately.of)
	}
	lately.of[path] = latelyRead{bytes.Clone(text), date, own(b)}
	return b
}

// own copies the lists of a book, so that a caller may change them.
func own(b book.Book) book.Book {
	b.Marks, b.Unread, b.Gaps, b.Spilled = slices.Clone(b.Marks), slices.Clone(b.Unread), slices.Clone(b.Gaps), slices.Clone(b.Spilled)
	b.Torn, b.Faults, b.Events = slices.Clone(b.Torn), slices.Clone(b.Faults), slices.Clone(b.Events)
	return b
}
