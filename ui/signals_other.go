//go:build unix && !linux

package ui

import "os"

// alsoDeadly are the signals that end a program on this platform alone.
var alsoDeadly []os.Signal
