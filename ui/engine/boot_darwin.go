package engine

import (
	"time"

	"golang.org/x/sys/unix"
)

// Boot counts sleep and follows no clock steps: CLOCK_MONOTONIC_RAW is mach_continuous_time, while Go's own clock stands still in
// sleep (clock_gettime(3) of macOS).
func (Machine) Boot() (time.Duration, bool) {
	var ts unix.Timespec
	err := unix.ClockGettime(unix.CLOCK_MONOTONIC_RAW, &ts)
	return time.Duration(ts.Nano()), err == nil
}
