package terminal

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// led is a clock that tests set.
type led struct {
	mu sync.Mutex
	at time.Duration
}

func (l *led) Mono() time.Duration {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.at
}

func (l *led) on(by time.Duration) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.at += by
}

func (l *led) After(time.Duration) <-chan time.Time { return nil }

func listening() (*listener, *led) {
	clock := &led{at: time.Hour}
	return &listener{t: &Terminal{clock: clock, stops: make(chan struct{}, 1), wake: make(chan struct{}, 1)}, fronted: -bringing}, clock
}

// asked is as after the question about the ground.
func (l *listener) asked() *listener {
	l.t.awaits, l.t.askedAt, l.t.answered = true, l.t.clock.Mono(), make(chan struct{})
	return l
}

// after hears pieces with a time between them, in which what waits no longer lapses.
func (l *listener) after(clock *led, gap time.Duration, pieces ...string) (out []tea.Msg) {
	for _, p := range pieces {
		if d, waits := l.patience(); waits && d <= gap {
			out = append(out, l.lapse()...)
		}
		clock.on(gap)
		out = append(out, l.hear([]byte(p))...)
	}
	for range 4 {
		if _, waits := l.patience(); waits {
			clock.on(slowLine)
			out = append(out, l.lapse()...)
		}
	}
	return out
}

func names(msgs []tea.Msg) (out []string) {
	for _, m := range msgs {
		switch m := m.(type) {
		case tea.KeyMsg:
			s := m.String()
			if m.Type == tea.KeySpace {
				s = "space"
			}
			out = append(out, s)
		case tea.MouseMsg:
			out = append(out, fmt.Sprintf("%s %d,%d", m, m.X, m.Y))
		default:
			out = append(out, fmt.Sprintf("%T%+v", m, m))
		}
	}
	return out
}

// The names are xterm's (ctlseqs, "PC-Style Function Keys", "Mouse Tracking") and the Linux console's, from memory.
func TestKeys(t *testing.T) {
	for _, c := range []struct{ sent, want string }{
		{"x", "x"}, {"xxq", "xxq"}, {" ", "space"}, {"a b", "a|space|b"}, {"\r", "enter"}, {"\n", "ctrl+j"}, {"\t", "tab"},
		{"\x7f", "backspace"}, {"\b", "backspace"}, {"\x03", "ctrl+c"}, {"ä°C", "ä°C"}, {"\x1b", "esc"}, {"\x1b\x1b", "esc|esc"},
		{"\x1bx", "alt+x"}, {"\x1b\r", "alt+enter"}, {"\x1b[A", "up"}, {"\x1bOB", "down"}, {"\x1b[C\x1b[D", "right|left"},
		{"\x1b[H\x1b[F\x1b[1~\x1b[4~", "home|end|home|end"}, {"\x1b[5~", "pgup"}, {"\x1b[6~", "pgdown"}, {"\x1b[3~", "delete"},
		{"\x1b[Z", "shift+tab"}, {"\x1b[1;3A", "alt+up"}, {"\x1b[1;5A", ""}, {"\x1b[6;5~", ""}, {"\x1b[15~", "f5"}, {"\x1bOP", "f1"},
		{"\x1b[[A", "f1"}, {"\x1b\x1b[A", "esc|up"}, {"\xff", ""}, {"\xc3", ""}, {"\x1b[12;3R", ""}, {"\x1b[?62;22c", ""},
		{"\x1b[?2026;2$y", ""}, {"\x1bP>|xterm(390)\x1b\\", ""}, {"\x1b]10;rgb:e0e0/e0e0/e0e0\x07", ""}, {"\x1b_Gi=1;OK\x1b\\x", "x"},
		{"\x1b[<0;5;3M", "left press 4,2"}, {"\x1b[<0;5;3m", ""}, {"\x1b[<64;5;3M", "wheel up 4,2"}, {"\x1b[<2;5;3M", "right press 4,2"},
		{"\x1b[<32;5;3M", ""}, {"\x1b[M %#", "left press 4,2"}, {"\x1b[M#%#", ""},
		{"\x1b[200~vec+\x1b[201~q", "[vec+]|q"}, {"\x1b[200~a\x1b[A\rb\x1b[201~", "[a\x1b[A\rb]"},
		{"\x1b]" + strings.Repeat("1", 5000) + "\x07q", "q"}, {"\x9b?62;22cq", "q"}, {"\x1bOq", "1"}, {"\x1bOn", "."}, {"\x9d", ""},
	} {
		whole, clock := listening()
		if got := strings.Join(names(whole.after(clock, 0, c.sent)), "|"); got != c.want {
			t.Errorf("%.60q is %q, not %q", c.sent, got, c.want)
		}
		if len(c.sent) > 60 || strings.HasPrefix(c.sent, "\x1b\x1b") || strings.Count(c.sent, "\x1b") == 0 {
			continue
		}
		for _, gap := range []time.Duration{0, escKey - 1} { // any byte may come by itself, on a slow line
			l, clock := listening()
			if got := strings.Join(names(l.after(clock, gap, strings.Split(c.sent, "")...)), "|"); got != c.want && len(c.sent) > 2 {
				t.Errorf("%q, a byte every %v, is %q, not %q", c.sent, gap, got, c.want)
			}
		}
	}
}

