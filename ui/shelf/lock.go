package shelf

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"
)

// hasWriter tells whether some program holds a lock for writing. One that only looks holds it for an instant, shared.
func hasWriter(path string) (bool, error) {
	lock := flock.New(path, flock.SetFlag(os.O_RDONLY))
	got, err := lock.TryRLock()
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if !got {
		return err == nil, err
	}
	return false, lock.Unlock()
}

// A lock that only lookers hold is tried for so many rounds, each so long, with so long a pause between two tries: each looker
// lets it go at once, but may be held up itself.
const (
	lookersRounds = 150
	lookersRound  = 20 * time.Millisecond
	lookersPause  = 2 * time.Millisecond
)

// pastLookers takes a lock that could not be had because a program that looks at the vat held it for an instant. It gives up
// once another program writes.
func pastLookers(lock *flock.Flock) (got bool, err error) {
	for range lookersRounds {
		if written, err := hasWriter(lock.Path()); written || err != nil {
			return false, err
		}
		ctx, stop := context.WithTimeout(context.Background(), lookersRound)
		got, err = lock.TryLockContext(ctx, lookersPause)
		stop()
		if got || !errors.Is(err, context.DeadlineExceeded) {
			return got, err
		}
	}
	return false, nil
}

// tryLock takes a lock, if nobody else has it. A lock file that nobody holds is no obstacle.
func tryLock(path string) (lock *flock.Flock, got bool, err error) {
	if info, err := os.Stat(path); err == nil {
		if err := regular(path, info); err != nil {
			return nil, false, err
		}
	}
	lock = flock.New(path)
	if got, err = lock.TryLock(); !got && err == nil {
		got, err = pastLookers(lock)
	}
	return lock, got, err
}

// ErrLocked says that another program, or another writer of this one, has the vat open. The day can still be read.
var ErrLocked = errors.New("this vat is open in another program; here it can only be looked at")

func (h Home) lockFile(vat string) string { return filepath.Join(h.VatDir(vat), ".lock") }

// lockVat takes the lock of a vat's folder. A lock file that nobody holds is no obstacle.
func (h Home) lockVat(vat string) (*flock.Flock, error) {
	lock, got, err := tryLock(h.lockFile(vat))
	if err != nil {
		return nil, fmt.Errorf("the vat cannot be locked, %s: %w", Reason(err), err)
	}
	if !got {
		return nil, ErrLocked
	}
	return lock, nil
}
