package cue

import (
	"sync"

	"example.org/vatside/ui/guard"
)

// Awake keeps the machine from going to sleep while a time runs: a machine that sleeps calls nobody. The zero Awake is ready to use.
// Whatever ends the program ends that too.
type Awake struct {
	mu    sync.Mutex
	on    bool
	until func() // ends it; nil: nothing keeps the machine awake
	why   string
}

// MaySleep is the word on a machine that nothing keeps awake.
const MaySleep = "this machine may sleep and then calls nobody: turn its sleep off"

// Keep has the machine kept awake, or no longer. It waits for nobody.
func (a *Awake) Keep(on bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if on == a.on {
		return
	}
	a.on = on
	if !on {
		a.release()
		return
	}
	until, err := stayAwake(a.failed)
	if a.until, a.why = until, ""; err != nil {
		a.why = err.Error()
	}
}

// failed is told why what kept the machine awake has ended by itself; nil: it was ended.
func (a *Awake) failed(err error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.on && err != nil {
		a.why = err.Error()
	}
}

func (a *Awake) release() {
	if until := a.until; until != nil {
		guard.Go("awake", until)
	}
	a.until, a.why = nil, ""
}

// Why says why the machine may go to sleep though a time runs; empty where it is kept awake, or no time runs.
func (a *Awake) Why() string {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.why
}

// Close lets the machine sleep again.
func (a *Awake) Close() {
	a.mu.Lock()
	until := a.until
	a.on, a.until = false, nil
	a.mu.Unlock()
	if until != nil {
		until()
	}
}

// closing tells that a part is over, also where it failed, which ends the program: who waits for it does not wait for ever.
func closing(done chan<- struct{}) func(*guard.Crash) {
	return func(c *guard.Crash) {
		close(done)
		if c != nil {
			guard.End(*c)
		}
	}
}
