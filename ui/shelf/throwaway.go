package shelf

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"github.com/gofrs/flock"

	"example.org/vatside/model/wording"
)

// A throwaway home is a folder in the one for what may vanish. While its rehearsal lives it holds the lock; the marker is
// written after that, so that a marker whose lock is free is of a rehearsal that was killed.
const (
	throwawayLock   = ".rehearsal-lock"
	throwawayMarker = ".rehearsal"
	throwawayWords  = "A rehearsal of vatside. Once it is over, this folder is removed.\n"
)

// throwawayForm is the name of such a folder.
var throwawayForm = wording.Pattern(`^vatside-rehearsal-\d+$`)

// Throwaway is a new home in the folder for what may vanish, for a rehearsal. Those of rehearsals that were killed are
// removed first. What its disk refuses is kept nowhere else. today is as for At.
func Throwaway(today func() time.Time) (Home, error) {
	clearThrown(os.TempDir())
	dir, err := os.MkdirTemp("", "vatside-rehearsal-")
	if err != nil {
		return Home{}, fmt.Errorf("no folder for a rehearsal: %w", err)
	}
	h := At(dir, today)
	h.places = nil // what it spilled would outlive it, and be taken for a later rehearsal's
	lock, got, err := tryLock(filepath.Join(dir, throwawayLock))
	if err == nil && !got {
		err = ErrLocked
	}
	if err == nil {
		h.thrown = lock
		err = os.WriteFile(filepath.Join(dir, throwawayMarker), []byte(throwawayWords), 0o600)
	}
	if err != nil {
		return Home{}, fmt.Errorf("no folder for a rehearsal: %w", errors.Join(err, discard(dir, lock)))
	}
	return h, nil
}

// Discard removes a throwaway home; any other is left as it is, and told.
func (h Home) Discard() error {
	if h.thrown == nil {
		return fmt.Errorf("%s is not a throwaway home: it stays", h.dir)
	}
	return discard(h.dir, h.thrown)
}

// discard lets the lock go, as some platforms remove no file that is open, and removes the folder; links in it are removed
// themselves, not followed.
func discard(dir string, lock *flock.Flock) error {
	err := lock.Close()
	return errors.Join(err, os.RemoveAll(dir))
}

// clearThrown removes the throwaway homes in a folder that nobody holds any more. What is not surely one stays; a failure
// is no matter, the next rehearsal tries again.
func clearThrown(in string) {
	entries, _ := os.ReadDir(in)
	for _, e := range entries {
		if !throwawayForm().MatchString(e.Name()) {
			continue
		}
		dir := filepath.Join(in, e.Name())
		if !isThrown(dir) {
			continue
		}
		lock := flock.New(filepath.Join(dir, throwawayLock), flock.SetFlag(os.O_RDWR)) // never made anew
		got, err := lock.TryLock()
		switch {
		case err != nil || !got:
		case isThrown(dir): // still: another rehearsal may have removed it meanwhile
			_ = discard(dir, lock)
		default:
			_ = lock.Close()
		}
	}
}

// isThrown tells whether a folder is a throwaway home that this program made for this user: a folder that is its user's
// alone, with a lock file and the marker, none of them a link.
func isThrown(dir string) bool {
	info, err := os.Lstat(dir)
	if err != nil || ownFolder(dir) != nil || runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0 {
		return false
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return false
	}
	defer root.Close()
	small := func(name string) bool {
		info, err := root.Lstat(name)
		return err == nil && info.Mode().IsRegular() && info.Size() <= int64(len(throwawayWords))
	}
	if !small(throwawayLock) || !small(throwawayMarker) {
		return false
	}
	text, err := root.ReadFile(throwawayMarker)
	return err == nil && string(text) == throwawayWords
}
