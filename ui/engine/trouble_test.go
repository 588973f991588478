package engine

import (
	"fmt"
	"os"
	"syscall"
	"testing"

	"example.org/vatside/ui/shelf"
)

// What is told to the dyer is said once, figures first, in a dyer's words; a long folder loses its middle, not its sense.
func TestWordsOfTrouble(t *testing.T) {
	full := fmt.Errorf("event 7: %w", &os.PathError{Op: "write", Path: "/home/d/vats/bin/2026-11-25.toml", Err: syscall.ENOSPC})
	long := "/home/a-dyer-with-a-long-name/.local/state/vatside/spilled/bin.2026-11-25.1aef485d.toml"
	for _, c := range []struct{ got, want string }{
		{nowhere(1, reason(full)), "1 act NOT on disk: the disk is full, and no other place takes it; make room, it is tried again"},
		{nowhere(2, reason(syscall.EIO)), "2 acts NOT on disk: the disk fails, and no other place takes them; it is tried again"},
		{keptIn(shelf.Away{File: "/tmp/s/bin.toml", Events: 3, Passing: true}, unanswering), "3 acts kept in /tmp/s till the machine restarts: the disk does not answer"},
		{keptIn(shelf.Away{File: long, Events: 1}, reason(full)), "1 act kept in /home/a-dyer-w…/.local/state/vatside/spilled: the disk is full; make room"},
		{Parting{{ID: "bin/2026-11-25", Away: shelf.Away{File: long, Events: 1, Passing: true}, Why: shelf.Full}}.Words(),
			"1 act of bin/2026-11-25 is kept in " + long + ": the disk is full. Open the day again when there is room, before the machine is restarted: it comes into the book."},
		{Parting{{ID: "bin/2026-11-25", Lost: []string{"17:22 A1 out", "17:24 B1 in"}, Why: unanswering}}.Words(),
			"2 acts of bin/2026-11-25 are NOT on disk: the disk does not answer. Write down: 17:22 A1 out; 17:24 B1 in."},
	} {
		if c.got != c.want {
			t.Errorf("%q\nnot\n%q", c.got, c.want)
		}
	}
}
