//go:build unix

package terminal

import (
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
	"github.com/creack/pty"
)

// opened is a terminal of this process, with our end of it. What its Close would have stop no more cannot be stopped again
// (os/signal.Reset), nor could the programs that other tests start: so its end has been told already.
func opened(t *testing.T, clock Clock) (own *os.File, tty *Terminal) {
	t.Helper()
	own, theirs, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = own.Close() }) // not theirs: its goroutines end by themselves
	if tty, err = Open(theirs, theirs, clock); err != nil {
		t.Fatal(err)
	}
	tty.last.Do(func() {})
	return own, tty
}

// asking is a clock that tells of each wait, and on which none is over.
type asking struct {
	real
	waits chan time.Duration
}

func (a asking) After(d time.Duration) <-chan time.Time {
	a.waits <- d
	return nil
}

// The end waits for the answer to the question that was asked last.
func TestCloseWaitsForTheAnswer(t *testing.T) {
	clock := asking{waits: make(chan time.Duration, 100)}
	own, tty := opened(t, clock)
	tty.Paint([]string{"a"}, tty.cols, tty.rows)
	tty.AskGround()
	if err := tty.Start(func(tea.Msg) {}); err != nil {
		t.Fatal(err)
	}
	for text, buf := "", make([]byte, 4096); !strings.Contains(text, ask); {
		n, err := own.Read(buf)
		if err != nil {
			t.Fatal(err)
		}
		text += string(buf[:n])
	}
	closed := make(chan struct{})
	go func() {
		tty.Close()
		close(closed)
	}()
	select {
	case d := <-clock.waits:
		if d <= 0 || d > timely {
			t.Errorf("the answer is waited for %v", d)
		}
	case <-closed:
		t.Fatal("the answer is not waited for")
	}
	if _, err := own.WriteString("\x1b]11;rgb:0/0/0\x1b\\\x1b[?62c"); err != nil {
		t.Fatal(err)
	}
	<-closed
}

// Whoever is about to end takes nothing up again.
func TestNothingIsTakenUpAtTheEnd(t *testing.T) {
	_, tty := opened(t, hasty{})
	tty.giveBack()
	before, err := term.GetState(tty.in.Fd())
	if err != nil {
		t.Fatal(err)
	}
	close(tty.ending)
	tty.takeUp(func(msg tea.Msg) { t.Errorf("%v is told", msg) })
	if after, err := term.GetState(tty.in.Fd()); err != nil || !reflect.DeepEqual(after, before) {
		t.Errorf("the terminal is taken up: %v", err)
	}
}

// A size that changes while the screens are made ready is told.
func TestSizeBeforeTheStart(t *testing.T) {
	own, tty := opened(t, real{})
	if err := pty.Setsize(own, &pty.Winsize{Cols: 33, Rows: 7}); err != nil {
		t.Fatal(err)
	}
	sizes := make(chan tea.Msg, 1)
	if err := tty.Start(func(msg tea.Msg) { sizes <- msg }); err != nil {
		t.Fatal(err)
	}
	if got, want := <-sizes, (tea.WindowSizeMsg{Width: 33, Height: 7}); got != want {
		t.Errorf("%v, not %v", got, want)
	}
	tty.Close()
}

// hasty is a clock on which every wait is over at once.
type hasty struct{ real }

func (hasty) After(time.Duration) <-chan time.Time {
	over := make(chan time.Time)
	close(over)
	return over
}

// On a terminal that reads nothing for as long as the program is stopped, the modes are given back before they are taken again.
func TestStoppedWhileTheTerminalReadsNothing(t *testing.T) {
	for range 20 { // with a goroutine for each it may go well by chance
		stoppedOnAFullTerminal(t)
	}
}

func stoppedOnAFullTerminal(t *testing.T) {
	own, tty := opened(t, hasty{})
	tty.cols, tty.rows = 200, 200
	tty.Paint(slices.Repeat([]string{strings.Repeat("0", 200)}, 200), 200, 200) // more than a pty holds
	if err := tty.Start(func(tea.Msg) {}); err != nil {
		t.Fatal(err)
	}
	text := make([]byte, 1)
	if _, err := own.Read(text); err != nil { // its painter is writing
		t.Fatal(err)
	}
	tty.giveBack()
	tty.takeUp(func(tea.Msg) {})
	limit := time.AfterFunc(10*time.Second, func() { _ = own.Close() })
	defer limit.Stop()
	for buf := make([]byte, 4096); strings.Count(string(text), enter) < 2 || !strings.Contains(string(text), leave); {
		n, err := own.Read(buf)
		if err != nil {
			t.Fatalf("%v after %d bytes", err, len(text))
		}
		text = append(text, buf[:n]...)
	}
	if strings.LastIndex(string(text), enter) < strings.Index(string(text), leave) {
		t.Fatal("the modes are given back behind the frame that needs them")
	}
	tty.Close()
}
