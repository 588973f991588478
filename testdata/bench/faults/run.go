package main

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"time"

	"example.org/vatside/testdata/bench/days"
	"example.org/vatside/testdata/bench/internal/apart"
)

// A home is one under test, with a state folder and a folder for temporary files.
type home struct {
	dir, state, temp string
	vat, day         string // the open day, if one was put there
	zone             string // TZ
	program          string // the program under test
}

func (b *bench) home() *home {
	top := b.dir("home")
	h := &home{dir: filepath.Join(top, "book"), state: filepath.Join(top, "state"), temp: filepath.Join(top, "temp"), zone: apart.Zone, program: b.program}
	for _, d := range []string{h.dir, h.state, h.temp} {
		apart.Must(os.MkdirAll(d, 0o755))
	}
	apart.Quiet(h.dir)
	return h
}

var headVat = regexp.MustCompile(`(?m)^vat = "([^"]+)"`)

// open puts a day into the home, up to its last event of a kind, which is then so long ago.
func (h *home) open(name, kind string, ago time.Duration) {
	var d days.Day
	d, h.day = apart.Open(name, kind, ago)
	h.vat = string(headVat.FindSubmatch(d.Blocks[0])[1])
	h.put(h.vat, h.day, d.Text())
}

func (h *home) put(vat, day string, text []byte) {
	dir := filepath.Join(h.dir, "vats", vat)
	apart.Must(os.MkdirAll(dir, 0o755))
	apart.Must(os.WriteFile(filepath.Join(dir, day+".toml"), text, 0o644))
}

// page is the grain of a tmpfs.
const page = 4096

// pad makes the open day's file end at a place in a page, by a comment in its head.
func (h *home) pad(to int) {
	text, err := os.ReadFile(h.file())
	apart.Must(err)
	d := days.Parse(text)
	need := (to - len(text) + 64*page) % page
	d.Blocks[0] = append([]byte("# "+strings.Repeat("-", max(0, need-3))+"\n"), d.Blocks[0]...)
	d.Sign()
	apart.Must(os.WriteFile(h.file(), d.Text(), 0o644))
}

// file is the open day's.
func (h *home) file() string { return filepath.Join(h.dir, "vats", h.vat, h.day+".toml") }

// env is the environment of the program in that home.
func (h *home) env(more ...string) []string {
	return apart.Env(h.state, h.zone, append([]string{"TMPDIR=" + h.temp}, more...)...)
}

// answer is what one run of a command said.
type answer struct {
	out, errs string
	code      int // -1: it ended by a signal
	memory    int // the most it held, MB
	hung, big bool
}

// ask runs a command line to its end, or to the limits.
func (b *bench) ask(h *home, args []string, in string, env ...string) answer {
	return b.run(h, h.program, args, in, env...)
}

func (b *bench) run(h *home, program string, args []string, in string, env ...string) (a answer) {
	ctx, stop := context.WithTimeout(context.Background(), 2*mostTime) // a busy machine is not a hang: see hung
	defer stop()
	cmd := exec.CommandContext(ctx, program, args...)
	cmd.Env, cmd.Dir, cmd.Stdin = h.env(env...), h.temp, strings.NewReader(in)
	cmd.WaitDelay = time.Second
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Start(); err != nil {
		return answer{errs: err.Error(), code: -1}
	}
	watched := make(chan struct{})
	go func() {
		defer close(watched)
		for memoryOf(cmd.Process.Pid) < 2*mostMemory {
			select {
			case <-ctx.Done():
				return
			case <-time.After(50 * time.Millisecond):
			}
		}
		a.big = true
		_ = cmd.Process.Kill()
	}()
	_ = cmd.Wait() // its end is in ProcessState
	used := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	a.hung = ctx.Err() != nil || used > mostTime
	stop()
	<-watched
	if u, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
		a.memory = int(u.Maxrss / 1024) // KiB on Linux
	}
	a.out, a.errs, a.code = out.String(), errs.String(), cmd.ProcessState.ExitCode()
	a.big = a.big || a.memory > mostMemory
	return a
}

