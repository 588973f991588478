// Package shelf keeps the dyer's files: the books of the vats, the dyer's own recipes, the settings, the sounds, and the
// book as tables. No other package touches files.
//
// The policy of the shelf:
//   - an event is one write and one fsync; what Append has returned without an error survives a kill and a power cut;
//   - an event that its day's file refuses goes to a spill in another folder at once (spill.go);
//   - no file of the dyer's is rewritten or deleted, but by the one that holds the lock of the vat and after a synced copy: a
//     torn tail is cut off, never while a write is in flight, and a day that is mended takes the place of the old one;
//   - reading takes no lock and changes nothing, not even by making a folder.
//
// The files, the top first; each calls down:
//
//	look.go, watch.go               another program's day; what changed on disk
//	newday.go, writer.go            a day is begun and gone on with, event by event
//	tables.go, mend.go, stock.go    days from elsewhere; a day made whole; the list of tins
//	order.go, days.go, recall.go    which day is newest or open, the first screen's; reading a day; the days that were read last
//	index.go, index_file.go         what the days said, kept in the cache folder
//	spill.go, pen.go                what a day's file refused; blocks appended to one file
//	settings_file.go, settings_table.go, settings.go    reading and saving; one row a setting; the type
//	create.go, lock.go, name.go, read.go, file.go    new files, locks, names, bytes
package shelf

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/adrg/xdg"
	"github.com/gofrs/flock"

	"example.org/vatside/model/wording"
)

// Home is the folder with all that is the dyer's: vats/, recipes/ and settings.toml.
type Home struct {
	dir    string
	open   opener
	today  func() time.Time // what day it is; nil: nobody knows
	places []place          // for spills
	thrown *flock.Flock     // of a throwaway home
	index  *index           // nil: every day is read anew
}

// Locate is the folder that the home is in: the flag, else the environment's, else the platform's place for data.
func Locate(flag, env string) (string, error) {
	dir := cmp.Or(flag, env, filepath.Join(xdg.DataHome, "vatside"))
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("the home folder %q cannot be found: %w", dir, err)
	}
	return abs, nil
}

// At is the home in a folder that need not exist yet; it is made with the first day. today says what day it is: a time in a
// file that is years away from it counts as a fault of the file.
func At(dir string, today func() time.Time) Home {
	return Home{dir: dir, open: openFile, today: today, places: places()}
}

// Open is At without a date, for tests: no time in a file is a fault.
func Open(dir string) Home { return At(dir, nil) }

// now is what day it is, the zero time where nobody knows.
func (h Home) now() time.Time {
	if h.today == nil {
		return time.Time{}
	}
	return h.today()
}

// Check errs where a file stands in the place of the home. A home that is not there yet is no error.
func (h Home) Check() error {
	if info, err := os.Stat(h.dir); err == nil && !info.IsDir() {
		return fmt.Errorf("the home %s is a file: name a folder with --home or VATSIDE_HOME", h.dir)
	}
	return nil
}

// Dir is the path of the home, absolute if Locate made it.
func (h Home) Dir() string { return h.dir }

// VatDir is the path of a vat's folder, which need not be there.
func (h Home) VatDir(vat string) string { return filepath.Join(h.dir, "vats", vat) }

// DayFile is the path of a day's file, which need not be there.
func (h Home) DayFile(vat, day string) string { return filepath.Join(h.VatDir(vat), day+".toml") }

// place is a folder that spills can lie in.
type place struct {
	dir     string
	passing bool // it does not outlive a restart of the machine
}

// places are where spills go, the first that takes a write: the platform's folder for state, else the one for what may
// vanish. Both are asked for spills.
func places() []place {
	return []place{
		{filepath.Join(xdg.StateHome, "vatside", "spilled"), false},
		{filepath.Join(os.TempDir(), fmt.Sprintf("vatside-spilled-%d", os.Getuid())), true},
	}
}

// Places are the folders that a spill is tried in, in this order: none for a throwaway home.
func (h Home) Places() []string { return wording.Each(h.places, func(p place) string { return p.dir }) }
