//go:build unix

package cue

import (
	"io"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"

	"example.org/vatside/model/wording"
)

// The same on a real terminal line whose other side has stopped reading: calls return, and what was asked meanwhile
// comes out as one bell and the newest title once it reads again.
func TestStalledTerminalLine(t *testing.T) {
	screen, line, err := pty.Open()
	if err != nil {
		t.Skipf("no pseudo-terminal here: %v", err)
	}
	defer screen.Close()
	defer line.Close()
	p := New(Settings{Bell: true}, nil, line)
	p.Title(wording.Show(strings.Repeat("x", 1<<20))) // more than the line holds: its writer is stuck
	for taken := false; !taken; time.Sleep(time.Millisecond) {
		p.term.mu.Lock()
		taken = p.term.shown != ""
		p.term.mu.Unlock()
	}
	begun := time.Now()
	for range 100 {
		p.Call(Call{Cue: Out})
		p.Title(wording.Show("in C2"))
	}
	if took := time.Since(begun); took > time.Second {
		t.Errorf("100 calls took %v", took)
	}
	select {
	case <-p.term.idle():
		t.Fatal("the line was not stuck: this test shows nothing")
	case <-time.After(50 * time.Millisecond):
	}

	go func() { // a read of a pseudo-terminal ends only with its other side
		<-p.term.idle()
		line.Close()
	}()
	text, _ := io.ReadAll(screen)
	rest := strings.TrimLeft(strings.TrimPrefix(string(text), keepTitle+"\x1b]2;"), "x")
	if want := bel + bel + "\x1b]2;in C2" + bel; rest != want { // the first BEL ends the long title
		t.Errorf("after the long title came %q, want %q", rest, want)
	}
}
