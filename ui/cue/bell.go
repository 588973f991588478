package cue

import (
	"io"
	"sync"

	"example.org/vatside/ui/guard"
)

// bell rings a terminal's bell. A terminal that has stopped reading blocks whoever writes to it, so a goroutine of its own
// writes; bells that come meanwhile are one bell.
type bell struct {
	to io.Writer

	mu     sync.Mutex
	wanted bool
	busy   chan struct{} // closed when the writer at work is done; nil when there is none
}

// bel is written by itself, so that it never stands inside a frame's bytes.
const bel = "\a"

func (b *bell) ring() {
	if b.to == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.wanted = true
	if b.busy == nil {
		b.busy = make(chan struct{})
		done := b.busy
		guard.Go("bell", func() { b.write(done) })
	}
}

func (b *bell) write(done chan struct{}) {
	defer close(done)
	for {
		b.mu.Lock()
		if !b.wanted {
			b.busy = nil
			b.mu.Unlock()
			return
		}
		b.wanted = false
		b.mu.Unlock()
		_, _ = io.WriteString(b.to, bel) // a terminal that is gone rings nothing anyway
	}
}

// idle gives a channel that is closed when nothing is being written.
func (b *bell) idle() <-chan struct{} {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.busy != nil {
		return b.busy
	}
	done := make(chan struct{})
	close(done)
	return done
}
