package command

import (
	"context"
	"errors"
	"fmt"
	"io"
	"sync"
	"time"
	"unicode/utf8"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/guard"
)

// door is the one way out for what a command prints: it lets pass what a page may show (wording.ShowPage), and writes U+FFFD
// for the rest, whoever formatted it: a day's event, a path that the system's error quotes, an argument in a message of cobra's.
type door struct {
	to   io.Writer
	held []byte // the beginning of a character, or a CR, that the next write may go on with
	err  error  // why the first write that failed did
}

// Write passes text on. It holds back a character that is cut off at the end until its rest comes, or shut is called.
func (d *door) Write(text []byte) (int, error) {
	all := append(d.held, text...)
	whole := len(all) - begun(all)
	d.held = append([]byte(nil), all[whole:]...)
	if whole == 0 {
		return len(text), nil
	}
	if err := d.pass(all[:whole]); err != nil {
		return 0, err
	}
	return len(text), nil
}

// pass writes text, and keeps in mind if it could not.
func (d *door) pass(text []byte) error {
	_, err := io.WriteString(d.to, wording.ShowPage(string(text)).String())
	if d.err == nil {
		d.err = err
	}
	return err
}

// begun is how many bytes at the end of a text may be the beginning of something that can be shown.
func begun(text []byte) int {
	if n := len(text); n > 0 && text[n-1] == '\r' {
		return 1
	}
	for n := 1; n < utf8.UTFMax && n <= len(text); n++ {
		if tail := text[len(text)-n:]; utf8.RuneStart(tail[0]) {
			if utf8.FullRune(tail) {
				return 0
			}
			return n
		}
	}
	return 0
}

// shut writes what is held back.
func (d *door) shut() {
	if len(d.held) > 0 {
		d.pass(d.held)
		d.held = nil
	}
}

// haste is the end of a program that was told to end: from then on nothing is waited for long.
type haste struct {
	once sync.Once
	now  chan struct{} // closed; nil until arm
}

// arm is for a program that takes the signals itself: the system ends any other that waits for its output.
func (h *haste) arm() {
	if h.now == nil {
		h.now = make(chan struct{})
	}
}

func (h *haste) begin() { h.once.Do(func() { close(h.now) }) }

// began tells whether the program is being ended.
func (h *haste) began() bool {
	select {
	case <-h.now:
		return true
	default:
		return false
	}
}

// hasteWait is how long a last write may take.
const hasteWait = 250 * time.Millisecond

// timely is a writer that is given up in haste: a terminal that was stopped, or a full pipe, may never take what is written.
type timely struct {
	to    io.Writer
	haste *haste
	stuck bool // a write was given up
}

// Write waits for the writer, in haste no longer than hasteWait.
func (t *timely) Write(text []byte) (int, error) {
	if t.haste.now == nil {
		return t.to.Write(text)
	}
	if t.stuck {
		return 0, errNobodyReads
	}
	type answer struct {
		n   int
		err error
	}
	text = append([]byte(nil), text...) // a write that is given up may still look at it
	done := make(chan answer, 1)
	guard.Go("output", func() {
		n, err := t.to.Write(text)
		done <- answer{n, err}
	})
	select {
	case a := <-done:
		return a.n, a.err
	case <-t.haste.now:
	}
	limit, cancel := context.WithTimeout(context.Background(), hasteWait)
	defer cancel()
	select {
	case a := <-done:
		return a.n, a.err
	case <-limit.Done():
		t.stuck = true
		return 0, errNobodyReads
	}
}

var errNobodyReads = errors.New("nobody reads what is written")

// doors sets a door before an output and its errors; shut is called at the end, and says why not all of the output could be
// written: nil if it could, or if nobody reads it any more. A writer that is missing stays missing.
func doors(h *haste, output, errs *io.Writer) (shut func() error) {
	var all []*door
	for _, to := range []*io.Writer{output, errs} {
		if *to != nil {
			d := &door{to: &timely{to: *to, haste: h}}
			*to, all = d, append(all, d)
		}
	}
	out, _ := (*output).(*door)
	return func() error {
		for _, d := range all {
			d.shut()
		}
		if out == nil || errors.Is(out.err, errNobodyReads) {
			return nil
		}
		return out.err
	}
}

// fitArguments refuses an argument that cannot be shown, by its place.
func fitArguments(args []string) error {
	for i, a := range args {
		if err := wording.Refusal(a); err != nil {
			return fmt.Errorf("argument %d, %w", i+1, err)
		}
	}
	return nil
}
