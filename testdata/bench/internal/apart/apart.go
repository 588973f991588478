// Package apart gives the benches programs, folders, homes and days of their own, apart from what is the person's.
package apart

import (
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"example.org/vatside/testdata/bench/days"
)

// Must ends the bench where its own machine fails it.
func Must(err error) {
	if err != nil {
		panic(err)
	}
}

// End ends the bench of a name with 1 where it failed.
func End(name string, err error) {
	if err != nil {
		fmt.Fprintf(os.Stderr, "%s: %v\n", name, err)
		os.Exit(1)
	}
}

// Folder is a new folder. It is taken away by sweep, which the caller calls at the end, and which a signal to end calls too.
func Folder(name string, sweep func(dir string) error) (dir string, err error) {
	if dir, err = os.MkdirTemp("", name); err != nil {
		return "", err
	}
	ended := make(chan os.Signal, 1)
	signal.Notify(ended, os.Interrupt, syscall.SIGTERM)
	go func() {
		<-ended
		_ = sweep(dir)
		os.Exit(1)
	}()
	return dir, nil
}

// Build builds a package, without the system's libraries, into a file.
func Build(path, pkg string, flags ...string) (string, error) {
	cmd := exec.Command("go", append(append([]string{"build"}, flags...), "-o", path, pkg)...)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("building %s: %w\n%s", pkg, err, out)
	}
	return path, nil
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
	Must(os.WriteFile(filepath.Join(home, "settings.toml"), []byte("[sound]\nbell = false\ntone = false\nspeech = false\n"), 0o644))
}

// Written is the text of all days in a home.
func Written(home string) string {
	files, err := filepath.Glob(filepath.Join(home, "vats", "*", "*.toml"))
	Must(err)
	var all strings.Builder
	for _, f := range files {
		text, err := os.ReadFile(f)
		Must(err)
		all.Write(text)
	}
	return all.String()
}

// Day is the text of a day of testdata/days.
func Day(name string) []byte {
	text, err := os.ReadFile(filepath.Join("testdata", "days", name+".toml"))
	Must(err)
	return text
}

// Open is such a day up to its last event of a kind, which was so long ago, and its name.
func Open(name, kind string, ago time.Duration) (day days.Day, called string) {
	day, err := days.Parse(Day(name)).Upto(kind)
	Must(err)
	zone, err := time.LoadLocation(Zone)
	Must(err)
	called, err = day.EndAt(time.Now().In(zone).Add(-ago))
	Must(err)
	return day, called
}
