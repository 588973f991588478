package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/gofrs/flock"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// ErrLocked says that another program, or another writer of this one, has the vat open. The day can still be read.
var ErrLocked = errors.New("this vat is open in another window; here it can only be looked at")

// ErrNoDay says that a file was killed before its head was whole, so that there is no day to go on with.
var ErrNoDay = errors.New("this file has no day in it")

// Writer appends the events of one day. It holds the lock of the vat's folder from its making to its Close. It is not
// for more than one goroutine.
type Writer struct {
	home Home
	head day.Head
	path string
	lock *flock.Flock
	file file        // nil after a failure, until it is opened again
	size int64       // of what is whole
	rest int64       // behind size there may be so many bytes of a failed write
	in   fs.FileInfo // the file that they are in
	torn string
}

// NewDay begins a day's file: DAY.toml, or DAY-2.toml if the vat has a day of that date, and so on. head.Day is the
// date; Head has the name that the day got.
func (h Home) NewDay(head day.Head) (*Writer, error) {
	if err := checkDay(head.Vat, head.Day); err != nil {
		return nil, err
	}
	if err := makeDir(h.VatDir(head.Vat)); err != nil {
		return nil, err
	}
	lock, err := h.lockVat(head.Vat)
	if err != nil {
		return nil, err
	}
	date := dayForm.FindStringSubmatch(head.Day)[1]
	for n := 1; ; n++ {
		head.Day = numbered(date, n)
		data, err := book.EncodeHead(head)
		if err != nil {
			return nil, errors.Join(err, lock.Unlock())
		}
		path := h.DayFile(head.Vat, head.Day)
		f, err := h.create(path, data)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, errors.Join(fmt.Errorf("the day cannot be begun: %w", err), lock.Unlock())
		}
		return &Writer{home: h, head: head, path: path, lock: lock, file: f, size: int64(len(data))}, nil
	}
}

// OpenDay goes on with a day. A torn tail is copied to DAY.torn-1 (-2 …) and then cut off; the Book still has it, to be
// told. Errors: ErrLocked, ErrNoDay, or what is wrong with the file or its head, which is then left alone. The Book is
// what could be read even when there is an error.
func (h Home) OpenDay(vat, dayName string) (*Writer, book.Book, error) {
	b, err := h.ReadDay(vat, dayName)
	if err != nil {
		return nil, b, err
	}
	lock, err := h.lockVat(vat)
	if err != nil {
		return nil, b, err
	}
	if b, err = h.ReadDay(vat, dayName); err == nil { // again, now that nobody else writes
		w := &Writer{home: h, head: b.Head, path: h.DayFile(vat, dayName), lock: lock, size: int64(b.TornAt)}
		if err = w.take(b); err == nil {
			return w, b, nil
		}
	}
	return nil, b, errors.Join(err, lock.Unlock())
}

// take opens the file of the day that was read, and cuts off its torn tail.
func (w *Writer) take(b book.Book) error {
	switch {
	case b.Empty():
		return ErrNoDay
	case b.HeadErr != nil:
		return fmt.Errorf("the day cannot be gone on with: %w", b.HeadErr)
	case len(b.Torn) == 0:
		return w.reopen()
	}
	if err := w.setAside(b.Torn); err != nil {
		return fmt.Errorf("the torn tail cannot be set aside: %w", err)
	}
	in, err := os.Stat(w.path)
	if err != nil {
		return err
	}
	w.in, w.rest = in, int64(len(b.Torn))
	return w.restore()
}

// setAside keeps a torn tail under a name of its own, on disk before anything is cut.
func (w *Writer) setAside(torn []byte) error {
	base := strings.TrimSuffix(w.path, ".toml")
	for n := 1; ; n++ {
		path := fmt.Sprintf("%s.torn-%d", base, n)
		f, err := w.home.create(path, torn)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return err
		}
		w.torn = path
		return f.Close()
	}
}

