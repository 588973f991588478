package emulator

import (
	"slices"
	"testing"
)

// While mode 2026 is set nothing that is shown changes; then all of it does (the specification of synchronised output, from memory).
func TestSynchronised(t *testing.T) {
	s := New(6, 2)
	write(s, "one\x1b[?2026h\r\x1b[2Jtwo\x1b[?25l\x1b[?2026h\x1b[1m!")
	x, y, shown := s.Cursor()
	if s.Text() != "one\n\n" || s.Cell(3, 0) != empty || x != 3 || y != 0 || !shown {
		t.Errorf("shown half done: %q, cursor %d %d %t", s.Text(), x, y, shown)
	}
	s.Resize(2, 3)
	if s.Text() != "on\n\n\n" {
		t.Errorf("after a change of size: %q", s.Text())
	}
	s.Resize(6, 2)
	write(s, "\x1b[1;1Htwo!\x1b[?2026l")
	if x, y, shown := s.Cursor(); s.Text() != "two!\n\n" || s.Cell(3, 0).Attrs != Bold || x != 4 || y != 0 || shown {
		t.Errorf("afterwards: %q, cursor %d %d %t", s.Text(), x, y, shown)
	}
	write(s, "\x1b[?20")
	if s.Text() != "two!\n\n" {
		t.Errorf("with half of the next: %q", s.Text())
	}
	if write(s, "26h\r\x1b[2Jthree"); s.Text() != "two!\n\n" {
		t.Errorf("within it: %q", s.Text())
	}
	s = New(6, 1)
	s.NoSync = true
	write(s, "\x1b[?2026hone")
	if s.Text() != "one\n" || len(s.Left()) > 0 {
		t.Errorf("a terminal without it: %q, left %v", s.Text(), s.Left())
	}
}

// Titles and their stack (xterm, OSC 0 and 2, XTWINOPS 22 and 23).
func TestTitle(t *testing.T) {
	s := New(6, 1)
	for _, c := range []struct{ out, want string }{
		{"\x1b[23;2t", ""}, {"\x1b[22;2t", ""}, {"\x1b]2;one\x07", "one"}, {"\x1b[22;0t\x1b]0;t;w o\x1b\\", "t;w o"}, {"\x1b[22;1t\x1b]1;icon\x07", "t;w o"},
		{"\x1b[23;1t", "t;w o"}, {"\x1b[23;0t", "one"}, {"\x1b[23;2t", ""},
	} {
		write(s, c.out)
		if s.Title() != c.want {
			t.Errorf("%q: %q, not %q", c.out, s.Title(), c.want)
		}
	}
}

// What a program left behind.
func TestLeft(t *testing.T) {
	for _, c := range []struct{ set, back, want string }{
		{"\x1b[?1049h", "\x1b[?1049l", "alternate screen"},
		{"\x1b[?1047h", "\x1b[?1047l", "alternate screen"},
		{"\x1b[?25l", "\x1b[?25h", "hidden cursor"},
		{"\x1b[?7l", "\x1b[?7h", "no wrapping"},
		{"\x1b[?1002;1006h", "\x1b[?1006l\x1b[?1002l", "mouse"},
		{"\x1b[?1004h", "\x1b[?1004l", "focus"},
		{"\x1b[?2004h", "\x1b[?2004l", "bracketed paste"},
		{"\x1b[?2026h", "\x1b[?2026l", "synchronised output"},
		{"\x1b[?1h", "\x1b[?1l", "application cursor keys"},
		{"\x1b[?6h", "\x1b[?6l", "origin mode"},
		{"\x1b[?2048h", "\x1b[?2048l", "mode 2048"},
		{"\x1b[4h", "\x1b[4l", "insert mode"},
		{"\x1b=", "\x1b>", "application keypad"},
		{"\x1b[2;3r", "\x1b[r", "scroll region"},
		{"\x1b[1;31m", "\x1b[m", "look (bold, ink 1 of 16)"},
		{"\x1b[?1049h\x1b[48;2;1;2;3m\x1b[?1049l", "\x1b[m", "look (ground #010203)"},
		{"\x1b[22;2t\x1b]2;one\x07", "\x1b[23;2t", "title"},
		{"\x1b[22;2t", "\x1b[23;2t", "title"},
		{"\x1b[5 q", "\x1b[0 q", "cursor shape"},
		{"\x1b[>1u", "\x1b[<u", "keyboard protocol"},
		{"\x1b[>4;2m", "\x1b[>4m", "keyboard protocol"},
	} {
		s := New(6, 3)
		if left := s.Left(); len(left) > 0 {
			t.Fatalf("a new one: %q", left)
		}
		write(s, c.set)
		if got := s.Left(); !slices.Equal(got, []string{c.want}) {
			t.Errorf("%q: %q, not %q", c.set, got, c.want)
		}
		write(s, c.back)
		if got := s.Left(); len(got) > 0 {
			t.Errorf("%q and %q: left %q", c.set, c.back, got)
		}
	}
	s := New(6, 3)
	write(s, "\x1b[?7;1049;2004h\x1b[?25l\x1b[?7l")
	if got, want := s.Left(), []string{"alternate screen", "bracketed paste", "hidden cursor", "no wrapping"}; !slices.Equal(got, want) {
		t.Errorf("%q, not %q", got, want)
	}
	write(s, "\x1bc")
	if got := s.Left(); len(got) > 0 {
		t.Errorf("after RIS: %q", got)
	}
}
