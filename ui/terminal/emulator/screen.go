// Package emulator is a terminal without a window: it takes what a program writes and tells what is seen, cell by cell, and what
// the program left behind. Where terminals differ it does as xterm does. Only tests and benches use it.
package emulator

import (
	"slices"
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// Screen is a terminal. The exported fields are set before the first Write.
type Screen struct {
	NoBCE  bool         // what is erased gets the terminal's own ground, not the one in use
	NoSync bool         // mode 2026 is not known
	Ground string       // the answer to OSC 11 ?, such as "rgb:1e1e/1e1e/1e1e"; empty: there is none
	Reply  func(string) // called within Write with what the terminal answers to a query; nil: it is silent

	cols, rows int
	cells      [][]Cell // the screen in use
	other      [][]Cell // the one not in use: the first, or the alternate one; nil: nothing was ever on it
	cursor
	saved     [2]cursor // by DECSC, of the first screen and the alternate one
	top, foot int       // rows that scroll, foot excluded
	modes     map[int]bool
	insert    bool   // IRM
	charset   byte   // what SCS chose as G0
	shape     string // the cursor's, as DECSCUSR chose it
	keyboards int    // keyboard protocols on the stack of CSI > u
	modified  bool   // CSI > 4 ; n m is in force
	keypad    bool   // DECKPAM
	title     string
	titles    []string
	held      *held  // what is shown while mode 2026 is set
	printed   *Cell  // what was printed last, while a mark can still join it
	repeat    string // what REP repeats: the character right before it
	rest      []byte // the beginning of a sequence that is not there whole
	glyphs    map[rune]glyph
}

// cursor is what DECSC saves.
type cursor struct {
	x, y int
	wrap bool // the last column was written: the next character goes to the next row
	look Look
}

type held struct {
	cells  [][]Cell
	cursor cursor
	shown  bool
}

type glyph struct {
	text  string
	width int
}

// New is an empty screen.
func New(cols, rows int) *Screen {
	s := &Screen{glyphs: map[rune]glyph{}}
	s.cols, s.rows = cols, rows
	s.reset()
	return s
}

// reset is RIS.
func (s *Screen) reset() {
	s.cells, s.other, s.held = nil, nil, nil
	s.modes = map[int]bool{7: true, 25: true}
	s.cursor, s.saved = cursor{}, [2]cursor{}
	s.insert, s.charset, s.shape, s.keyboards, s.modified, s.keypad = false, 'B', "", 0, false, false
	s.forget()
	s.repeat = ""
	s.Resize(s.cols, s.rows)
}

// Resize makes it larger or smaller. What lies outside is lost, the region that scrolls is the whole screen again.
func (s *Screen) Resize(cols, rows int) {
	fit := func(cells [][]Cell) [][]Cell {
		out := blanks(cols, rows)
		for y := range out {
			if y < len(cells) {
				copy(out[y], cells[y])
				if out[y][cols-1].Width == 2 {
					out[y][cols-1] = empty
				}
			}
		}
		return out
	}
	s.cols, s.rows, s.cells = cols, rows, fit(s.cells)
	if s.other != nil {
		s.other = fit(s.other)
	}
	s.top, s.foot, s.wrap = 0, rows, false
	s.x, s.y = min(s.x, cols-1), min(s.y, rows-1)
	s.forget()
	if s.held != nil {
		s.held.cells = fit(s.held.cells)
	}
}

func (s *Screen) seen() [][]Cell {
	if s.held != nil {
		return s.held.cells
	}
	return s.cells
}

func blanks(cols, rows int) [][]Cell {
	out := make([][]Cell, rows)
	all := slices.Repeat([]Cell{empty}, cols*rows)
	for y := range out {
		out[y], all = all[:cols:cols], all[cols:]
	}
	return out
}

// Text is what is shown, a line a row, without the blanks behind it.
func (s *Screen) Text() string {
	var b, row strings.Builder
	for _, cells := range s.seen() {
		row.Reset()
		for _, c := range cells {
			row.WriteString(c.Text)
		}
		b.WriteString(strings.TrimRight(row.String(), " "))
		b.WriteByte('\n')
	}
	return b.String()
}

// Cell is what is shown in a place; columns and rows count from 0.
func (s *Screen) Cell(x, y int) Cell { return s.seen()[y][x] }

// Cursor is the cursor's place, from 0, and whether it is shown.
func (s *Screen) Cursor() (x, y int, shown bool) {
	if s.held != nil {
		return s.held.cursor.x, s.held.cursor.y, s.held.shown
	}
	return s.x, s.y, s.modes[25]
}

// Title is what the window is called.
func (s *Screen) Title() string { return s.title }

// Mode tells whether a private mode is set.
func (s *Screen) Mode(n int) bool { return s.modes[n] }

// hold keeps what is shown until mode 2026 is set back.
func (s *Screen) hold() {
	h := held{cursor: s.cursor, shown: s.modes[25]}
	for _, row := range s.cells {
		h.cells = append(h.cells, slices.Clone(row))
	}
	s.held = &h
}

const ascii = " !\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~"

// print shows one character at the cursor.
func (s *Screen) print(r rune) {
	if r >= 0x300 && s.join(r) {
		return
	}
	if r < 0x7f {
		s.put(ascii[r-' ':r-' '+1], 1)
		return
	}
	g, ok := s.glyphs[r]
	if !ok {
		g = glyph{string(r), ansi.StringWidth(string(r))}
		s.glyphs[r] = g
	}
	if g.width > 0 {
		s.put(g.text, g.width)
	}
}

const joiner = 0x200d // ZWJ

// join puts a mark to the character that was just printed, where both are one grapheme. As the screens measure, one that two
// signs of one cell make may take two cells; terminals without graphemes keep them apart.
func (s *Screen) join(r rune) bool {
	if s.printed == nil || r >= 0x2500 && r < 0x2600 { // frames and blocks join nothing
		return false
	}
	text := s.printed.Text + string(r)
	if text[0] < 0x80 { // of these the decoder parts marks
		if !unicode.In(r, unicode.M) && r != joiner {
			return false
		}
	} else if _, _, n, _ := ansi.GraphemeWidth.DecodeSequenceInString(text, 0, nil); n < len(text) {
		return false
	}
	s.printed.Text, s.repeat = text, text
	if width(text) > s.printed.Width && !s.wrap {
		s.printed.Width = 2
		s.tear(s.x, s.x+1)
		s.cells[s.y][s.x] = Cell{Look: s.printed.Look}
		s.forward(1)
	}
	return true
}

// put shows a grapheme at the cursor.
func (s *Screen) put(text string, width int) {
	if width > s.cols {
		return
	}
	if s.wrap || s.x+width > s.cols {
		switch {
		case s.modes[7]:
			s.x, s.wrap = 0, false
			s.down()
		case s.x+width > s.cols:
			return
		}
	}
	if s.insert {
		s.shift(width)
	}
	s.tear(s.x, s.x+width)
	row := s.cells[s.y]
	row[s.x] = Cell{text, width, s.look}
	if width == 2 {
		row[s.x+1] = Cell{Look: s.look}
	}
	s.printed, s.repeat = &row[s.x], text
	s.wrap = false
	s.forward(width)
}

func (s *Screen) forward(n int) {
	if s.x += n; s.x >= s.cols {
		s.x, s.wrap = s.cols-1, true
	}
}

// forget makes that no mark joins what was printed before.
func (s *Screen) forget() { s.printed = nil }

// tear makes blanks of the other halves of wide characters that cells [from, to) of the cursor's row belong to.
func (s *Screen) tear(from, to int) {
	row := s.cells[s.y]
	if from > 0 && from < s.cols && row[from].Width == 0 {
		row[from-1] = empty
	}
	if to < s.cols && row[to].Width == 0 {
		row[to] = empty
	}
}

// blank is what an erased cell becomes.
func (s *Screen) blank() Cell {
	if s.NoBCE {
		return empty
	}
	return Cell{Text: " ", Width: 1, Look: Look{Ground: s.look.Ground}}
}

// erase makes blanks of cells [from, to) of the cursor's row.
func (s *Screen) erase(from, to int) {
	from, to = max(from, 0), min(to, s.cols)
	s.tear(from, to)
	fill := s.blank()
	for x := from; x < to; x++ {
		s.cells[s.y][x] = fill
	}
}

// shift makes room for n cells at the cursor, or takes -n out.
func (s *Screen) shift(n int) {
	row := s.cells[s.y]
	s.tear(s.x, s.x)
	if n > 0 {
		n = min(n, s.cols-s.x)
		copy(row[s.x+n:], row[s.x:])
		if row[s.cols-1].Width == 2 {
			row[s.cols-1] = empty
		}
		s.fill(s.x, s.x+n)
		return
	}
	n = min(-n, s.cols-s.x)
	s.tear(s.x, s.x+n)
	copy(row[s.x:], row[s.x+n:])
	s.fill(s.cols-n, s.cols)
}

func (s *Screen) fill(from, to int) {
	fill := s.blank()
	for x := from; x < to; x++ {
		s.cells[s.y][x] = fill
	}
}

// down is a line feed.
func (s *Screen) down() {
	switch {
	case s.y == s.foot-1:
		s.scroll(s.top, 1)
	case s.y < s.rows-1:
		s.y++
	}
}

// scroll moves the rows from one on, to the foot of the region that scrolls, up by n or down by -n.
func (s *Screen) scroll(from, n int) {
	rows := s.cells[from:s.foot]
	if n > 0 {
		n = min(n, len(rows))
		moved := append(slices.Clone(rows[n:]), rows[:n]...)
		copy(rows, moved)
		rows = rows[len(rows)-n:]
	} else {
		n = min(-n, len(rows))
		moved := append(slices.Clone(rows[len(rows)-n:]), rows[:len(rows)-n]...)
		copy(rows, moved)
		rows = rows[:n]
	}
	fill := s.blank()
	for _, row := range rows {
		for x := range row {
			row[x] = fill
		}
	}
}
