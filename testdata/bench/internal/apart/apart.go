// Package apart gives the benches programs, folders, homes and days of their own, apart from what is the person's.
package apart

import (
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"

	"example.org/vatside/testdata/bench/days"
)

// A failure is what Must ends a bench with.
type failure struct{ error }

// Must ends the bench where its own machine fails it.
func Must(err error) {
	if err != nil {
		panic(failure{err})
	}
}

// Got is a value without which the bench ends.
func Got[T any](v T, err error) T {
	Must(err)
	return v
}

// Run runs the bench of a name. The program ends with 1 where something is bad, or where Must has ended the bench, which is told.
func Run(name string, bench func() (bad bool)) {
	if run(name, bench) {
		os.Exit(1)
	}
}

func run(name string, bench func() bool) (bad bool) {
	defer func() {
		switch r := recover().(type) {
		case nil:
		case failure:
			fmt.Fprintf(os.Stderr, "%s: %v\n", name, r.error)
			bad = true
		default:
			panic(r)
		}
	}()
	return bench()
}

// Folder is a new folder, and what takes it away at the end: sweep, which a signal to end calls too.
func Folder(name string, sweep func(dir string) error) (dir string, done func()) {
	dir = Got(os.MkdirTemp("", name))
	ended := make(chan os.Signal, 1)
	signal.Notify(ended, os.Interrupt, syscall.SIGTERM)
	go func() {
		<-ended
		_ = sweep(dir)
		os.Exit(1)
	}()
	return dir, func() { Must(sweep(dir)) }
}

// Write writes a file of a bench, and the folders that it lies in.
func Write(path string, text []byte) {
	Must(os.MkdirAll(filepath.Dir(path), 0o755))
	Must(os.WriteFile(path, text, 0o644))
}

// Tool writes a program of a line of shell into a folder.
func Tool(dir, name, does string) {
	path := filepath.Join(dir, name)
	Write(path, []byte("#!/bin/sh\n"+does+"\n"))
	Must(os.Chmod(path, 0o755))
}

// Stop ends a try that cannot go on, which was told before.
func Stop() { panic(stopped{}) }

type stopped struct{}

// Try goes through a try up to its end, or to where Stop ends it.
func Try(do func()) {
	defer func() {
		if r := recover(); r != nil && r != any(stopped{}) {
			panic(r)
		}
	}()
	do()
}

// Together does something with each of some tries, so many at once: most of them wait.
func Together[T any](atOnce int, tries []T, do func(T)) {
	queue := make(chan T)
	var wg sync.WaitGroup
	for range atOnce {
		wg.Go(func() {
			for t := range queue {
				Try(func() { do(t) })
			}
		})
	}
	for _, t := range tries {
		queue <- t
	}
	close(queue)
	wg.Wait()
}

// Processor is the time that the program has had of any processor.
func Processor() time.Duration {
	var u syscall.Rusage
	Must(syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// Field is a number in a status file of /proc, such as VmHWM: the most memory that was ever held, in KiB; 0 where it cannot be known.
func Field(file, name string) int64 {
	text, _ := os.ReadFile(file)
	for line := range strings.Lines(string(text)) {
		if rest, ok := strings.CutPrefix(line, name+":"); ok {
			n, _ := strconv.ParseInt(strings.Fields(rest)[0], 10, 64)
			return n
		}
	}
	return 0
}

// Said is all that a program prints up to its end, which is in the error where it fails.
func Said(cmd *exec.Cmd) (string, error) {
	out, err := cmd.CombinedOutput()
	if err != nil {
		err = fmt.Errorf("%s: %w: %s", strings.Join(cmd.Args, " "), err, strings.TrimSpace(string(out)))
	}
	return string(out), err
}

// Build builds a package, without the system's libraries, into a file.
func Build(path, pkg string, flags ...string) (string, error) {
	cmd := exec.Command("go", append(append([]string{"build"}, flags...), "-o", path, pkg)...)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	_, err := Said(cmd)
	return path, err
}

// Numbers is a fixed sequence of numbers.
type Numbers uint64

// In is the next of them between two.
func (n *Numbers) In(low, high int) int {
	*n = *n*6364136223846793005 + 1442695040888963407
	return low + int(uint64(*n)>>33)%(high-low+1)
}

// Zone is where the played days are.
const Zone = "Europe/Berlin"

// Env is the environment of a program whose folders are all state, in a zone, without anything of the person's own.
func Env(state, zone string, more ...string) []string {
	env := slices.DeleteFunc(os.Environ(), func(e string) bool {
		name, _, _ := strings.Cut(e, "=")
		theirs := []string{"TZ", "TERM", "TMPDIR", "HOME", "NO_COLOR", "COLORFGBG", "COLORTERM", "TMUX", "TMUX_PANE", "ENV", "LC_ALL", "LANG"}
		return slices.Contains(theirs, name) || strings.HasPrefix(name, "VATSIDE_") || strings.HasPrefix(name, "XDG_")
	})
	return append(append(env, "HOME="+state, "XDG_STATE_HOME="+state, "XDG_DATA_HOME="+state, "XDG_CACHE_HOME="+state,
		"TERM=xterm-256color", "COLORTERM=truecolor", "LC_ALL=C.UTF-8", "TZ="+zone), more...)
}

// Quiet lets no machine sound in a home.
func Quiet(home string) {
	Write(filepath.Join(home, "settings.toml"), []byte("[sound]\nbell = false\ntone = false\nspeech = false\n"))
}

// Written is the text of all days in a home.
func Written(home string) string {
	var all strings.Builder
	for _, f := range Got(filepath.Glob(filepath.Join(home, "vats", "*", "*.toml"))) {
		all.Write(Got(os.ReadFile(f)))
	}
	return all.String()
}

// Day is the text of a day of testdata/days.
func Day(name string) []byte {
	return Got(os.ReadFile(filepath.Join("testdata", "days", name+".toml")))
}

// Open is such a day up to its last event of a kind, which was so long ago, and its name.
func Open(name, kind string, ago time.Duration) (day days.Day, called string) {
	day = Got(days.Parse(Day(name)).Upto(kind))
	return day, Got(day.EndAt(time.Now().In(Got(time.LoadLocation(Zone))).Add(-ago)))
}
