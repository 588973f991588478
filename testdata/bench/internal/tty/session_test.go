package tty

import (
	"os/exec"
	"slices"
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
		s, err := Start(exec.Command("sh", "-c", script), 20, 5)
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
