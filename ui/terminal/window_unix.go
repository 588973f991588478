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

// front tells whether the program has the terminal, and not a shell that has put it into the background.
func (t *Terminal) front() bool {
	group, err := unix.IoctlGetInt(int(t.in.Fd()), unix.TIOCGPGRP)
	return err != nil || group == unix.Getpgrp() // without an answer there are no jobs in this terminal
}

// window watches from now on. What it gives tells of the window's size, and has the program stopped and go on.
func (t *Terminal) window(send func(tea.Msg)) func() {
	signals := make(chan os.Signal, 8)
	signal.Notify(signals, syscall.SIGWINCH, syscall.SIGTSTP, syscall.SIGCONT)
	signal.Ignore(syscall.SIGTTIN) // to read in the background fails: it must not stop what was told to end
	return func() {
		defer signal.Stop(signals)
		t.remeasure(send)
		for {
			select {
			case s := <-signals:
				switch s {
				case syscall.SIGWINCH:
					t.measure(send)
				case syscall.SIGTSTP:
					t.stop(os.Getpid(), signals)
					t.takeUp(send)
				case syscall.SIGCONT: // it was stopped without a word: whoever had the terminal since may have changed it
					if !t.front() {
						t.hold()
						t.sleep(0, signals)
					}
					t.takeUp(send)
				}
			case <-t.stops:
				t.stop(0, signals) // with all that the shell has started with it
				t.takeUp(send)
			case <-t.ended:
				return
			}
		}
	}
}

// stop gives the terminal back and stops a process, or with 0 the process group. It returns when the program goes on.
func (t *Terminal) stop(process int, signals <-chan os.Signal) {
	t.hearOut()
	t.giveBack()
	t.sleep(process, signals)
	select {
	case <-t.stops: // pressed more than once
	default:
	}
}

// orphaned is how long a stop is waited for that never comes where no shell could have the program go on, and how long it may go on in
// the background.
const orphaned = 300 * time.Millisecond

// sleep stops a process, or with 0 the process group, until it goes on and has the terminal. Where it goes on in the background, what
// was told to end has a moment for that, then it is stopped again. What stops is SIGTTOU: Go never gives SIGTSTP its default back
// once it was asked for.
func (t *Terminal) sleep(process int, signals <-chan os.Signal) {
	for {
		_ = syscall.Kill(process, syscall.SIGTTOU)
		t.goesOn(signals, func() bool { return true })
		if t.front() || !t.goesOn(signals, t.front) || t.front() {
			return
		}
	}
}

// goesOn waits for the program to be told to go on while something holds, no longer than orphaned; false: it ends.
func (t *Terminal) goesOn(signals <-chan os.Signal, holds func() bool) bool {
	over := t.clock.After(orphaned)
	for {
		select {
		case s := <-signals:
			if s == syscall.SIGCONT && holds() {
				return true
			}
		case <-over:
			return true
		case <-t.ended:
			return false
		}
	}
}
