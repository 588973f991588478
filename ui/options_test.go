//go:build unix

package ui

import (
	"os"
	"reflect"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"

	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

// inTerminal runs the program in a terminal that reads all. What Run gives comes in ended.
func inTerminal(t *testing.T, getenv func(string) string) (own *os.File, isAsItWas func() bool, ended chan error) {
	t.Helper()
	own, theirs, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = own.Close() }) // not theirs: the reader of the keys ends by itself behind Run
	state := func() *term.State {
		s, err := term.GetState(theirs.Fd())
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	before := state()
	home := shelf.Open(t.TempDir())
	ended = make(chan error, 1)
	go func() {
		guard.Try("command", func() { err = Run(Options{Home: home, Getenv: getenv, Input: theirs, Output: theirs}) })
		ended <- err
	}()
	return own, func() bool { return reflect.DeepEqual(state(), before) }, ended
}

// reads reads what a terminal is shown, to its end.
func reads(own *os.File) {
	for buf := make([]byte, 4096); ; {
		if _, err := own.Read(buf); err != nil {
			return
		}
	}
}

// A signal that comes as soon as the terminal is taken, and a panic there, leave it as it was.
func TestEndedBeforeTheFirstFrame(t *testing.T) {
	for what, ends := range map[string]func(){
		"SIGTERM": func() { _ = syscall.Kill(os.Getpid(), syscall.SIGTERM) },
		"a panic": func() { panic("x") },
	} {
		var once sync.Once
		own, isAsItWas, ended := inTerminal(t, func(string) string {
			once.Do(ends)
			return ""
		})
		go reads(own)
		if err := <-ended; err != nil {
			t.Errorf("%s: %v", what, err)
		}
		if !isAsItWas() {
			t.Errorf("%s leaves the terminal as the screens need it", what)
		}
	}
}

// A terminal that goes away ends the program, though no SIGHUP comes.
func TestTerminalThatIsGone(t *testing.T) {
	own, _, ended := inTerminal(t, nil)
	if _, err := own.Read(make([]byte, 1)); err != nil { // the first frame
		t.Fatal(err)
	}
	_ = own.Close()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Error("the program goes on without a terminal")
	}
}
