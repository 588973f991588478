package shelf

import (
	"errors"
	"os"
	"syscall"

	"golang.org/x/sys/windows"
)

// noWait is not needed where a folder holds no pipes.
const noWait = 0

// held tells that a program may have a file open that was to get another name: one that reads it, or looks through what is new.
func held(err error) bool {
	return errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_ACCESS_DENIED)
}

// errno is the number that the other systems have for what Windows says of a disk.
func errno(no syscall.Errno) syscall.Errno {
	switch no {
	case windows.ERROR_DISK_FULL, windows.ERROR_HANDLE_DISK_FULL, windows.ERROR_DISK_QUOTA_EXCEEDED:
		return syscall.ENOSPC
	case windows.ERROR_WRITE_PROTECT:
		return syscall.EROFS
	case windows.ERROR_ACCESS_DENIED:
		return syscall.EACCES
	case windows.ERROR_SHARING_VIOLATION, windows.ERROR_LOCK_VIOLATION:
		return syscall.EBUSY
	case windows.ERROR_FILE_NOT_FOUND, windows.ERROR_PATH_NOT_FOUND, windows.ERROR_NOT_READY, windows.ERROR_DEV_NOT_EXIST,
		windows.ERROR_BAD_NETPATH, windows.ERROR_BAD_NET_NAME, windows.ERROR_NETNAME_DELETED:
		return syscall.ENOENT
	case windows.ERROR_CRC, windows.ERROR_IO_DEVICE, windows.ERROR_GEN_FAILURE, windows.ERROR_WRITE_FAULT:
		return syscall.EIO
	}
	return no
}

// ownFolder refuses what is no folder. Temporary and state folders belong to one user there.
func ownFolder(dir string) error {
	info, err := os.Lstat(dir)
	if err == nil && !info.IsDir() {
		err = errors.New("it is no folder")
	}
	return err
}
