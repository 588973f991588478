package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/gofrs/flock"

	"example.org/vatside/model/book"
	"example.org/vatside/model/wording"
)

// WriteTables writes the tables into a folder, which is made if it is not there, and gives their paths. If a file of one of
// the names is there, nothing is written.
func (h Home) WriteTables(dir string, tables []book.Table) (paths []string, err error) {
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return nil, fmt.Errorf("%s is a file; name a folder for the tables", dir)
	}
	var there []string
	for _, t := range tables {
		if _, err := os.Lstat(filepath.Join(dir, t.Name)); err == nil {
			there = append(there, t.Name)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("the folder cannot be looked into: %w", err)
		}
	}
	if len(there) > 0 {
		return nil, tableThere(dir, there)
	}
	if dir, err = filepath.Abs(dir); err != nil {
		return nil, err
	}
	if err := makeDir(dir); err != nil {
		return nil, err
	}
	defer func() {
		if err != nil { // those that are whole are ours, and of no use without the others
			for _, p := range paths {
				err = errors.Join(err, os.Remove(p))
			}
			paths = nil
		}
	}()
	for _, t := range tables {
		path := filepath.Join(dir, t.Name)
		f, err := h.create(path, t.Text)
		if errors.Is(err, fs.ErrExist) {
			return paths, tableThere(dir, []string{t.Name})
		}
		if err != nil {
			return paths, fmt.Errorf("the tables cannot be written: %w", err)
		}
		paths = append(paths, path)
		if err := f.Close(); err != nil {
			return paths, fmt.Errorf("the tables cannot be written: %w", err)
		}
	}
	return paths, nil
}

func tableThere(dir string, names []string) error {
	verb := wording.Either(len(names) > 1, "are", "is")
	return fmt.Errorf("%s %s in %s already, and nothing is written over; name a folder without them", strings.Join(names, ", "), verb, dir)
}

// ReadTable reads one table of a folder.
func ReadTable(dir, name string) ([]byte, error) {
	data, err := ReadArgument(filepath.Join(dir, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no %s in %s; days come from %s and %s of one folder", name, dir, book.DaysFile, book.EventsFile)
	}
	return data, err
}

// AddDays puts whole days into the home. A day that is there already is left as it is: if it is the same one its vat/day is
// among those passed over, if it is another one nothing at all is written. What fails half-way is taken away again.
func (h Home) AddDays(leaves []book.Leaf) (made []book.Leaf, passed []string, err error) {
	if made, passed, err = h.fresh(leaves); err != nil || len(made) == 0 {
		return nil, passed, err
	}
	locks, err := h.lockVats(made)
	defer func() {
		for _, l := range locks {
			err = errors.Join(err, l.Unlock())
		}
	}()
	if err != nil {
		return nil, nil, err
	}
	if made, passed, err = h.fresh(leaves); err != nil { // again, now that nobody else writes
		return nil, nil, err
	}
	if err := h.place(made); err != nil {
		return nil, nil, err
	}
	return made, passed, nil
}

// fresh parts the days that are not there yet from those that are.
func (h Home) fresh(leaves []book.Leaf) (fresh []book.Leaf, passed []string, err error) {
	for _, l := range leaves {
		if err := checkDay(l.Vat, l.Day); err != nil {
			return nil, nil, err
		}
		if gone(h.DayFile(l.Vat, l.Day)) {
			fresh = append(fresh, l)
			continue
		}
		there, err := h.DayText(l.Vat, l.Day)
		if err != nil {
			return nil, nil, err
		}
		if !book.SameDay(there, l) {
			date, _ := dateOf(l.Day)
			return nil, nil, fmt.Errorf("the vat %s has another day %s already, and no day is written over; give this one another name, such as %s-2",
				l.Vat, l.Day, date)
		}
		passed = append(passed, l.Path())
	}
	return fresh, passed, nil
}

// lockVats takes the locks of the vats of these days. The locks that it got are there also with an error.
func (h Home) lockVats(leaves []book.Leaf) (locks []*flock.Flock, err error) {
	vats := wording.Once(wording.Each(leaves, func(l book.Leaf) string { return l.Vat }))
	for _, vat := range slices.Sorted(slices.Values(vats)) {
		if err := makeDir(h.VatDir(vat)); err != nil {
			return locks, err
		}
		lock, err := h.lockVat(vat)
		if errors.Is(err, ErrLocked) {
			return locks, fmt.Errorf("the vat %s is open in another program; close it there first", vat)
		}
		if err != nil {
			return locks, err
		}
		locks = append(locks, lock)
	}
	return locks, nil
}
