package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
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
