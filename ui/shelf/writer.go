package shelf

import (
	"cmp"
	"errors"
	"fmt"
	"sync"
	"syscall"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
)

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

// OpenDay goes on with a day. A torn tail is copied to DAY.torn-1 (-2 …) and then cut off; the Book still has it, to be
// told. Errors: ErrLocked, ErrNoDay, or what is wrong with the file or its head, which is then left alone. The Book is
// what could be read even when there is an error.
func (h Home) OpenDay(vat, dayName string) (*Writer, book.Book, error) {
	if _, err := h.dayInfo(vat, dayName); err != nil { // then nothing is locked
		return nil, book.Book{}, err
	}
	lock, err := h.lockVat(vat)
	if err != nil {
		b, readErr := h.readAnew(vat, dayName)
		return nil, b, cmp.Or(readErr, err)
	}
	h = h.anew() // what was read before may be older than the lock
	b, text, err := h.readAlone(vat, dayName)
	if err == nil {
		alone, spills := b, h.spills(vat, dayName, b.Frame)
		b = alone.With(h.now(), text, spills)
		w := &Writer{pen: pen{home: h, path: h.DayFile(vat, dayName), lock: lock, size: int64(alone.TornAt)}, head: alone.Head}
		w.whose = h.whose(vat, dayName, alone.HeadCRC)
		if err = w.take(alone); err == nil {
			if len(spills) > 0 {
				_ = w.merge() // what the day still refuses stays where it is, and is tried again
				b, err = h.readAnew(vat, dayName)
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

// whose is the head that a spill of a day gets.
func (h Home) whose(vat, day string, head uint32) book.SpillHead {
	return book.SpillHead{Home: h.real(), Vat: vat, Day: day, HeadCRC: head}
}

// take opens the file of the day that was read, and cuts off its torn tail. A disk that can only be read is tried again at each write.
func (w *Writer) take(b book.Book) error {
	switch {
	case b.Empty():
		return ErrNoDay
	case b.HeadErr != nil:
		return fmt.Errorf("the day cannot be gone on with: %w", b.HeadErr)
	}
	err := w.start(b.Torn)
	if err == nil || number(err) == syscall.EROFS && len(b.Torn) == 0 { // what is done goes to a spill, as from a full disk
		return nil
	}
	return fmt.Errorf("nothing can be written into the day, %s: %w", Reason(err), err)
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
	return errors.Join(w.spill.letGo(), w.pen.Close())
}

// Away tells which events of the day lie in a spill. It is not to be called while Append or Return runs.
func (w *Writer) Away() Away {
	if len(w.spill.texts) == 0 {
		return Away{}
	}
	return Away{File: w.spill.path, Events: len(w.spill.texts), Passing: w.spill.passing, Why: w.spill.why}
}

// Return tries to bring what lies elsewhere into the day's file. With an error all of it is still on disk, and the rest is
// tried again at the next call.
func (w *Writer) Return() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.lock == nil {
		return errClosed
	}
	for len(w.spill.texts) > 0 {
		if err := w.add(w.spill.texts[0]); err != nil {
			w.spill.why = err
			return err
		}
		w.spill.texts = w.spill.texts[1:]
	}
	return w.merge()
}

// merge brings the spills that are on disk into the day, and gives each the name of one that was merged. A spill that cannot
// be, since the day went on without it, stays: it is told wherever the day is read, and book mend sorts it out.
func (w *Writer) merge() error {
	text, err := readFile(w.path)
	if err != nil {
		return err
	}
	spills := w.home.anew().spills(w.whose.Vat, w.whose.Day, book.ReadOn(w.home.now(), w.path, text).Frame)
	blocks, errs := book.Missing(text, spills)
	var joined []string
	for i, s := range spills {
		if errs[i] == nil {
			joined = append(joined, s.File)
		}
	}
	if w.taken == nil {
		w.taken = map[string]bool{}
	}
	for i, b := range blocks {
		if err := w.add(b); err != nil {
			w.spill.goOn(w.home, joined[len(joined)-1], blocks[i:])
			w.spill.why = err
			for _, b := range blocks[i:] {
				w.taken[string(b)] = true
			}
			return err
		}
		w.taken[string(b)] = true
	}
	err = w.spill.letGo() // Windows renames no file that is open
	for _, file := range joined {
		if err := setMerged(file); err != nil {
			return err
		}
	}
	w.spill = refuge{}
	return err
}

// Keep writes events into a new spill, whatever Append is doing at the time: a disk may not answer for minutes. What Append
// puts into the day after all counts once.
func (w *Writer) Keep(events []day.Event) (Away, error) {
	var r refuge
	var texts [][]byte
	for _, e := range events {
		text, err := book.EncodeEvent(e)
		if err != nil {
			return Away{}, err
		}
		if len(texts) > 0 {
			text = append([]byte{'\n'}, text...)
		}
		texts = append(texts, text)
	}
	if err := r.keep(w.home, w.whose, texts...); err != nil {
		return Away{}, err
	}
	return Away{File: r.path, Events: len(events), Passing: r.passing}, r.file.Close()
}
