package terminal

import (
	"os"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"golang.org/x/sys/windows"
)

// console is the output's mode, as it was: it has to be told to obey control sequences.
type console struct {
	out  windows.Handle
	was  uint32
	kept bool
}

func (c *console) prepare(_, out *os.File) error {
	h := windows.Handle(out.Fd())
	var mode uint32
	if err := windows.GetConsoleMode(h, &mode); err != nil {
		return err
	}
	if !c.kept {
		c.out, c.was, c.kept = h, mode, true
	}
	return windows.SetConsoleMode(h, mode|windows.ENABLE_PROCESSED_OUTPUT|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING)
}

func (c *console) restore() {
	if c.kept {
		_ = windows.SetConsoleMode(c.out, c.was)
	}
}

// front tells whether the program has the terminal: always.
func (*Terminal) front() bool { return true }

// sizeEvery is how often the window's size is looked at: Windows sends no signal.
const sizeEvery = 500 * time.Millisecond

// window gives what tells of the window's size. Nothing stops a program here.
func (t *Terminal) window(send func(tea.Msg)) func() {
	return func() {
		t.remeasure(send)
		for {
			select {
			case <-t.stops:
			case <-t.clock.After(sizeEvery):
				t.remeasure(send)
			case <-t.ended:
				return
			}
		}
	}
}
