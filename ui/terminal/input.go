package terminal

import (
	"bytes"
	"io"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
	"github.com/muesli/cancelreader"

	"example.org/vatside/ui/guard"
)

// How long the rest of a sequence is waited for; what comes as one burst; how soon after the window came to the front a click
// belongs to that; and how soon an answer counts at once.
const (
	escKey      = 120 * time.Millisecond
	escOrAnswer = 250 * time.Millisecond // while an answer is awaited, an Esc may be its beginning
	slowLine    = 2 * time.Second
	mostKeys    = 8 // characters in one read; nobody presses more at once
	burstGap    = 50 * time.Millisecond
	bringing    = 300 * time.Millisecond
	timely      = 100 * time.Millisecond
	mostAwaited = 10 * time.Second
)

// reader reads what the terminal sends, until the terminal is closed.
func (t *Terminal) reader() (io.Reader, error) {
	r, err := cancelreader.NewReader(t.in)
	if err != nil {
		return nil, err
	}
	t.cancel = func() { r.Cancel() }
	return r, nil
}

// A listener hands on what the terminal tells.
type listener struct {
	t       *Terminal
	parser  parser
	burst   time.Duration // when the last burst came, on the clock
	bursts  bool
	away    bool // the window is not in front
	fronted time.Duration
}

// listen sends what is read.
func (t *Terminal) listen(from io.Reader, send func(tea.Msg)) {
	chunks := make(chan []byte)
	guard.Go("reader", func() {
		defer close(chunks)
		buf := make([]byte, 4096)
		for {
			n, err := from.Read(buf)
			if n > 0 {
				select {
				case chunks <- bytes.Clone(buf[:n]):
				case <-t.ended:
					return
				}
			}
			if err != nil && !t.again() {
				select {
				case <-t.ended: // this is why
				default:
					close(t.gone)
				}
				return
			}
		}
	})
	l := listener{t: t, fronted: -bringing}
	for {
		var over <-chan time.Time
		if d, waits := l.patience(); waits {
			over = t.clock.After(d)
		}
		select {
		case b, more := <-chunks:
			if !more {
				return
			}
			for _, msg := range l.hear(b) {
				t.hand(msg, send)
			}
		case <-over:
			for _, msg := range l.lapse() {
				t.hand(msg, send)
			}
		}
	}
}

// unread is how long nothing is read where reading has failed though the terminal is there.
const unread = 100 * time.Millisecond

// again waits, and tells whether to read on after a read that failed: where the terminal is there, only that read was ended, by
// ctrl+D while the terminal was not raw, or because another program was in front.
func (t *Terminal) again() bool {
	select {
	case <-t.ended: // this is why
		return false
	default:
	}
	if _, err := term.GetState(t.in.Fd()); err != nil {
		return false
	}
	select {
	case <-t.ended:
		return false
	case <-t.clock.After(unread):
		return true
	}
}

// hand does what the terminal itself has to do, and sends on all else.
func (t *Terminal) hand(msg tea.Msg, send func(tea.Msg)) {
	if k, is := msg.(tea.KeyMsg); is && !k.Paste {
		switch k.Type {
		case tea.KeyCtrlZ:
			select {
			case t.stops <- struct{}{}:
			default:
			}
			return
		case tea.KeyCtrlL:
			t.repaint()
			return
		}
	}
	send(msg)
}

// patience is how long the rest of what came is waited for; false: as long as it takes.
func (l *listener) patience() (time.Duration, bool) {
	l.await()
	switch l.parser.waits() {
	case aMoment:
		if l.parser.awaits {
			return escOrAnswer, true
		}
		return escKey, true
	case long:
		return slowLine, true
	}
	return 0, false
}

// await has the parser know whether an answer is to come.
func (l *listener) await() {
	t := l.t
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.awaits && t.clock.Mono()-t.askedAt > mostAwaited {
		t.awaits = false
		close(t.answered)
	}
	l.parser.awaits = t.awaits
}

// hear is what a read tells.
func (l *listener) hear(b []byte) []tea.Msg {
	l.await()
	return l.sift(l.parser.take(b))
}

// lapse is what the read before tells, now that no more came.
func (l *listener) lapse() []tea.Msg { return l.sift(l.parser.lapse()) }

// sift leaves out what is nothing for the screens.
func (l *listener) sift(msgs []tea.Msg) (out []tea.Msg) {
	now := l.t.clock.Mono()
	msgs = l.together(msgs, now)
	for _, msg := range msgs {
		switch m := msg.(type) {
		case tea.FocusMsg:
			l.away, l.fronted = false, now
		case tea.BlurMsg:
			l.away = true
		case tea.KeyMsg: // only the window in front gets one, though nothing was told of that, as while the program was stopped
			l.away = false
			out = append(out, m)
		case tea.MouseMsg:
			if m.Action == tea.MouseActionPress && !l.away && now-l.fronted >= bringing {
				out = append(out, m)
			}
		case Ground:
			l.t.mu.Lock()
			m.Late = now-l.t.askedAt > timely
			l.t.mu.Unlock()
			out = append(out, m)
		default:
			out = append(out, msg)
		}
	}
	if t := l.t; !l.parser.awaits {
		t.mu.Lock()
		if t.awaits {
			t.awaits = false
			close(t.answered)
		}
		t.mu.Unlock()
	}
	return out
}

// together makes a burst of characters in one read a paste: some terminals put no brackets about one. What comes right behind a
// burst belongs to it.
func (l *listener) together(msgs []tea.Msg, now time.Duration) []tea.Msg {
	n := 0
	for _, msg := range msgs {
		if k, is := msg.(tea.KeyMsg); is && !k.Paste {
			n += len(characters(k))
		}
	}
	follows := l.bursts && now-l.burst < burstGap
	if n == 0 || n <= mostKeys && !follows {
		return msgs
	}
	l.bursts, l.burst = true, now
	text := tea.KeyMsg{Type: tea.KeyRunes, Paste: true}
	var out []tea.Msg
	for _, msg := range msgs {
		if k, is := msg.(tea.KeyMsg); is && !k.Paste {
			text.Runes = append(text.Runes, characters(k)...)
			continue
		}
		out = append(out, msg)
	}
	return append(out, text)
}

// characters are what a key types.
func characters(k tea.KeyMsg) []rune {
	switch k.Type {
	case tea.KeyRunes, tea.KeySpace:
		return k.Runes
	case tea.KeyEnter, tea.KeyCtrlJ:
		return []rune{'\n'}
	case tea.KeyTab:
		return []rune{'\t'}
	}
	return nil
}
