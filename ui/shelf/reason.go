package shelf

import (
	"errors"
	"io/fs"
	"syscall"
)

// Reason is in a dyer's words why a disk did not take a write. Of an error that joins several it tells the first.
func Reason(err error) string {
	switch number(err) {
	case syscall.ENOSPC, syscall.EDQUOT:
		return Full
	case syscall.EROFS:
		return "the disk can only be read"
	case syscall.EACCES, syscall.EPERM:
		return "nobody may write there"
	case syscall.ENOENT, syscall.ENODEV, syscall.ENXIO:
		return "the folder is gone"
	case syscall.EIO:
		return "the disk fails"
	case syscall.EBUSY:
		return "another program holds the file"
	}
	return "the disk did not take it"
}

// number is what the systems but Windows call the error of a disk; of an error that joins several the first one's.
func number(err error) syscall.Errno {
	var no syscall.Errno
	switch {
	case errors.As(err, &no):
	case errors.Is(err, fs.ErrPermission):
		no = syscall.EACCES
	}
	return errno(no)
}

// Full is the reason that the dyer can do something about: make room.
const Full = "the disk is full"