// ended runs a program for a while, ends it with TERM, and waits for that as long as it may take.
func (b *bench) ended(h *home, words []string, after time.Duration) (a answer) {
	cmd := exec.Command(words[0], words[1:]...)
	cmd.Env, cmd.Dir, cmd.WaitDelay = h.env(), h.temp, time.Second
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Start(); err != nil {
		return answer{errs: err.Error(), code: -1}
	}
	over := make(chan struct{})
	go func() { _ = cmd.Wait(); close(over) }() // its end is in ProcessState
	select {
	case <-over:
	case <-time.After(after):
		_ = cmd.Process.Signal(syscall.SIGTERM)
		select {
		case <-over:
		case <-time.After(mostTime + time.Second): // a second for a busy machine
			a.hung = true
			_ = cmd.Process.Kill()
			<-over
		}
	}
	a.out, a.errs, a.code = out.String(), errs.String(), cmd.ProcessState.ExitCode()
	return a
}

// memoryOf is the most that a running process ever held, MB; 0 where that cannot be known.
func memoryOf(pid int) int {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0
	}
	for line := range strings.Lines(string(text)) {
		if rest, ok := strings.CutPrefix(line, "VmHWM:"); ok {
			n, _ := strconv.Atoi(strings.Fields(rest)[0])
			return n / 1024
		}
	}
	return 0
}

// broken tells how a run broke a limit or broke down; empty: it did not.
func (a answer) broken() string {
	switch {
	case a.hung:
		return fmt.Sprintf("hung: no end within %s", mostTime)
	case a.big:
		return fmt.Sprintf("took %d MB, more than %d", a.memory, mostMemory)
	case dumped(a.errs) || dumped(a.out):
		return "broke down with a stack trace: " + firstPanic(a.errs+a.out)
	case a.code != 0 && a.code != 1 && a.code != 3:
		return fmt.Sprintf("ended with %d: %s", a.code, plainly(lastLine(a.errs)))
	}
	return ""
}

// dumped tells whether text holds the dump of a Go program.
func dumped(text string) bool {
	return strings.Contains(text, "goroutine ") && strings.Contains(text, "[running]") || strings.Contains(text, "panic: ") || strings.Contains(text, "SIGQUIT: quit") || strings.Contains(text, "fatal error: ")
}

// ours is the first place in a dump that is the program's own.
var ours = regexp.MustCompile(`(?:model|ui)/[a-z/_]+\.go:\d+`)

// theirs is the first place of a library.
var theirs = regexp.MustCompile(`[a-z]+@[^/\s]+/[a-z/_]+\.go:\d+`)

// firstPanic is what broke, and where.
func firstPanic(text string) string {
	for _, word := range []string{"panic: ", "fatal error: ", "SIGQUIT", "goroutine "} {
		if i := strings.Index(text, word); i >= 0 {
			line, rest, _ := strings.Cut(text[i:], "\n")
			where := cmp.Or(ours.FindString(rest), theirs.FindString(rest))
			return plainly(strings.TrimSpace(line) + " " + where)
		}
	}
	return ""
}

// lastLine is the last line with anything on it.
func lastLine(text string) string {
	last := ""
	for line := range strings.Lines(text) {
		if s := strings.TrimSpace(line); s != "" && !strings.Contains(s, "wait data set already") { // strace says so of a signal
			last = s
		}
	}
	return last
}

// notes are the texts of the book's notes in order, twice when they are in it twice.
func (b *bench) notes(h *home) ([]string, error) {
	a := b.ask(h, []string{"book", "--json", "--home", h.dir}, "")
	var events []struct{ Kind, Text string }
	if err := json.Unmarshal([]byte(a.out), &events); err != nil {
		return nil, fmt.Errorf("book --json ended with %d: %s", a.code, plainly(lastLine(a.errs)))
	}
	var out []string
	for _, e := range events {
		if e.Kind == "note" {
			out = append(out, e.Text)
		}
	}
	return out, nil
}
