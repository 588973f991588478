//go:build unix

package ui

import (
	"io"
	"os"
	"os/exec"
	"reflect"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"

	"example.org/vatside/ui/shelf"
)

// programHome names a home: then TestProgram is the program there.
const programHome = "UI_TEST_HOME"

func TestProgram(t *testing.T) {
	dir := os.Getenv(programHome)
	if dir == "" {
		t.Skip("a part of TestEndOnceTheTerminalIsChanged")
	}
	if err := Run(Options{Home: shelf.Open(dir), Getenv: os.Getenv, Input: os.Stdin, Output: os.Stdout}); err != nil {
		t.Error(err)
	}
}

// A signal that comes as soon as the terminal is changed ends a program that gives it back.
func TestEndOnceTheTerminalIsChanged(t *testing.T) {
	own, theirs, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer own.Close()
	defer theirs.Close()
	go io.Copy(io.Discard, own)
	state := func() *term.State {
		s, err := term.GetState(theirs.Fd())
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	before := state()
	for range 10 { // the time in which it did not was a few milliseconds
		cmd := exec.Command(os.Args[0], "-test.run=^TestProgram$")
		cmd.Env = append(os.Environ(), programHome+"="+t.TempDir(), "XDG_STATE_HOME="+t.TempDir(), "TERM=xterm")
		cmd.Stdin, cmd.Stdout = theirs, theirs
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		limit := time.AfterFunc(10*time.Second, func() { _ = cmd.Process.Kill() })
		for reflect.DeepEqual(state(), before) && syscall.Kill(cmd.Process.Pid, 0) == nil {
			runtime.Gosched()
		}
		_ = cmd.Process.Signal(syscall.SIGTERM)
		err := cmd.Wait()
		limit.Stop()
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(state(), before) {
			t.Fatal("the terminal's state is not as it was")
		}
	}
}
