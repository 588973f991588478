package terminal

import (
	"example.org/vatside/model/wording"
)

// Paint shows a frame: lines, none wider than the frame; nobody changes them any more. It never waits: a newer frame takes the
// place of one that is not painted yet.
func (t *Terminal) Paint(frame []string, width, height int) {
	t.want(func() { t.frame, t.w, t.h = frame, width, height })
}

// Behind calls a function once the newest frame is written, in place of one that waits for that still.
func (t *Terminal) Behind(f func()) { t.want(func() { t.behind = f }) }

// Title sets the window's title, which many terminals also show on their tab. It never waits.
func (t *Terminal) Title(words wording.Shown) { t.want(func() { t.title = words.String() }) }

// repaint sets the modes and paints the frame whole: another program may have written into the terminal.
func (t *Terminal) repaint() { t.want(func() { t.first, t.whole = enter, true }) }

// want changes what is to be written, and has it written.
func (t *Terminal) want(change func()) {
	t.mu.Lock()
	change()
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
		t.write(t.next)
		t.mu.Lock()
		f := t.written
		t.written = nil
		t.mu.Unlock()
		if f != nil {
			f()
		}
	}
}

// write writes what is to be written once it is its turn.
func (t *Terminal) write(what func() []byte) {
	t.turn.Lock()
	defer t.turn.Unlock()
	if out := what(); len(out) > 0 {
		_, _ = t.out.Write(out) // a terminal that is gone shows nothing anyway
	}
}

// next is what is to be written now. A frame of another size than the terminal's waits for the one of the right size.
func (t *Terminal) next() []byte {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.held || t.w != t.cols || t.h != t.rows {
		return nil
	}
	if t.behind != nil {
		t.written, t.behind = t.behind, nil
	}
	first := t.back + t.first
	t.back, t.first, t.set = "", "", true
	if t.whole {
		t.whole = false
		t.painter.Forget()
		first += plainLook // whatever the terminal drew with before
	}
	out := t.painter.Paint(t.frame, t.w, t.h)
	if first != "" {
		out = append([]byte(first), out...)
	}
	out = append(out, t.nextTitle()...)
	out = append(out, t.nextReverse()...)
	out, t.notice = append(out, t.notice...), ""
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
