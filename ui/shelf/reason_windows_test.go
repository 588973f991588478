package shelf

import (
	"os"
	"syscall"
	"testing"

	"golang.org/x/sys/windows"
)

func init() { writeProtected = windows.ERROR_WRITE_PROTECT }

func TestWindowsReasonsAreADyersWords(t *testing.T) {
	for no, want := range map[syscall.Errno]string{
		windows.ERROR_DISK_FULL:         Full,
		windows.ERROR_HANDLE_DISK_FULL:  Full,
		windows.ERROR_WRITE_PROTECT:     "the disk can only be read",
		windows.ERROR_ACCESS_DENIED:     "nobody may write there",
		windows.ERROR_SHARING_VIOLATION: "another program holds the file",
		windows.ERROR_NOT_READY:         "the folder is gone",
		windows.ERROR_BAD_NETPATH:       "the folder is gone",
		windows.ERROR_CRC:               "the disk fails",
		windows.ERROR_INVALID_NAME:      "the disk did not take it",
	} {
		if got := Reason(&os.PathError{Op: "write", Path: `C:\x`, Err: no}); got != want {
			t.Errorf("%v: %q, not %q", no, got, want)
		}
	}
}
