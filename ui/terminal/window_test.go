//go:build unix

package terminal

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/creack/pty"
)

// The terminal is as it was after the end, and the answer to its last question was not typed into the shell.
func TestTheTerminalIsGivenBack(t *testing.T) {
	c := startChild(t)
	if reflect.DeepEqual(c.state(), c.before) {
		t.Error("it is not in raw mode")
	}
	c.types("\x1b]11;rgb:0/0/0\x1b\\\x1b[?62c")
	c.reads("ground")
	c.types("k")
	c.reads("40×10 k")
	if title := c.screen.Title(); title != "Lift\ufffd]2;A1\ufffd" {
		t.Errorf("the window is called %q", title)
	}
	c.ends()
	if title := c.screen.Title(); title != "" {
		t.Errorf("the window is still called %q", title)
	}
}

func TestWindowOfAnotherSize(t *testing.T) {
	c := startChild(t)
	for _, size := range [][2]int{{60, 20}, {20, 4}, {40, 10}} {
		c.screen.Resize(size[0], size[1])
		if err := pty.Setsize(c.own, &pty.Winsize{Cols: uint16(size[0]), Rows: uint16(size[1])}); err != nil {
			t.Fatal(err)
		}
		c.reads(fmt.Sprintf("%d×%d size", size[0], size[1]))
		if rows := strings.Split(c.screen.Text(), "\n"); rows[size[1]-1] != "last row" {
			t.Errorf("%d×%d:\n%s", size[0], size[1], c.screen.Text())
		}
	}
	c.ends()
}

// Stopped without a word, and the terminal changed meanwhile: the program has it again when it goes on. Where no shell could have it
// go on, ctrl+Z and SIGTSTP stop nothing.
func TestStoppedAndGoingOn(t *testing.T) {
	c := startChild(t)
	c.types("k")
	c.reads("40×10 k")
	c.stopsWithoutAWord()
	c.reads("size")
	for _, stop := range []func(){
		func() { c.types("\x1a") },
		func() { _ = c.cmd.Process.Signal(syscall.SIGTSTP) },
	} {
		c.types("k")
		c.reads("40×10 k")
		c.screen.Write([]byte("\x1b[2J"))
		stop()
		c.reads("size")
		c.types("j")
		c.reads("40×10 j")
	}
	c.ends()
}

// A program that was stopped, with a word or without, and is ended behind its shell ends, and gives back what it has set; the state
// of the terminal is the shell's own.
func TestEndedBehindTheShell(t *testing.T) {
	for _, stop := range []string{"\x1a", "z"} {
		c := startAs(t, "shell")
		c.types(stop)
		if c.reads("ended"); !strings.Contains(c.screen.Text(), "ended 0 -1, own true") {
			t.Errorf("%q: the program did not end in order:\n%s", stop, c.screen.Text())
		}
		if left := c.screen.Left(); len(left) > 0 {
			t.Errorf("%q: it leaves %q", stop, left)
		}
	}
}

// However many changes of size wait to be taken, the terminal is taken up by a program that goes on.
func TestGoingOnAmongManySizes(t *testing.T) {
	c := startChild(t)
	c.types("s")
	c.reads("40×10 s")
	c.stopsWithoutAWord()
	c.types("r\n") // the line feed is for a terminal that is not taken up
	c.readsUntil("the alternate screen", func() bool { return slices.Contains(c.screen.Left(), "alternate screen") })
	c.ends()
}
