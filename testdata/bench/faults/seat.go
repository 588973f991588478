package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"syscall"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// The ways of leaving.
const (
	byQ, byCtrlC, byEnd        = "q", "ctrl-C", "end of input"
	byTerm, byHup, byInt, byQt = "TERM", "HUP", "INT", "QUIT"
	byClosing                  = "terminal closed"
)

var signalOf = map[string]syscall.Signal{byTerm: syscall.SIGTERM, byHup: syscall.SIGHUP, byInt: syscall.SIGINT, byQt: syscall.SIGQUIT}

// A seat is a person at an open day: in the screens, or in the plain mode at a pipe. The acts are notes, each with a text
// of its own.
type seat struct {
	*tty.Session
	plain bool
	taken []string // the acts that were shown as taken
}

// sit opens the day of a home. before are words before the program, such as a tracer and its arguments.
func (b *bench) sit(r *row, h *home, plain bool, before []string) *seat {
	return b.sitAt(r, h, plain, before, nil)
}

// sitAt is sit at a command of the program.
func (b *bench) sitAt(r *row, h *home, plain bool, before, verb []string, env ...string) *seat {
	args := slices.Concat(before, []string{h.program}, verb, []string{"--home", h.dir})
	if plain {
		args = append(args, "--plain")
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Env, cmd.Dir = h.env(env...), h.temp
	var session *tty.Session
	var err error
	if plain {
		session, err = tty.StartPiped(cmd)
	} else {
		session, err = tty.StartIn(cmd, 100, 30, tty.Manner{})
	}
	r.must(err == nil, "it cannot be started: %v", err)
	return &seat{Session: session, plain: plain}
}

// opens waits until notes can be taken.
func (s *seat) opens(r *row) {
	r.must(s.ready(), "%s: the day did not open: %s", s.kind(), plainly(lastLine(s.Text())))
}

// kind is what it is a seat at.
func (s *seat) kind() string {
	return wording.Either(s.plain, "plain", "screens")
}

// remains tells what a program that has ended left in its terminal.
func (r *row) remains(s *seat, what string) {
	if left := s.Left(); len(left) > 0 {
		r.bad("%s: the terminal is left with %s", what, strings.Join(left, ", "))
	}
}

func (s *seat) await(limit time.Duration, holds func(text string) bool) bool {
	return s.Await(limit, func() bool { return holds(s.Text()) })
}

// ready waits until the day is open and notes can be taken.
func (s *seat) ready() bool {
	if s.plain {
		return s.await(mostTime, func(t string) bool { return strings.Contains(t, "Enter says done") })
	}
	if !s.await(mostTime, func(t string) bool { return strings.Contains(t, "vatside") && strings.Contains(t, "Garden bin") }) {
		return false
	}
	s.Type("\r")
	return s.await(mostTime, func(t string) bool { return !strings.Contains(t, "vatside") }) && s.log()
}

func (s *seat) log() bool {
	for range 4 {
		s.Type("l")
		if s.await(time.Second, func(t string) bool { return strings.Contains(t, words.LogTitle) }) {
			return true
		}
	}
	return false
}

// mostKeys are as many as come at once from hands: more are taken for a paste, and so is an Enter right behind them.
const mostKeys = 8

// What stands on the screen before a note is typed, and for as long as its line is open.
const (
	aNote  = "write a line into the book"
	typing = "esc leave it"
)

// act writes a note and waits until it is shown as taken. It tells whether it was.
func (s *seat) act(text string) bool {
	if s.plain {
		before := strings.Count(s.Text(), "What you can say:")
		refused := strings.Count(s.Text(), "Not done")
		s.Type("note " + text + "\n?\n") // the list of answers shows that the note was read
		ok := s.await(10*time.Second, func(t string) bool { return strings.Count(t, "What you can say:") > before }) &&
			strings.Count(s.Text(), "Not done") == refused
		if ok {
			s.taken = append(s.taken, text)
		}
		return ok
	}
	s.Type("o") // given up too early, the next act would be typed into this one
	if !s.await(mostTime, func(t string) bool { return strings.Contains(t, aNote) }) {
		return false
	}
	for n := 0; n < len(text); n += mostKeys {
		upto := min(n+mostKeys, len(text))
		s.Type(text[n:upto])
		if !s.await(mostTime, func(t string) bool { return strings.Contains(t, text[:upto]) }) {
			return false
		}
	}
	s.Type("\r")
	ok := s.await(3*time.Second, func(t string) bool {
		return strings.Contains(t, words.LogTitle) && strings.Contains(t, text) && !strings.Contains(t, typing)
	})
	if ok {
		s.taken = append(s.taken, text)
	}
	return ok
}

// leave leaves in one way, tells where that does not end it, and gives the exit status. A question that leaving asks is answered with
// leaving once more.
func (s *seat) leave(r *row, way, what string) (code int) {
	begun := time.Now()
	switch {
	case signalOf[way] != 0:
		_ = s.Cmd.Process.Signal(signalOf[way])
	case way == byCtrlC:
		s.Type("\x03")
	case way == byClosing, way == byEnd:
		s.Hang()
	case s.plain:
		s.Type("q\n")
	default:
		s.Type("q")
	}
	code, ok := s.Ended(2 * time.Second)
	if !ok && (way == byQ || way == byCtrlC) {
		s.Type(map[bool]string{true: "q", false: "q\n"}[!s.plain])
	}
	if !ok {
		code, ok = s.Ended(mostTime - time.Since(begun) + time.Second) // a second for a busy machine
	}
	if !ok && way != byQ && way != byCtrlC {
		r.bad("%s: %s did not end it within %s", what, way, mostTime)
	}
	if !ok { // a person may be asked what to do; then a signal ends it
		_ = s.Cmd.Process.Signal(syscall.SIGTERM)
		if code, ok = s.Ended(mostTime + time.Second); !ok {
			r.bad("%s: neither %s nor TERM ended it", what, way)
		}
	}
	return code
}

// dump lets a program that hangs show what its goroutines do, which ends it. It gives what was on the screen and where all
// that it wrote is kept.
func (s *seat) dump(name string) string {
	shown := plainly(s.Text())
	_ = s.Cmd.Process.Signal(syscall.SIGABRT)
	s.Ended(3 * time.Second)
	return shown + s.keep(name)
}

// keep writes all that the program wrote into a file outside the bench's own folder and says where.
func (s *seat) keep(name string) string {
	f, err := os.CreateTemp("", "vatside-wrong-*.txt")
	if err != nil {
		return ""
	}
	_, err = fmt.Fprintf(f, "%s\n%s", name, s.Raw())
	if err = errors.Join(err, f.Close()); err != nil {
		return ""
	}
	return " (all it wrote: " + f.Name() + ")"
}
