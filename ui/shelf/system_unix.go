//go:build unix

package shelf

import (
	"errors"
	"fmt"
	"os"
	"syscall"
)

// ownFolder refuses a folder that is another user's, or that others may write to: what lies there is nobody's word.
func ownFolder(dir string) error {
	info, err := os.Lstat(dir)
	if err != nil {
		return err
	}
	stat, ok := info.Sys().(*syscall.Stat_t)
	switch {
	case !info.IsDir():
		return errors.New("it is no folder")
	case !ok || int(stat.Uid) != os.Getuid() || info.Mode().Perm()&0o022 != 0:
		return fmt.Errorf("the folder is not this user's alone")
	}
	return nil
}

// noWait opens a pipe without waiting for its other end.
const noWait = syscall.O_NONBLOCK
