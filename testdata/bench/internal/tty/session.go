// Package tty plays a person at a terminal, or at a pipe: it starts a program in a pseudo-terminal, types, and reads the screen.
package tty

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"reflect"
	"sync"
	"syscall"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"

	"example.org/vatside/testdata/bench/emulator"
	"example.org/vatside/testdata/bench/fairshare"
)

// Session is a program in a terminal, or at a pipe.
type Session struct {
	Cmd   *exec.Cmd
	Begun time.Time // when the program was started

	own, theirs *os.File       // our end of the terminal; the program's, held open so that its state can be read afterwards
	in          io.WriteCloser // what is typed: our end of a terminal, the program's input at a pipe
	before      *term.State
	mu          sync.Mutex
	raw         []byte
	screen      *emulator.Screen // nil at a pipe
	read        chan struct{}    // closed when nothing more will be read
	last        sync.Once        // for writing theLast
	whole       chan struct{}    // closed when theLast was read
	ended       chan struct{}    // closed when the program has ended
	manner      Manner
	pace        pace
}

// StartIn starts a program in a terminal of its own, with manners: without any it answers nothing that it is asked.
func StartIn(cmd *exec.Cmd, cols, rows int, m Manner) (*Session, error) {
	own, theirs, err := pty.Open()
	if err != nil {
		return nil, err
	}
	if own, err = unblocked(own); err != nil {
		return nil, errors.Join(err, theirs.Close())
	}
	s := newSession(cmd, own, theirs)
	s.in, s.screen, s.manner = own, emulator.New(cols, rows), m
	if err = s.setSize(cols, rows); err == nil {
		s.before, err = term.GetState(theirs.Fd())
	}
	s.Pace(m.Pace)
	cmd.Stdin = theirs
	fairshare.Give()
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	return s.start(err)
}

// StartPiped starts a program at pipes: what it shows is all that it wrote.
func StartPiped(cmd *exec.Cmd) (*Session, error) {
	own, theirs, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	s := newSession(cmd, own, theirs)
	s.in, err = cmd.StdinPipe()
	return s.start(err)
}

func newSession(cmd *exec.Cmd, own, theirs *os.File) *Session {
	cmd.Stdout, cmd.Stderr = theirs, theirs
	return &Session{Cmd: cmd, own: own, theirs: theirs, read: make(chan struct{}), whole: make(chan struct{}), ended: make(chan struct{})}
}

// start starts the program, unless something failed before.
func (s *Session) start(err error) (*Session, error) {
	s.Begun = time.Now()
	if err == nil {
		err = s.Cmd.Start()
	}
	if err != nil {
		return nil, errors.Join(err, s.own.Close(), s.theirs.Close())
	}
	go s.reading()
	go func() {
		_ = s.Cmd.Wait() // its end is in ProcessState
		close(s.ended)
	}()
	return s, nil
}

// unblocked is a file whose Close ends a Read that waits: else a terminal that is closed stays open until its program writes.
func unblocked(f *os.File) (*os.File, error) {
	defer f.Close()
	fd, err := syscall.Dup(int(f.Fd()))
	if err == nil {
		syscall.CloseOnExec(fd)
		err = syscall.SetNonblock(fd, true)
	}
	if err != nil {
		return nil, err
	}
	return os.NewFile(uintptr(fd), f.Name()), nil
}

// setSize sets the size of the window.
func (s *Session) setSize(cols, rows int) error {
	return pty.Setsize(s.theirs, &pty.Winsize{Rows: uint16(rows), Cols: uint16(cols)}) // on ours it would make the file wait again
}

// piece is what one read gave.
type piece struct {
	at    time.Time
	bytes []byte
}

func (s *Session) reading() {
	defer close(s.read)
	pieces := make(chan piece, 4096) // so that taking one in does not hold up the next
	go func() {
		defer close(pieces)
		buf := make([]byte, 32<<10)
		for {
			n, err := s.own.Read(buf[:s.pace.before(len(buf))])
			if n > 0 {
				pieces <- piece{time.Now(), bytes.Clone(buf[:n])}
			}
			if err != nil {
				return
			}
		}
	}()
	for p := range pieces {
		n := len(p.bytes)
		s.mu.Lock()
		s.raw = append(s.raw, p.bytes...)
		if s.screen != nil {
			_, _ = s.screen.Write(p.bytes)
		}
		if raw, whole := bytes.CutSuffix(s.raw, []byte(theLast)); whole {
			s.raw = raw
			n -= len(theLast)
			close(s.whole)
		}
		answer := s.manner.answer(s.raw, max(0, n))
		if s.manner.Heard != nil {
			s.manner.Heard(p.at, n, s.screen.Text)
		}
		s.mu.Unlock()
		s.Type(answer)
	}
}

