package widget

import (
	"time"

	"example.org/vatside/model/wording"
)

// Countdown writes what is left as "4:10" or "1:02:30". A begun second counts whole, so that 0:00 is shown
// only when the time is up; below zero it is the time over.
func Countdown(left time.Duration) string {
	if left < 0 {
		return Over(-left)
	}
	return wording.Minutes(left + time.Second - 1)
}

// Over writes the time since a deadline as "+3:02".
func Over(by time.Duration) string {
	return "+" + wording.Minutes(max(by, 0))
}

// In writes "in 4:10", and "now" when the time is up.
func In(left time.Duration) string {
	if left <= 0 {
		return "now"
	}
	return "in " + Countdown(left)
}
