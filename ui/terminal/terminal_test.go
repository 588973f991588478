package terminal

import (
	"strings"
	"testing"

	"example.org/vatside/testdata/bench/emulator"
)

// shown is a terminal of that size whose writes a test takes itself, by next.
func shown(cols, rows int) *Terminal {
	return &Terminal{clock: &led{}, wake: make(chan struct{}, 1), first: enter, whole: true, cols: cols, rows: rows}
}

// The terminal is asked once, however often the screens ask before the first frame and behind it.
func TestGroundIsAskedOnce(t *testing.T) {
	for n := 1; n < 4; n++ {
		tty := shown(3, 1)
		for range n {
			tty.AskGround()
		}
		tty.Paint([]string{"a"}, 3, 1)
		first := string(tty.next())
		tty.AskGround()
		tty.Paint([]string{"b"}, 3, 1)
		if second := string(tty.next()); strings.Count(first, ask) != 1 || strings.Contains(second, ask) {
			t.Errorf("wanted %d times: %q, then %q", n, first, second)
		}
	}
}

// A frame without a character is one too; a frame of another size is not shown.
func TestFramesThatAreShown(t *testing.T) {
	tty := shown(3, 1)
	screen := emulator.New(3, 1)
	for _, c := range []struct {
		frame       string
		width, rows int
		want        string
	}{{"ab", 3, 1, "ab"}, {"", 3, 1, ""}, {"c", 3, 1, "c"}, {"d", 4, 1, "c"}, {"e", 3, 2, "c"}, {"f", 3, 1, "f"}} {
		tty.Paint(strings.Split(c.frame, "\n"), c.width, c.rows)
		screen.Write(tty.next())
		if got := strings.TrimSpace(screen.Text()); got != c.want {
			t.Errorf("%q of %d×%d: the terminal shows %q", c.frame, c.width, c.rows, got)
		}
	}
}

// Colours that others left behind are in no frame that is painted whole.
func TestColoursOfOthers(t *testing.T) {
	lines := []string{"a\x1b[1mb\x1b[m", "c"}
	tty := shown(5, 2)
	screen := emulator.New(5, 2)
	for _, what := range []string{"the first frame", "after ctrl+L"} {
		screen.Write([]byte("\x1b[31;42m"))
		tty.Paint(lines, 5, 2)
		tty.repaint()
		screen.Write(tty.next())
		if d := emulator.Diff(screen, meant(emulator.New(5, 2), lines, 5, 2)); d != "" {
			t.Errorf("%s: %s", what, d)
		}
	}
}

// A terminal whose modes were written is given back with them also where they were about to be written again.
func TestGivenBackBeforeTheNextFrame(t *testing.T) {
	tty := shown(3, 1)
	tty.Paint([]string{"a"}, 3, 1)
	screen := emulator.New(3, 1)
	screen.Write(tty.next())
	tty.first = enter // as after a SIGCONT
	tty.leaves()
	screen.Write(tty.givingBack())
	if left := screen.Left(); len(left) > 0 {
		t.Errorf("it leaves %q", left)
	}
	if tty.leaves(); len(tty.givingBack()) > 0 {
		t.Error("it is given back twice")
	}
	tty.Paint([]string{"b"}, 3, 1)
	if out := tty.next(); len(out) > 0 {
		t.Errorf("a frame is written behind that: %q", out)
	}
}

// What waits for a frame is called once, behind it, and not while no frame is written.
func TestWhatIsCalledBehindAFrame(t *testing.T) {
	tty := shown(3, 1)
	calls := 0
	tty.Paint([]string{"a"}, 2, 1) // of another size than the terminal
	tty.Behind(func() { calls++ })
	if tty.next(); tty.written != nil {
		t.Fatal("it does not wait for the frame")
	}
	tty.Paint([]string{"a"}, 3, 1)
	if out := tty.next(); len(out) == 0 || tty.written == nil || calls > 0 {
		t.Fatalf("%q, called %d times", out, calls)
	}
	tty.written()
	if tty.written = nil; calls != 1 {
		t.Errorf("it is called %d times", calls)
	}
	if tty.next(); tty.written != nil {
		t.Error("it is called again")
	}
}
