package emulator

import (
	"fmt"
	"image/color"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
)

// write writes a byte at a time: sequences come in pieces.
func write(s *Screen, out string) {
	for i := range len(out) {
		_, _ = s.Write([]byte{out[i]})
	}
}

// What is shown on 6 columns and 3 rows, and where the cursor is then, "column row" from 1. src: where the expectation stands;
// xterm is its ctlseqs, from memory.
func TestText(t *testing.T) {
	for _, c := range []struct{ name, src, out, want, at string }{
		{"lines", "ECMA-48 8.3.15 CR, 8.3.74 LF", "one\r\ntwo", "one|two|", "4 2"},
		{"a line feed keeps the column", "ECMA-48 8.3.74 LF", "one\ntwo", "one|   two|", "6 2"},
		{"back", "ECMA-48 8.3.5 BS", "ab\b\b\bc", "cb||", "2 1"},
		{"tabs", "ECMA-48 8.3.60 HT; stops of xterm", "a\tb", "a    b||", "6 1"},
		{"wrapped", "xterm, DECAWM", "abcdefgh", "abcdef|gh|", "3 2"},
		{"the wrap is pending", "xterm, DECAWM", "abcdef", "abcdef||", "6 1"},
		{"a pending wrap goes with CR", "xterm, DECAWM", "abcdef\rg", "gbcdef||", "2 1"},
		{"a pending wrap goes with a move", "xterm, DECAWM", "abcdef\x1b[1;6Hg", "abcdeg||", "6 1"},
		{"BS after the last column goes to the one before", "xterm, DECAWM", "abcdef\bg", "abcdgf||", "6 1"},
		{"a pending wrap stays with SGR", "xterm, DECAWM", "abcdef\x1b[1mg", "abcdef|g|", "2 2"},
		{"a line feed after the last column", "xterm, DECAWM", "abcdef\r\ng", "abcdef|g|", "2 2"},
		{"no wrapping", "xterm, DECAWM reset", "\x1b[?7labcdefgh", "abcdeh||", "6 1"},
		{"scrolled", "ECMA-48 8.3.74 LF; xterm", "1\r\n2\r\n3\r\n4", "2|3|4", "2 3"},
		{"scrolled by a wrap", "xterm, DECAWM", "1\r\n2\r\nabcdefg", "2|abcdef|g", "2 3"},
		{"moved and erased", "ECMA-48 8.3.22 CUU, 8.3.18 CUB, 8.3.41 EL, 8.3.21 CUP", "one\r\ntwo\x1b[1A\x1b[2D\x1b[K\x1b[3;2Hx", "o|two| x", "3 3"},
		{"moved down and right", "ECMA-48 8.3.19 CUD, 8.3.20 CUF", "a\x1b[B\x1b[2Cb", "a|   b|", "5 2"},
		{"moved no further than the edges", "ECMA-48 8.3.18 to 8.3.22; xterm", "\x1b[9B\x1b[9Ca\x1b[9A\x1b[9Db", "b||     a", "2 1"},
		{"column and row alone", "ECMA-48 8.3.9 CHA, 8.3.158 VPA", "\x1b[3Ga\x1b[2db", "  a|   b|", "5 2"},
		{"the whole line erased", "ECMA-48 8.3.41 EL 2", "abcdef\x1b[1;3H\x1b[2K", "||", "3 1"},
		{"erased from the cursor on", "ECMA-48 8.3.39 ED 0", "abc\r\nabc\r\nabc\x1b[2;2H\x1b[J", "abc|a|", "2 2"},
		{"cleared", "ECMA-48 8.3.39 ED 2", "one\x1b[2J\x1b[Htwo", "two||", "4 1"},
		{"characters erased", "ECMA-48 8.3.38 ECH", "abcdef\x1b[1;2H\x1b[3X", "a   ef||", "2 1"},
		{"a region that scrolls", "xterm, DECSTBM", "1\r\n2\r\n3\x1b[1;2r\x1b[2;1H\na", "2|a|3", "2 2"},
		{"saved and given back", "xterm, DECSC and DECRC", "ab\x1b7\x1b[3;3H\x1b8c", "abc||", "4 1"},
		{"the first screen again", "xterm, mode 1049", "one\x1b[?1049h\x1b[2J\x1b[Htwo\x1b[?1049l!", "one!||", "5 1"},
		{"the alternate screen is cleared", "xterm, mode 1049", "\x1b[?1049htwo\x1b[?1049l\x1b[?1049h", "||", "1 1"},
		{"all as new", "xterm, RIS", "one\x1b[?7l\x1b[2;3r\x1bctwo", "two||", "4 1"},
		{"signs of more bytes", "UTF-8", "ä█°C", "ä█°C||", "5 1"},
		{"what is no UTF-8", "Unicode 3.9, U+FFFD", "a\xffb", "a\ufffdb||", "4 1"},
		{"strings do nothing", "ECMA-48 5.6", "\x1b]52;c;AAAA\x1b\\a\x1bPq\x1b\\b\x1b_x\x1b\\c\x1b]0;t\x07d", "abcd||", "5 1"},
		{"an escape broken off", "ECMA-48 8.3.6 CAN; xterm", "\x1b\x18a\x1b\x1b[Cb", "a b||", "4 1"},
		{"a string broken off by an escape", "ECMA-48 5.6; xterm", "\x1b]2;t\x1b[2Ca", "  a||", "4 1"},
		{"sequences broken off", "ECMA-48 8.3.6 CAN; xterm", "\x1b[2\x18a\x1b[3\x1b[Cb\x1b]2;t\x1ac", "a bc||", "5 1"},
		{"sequences that are not known", "ECMA-48 5.4", "\x1b[?5W\x1b[>1;2p\x1b[1 q\x1b[=5ua", "a||", "2 1"},
		{"wide", "Unicode UAX 11", "a藍b", "a藍b||", "5 1"},
		{"a wide one and no room, no wrapping", "xterm, DECAWM reset", "\x1b[?7labcde藍", "abcde||", "6 1"},
		{"the left half overwritten", "xterm", "藍a\rb", "b a||", "2 1"},
		{"the right half overwritten", "xterm", "藍a\x1b[1;2Hb", " ba||", "3 1"},
		{"halves erased", "xterm", "藍藍藍\x1b[1;2H\x1b[4X", "||", "2 1"},
		{"a mark", "Unicode UAX 29", "e\u0301x", "e\u0301x||", "3 1"},
		{"a mark after the last column", "Unicode UAX 29; xterm", "abcdee\u0301f", "abcdee\u0301|f|", "2 2"},
		{"a mark with nothing before it", "Unicode UAX 29", "e\r\u0301x", "x||", "2 1"},
		{"two signs of one grapheme", "Unicode UAX 29, as x/ansi measures", "\u2600\ufe0fa", "\u2600\ufe0fa||", "4 1"},
		{"what has no width", "Unicode UAX 29", "a\u200bb", "ab||", "3 1"},
	} {
		s := New(6, 3)
		write(s, c.out)
		if got := strings.TrimSuffix(s.Text(), "\n"); got != strings.ReplaceAll(c.want, "|", "\n") {
			t.Errorf("%s (%s): %q, not %q", c.name, c.src, strings.ReplaceAll(got, "\n", "|"), c.want)
		}
		x, y, _ := s.Cursor()
		if at := fmt.Sprint(x+1, " ", y+1); at != c.at {
			t.Errorf("%s (%s): the cursor is at %q, not %q", c.name, c.src, at, c.at)
		}
		whole := New(6, 3)
		_, _ = whole.Write([]byte(c.out))
		if diff := Diff(whole, s); diff != "" {
			t.Errorf("%s: written at once it is another: %s", c.name, diff)
		}
	}
}

