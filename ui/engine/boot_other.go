//go:build !linux && !darwin && !windows

package engine

import "time"

// Boot is not to be had here: day-time goes by the wall clock, which counts sleep but follows clock steps.
func (Machine) Boot() (time.Duration, bool) { return 0, false }
