package emulator

import (
	"slices"
	"strings"
	"testing"
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
		{"a pending wrap goes with an erasure, which takes the last column", "xterm, DECAWM and EL", "abcdef\x1b[Kg", "abcdeg||", "6 1"},
		{"BS after the last column goes to the one before", "xterm, DECAWM", "abcdef\bg", "abcdgf||", "6 1"},
		{"a pending wrap stays with SGR", "xterm, DECAWM", "abcdef\x1b[1mg", "abcdef|g|", "2 2"},
		{"a line feed after the last column", "xterm, DECAWM", "abcdef\r\ng", "abcdef|g|", "2 2"},
		{"no wrapping", "xterm, DECAWM reset", "\x1b[?7labcdefgh", "abcdeh||", "6 1"},
		{"wrapping again", "xterm, DECAWM", "\x1b[?7labcdefgh\x1b[?7hi", "abcdeh|i|", "2 2"},
		{"scrolled", "ECMA-48 8.3.74 LF; xterm", "1\r\n2\r\n3\r\n4", "2|3|4", "2 3"},
		{"scrolled by a wrap", "xterm, DECAWM", "1\r\n2\r\nabcdefg", "2|abcdef|g", "2 3"},
		{"moved and erased", "ECMA-48 8.3.22 CUU, 8.3.18 CUB, 8.3.41 EL, 8.3.21 CUP", "one\r\ntwo\x1b[1A\x1b[2D\x1b[K\x1b[3;2Hx", "o|two| x", "3 3"},
		{"moved down and right", "ECMA-48 8.3.19 CUD, 8.3.20 CUF", "a\x1b[B\x1b[2Cb", "a|   b|", "5 2"},
		{"moved no further than the edges", "ECMA-48 8.3.18 to 8.3.22; xterm", "\x1b[9B\x1b[9Ca\x1b[9A\x1b[9Db", "b||     a", "2 1"},
		{"first of the next and the line before", "ECMA-48 8.3.12 CNL, 8.3.13 CPL", "ab\x1b[Ec\x1b[Fd", "db|c|", "2 1"},
		{"column and row alone", "ECMA-48 8.3.9 CHA, 8.3.158 VPA", "\x1b[3Ga\x1b[2db", "  a|   b|", "5 2"},
		{"tabs by number", "ECMA-48 8.3.10 CHT, 8.3.7 CBT", "\x1b[Ia\x1b[Zb", "b    a||", "2 1"},
		{"HVP is CUP", "ECMA-48 8.3.63 HVP", "\x1b[2;2fa", "| a|", "3 2"},
		{"the line before the cursor erased", "ECMA-48 8.3.41 EL 1", "abcdef\x1b[1;3H\x1b[1K", "   def||", "3 1"},
		{"the whole line erased", "ECMA-48 8.3.41 EL 2", "abcdef\x1b[1;3H\x1b[2K", "||", "3 1"},
		{"erased from the cursor on", "ECMA-48 8.3.39 ED 0", "abc\r\nabc\r\nabc\x1b[2;2H\x1b[J", "abc|a|", "2 2"},
		{"erased up to the cursor", "ECMA-48 8.3.39 ED 1", "abc\r\nabc\r\nabc\x1b[2;2H\x1b[1J", "|  c|abc", "2 2"},
		{"cleared", "ECMA-48 8.3.39 ED 2", "one\x1b[2J\x1b[Htwo", "two||", "4 1"},
		{"characters erased", "ECMA-48 8.3.38 ECH", "abcdef\x1b[1;2H\x1b[3X", "a   ef||", "2 1"},
		{"characters put in", "ECMA-48 8.3.64 ICH", "abcdef\x1b[1;2H\x1b[2@", "a  bcd||", "2 1"},
		{"characters taken out", "ECMA-48 8.3.26 DCH", "abcdef\x1b[1;2H\x1b[2P", "adef||", "2 1"},
		{"lines put in, the cursor at their beginning", "ECMA-48 8.3.67 IL", "one\r\ntwo\x1b[1;3H\x1b[Lzero", "zero|one|two", "5 1"},
		{"lines taken out", "ECMA-48 8.3.32 DL", "1\r\n2\r\n3\x1b[1;1H\x1b[2M", "3||", "1 1"},
		{"scrolled up", "ECMA-48 8.3.147 SU", "1\r\n2\r\n3\x1b[S", "2|3|", "2 3"},
		{"scrolled down", "ECMA-48 8.3.113 SD", "1\r\n2\r\n3\x1b[2T", "||1", "2 3"},
		{"a region that scrolls", "xterm, DECSTBM", "1\r\n2\r\n3\x1b[1;2r\x1b[2;1H\na", "2|a|3", "2 2"},
		{"no move out of the region", "xterm, DECSTBM and CUD", "\x1b[1;2r\x1b[9Ba", "|a|", "2 2"},
		{"no line put in outside it", "xterm, DECSTBM and IL", "1\r\n2\r\n3\x1b[1;2r\x1b[3;1H\x1b[L", "1|2|3", "1 3"},
		{"places within the region", "xterm, DECOM", "\x1b[2;3r\x1b[?6h\x1b[9;1Ha\x1b[1;1Hb", "|b|a", "2 2"},
		{"index and reverse index", "ECMA-48 8.3.86 NEL; xterm, IND and RI", "1\x1bD2\x1bE3\x1b[1;1H\x1bM", "|1| 2", "1 1"},
		{"saved and given back", "xterm, DECSC and DECRC", "ab\x1b7\x1b[3;3H\x1b8c", "abc||", "4 1"},
		{"the same by CSI s and u", "xterm, SCOSC and SCORC", "ab\x1b[s\x1b[3;3H\x1b[uc", "abc||", "4 1"},
		{"the same by a mode", "xterm, mode 1048", "ab\x1b[?1048h\x1b[3;3H\x1b[?1048lc", "abc||", "4 1"},
		{"each screen saves its own", "xterm, DECSC", "ab\x1b7\x1b[?47h\x1b[2;2H\x1b7\x1b[?47l\x1b8c\x1b[?47h\x1b8d", "| d|", "3 2"},
		{"the lines above left", "xterm, ED 3", "abc\x1b[3J", "abc||", "4 1"},
		{"the last character again", "ECMA-48 8.3.103 REP", "a\x1b[3b", "aaaa||", "5 1"},
		{"the last character again, wrapped", "ECMA-48 8.3.103 REP", "ab\x1b[6b", "abbbbb|bb|", "3 2"},
		{"nothing again after a control", "ECMA-48 8.3.103 REP", "a\r\x1b[3b", "a||", "1 1"},
		{"put in before", "ECMA-48 7.2.10 IRM", "bc\r\x1b[4ha\x1b[4l", "abc||", "2 1"},
		{"the first screen again", "xterm, mode 1049", "one\x1b[?1049h\x1b[2J\x1b[Htwo\x1b[?1049l!", "one!||", "5 1"},
		{"the alternate screen is cleared", "xterm, mode 1049", "\x1b[?1049htwo\x1b[?1049l\x1b[?1049h", "||", "1 1"},
		{"the alternate screen as it was", "xterm, mode 47", "\x1b[?47htwo\x1b[?47l\x1b[?47h", "two||", "4 1"},
		{"all as new", "xterm, RIS", "one\x1b[?7l\x1b[2;3r\x1bctwo", "two||", "4 1"},
		{"signs of more bytes", "UTF-8", "ä█°C", "ä█°C||", "5 1"},
		{"what is no UTF-8", "Unicode 3.9, U+FFFD", "a\xffb", "a\ufffdb||", "4 1"},
		{"strings do nothing", "ECMA-48 5.6", "\x1b]52;c;AAAA\x1b\\a\x1bPq\x1b\\b\x1b_x\x1b\\c\x1b]0;t\x07d", "abcd||", "5 1"},
		{"an escape broken off", "ECMA-48 8.3.6 CAN; xterm", "\x1b\x18a\x1b\x1b[Cb", "a b||", "4 1"},
		{"a string broken off by an escape", "ECMA-48 5.6; xterm", "\x1b]2;t\x1b[2Ca", "  a||", "4 1"},
		{"sequences broken off", "ECMA-48 8.3.6 CAN; xterm", "\x1b[2\x18a\x1b[3\x1b[Cb\x1b]2;t\x1ac", "a bc||", "5 1"},
		{"C1 by two bytes", "ECMA-48 5.3", "a\u009b2Cb\u009d2;t\u009cc", "a  bc||", "6 1"},
		{"sequences that are not known", "ECMA-48 5.4", "\x1b[?5W\x1b[>1;2p\x1b[1 q\x1b[=5ua", "a||", "2 1"},
		{"wide", "Unicode UAX 11", "a藍b", "a藍b||", "5 1"},
		{"a wide one that has no room", "xterm, DECAWM", "abcde藍", "abcde|藍|", "3 2"},
		{"a wide one up to the edge", "xterm, DECAWM", "abcd藍e", "abcd藍|e|", "2 2"},
		{"a wide one and no room, no wrapping", "xterm, DECAWM reset", "\x1b[?7labcde藍", "abcde||", "6 1"},
		{"the left half overwritten", "xterm", "藍a\rb", "b a||", "2 1"},
		{"the right half overwritten", "xterm", "藍a\x1b[1;2Hb", " ba||", "3 1"},
		{"halves erased", "xterm", "藍藍藍\x1b[1;2H\x1b[4X", "||", "2 1"},
		{"wide ones put aside", "xterm, ICH and DCH", "a藍藍b\x1b[1;3H\x1b[@\x1b[1;1H\x1b[P", "   藍||", "1 1"},
		{"no room after what is put in", "xterm, ICH", "abc藍\x1b[1;1H\x1b[2@", "  abc||", "1 1"},
		{"wide again", "ECMA-48 8.3.103 REP", "藍\x1b[b", "藍藍||", "5 1"},
		{"a mark", "Unicode UAX 29", "e\u0301x", "e\u0301x||", "3 1"},
		{"a mark after the last column", "Unicode UAX 29; xterm", "abcdee\u0301f", "abcdee\u0301|f|", "2 2"},
		{"a mark after SGR", "Unicode UAX 29; xterm", "e\x1b[1m\u0301x", "e\u0301x||", "3 1"},
		{"a mark with nothing before it", "Unicode UAX 29", "e\r\u0301x", "x||", "2 1"},
		{"two signs of one grapheme", "Unicode UAX 29, as x/ansi measures", "\u2600\ufe0fa", "\u2600\ufe0fa||", "4 1"},
		{"a letter in a frame", "Unicode UAX 29, as x/ansi measures", "1\ufe0f\u20e3a", "1\ufe0f\u20e3a||", "3 1"},
		{"what has no width", "Unicode UAX 29", "a\u200bb", "ab||", "3 1"},
	} {
		s := New(6, 3)
		write(s, c.out)
		if got := strings.TrimSuffix(s.Text(), "\n"); got != strings.ReplaceAll(c.want, "|", "\n") {
			t.Errorf("%s (%s): %q, not %q", c.name, c.src, strings.ReplaceAll(got, "\n", "|"), c.want)
		}
		var at string
		s.Reply = func(text string) { at = text }
		write(s, "\x1b[6n")
		column, row, _ := strings.Cut(c.at, " ")
		if want := "\x1b[" + row + ";" + column + "R"; at != want && !s.Mode(6) {
			t.Errorf("%s (%s): the cursor is at %q, not %q", c.name, c.src, at, want)
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
		{"\x1b[6;21m", Look{Attrs: Blink | Underline}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;22m", Look{Attrs: Italic | Underline | Blink | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;23m", Look{Attrs: Bold | Faint | Underline | Blink | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;24m", Look{Attrs: Bold | Faint | Italic | Blink | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;25m", Look{Attrs: Bold | Faint | Italic | Underline | Reverse | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;27m", Look{Attrs: Bold | Faint | Italic | Underline | Blink | Hidden | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;28m", Look{Attrs: Bold | Faint | Italic | Underline | Blink | Reverse | Strike}, "ECMA-48 8.3.117"},
		{"\x1b[1;2;3;4;5;7;8;9;29m", Look{Attrs: Bold | Faint | Italic | Underline | Blink | Reverse | Hidden}, "ECMA-48 8.3.117"},
		{"\x1b[31;44m", Look{Ink: Ansi(1), Ground: Ansi(4)}, "ECMA-48 8.3.117"},
		{"\x1b[30;47m", Look{Ink: Ansi(0), Ground: Ansi(7)}, "ECMA-48 8.3.117"},
		{"\x1b[90;107m", Look{Ink: Ansi(8), Ground: Ansi(15)}, "xterm"},
		{"\x1b[31;44;39m", Look{Ground: Ansi(4)}, "ECMA-48 8.3.117"},
		{"\x1b[31;44;49m", Look{Ink: Ansi(1)}, "ECMA-48 8.3.117"},
		{"\x1b[38;5;9;48;5;200m", Look{Ink: Indexed(9), Ground: Indexed(200)}, "xterm"},
		{"\x1b[38;2;1;2;3;48;2;0;255;7m", Look{Ink: RGB(1, 2, 3), Ground: RGB(0, 255, 7)}, "xterm"},
		{"\x1b[38;5;9;1m", Look{Ink: Indexed(9), Attrs: Bold}, "xterm"},
		{"\x1b[38:5:9;48:5:200m", Look{Ink: Indexed(9), Ground: Indexed(200)}, "ISO 8613-6; xterm"},
		{"\x1b[38:2::1:2:3;48:2:1:4:5:6m", Look{Ink: RGB(1, 2, 3), Ground: RGB(4, 5, 6)}, "ISO 8613-6; xterm"},
		{"\x1b[38:2::1:2:3::0:1;1m", Look{Ink: RGB(1, 2, 3), Attrs: Bold}, "ISO 8613-6, a tolerance"},
		{"\x1b[38:2:1:2:3m", Look{Ink: RGB(1, 2, 3)}, "xterm, for older programs"},
		{"\x1b[38;2;;2;m", Look{Ink: RGB(0, 2, 0)}, "ECMA-48 5.4.2, what is left out"},
		{"\x1b[31;38;5;256m", Look{Ink: Ansi(1)}, "no colour"},
		{"\x1b[31;38;2;1;2m", Look{Ink: Ansi(1)}, "no colour"},
		{"\x1b[31;38:5m\x1b[38:5:1=;38:3:1m", Look{Ink: Ansi(1)}, "no colour"},
		{"\x1b[58;5;1;3m", Look{Attrs: Italic}, "xterm, the colour of underlines"},
		{"\x1b[58:2::1:2:3;59;3m", Look{Attrs: Italic}, "xterm, the colour of underlines"},
		{"\x1b[4:3m", Look{Attrs: Underline}, "xterm, kinds of underlines"},
		{"\x1b[4;4:0m", Look{}, "xterm, kinds of underlines"},
		{"\x1b[1;31;44m\x1b[m", Look{}, "ECMA-48 8.3.117"},
		{"\x1b[1;31;44m\x1b[0;3m", Look{Attrs: Italic}, "ECMA-48 8.3.117"},
		{"\x1b[1;31;44m\x1b[;3m", Look{Attrs: Italic}, "ECMA-48 5.4.2, what is left out"},
		{"\x1b[1m\x1b7\x1b[0;3m\x1b8", Look{Attrs: Bold}, "xterm, DECRC"},
		{"\x1b[1m\x1b[!p", Look{}, "xterm, DECSTR"},
		{"\x1b[1m\x1bc", Look{}, "xterm, RIS"},
		{"\x1b[>4;2m\x1b[?1m", Look{}, "xterm, XTMODKEYS and XTQMODKEYS are no SGR"},
	} {
		s := New(6, 1)
		write(s, c.out+"a")
		if got := s.Cell(0, 0); got != (Cell{"a", 1, c.want}) {
			t.Errorf("%q (%s): %v, not %v", c.out, c.src, got, c.want)
		}
	}
}

// What is erased gets the ground in use (xterm, bce), or the terminal's own where it has no bce; nothing else of the look.
func TestGroundOfWhatIsErased(t *testing.T) {
	for _, c := range []struct {
		name, out string
		want      string // rows of cells, # those with the ground
	}{
		{"to the end of the line", "abc\x1b[1;2H\x1b[K", "a###,....,...."},
		{"the line", "\x1b[2;2H\x1b[2K", "....,####,...."},
		{"to the end", "\x1b[2;2H\x1b[J", "....,.###,####"},
		{"up to the cursor", "\x1b[2;2H\x1b[1J", "####,##..,...."},
		{"all", "\x1b[2J", "####,####,####"},
		{"characters", "\x1b[2;2H\x1b[2X", "....,.##.,...."},
		{"put in", "abcd\x1b[1;2H\x1b[2@", "a##b,....,...."},
		{"taken out", "abcd\x1b[1;2H\x1b[2P", "ad##,....,...."},
		{"lines put in", "\x1b[2;2H\x1b[L", "....,####,...."},
		{"lines taken out", "\x1b[2;2H\x1b[M", "....,....,####"},
		{"scrolled up", "\x1b[S", "....,....,####"},
		{"scrolled down", "\x1b[2T", "####,####,...."},
		{"a line feed in the last row", "\x1b[3;1H\n", "....,....,####"},
		{"reverse index in the first row", "\x1bM", "####,....,...."},
		{"the alternate screen", "\x1b[?1049h", "####,####,####"},
	} {
		for _, bce := range []bool{true, false} {
			s := New(4, 3)
			s.NoBCE = !bce
			out := strings.ReplaceAll(c.out, "\x1b[", "\x1b[m\x1b[") // letters plain
			at := strings.LastIndex(out, "\x1b")
			write(s, out[:at]+"\x1b[1;3;5;31;44m"+out[at:])
			for i, row := range strings.Split(c.want, ",") {
				for x, mark := range row {
					want := empty
					switch {
					case mark == '#' && bce:
						want.Ground = Ansi(4)
					case mark >= 'a':
						want.Text = string(mark)
					}
					if got := s.Cell(x, i); got != want {
						t.Errorf("%s, bce %t: row %d, column %d: %v, not %v", c.name, bce, i+1, x+1, got, want)
					}
				}
			}
		}
	}
}

// A smaller or larger window keeps what fits, and the region that scrolls is all of it (xterm).
func TestResize(t *testing.T) {
	s := New(6, 3)
	write(s, "ab藍cd\r\n2\r\n3\x1b[2;3r\x1b[3;6H")
	s.Resize(3, 2)
	if x, y, _ := s.Cursor(); s.Text() != "ab\n2\n" || x != 2 || y != 1 || len(s.Left()) > 0 {
		t.Errorf("smaller: %q, cursor %d %d, left %v", s.Text(), x, y, s.Left())
	}
	s.Resize(5, 3)
	if s.Text() != "ab\n2\n\n" {
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
		if got := Diff(a, b); got != c.diff || Equal(a, b) != (c.diff == "") {
			t.Errorf("%q, %q: %q, not %q", c.got, c.want, got, c.diff)
		}
	}
	if got, want := Diff(New(6, 2), New(5, 2)), "6 columns and 2 rows, not 5 and 2"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
}

// No output stops it or makes it large.
func FuzzWrite(f *testing.F) {
	f.Add("one\x1b[?1049h\x1b[38;5;1m藍\u0301\x1b[99999b\x1b[3;1r\x1b[?2026h\x1b]2;t\x1b[2@")
	f.Add("\x1b[?7l\x1b[9999;9999H藍\x1b[9999L\x1b[9999M\x1b[9999@\x1b[9999P\x1b[9999X\x1b[?6h\x1bM\x1bD")
	f.Fuzz(func(t *testing.T, out string) {
		s := New(6, 3)
		s.Reply = func(string) {}
		write(s, out)
		s.Resize(1, 1)
		write(s, out)
		s.Resize(9, 9)
		for y := range 9 {
			width := 0
			for x := range 9 {
				width += s.Cell(x, y).Width
			}
			if width != 9 {
				t.Fatalf("%q: row %d is %d wide", out, y+1, width)
			}
		}
	})
}
