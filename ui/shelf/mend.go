package shelf

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"example.org/vatside/model/book"
)

// MendPlan says what mending a day's file would do. It takes no lock and changes nothing. The error says why it cannot be
// mended.
func (h Home) MendPlan(vat, day string) (book.Mending, error) {
	m, _, _, err := h.mending(vat, day)
	return m, err
}

// Mend makes a day's file whole, under the lock of the vat: the old file is copied to DAY.before-mend-1 (-2 …), on disk before
// the new one takes its place in one step; kept is where. Spill files that were put in are kept as FILE.merged-1 (-2 …).
// A whole file is left as it is. Errors: ErrLocked, or why it cannot be mended; then the file is as it was.
func (h Home) Mend(vat, day string) (m book.Mending, kept string, err error) {
	if err := checkDay(vat, day); err != nil {
		return m, "", err
	}
	if m, _, _, err = h.mending(vat, day); err != nil || m.Whole {
		return m, "", err
	}
	lock, err := h.lockVat(vat)
	if err != nil {
		return m, "", err
	}
	defer func() { err = errors.Join(err, lock.Unlock()) }()
	m, old, spills, err := h.mending(vat, day) // again, now that nobody else writes
	if err != nil || m.Whole {
		return m, "", err
	}
	if kept, err = h.keepFirst(beside(filepath.Join(h.VatDir(vat), day), "before-mend"), old); err != nil {
		return m, "", fmt.Errorf("the old file cannot be kept, so nothing is changed: %w", err)
	}
	sameMode(kept, h.DayFile(vat, day))
	if err := h.putMended(book.Leaf{Vat: vat, Day: day, Text: m.Text}); err != nil {
		return m, kept, fmt.Errorf("the mended day is not on disk: %w", err)
	}
	for _, s := range spills {
		if err := setMerged(s.File); err != nil {
			return m, kept, fmt.Errorf("the day is mended; %s, which is in it now, cannot be renamed: %w", s.File, err)
		}
	}
	return m, kept, nil
}

// mending reads a day and its spill files, and what is to be done to it.
func (h Home) mending(vat, day string) (book.Mending, []byte, []book.Spilled, error) {
	b, data, err := h.readAlone(vat, day)
	if err != nil {
		return book.Mending{}, nil, nil, err
	}
	b = b.With(h.now(), data, h.spills(vat, day, b.Frame))
	var spills [][]byte
	for _, s := range b.Spilled {
		text, err := readFile(s.File)
		if err != nil {
			return book.Mending{}, nil, nil, fmt.Errorf("a spill file cannot be read: %w", err)
		}
		spills = append(spills, text)
	}
	m, err := book.Mend(func(data []byte) book.Book { return book.ReadOn(h.now(), b.File, data) }, data, spills...)
	return m, data, b.Spilled, err
}

// putMended puts a day's new text in the place of the old one, so that a kill leaves the one or the other.
func (h Home) putMended(l book.Leaf) error {
	path := h.DayFile(l.Vat, l.Day)
	old, err := os.Stat(path)
	if err != nil {
		return err
	}
	draft, err := h.draft(l)
	if err != nil {
		return err
	}
	if err = os.Chmod(draft, old.Mode().Perm()); err == nil {
		err = rename(draft, path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(draft))
	}
	return syncDir(filepath.Dir(path))
}
