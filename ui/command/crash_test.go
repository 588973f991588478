package command

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
)

// A crash of whatever part ends --plain in order, also while nobody types anything: nothing would call any more.
func TestACrashEndsPlainWhileItWaits(t *testing.T) {
	home := rehearsed(t, 1)
	rewritten(t, home, "garden-bin", open)
	in, typed := io.Pipe() // nobody types
	defer typed.Close()
	said, out := io.Pipe()
	code := make(chan int, 1)
	go func() {
		code <- Main([]string{"--plain", "--home", home}, World{In: in, Out: out, Err: out, Getenv: func(string) string { return "" }})
		_ = out.Close()
	}()
	lines, all := bufio.NewScanner(said), ""
	for lines.Scan() {
		if all += lines.Text() + "\n"; strings.Contains(lines.Text(), "Enter says done") {
			break
		}
	}
	go guard.End(guard.Crash{Where: "sound", What: "made on purpose"})
	rest := make(chan string, 1)
	go func() {
		text, _ := io.ReadAll(said) // its end is the program's
		rest <- string(text)
	}()
	select {
	case c := <-code:
		if text := <-rest; c != 1 || !strings.Contains(text, "an error of the program's own (sound: made on purpose) ended it") || strings.Contains(text, "context") {
			t.Errorf("exit %d: %s", c, text)
		}
	case <-time.After(20 * time.Second): // a hang, no budget
		t.Fatalf("it goes on after %s", all)
	}
}

// The last sentence says where acts lie that are not in the book, whatever else came to nothing as the program ended.
func TestACrashSaysWhatIsLost(t *testing.T) {
	lost := errors.New("1 act of bin/2026-11-25 is NOT on disk: the disk is full. Write down: 17:22 A1 out.")
	const all = "All that was done is on disk"
	for _, c := range []struct {
		err  error
		says string
	}{
		{nil, all}, {engine.ErrGone, all}, {fmt.Errorf("asked: %w", context.Canceled), all}, {errors.Join(engine.ErrGone, context.Canceled), all},
		{lost, "17:22 A1 out"}, {errors.Join(engine.ErrGone, lost), "17:22 A1 out"}, {errors.Join(errors.Join(context.Canceled, nil), lost), "17:22 A1 out"},
	} {
		if s := crashed(guard.Crash{Where: "sound"}, c.err, ""); !strings.Contains(s, c.says) || c.says != all && strings.Contains(s, all) || strings.Contains(s, "cancel") {
			t.Errorf("%v: %s", c.err, s)
		}
	}
}
