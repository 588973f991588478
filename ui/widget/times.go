package widget

import (
	"fmt"
	"time"
)

// Countdown writes what is left as "4:10" or "1:02:30". A begun second counts whole, so that 0:00 is shown
// only when the time is up; below zero it is the time over.
func Countdown(left time.Duration) string {
	if left < 0 {
		return Over(-left)
	}
	return minutes((left + time.Second - 1).Truncate(time.Second))
}

// Over writes the time since a deadline as "+3:02".
func Over(by time.Duration) string {
	return "+" + minutes(max(by, 0).Truncate(time.Second))
}

// In writes "in 4:10", and "now" when the time is up.
func In(left time.Duration) string {
	if left <= 0 {
		return "now"
	}
	return "in " + Countdown(left)
}

func minutes(d time.Duration) string {
	s := int(d / time.Second)
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}
