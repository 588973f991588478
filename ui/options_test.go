//go:build unix

package ui

import (
	"context"
	"os"
	"reflect"
	"sync"
	"syscall"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"

	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/terminal"
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

// What takes the processors is told of the frame with the whole home once that is written: not of the first one, nor of one before the
// engine has the day, and not twice.
func TestTheFrameWithTheWholeHome(t *testing.T) {
	own, theirs, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = own.Close() })
	tty, err := terminal.Open(theirs, theirs, engine.Machine{})
	if err != nil {
		t.Fatal(err)
	}
	defer tty.Close()
	go reads(own)
	if err := tty.Start(func(tea.Msg) {}); err != nil {
		t.Fatal(err)
	}
	m := starting(t, homeWith(t, map[string]string{"garden-bin/2026-05-09": played(t, "days/soda-bin", 40)}))
	go m.effects.readHome()
	m, next := m.begun(context.Background())
	m.width, m.height = tty.Size()
	told := make(chan bool, 8)
	p := onTerminal{guarded: guarded{m}, tty: tty, shown: func() { told <- true }}
	shows := func(msg tea.Msg) {
		if msg != nil {
			next, _ := p.Update(msg)
			p = next.(onTerminal)
		}
		p.View()
	}
	written := func() { // waits for the frame
		done := make(chan bool)
		tty.Behind(func() { close(done) })
		<-done
	}
	for _, msg := range []tea.Msg{nil, next()} {
		shows(msg)
		if written(); len(told) > 0 {
			t.Fatalf("behind %T it is told of the whole home", msg)
		}
	}
	snap, err := m.effects.eng.Now(m.effects.ctx)
	if err != nil {
		t.Fatal(err)
	}
	shows(snapshotMsg(snap))
	<-told
	shows(snapshotMsg(snap))
	if written(); len(told) > 0 {
		t.Error("it is told twice")
	}
}
