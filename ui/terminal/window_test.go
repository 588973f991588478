//go:build unix

package terminal

import (
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"reflect"
	"slices"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"
	"golang.org/x/sys/unix"

	"example.org/vatside/model/wording"
	_ "example.org/vatside/ui/style/quiet" // before bubbletea starts, which would wait on the terminal
	"example.org/vatside/ui/terminal/emulator"
)

// real is the machine's clock.
type real struct{}

func (real) Mono() time.Duration                    { return time.Since(began) }
func (real) After(d time.Duration) <-chan time.Time { return time.After(d) }

var began = time.Now()

// TestMain is, where a test asks for it, the program in the terminal, or the shell that has it.
func TestMain(m *testing.M) {
	switch os.Getenv("TERMINAL_TEST") {
	case "":
		os.Exit(m.Run())
	case "shell":
		shell()
	default:
		program()
	}
	os.Exit(0)
}

// program shows the size and the last key, and ends at q and at SIGTERM. At s many changes of the window's size come, and no size
// is taken any more until r.
func program() {
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
	quit, release := make(chan struct{}), make(chan struct{})
	var stuck atomic.Bool
	if err := t.Start(func(msg tea.Msg) {
		switch msg := msg.(type) {
		case tea.KeyMsg:
			switch msg.String() {
			case "q":
				close(quit)
				return
			case "s":
				stuck.Store(true)
				sizes := on(syscall.SIGWINCH)
				for range 20 {
					_ = syscall.Kill(os.Getpid(), syscall.SIGWINCH)
					<-sizes
				}
			case "r":
				close(release)
			}
			show(msg.String())
		case tea.WindowSizeMsg:
			if stuck.Load() {
				<-release
			}
			show("size")
		case Ground:
			show("ground")
		}
	}); err != nil {
		panic(err)
	}
	t.AskGround()
	select {
	case <-quit:
	case <-on(syscall.SIGTERM):
	}
	t.Close()
}

// shell starts the program in front. When that is stopped it has the terminal itself, ends the program behind it as shells do, and
// says what became of it.
func shell() {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "TERMINAL_TEST=1")
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, os.Stdout, os.Stderr
	cmd.SysProcAttr = &syscall.SysProcAttr{Foreground: true}
	if err := cmd.Start(); err != nil {
		panic(err)
	}
	pid := cmd.Process.Pid
	became := func() syscall.WaitStatus {
		var s syscall.WaitStatus
		if _, err := syscall.Wait4(pid, &s, syscall.WUNTRACED, nil); err != nil {
			panic(err)
		}
		return s
	}
	stopped := became()
	signal.Ignore(syscall.SIGTTOU)
	if err := unix.IoctlSetPointerInt(0, unix.TIOCSPGRP, unix.Getpgrp()); err != nil {
		panic(err)
	}
	fmt.Printf("stopped %v\r\n", stopped.Stopped())
	_ = syscall.Kill(-pid, syscall.SIGTERM)
	_ = syscall.Kill(-pid, syscall.SIGCONT)
	for s := became(); ; s = became() {
		if s.Stopped() {
			fmt.Print("stopped again\r\n")
			_ = syscall.Kill(pid, syscall.SIGKILL)
			continue
		}
		fmt.Printf("ended %d %d\r\n", s.ExitStatus(), s.Signal())
		return
	}
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

func startChild(t *testing.T) *child { return startAs(t, "1") }

// startAs starts what TestMain knows by that name.
func startAs(t *testing.T, what string) *child {
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
	c.cmd.Env = append(os.Environ(), "TERMINAL_TEST="+what)
	c.cmd.Stdin, c.cmd.Stdout, c.cmd.Stderr = theirs, theirs, theirs
	c.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	if err := c.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	limit := time.AfterFunc(10*time.Second, func() { _, _ = theirs.WriteString(tooLong) }) // else a test that fails would wait for ever
	t.Cleanup(func() { limit.Stop() })
	c.reads("begun")
	return c
}

// reads reads until the screen shows a text.
func (c *child) reads(want string) {
	c.Helper()
	c.readsUntil(fmt.Sprintf("%q", want), func() bool { return strings.Contains(c.screen.Text(), want) })
}

func (c *child) readsUntil(what string, shown func() bool) {
	c.Helper()
	buf := make([]byte, 4096)
	for !shown() {
		n, err := c.own.Read(buf)
		c.screen.Write(buf[:n])
		if err != nil || strings.Contains(c.screen.Text(), tooLong) {
			c.Fatalf("%s is never shown: %v\n%s", what, err, c.screen.Text())
		}
	}
}

// stopsWithoutAWord stops the program, changes the terminal meanwhile, and has it go on.
func (c *child) stopsWithoutAWord() {
	c.Helper()
	if err := c.cmd.Process.Signal(syscall.SIGSTOP); err != nil {
		c.Fatal(err)
	}
	if err := term.Restore(c.theirs.Fd(), c.before); err != nil {
		c.Fatal(err)
	}
	c.screen = emulator.New(40, 10)
	if err := c.cmd.Process.Signal(syscall.SIGCONT); err != nil {
		c.Fatal(err)
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

// A program that was stopped and is ended behind its shell ends, and leaves the terminal to the shell.
func TestEndedBehindTheShell(t *testing.T) {
	c := startAs(t, "shell")
	c.types("\x1a")
	c.reads("stopped true")
	c.reads("ended")
	if text := c.screen.Text(); !strings.Contains(text, "ended 0 -1") {
		t.Errorf("the program did not end in order:\n%s", text)
	}
	if !reflect.DeepEqual(c.state(), c.before) {
		t.Error("the terminal's state is not as it was")
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

// hasty is a clock on which every wait is over at once.
type hasty struct{ real }

func (hasty) After(time.Duration) <-chan time.Time {
	over := make(chan time.Time)
	close(over)
	return over
}

// On a terminal that reads nothing for as long as the program is stopped, the modes are given back before they are taken again.
func TestStoppedWhileTheTerminalReadsNothing(t *testing.T) {
	for range 20 { // with a goroutine for each it may go well by chance
		stoppedOnAFullTerminal(t)
	}
}

func stoppedOnAFullTerminal(t *testing.T) {
	own, theirs, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer own.Close()
	defer theirs.Close()
	term, err := Open(theirs, theirs, hasty{})
	if err != nil {
		t.Fatal(err)
	}
	term.cols, term.rows = 200, 200
	term.Paint(strings.Repeat(strings.Repeat("0", 200)+"\n", 200), 200, 200) // more than a pty holds
	if err := term.Start(func(tea.Msg) {}); err != nil {
		t.Fatal(err)
	}
	defer term.cancel()
	defer close(term.ended) // what Close has stopped no more cannot be stopped again (os/signal.Reset), nor can what it starts
	text := make([]byte, 1)
	if _, err := own.Read(text); err != nil { // its painter is writing
		t.Fatal(err)
	}
	term.giveBack()
	term.takeUp(func(tea.Msg) {})
	limit := time.AfterFunc(10*time.Second, func() { _ = own.Close() })
	defer limit.Stop()
	for buf := make([]byte, 4096); strings.Count(string(text), enter) < 2 || !strings.Contains(string(text), leave); {
		n, err := own.Read(buf)
		if err != nil {
			t.Fatalf("%v after %d bytes", err, len(text))
		}
		text = append(text, buf[:n]...)
	}
	if strings.LastIndex(string(text), enter) < strings.Index(string(text), leave) {
		t.Fatal("the modes are given back behind the frame that needs them")
	}
}
