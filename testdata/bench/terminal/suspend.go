package main

import (
	"fmt"
	"os"
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
	sh, bash := []string{"sh", "-i"}, []string{"bash", "--norc", "--noprofile", "--noediting", "-i"}
	return []edge{
		{group: "suspend", name: "ctrl+Z and fg, three times, in sh", brief: true, alone: true, does: func(t *try) { t.atShell(sh, t.suspended) }},
		{group: "suspend", name: "SIGTSTP and fg, three times, in sh", alone: true, does: func(t *try) { t.atShell(sh, t.signalled) }},
		{group: "suspend", name: "ctrl+Z and fg, three times, in bash", alone: true, does: func(t *try) { t.atShell(bash, t.suspended) }},
		{group: "suspend", name: "ctrl+Z, an end by SIGTERM while it is aside, in sh", does: func(t *try) { t.atShell(sh, t.endedAside) }},
		{group: "suspend", name: "ctrl+Z where nothing can stop it", brief: true, does: func(t *try) { t.orphan(false) }},
		{group: "suspend", name: "SIGTSTP where nothing can stop it", does: func(t *try) { t.orphan(true) }},
	}
}

// atShell starts the program from a shell in the terminal, opens the day, and ends both at the end. pid is the program's.
func (t *try) atShell(shell []string, do func(s *seat, pid int)) {
	t.needs(shell[0])
	h := t.home(words.Dipping)
	cmd := h.command(shell[0], shell[1:]...)
	cmd.Env = append(cmd.Env, "PS1="+prompt+" ")
	s := h.sitAt(cmd, manner)
	pid := 0
	defer func() { away(s, pid) }()
	t.must(s.shows(patience, prompt), "%s shows no prompt: %s", shell[0], firstLine(s.Text()))
	s.Type(t.program + "\n")
	t.opens(s)
	shellPid := s.Cmd.Process.Pid
	children := apart.Got(os.ReadFile(fmt.Sprintf("/proc/%d/task/%d/children", shellPid, shellPid)))
	pid = apart.Got(strconv.Atoi(strings.Fields(string(children) + " 0")[0]))
	do(s, pid)
}

// away ends the program that a shell started, and the shell.
func away(s *seat, pid int) {
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

func (t *try) suspended(s *seat, pid int) { t.suspend(s, pid, false) }
func (t *try) signalled(s *seat, pid int) { t.suspend(s, pid, true) }

func (t *try) suspend(s *seat, pid int, bySignal bool) {
	for range wording.Either(t.short, 2, 3) {
		was, left, at := masked(s.Text()), countdown(s.Text()), time.Now()
		if bySignal {
			apart.Must(syscall.Kill(pid, unix.SIGTSTP))
		} else {
			s.Type(suspend)
		}
		t.must(s.prompts(), "no prompt came: %s", firstLine(s.Text()))
		t.remains(s)
		time.Sleep(300 * time.Millisecond)
		begun := time.Now()
		s.Type("fg\n")
		back := s.Await(time.Second, func() bool { return masked(s.Text()) == was })
		took := time.Since(begun)
		t.must(back, "after fg the screen is not there again: %s", differs(masked(s.Text()), was))
		if t.say("whole %d ms after fg", took.Milliseconds()); took > mostBack {
			t.bad("after fg the screen was whole after %d ms", took.Milliseconds())
		}
		time.Sleep(50 * time.Millisecond)
		ran := time.Since(at)
		if now := countdown(s.Text()); left == 0 || now == 0 {
			t.bad("no countdown is shown")
		} else if off := left - now - ran; off.Abs() > 1100*time.Millisecond {
			t.bad("the countdown went from %v to %v in %v", left, now, ran.Round(100*time.Millisecond))
		}
	}
	t.answers(s)
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
func (t *try) endedAside(s *seat, pid int) {
	s.Type(suspend)
	t.must(s.prompts(), "no prompt came: %s", firstLine(s.Text()))
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
	t.opens(s)
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
	t.answers(s)
	t.leave(s)
}
