// Package emulator_test checks the emulator of the tests against a terminal that shares nothing with it: tmux.
package emulator_test

import (
	"fmt"
	"image/color"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"example.org/vatside/testdata/bench/emulator"

	"github.com/charmbracelet/x/ansi"
)

const (
	cols, rows = 30, 8
	outputs    = 1000
	wide       = "藍染布液甕"
)

// Whatever is written, the emulator shows it as tmux does: text, looks and the cursor.
func TestLikeTmux(t *testing.T) {
	tm := startTmux(t)
	chance := rand.New(rand.NewPCG(1, 2))
	for n := range outputs {
		w := writer{Rand: chance, s: emulator.New(cols, rows)}
		for range 5 + chance.IntN(40) {
			w.step()
		}
		diff := w.compare(t, tm, w.out.String(), cols)
		if diff == "" {
			// tmux tells the ground of blanks only where something was printed behind them.
			behind := "\x1b[?7l\x1b[r\x1b[0m"
			for y := range rows {
				behind += fmt.Sprintf("\x1b[%d;%dH.", y+1, cols)
			}
			w.write(behind)
			diff = w.compare(t, tm, w.out.String(), cols-1)
		}
		if diff != "" {
			t.Fatalf("output %d, %q:\n%s\n%s", n, w.out.String(), diff, w.s.Text())
		}
	}
}

// writer makes a random output, and writes it to the emulator meanwhile.
type writer struct {
	*rand.Rand
	s         *emulator.Screen
	out       strings.Builder
	top, foot int // rows that scroll, from 1; 0: all
}

func (w *writer) write(text string) {
	w.out.WriteString(text)
	_, _ = w.s.Write([]byte(text))
}

func (w *writer) writef(format string, args ...any) { w.write(fmt.Sprintf(format, args...)) }

func (w *writer) one(of ...string) string { return of[w.IntN(len(of))] }

func (w *writer) step() {
	switch w.IntN(12) {
	case 0, 1, 2:
		w.words()
	case 3, 4, 5:
		w.writef("\x1b[%sm", w.look())
	case 6:
		w.place()
	case 7: // from a place, for with a wrap pending tmux moves one column less
		w.place()
		moves := []string{"C", "D", "G", "d", "`", "Z"}
		if w.foot == 0 { // into rows that scroll x/vt moves as if they did not
			moves = append(moves, "A", "B", "E", "F")
		}
		if w.IntN(5) == 0 {
			w.write(w.one("\t", "\x1b[C\b", "\x1b7\x1b[3H\x1b[Kx\x1b[31m\x1b8"))
		} else {
			w.writef("\x1b[%d%s", 1+w.IntN(9), w.one(moves...))
		}
	case 8, 9:
		w.change()
	case 10:
		w.write(w.one("\r\n", "\r\n", "\r\n", "\r", "\r\n\n", "\x1b[1;1H\x1bM", "\r\x1bD", "\x1b[H\x1b[2S", "\x1b[H\x1b[T"))
	default:
		switch w.IntN(4) {
		case 0:
			w.top, w.foot = 1+w.IntN(3), 5+w.IntN(4)
			w.writef("\x1b[%d;%dr", w.top, w.foot)
		case 1:
			w.top, w.foot = 0, 0
			w.write("\x1b[r")
		case 2:
			w.write("\x1b[?7l")
		default:
			w.write("\x1b[?7h")
		}
		w.place()
	}
}

// words prints something, with a wide character or a mark now and then, or the last one again.
func (w *writer) words() {
	for range 1 + w.IntN(14) {
		x, y, _ := w.s.Cursor()
		if x >= cols-2 && (y == rows-1 || y == w.foot-1) { // a row that scrolls in by a wrap has no ground in tmux
			w.write("\x1b[m")
		}
		switch {
		case w.s.Cell(x, y).Width == 0: // of a wide character that is torn x/vt leaves the look
			w.write("\r\x1b[K")
		case x+1 < cols && max(w.s.Cell(x, y).Width, w.s.Cell(x+1, y).Width) == 2:
			w.write("\x1b[K")
		}
		simple := x >= cols-3 // in the last column without wrapping tmux joins a mark to the one before
		switch n := w.IntN(12); {
		case n == 0 && !simple:
			w.write(string([]rune(wide)[w.IntN(5)]))
		case n == 1 && !simple:
			w.write("e\u0301")
		case n == 2:
			w.write("█")
		case n == 3:
			w.write("°")
		case n == 4:
			w.write(" ")
		default:
			w.writef("%c", 'a'+w.IntN(26))
		}
	}
}

func (w *writer) look() string {
	colour := func(base int) string {
		switch w.IntN(6) {
		case 0:
			return fmt.Sprint(base + w.IntN(8))
		case 1:
			return fmt.Sprint(base + 60 + w.IntN(8))
		case 2:
			return fmt.Sprint(base + 9)
		case 3:
			return fmt.Sprintf("%d%s5%[2]s%d", base+8, w.one(";", ":"), w.IntN(256))
		case 4:
			return fmt.Sprintf("%d;2;%d;%d;%d", base+8, w.IntN(256), w.IntN(256), w.IntN(256))
		}
		return fmt.Sprintf("%d:2:%s%d:%d:%d", base+8, w.one("", ":"), w.IntN(256), w.IntN(256), w.IntN(256))
	}
	var parts []string
	for range 1 + w.IntN(3) {
		switch w.IntN(4) {
		case 0:
			parts = append(parts, w.one("", "0", "1", "2", "3", "4", "5", "7", "9", "22", "23", "24", "25", "27", "29"))
		case 1, 2:
			parts = append(parts, colour(30))
		default:
			parts = append(parts, colour(40))
		}
	}
	return strings.Join(parts, ";")
}

