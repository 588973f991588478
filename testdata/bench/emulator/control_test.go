package emulator_test

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"example.org/vatside/testdata/bench/emulator"
)

// tmux is a window of tmux, without a terminal around it, that shows what is written into a pipe.
type tmux struct {
	pipe   *os.File
	ask    io.Writer
	answer *bufio.Reader
	shown  int           // outputs
	look   emulator.Look // at the end of the last line
}

// startTmux starts a server of its own, which ends with the test. Without tmux the test is skipped.
func startTmux(t *testing.T) *tmux {
	t.Helper()
	if _, err := exec.LookPath("tmux"); err != nil {
		t.Skip("no tmux to compare with")
	}
	dir := t.TempDir()
	fifo := filepath.Join(dir, "out")
	if err := syscall.Mkfifo(fifo, 0o600); err != nil {
		t.Fatal(err)
	}
	pipe, err := os.OpenFile(fifo, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	run := func(args ...string) *exec.Cmd {
		cmd := exec.Command("tmux", append([]string{"-u", "-S", filepath.Join(dir, "s"), "-f", os.DevNull}, args...)...)
		cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8", "TMUX=")
		return cmd
	}
	start := run("new-session", "-d", "-x", fmt.Sprint(cols), "-y", fmt.Sprint(rows), "stty raw -echo; exec cat '"+fifo+"'", ";",
		"set", "-g", "status", "off", ";", "set", "-g", "window-size", "manual")
	if text, err := start.CombinedOutput(); err != nil {
		t.Skipf("tmux does not start: %v: %s", err, text)
	}
	t.Cleanup(func() {
		_ = run("kill-server").Run()
		_ = pipe.Close()
	})
	control := run("-C", "attach", "-f", "no-output")
	ask, err := control.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	answer, err := control.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := control.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = ask.Close()
		_ = control.Wait() // how it ends does not matter
	})
	tm := &tmux{pipe: pipe, ask: ask, answer: bufio.NewReader(answer)}
	tm.block(t) // of attaching
	return tm
}

// block is the answer to the command that was sent first of those not answered.
func (tm *tmux) block(t *testing.T) (lines []string) {
	t.Helper()
	in := false
	for {
		line, err := tm.answer.ReadString('\n')
		if err != nil {
			t.Fatalf("tmux ended: %v", err)
		}
		line = strings.TrimSuffix(line, "\n")
		switch {
		case !in && strings.HasPrefix(line, "%begin "):
			in = true
		case in && strings.HasPrefix(line, "%end "):
			return lines
		case in && strings.HasPrefix(line, "%error "):
			t.Fatalf("tmux: %q", lines)
		case in:
			lines = append(lines, line)
		}
	}
}

// show clears the window, writes an output and gives the lines that are seen, with their looks, and the place of the cursor.
func (tm *tmux) show(t *testing.T, out string) (lines []string, x, y int) {
	t.Helper()
	tm.shown++
	title := fmt.Sprintf("shown-%d", tm.shown)
	if _, err := fmt.Fprintf(tm.pipe, "\x1bc%s\x1b]2;%s\x07", out, title); err != nil {
		t.Fatal(err)
	}
	for { // the title tells that all of it was read
		if _, err := io.WriteString(tm.ask, "display-message -p '#{pane_title} #{cursor_x} #{cursor_y}'\ncapture-pane -e -p -N\n"); err != nil {
			t.Fatal(err)
		}
		state := tm.block(t)
		lines = tm.block(t)
		var got string
		if n, err := fmt.Sscan(strings.Join(state, ""), &got, &x, &y); n != 3 {
			t.Fatalf("tmux tells %q: %v", state, err)
		}
		if got == title {
			tm.look = emulator.Look{}
			return lines, x, y
		}
	}
}
