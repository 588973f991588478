package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"example.org/vatside/model/book"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// Vats are the names of the vats' folders, in the order of the alphabet. A home that is not there has none.
func (h Home) Vats() ([]string, error) {
	vats, _, err := h.VatFolders()
	return vats, err
}

// VatFolders are the vats, and beside them an error for each folder that nobody reads, for its name cannot be shown.
func (h Home) VatFolders() (vats []string, strays []error, err error) {
	dir := filepath.Join(h.dir, "vats")
	entries, err := list(dir)
	for _, e := range entries {
		if !isDir(dir, e) {
			continue
		}
		if CheckVat(e.Name()) == nil {
			vats = append(vats, e.Name())
		} else if err := wording.Refusal(e.Name()); err != nil {
			strays = append(strays, fmt.Errorf("a vat is not read, its folder's name %w", err))
		}
	}
	return vats, strays, err
}

// isDir takes a link to a folder for a folder: a vat's folder may live on another disk.
func isDir(parent string, e fs.DirEntry) bool {
	if e.Type()&fs.ModeSymlink == 0 {
		return e.IsDir()
	}
	return isFolder(filepath.Join(parent, e.Name()))
}

// within are the names, without the ending, of those entries of a vat's folder that end with .toml and are as asked.
func (h Home) within(vat string, is func(name string, folder bool) bool) ([]string, error) {
	if err := CheckVat(vat); err != nil {
		return nil, err
	}
	entries, err := list(h.VatDir(vat))
	return wording.Some(entries, func(e fs.DirEntry) (string, bool) {
		name, isToml := strings.CutSuffix(e.Name(), ".toml")
		return name, isToml && is(name, e.IsDir())
	}), err
}

// named are the names of a vat's days, by their dates.
func (h Home) named(vat string) ([]string, error) {
	days, err := h.within(vat, func(name string, folder bool) bool { return isDay(name) && !folder })
	sorted.By(days, compareDays)
	return days, err
}

// Strays are the paths of the files in a vat's folder that look like days and have no day's name: nobody reads them.
func (h Home) Strays(vat string) ([]string, error) {
	out, err := h.within(vat, func(name string, folder bool) bool { return !strings.HasPrefix(name, ".") && (folder || !isDay(name)) })
	for i, name := range out {
		out[i] = filepath.Join(h.VatDir(vat), name+".toml")
	}
	return out, err
}

// ReadDay reads a day and its spills as one, to look only: it takes no lock and changes nothing. What the index has of the day is
// not read again while its file is as it was. The error is about the file; what is wrong inside it stands in the Book.
func (h Home) ReadDay(vat, day string) (book.Book, error) {
	if b, ok := h.recalled(vat, day); ok {
		return b, nil
	}
	return h.readAll(vat, day, false)
}

// ReadThrough is ReadDay where each byte of the file is read, whatever the index has of it: what is understood already is a text
// of the same checksum.
func (h Home) ReadThrough(vat, day string) (book.Book, error) { return h.readAll(vat, day, true) }

// readAll reads a day and its spills. With known a text that the index knows is not understood again.
func (h Home) readAll(vat, day string, known bool) (book.Book, error) {
	from := wording.Either(known, h.anew(), h)
	data, info, err := from.dayText(vat, day)
	if err != nil {
		return book.Book{}, err
	}
	if known {
		if b, ok := h.same(vat, day, data); ok {
			return b, nil
		}
	}
	b := understood(h.now(), h.DayFile(vat, day), data, h.sighted(info, data))
	spills := h.spills(vat, day, b.Frame)
	if len(spills) == 0 {
		h.learnDay(vat, day, info, data, b)
	}
	return b.With(h.now(), data, spills), nil
}

// readAnew is ReadDay without the index.
func (h Home) readAnew(vat, day string) (book.Book, error) { return h.anew().readAll(vat, day, false) }

// readAlone reads a day's file without its spills.
func (h Home) readAlone(vat, day string) (book.Book, []byte, error) {
	data, _, err := h.anew().dayText(vat, day)
	if err != nil {
		return book.Book{}, nil, err
	}
	return understood(h.now(), h.DayFile(vat, day), data, sighting{}), data, nil
}

// dayText is all that stands in a day's file, and what the system told of the file before. Nobody changes the text.
func (h Home) dayText(vat, day string) ([]byte, fs.FileInfo, error) {
	info, err := h.dayInfo(vat, day)
	if err != nil {
		return nil, nil, err
	}
	path := h.DayFile(vat, day)
	if data, ok := h.seen(path, info); ok {
		return data, info, nil
	}
	data, info, err := readTold(path)
	return data, info, unreadDay(vat, day, err)
}

// dayInfo is what the system tells of a day's file. It errs where that is no file that can be a day.
func (h Home) dayInfo(vat, day string) (fs.FileInfo, error) {
	if err := checkDay(vat, day); err != nil {
		return nil, err
	}
	path := h.DayFile(vat, day)
	info, err := os.Stat(path)
	if err == nil {
		err = regular(path, info)
	}
	return info, unreadDay(vat, day, err)
}

// unreadDay is why a day cannot be read; nil where nothing stands in the way.
func unreadDay(vat, day string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("the vat %s has no day %s: the day cannot be read: %w", vat, day, err)
	case err != nil:
		return fmt.Errorf("the day cannot be read: %w", err)
	}
	return nil
}

// DayText is a day's file as it stands on disk, with what lies in its spills behind it.
func (h Home) DayText(vat, day string) (book.Leaf, error) {
	b, data, err := h.readAlone(vat, day)
	if err != nil {
		return book.Leaf{}, err
	}
	data, _, _ = book.Join(data, h.spills(vat, day, b.Frame))
	return book.Leaf{Vat: vat, Day: day, Text: data}, nil
}
