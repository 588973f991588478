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
	"slices"
	"strings"
	"syscall"
	"time"

	"example.org/vatside/model/wording"
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
	apart.Must(os.MkdirAll(h.state, 0o755))
	apart.Must(os.MkdirAll(h.temp, 0o755))
	apart.Quiet(h.dir)
	return h
}

// second has the second place, state and temporary files, on the disk of the book too.
func (h *home) second() {
	h.state, h.temp = filepath.Join(h.dir, "state"), filepath.Join(h.dir, "temp")
	apart.Must(os.MkdirAll(h.state, 0o755))
	apart.Must(os.MkdirAll(h.temp, 0o755))
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
	apart.Write(filepath.Join(h.dir, "vats", vat, day+".toml"), text)
}

// page is the grain of a tmpfs.
const page = 4096

// pad makes the open day's file end at a place in a page, by a comment in its head.
func (h *home) pad(to int) {
	text := apart.Got(os.ReadFile(h.file()))
	d := days.Parse(text)
	need := (to - len(text) + 64*page) % page
	d.Blocks[0] = append([]byte("# "+strings.Repeat("-", max(0, need-3))+"\n"), d.Blocks[0]...)
	d.Sign()
	apart.Write(h.file(), d.Text())
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

// ask runs a command line of the program to its end, or to the limits.
func (b *bench) ask(h *home, args []string, in string, env ...string) answer {
	return h.run(append([]string{h.program}, args...), in, 0, 0, env...)
}

// run runs words to their end, or to the limits. A signal, where there is one, is sent after a while.
func (h *home) run(words []string, in string, signal syscall.Signal, after time.Duration, env ...string) (a answer) {
	limit := 2 * mostTime // a busy machine is not a hang: see hung
	if signal != 0 {
		limit = after + mostTime + time.Second
	}
	ctx, stop := context.WithTimeout(context.Background(), limit)
	defer stop()
	cmd := exec.CommandContext(ctx, words[0], words[1:]...)
	cmd.Env, cmd.Dir, cmd.Stdin = h.env(env...), h.temp, strings.NewReader(in)
	cmd.WaitDelay = time.Second
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Start(); err != nil {
		return answer{errs: err.Error(), code: -1}
	}
	if signal != 0 {
		defer time.AfterFunc(after, func() { _ = cmd.Process.Signal(signal) }).Stop()
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

// memoryOf is the most that a running process ever held, MB; 0 where that cannot be known.
func memoryOf(pid int) int {
	return int(apart.Field(fmt.Sprintf("/proc/%d/status", pid), "VmHWM") / 1024)
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

// sound tells where a run broke a limit or broke down.
func (r *row) sound(a answer, what string) {
	if w := a.broken(); w != "" {
		r.bad("%s%s", what, w)
	}
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

// An act is what every event of `book --json` may have.
type act struct {
	Kind, Text string
	At         time.Time
	Assumed    bool
}

// eventsOf are the events that `book --json` told.
func eventsOf[E any](a answer) (events []E, err error) {
	if err := json.Unmarshal([]byte(a.out), &events); err != nil {
		return nil, fmt.Errorf("book --json ended with %d: %s", a.code, plainly(lastLine(a.errs)))
	}
	return events, nil
}

// events are those of the book, of all days or of one.
func (b *bench) events(h *home, of ...string) ([]act, error) {
	return eventsOf[act](b.ask(h, slices.Concat([]string{"book", "--json", "--home", h.dir}, of), ""))
}

// notes are the texts of the book's notes in order, twice when they are in it twice.
func (b *bench) notes(h *home) (out []string, err error) {
	events, err := b.events(h)
	return wording.Some(events, func(e act) (string, bool) { return e.Text, e.Kind == "note" }), err
}

// verified tells where `book verify` finds a fault.
func (b *bench) verified(r *row, h *home, what string) {
	if a := b.ask(h, []string{"book", "verify", "--home", h.dir}, ""); a.code != 0 {
		r.bad("%sbook verify ends with %d: %s", what, a.code, plainly(lastLine(a.out+a.errs)))
	}
}
