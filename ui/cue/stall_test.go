//go:build unix

package cue

import (
	"io"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/creack/pty"
)

// The same on a real terminal line whose other side has stopped reading: calls return, and what was asked meanwhile comes out as
// one bell once it reads again.
func TestStalledTerminalLine(t *testing.T) {
	screen, line, err := pty.Open()
	if err != nil {
		t.Skipf("no pseudo-terminal here: %v", err)
	}
	defer screen.Close()
	defer line.Close()
	full := make(chan struct{})
	var written atomic.Int64
	go func() { // more than the line holds
		defer close(full)
		for range 1 << 10 {
			_, _ = io.WriteString(line, strings.Repeat("x", 1<<10))
			written.Add(1)
		}
	}()
	for was := int64(-1); was != written.Load(); time.Sleep(20 * time.Millisecond) {
		was = written.Load()
	}
	p := New(Settings{Bell: true}, nil, line)
	begun := time.Now()
	for range 100 {
		p.Call(Call{Cue: Out})
	}
	if took := time.Since(begun); took > time.Second {
		t.Errorf("100 calls took %v", took)
	}
	select {
	case <-p.bell.idle():
		t.Fatal("the line was not stuck: this test shows nothing")
	case <-time.After(50 * time.Millisecond):
	}

	go func() { // a read of a pseudo-terminal ends only with its other side
		<-full
		<-p.bell.idle()
		line.Close()
	}()
	text, _ := io.ReadAll(screen)
	if rest := strings.ReplaceAll(string(text), "x", ""); rest != bel && rest != bel+bel { // one may have been under way
		t.Errorf("%q came, not one bell or two", rest)
	}
}
