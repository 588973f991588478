package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// since is how long ago that event was.
const since = 30 * time.Second

// home is one of the bench's own, with a state folder.
type home struct {
	t          *setup
	dir, state string
	day        string // the file of the open day
	last       string // what comes last onto the screen of that day
}

// home is a new home, with an open day unless kind is empty.
func (t *setup) home(kind string) *home {
	top := filepath.Join(t.work, fmt.Sprintf("home-%d", t.folders.Add(1)))
	h := &home{t: t, dir: filepath.Join(top, "book"), state: filepath.Join(top, "state"), last: words.Blues}
	apart.Must(os.MkdirAll(h.state, 0o755))
	apart.Quiet(h.dir)
	if kind == "" {
		return h
	}
	if kind == words.Waiting {
		h.last = words.Liquor
	}
	d, name := apart.Open("soda-bin", kind, since)
	h.day = filepath.Join(h.dir, "vats", "garden-bin", name+".toml")
	apart.Write(h.day, d.Text())
	return h
}

// twin is a new home with the same books.
func (h *home) twin() *home {
	twin := h.t.home("")
	apart.Must(os.CopyFS(filepath.Join(twin.dir, "vats"), os.DirFS(filepath.Join(h.dir, "vats"))))
	twin.day = filepath.Join(twin.dir, strings.TrimPrefix(h.day, h.dir))
	return twin
}

// written is the text of all its days.
func (h *home) written() string { return apart.Written(h.dir) }

// events counts what is in its days.
func (h *home) events() int { return strings.Count(h.written(), "\n[[event]]") }

// env is the environment of a program in that home.
func (h *home) env(more ...string) []string {
	return apart.Env(h.state, apart.Zone, append([]string{"VATSIDE_HOME=" + h.dir, "PATH=" + h.t.tools + ":" + os.Getenv("PATH")}, more...)...)
}

// command is a program in that home.
func (h *home) command(path string, args ...string) *exec.Cmd {
	cmd := exec.Command(path, args...)
	cmd.Env, cmd.Dir = h.env(), h.state
	return cmd
}

// The terminal that a person sits at, unless the bench says otherwise.
const cols, rows = 80, 24

// seat is a person before a program in a home.
type seat struct {
	*tty.Session
	h *home
}

// manner is that of the terminal that a person sits at: it answers what it is asked.
var manner = tty.Manner{Answers: tty.Xterm}

// sit starts the program under test.
func (h *home) sit(args ...string) *seat { return h.sitAt(h.command(h.t.program, args...), manner) }

func (h *home) sitAt(cmd *exec.Cmd, m tty.Manner) *seat {
	return &seat{apart.Got(tty.StartIn(cmd, cols, rows, m)), h}
}

// patience is how long anything may take that has no limit of its own, on a busy machine.
const patience = 5 * time.Second

// shows waits for words on the screen.
func (s *seat) shows(limit time.Duration, words string) bool {
	return s.Await(limit, func() bool { return strings.Contains(s.Text(), words) })
}

// day goes to the screen of the open day and waits until all of it is there.
func (s *seat) day() bool {
	if !s.shows(patience, words.OpenDay) {
		return false
	}
	s.Type("\r")
	return s.shows(patience, words.DayName) && s.shows(patience, s.h.last) && s.settles()
}

// opens goes to the screen of the open day.
func (t *try) opens(s *seat) {
	t.must(s.day(), "the day did not open: %s", firstLine(s.Text()))
}

// quit types a key that leaves, once more where that is asked, and tells whether the program ended.
func (s *seat) quit(key string, limit time.Duration) bool {
	begun := time.Now()
	s.Type(key)
	if s.shows(limit, words.Question) {
		s.Type(key)
	}
	_, over := s.Ended(limit - time.Since(begun))
	return over
}

// settles waits until the screen but for its figures has not changed for a while.
func (s *seat) settles() bool {
	return s.Still(patience, 150*time.Millisecond, func() string { return masked(s.Text()) })
}

var (
	figures = regexp.MustCompile(`\d+`)
	blanks  = regexp.MustCompile(`[ ▀▄█]+`)
)

// masked is a screen without its figures, small and big, which run.
func masked(text string) string {
	return blanks.ReplaceAllString(figures.ReplaceAllString(text, "0"), " ")
}

// differs shows the first line in which two screens differ.
func differs(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	g, w = append(g, make([]string, max(0, len(w)-len(g)))...), append(w, make([]string, max(0, len(g)-len(w)))...)
	for i := range g {
		if g[i] != w[i] {
			return fmt.Sprintf("line %d is %q, not %q", i+1, strings.TrimSpace(g[i]), strings.TrimSpace(w[i]))
		}
	}
	return "they are the same"
}
