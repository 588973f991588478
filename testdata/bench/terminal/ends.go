package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"time"

	"golang.org/x/sys/unix"

	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/words"
)

// end is a way to end the program: keys or a signal.
type end struct {
	keys   string
	signal syscall.Signal
	must   bool // it has to end; else it may go on as if nothing was
	brief  bool
}

// ends are all ways to end the program but SIGKILL, on an open day with running times.
func ends() (all []edge) {
	ways := []end{
		{keys: "q", must: true, brief: true}, {keys: "\x03", must: true, brief: true},
		{signal: unix.SIGINT, must: true, brief: true}, {signal: unix.SIGTERM, must: true, brief: true}, {signal: unix.SIGHUP, must: true, brief: true},
		{signal: unix.SIGQUIT, must: true, brief: true}, {signal: unix.SIGABRT, must: true}, {signal: unix.SIGALRM}, {signal: unix.SIGUSR1}, {signal: unix.SIGUSR2},
		{signal: unix.SIGPIPE}, {signal: unix.SIGXCPU}, {signal: unix.SIGXFSZ}, {signal: unix.SIGBUS, must: true}, {signal: unix.SIGSEGV, must: true, brief: true},
		{signal: unix.SIGFPE, must: true}, {signal: unix.SIGILL, must: true}, {signal: unix.SIGTRAP, must: true}, {signal: unix.SIGSYS, must: true},
		{signal: unix.SIGVTALRM}, {signal: unix.SIGPROF}, {signal: unix.SIGPWR}, {signal: unix.SIGIO}, {signal: unix.SIGSTKFLT, must: true},
	}
	for _, w := range ways {
		name := map[string]string{"q": "q", "\x03": "ctrl+C"}[w.keys]
		if w.signal != 0 {
			name = unix.SignalName(w.signal)
		}
		all = append(all, edge{group: "end", name: name, brief: w.brief, does: func(t *try) { t.end(w) }})
	}
	return all
}

// mostEnd is how long an end may take.
const mostEnd = 2 * time.Second

func (t *try) end(w end) {
	s := t.home(words.Dipping).sit()
	defer s.Kill()
	if !t.opens(s) {
		return
	}
	begun, limit := time.Now(), mostEnd
	if !w.must {
		limit = 300 * time.Millisecond
	}
	if w.signal != 0 {
		apart.Must(s.Cmd.Process.Signal(w.signal))
	} else {
		s.quit(w.keys, mostEnd)
	}
	if code, over := s.Ended(limit); over {
		t.say("exit %d after %d ms", code, time.Since(begun).Milliseconds())
		t.remains(s)
		return
	}
	if w.must {
		t.bad("it did not end within %v", mostEnd)
	} else {
		t.say("it goes on")
	}
	if !t.answers(s) {
		t.bad("it takes no keys any more")
	}
	t.leave(s, mostEnd)
}

// answers tells whether keys do something: help comes and goes.
func (t *try) answers(s *seat) bool {
	s.Type("?")
	if !s.shows(time.Second, words.HelpFoot) {
		return false
	}
	s.Type("\x1b[D")
	return s.Await(time.Second, func() bool { return !strings.Contains(s.Text(), words.HelpFoot) })
}

// guarded finds the names of the parts that can be made to panic.
var guarded = regexp.MustCompile(`guard\.(?:Go|GoThen|Try)\("([^"]+)"`)

// panics are panics in each part of the program that has a name.
func panics() (all []edge) {
	var names []string // none where ui is not there: the table has no panics, and says so
	for _, folder := range []string{"ui", "ui/*", "ui/*/*"} {
		for _, path := range apart.Got(filepath.Glob(folder + "/*.go")) {
			if strings.HasSuffix(path, "_test.go") {
				continue
			}
			for _, m := range guarded.FindAllStringSubmatch(string(apart.Got(os.ReadFile(path))), -1) {
				names = append(names, m[1])
			}
		}
	}
	slices.Sort(names)
	for _, name := range slices.Compact(names) {
		all = append(all, edge{group: "panic", name: "panic in " + name, brief: name == "engine", does: func(t *try) { t.panics(name) }})
	}
	return all
}

// busy are keys that give every part of the screens something to do: the log, a note, a list, help, and back to the day.
var busy = []string{"l", "o", "mark", "\r", "\x1b[A", "?", "\x1b[D", "\x1b[5~"}

func (t *try) panics(name string) {
	if t.faulty == "" {
		t.without = "the program could not be built with -tags faults"
		return
	}
	for _, how := range []string{"q", "SIGTERM"} { // what works only at the end works at one of them
		if code := t.panicAnd(name, how); code != 0 || len(t.wrong) > 0 {
			t.say("exit %d", code)
			return
		}
	}
	t.say("it goes on, or nothing of that name works here")
}

// panicAnd has a part panic, and leaves if the program goes on. It gives its exit status.
func (t *try) panicAnd(name, how string) (code int) {
	h, args := t.home(words.Dipping), []string(nil)
	if name == "dyer" {
		h = t.home("")
		args = []string{"rehearse", "--speed", "60", "--home", h.dir}
	}
	cmd := h.command(t.faulty, args...)
	cmd.Env = append(cmd.Env, "VATSIDE_PANIC="+name)
	s := h.sitAt(cmd, manner)
	defer s.Kill()
	ended := func(limit time.Duration) (over bool) {
		if code, over = s.Ended(limit); over {
			t.remains(s)
		}
		return over
	}
	s.shows(time.Second, words.OpenDay)
	s.Type("\r")
	for _, keys := range busy {
		if ended(120 * time.Millisecond) {
			return code
		}
		s.Type(keys)
	}
	if ended(300 * time.Millisecond) {
		return code
	}
	if how == "q" {
		s.quit("q", mostEnd)
	} else {
		apart.Must(s.Cmd.Process.Signal(syscall.SIGTERM))
	}
	if !ended(mostEnd) {
		t.bad("%s did not end it within %v: %s", how, mostEnd, firstLine(s.Text()))
	}
	return code
}
