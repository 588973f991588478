package terminal

import (
	"strings"

	"example.org/vatside/model/wording"
)

// notices are the ways in which a terminal shows a word on the desktop.
type notices int

const (
	noNotices  notices = iota
	oscNine            // OSC 9, iTerm2's
	osc777             // OSC 777, rxvt's
	kittyNotes         // OSC 99, kitty's
)

// noticesOf is how the terminal that these variables tell of takes a notice. Others may print what they do not know, and a program
// that stands between may swallow it: they get none. Which take which is from memory.
func noticesOf(getenv func(string) string) notices {
	name := getenv("TERM")
	switch program := getenv("TERM_PROGRAM"); {
	case getenv("TMUX") != "" || getenv("STY") != "" || strings.HasPrefix(name, "screen") || strings.HasPrefix(name, "tmux"):
		return noNotices
	case name == "xterm-kitty":
		return kittyNotes
	case name == "foot", strings.HasPrefix(name, "foot-"), strings.HasPrefix(name, "rxvt-unicode"):
		return osc777
	case program == "iTerm.app", program == "WezTerm", program == "ghostty":
		return oscNine
	}
	return noNotices
}

// Knows tells the terminal's kind by its variables: whether it takes notices.
func (t *Terminal) Knows(getenv func(string) string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.takes = noticesOf(getenv)
}

// Notify shows a word on the desktop, where the terminal is known to take one. It never waits; a newer one takes the place of one that
// is not written yet.
func (t *Terminal) Notify(words wording.Shown) { t.want(func() { t.notice = t.takes.written(words) }) }

// written is a notice as the terminal reads it. A Shown has no controls; a semicolon would end its field.
func (n notices) written(words wording.Shown) string {
	text := strings.ReplaceAll(words.String(), ";", ",")
	if text == "" {
		return ""
	}
	switch n {
	case oscNine: // "4," at its beginning would be another command: the program's name stands before it
		return "\x1b]9;vatside: " + text + "\x1b\\"
	case osc777:
		return "\x1b]777;notify;vatside;" + text + "\x1b\\"
	case kittyNotes:
		return "\x1b]99;;" + text + "\x1b\\"
	}
	return ""
}

// The whole window in reverse and upright again (DECSCNM); a terminal that does not know it does nothing.
const (
	reversed = "\x1b[?5h"
	upright  = "\x1b[?5l"
)

// Reverse has the whole window reversed, or upright. It never waits.
func (t *Terminal) Reverse(on bool) {
	t.mu.Lock()
	changes := t.reverse != on
	t.reverse = on
	t.mu.Unlock()
	if changes {
		t.see()
	}
}

// nextReverse is what reverses the window, or sets it upright.
func (t *Terminal) nextReverse() string {
	if t.reverse == t.reversed {
		return ""
	}
	t.reversed = t.reverse
	if t.reversed {
		return reversed
	}
	return upright
}
