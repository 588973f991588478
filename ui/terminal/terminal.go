// Package terminal is the terminal that the screens have: its modes, what it is shown, and what it tells of keys, clicks and
// itself. It is given back as it was, whatever ends the program but a SIGKILL.
package terminal

import (
	"os"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"

	"example.org/vatside/ui/guard"
)

// A Clock measures stretches of time: how long ago, and when one is over.
type Clock interface {
	Mono() time.Duration
	After(time.Duration) <-chan time.Time
}

// Terminal is a terminal in raw mode that shows frames. Make it with Open, and Close it.
type Terminal struct {
	in, out *os.File
	clock   Clock
	was     *term.State // of the input, before
	console console     // what else the platform has to keep

	wake chan struct{} // something may be to be written
	turn sync.Mutex    // held by whoever writes

	modes sync.Mutex // held while the terminal is taken up or given back
	ours  bool       // by modes: it is taken up

	mu         sync.Mutex
	held       bool     // no frame is written: the program is stopped, or about to end
	back       string   // what gives the terminal back, until it is written
	first      string   // what goes before the next frame
	set        bool     // the modes were written
	frame      []string // the newest
	w, h       int      // of the frame; 0 before the first
	behind     func()   // is called once the frame is written; nil: nothing is
	written    func()   // is called now that the frame is written
	cols, rows int      // of the terminal
	whole      bool     // the terminal may show anything
	title      string   // the newest that is wanted
	titled     string   // as it was written; empty: the terminal has its own
	notice     string   // what the desktop is to be told, as it is written; empty: nothing
	takes      notices  // how it is told that
	reverse    bool     // the whole window is to be reversed
	reversed   bool     // as it was written
	asking     bool     // what its ground is, behind the next frame
	askedAt    time.Duration
	awaits     bool          // the answer
	answered   chan struct{} // closed with it
	painter    Painter       // of whoever has the turn

	stops  chan struct{} // ctrl+Z was pressed
	cancel func()        // ends the reading of keys
	gone   chan struct{} // closed where nothing can be read any more
	last   sync.Once     // closes ending
	ending chan struct{} // closed by Ending
	close  sync.Once     // closes ended
	ended  chan struct{} // closed by Close
}

// closing is how long a terminal that does not read may hold the program up where that has to end or to stop.
const closing = time.Second

// The modes that the screens need, and how they are given back (xterm's control sequences): the alternate screen (1049), no cursor
// (25), no wrapping at the edge (7), clicks (1000, 1006), the bringing of the window to the front (1004), brackets about pastes (2004).
// Where there is no alternate screen, what is written later stands under the last frame.
const (
	enter = "\x1b[?1049h\x1b[?25l\x1b[?7l\x1b[?1000h\x1b[?1006h\x1b[?1004h\x1b[?2004h"
	leave = "\x1b[?2026l\x1b[m\x1b[999H\r\n\x1b[?2004l\x1b[?1004l\x1b[?1006l\x1b[?1000l\x1b[?7h\x1b[?25h\x1b[?1049l"
)

// plainLook is the terminal's own look (SGR).
const plainLook = "\x1b[m"

// Open puts a terminal into raw mode. Its modes are set with the first frame.
func Open(in, out *os.File, clock Clock) (*Terminal, error) {
	t := &Terminal{
		in: in, out: out, clock: clock, first: enter, whole: true,
		wake: make(chan struct{}, 1), stops: make(chan struct{}, 1),
		gone: make(chan struct{}), ending: make(chan struct{}), ended: make(chan struct{}),
	}
	var err error
	if t.was, err = term.MakeRaw(in.Fd()); err != nil {
		return nil, err
	}
	if err := t.console.prepare(in, out); err != nil {
		_ = term.Restore(in.Fd(), t.was)
		return nil, err
	}
	t.ours = true
	if t.cols, t.rows, err = term.GetSize(out.Fd()); err != nil || t.cols < 1 || t.rows < 1 {
		t.cols, t.rows = 80, 24 // it does not tell, as on a serial line
	}
	return t, nil
}

// Size is how many columns and rows it has.
func (t *Terminal) Size() (cols, rows int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.cols, t.rows
}

// Start paints what it is given from now on, and sends what the terminal tells: tea.KeyMsg, with Paste set for what was pasted,
// presses of the mouse (tea.MouseMsg), tea.WindowSizeMsg, and Ground where it was asked for. The receiver may be slow.
func (t *Terminal) Start(send func(tea.Msg)) error {
	keys, err := t.reader()
	if err != nil {
		return err
	}
	window := t.window(send)
	guard.Go("painter", t.painting)
	guard.Go("keys", func() { t.listen(keys, send) })
	guard.Go("window", window)
	return nil
}

