//go:build unix

package terminal

import (
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"reflect"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/term"
	"golang.org/x/sys/unix"
)

// shell starts the program in the terminal as a shell with jobs does. Each time that it is stopped it takes the terminal back, reads
// a letter, and has the program go on: t, it is told to end, in the background; b, it goes on there; f, it has the terminal again.
func shell() {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "TERMINAL_TEST=program")
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, os.Stdout, os.Stderr
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true, Foreground: true}
	if err := cmd.Start(); err != nil {
		panic(err)
	}
	signal.Ignore(syscall.SIGTTOU) // not sooner: the program would ignore it too
	pid := cmd.Process.Pid
	inFront := func(group int) { _ = unix.IoctlSetPointerInt(0, unix.TIOCSPGRP, group) }
	for n := 1; ; n++ {
		var status unix.WaitStatus
		if _, err := unix.Wait4(pid, &status, unix.WUNTRACED, nil); err != nil {
			panic(err)
		}
		inFront(unix.Getpgrp())
		if status.Exited() {
			fmt.Printf("exit %d\r\n", status.ExitStatus())
			return
		}
		fmt.Printf("stop %d\r\n", n)
		line := make([]byte, 80)
		if _, err := os.Stdin.Read(line); err != nil {
			panic(err)
		}
		switch line[0] {
		case 't':
			_ = unix.Kill(-pid, unix.SIGTERM)
		case 'f':
			inFront(pid)
		}
		_ = unix.Kill(-pid, unix.SIGCONT)
	}
}

func startShell(t *testing.T) *child {
	c := startAs(t, "shell", &syscall.SysProcAttr{Setsid: true, Setctty: true})
	c.reads("begun")
	c.types("k")
	c.reads("40×10 k")
	return c
}

// isOver looks at what a program has left once its shell has ended.
func (c *child) isOver() {
	c.Helper()
	if err := c.cmd.Wait(); err != nil {
		c.Fatal(err)
	}
	if left := c.screen.Left(); len(left) > 0 {
		c.Errorf("it leaves %q", left)
	}
	if !reflect.DeepEqual(c.state(), c.before) {
		c.Error("the terminal's state is not as it was")
	}
}

// A program that was put aside ends when it is told to, though it is in the background: setting the terminal would stop it.
func TestToldToEndInTheBackground(t *testing.T) {
	c := startShell(t)
	c.types("\x1a")
	c.reads("stop 1")
	c.types("t\n")
	c.reads("exit 0")
	c.isOver()
}

// In the background it stops again, and leaves the terminal alone.
func TestGoingOnInTheBackground(t *testing.T) {
	c := startShell(t)
	c.types("\x1a\x1a\x1a") // pressed three times, and stopped once
	c.reads("stop 1")
	c.types("b\n")
	c.reads("stop 2")
	if left := c.screen.Left(); len(left) > 0 || !reflect.DeepEqual(c.state(), c.before) {
		t.Errorf("the shell's terminal has %q", left)
	}
	c.types("f\n")
	c.reads("40×10 size")
	c.types("j")
	c.reads("40×10 j")
	c.types("q")
	c.reads("exit 0")
	c.isOver()
}

// What the dyer sets the terminal to meanwhile stays so.
func TestSettingsOfMeanwhile(t *testing.T) {
	c := startShell(t)
	c.types("\x1a")
	c.reads("stop 1")
	c.before.Cc[unix.VERASE]++
	if err := term.Restore(c.theirs.Fd(), c.before); err != nil {
		t.Fatal(err)
	}
	c.types("f\n")
	c.reads("40×10 size")
	c.types("q")
	c.reads("exit 0")
	c.isOver()
}

// ctrl+Z where nothing stops the program, and ctrl+D at once: keys are read on.
func TestEndOfInputWhileTheTerminalIsGivenBack(t *testing.T) {
	c := startChild(t)
	c.types("\x1a")
	for !reflect.DeepEqual(c.state(), c.before) {
		runtime.Gosched()
	}
	c.types("\x04")
	c.reads("size")
	c.types("j")
	c.reads("40×10 j")
	c.ends()
}

// A stop before the answer to the last question waits for it: else it would be typed into the shell.
func TestStoppedBeforeTheAnswer(t *testing.T) {
	started := time.Now()
	c := startAs(t, "shell", &syscall.SysProcAttr{Setsid: true, Setctty: true})
	c.reads("begun")
	c.types("\x1a")
	had := len(c.screen.Left())
	const aMoment = 20 // ms
	if n, _ := unix.Poll([]unix.PollFd{{Fd: int32(c.own.Fd()), Events: unix.POLLIN}}, aMoment); n > 0 {
		buf := make([]byte, 4096)
		n, _ := c.own.Read(buf)
		c.screen.Write(buf[:n])
	}
	if left := len(c.screen.Left()); left < had && time.Since(started) < timely { // on a machine so slow that this is over, nothing is known
		t.Error("it did not wait for the answer")
	}
	c.types("\x1b]11;rgb:0/0/0\x1b\\\x1b[?62c")
	c.reads("stop 1")
	c.types("f\n")
	c.reads("40×10")
	c.types("q")
	c.reads("exit 0")
	c.isOver()
}

// A terminal that was closed and of which no signal tells, as it was not the program's own.
func TestGone(t *testing.T) {
	c := startAs(t, "program", &syscall.SysProcAttr{Setsid: true})
	c.reads("begun")
	_ = c.own.Close()
	_ = c.theirs.Close()
	if err := c.cmd.Wait(); err != nil {
		t.Error(err)
	}
}
