package engine

import (
	"time"

	"golang.org/x/sys/windows"
)

// Boot is GetTickCount64, which counts sleep and knows no clock steps, in steps of 10 to 16 ms.
func (Machine) Boot() (time.Duration, bool) { return windows.DurationSinceBoot(), true }
