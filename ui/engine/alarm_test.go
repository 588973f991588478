package engine

import (
	"testing"
	"time"
)

// The machine's alarm rings once at its start and once a stretch that is set, set anew for the new one; stopped it holds nobody up.
func TestTheMachinesAlarm(t *testing.T) {
	a := Machine{}.alarm()
	ended := make(chan struct{})
	if a.wait == nil { // as on other platforms
		a.wait = func() {}
	}
	go func() { a.wait(); close(ended) }()
	rings := func(what string) {
		t.Helper()
		select {
		case <-a.rings:
		case <-time.After(10 * time.Second):
			t.Fatalf("%s it does not ring", what)
		}
	}
	rings("at its start")
	for range 3 {
		a.set(time.Millisecond)
		rings("after a millisecond")
	}
	a.set(0)
	rings("after no time")
	a.set(time.Hour)
	a.set(time.Millisecond)
	rings("set anew")
	a.stop()
	<-ended
}
