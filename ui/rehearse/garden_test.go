package rehearse_test

import (
	"context"
	"reflect"
	"slices"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
)

// memory is a disk.
type memory struct{ events []day.Event }

func (m *memory) Append(e day.Event) error { m.events = append(m.events, e); return nil }

func (m *memory) Close() error { return nil }

var morning = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// soda is the recipe of the invented days.
func soda(t *testing.T) recipe.Recipe {
	t.Helper()
	r, ok := recipes.Find("soda")
	if !ok {
		t.Fatal("no recipe soda")
	}
	return r
}

// play runs a whole invented day at full speed.
func play(t *testing.T, head day.Head) ([]day.Event, day.State) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	e := engine.New(engine.Machine{}, "", cue.Silent{})
	go e.Run(ctx)
	led := engine.NewLed(morning)
	disk := &memory{}
	if _, err := e.Open(ctx, engine.Opening{ID: "garden-bin/d", Head: head, Writer: disk, Source: led}); err != nil {
		t.Fatal(err)
	}
	n := 0
	var last day.State
	if err := rehearse.Play(ctx, e, []string{"garden-bin/d"}, led, func(_ string, s day.State, ev day.Event) {
		n, last = n+1, s
		t.Logf("#%d %s %s", ev.Seq, day.Clock(ev.At), ev.Body.Sentence(0))
	}); err != nil {
		t.Fatal(err)
	}
	if n != len(disk.events) {
		t.Errorf("%d events were told, %d are on disk", n, len(disk.events))
	}
	return disk.events, last
}

// The invented day reaches its end, and a replay of what is on disk gives the state that was live.
func TestRehearsedDayRunsToItsEnd(t *testing.T) {
	head := rehearse.Head(soda(t), morning)
	events, _ := play(t, head)
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
		soaped(t, s, p)
	}
	if end := events[len(events)-1].Body; end.Sentence(0) != "day closed: all pieces rinsed and soaped; they dry" {
		t.Errorf("it ends with %q", end.Sentence(0))
	}
	live, _ := day.Begin(head)
	for _, e := range events {
		live, _ = day.Apply(live, e)
	}
	if !reflect.DeepEqual(live, s) {
		t.Error("applying one by one and replaying differ")
	}
}

// soaped wants of a piece at the end of its day that it was rinsed and soaped, linen soured, and that it dries.
func soaped(t *testing.T, s day.State, p day.Piece) {
	t.Helper()
	soured := slices.ContainsFunc(s.Log, func(e day.Event) bool { b, ok := e.Body.(day.Soured); return ok && b.Tag == p.Tag })
	if next, _ := s.BenchNext(p); next.ID != "dry" || soured != (p.Spec.Fibre == "linen") || p.Finishing.Rinses < 2 {
		t.Errorf("%s, %s: soured %v, rinsed %d times, %s is to do", p.Tag, p.Spec.Fibre, soured, p.Finishing.Rinses, next.ID)
	}
}
