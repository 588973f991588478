package ui

import (
	"os"
	"syscall"
)

// deadly are the signals that end a program.
func deadly() []os.Signal { return []os.Signal{os.Interrupt, syscall.SIGTERM} }
