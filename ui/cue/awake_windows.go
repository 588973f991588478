package cue

import (
	"runtime"

	"golang.org/x/sys/windows"

	"example.org/vatside/ui/guard"
)

// What SetThreadExecutionState is told: the system stays on (ES_SYSTEM_REQUIRED) until something else is said (ES_CONTINUOUS).
const (
	esContinuous     = 0x80000000
	esSystemRequired = 0x00000001
)

var setThreadExecutionState = windows.NewLazySystemDLL("kernel32.dll").NewProc("SetThreadExecutionState")

// stayAwake keeps the machine awake. The state is that of a thread, and ends with it: a goroutine of its own holds one.
func stayAwake(func(error)) (until func(), err error) {
	if err := setThreadExecutionState.Find(); err != nil {
		return nil, err
	}
	quit, done := make(chan struct{}), make(chan struct{})
	guard.GoThen("waker", func() {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		_, _, _ = setThreadExecutionState.Call(esContinuous | esSystemRequired)
		<-quit
		_, _, _ = setThreadExecutionState.Call(esContinuous)
	}, closing(done))
	return func() { close(quit); <-done }, nil
}
