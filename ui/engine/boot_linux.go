package engine

import (
	"os"
	"time"
	"unsafe"

	"golang.org/x/sys/unix"
)

// Boot is CLOCK_BOOTTIME: time since the machine started, sleep included, untouched by clock steps. It is asked raw, as it never
// waits: a call that the scheduler knows of wakes the runtime's own watch (sysmon) at each second.
func (Machine) Boot() (time.Duration, bool) {
	var ts unix.Timespec
	if _, _, errno := unix.RawSyscall(unix.SYS_CLOCK_GETTIME, unix.CLOCK_BOOTTIME, uintptr(unsafe.Pointer(&ts)), 0); errno != 0 {
		return 0, false
	}
	return time.Duration(ts.Nano()), true
}

// alarm is one of the system's (timerfd_create(2)), which counts sleep: it rings as the machine wakes. A timer of Go's runtime would
// keep sysmon awake, which then looks each 20 µs for as long as anything works: four or five times the work of a second.
func (Machine) alarm() alarm {
	fd, err := unix.TimerfdCreate(unix.CLOCK_BOOTTIME, unix.TFD_NONBLOCK|unix.TFD_CLOEXEC)
	if err != nil {
		return newAlarm()
	}
	f := os.NewFile(uintptr(fd), "alarm")
	c, err := f.SyscallConn()
	if err != nil || f.SetReadDeadline(time.Time{}) != nil { // epoll(7) did not take it: it would never ring
		_ = f.Close()
		return newAlarm()
	}
	rings := make(chan time.Time, 1)
	return alarm{
		rings: rings,
		// The descriptor is never read: each ring is an event of its own for epoll(7), and setting the timer anew clears it.
		wait: func() {
			_ = c.Read(func(uintptr) bool {
				select {
				case rings <- time.Time{}:
				default:
				}
				return false
			})
		},
		set: func(d time.Duration) {
			_ = c.Control(func(fd uintptr) {
				_ = unix.TimerfdSettime(int(fd), 0, &unix.ItimerSpec{Value: unix.NsecToTimespec(max(1, d.Nanoseconds()))}, nil)
			})
		},
		stop: func() { _ = f.Close() },
	}
}