// AskGround has the terminal asked for the colour of its ground, once, behind a frame.
func (t *Terminal) AskGround() {
	t.want(func() { t.asking = t.asking || t.answered == nil })
}

// giveBack makes the terminal as it was before, where it is not given back yet. One that reads nothing is not waited for.
func (t *Terminal) giveBack() {
	t.modes.Lock()
	defer t.modes.Unlock()
	if !t.ours {
		return
	}
	t.ours = false
	t.leaves()
	wrote := make(chan struct{})
	write := func() { t.write(t.givingBack) }
	guard.GoThen("terminal", write, func(c *guard.Crash) {
		if c != nil {
			guard.End(*c)
			write()
		}
		close(wrote)
	})
	select {
	case <-wrote:
	case <-t.clock.After(closing):
	}
	if t.inFront() { // else its state is whose the terminal is now
		t.console.restore()
		_ = term.Restore(t.in.Fd(), t.was)
	}
}

// leaves has no frame written any more, and the modes given back.
func (t *Terminal) leaves() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.set {
		t.back += leave
	}
	if t.titled != "" {
		t.back += oldTitle
	}
	if t.reversed {
		t.back = upright + t.back
	}
	t.held, t.set, t.titled, t.reversed, t.notice = true, false, "", false, ""
}

// givingBack is what is to be written to give the terminal back.
func (t *Terminal) givingBack() []byte {
	t.mu.Lock()
	defer t.mu.Unlock()
	out := []byte(t.back)
	t.back = ""
	return out
}

// takeUp has the terminal again, as after Open: it may show anything, and be of another size. Not where the program is about to end.
func (t *Terminal) takeUp(send func(tea.Msg)) {
	if t.taken() {
		t.measure(send)
	}
}

func (t *Terminal) taken() bool {
	t.modes.Lock()
	defer t.modes.Unlock()
	if t.isEnding() {
		return false
	}
	// Where it was not given back, as before a SIGSTOP, the state to go back to stays the one before the program.
	if now, err := term.MakeRaw(t.in.Fd()); err == nil && !t.ours {
		t.was = now
	}
	_ = t.console.prepare(t.in, t.out)
	t.ours = true
	t.mu.Lock()
	t.held, t.first = false, enter
	t.mu.Unlock()
	return true
}

// measure tells the size that the terminal has now; it may show anything since.
func (t *Terminal) measure(send func(tea.Msg)) {
	cols, rows, err := term.GetSize(t.out.Fd())
	t.mu.Lock()
	if err == nil && cols > 0 && rows > 0 {
		t.cols, t.rows = cols, rows
	}
	t.whole = true
	size := tea.WindowSizeMsg{Width: t.cols, Height: t.rows}
	t.mu.Unlock()
	t.see()
	send(size)
}

// remeasure tells the size if it is another than before.
func (t *Terminal) remeasure(send func(tea.Msg)) {
	was, rows := t.Size()
	if w, h, err := term.GetSize(t.out.Fd()); err == nil && w > 0 && h > 0 && (w != was || h != rows) {
		t.measure(send)
	}
}

// Gone is closed where the terminal is no more: nobody reads what it is shown.
func (t *Terminal) Gone() <-chan struct{} { return t.gone }

// Ending says that the program is about to end: nothing stops it any more, and a terminal that was given back is not taken up
// again.
func (t *Terminal) Ending() {
	t.last.Do(func() {
		unstoppable()
		close(t.ending)
	})
}

func (t *Terminal) isEnding() bool {
	select {
	case <-t.ending:
		return true
	default:
		return false
	}
}

// Close gives the terminal back as it was.
func (t *Terminal) Close() {
	t.Ending()
	t.hearOut()
	t.close.Do(func() { close(t.ended) })
	if t.cancel != nil {
		t.cancel()
	}
	t.giveBack()
}

// hearOut waits a moment for an answer that the terminal was asked for and is still to come: else it would be typed into whatever
// has the terminal next.
func (t *Terminal) hearOut() {
	t.mu.Lock()
	answered, since := t.answered, t.clock.Mono()-t.askedAt
	if !t.awaits {
		answered = nil
	}
	t.mu.Unlock()
	if answered != nil && since < timely {
		select {
		case <-answered:
		case <-t.gone:
		case <-t.clock.After(timely - since):
		}
	}
}
