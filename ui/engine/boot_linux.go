package engine

import (
	"time"

	"golang.org/x/sys/unix"
)

// Boot is CLOCK_BOOTTIME: time since the machine started, sleep included, untouched by clock steps.
func (Machine) Boot() (time.Duration, bool) {
	var ts unix.Timespec
	if err := unix.ClockGettime(unix.CLOCK_BOOTTIME, &ts); err != nil {
		return 0, false
	}
	return time.Duration(ts.Nano()), true
}
