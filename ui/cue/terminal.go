package cue

import (
	"io"
	"strings"
	"sync"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/guard"
)

// terminal rings the bell and sets the title. A terminal that has stopped reading blocks whoever writes to it, so a
// goroutine of its own writes, and what comes meanwhile is kept in one slot each: one bell, the newest title.
type terminal struct {
	to io.Writer

	mu     sync.Mutex
	bell   bool
	title  string // the newest wanted, if change
	change bool
	shown  string        // the title last written
	kept   bool          // the terminal was asked to keep the title it had before
	busy   chan struct{} // closed when the writer at work is done; nil when there is none
}

// The control sequences: BEL; OSC 2 sets the title; CSI 22 ; 2 t and CSI 23 ; 2 t keep the old title and bring it back
// (xterm's window operations; others ignore them). Each call writes once, so that it never stands inside a frame's bytes.
const (
	bel       = "\a"
	keepTitle = "\x1b[22;2t"
	oldTitle  = "\x1b[23;2t"
)

// ring rings once. Bells that come while one is waiting are one bell.
func (t *terminal) ring() { t.ask(func() { t.bell = true }) }

// name sets the title.
func (t *terminal) name(title wording.Shown) {
	t.ask(func() { t.title, t.change = title.String(), true })
}

// restore brings the terminal's own title back.
func (t *terminal) restore() { t.name(wording.Shown{}) }

// ask notes a wish and sees to it that somebody writes it.
func (t *terminal) ask(wish func()) {
	if t.to == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	wish()
	if t.busy == nil {
		t.busy = make(chan struct{})
		done := t.busy
		guard.Go("title", func() { t.write(done) })
	}
}

// write writes wishes until there are none.
func (t *terminal) write(done chan struct{}) {
	defer close(done)
	for {
		t.mu.Lock()
		text := t.next()
		if text == "" {
			t.busy = nil
			t.mu.Unlock()
			return
		}
		t.mu.Unlock()
		io.WriteString(t.to, text) // a terminal that is gone shows nothing anyway
	}
}

// next turns the wishes into bytes and clears them.
func (t *terminal) next() string {
	var b strings.Builder
	if t.bell {
		b.WriteString(bel)
	}
	if t.change && t.title != t.shown {
		switch {
		case t.title == "":
			b.WriteString(oldTitle)
			t.kept = false
		case !t.kept:
			b.WriteString(keepTitle)
			t.kept = true
			fallthrough
		default:
			b.WriteString("\x1b]2;" + t.title + bel)
		}
		t.shown = t.title
	}
	t.bell, t.change = false, false
	return b.String()
}

// idle gives a channel that is closed when nothing is being written.
func (t *terminal) idle() <-chan struct{} {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.busy != nil {
		return t.busy
	}
	done := make(chan struct{})
	close(done)
	return done
}
