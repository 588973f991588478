// Package terminal is the terminal that the screens have: its modes, what it is shown, and what it tells of keys, clicks and
// itself. It is given back as it was, whatever ends the program but a SIGKILL.
package terminal

import (
	"os"
	"sync"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"

	"example.org/vatside/model/wording"
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
	console console // what else the platform has to keep

	settings sync.Mutex  // held while those of the terminal are changed
	was      *term.State // of the input, before
	aside    bool        // the terminal was given back

	wake chan struct{} // something may be to be written
	turn chan struct{} // held by whoever writes

	mu         sync.Mutex
	held       bool   // nothing is written: the program is stopped, or about to end
	first      string // to be written before the next frame
	set        bool   // the modes are
	frame      string // the newest
	w, h       int    // of the frame
	cols, rows int    // of the terminal
	whole      bool   // the terminal may show anything
	title      string // the newest that is wanted
	titled     string // as it was written; empty: the terminal has its own
	asking     bool   // what its ground is, behind the next frame
	askedAt    time.Duration
	awaits     bool          // the answer
	answered   chan struct{} // closed with it
	painter    Painter       // of whoever has the turn

	stops  chan struct{} // ctrl+Z was pressed
	cancel func()        // ends the reading of keys
	gone   chan struct{} // closed where nothing will be read any more
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

// Open puts a terminal into raw mode. Its modes are set with the first frame.
func Open(in, out *os.File, clock Clock) (*Terminal, error) {
	t := &Terminal{
		in: in, out: out, clock: clock, first: enter, whole: true,
		wake: make(chan struct{}, 1), turn: make(chan struct{}, 1), stops: make(chan struct{}, 1),
		gone: make(chan struct{}), ended: make(chan struct{}),
	}
	var err error
	if t.was, err = term.MakeRaw(in.Fd()); err != nil {
		return nil, err
	}
	if err := t.console.prepare(in, out); err != nil {
		_ = term.Restore(in.Fd(), t.was)
		return nil, err
	}
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
	t.mu.Lock()
	again := t.asking || t.answered != nil
	t.asking = !again
	t.mu.Unlock()
	if !again {
		t.see()
	}
}

// Paint shows a frame: lines, none wider than the frame. It never waits: a newer frame takes the place of one that is not
// painted yet.
func (t *Terminal) Paint(frame string, width, height int) {
	t.mu.Lock()
	t.frame, t.w, t.h = frame, width, height
	t.mu.Unlock()
	t.see()
}

// Title sets the window's title, which many terminals also show on their tab. It never waits.
func (t *Terminal) Title(words wording.Shown) {
	t.mu.Lock()
	t.title = words.String()
	t.mu.Unlock()
	t.see()
}

// repaint sets the modes and paints the frame whole: another program may have written into the terminal.
func (t *Terminal) repaint() {
	t.mu.Lock()
	t.first, t.whole = enter, true
	t.mu.Unlock()
	t.see()
}

func (t *Terminal) see() {
	select {
	case t.wake <- struct{}{}:
	default:
	}
}

func (t *Terminal) painting() {
	for {
		select {
		case <-t.wake:
		case <-t.ended:
			return
		}
		t.turn <- struct{}{}
		if out := t.next(); len(out) > 0 {
			_, _ = t.out.Write(out) // a terminal that is gone shows nothing anyway
		}
		<-t.turn
	}
}

// next is what is to be written now. A frame of another size than the terminal's waits for the one of the right size.
func (t *Terminal) next() []byte {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.held || t.frame == "" || t.w != t.cols || t.h != t.rows {
		return nil
	}
	if t.whole {
		t.whole = false
		t.painter.Forget()
	}
	out := t.painter.Paint(t.frame, t.w, t.h)
	if t.first != "" {
		out = append([]byte(t.first), out...)
		t.first, t.set = "", true
	}
	out = append(out, t.nextTitle()...)
	if t.asking {
		out = append(out, ask...)
		t.asking, t.awaits, t.askedAt, t.answered = false, true, t.clock.Mono(), make(chan struct{})
	}
	return out
}

// The title that the window had is kept and brought back (xterm's window operations; others ignore them); OSC 2 sets one.
const (
	keepTitle = "\x1b[22;2t"
	oldTitle  = "\x1b[23;2t"
)

// nextTitle is what sets the title that is wanted.
func (t *Terminal) nextTitle() (out string) {
	if t.title == t.titled {
		return ""
	}
	if t.titled == "" {
		out = keepTitle
	}
	t.titled = t.title
	return out + "\x1b]2;" + t.title + "\a"
}

// hold has nothing written any more. It gives false where the terminal still holds up what was.
func (t *Terminal) hold() bool {
	t.mu.Lock()
	t.held = true
	t.mu.Unlock()
	select {
	case t.turn <- struct{}{}:
		<-t.turn
		return true
	case <-t.clock.After(closing):
		return false
	}
}

// giveBack makes the terminal as it was before, unless that is done. One that reads nothing is not waited for. The settings are
// whoever's is in front: in the background they are left alone, where setting them would stop the program.
func (t *Terminal) giveBack() {
	t.settings.Lock()
	defer t.settings.Unlock()
	if t.aside {
		return
	}
	t.aside = true
	t.hold()
	t.mu.Lock()
	text := ""
	if t.set {
		text = leave
	}
	if t.titled != "" {
		text += oldTitle
	}
	t.first, t.set, t.titled = enter, false, ""
	t.mu.Unlock()
	wrote := make(chan struct{})
	write := func() { _, _ = t.out.WriteString(text) }
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
	if t.front() {
		t.console.restore()
		_ = term.Restore(t.in.Fd(), t.was)
	}
}

// takeUp has the terminal again, as after Open: it may show anything, and be of another size. After Close it stays as it is.
func (t *Terminal) takeUp(send func(tea.Msg)) {
	t.settings.Lock()
	select {
	case <-t.ended:
		t.settings.Unlock()
		return
	default:
	}
	// Where it was not given back, as before a SIGSTOP, the state to go back to stays the one before the program.
	if now, err := term.MakeRaw(t.in.Fd()); err == nil && t.aside {
		t.was = now
	}
	_ = t.console.prepare(t.in, t.out)
	t.aside = false
	t.mu.Lock()
	t.held, t.first = false, enter
	t.mu.Unlock()
	t.settings.Unlock()
	t.measure(send)
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

// Gone is closed where the terminal will tell nothing any more: it was closed, and no signal has said so.
func (t *Terminal) Gone() <-chan struct{} { return t.gone }

// Close gives the terminal back as it was.
func (t *Terminal) Close() {
	t.hearOut()
	close(t.ended)
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
		case <-t.clock.After(timely - since):
		}
	}
}
