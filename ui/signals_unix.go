//go:build unix

package ui

import (
	"os"
	"os/signal"
	"syscall"
)

// deadly are the signals that end a program. One that comes by a fault of the program's own is a panic before it is a signal.
func deadly() []os.Signal {
	signal.Ignore(syscall.SIGXFSZ) // a file that may not grow is an error of that write
	return append(alsoDeadly,
		syscall.SIGHUP, syscall.SIGINT, syscall.SIGQUIT, syscall.SIGILL, syscall.SIGTRAP, syscall.SIGABRT, syscall.SIGBUS, syscall.SIGFPE,
		syscall.SIGUSR1, syscall.SIGSEGV, syscall.SIGUSR2, syscall.SIGALRM, syscall.SIGTERM, syscall.SIGXCPU, syscall.SIGVTALRM,
		syscall.SIGIO, syscall.SIGSYS)
}
