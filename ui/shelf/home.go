// Package shelf keeps the dyer's files: the books of the vats, the dyer's own recipes, the settings, the sounds, and the
// book as tables. No other package touches files.
//
// The policy of the shelf:
//   - an event is one write and one fsync; what Append has returned without an error survives a kill and a power cut;
//   - an event that its day's file refuses goes to a spill in another folder at once (spill.go);
//   - no file of the dyer's is rewritten or deleted, but by the one that holds the lock of the vat and after a synced copy: a
//     torn tail is cut off, never while a write is in flight, and a day that is mended takes the place of the old one;
//   - reading takes no lock and changes nothing, not even by making a folder.
package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/adrg/xdg"
	"github.com/gofrs/flock"

	"example.org/vatside/model/book"
	"example.org/vatside/model/wording"
)

// Home is the folder with all that is the dyer's: vats/, recipes/ and settings.toml.
type Home struct {
	dir    string
	open   opener
	today  func() time.Time // what day it is; nil: nobody knows
	places []place          // for spills
	thrown *flock.Flock     // of a throwaway home
}

// Locate is the folder that the home is in: the flag, else the environment's, else the platform's place for data.
func Locate(flag, env string) (string, error) {
	dir := flag
	if dir == "" {
		dir = env
	}
	if dir == "" {
		dir = filepath.Join(xdg.DataHome, "vatside")
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("the home folder %q cannot be found: %w", dir, err)
	}
	return abs, nil
}

// At is the home in a folder that need not exist yet; it is made with the first day. today says what day it is: a time in a
// file that is far from it cannot be.
func At(dir string, today func() time.Time) Home {
	return Home{dir: dir, open: openFile, today: today, places: places()}
}

// Open is At where nobody knows what day it is, for tests.
func Open(dir string) Home { return At(dir, nil) }

// now is what day it is, the zero time where nobody knows.
func (h Home) now() time.Time {
	if h.today == nil {
		return time.Time{}
	}
	return h.today()
}

// Check tells of a home that can be none, as a file stands in its place. One that is not there yet is well.
func (h Home) Check() error {
	if info, err := os.Stat(h.dir); err == nil && !info.IsDir() {
		return fmt.Errorf("the home %s is a file: name a folder with --home or VATSIDE_HOME", h.dir)
	}
	return nil
}

// Dir is the home's folder.
func (h Home) Dir() string { return h.dir }

// VatDir is the folder of a vat.
func (h Home) VatDir(vat string) string { return filepath.Join(h.dir, "vats", vat) }

// DayFile is the file of a day.
func (h Home) DayFile(vat, day string) string { return filepath.Join(h.VatDir(vat), day+".toml") }

// Vats are the names of the vats' folders, in the order of the alphabet. A home that is not there has none.
func (h Home) Vats() ([]string, error) {
	entries, err := list(filepath.Join(h.dir, "vats"))
	var vats []string
	for _, e := range entries {
		if checkName(e.Name()) == nil && isDir(filepath.Join(h.dir, "vats"), e) {
			vats = append(vats, e.Name())
		}
	}
	return vats, err
}

// StrayVats are the folders among the vats that nobody reads, for their names cannot be shown: an error for each, which says
// which it is.
func (h Home) StrayVats() []error {
	dir := filepath.Join(h.dir, "vats")
	entries, _ := list(dir) // a folder that cannot be read is told by Vats
	var out []error
	for _, e := range entries {
		if err := wording.Refusal(e.Name()); err != nil && isDir(dir, e) {
			out = append(out, fmt.Errorf("a vat is not read, its folder's name %w", err))
		}
	}
	return out
}

// isDir takes a link to a folder for a folder: a vat's folder may live on another disk.
func isDir(parent string, e fs.DirEntry) bool {
	if e.Type()&fs.ModeSymlink == 0 {
		return e.IsDir()
	}
	return isFolder(filepath.Join(parent, e.Name()))
}