// theLast is written behind all that a program wrote, when it has ended: a string that no terminal shows. What a program
// writes comes to us later than its end.
const theLast = "\x1b_the last\x1b\\"

// settle waits until all that the program wrote before its end is on the screen, or for a second: a closed terminal, or one
// that reads nothing, never gets there.
func (s *Session) settle() {
	s.last.Do(func() { go func() { _, _ = s.theirs.WriteString(theLast) }() })
	select {
	case <-s.whole:
	case <-s.read:
	case <-time.After(time.Second):
	}
}

// Type sends keys.
func (s *Session) Type(keys string) { _, _ = io.WriteString(s.in, keys) } // a program that has gone reads nothing

// Hang closes the terminal, as closing its window does; at a pipe it ends the input.
func (s *Session) Hang() { _ = s.in.Close() }

// Resize changes the size of the window.
func (s *Session) Resize(cols, rows int) {
	s.mu.Lock()
	s.screen.Resize(cols, rows)
	s.mu.Unlock()
	_ = s.setSize(cols, rows) // a closed terminal has none
}

// Text is what the screen shows, at a pipe all that was written.
func (s *Session) Text() string {
	if s.screen == nil {
		return s.Raw()
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.screen.Text()
}

// See shows the screen itself; it stands still meanwhile, and must not be kept.
func (s *Session) See(look func(*emulator.Screen)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	look(s.screen)
}

// Raw is all that was written.
func (s *Session) Raw() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return string(s.raw)
}

// Await waits until something holds, and tells whether it did within a time and before the program ended.
func (s *Session) Await(limit time.Duration, holds func() bool) bool {
	return Await(limit, s.ended, func() bool {
		select {
		case <-s.ended:
			s.settle()
		default:
		}
		return holds()
	})
}

// Still waits until what is seen has not changed for so long, and tells whether that came within a time.
func (s *Session) Still(limit, calm time.Duration, seen func() string) bool {
	was, since := seen(), time.Now()
	return s.Await(limit, func() bool {
		if now := seen(); now != was {
			was, since = now, time.Now()
		}
		return time.Since(since) > calm
	})
}

// Await waits until something holds, and tells whether it did within a time and before the end; nil: there is none.
func Await(limit time.Duration, ended <-chan struct{}, holds func() bool) bool {
	for end := time.Now().Add(limit); ; {
		if holds() {
			return true
		}
		select {
		case <-ended:
			return holds()
		case <-time.After(10 * time.Millisecond):
		}
		if time.Now().After(end) {
			return false
		}
	}
}

// Ended waits for the end and gives the exit status; -1 after a signal. false: it did not end in that time.
func (s *Session) Ended(limit time.Duration) (code int, ok bool) {
	select {
	case <-s.ended:
		s.settle()
		return s.Cmd.ProcessState.ExitCode(), true
	case <-time.After(limit):
		return 0, false
	}
}

// Kill ends the program at once, if it still runs, and gives the terminal back. Call it always. A program that the machine does
// not let end is left behind after a minute.
func (s *Session) Kill() {
	_ = s.Cmd.Process.Kill()
	select {
	case <-s.ended:
	case <-time.After(time.Minute):
	}
	s.Pace(0)
	_ = s.theirs.Close()
	_ = s.own.Close()
	<-s.read
}

// Left is what the program left behind in the terminal that was not so before; ask after its end.
func (s *Session) Left() []string {
	select {
	case <-s.ended:
		s.settle()
	default:
		time.Sleep(30 * time.Millisecond) // what is still on its way
	}
	if s.screen == nil {
		return nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	out := s.screen.Left()
	if now, err := term.GetState(s.theirs.Fd()); err == nil && !reflect.DeepEqual(now, s.before) {
		out = append(out, "raw mode")
	}
	return out
}