// The cells that a grapheme takes.
func TestCellsOfAGrapheme(t *testing.T) {
	for out, want := range map[string][]Cell{
		"a":                {{Text: "a", Width: 1}, empty},
		"藍":                {{Text: "藍", Width: 2}, {}},
		"e\u0301":          {{Text: "e\u0301", Width: 1}, empty},
		"\u2600\ufe0f":     {{Text: "\u2600\ufe0f", Width: 2}, {}},
		"ab\r藍":            {{Text: "藍", Width: 2}, {}},
		"藍\x1b[1;2H\x1b[K": {empty, empty},
	} {
		s := New(6, 1)
		write(s, out)
		if got := []Cell{s.Cell(0, 0), s.Cell(1, 0)}; !slices.Equal(got, want) {
			t.Errorf("%q: %v, not %v", out, got, want)
		}
	}
}

// Looks of the character that follows. src as in TestText.
func TestLook(t *testing.T) {
	for _, c := range []struct {
		out  string
		want Look
		src  string
	}{
		{"", Look{}, ""},
		{"\x1b[1m", Look{Attrs: Bold}, "ECMA-48 8.3.117 SGR"},
		{"\x1b[1;2;3;4;5;7;8;9m", Look{Attrs: Bold | Faint | Italic | Underline | Blink | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[6;4m", Look{Attrs: Blink | Underline}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;22m", Look{Attrs: Italic | Underline | Blink | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;23m", Look{Attrs: Bold | Faint | Underline | Blink | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;24m", Look{Attrs: Bold | Faint | Italic | Blink | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;25m", Look{Attrs: Bold | Faint | Italic | Underline | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;27m", Look{Attrs: Bold | Faint | Italic | Underline | Blink | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;28m", Look{Attrs: Bold | Faint | Italic | Underline | Blink | Reverse | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;29m", Look{Attrs: Bold | Faint | Italic | Underline | Blink | Reverse | Hidden}, "ECMA-48 8.3.117"},
		{"\x1b[31;44m", Look{Ink: ansi.BasicColor(1), Ground: ansi.BasicColor(4)}, "ECMA-48 8.3.117"},
		{"\x1b[30;47m", Look{Ink: ansi.BasicColor(0), Ground: ansi.BasicColor(7)}, "ECMA-48 8.3.117"},
		{"\x1b[90;107m", Look{Ink: ansi.BasicColor(8), Ground: ansi.BasicColor(15)}, "xterm"},
		{"\x1b[31;44;39m", Look{Ground: ansi.BasicColor(4)}, "ECMA-48 8.3.117"},
		{"\x1b[31;44;49m", Look{Ink: ansi.BasicColor(1)}, "ECMA-48 8.3.117"},
		{"\x1b[38;5;9;48;5;200m", Look{Ink: ansi.IndexedColor(9), Ground: ansi.IndexedColor(200)}, "xterm"},
		{"\x1b[38;2;1;2;3;48;2;0;255;7m", Look{Ink: color.RGBA{1, 2, 3, 255}, Ground: color.RGBA{0, 255, 7, 255}}, "xterm"},
		{"\x1b[38;5;9;1m", Look{Ink: ansi.IndexedColor(9), Attrs: Bold}, "xterm"},
		{"\x1b[38:5:9;48:5:200m", Look{Ink: ansi.IndexedColor(9), Ground: ansi.IndexedColor(200)}, "ISO 8613-6; xterm"},
		{"\x1b[38:2::1:2:3;48:2:1:4:5:6m", Look{Ink: color.RGBA{1, 2, 3, 255}, Ground: color.RGBA{4, 5, 6, 255}}, "ISO 8613-6; xterm"},
		{"\x1b[38:2::1:2:3::0:1;1m", Look{Ink: color.RGBA{1, 2, 3, 255}, Attrs: Bold}, "ISO 8613-6, a tolerance"},
		{"\x1b[38:2:1:2:3m", Look{Ink: color.RGBA{1, 2, 3, 255}}, "xterm, for older programs"},
		{"\x1b[38;2;;2;m", Look{Ink: color.RGBA{0, 2, 0, 255}}, "ECMA-48 5.4.2, what is left out"},
		{"\x1b[58;5;1;3m", Look{Attrs: Italic}, "xterm, the colour of underlines"},
		{"\x1b[58:2::1:2:3;59;3m", Look{Attrs: Italic}, "xterm, the colour of underlines"},
		{"\x1b[4:3m", Look{Attrs: Underline}, "xterm, kinds of underlines"},
		{"\x1b[4;4:0m", Look{}, "xterm, kinds of underlines"},
		{"\x1b[1;31;44m\x1b[m", Look{}, "ECMA-48 8.3.117"},
		{"\x1b[1;31;44m\x1b[0;3m", Look{Attrs: Italic}, "ECMA-48 8.3.117"},
		{"\x1b[1;31;44m\x1b[;3m", Look{Attrs: Italic}, "ECMA-48 5.4.2, what is left out"},
		{"\x1b[1m\x1b7\x1b[0;3m\x1b8", Look{Attrs: Bold}, "xterm, DECRC"},
	} {
		s := New(6, 1)
		write(s, c.out+"a")
		if got := s.Cell(0, 0); got != (Cell{"a", 1, c.want}) {
			t.Errorf("%q (%s): %v, not %v", c.out, c.src, got, c.want)
		}
	}
}

// What CSI K erases gets the ground in use (xterm, bce), or the terminal's own where it has no bce; nothing else of the look.
func TestGroundOfWhatIsErased(t *testing.T) {
	for _, noBCE := range []bool{false, true} {
		s := New(3, 1)
		s.NoBCE = noBCE
		write(s, "abc\x1b[1;2H\x1b[1;3;5;31;44m\x1b[K")
		want := empty
		if !noBCE {
			want.Ground = ansi.BasicColor(4)
		}
		if s.Text() != "a\n" || s.Cell(1, 0) != want || s.Cell(2, 0) != want {
			t.Errorf("no bce %t: %v and %v, not %v", noBCE, s.Cell(1, 0), s.Cell(2, 0), want)
		}
	}
}

// A smaller or larger window keeps what fits, and the region that scrolls is all of it (xterm).
func TestResize(t *testing.T) {
	s := New(6, 3)
	write(s, "abcdef\r\n2\r\n3\x1b[2;3r\x1b[3;6H")
	s.Resize(3, 2)
	if x, y, _ := s.Cursor(); s.Text() != "abc\n2\n" || x != 2 || y != 1 || len(s.Left()) > 0 {
		t.Errorf("smaller: %q, cursor %d %d, left %v", s.Text(), x, y, s.Left())
	}
	s.Resize(5, 3)
	if s.Text() != "abc\n2\n\n" {
		t.Errorf("larger: %q", s.Text())
	}
	s = New(4, 1)
	write(s, "abcd")
	s.Resize(4, 2)
	write(s, "e")
	if s.Text() != "abce\n\n" {
		t.Errorf("a wrap that was pending: %q", s.Text())
	}
}

// Two screens differ where something else is seen: the ink of a blank is not.
func TestDiff(t *testing.T) {
	for _, c := range []struct{ got, want, diff string }{
		{"one", "one", ""},
		{"\x1b[1;31m one\x1b[7m ", " \x1b[1;31mone\x1b[7m ", ""},
		{"\x1b[31;4m one", " \x1b[31;4mone", `row 1, column 1: " " underlined, ink 1 of 16, not " " plain`},
		{"\x1b[7m one", " \x1b[7mone", `row 1, column 1: " " reversed, not " " plain`},
		{"\x1b[41m one", " \x1b[41mone", `row 1, column 1: " " ground 1 of 16, not " " plain`},
		{"\x1b[38;5;1mone", "\x1b[31mone", "row 1, column 1: \"o\" ink 1 of 256, not \"o\" ink 1 of 16\nrow 1, column 2: \"n\" ink 1 of 256, not \"n\" ink 1 of 16\nrow 1, column 3: \"e\" ink 1 of 256, not \"e\" ink 1 of 16"},
		{"abcdef\x1b[1;1H", "ABCDEF\x1b[1;1H", "row 1, column 1: \"a\" plain, not \"A\" plain\nrow 1, column 2: \"b\" plain, not \"B\" plain\nrow 1, column 3: \"c\" plain, not \"C\" plain\nrow 1, column 4: \"d\" plain, not \"D\" plain\nrow 1, column 5: \"e\" plain, not \"E\" plain\nand 1 more cells"},
		{"\r\n藍\r", "\r\nab\r", "row 2, column 1: \"藍\" plain, not \"a\" plain\nrow 2, column 2: the right half of a wide character, plain, not \"b\" plain"},
		{"one", "one\x1b[2;2H", "cursor in row 1, column 4, not 2, 2"},
		{"one\x1b[?25l", "one", "cursor shown: false, not true"},
		{"one\x1b[?25l", "one\x1b[2;2H\x1b[?25l", ""},
	} {
		a, b := New(6, 2), New(6, 2)
		write(a, c.got)
		write(b, c.want)
		if got := Diff(a, b); got != c.diff {
			t.Errorf("%q, %q: %q, not %q", c.got, c.want, got, c.diff)
		}
	}
	if got, want := Diff(New(6, 2), New(5, 2)), "6 columns and 2 rows, not 5 and 2"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
}
