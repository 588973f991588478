package main

import (
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
	t.opens(s)
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
	t.answers(s)
	t.leave(s)
}

// answers tells where keys do nothing: by them help comes and goes.
func (t *try) answers(s *seat) {
	s.Type("?")
	came := s.shows(time.Second, words.HelpFoot)
	s.Type("\x1b[D")
	if !came || !s.Await(time.Second, func() bool { return !strings.Contains(s.Text(), words.HelpFoot) }) {
		t.bad("it takes no keys any more")
	}
}