// lockVat takes the lock of a vat's folder. A lock file that nobody holds is no obstacle.
func (h Home) lockVat(vat string) (*flock.Flock, error) {
	lock := flock.New(filepath.Join(h.VatDir(vat), ".lock"))
	got, err := lock.TryLock()
	if err != nil {
		return nil, fmt.Errorf("the vat cannot be locked: %w", err)
	}
	if !got {
		return nil, ErrLocked
	}
	return lock, nil
}

// Head is the head of the day, with the day's name.
func (w *Writer) Head() day.Head { return w.head }

// Path is the day's file.
func (w *Writer) Path() string { return w.path }

// TornFile is where a torn tail was set aside, or empty.
func (w *Writer) TornFile() string { return w.torn }

// Append writes one event: one write, one fsync. Without an error it is on disk. With an error it is not in the book,
// and the caller keeps it and tries again; nothing that was in the book is touched.
func (w *Writer) Append(e day.Event) error {
	if w.lock == nil {
		return errors.New("the day is closed")
	}
	text, err := book.EncodeEvent(e)
	if err != nil {
		return err
	}
	data := append([]byte{'\n'}, text...) // a blank line between blocks; it also ends a line that a hand left open
	if err := w.ready(); err != nil {
		return fmt.Errorf("event %d is not on disk: %w", e.Seq, err)
	}
	w.rest = int64(len(data))
	err = writeAll(w.file, data, w.size)
	if err == nil {
		if err = w.file.Sync(); err != nil {
			err = w.afterFailedSync(data)
		}
	}
	if err != nil {
		_ = w.restore() // tried again before the next write; the first error is the one to tell
		return fmt.Errorf("event %d is not on disk: %w", e.Seq, err)
	}
	w.size += int64(len(data))
	w.rest = 0
	return nil
}

// afterFailedSync writes the event once more: after a failed fsync the system may have forgotten what was written,
// and a second fsync of the same file would say nothing of it.
func (w *Writer) afterFailedSync(data []byte) error {
	if err := w.restore(); err != nil {
		return err
	}
	w.rest = int64(len(data))
	if err := writeAll(w.file, data, w.size); err != nil {
		return err
	}
	return w.file.Sync()
}

// ready makes sure that the next write goes behind what is whole, and into the file that bears the day's name: an editor
// may have put a mended one in its place.
func (w *Writer) ready() error {
	if w.file == nil || w.rest > 0 {
		if err := w.restore(); err != nil {
			return err
		}
	}
	held, err := w.file.Stat()
	if err != nil {
		return err
	}
	named, err := os.Stat(w.path)
	if err != nil {
		return err
	}
	if !os.SameFile(held, named) {
		if err := w.reopen(); err != nil {
			return err
		}
	}
	w.size, w.in = named.Size(), named
	return nil
}

// restore opens the file anew and cuts off the rest of a failed write. What is another file by now, or longer than that
// rest, has been in other hands: there nothing is cut.
func (w *Writer) restore() error {
	if err := w.reopen(); err != nil {
		return err
	}
	info, err := w.file.Stat()
	if err != nil {
		return err
	}
	if more := info.Size() - w.size; more > 0 && more <= w.rest && os.SameFile(info, w.in) {
		if err := w.file.Truncate(w.size); err != nil {
			return err
		}
		if err := w.file.Sync(); err != nil {
			return err
		}
	}
	w.rest = 0
	return nil
}

// reopen gives the old file back, whatever that says, and opens the one of the day's name.
func (w *Writer) reopen() error {
	if w.file != nil {
		_ = w.file.Close() // after a failure its error says nothing new
		w.file = nil
	}
	f, err := w.home.open(w.path, 0)
	if err != nil {
		return err
	}
	w.file = f
	return nil
}

// Close gives the file and the lock back. The lock file stays: taking it away could take another writer's.
func (w *Writer) Close() error {
	if w.lock == nil {
		return nil
	}
	var err error
	if w.rest > 0 {
		err = w.restore()
	}
	if w.file != nil {
		err = errors.Join(err, w.file.Close())
		w.file = nil
	}
	err = errors.Join(err, w.lock.Unlock())
	w.lock = nil
	return err
}
