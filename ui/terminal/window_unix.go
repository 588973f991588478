//go:build unix

package terminal

import (
	"os"
	"os/signal"
	"syscall"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"golang.org/x/sys/unix"
)

// console is nothing here: the state of the input is all.
type console struct{}

func (*console) prepare(_, _ *os.File) error { return nil }
func (*console) restore()                    {}

// unstoppable has no use of the terminal stop the program, though it is not in front.
func unstoppable() { signal.Ignore(syscall.SIGTTIN, syscall.SIGTTOU) }

// inFront tells whether the terminal is this program's and no other's of the same shell.
func (t *Terminal) inFront() bool {
	group, err := unix.IoctlGetInt(int(t.in.Fd()), unix.TIOCGPGRP)
	return err != nil || group == unix.Getpgrp() // an error: no shell has it
}

// on has a signal come in a channel. While it is not looked at, any number of them are one.
func on(s os.Signal) chan os.Signal {
	c := make(chan os.Signal, 1)
	signal.Notify(c, s)
	return c
}

// window watches from now on. What it gives tells of the window's size, and has the program stopped and go on.
func (t *Terminal) window(send func(tea.Msg)) func() {
	sizes, stops, goesOn := on(syscall.SIGWINCH), on(syscall.SIGTSTP), on(syscall.SIGCONT)
	return func() {
		defer signal.Stop(sizes)
		defer signal.Stop(stops)
		defer signal.Stop(goesOn)
		t.remeasure(send)
		for {
			select {
			case <-sizes:
				t.measure(send)
			case <-stops:
				t.stop(os.Getpid(), goesOn)
				t.goOn(send)
			case <-t.stops:
				t.stop(0, goesOn) // with all that the shell has started with it
				t.goOn(send)
			case <-goesOn: // it was stopped without a word: whoever had the terminal since may have changed it
				t.goOn(send)
			case <-t.ended:
				return
			}
		}
	}
}

const (
	orphaned = 300 * time.Millisecond // a stop is waited for that never comes where no shell could have the program go on
	behind   = 100 * time.Millisecond // a signal that ends the program, which went on behind another one
)

// stop gives the terminal back and stops a process, or with 0 the process group. It returns when the program goes on. What stops
// is SIGTTOU: Go never gives SIGTSTP its default back once it was asked for.
func (t *Terminal) stop(process int, goesOn <-chan os.Signal) {
	if t.isEnding() {
		return
	}
	t.hearOut()
	t.giveBack()
	_ = syscall.Kill(process, syscall.SIGTTOU)
	select {
	case <-goesOn:
	case <-t.clock.After(orphaned):
	}
	select {
	case <-t.stops: // pressed more than once
	default:
	}
}

// goOn takes the terminal up. A program that went on behind another one is stopped by that until it comes to the front; unless
// it went on to end.
func (t *Terminal) goOn(send func(tea.Msg)) {
	if !t.inFront() {
		select {
		case <-t.ending:
			return
		case <-t.clock.After(behind):
		}
	}
	t.takeUp(send)
}
