package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
	"testing"
)

func TestReasonsAreADyersWords(t *testing.T) {
	full := &os.PathError{Op: "write", Path: "/home/d/vats/bin/2026-11-25.toml", Err: syscall.ENOSPC}
	for _, c := range []struct {
		err  error
		want string
	}{
		{full, "the disk is full"},
		{fmt.Errorf("event 3: %w; nor elsewhere: %w", syscall.EIO, full), "the disk fails"},
		{fmt.Errorf("event 3: %w", errors.Join(syscall.EROFS, full)), "the disk can only be read"},
		{fs.ErrPermission, "nobody may write there"},
		{syscall.ENOENT, "the folder is gone"},
		{syscall.EBUSY, "another program holds the file"},
		{errors.New("errno 5"), "the disk did not take it"},
	} {
		if got := Reason(c.err); got != c.want {
			t.Errorf("%v: %q, not %q", c.err, got, c.want)
		}
	}
}
