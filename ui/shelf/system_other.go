//go:build !unix

package shelf

import (
	"errors"
	"os"
)

// ownFolder refuses what is no folder. Temporary and state folders belong to one user there.
func ownFolder(dir string) error {
	info, err := os.Lstat(dir)
	if err == nil && !info.IsDir() {
		err = errors.New("it is no folder")
	}
	return err
}

// noWait is not needed where a folder holds no pipes.
const noWait = 0
