package command

import (
	"errors"
	"io"
	"testing"
	"testing/synctest"
	"time"
)

// unread is a terminal that was stopped: nothing that is written comes to an end before it is let.
type unread chan struct{}

func (u unread) Write(text []byte) (int, error) { <-u; return len(text), nil }

func TestAnEndDoesNotWaitForAReader(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		stopped := make(unread)
		var h haste
		w := World{Out: stopped, Err: stopped}
		shut := doors(&h, &w.Out, &w.Err)
		h.arm()
		time.AfterFunc(time.Minute, h.begin)
		from := time.Now()
		for _, to := range []io.Writer{w.Out, w.Err, w.Out, w.Err} {
			if _, err := io.WriteString(to, "a line\n"); !errors.Is(err, errNobodyReads) {
				t.Errorf("written where nobody reads: %v", err)
			}
		}
		shut()
		if took := time.Since(from); took != time.Minute+2*hasteWait {
			t.Errorf("given up after %s", took)
		}
		close(stopped)
	})
}

func TestWithoutHasteAReaderIsWaitedFor(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		for _, armed := range []bool{true, false} {
			slow := make(unread)
			var h haste
			w := World{Out: slow}
			doors(&h, &w.Out, &w.Err)
			if armed {
				h.arm()
			}
			time.AfterFunc(time.Hour, func() { close(slow) })
			if n, err := io.WriteString(w.Out, "a line\n"); n != 7 || err != nil {
				t.Errorf("armed %t: %d, %v", armed, n, err)
			}
		}
	})
}