// What a terminal answers is never a key, in however many pieces and however late it comes.
func TestAnswersAreNoKeys(t *testing.T) {
	answers := []string{
		"\x1b]11;rgb:1e1e/1e1e/2e2e\x1b\\", "\x1b]11;rgb:ffff/ffff/ffff\x07", "\x1b]11;rgba:ff/ff/ff/ff\x1b\\", "\x1b[?62;22c", "\x1b[12;3R",
		"\x1b[?2026;2$y", "\x1b[0n", "\x1b]10;rgb:0/0/0\x07", "\x1b]lvatside q\x1b\\", "\x9b?62;22c", "\xc2\x9b?62;22c",
		"\x9d11;rgb:ffff/ffff/ffff\x9c", "\u009d11;rgb:1e1e/1e1e/2e2e\u009c", "\x90>|xterm(390)q\x9c", "\x1bP>|q\u009c",
	}
	for _, answer := range answers {
		for first := range len(answer) {
			for second := first; second < len(answer); second++ {
				for _, gap := range []time.Duration{0, 60 * time.Millisecond, escOrAnswer - 1} {
					l, clock := listening()
					l.asked()
					for _, msg := range l.after(clock, gap, answer[:first], answer[first:second], answer[second:]) {
						g, ground := msg.(Ground)
						if !ground {
							t.Fatalf("%q in pieces at %d and %d, %v between: %q", answer, first, second, gap, names([]tea.Msg{msg}))
						}
						if strings.Contains(answer, "1e1e") && (g.R != 0x1e1e || g.G != 0x1e1e || g.B != 0x2e2e) ||
							!strings.Contains(answer, "1e1e") && (g.R != 0xffff || g.G != 0xffff || g.B != 0xffff) {
							t.Fatalf("%q is %+v", answer, g)
						}
					}
				}
			}
		}
	}
	// Its Esc became a key before the rest came, in one piece or two. (Of "]" by itself nobody can tell.)
	for answer, want := range map[string]string{answers[0]: "esc|terminal.Ground{R:7710 G:7710 B:11822 Late:true}|q", answers[3]: "esc|q"} {
		for cut := 3; cut <= len(answer); cut++ {
			l, clock := listening()
			got := l.asked().after(clock, escOrAnswer, "\x1b", answer[1:cut], answer[cut:], "q")
			if got := strings.Join(names(got), "|"); got != want {
				t.Errorf("%q behind its Esc, cut at %d: %q", answer, cut, got)
			}
		}
	}
	// Late, after an Esc that nobody took for the beginning of an answer; and keys around it are keys.
	l, clock := listening()
	l.asked()
	got := l.after(clock, 3*time.Second, "k", "\x1b]11;rgb:1e1e/", "1e1e/2e2e\x1b", "\\q")
	if want := []tea.Msg{
		tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("k")},
		Ground{R: 0x1e1e, G: 0x1e1e, B: 0x2e2e, Late: true},
		tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("q")},
	}; !reflect.DeepEqual(got, want) {
		t.Errorf("%q", names(got))
	}
}

func TestGroundInTime(t *testing.T) {
	for gap, late := range map[time.Duration]bool{0: false, timely: false, timely + 1: true} {
		l, clock := listening()
		l.asked()
		got := l.after(clock, gap, "\x1b]11;rgb:00/80/ff\a")
		if want := []tea.Msg{Ground{G: 0x8080, B: 0xffff, Late: late}}; !reflect.DeepEqual(got, want) {
			t.Errorf("after %v: %+v, not %+v", gap, got, want)
		}
	}
}

