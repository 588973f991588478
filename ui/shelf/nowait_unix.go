//go:build unix

package shelf

import "syscall"

// noWait opens a pipe without waiting for its other end.
const noWait = syscall.O_NONBLOCK
