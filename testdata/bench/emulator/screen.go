// Package emulator is a terminal without a window: charmbracelet's x/vt, and what that does not tell. It takes what a program
// writes and tells what is seen, cell by cell, and what the program left behind. It answers nothing.
//
// The tests beside it hold what our programs write, and compare it with tmux. What none of them writes x/vt v0.1.0 does otherwise than
// xterm: a wide character at the edge with wrapping on, or torn by another; moves by 0, or into a region that scrolls from outside;
// CSI 1 J and 3 J, and 2 J with a ground; putting in and taking out where characters are wide; IRM, NEL, DECSTR, mode 47, and REP of
// what is not ASCII or was followed by a control.
package emulator

import (
	"bytes"
	"io"
	"strings"
	"unicode/utf8"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"

	"example.org/vatside/model/wording"
)

// Screen is a terminal. The exported fields are set before the first Write.
type Screen struct {
	NoBCE  bool // what CSI K erases gets the terminal's own ground, not the one in use
	NoSync bool // mode 2026 is not known

	vt       *vt.Emulator
	rest     []byte // written, and not given to vt yet: while mode 2026 is set nothing is
	title    string
	titles   []string
	pen      uv.Style // what is written next is drawn with
	modes    map[ansi.Mode]bool
	margins  bool // DECSTBM let only some rows scroll
	keyboard int  // keyboard protocols on the stack of CSI > u
	modified bool // CSI > 4 ; n m is in force
}

// New is an empty screen.
func New(cols, rows int) *Screen {
	s := &Screen{vt: vt.NewEmulator(cols, rows), modes: map[ansi.Mode]bool{}}
	s.vt.SetScrollbackSize(1)                // else it keeps the last 10,000 lines
	_ = s.vt.InputPipe().(io.Closer).Close() // an answer would wait for its reader
	s.watch()
	return s
}

// Mode 2026, and what begins and ends it: all that lies between them is shown at once.
const sync = ansi.DECMode(2026)

var begins, ends = []byte("\x1b[?2026h"), []byte("\x1b[?2026l")

// Write takes output.
func (s *Screen) Write(p []byte) (int, error) {
	s.rest = append(s.rest, p...)
	return len(p), nil
}

// settle shows what was written: not before it is asked for, as the end of a piece may be half of a character.
func (s *Screen) settle() {
	for len(s.rest) > 0 {
		held := s.modes[sync]
		mark := wording.Either(held, ends, begins)
		switch at := bytes.Index(s.rest, mark); {
		case at >= 0 && !s.NoSync:
			s.show(at + len(mark))
		case held:
			return
		default:
			s.show(whole(s.rest))
			return
		}
	}
}

// whole is how many bytes there are before a character or a begin of mode 2026 that has not come to its end.
func whole(p []byte) int {
	for n := max(0, len(p)-len(begins)); n < len(p); n++ {
		if utf8.RuneStart(p[n]) && !utf8.FullRune(p[n:]) || bytes.HasPrefix(begins, p[n:]) {
			return n
		}
	}
	return len(p)
}

// show gives vt the first n bytes that it has not.
func (s *Screen) show(n int) {
	_, _ = s.vt.Write(bytes.ToValidUTF8(s.rest[:n], []byte("\ufffd"))) // of what is no UTF-8 it shows nothing
	s.rest = s.rest[n:]
}

// Resize makes it larger or smaller. What lies outside is lost, the region that scrolls is the whole screen again.
func (s *Screen) Resize(cols, rows int) {
	s.settle()
	s.vt.Resize(cols, rows)
	s.margins = false
}

// Text is what is shown, a line a row, without the blanks behind it.
func (s *Screen) Text() string {
	s.settle()
	var b, row strings.Builder
	for y := range s.vt.Height() {
		row.Reset()
		for x := range s.vt.Width() {
			row.WriteString(s.vt.CellAt(x, y).Content)
		}
		b.WriteString(strings.TrimRight(row.String(), " "))
		b.WriteByte('\n')
	}
	return b.String()
}

// Cell is what is shown in a place; columns and rows count from 0.
func (s *Screen) Cell(x, y int) Cell {
	s.settle()
	c := s.vt.CellAt(x, y)
	style := c.Style
	if c.Width == 0 && x > 0 {
		style = s.vt.CellAt(x-1, y).Style
	}
	return Cell{c.Content, c.Width, lookOf(style)}
}

// Cursor is the cursor's place, from 0, and whether it is shown.
func (s *Screen) Cursor() (x, y int, shown bool) {
	s.settle()
	at := s.vt.CursorPosition()
	return at.X, at.Y, s.Mode(25)
}

// Title is what the window is called.
func (s *Screen) Title() string {
	s.settle()
	return s.title
}

// Mode tells whether a private mode is set.
func (s *Screen) Mode(n int) bool {
	s.settle()
	return s.modes[ansi.DECMode(n)]
}
