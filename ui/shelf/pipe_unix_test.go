//go:build unix

package shelf

import (
	"syscall"
	"testing"
)

// pipe makes a named pipe.
func pipe(t *testing.T, path string) {
	t.Helper()
	must(t, syscall.Mkfifo(path, 0o644))
}