// place goes somewhere that is no right half of a wide character: there tmux erases half of it.
func (w *writer) place() {
	x, y := w.IntN(cols), w.IntN(rows)
	for w.s.Cell(x, y).Width == 0 {
		x--
	}
	w.writef("\x1b[%d;%dH", y+1, x+1)
}

// change erases, puts in or takes out, where no wide character is torn by it.
func (w *writer) change() {
	w.place()
	x, y, _ := w.s.Cursor()
	n := 1 + w.IntN(9)
	whole := func(x int) bool { return x >= cols || w.s.Cell(x, y).Width > 0 }
	final := w.one("0K", "2K", "1K", "0J", "X", "L", "M")
	switch final {
	case "1K", "1J":
		if !whole(x + 1) {
			return
		}
	case "X", "P":
		if !whole(x + n) {
			return
		}
		final = fmt.Sprint(n) + final
	case "@":
		if x+2*n > cols || !whole(cols-n) { // tmux makes no more blanks than it puts cells aside
			return
		}
		final = fmt.Sprint(n) + final
	case "L", "M":
		if w.foot > 0 && (y+1 < w.top || y+1 > w.foot) { // outside tmux puts in and takes out as if nothing scrolled
			return
		}
		final = fmt.Sprint(1+w.IntN(3)) + final
	}
	w.write("\x1b[" + final)
	w.place() // where the cursor is after lines were put in differs
}

// compare tells the first place of the first columns in which tmux shows something else after an output.
func (w *writer) compare(t *testing.T, tm *tmux, out string, columns int) string {
	t.Helper()
	lines, x, y := tm.show(t, out)
	if gx, gy, _ := w.s.Cursor(); gx != min(x, cols-1) || gy != y {
		return fmt.Sprintf("cursor in row %d, column %d; in tmux %d, %d", gy+1, gx+1, y+1, x+1)
	}
	for y := range rows {
		line := tm.captured(t, lines[y])
		for x := range columns {
			got := w.s.Cell(x, y).Seen()
			if x < len(line) && got != line[x].Seen() {
				return fmt.Sprintf("row %d, column %d: %s; in tmux %s", y+1, x+1, got, line[x])
			}
			if got.Ground = nil; x >= len(line) && got != (emulator.Cell{Text: " ", Width: 1}) {
				return fmt.Sprintf("row %d, column %d: %s; in tmux nothing", y+1, x+1, got)
			}
		}
	}
	return ""
}

var sgr = regexp.MustCompile(`^\x1b\[([0-9;]*)m`)

// captured are the cells of a line as tmux writes it: letters between the few forms of SGR that it uses. The look goes on from
// line to line.
func (tm *tmux) captured(t *testing.T, line string) (cells []emulator.Cell) {
	t.Helper()
	for line != "" {
		if m := sgr.FindStringSubmatch(line); m != nil {
			tm.look = looked(t, tm.look, m[1])
			line = line[len(m[0]):]
			continue
		}
		r := []rune(line)[0]
		line = line[len(string(r)):]
		switch {
		case unicode.Is(unicode.Mn, r):
			cells[len(cells)-1].Text += string(r)
		case strings.ContainsRune(wide, r):
			cells = append(cells, emulator.Cell{Text: string(r), Width: 2, Look: tm.look}, emulator.Cell{Look: tm.look})
		default:
			cells = append(cells, emulator.Cell{Text: string(r), Width: 1, Look: tm.look})
		}
	}
	return cells
}

var attributes = map[int]emulator.Attrs{
	1: emulator.Bold, 2: emulator.Faint, 3: emulator.Italic, 4: emulator.Underline, 5: emulator.Blink, 7: emulator.Reverse, 9: emulator.Strike,
}

func looked(t *testing.T, l emulator.Look, params string) emulator.Look {
	t.Helper()
	var n []int
	for p := range strings.SplitSeq(params, ";") {
		v, err := strconv.Atoi(p)
		if err != nil {
			t.Fatalf("tmux wrote SGR %q", params)
		}
		n = append(n, v)
	}
	for len(n) > 0 {
		at := &l.Ink
		if n[0] >= 40 && n[0] < 50 || n[0] >= 100 {
			at = &l.Ground
			n[0] -= 10
		}
		used := 1
		switch v := n[0]; {
		case v == 0:
			l = emulator.Look{}
		case attributes[v] != 0:
			l.Attrs |= attributes[v]
		case v >= 30 && v < 38:
			*at = ansi.BasicColor(uint8(v - 30))
		case v >= 90 && v < 98:
			*at = ansi.BasicColor(uint8(v - 82))
		case v == 39:
			*at = nil
		case v == 38 && n[1] == 5:
			*at, used = ansi.IndexedColor(uint8(n[2])), 3
		case v == 38 && n[1] == 2:
			*at, used = color.RGBA{uint8(n[2]), uint8(n[3]), uint8(n[4]), 255}, 5
		default:
			t.Fatalf("tmux wrote SGR %q", params)
		}
		n = n[used:]
	}
	return l
}
