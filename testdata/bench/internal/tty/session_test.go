package tty

import (
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// What a program leaves behind in the terminal is told, and nothing when it leaves it as it was.
func TestLeft(t *testing.T) {
	for script, want := range map[string][]string{
		"true": nil,
		`printf '\033[?1049h\033[?25l\033[?1002h'; old=$(stty -g); stty raw -echo; stty $old; printf '\033[?1002l\033[?25h\033[?1049l'`: nil,
		`printf '\033[?1049h\033[?25l\033[?1002h\033[?2004h'`:                                                                           {"alternate screen", "bracketed paste", "hidden cursor", "mouse"},
		"stty raw -echo": {"raw mode"},
	} {
		s, err := StartIn(exec.Command("sh", "-c", script), 20, 5, Manner{})
		if err != nil {
			t.Fatal(err)
		}
		if code, ok := s.Ended(10 * time.Second); !ok || code != 0 {
			t.Errorf("%s: exit %d", script, code)
		}
		if got := s.Left(); !slices.Equal(got, want) {
			t.Errorf("%s: left %q, not %q", script, got, want)
		}
		s.Kill()
	}
}

// A terminal answers each question once, though it comes in pieces, reads at its pace, and tells what it reads.
func TestManner(t *testing.T) {
	var mu sync.Mutex
	heard := 0
	s, err := StartIn(exec.Command("sh", "-c", `stty raw -echo; printf '\033['; sleep 0.05; printf '6n'; head -c 6 | od -An -c; head -c 2000 /dev/zero | tr '\0' x`), 40, 5,
		Manner{Answers: Xterm, Heard: func(_ time.Time, n int, text func() string) {
			mu.Lock()
			defer mu.Unlock()
			heard += n
		}})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Kill()
	if !s.Await(5*time.Second, func() bool { return strings.Contains(s.Raw(), "[   1   ;   1   R") }) {
		t.Errorf("no answer: %.80q", s.Raw())
	}
	s.Ended(5 * time.Second)
	if !s.Await(5*time.Second, func() bool { mu.Lock(); defer mu.Unlock(); return heard == len(s.Raw()) && heard > 2000 }) {
		t.Errorf("%d bytes were told of %d", heard, len(s.Raw()))
	}
}

// What a program wrote just before its end is there when its end is told.
func TestEndedHasAll(t *testing.T) {
	for range 20 {
		s, err := StartIn(exec.Command("sh", "-c", "head -c 30000 /dev/zero | tr '\\0' x; printf end"), 40, 5, Manner{})
		if err != nil {
			t.Fatal(err)
		}
		if _, ok := s.Ended(10 * time.Second); !ok || !strings.HasSuffix(s.Raw(), "xend") || !strings.Contains(s.Text(), "end") {
			t.Fatalf("%d of 30003 bytes", len(s.Raw()))
		}
		s.Kill()
	}
}

func TestPace(t *testing.T) {
	s, err := StartIn(exec.Command("sh", "-c", "head -c 3000 /dev/zero | tr '\\0' x; read end"), 40, 5, Manner{Pace: 960})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Kill()
	begun := time.Now()
	s.Await(5*time.Second, func() bool { return len(s.Raw()) >= 300 })
	if took := time.Since(begun); took < 200*time.Millisecond {
		t.Errorf("300 bytes at 960 a second took %v", took)
	}
	s.Pace(0)
	if !s.Await(5*time.Second, func() bool { return len(s.Raw()) == 3000 }) {
		t.Errorf("%d of 3000 bytes", len(s.Raw()))
	}
}

// At a pipe all that was written is shown, what is typed comes in, and the end of the input is told.
func TestPiped(t *testing.T) {
	s, err := StartPiped(exec.Command("sh", "-c", "echo asks; cat; echo wrong >&2; exit 3"))
	if err != nil {
		t.Fatal(err)
	}
	defer s.Kill()
	s.Type("typed\n")
	if !s.Await(5*time.Second, func() bool { return strings.Contains(s.Text(), "typed") }) {
		t.Errorf("what was typed is not shown: %q", s.Text())
	}
	s.Hang()
	if code, ok := s.Ended(10 * time.Second); !ok || code != 3 || s.Text() != "asks\ntyped\nwrong\n" || s.Left() != nil {
		t.Errorf("exit %d, %q, left %q", code, s.Text(), s.Left())
	}
}
