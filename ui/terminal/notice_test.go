package terminal

import (
	"strings"
	"testing"

	"example.org/vatside/model/wording"
)

// A notice goes only to terminals that are known to take it, none through a program in between, and holds no control.
func TestNotices(t *testing.T) {
	for _, c := range []struct{ env, want string }{
		{"TERM=xterm-256color", ""}, {"TERM=xterm-kitty", "\x1b]99;;A1 out, then B1\x1b\\"}, {"TERM=xterm-kitty TMUX=/tmp/x", ""},
		{"TERM=foot", "\x1b]777;notify;vatside;A1 out, then B1\x1b\\"}, {"TERM=tmux-256color TERM_PROGRAM=WezTerm", ""},
		{"TERM=xterm-256color TERM_PROGRAM=WezTerm", "\x1b]9;vatside: A1 out, then B1\x1b\\"}, {"TERM=foot-extra STY=1", ""}, {"", ""},
	} {
		tty := shown(3, 1)
		tty.Knows(func(k string) string {
			for _, pair := range strings.Fields(c.env) {
				if key, value, _ := strings.Cut(pair, "="); key == k {
					return value
				}
			}
			return ""
		})
		tty.Paint([]string{"a"}, 3, 1)
		tty.next()
		tty.Notify(wording.Show("A1 out; then B1"))
		if got := string(tty.next()); got != c.want {
			t.Errorf("%s: %q is written", c.env, got)
		}
		tty.Notify(wording.Show("\x1b]0;title\a\x9b31m"))
		if got := string(tty.next()); strings.Count(got, "\x1b") != strings.Count(c.want, "\x1b") || strings.Contains(got, "\a") || strings.Contains(got, "\u009b") {
			t.Errorf("%s: of a hostile word %q is written", c.env, got)
		}
	}
}

// The window is put in reverse once, set upright once, and given back upright.
func TestTheWindowInReverse(t *testing.T) {
	tty := shown(3, 1)
	tty.Paint([]string{"a"}, 3, 1)
	tty.next()
	for _, c := range []struct {
		on   bool
		want string
	}{{true, reversed}, {true, ""}, {false, upright}, {false, ""}, {true, reversed}} {
		tty.Reverse(c.on)
		if got := string(tty.next()); got != c.want {
			t.Errorf("reverse %v writes %q", c.on, got)
		}
	}
	tty.leaves()
	if got := string(tty.givingBack()); !strings.HasPrefix(got, upright) || strings.Count(got, "?5l") != 1 {
		t.Errorf("it is given back by %q", got)
	}
}