// An Esc is one soon, though an answer is awaited; and the answer that never comes is not awaited for ever.
func TestEscWhileAnAnswerIsAwaited(t *testing.T) {
	l, _ := listening()
	l.asked().hear([]byte("\x1b"))
	if d, waits := l.patience(); !waits || d != escOrAnswer {
		t.Errorf("an Esc is waited for %v", d)
	}
	l.hear([]byte("[?62c")) // its kind: so it will not tell of its ground
	l.hear([]byte("\x1b"))
	if d, waits := l.patience(); !waits || d != escKey {
		t.Errorf("an Esc is waited for %v", d)
	}
	l, clock := listening()
	l.asked()
	clock.on(mostAwaited + 1)
	l.hear([]byte("\x1b"))
	if d, _ := l.patience(); d != escKey {
		t.Errorf("an answer is awaited for ever: %v", d)
	}
	if got := names(l.after(clock, slowLine, "]", "q")); !slices.Equal(got, []string{"esc", "]", "q"}) {
		t.Errorf("%q", got)
	}
}

// More characters in one read than anybody presses are a paste, with what comes right behind them.
func TestBurst(t *testing.T) {
	l, clock := listening()
	for _, c := range []struct {
		gap  time.Duration
		sent string
		want string
	}{
		{time.Second, "xxxxxxxx", "xxxxxxxx"},
		{time.Second, "vec+ vec+", "[vec+ vec+]"},
		{10 * time.Millisecond, "q", "[q]"},
		{time.Second, "q", "q"},
		{time.Second, "garden\rbin", "[garden\nbin]"},
		{time.Second, "garden\nbin\tx", "[garden\nbin\tx]"},
		{time.Second, "\x1b[A\x1b[A\x1b[A\x1b[A\x1b[A\x1b[A\x1b[A\x1b[A\x1b[A", "up|up|up|up|up|up|up|up|up"},
		{time.Second, "\x1b[200~vec+", ""},
		{time.Second, "\x1b[201", ""},
		{time.Second, "~q", "[vec+]|q"},
		{time.Second, "\x1b[200~a\x1b[200~b\x1b[201~vq\r\x1b[201~", "[a\x1b[200~b]|[vq\n]"}, // a paste in a paste
		{time.Second, "\x1b[201~", ""},
	} {
		clock.on(c.gap)
		if got := strings.Join(names(l.hear([]byte(c.sent))), "|"); got != c.want {
			t.Errorf("%.60q is %q, not %q", c.sent, got, c.want)
		}
	}
	// Of a paste without measure a part is kept.
	l.hear([]byte("\x1b[200~"))
	for range 20 {
		l.hear([]byte(strings.Repeat("x", 4096)))
	}
	if got := l.hear([]byte("\x1b[201~")); len(got) != 1 || len(got[0].(tea.KeyMsg).Runes) != mostPaste {
		t.Errorf("a long paste is %d messages", len(got))
	}
	// A paste whose end never comes holds nothing up for long.
	l.hear([]byte("\x1b[200~half"))
	if d, waits := l.patience(); !waits || d != slowLine {
		t.Errorf("its end is waited for %v, %v", d, waits)
	}
	if got := names(append(l.lapse(), l.hear([]byte("q"))...)); !slices.Equal(got, []string{"[half]", "q"}) {
		t.Errorf("%q", got)
	}
}

// A click that brings the window to the front is no click on what lies under it.
func TestClickThatBringsTheWindowToTheFront(t *testing.T) {
	l, clock := listening()
	press := []byte("\x1b[<0;5;3M")
	for _, c := range []struct {
		what string
		gap  time.Duration
		sent string
		acts bool
	}{
		{"at the start", 0, "", true},
		{"while another window is in front", 0, "\x1b[O", false},
		{"with the focus", 0, "\x1b[I", false},
		{"a moment after it", bringing - 1, "", false},
		{"later", 1, "", true},
		{"behind a key, which only the window in front gets", 0, "\x1b[Ok", true},
	} {
		l.hear([]byte(c.sent))
		clock.on(c.gap)
		if got := l.hear(press); len(got) > 0 != c.acts {
			t.Errorf("%s: %q", c.what, names(got))
		}
	}
}

func FuzzParser(f *testing.F) {
	f.Add([]byte("\x1b]11;rgb:1e1e/1e1e/2e2e\x1b\\q"), 3)
	f.Add([]byte("\x1b[200~vec+\x1b[201~\x1b[<0;5;3M\x1b[M   "), 7)
	f.Fuzz(func(t *testing.T, sent []byte, at int) {
		l, clock := listening()
		cut := 0
		if len(sent) > 0 {
			cut = max(at, -at, 0) % (len(sent) + 1)
		}
		l.asked().after(clock, 20*time.Millisecond, string(sent[:cut]), string(sent[cut:]))
		clock.on(time.Minute)
		for range 3 {
			l.lapse()
		}
		clock.on(time.Minute)
		if got := names(l.hear([]byte("q"))); !slices.Equal(got, []string{"q"}) {
			t.Errorf("after %q, cut at %d, q is %q", sent, cut, got)
		}
	})
}
