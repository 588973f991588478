package ui

import (
	"runtime"
	"sync"
)

// processors keeps the program to one processor while nothing but the time goes on. With several, each hand-over from one goroutine
// to the next wakes another one for nothing: twice the wake-ups of a second, and a third more of its work.
type processors struct {
	mu    sync.Mutex
	one   bool
	began bool // the home is read
	input bool // something was pressed since the last quiet
}

func (p *processors) start() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.began = true
}

// wake gives the program all processors: something was pressed.
func (p *processors) wake() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.input = true
	if p.one {
		p.one = false
		runtime.SetDefaultGOMAXPROCS()
	}
}

// quiet is called now and then; between two calls without a wake it leaves the program one processor.
func (p *processors) quiet() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.began && !p.input && !p.one {
		p.one = true
		runtime.GOMAXPROCS(1)
	}
	p.input = false
}
