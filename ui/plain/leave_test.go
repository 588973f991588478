package plain

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// unanswering is a disk that does not answer before it is let, beside a place that takes all.
type unanswering struct {
	kept chan int
	let  chan struct{}
}

func (u unanswering) Append(day.Event) error { <-u.let; return nil }
func (unanswering) Close() error             { return nil }
func (unanswering) Away() shelf.Away         { return shelf.Away{} }
func (unanswering) Return() error            { return nil }
func (u unanswering) Keep(events []day.Event) (shelf.Away, error) {
	u.kept <- len(events)
	return shelf.Away{File: "elsewhere.toml", Events: len(events)}, nil
}

// bubble are the machine's instruments without its own alarm, which rings by no faked time.
type bubble struct{ engine.Machine }

// leaving types lines at a day on such a disk and gives what was said, and what was parted with.
func leaving(t *testing.T, lines string) (out string, left engine.Parting, kept int) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	e := engine.New(bubble{}, "", cue.Silent{})
	parted := make(chan engine.Parting, 1)
	go func() { parted <- e.Run(ctx) }()
	soda, _ := recipes.Find("soda")
	disk := unanswering{make(chan int, 1), make(chan struct{})}
	head := day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
	if _, err := e.Open(ctx, engine.Opening{ID: "bin/2026-11-25", Head: head, Writer: disk}); err != nil {
		t.Fatal(err)
	}
	var w bytes.Buffer
	var in io.Reader = strings.NewReader(lines)
	if err := New(in, &w).Follow(ctx, e, "bin/2026-11-25"); err != nil {
		t.Fatal(err)
	}
	stop()
	left = <-parted
	close(disk.let)
	select {
	case kept = <-disk.kept:
	default:
	}
	return w.String(), left, kept
}

func TestLeavingWithActsThatAreNotOnDisk(t *testing.T) {
	for _, w := range []struct {
		lines string
		kept  int
		lost  bool
	}{
		{"q\nkeep\n", 1, false},
		{"q\nleave\n", 0, true},
		{"q\n", 1, false}, // the input ends: nobody can be asked, and the engine tries the other place by itself
	} {
		synctest.Test(t, func(t *testing.T) {
			from := time.Now()
			out, left, kept := leaving(t, w.lines)
			if kept != w.kept || left.Lost() != w.lost {
				t.Errorf("%q: kept %d, lost %t", w.lines, kept, left.Lost())
			}
			if !strings.Contains(out, "1 act not yet on disk") || strings.Contains(out, "all is in the book") {
				t.Errorf("%q: it says\n%s", w.lines, out)
			}
			if took := time.Since(from); took > 10*time.Second {
				t.Errorf("%q: leaving took %s", w.lines, took)
			}
		})
	}
}

// signalled is a disk that a signal comes to while the second event is written.
type signalled struct {
	unanswering
	comes func()
}

func (s signalled) Append(e day.Event) error {
	if e.Seq == 1 {
		return nil
	}
	s.comes()
	return s.unanswering.Append(e)
}

// A signal while an act goes to disk ends it as any other: it is no error of the program's.
func TestSignalWhileAnActIsWritten(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	running, halt := context.WithCancel(context.Background())
	e := engine.New(engine.Machine{}, "", cue.Silent{})
	parted := make(chan engine.Parting, 1)
	go func() { parted <- e.Run(running) }()
	soda, _ := recipes.Find("soda")
	disk := signalled{unanswering{make(chan int, 1), make(chan struct{})}, stop}
	head := day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
	if _, err := e.Open(ctx, engine.Opening{ID: "bin/2026-11-25", Head: head, Writer: disk}); err != nil {
		t.Fatal(err)
	}
	in, typing := io.Pipe()
	go func() { _, _ = io.WriteString(typing, "note one\n") }()
	if err := New(in, io.Discard).Follow(ctx, e, "bin/2026-11-25"); err != nil {
		t.Errorf("it ends with %v", err)
	}
	halt()
	close(disk.let)
	<-parted
}
