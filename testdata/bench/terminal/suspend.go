package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"time"

	"golang.org/x/sys/unix"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/words"
)

const (
	suspend = "\x1a" // ctrl+Z
	prompt  = "ready>"
)

// suspends are the ways to put the program aside under a shell with jobs, and where nothing can.
func suspends() []edge {
	return []edge{
		{group: "suspend", name: "ctrl+Z and fg, three times, in sh", brief: true, alone: true, does: func(t *try) { t.suspend([]string{"sh", "-i"}, false) }},
		{group: "suspend", name: "SIGTSTP and fg, three times, in sh", alone: true, does: func(t *try) { t.suspend([]string{"sh", "-i"}, true) }},
		{group: "suspend", name: "ctrl+Z and fg, three times, in bash", alone: true, does: func(t *try) {
			t.suspend([]string{"bash", "--norc", "--noprofile", "--noediting", "-i"}, false)
		}},
		{group: "suspend", name: "ctrl+Z, an end by SIGTERM while it is aside, in sh", does: func(t *try) { t.endedAside() }},
		{group: "suspend", name: "ctrl+Z where nothing can stop it", brief: true, does: func(t *try) { t.orphan(false) }},
		{group: "suspend", name: "SIGTSTP where nothing can stop it", does: func(t *try) { t.orphan(true) }},
	}
}

// atShell starts the program from a shell in the terminal and opens the day. pid is the program's.
func (t *try) atShell(shell []string) (s *seat, pid int, ok bool) {
	if _, err := exec.LookPath(shell[0]); err != nil {
		t.without = "there is no " + shell[0]
		return nil, 0, false
	}
	h := t.home(words.Dipping)
	cmd := h.command(shell[0], shell[1:]...)
	cmd.Env = append(cmd.Env, "PS1="+prompt+" ")
	s = h.sitAt(cmd, manner)
	if !s.shows(patience, prompt) {
		t.bad("%s shows no prompt: %s", shell[0], firstLine(s.Text()))
		return s, 0, false
	}
	s.Type(t.program + "\n")
	if !s.day() {
		t.bad("the day did not open: %s", firstLine(s.Text()))
		return s, 0, false
	}
	shellPid := s.Cmd.Process.Pid
	children := apart.Got(os.ReadFile(fmt.Sprintf("/proc/%d/task/%d/children", shellPid, shellPid)))
	return s, apart.Got(strconv.Atoi(strings.Fields(string(children) + " 0")[0])), true
}

// away ends the program that a shell started, and the shell.
func away(s *seat, pid int) {
	if s == nil {
		return
	}
	if dir, err := os.Readlink(filepath.Join("/proc", strconv.Itoa(pid), "cwd")); pid > 1 && err == nil && dir == s.h.state {
		_ = syscall.Kill(pid, syscall.SIGKILL)
	}
	s.Kill()
}

// prompts waits until the shell's prompt is the last on its screen.
func (s *seat) prompts() bool {
	return s.Await(mostEnd, func() bool { return strings.HasSuffix(strings.TrimSpace(s.Text()), prompt) })
}

// mostBack is how soon the whole screen is there again.
const mostBack = 100 * time.Millisecond

func (t *try) suspend(shell []string, bySignal bool) {
	s, pid, ok := t.atShell(shell)
	defer func() { away(s, pid) }()
	if !ok {
		return
	}
	times := wording.Either(t.short, 2, 3)
	for range times {
		was, left, at := masked(s.Text()), countdown(s.Text()), time.Now()
		if bySignal {
			apart.Must(syscall.Kill(pid, unix.SIGTSTP))
		} else {
			s.Type(suspend)
		}
		if !s.prompts() {
			t.bad("no prompt came: %s", firstLine(s.Text()))
			return
		}
		t.remains(s)
		time.Sleep(300 * time.Millisecond)
		begun := time.Now()
		s.Type("fg\n")
		back := s.Await(time.Second, func() bool { return masked(s.Text()) == was })
		switch took := time.Since(begun); {
		case !back:
			t.bad("after fg the screen is not there again: %s", differs(masked(s.Text()), was))
			return
		case took > mostBack:
			t.bad("after fg the screen was whole after %d ms", took.Milliseconds())
		default:
			t.say("whole %d ms after fg", took.Milliseconds())
		}
		time.Sleep(50 * time.Millisecond)
		ran := time.Since(at)
		if now := countdown(s.Text()); left == 0 || now == 0 {
			t.bad("no countdown is shown")
		} else if off := left - now - ran; off.Abs() > 1100*time.Millisecond {
			t.bad("the countdown went from %v to %v in %v", left, now, ran.Round(100*time.Millisecond))
		}
	}
	if !t.answers(s) {
		t.bad("it takes no keys any more")
	}
	s.Type("q")
	if s.shows(mostEnd, words.Question) {
		s.Type("q")
	}
	if !s.prompts() {
		t.bad("q did not end it: %s", firstLine(s.Text()))
	}
	t.remains(s)
}

// airs is the first of the times under the cloths.
var airs = regexp.MustCompile(words.Times)

func countdown(text string) time.Duration {
	m := airs.FindStringSubmatch(text)
	if m == nil {
		return 0
	}
	d, _ := time.ParseDuration(m[1] + "m" + m[2] + "s")
	return d
}

// endedAside ends the program while it is put aside: when it is woken it goes, and the shell has its terminal.
func (t *try) endedAside() {
	s, pid, ok := t.atShell([]string{"sh", "-i"})
	defer func() { away(s, pid) }()
	if !ok {
		return
	}
	s.Type(suspend)
	if !s.prompts() {
		t.bad("no prompt came: %s", firstLine(s.Text()))
		return
	}
	apart.Must(syscall.Kill(pid, unix.SIGTERM))
	s.Type("fg\n")
	gone := s.Await(mostEnd, func() bool {
		_, err := os.Stat(filepath.Join("/proc", strconv.Itoa(pid)))
		return err != nil
	})
	if !gone {
		t.bad("it did not end within %v of fg", mostEnd)
	} else if !s.prompts() {
		t.bad("no prompt came after its end")
	}
	t.remains(s)
}

// orphan tries to suspend a program that no shell could wake: it goes on within a second.
func (t *try) orphan(bySignal bool) {
	s := t.home(words.Dipping).sit()
	defer s.Kill()
	if !t.opens(s) {
		return
	}
	was := masked(s.Text())
	if bySignal {
		apart.Must(s.Cmd.Process.Signal(unix.SIGTSTP))
	} else {
		s.Type(suspend)
	}
	begun := time.Now()
	time.Sleep(100 * time.Millisecond) // it has put the screen aside, if it does
	if !s.Await(time.Second-time.Since(begun), func() bool { return masked(s.Text()) == was }) {
		t.bad("the screen is not there after a second: %s", differs(masked(s.Text()), was))
	}
	if !t.answers(s) {
		t.bad("it takes no keys any more")
	}
	t.leave(s, mostEnd)
}
