package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"syscall"

	"github.com/gofrs/flock"

	"example.org/vatside/model/book"
)

// Look is a day that another program writes: it is read again when it changed, and told when that program has left it. It
// writes nothing. It is to be closed.
type Look struct {
	*Tap
	home  Home
	vat   string
	day   string
	known []string // the vat's days when the look began
}

// Look begins to follow a day that another program writes. Changed tells of what changes from now on.
func (h Home) Look(w *Watch, vat, day string) *Look {
	l := &Look{Tap: w.Tap(vat), home: h, vat: vat, day: day}
	l.known, _ = h.Days(vat) // what cannot be read is told by Read
	return l
}

// Read reads the day. newer is a day of the vat that was begun since the look began, or empty. The error tells of a file that
// is gone, or holds no day.
func (l *Look) Read() (b book.Book, newer string, err error) {
	if b, err = l.home.ReadDay(l.vat, l.day); err != nil {
		return b, "", err
	}
	switch {
	case b.Empty():
		return b, "", ErrNoDay
	case b.HeadErr != nil:
		return b, "", b.HeadErr
	}
	days, err := l.home.Days(l.vat)
	for _, d := range slices.Backward(days) {
		if slices.Contains(l.known, d) {
			continue
		}
		if other, readErr := l.home.ReadDay(l.vat, d); readErr == nil && other.HeadWhole { // else its head is still being written
			return b, d, nil
		}
	}
	return b, "", err
}

// Polled tells that changes are looked for once a second, as the system does not tell of them.
func (l *Look) Polled() bool { return l.watch.Polled() }

// Left waits until no program writes the vat. It cannot be called off, and a thread waits in it. It errs where the disk has no
// lock to wait at.
func (l *Look) Left() error {
	path := l.lockFile()
	for {
		lock := flock.New(path, flock.SetFlag(os.O_RDONLY)) // not made: looking makes no file
		err := lock.RLock()
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil
		case errors.Is(err, syscall.EINTR):
			continue
		case err != nil:
			return fmt.Errorf("the lock of the vat cannot be waited for: %w", err)
		}
		held, err := lock.Stat()
		if err := errors.Join(err, lock.Unlock()); err != nil {
			return err
		}
		named, err := os.Stat(path)
		if err != nil || os.SameFile(held, named) {
			return nil
		}
	}
}

// Free tells whether no program writes the vat at this moment.
func (l *Look) Free() bool {
	written, err := hasWriter(l.lockFile())
	return err == nil && !written
}

func (l *Look) lockFile() string { return l.home.lockFile(l.vat) }
