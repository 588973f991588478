package ui

import (
	"os"
	"syscall"
)

// alsoDeadly are the signals that end a program on Linux alone.
var alsoDeadly = []os.Signal{syscall.SIGSTKFLT, syscall.SIGPWR}
