package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"github.com/gofrs/flock"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

// ErrLocked says that another program, or another writer of this one, has the vat open. The day can still be read.
var ErrLocked = errors.New("this vat is open in another window; here it can only be looked at")

// ErrNoDay says that a file was killed before its head was whole, so that there is no day to go on with.
var ErrNoDay = errors.New("this file has no day in it")

// Writer appends the events of one day. It holds the lock of the vat's folder from its making to its Close. Append and Return
// are for one goroutine at a time; Keep and Close may be called while they wait for a disk.
type Writer struct {
	pen
	mu    sync.Mutex // held while the file is written or closed
	head  day.Head
	whose book.SpillHead // what its spills say of themselves; it never changes
	spill refuge
	taken map[string]bool // blocks of other spills that were taken along: they may be appended after all, and count once
	last  int             // the highest number in it when it was opened
}

// ErrInFlight says that a write has not ended: the file is left to it, as it is, and the lock is held until the program ends.
var ErrInFlight = errors.New("the disk has not answered yet")

var errClosed = errors.New("the day is closed")

// NewDay begins a day's file: DAY.toml, or DAY-2.toml if the vat has a day of that date, and so on. head.Day is the
// date; Head has the name that the day got. With an error nothing is left behind that was not there before.
func (h Home) NewDay(head day.Head) (*Writer, error) {
	if err := checkDay(head.Vat, head.Day); err != nil {
		return nil, err
	}
	return h.BeginDay(head.Vat, func() (day.Head, []day.Event, error) { return head, nil, nil })
}

// BeginDay is NewDay with the day's first events: the head and they are one file, there whole or not at all. first makes them
// while the vat is locked, so that what it reads of the vat is still so when the day stands there; its error is given back.
func (h Home) BeginDay(vat string, first func() (day.Head, []day.Event, error)) (w *Writer, err error) {
	if err := checkName(vat); err != nil {
		return nil, err
	}
	made, err := makeDirs(h.VatDir(vat))
	var lock *flock.Flock
	defer func() {
		if err == nil {
			return
		}
		if lock != nil {
			if len(made) > 0 { // the folder is new, and so is its lock; if that stays, so does the folder
				_ = os.Remove(lock.Path())
			}
			err = errors.Join(err, lock.Unlock())
		}
		unmake(made)
	}()
	if err != nil {
		return nil, err
	}
	if lock, err = h.lockVat(vat); err != nil {
		return nil, err
	}
	head, events, err := first()
	if err != nil {
		return nil, err
	}
	if err := checkDay(head.Vat, head.Day); err != nil {
		return nil, err
	}
	var texts []byte
	last := 0
	for _, e := range events {
		text, err := book.EncodeEvent(e)
		if err != nil {
			return nil, err
		}
		texts, last = append(append(texts, '\n'), text...), max(last, e.Seq)
	}
	date, _ := dateOf(head.Day) // it was checked
	for n := 1; ; n++ {
		head.Day = numbered(date, n)
		data, err := book.EncodeHead(head)
		if err != nil {
			return nil, err
		}
		path := h.DayFile(head.Vat, head.Day)
		if _, err := os.Lstat(path); err == nil {
			continue
		}
		data = append(data, texts...)
		err = h.place([]book.Leaf{{Vat: head.Vat, Day: head.Day, Text: data}}) // a kill leaves no half of it
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		w := &Writer{pen: pen{home: h, path: path, lock: lock, size: int64(len(data))}, head: head, last: last}
		w.whose = h.whose(head.Vat, head.Day, book.ReadOn(h.now(), path, data).HeadCRC)
		return w, nil
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
	var alone book.Book
	if alone, _, err = h.readAlone(vat, dayName); err == nil { // again, now that nobody else writes
		w := &Writer{pen: pen{home: h, path: h.DayFile(vat, dayName), lock: lock, size: int64(alone.TornAt)}, head: alone.Head}
		w.whose = h.whose(vat, dayName, alone.HeadCRC)
		if err = w.take(alone); err == nil {
			b = alone
			if len(h.spills(vat, dayName, alone.Frame)) > 0 {
				_ = w.merge() // what the day still refuses stays where it is, and is tried again
				b, err = h.ReadDay(vat, dayName)
				b.Torn, b.TornAt, b.TornLine = alone.Torn, alone.TornAt, alone.TornLine
			}
		}
		if err == nil {
			w.last = b.NextSeq() - 1
			return w, b, nil
		}
	}
	return nil, b, errors.Join(err, lock.Unlock())
}

// whose is what a spill of a day says of itself.
func (h Home) whose(vat, day string, head uint32) book.SpillHead {
	return book.SpillHead{Home: h.real(), Vat: vat, Day: day, HeadCRC: head}
}

// take opens the file of the day that was read, and cuts off its torn tail.
func (w *Writer) take(b book.Book) error {
	switch {
	case b.Empty():
		return ErrNoDay
	case b.HeadErr != nil:
		return fmt.Errorf("the day cannot be gone on with: %w", b.HeadErr)
	}
	return w.start(b.Torn)
}

// lockFile is the lock of a vat's folder.
func (h Home) lockFile(vat string) string { return filepath.Join(h.VatDir(vat), ".lock") }

// lockVat takes the lock of a vat's folder. A lock file that nobody holds is no obstacle.
func (h Home) lockVat(vat string) (*flock.Flock, error) {
	lock, got, err := tryLock(h.lockFile(vat))
	if err != nil {
		return nil, fmt.Errorf("the vat cannot be locked: %w", err)
	}
	if !got {
		return nil, ErrLocked
	}
	return lock, nil
}

// Last is the highest number of the day's events as it was opened, those that cannot be read included; 0 for a new day.
func (w *Writer) Last() int { return w.last }

// Head is the head of the day, with the day's name.
func (w *Writer) Head() day.Head { return w.head }

// Append writes one event: one write, one fsync. Without an error it is on disk, in the day's file or, where that refuses it
// or an event before it, in a spill (Away). With an error it is nowhere, and the caller keeps it and tries again; nothing that
// was in the book is touched.
func (w *Writer) Append(e day.Event) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.lock == nil {
		return errClosed
	}
	text, err := book.EncodeEvent(e)
	if err != nil {
		return err
	}
	if w.taken[string(text)] {
		delete(w.taken, string(text))
		return nil
	}
	if len(w.spill.texts) == 0 {
		if err = w.add(text); err == nil {
			return nil
		}
		w.spill.why = err
	}
	if err := w.spill.keep(w.home, w.whose, text); err != nil {
		return fmt.Errorf("event %d is not on disk: %w; nor does another place take it: %w", e.Seq, w.spill.why, err)
	}
	return nil
}

// Close gives the file and the lock back, but not under a write in flight: then it is ErrInFlight, and nothing is touched.
func (w *Writer) Close() error {
	if !w.mu.TryLock() {
		return ErrInFlight
	}
	defer w.mu.Unlock()
	var err error
	if w.spill.file != nil {
		err, w.spill.file = w.spill.file.Close(), nil
	}
	return errors.Join(err, w.pen.Close())
}
