package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"example.org/vatside/model/book"
)

// create writes a new file whole and syncs it and its folder. A file of that name is never touched: fs.ErrExist.
// What could not be written whole is taken away again; it was never anything of the dyer's.
func (h Home) create(path string, data []byte) (file, error) {
	f, err := h.open(path, os.O_CREATE|os.O_EXCL)
	if err != nil {
		return nil, err
	}
	err = writeAll(f, data, 0)
	if err == nil {
		err = f.Sync()
	}
	if err == nil {
		err = syncDir(filepath.Dir(path))
	}
	if err != nil {
		return nil, errors.Join(err, f.Close(), os.Remove(path))
	}
	return f, nil
}

// createFirst writes a new file as create does, under the first of the names path(1), path(2) … that is not taken.
func (h Home) createFirst(path func(n int) string, data []byte) (f file, at string, err error) {
	for n := 1; ; n++ {
		at = path(n)
		if f, err = h.create(at, data); !errors.Is(err, fs.ErrExist) {
			return f, at, err
		}
	}
}

// keepFirst is createFirst for a file that nothing is added to.
func (h Home) keepFirst(path func(n int) string, data []byte) (at string, err error) {
	f, at, err := h.createFirst(path, data)
	if err != nil {
		return "", err
	}
	return at, f.Close()
}

// beside gives the names of what is kept of a file, beside it: base.what-1, -2 …
func beside(base, what string) func(n int) string {
	return func(n int) string { return fmt.Sprintf("%s.%s-%d", base, what, n) }
}

// place writes each day whole under a name that is no day's, and only then gives all of them their names: a kill leaves no
// half of a day.
func (h Home) place(leaves []book.Leaf) (err error) {
	var drafts, placed []string
	defer func() {
		if err != nil {
			for _, p := range placed {
				err = errors.Join(err, os.Remove(p))
			}
		}
		for _, d := range drafts {
			if removed := os.Remove(d); !errors.Is(removed, fs.ErrNotExist) {
				err = errors.Join(err, removed)
			}
		}
	}()
	for _, l := range leaves {
		d, err := h.draft(l)
		if err != nil {
			return fmt.Errorf("the day %s is not on disk: %w", l.Path(), err)
		}
		drafts = append(drafts, d)
	}
	for i, l := range leaves {
		path := h.DayFile(l.Vat, l.Day)
		if err := giveName(drafts[i], path); err != nil {
			return fmt.Errorf("the day %s is not on disk: %w", l.Path(), err)
		}
		placed = append(placed, path)
		if err := syncDir(filepath.Dir(path)); err != nil {
			return fmt.Errorf("the day %s is not on disk: %w", l.Path(), err)
		}
	}
	return nil
}

// draft writes a day under a hidden name, .DAY.draft-1 (-2 …), and gives its path.
func (h Home) draft(l book.Leaf) (string, error) {
	return h.keepFirst(beside(filepath.Join(h.VatDir(l.Vat), "."+l.Day), "draft"), l.Text)
}

// giveName gives a draft the name of its day; a file of that name is never touched. A disk that knows no second name for a file
// gets the draft moved, under the lock of the vat.
func giveName(draft, path string) error {
	err := os.Link(draft, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	if !gone(path) {
		return errors.Join(err, fs.ErrExist)
	}
	return os.Rename(draft, path)
}
