//go:build unix

package terminal

import (
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"reflect"
	"strings"
	"syscall"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"

	"example.org/vatside/model/wording"
	_ "example.org/vatside/ui/style/quiet" // before bubbletea starts, which would wait on the terminal
	"example.org/vatside/ui/terminal/emulator"
)

// real is the machine's clock.
type real struct{}

func (real) Mono() time.Duration                    { return time.Since(began) }
func (real) After(d time.Duration) <-chan time.Time { return time.After(d) }

var began = time.Now()

// TestMain is, where a test asks for it, the program in the terminal: it shows the size and the last key, and ends at q.
func TestMain(m *testing.M) {
	switch os.Getenv("TERMINAL_TEST") {
	case "":
		os.Exit(m.Run())
	case "shell":
		shell()
		os.Exit(0)
	}
	t, err := Open(os.Stdin, os.Stdout, real{})
	if err != nil {
		panic(err)
	}
	show := func(what string) {
		w, h := t.Size()
		lines := make([]string, h)
		lines[0], lines[h-1] = fmt.Sprintf("%d×%d %s", w, h, what), "last row"
		t.Paint(strings.Join(lines, "\n"), w, h)
	}
	show("begun")
	t.Title(wording.Show("Lift\x1b]2;A1\a"))
	quit := make(chan struct{})
	if err := t.Start(func(msg tea.Msg) {
		switch msg := msg.(type) {
		case tea.KeyMsg:
			if msg.String() == "q" {
				close(quit)
				return
			}
			show(msg.String())
		case tea.WindowSizeMsg:
			show("size")
		case Ground:
			show("ground")
		}
	}); err != nil {
		panic(err)
	}
	t.AskGround()
	ended := make(chan os.Signal, 1)
	signal.Notify(ended, syscall.SIGTERM)
	select {
	case <-quit:
	case <-ended:
	case <-t.Gone():
	}
	t.Close()
	os.Exit(0)
}

// child is that program, with our end of its terminal.
type child struct {
	*testing.T
	cmd         *exec.Cmd
	own, theirs *os.File
	before      *term.State
	screen      *emulator.Screen
}

// tooLong is written into the terminal of a program that does not show what it should.
const tooLong = "too long"

func startChild(t *testing.T) *child {
	c := startAs(t, "program", &syscall.SysProcAttr{Setsid: true, Setctty: true})
	c.reads("begun")
	return c
}

// startAs starts what TestMain is under a name.
func startAs(t *testing.T, name string, how *syscall.SysProcAttr) *child {
	own, theirs, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	c := &child{T: t, cmd: exec.Command(os.Args[0]), own: own, theirs: theirs, screen: emulator.New(40, 10)}
	t.Cleanup(func() {
		_ = c.cmd.Process.Kill()
		_ = c.cmd.Wait()
		_ = own.Close()
		_ = theirs.Close()
	})
	if err := pty.Setsize(own, &pty.Winsize{Cols: 40, Rows: 10}); err != nil {
		t.Fatal(err)
	}
	if c.before, err = term.GetState(theirs.Fd()); err != nil {
		t.Fatal(err)
	}
	c.cmd.Env = append(os.Environ(), "TERMINAL_TEST="+name)
	c.cmd.Stdin, c.cmd.Stdout, c.cmd.Stderr = theirs, theirs, theirs
	c.cmd.SysProcAttr = how
	if err := c.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	limit := time.AfterFunc(10*time.Second, func() { _, _ = theirs.WriteString(tooLong) }) // else a test that fails would wait for ever
	t.Cleanup(func() { limit.Stop() })
	return c
}

// reads reads until the screen shows a text.
func (c *child) reads(want string) {
	c.Helper()
	buf := make([]byte, 4096)
	for !strings.Contains(c.screen.Text(), want) {
		n, err := c.own.Read(buf)
		c.screen.Write(buf[:n])
		if err != nil || strings.Contains(string(buf[:n]), tooLong) {
			c.Fatalf("%q is never shown: %v\n%s", want, err, c.screen.Text())
		}
	}
}

func (c *child) types(keys string) {
	if _, err := c.own.WriteString(keys); err != nil {
		c.Fatal(err)
	}
}

func (c *child) state() *term.State {
	s, err := term.GetState(c.theirs.Fd())
	if err != nil {
		c.Fatal(err)
	}
	return s
}

// ends types q and looks at what is left in the terminal.
func (c *child) ends() {
	c.Helper()
	c.types("q")
	if err := c.cmd.Wait(); err != nil {
		c.Fatal(err)
	}
	c.types("!") // to know when all was read: the terminal echoes it, as it did before
	c.reads("!")
	if left := c.screen.Left(); len(left) > 0 {
		c.Errorf("it leaves %q", left)
	}
	if !reflect.DeepEqual(c.state(), c.before) {
		c.Error("the terminal's state is not as it was")
	}
}

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
	if err := c.cmd.Process.Signal(syscall.SIGSTOP); err != nil {
		t.Fatal(err)
	}
	if err := term.Restore(c.theirs.Fd(), c.before); err != nil {
		t.Fatal(err)
	}
	c.screen = emulator.New(40, 10)
	if err := c.cmd.Process.Signal(syscall.SIGCONT); err != nil {
		t.Fatal(err)
	}
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

// ctrl+L sets right what another program has written or set.
func TestRepaint(t *testing.T) {
	c := startChild(t)
	was := c.screen.Left()
	c.screen.Write([]byte("\x1b[2J\x1b[?1000l\x1b[?25h\x1b[?1049l"))
	c.types("\x0c")
	c.reads("last row")
	if now := c.screen.Left(); !reflect.DeepEqual(now, was) {
		t.Errorf("the terminal has %q, not %q", now, was)
	}
	c.ends()
}

// An end right after the terminal was taken up again, before anything is painted, gives it back all the same.
func TestAnEndBeforeTheNextFrame(t *testing.T) {
	own, theirs, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer own.Close()
	defer theirs.Close()
	tty, err := Open(theirs, theirs, real{})
	if err != nil {
		t.Fatal(err)
	}
	w, h := tty.Size()
	tty.Paint("begun", w, h)
	out := string(tty.next())
	tty.takeUp(func(tea.Msg) {})
	tty.Close()
	const end = "the end"
	if _, err := theirs.WriteString(end); err != nil {
		t.Fatal(err)
	}
	for buf := make([]byte, 4096); !strings.Contains(out, end); {
		n, err := own.Read(buf)
		if err != nil {
			t.Fatal(err)
		}
		out += string(buf[:n])
	}
	screen := emulator.New(w, h)
	screen.Write([]byte(out))
	if left := screen.Left(); len(left) > 0 {
		t.Errorf("it leaves %q", left)
	}
}
