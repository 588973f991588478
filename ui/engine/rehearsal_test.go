package engine_test

import (
	"context"
	"reflect"
	"sync"
	"syscall"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// memory is a disk that can fail.
type memory struct {
	mu     sync.Mutex
	events []day.Event
	fail   int
}

func (m *memory) Append(e day.Event) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.fail > 0 {
		m.fail--
		return syscall.ENOSPC
	}
	m.events = append(m.events, e)
	return nil
}

func (m *memory) Close() error { return nil }

var morning = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// play runs a whole invented day at full speed.
func play(t *testing.T, id string) (day.Head, []day.Event) {
	t.Helper()
	r, ok := recipes.Find(id)
	if !ok {
		t.Fatalf("no recipe %s", id)
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	e := engine.New(engine.Machine{}, "", cue.Silent{})
	go e.Run(ctx)
	led := engine.NewLed(morning)
	head := engine.RehearsalHead(r, morning)
	disk := &memory{}
	if _, err := e.Open(ctx, engine.Opening{ID: "garden-bin/d", Head: head, Writer: disk, Source: led}); err != nil {
		t.Fatal(err)
	}
	n := 0
	if err := engine.Play(ctx, e, "garden-bin/d", led, func(s day.State, ev day.Event) {
		n++
		t.Logf("#%d %s %s", ev.Seq, day.Clock(ev.At), ev.Body.Sentence(0))
	}); err != nil {
		t.Fatal(err)
	}
	if n != len(disk.events) {
		t.Errorf("%d events were told, %d are on disk", n, len(disk.events))
	}
	return head, disk.events
}

// The invented day reaches its end with every family whose wait a day holds, and a replay of what is on disk gives the
// state that was live.
func TestRehearsedDayRunsToItsEnd(t *testing.T) {
	for _, id := range []string{"soda"} {
		t.Run(id, func(t *testing.T) {
			head, events := play(t, id)
			s, errs := day.Replay(head, events)
			for _, err := range errs {
				t.Error(err)
			}
			if !s.Closed {
				t.Error("the day did not close")
			}
			for _, p := range s.Pieces {
				if p.Phase != day.FinishedPiece || p.Dips != p.Want() {
					t.Errorf("%s ended in phase %d with %d of %d dips", p.Tag, p.Phase, p.Dips, p.Want())
				}
			}
			live, _ := day.Begin(head)
			for _, e := range events {
				live, _ = day.Apply(live, e)
			}
			if !reflect.DeepEqual(live, s) {
				t.Error("applying one by one and replaying differ")
			}
		})
	}
}