// dateOf is the date in the name of a day: 2026-11-25, and from the second of that date on a number behind it, 2026-11-25-2,
// of at most four figures. False where it is no day's name.
func dateOf(name string) (date string, ok bool) {
	const form = len(time.DateOnly)
	if len(name) < form {
		return "", false
	}
	for i, c := range []byte(name[:form]) {
		if i == 4 || i == 7 {
			if c != '-' {
				return "", false
			}
		} else if c < '0' || c > '9' {
			return "", false
		}
	}
	if len(name) == form {
		return name, true
	}
	number := name[form:]
	if len(number) < 2 || len(number) > 5 || number[0] != '-' || number[1] == '0' {
		return "", false
	}
	for _, c := range []byte(number[1:]) {
		if c < '0' || c > '9' {
			return "", false
		}
	}
	return name[:form], true
}

// isDay tells of a day's name.
func isDay(name string) bool {
	_, ok := dateOf(name)
	return ok
}

// within are the names, without the ending, of those entries of a vat's folder that end with .toml and are as asked.
func (h Home) within(vat string, is func(name string, folder bool) bool) ([]string, error) {
	if err := checkName(vat); err != nil {
		return nil, err
	}
	entries, err := list(h.VatDir(vat))
	var out []string
	for _, e := range entries {
		if name, isToml := strings.CutSuffix(e.Name(), ".toml"); isToml && is(name, e.IsDir()) {
			out = append(out, name)
		}
	}
	return out, err
}

// named are the names of a vat's days, by their dates.
func (h Home) named(vat string) ([]string, error) {
	days, err := h.within(vat, func(name string, folder bool) bool { return isDay(name) && !folder })
	slices.SortFunc(days, compareDays)
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

// compareDays orders by date, then by number: a date's tenth day comes after its second.
func compareDays(a, b string) int {
	const date = len(time.DateOnly)
	if c := strings.Compare(a[:date], b[:date]); c != 0 {
		return c
	}
	m, _ := strconv.Atoi(strings.TrimPrefix(a[date:], "-"))
	n, _ := strconv.Atoi(strings.TrimPrefix(b[date:], "-"))
	return m - n
}

// ReadDay reads a day and its spills as one, to look only: it takes no lock and changes nothing. The error is about the file;
// what is wrong inside it stands in the Book.
func (h Home) ReadDay(vat, day string) (book.Book, error) {
	b, data, err := h.readAlone(vat, day)
	if err != nil {
		return b, err
	}
	return b.With(h.now(), data, h.spills(vat, day, b.Frame)), nil
}

// readAlone reads a day's file without its spills.
func (h Home) readAlone(vat, day string) (book.Book, []byte, error) {
	if err := checkDay(vat, day); err != nil {
		return book.Book{}, nil, err
	}
	data, err := h.dayText(vat, day)
	if errors.Is(err, fs.ErrNotExist) {
		return book.Book{}, nil, fmt.Errorf("the vat %s has no day %s: %w", vat, day, err)
	}
	if err != nil {
		return book.Book{}, nil, err
	}
	return understood(h.now(), h.DayFile(vat, day), data), data, nil
}

// dayText is all that stands in a day's file.
func (h Home) dayText(vat, day string) ([]byte, error) {
	data, err := readFile(h.DayFile(vat, day))
	if err != nil {
		return nil, fmt.Errorf("the day cannot be read: %w", err)
	}
	return data, nil
}

// RecipeFile is one of the dyer's own recipes, as text.
type RecipeFile struct {
	Path string
	Text []byte
}

// Recipes are the dyer's own recipes, by file name.
func (h Home) Recipes() ([]RecipeFile, error) {
	dir := filepath.Join(h.dir, "recipes")
	entries, err := list(dir)
	var out []RecipeFile
	for _, e := range entries {
		if e.IsDir() || strings.HasPrefix(e.Name(), ".") || !strings.EqualFold(filepath.Ext(e.Name()), ".toml") {
			continue
		}
		path := filepath.Join(dir, e.Name())
		text, readErr := readFile(path)
		if readErr != nil {
			err = errors.Join(err, fmt.Errorf("the recipe cannot be read: %w", readErr))
			continue
		}
		out = append(out, RecipeFile{path, text})
	}
	return out, err
}

// list reads a folder; one that is not there is empty.
func list(dir string) ([]fs.DirEntry, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return entries, fmt.Errorf("a folder cannot be read: %w", err)
	}
	return entries, nil
}
