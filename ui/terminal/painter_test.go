package terminal

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/testdata/bench/emulator"
)

// pieces are what random frames are made of: the characters that the screens draw, wide ones, marks, and ones on whose width
// terminals do not agree.
var pieces = []string{
	" ", " ", " ", "  ", "      ", "a", "b", "8", "█", "▄", "≈", "░", "°C", "·", "─", "é", "e\u0301", "藍", "染め", "👩‍🔬", "☕", "🇯🇵", "→", "₂", "क्षि",
}

var looks = []string{
	"\x1b[m", "\x1b[0m", "\x1b[1m", "\x1b[2m", "\x1b[22m", "\x1b[4m", "\x1b[24m", "\x1b[7m", "\x1b[27m", "\x1b[31m", "\x1b[94m", "\x1b[39m", "\x1b[42m",
	"\x1b[103m", "\x1b[49m", "\x1b[38;5;93m", "\x1b[48;5;17m", "\x1b[38;2;1;2;3m", "\x1b[48;2;250;250;240m", "\x1b[1;3;38;2;9;8;7;48;2;1;1;1m",
}

func randomLine(r *rand.Rand, width int) string {
	var b strings.Builder
	for w := 0; w < width && r.IntN(12) > 0; {
		if r.IntN(4) == 0 {
			b.WriteString(looks[r.IntN(len(looks))])
		}
		p := pieces[r.IntN(len(pieces))]
		if n := ansi.StringWidth(p); w+n <= width {
			b.WriteString(p)
			w += n
		}
	}
	if r.IntN(3) == 0 {
		b.WriteString("\x1b[m")
	}
	return b.String()
}

// change is a frame that differs a little from another.
func change(r *rand.Rand, lines []string, width int) {
	for range r.IntN(4) {
		y := r.IntN(len(lines))
		if r.IntN(2) == 0 || lines[y] == "" {
			lines[y] = randomLine(r, width)
			continue
		}
		at := r.IntN(len(lines[y]))
		if c := lines[y][at]; c >= '8' && c < 'z' && (at == 0 || lines[y][at-1] != '\x1b') && !strings.ContainsAny(lines[y], "\x1b") {
			lines[y] = lines[y][:at] + string('A'+rune(r.IntN(26))) + lines[y][at+1:]
		}
	}
}

// meant has a screen show a frame as it was meant: line by line, each on an empty row.
func meant(s *emulator.Screen, lines []string, width, height int) *emulator.Screen {
	s.Resize(width, height)
	s.Write([]byte("\x1b[?25l\x1b[?7l\x1b[m\x1b[2J"))
	for y, l := range lines {
		fmt.Fprintf(s, "\x1b[m\x1b[%dH%s", y+1, l)
	}
	return s
}

// After 10,000 random frames, with the window of another size and written over by others now and then, the terminal shows what
// was meant, whatever it does about grounds where it erases.
func TestRandomFrames(t *testing.T) {
	for _, kind := range []struct{ bare, noSync bool }{{false, false}, {true, true}} {
		r := rand.New(rand.NewPCG(12, 2026))
		width, height := 20, 5
		var p Painter
		screen, other := emulator.New(width, height), emulator.New(width, height)
		screen.NoBCE, screen.NoSync = kind.bare, kind.noSync
		screen.Write([]byte("\x1b[?25l\x1b[?7l"))
		lines := make([]string, height)
		for n := range 5000 {
			switch r.IntN(40) {
			case 0:
				width, height = 1+r.IntN(40), 1+r.IntN(10)
				screen.Resize(width, height)
				lines = make([]string, height)
				for y := range lines {
					lines[y] = randomLine(r, width)
				}
			case 1:
				fmt.Fprintf(screen, "\x1b[%dH\x1b[31;42mmessage from root\x1b[m", 1+r.IntN(height))
				p.Forget()
			default:
				change(r, lines, width)
			}
			out := p.Paint(lines, width, height)
			for len(out) > 0 { // the terminal reads in pieces
				n := 1 + r.IntN(len(out))
				screen.Write(out[:n])
				out = out[n:]
			}
			if d := emulator.Diff(screen, meant(other, lines, width, height)); d != "" {
				t.Fatalf("frame %d, %d×%d: %s\n%q", n, width, height, d, lines)
			}
		}
		if left := screen.Left(); len(left) != 2 { // the cursor and the wrapping, which this test took away
			t.Errorf("a frame leaves %q", left)
		}
	}
}

// A frame that is shown is not written again, and a small change is a small write.
func TestSmallChangesAreSmallWrites(t *testing.T) {
	var p Painter
	frame := func(second int) []string {
		return []string{"\x1b[1mLift A1\x1b[m", fmt.Sprintf("   \x1b[38;2;200;200;200m%02d:%02d\x1b[m   left", 7, second), "liquor 34.2 °C"}
	}
	if len(p.Paint(frame(10), 40, 3)) == 0 {
		t.Fatal("nothing is painted")
	}
	if out := p.Paint(frame(10), 40, 3); out != nil {
		t.Errorf("the same frame is written again: %q", out)
	}
	if out, want := string(p.Paint(frame(11), 40, 3)), beginFrame+"\x1b[2;8H\x1b[38;2;200;200;200m1\x1b[m"+endFrame; out != want {
		t.Errorf("%q, not %q", out, want)
	}
	p.Forget()
	if out := p.Paint(frame(11), 40, 3); !strings.Contains(string(out), "Lift A1") {
		t.Errorf("what was forgotten is not painted: %q", out)
	}
}

// Behind a character that terminals may draw in another width the next place is named: one that draws it narrower or wider shifts
// nothing.
func TestDisputedWidths(t *testing.T) {
	var p Painter
	out := string(p.Paint([]string{"a☕b 藍c"}, 12, 1))
	if want := "\x1b[1H\x1b[Ka☕\x1b[4Gb 藍\x1b[8Gc\x1b[K"; !strings.Contains(out, want) {
		t.Errorf("%q holds no %q", out, want)
	}
}

// Of a line that is too wide, what does not fit is cut, and what stood there before is gone.
func TestTooWide(t *testing.T) {
	var p Painter
	screen := emulator.New(2, 1)
	for _, c := range []struct{ line, want string }{{"ab", "ab"}, {"c", "c"}, {"1藍x", "1"}, {"xyz", "xy"}, {"\ta\r", "a"}, {"藍藍", "藍"}, {"b\xff", "b\ufffd"}} {
		screen.Write(p.Paint([]string{c.line}, 2, 1))
		if got := strings.TrimSpace(screen.Text()); got != c.want {
			t.Errorf("%q is shown as %q, not %q", c.line, got, c.want)
		}
	}
}

func BenchmarkPaintSecond(b *testing.B) {
	var frames [2][]string
	for i := range frames {
		for y := range 24 {
			frames[i] = append(frames[i], fmt.Sprintf("\x1b[38;2;202;200;204m██\x1b[m  \x1b[38;2;143;151;159m%s %d\x1b[m", strings.Repeat("█ ", 30), i*y))
		}
	}
	var p Painter
	for n := 0; b.Loop(); n++ {
		p.Paint(frames[n%2], 80, 24)
	}
}
