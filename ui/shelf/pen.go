package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"github.com/gofrs/flock"
)

// pen appends blocks to one file, each with one write and one fsync. It holds the file's lock from its making to its
// Close. It is not for more than one goroutine.
type pen struct {
	home Home
	path string
	lock *flock.Flock
	file file        // nil after a failure, until it is opened again
	size int64       // of what is whole
	rest int64       // behind size there may be so many bytes of a failed write
	in   fs.FileInfo // the file that they are in
	torn string
}

// start opens the file, and cuts its torn tail off.
func (w *pen) start(torn []byte) error {
	if len(torn) == 0 {
		return w.reopen()
	}
	if err := w.setAside(torn); err != nil {
		return fmt.Errorf("the torn tail cannot be set aside: %w", err)
	}
	in, err := os.Stat(w.path)
	if err != nil {
		return err
	}
	w.in, w.rest = in, int64(len(torn))
	return w.restore()
}

// setAside keeps a torn tail under a name of its own, on disk before anything is cut.
func (w *pen) setAside(torn []byte) error {
	var err error
	if w.torn, err = w.home.keepFirst(beside(strings.TrimSuffix(w.path, ".toml"), "torn"), torn); err == nil {
		sameMode(w.torn, w.path)
	}
	return err
}

// Path is the day's file.
func (w *pen) Path() string { return w.path }

// TornFile is where a torn tail was set aside, or empty.
func (w *pen) TornFile() string { return w.torn }

// add writes one block. Without an error it is on disk; with one it is not in the file, and what was there is untouched.
func (w *pen) add(text []byte) error {
	data := append([]byte{'\n'}, text...) // a blank line between blocks; it also ends a line that a hand left open
	return w.put(data)
}

// put writes data behind what is whole.
func (w *pen) put(data []byte) error {
	if err := w.ready(); err != nil {
		return err
	}
	w.rest = int64(len(data))
	err := writeAll(w.file, data, w.size)
	if err == nil {
		if err = w.file.Sync(); err != nil {
			err = w.afterFailedSync(data)
		}
	}
	if err != nil {
		_ = w.restore() // tried again before the next write; the first error is the one to tell
		return err
	}
	w.size += int64(len(data))
	w.rest = 0
	return nil
}

// afterFailedSync writes the event once more: after a failed fsync the system may have forgotten what was written,
// and a second fsync of the same file would say nothing of it.
func (w *pen) afterFailedSync(data []byte) error {
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
func (w *pen) ready() error {
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
func (w *pen) restore() error {
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
func (w *pen) reopen() error {
	_ = w.letGo() // after a failure its error says nothing new
	f, err := w.home.open(w.path, 0)
	if err != nil {
		return err
	}
	w.file = f
	return nil
}

// Close gives the file and the lock back. The lock file stays: taking it away could take another writer's.
func (w *pen) Close() error {
	if w.lock == nil {
		return nil
	}
	var err error
	if w.rest > 0 {
		err = w.restore()
	}
	err = errors.Join(err, w.letGo(), w.lock.Unlock())
	w.lock = nil
	return err
}

// letGo closes the file, if it is open.
func (w *pen) letGo() (err error) {
	if w.file != nil {
		err, w.file = w.file.Close(), nil
	}
	return err
}
