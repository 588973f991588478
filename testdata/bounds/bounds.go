// Package bounds runs what must come to an end, for tests of days with figures that cannot be.
package bounds

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"testing"
	"time"
)

// The most that one question to a day may take. What runs away takes gigabytes within seconds; a sound one takes 40 MB and
// some hundred milliseconds where the machine is busy.
const (
	mostMemory = 512 << 20
	mostTime   = 20 * time.Second
)

// Ends runs a question and fails where it panics, or does not come to its end.
func Ends(t *testing.T, what string, ask func()) {
	t.Helper()
	done := make(chan string, 1)
	go func() {
		defer func() {
			fault := ""
			if r := recover(); r != nil {
				fault = fmt.Sprintf("%v\n%s", r, debug.Stack())
			}
			done <- fault
		}()
		ask()
	}()
	look, late := time.NewTicker(20*time.Millisecond), time.NewTimer(mostTime)
	defer look.Stop()
	defer late.Stop()
	for {
		select {
		case fault := <-done:
			if fault != "" {
				t.Errorf("%s: %s", what, fault)
			}
			return
		case <-look.C:
			var m runtime.MemStats
			if runtime.ReadMemStats(&m); m.HeapAlloc > mostMemory {
				t.Fatalf("%s runs away: it holds %d MB", what, m.HeapAlloc>>20)
			}
		case <-late.C:
			t.Fatalf("%s does not come to its end", what)
		}
	}
}
