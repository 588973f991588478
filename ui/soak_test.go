package ui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/shelf"
)

// mostLeft is what nine hours may add to what is in use, in bytes: the events themselves, and what the garbage collector leaves.
const mostLeft = 1 << 20

// heapNow is what is in use once all that is not has been given back.
func heapNow() uint64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// Ten hours with forty pieces and every kind of event, through the engine, the shelf and the screens: all are finished, all is on disk,
// memory stays as it was after the first hour, and no goroutine is left.
func TestTenHours(t *testing.T) {
	synctest.Test(t, tenHours) // which fails while a goroutine is left, and whose time is not the machine's
}

func tenHours(t *testing.T) {
	const pieces = 40
	soda, _ := recipes.Find("soda")
	morning := time.Date(2026, 5, 9, 8, 0, 0, 0, time.UTC)
	head := rehearse.WorkshopHead(soda, morning, 0)
	head.Vat, head.Day, head.Rehearsed = "bin", "2026-05-09", true
	head.Opening = day.Opening{Number: 2, Built: true}
	const id = "bin/2026-05-09"
	home := shelf.At(t.TempDir(), nil)
	w, err := home.NewDay(head)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	clock := engine.NewLed(engine.Morning(w.Head()))
	eng := engine.New(bubbled{time.Now()}, "", &cue.Recorder{})
	parted := eng.Start(ctx)
	h := effects{ctx: ctx, eng: eng, home: home, player: cue.New(cue.Settings{}, home, nil), looks: &looks{}, asks: &cautions{}}
	if _, err := eng.Open(ctx, engine.Opening{ID: id, Head: w.Head(), Writer: w, Source: clock}); err != nil {
		t.Fatal(err)
	}
	var is tea.Model = newModel(Options{}, shelf.Defaults(), h)
	is, _ = is.Update(tea.WindowSizeMsg{Width: 120, Height: 40})
	kinds := map[string]bool{}
	paint := func(id string) engine.View {
		t.Helper()
		snap, err := eng.Now(ctx)
		if err != nil {
			t.Fatal(err)
		}
		v, _ := snap.Day(id)
		is, _ = is.Update(snapshotMsg(snap))
		if shown := is.(model); len(shown.stack) == 0 || shown.stack[len(shown.stack)-1].day != id {
			is, _ = is.Update(openedMsg{id: id})
		}
		if name := v.State.Head.Setup.Name; !strings.Contains(is.View(), name) {
			t.Fatalf("not the day of %s:\n%s", name, is.View())
		}
		return v
	}
	do := func(c day.Command) error {
		_, err := eng.Do(ctx, id, c)
		if pending := (*day.Pending)(nil); errors.As(err, &pending) {
			_, err = eng.Do(ctx, id, day.Answered{Command: c})
		}
		return err
	}
	for i := range pieces {
		spec := day.PieceSpec{What: "scarf", Fibre: "cotton", Dry: 80, Dips: 1 + i%4, Dip: quantity.Minutes(15), Air: quantity.Minutes(25), Work: "moved"}
		if err := do(day.AddPiece{Tag: fmt.Sprintf("P%d", i+1), Spec: spec}); err != nil {
			t.Fatal(err)
		}
	}
	for _, said := range []day.Body{day.WayChosen{Way: "weak"}, day.HandsTold{Hands: 1}} {
		if err := do(day.Record{Body: said}); err != nil {
			t.Fatal(err)
		}
	}
	var first uint64
	for begun := clock.Now(); clock.Now().Sub(begun) < 10*time.Hour; clock.Set(clock.Now().Add(time.Minute)) {
		if first == 0 && clock.Now().Sub(begun) >= time.Hour {
			first = heapNow()
		}
		v := paint(id)
		after, c, ok := rehearse.Dyer(v.State, v.Now)
		bodies, _ := day.Decide(v.State, c, v.Now)
		switch {
		case ok && slices.ContainsFunc(bodies, func(b day.Body) bool { return b.Kind() == day.Closed{}.Kind() }): // not yet
			c = day.Record{Body: day.Note{Text: "the yard is quiet"}}
			after = 10 * time.Minute
		case !ok:
			c = day.Done{}
		}
		if v.Now.Sub(v.State.At) >= after {
			_ = do(c) // what is refused is tried again
		}
	}
	if err := eng.Settle(ctx, id); err != nil {
		t.Fatal(err)
	}
	last := heapNow()
	v := paint(id)
	for _, p := range v.State.Pieces {
		if p.Phase != day.FinishedPiece {
			t.Errorf("%s is left with %d of %d dips", p.Tag, p.Dips, p.Spec.Dips)
		}
	}
	for _, e := range v.State.Log {
		kinds[e.Body.Kind()] = true
	}
	if v.Saved != len(v.State.Log) {
		t.Errorf("%d of %d events are on disk", v.Saved, len(v.State.Log))
	}
	if last > first+mostLeft {
		t.Errorf("%d bytes after the first hour, %d after ten", first, last)
	}
	t.Logf("%d events in %v; %.1f MB after the first hour, %.1f MB after ten", len(v.State.Log), clock.Now().Sub(v.State.Opened), float64(first)/1e6, float64(last)/1e6)

	// The days that were played have the kinds that a living vat with soda has no use for.
	files, err := filepath.Glob("../testdata/days/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		b := book.Read(file, text)
		looked := filepath.Base(file) + "/" + b.Head.Day
		if _, err := eng.Open(ctx, engine.Opening{ID: looked, Head: b.Head, Events: b.Events, Source: engine.NewLed(b.Events[len(b.Events)-1].At)}); err != nil {
			t.Fatal(file, err)
		}
		for _, e := range paint(looked).State.Log {
			kinds[e.Body.Kind()] = true
		}
		if err := eng.Leave(ctx, looked); err != nil {
			t.Error(err)
		}
	}
	unsaid := []string{day.SoundChecked{}.Kind(), day.ClockStepped{}.Kind(), day.Slept{}.Kind(), day.SoundFailed{}.Kind(), day.Lost{}.Kind()} // no hands make these
	for _, b := range day.Kinds() {
		if !kinds[b.Kind()] && !slices.Contains(unsaid, b.Kind()) {
			t.Errorf("the kind %q did not happen", b.Kind())
		}
	}
	stop()
	if p := <-parted; p.Lost() {
		t.Error(p.Words())
	}
	h.player.Close()
}

// bubbled is a machine whose clocks are those of a test's bubble.
type bubbled struct{ from time.Time }

func (bubbled) Wall() time.Time               { return time.Now() }
func (b bubbled) Boot() (time.Duration, bool) { return time.Since(b.from), true }
func (b bubbled) Mono() time.Duration         { return time.Since(b.from) }
