package shelf

import (
	"bytes"
	"io/fs"
	"os"
	"slices"
	"sync"
	"time"

	"example.org/vatside/model/book"
)

// The days that were read last, as they were understood. The start of the program reads an open day to show it, to take it up
// under its lock, and for what its vat wants: a text is understood once. It is read once too by a home that has an index, for as long
// as its file is the one that it was and had been still; under its lock it is always read.

// lately are those days, by path.
var lately = struct {
	sync.Mutex
	of map[string]latelyRead
}{of: map[string]latelyRead{}}

type latelyRead struct {
	text  []byte
	today string // the date that its times were held against
	book  book.Book
	sighting
}

// sighting is what the system told of a file before it was read, and the index of the home that read it; zero where its time of
// change may not tell of each change, or is not asked.
type sighting struct {
	info fs.FileInfo
	by   *index
}

// sighted is that of a text that was read.
func (h Home) sighted(info fs.FileInfo, text []byte) sighting {
	if h.index == nil || !h.still(info) || info.Size() != int64(len(text)) {
		return sighting{}
	}
	return sighting{info, h.index}
}

// seen is the text of a file that was read lately, if the file is as it was; info is of the file as it is now. Nobody changes it.
func (h Home) seen(path string, info fs.FileInfo) ([]byte, bool) {
	if h.index == nil {
		return nil, false
	}
	lately.Lock()
	defer lately.Unlock()
	was := lately.of[path]
	return was.text, was.by == h.index && os.SameFile(was.info, info) && was.info.Size() == info.Size() && was.info.ModTime().Equal(info.ModTime())
}

// anew is the home that believes only what it reads now.
func (h Home) anew() Home {
	h.index = nil
	return h
}

// How many days are kept, and how long a text each has at most, in bytes.
const (
	latelyMost     = 8
	latelyTextMost = 256 << 10
)

// understood is book.ReadOn, without reading the same text twice. The caller may change the lists in the Book.
func understood(today time.Time, path string, text []byte, as sighting) book.Book {
	date := today.Format(time.DateOnly)
	lately.Lock()
	was, there := lately.of[path]
	lately.Unlock()
	if there && was.today == date && bytes.Equal(was.text, text) {
		if as.by != nil {
			was.sighting = as
			keepLately(path, was)
		}
		return own(was.book)
	}
	b := book.ReadOn(today, path, text)
	if len(text) > latelyTextMost {
		return b
	}
	keepLately(path, latelyRead{bytes.Clone(text), date, own(b), as})
	return b
}

func keepLately(path string, r latelyRead) {
	lately.Lock()
	defer lately.Unlock()
	if _, there := lately.of[path]; !there && len(lately.of) >= latelyMost {
		clear(lately.of)
	}
	lately.of[path] = r
}

// own copies the lists of a book, so that a caller may change them.
func own(b book.Book) book.Book {
	b.Marks, b.Unread, b.Gaps, b.Spilled = slices.Clone(b.Marks), slices.Clone(b.Unread), slices.Clone(b.Gaps), slices.Clone(b.Spilled)
	b.Torn, b.Faults, b.Events = slices.Clone(b.Torn), slices.Clone(b.Faults), slices.Clone(b.Events)
	return b
}
