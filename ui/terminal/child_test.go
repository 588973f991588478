//go:build unix

package terminal

import (
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"reflect"
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
	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/testdata/bench/fairshare"
	_ "example.org/vatside/ui/style/quiet" // before bubbletea starts, which would wait on the terminal
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

// program shows the size and the last key, and ends at q and at SIGTERM. At z it stops without a word. At s many changes of the
// window's size come, and no size is taken any more until r.
func program() {
	t, err := Open(os.Stdin, os.Stdout, real{})
	if err != nil {
		panic(err)
	}
	show := func(what string) {
		w, h := t.Size()
		lines := make([]string, h)
		lines[0], lines[h-1] = fmt.Sprintf("%d×%d %s", w, h, what), "last row"
		t.Paint(lines, w, h)
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
			case "z":
				_ = syscall.Kill(os.Getpid(), syscall.SIGSTOP)
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
	tostop := exec.Command("stty", "tostop") // what writes behind it is stopped
	tostop.Stdin = os.Stdin
	if err := tostop.Run(); err != nil {
		panic(err)
	}
	own, err := term.GetState(0)
	if err != nil {
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
		now, err := term.GetState(0)
		fmt.Printf("ended %d %d, own %v\r\n", s.ExitStatus(), s.Signal(), err == nil && reflect.DeepEqual(now, own))
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
	fairshare.Give()
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
