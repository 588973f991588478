package engine_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	_ "example.org/vatside/testdata/long" // collects garbage less often
	"example.org/vatside/testdata/longday"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// BenchmarkEvent is one act from the key to the disk: decided, applied, written and synced through the real shelf.
// What is reckoned beside the engine is off: of event after event it would have no end. Budget: BenchmarkBareSync + 0.3 ms.
func BenchmarkEvent(b *testing.B) {
	for _, n := range []int{0, 640, 6400} {
		b.Run(fmt.Sprint("after ", n), func(b *testing.B) { eventAfter(b, longday.Events(n)) })
	}
}

func eventAfter(b *testing.B, events []day.Event) {
	r, _ := recipes.Find("soda")
	head := longday.Head(r)
	head.Vat, head.Day = "garden-bin", "2026-03-28"
	w, err := shelf.Open(b.TempDir()).NewDay(head)
	if err != nil {
		b.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	e := engine.New(engine.Machine{}, "", cue.Silent{})
	ended := make(chan struct{})
	go func() { e.Run(ctx); close(ended) }()
	defer func() { stop(); <-ended }()
	e.Advise(0)
	const id = "garden-bin/2026-03-28"
	if _, err := e.Open(ctx, engine.Opening{ID: id, Head: w.Head(), Events: events, Writer: w}); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := e.Do(ctx, id, day.Record{Body: day.Note{Text: "green at the hem"}}); err != nil {
			b.Fatal(err)
		}
		if err := e.Settle(ctx, id); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkBareSync is what the disk itself takes for as many bytes.
func BenchmarkBareSync(b *testing.B) {
	f, err := os.Create(filepath.Join(b.TempDir(), "bare"))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	block := make([]byte, 160)
	for b.Loop() {
		if _, err := f.Write(block); err != nil {
			b.Fatal(err)
		}
		if err := f.Sync(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkTick is what an open day of 6,400 events asks each second: what ran out, what is assumed, and the snapshot.
// Budget: 1 ms.
func BenchmarkTick(b *testing.B) {
	r, _ := recipes.Find("soda")
	ctx, stop := context.WithCancel(context.Background())
	e := engine.New(engine.Machine{}, "", cue.Silent{})
	ended := make(chan struct{})
	go func() { e.Run(ctx); close(ended) }()
	defer func() { stop(); <-ended }()
	events := longday.Events(6400)
	o := engine.Opening{ID: "bin/2026-05-09", Head: longday.Head(r), Events: events, Writer: nothing{}, Source: engine.NewLed(events[len(events)-1].At)}
	if _, err := e.Open(ctx, o); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := e.Now(ctx); err != nil {
			b.Fatal(err)
		}
	}
}

// nothing is a writer that keeps nothing.
type nothing struct{}

func (nothing) Append(day.Event) error { return nil }
func (nothing) Close() error           { return nil }
