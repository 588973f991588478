//go:build unix

package terminal

import (
	"os"
	"os/signal"
	"syscall"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// console is nothing here: the state of the input is all.
type console struct{}

func (*console) prepare(_, _ *os.File) error { return nil }
func (*console) restore()                    {}

// window watches from now on. What it gives tells of the window's size, and has the program stopped and go on.
func (t *Terminal) window(send func(tea.Msg)) func() {
	signals := make(chan os.Signal, 8)
	signal.Notify(signals, syscall.SIGWINCH, syscall.SIGTSTP, syscall.SIGCONT)
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

// orphaned is how long a stop is waited for that never comes where no shell could have the program go on.
const orphaned = 300 * time.Millisecond

// stop gives the terminal back and stops a process, or with 0 the process group. It returns when the program goes on. What stops
// is SIGTTOU: Go never gives SIGTSTP its default back once it was asked for.
func (t *Terminal) stop(process int, signals <-chan os.Signal) {
	t.giveBack()
	_ = syscall.Kill(process, syscall.SIGTTOU)
	over := t.clock.After(orphaned)
	for {
		select {
		case s := <-signals:
			if s == syscall.SIGCONT {
				return
			}
		case <-over:
			return
		}
	}
}
