package engine_test

import (
	"context"
	"errors"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

// refuge is a disk that may not answer, and another place beside it.
type refuge struct {
	memory
	hangs  chan struct{} // Append waits for it; nil: it answers
	closed bool
	last   int // the highest number in the file, read or not

	mu    sync.Mutex
	keeps []day.Event
	full  bool          // the other place takes nothing
	slow  time.Duration // what the other place takes
	fails bool          // the other place's own code does
	stuck chan struct{} // the other place does not answer either
}

func (r *refuge) Append(e day.Event) error {
	if r.hangs != nil {
		<-r.hangs
	}
	return r.memory.Append(e)
}
func (r *refuge) Last() int        { return r.last }
func (r *refuge) Close() error     { r.closed = true; return nil }
func (r *refuge) Away() shelf.Away { return shelf.Away{} }
func (r *refuge) Return() error    { return nil }
func (r *refuge) Keep(events []day.Event) (shelf.Away, error) {
	if r.stuck != nil {
		<-r.stuck
	}
	time.Sleep(r.slow) // the bubble's clock
	if r.fails {
		panic("a slip")
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.full {
		return shelf.Away{}, errors.New("no room there either")
	}
	r.keeps = append(r.keeps, events...)
	return shelf.Away{File: "elsewhere.toml", Events: len(events)}, nil
}

// leave runs an engine on a disk, does two acts and ends it, and says what it parts with and how long that took.
func leave(t *testing.T, disk *refuge, before func(context.Context, *engine.Engine)) (p engine.Parting, took time.Duration) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	e := engine.New(newFake(), thisBoot, cue.Silent{})
	parted := make(chan engine.Parting, 1)
	go func() { parted <- e.Run(ctx) }()
	if _, err := e.Open(ctx, engine.Opening{ID: id, Head: tendHead(t), Writer: disk}); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"one", "two"} {
		if _, err := e.Do(ctx, id, day.Record{Body: day.Note{Text: text}}); err != nil {
			t.Fatal(err)
		}
	}
	if before != nil {
		before(ctx, e)
	}
	from := time.Now()
	stop()
	p = <-parted
	return p, time.Since(from)
}

func TestPartingFromAWellDisk(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		disk := &refuge{}
		p, took := leave(t, disk, nil)
		if p.Words() != "" || p.Lost() || len(disk.keeps) > 0 || !disk.closed || len(disk.events) != 3 || took > time.Second {
			t.Errorf("%q after %s; kept %d, %d on disk", p.Words(), took, len(disk.keeps), len(disk.events))
		}
	})
}

func TestPartingFromADiskThatDoesNotAnswer(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		disk := &refuge{hangs: make(chan struct{})}
		p, took := leave(t, disk, nil)
		if p.Lost() || len(disk.keeps) != 3 || took > 5*time.Second {
			t.Errorf("lost %t, kept %d of 3, after %s", p.Lost(), len(disk.keeps), took)
		}
		if w := p.Words(); !strings.Contains(w, "3 acts of "+id) || !strings.Contains(w, "elsewhere.toml") {
			t.Errorf("it says %q", w)
		}
		if disk.closed {
			t.Error("the file was closed under a write in flight")
		}
		close(disk.hangs)
		synctest.Wait()
	})
}

// A disk that answers a little late, as a memory stick may, loses nothing and needs no other place.
func TestPartingFromASlowDisk(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		disk := &refuge{hangs: make(chan struct{})}
		go func() {
			for range 3 {
				time.Sleep(700 * time.Millisecond) // the bubble's clock
				disk.hangs <- struct{}{}
			}
		}()
		p, _ := leave(t, disk, nil)
		if p.Words() != "" || len(disk.events) != 3 || len(disk.keeps) > 0 || !disk.closed {
			t.Errorf("%q; %d on disk, kept %d", p.Words(), len(disk.events), len(disk.keeps))
		}
	})
}

func TestPartingWhereNoPlaceTakesIt(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		for _, disk := range []*refuge{{full: true}, {stuck: make(chan struct{})}} {
			disk.hangs = make(chan struct{})
			p, took := leave(t, disk, nil)
			w := p.Words()
			if !p.Lost() || took > 5*time.Second {
				t.Errorf("lost %t after %s", p.Lost(), took)
			}
			for _, part := range []string{"3 acts", "NOT on disk", "one", "two"} {
				if !strings.Contains(w, part) {
					t.Errorf("%q does not say %q", w, part)
				}
			}
			close(disk.hangs)
			if disk.stuck != nil {
				close(disk.stuck)
			}
			synctest.Wait()
		}
	})
}

func TestKeepAndShed(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		unsaved := func(ctx context.Context, e *engine.Engine) int {
			synctest.Wait()
			snap, err := e.Now(ctx)
			if err != nil {
				t.Fatal(err)
			}
			v, _ := snap.Day(id)
			return v.Unsaved
		}
		disk := &refuge{hangs: make(chan struct{})}
		p, took := leave(t, disk, func(ctx context.Context, e *engine.Engine) {
			if n := unsaved(ctx, e); n != 3 {
				t.Errorf("%d of 3 are told as unsaved", n)
			}
			if err := e.Keep(ctx); err != nil {
				t.Fatal(err)
			}
			if n := unsaved(ctx, e); n != 0 {
				t.Errorf("kept elsewhere, and %d are told as unsaved", n)
			}
		})
		if p.Lost() || len(disk.keeps) != 3 || took > time.Second {
			t.Errorf("kept: lost %t, %d kept, after %s", p.Lost(), len(disk.keeps), took)
		}
		close(disk.hangs)
		disk = &refuge{hangs: make(chan struct{})}
		p, took = leave(t, disk, func(ctx context.Context, e *engine.Engine) {
			if err := e.Shed(ctx); err != nil {
				t.Fatal(err)
			}
		})
		if !p.Lost() || len(disk.keeps) != 0 || took > time.Second {
			t.Errorf("shed: lost %t, %d kept, after %s", p.Lost(), len(disk.keeps), took)
		}
		close(disk.hangs)
		synctest.Wait()
	})
}

// The number of an event that could not be read is not given again.
func TestNoNumberIsGivenTwice(t *testing.T) {
	disk := &refuge{last: 41}
	if _, _ = leave(t, disk, nil); len(disk.events) != 3 || disk.events[0].Seq != 42 {
		t.Errorf("behind event 41 come %+v", disk.events)
	}
}

// A panic in the scribe, or in the engine itself, ends the program in order: all that was done is kept.
func TestACrashLosesNothing(t *testing.T) {
	for _, where := range []string{"scribe", "engine"} {
		t.Run(where, func(t *testing.T) {
			defer guard.Forget()
			disk := &refuge{}
			e := engine.New(newFake(), thisBoot, cue.Silent{})
			parted := make(chan engine.Parting, 1)
			ctx := context.Background()
			go func() { parted <- e.Run(ctx) }()
			if _, err := e.Open(ctx, engine.Opening{ID: id, Head: tendHead(t), Writer: disk}); err != nil {
				t.Fatal(err)
			}
			if err := e.Settle(ctx, id); err != nil {
				t.Fatal(err)
			}
			if where == "scribe" {
				guard.Inject(func(at string) {
					if at == where {
						panic(guard.ErrInjected)
					}
				})
				defer guard.Inject(nil)
			}
			if _, err := e.Do(ctx, id, day.Record{Body: day.Note{Text: "one"}}); err != nil {
				t.Fatal(err)
			}
			if where == "engine" {
				if err := e.Fail(ctx); !errors.Is(err, engine.ErrGone) {
					t.Errorf("asked as it failed: %v", err)
				}
			}
			<-guard.Fatal()
			guard.Inject(nil)
			p := <-parted
			if p.Lost() || len(disk.events)+len(disk.keeps) != 2 {
				t.Errorf("%q; %d on disk, %d kept", p.Words(), len(disk.events), len(disk.keeps))
			}
			if _, err := e.Do(ctx, id, day.Done{}); !errors.Is(err, engine.ErrGone) {
				t.Errorf("an engine that failed answers %v", err)
			}
		})
	}
}

// A forecast that fails is switched off for the day, with a word; the day goes on.
func TestAdviceThatFailsIsOff(t *testing.T) {
	guard.Inject(func(at string) {
		if at == "advice" {
			panic(guard.ErrInjected)
		}
	})
	defer guard.Inject(nil)
	in := newFake()
	m := dyeing(t, in, 1)
	v := m.until("the forecasts are off", func(v engine.View) bool { return v.Advice != "" })
	if v.Outlook != nil || v.Blue != nil || v.Table != nil {
		t.Error("forecasts that failed are shown")
	}
	guard.Inject(nil)
	m.do(day.Lower{Tag: "A1"})
	in.run(8*time.Minute + 31*time.Second)
	if got := bodies[day.DipEnded](m.look().State); len(got) != 1 {
		t.Errorf("without forecasts the dip does not end: %v", got)
	}
	if v := m.look(); v.Outlook != nil || v.Advice == "" {
		t.Error("they are on again within the day")
	}
	select {
	case <-guard.Fatal():
		t.Error("a forecast ends the program")
	default:
	}
}

// away is a disk that had no room when the day was opened, for an act that lies elsewhere since an earlier day.
type away struct {
	memory
	room atomic.Bool
}

func (a *away) Away() shelf.Away {
	if a.room.Load() {
		return shelf.Away{}
	}
	return shelf.Away{File: "/state/bin.toml", Events: 1, Why: syscall.ENOSPC}
}
func (a *away) Return() error {
	if a.room.Load() {
		return nil
	}
	return syscall.ENOSPC
}
func (*away) Keep([]day.Event) (shelf.Away, error) { return shelf.Away{}, errors.New("not asked") }

// What lies elsewhere when a day is opened is told at once, and comes home without an act.
func TestWhatLiesElsewhereComesHome(t *testing.T) {
	in, disk := newFake(), &away{}
	e := engine.New(in, thisBoot, cue.Silent{})
	ctx, stop := context.WithCancel(context.Background())
	parted := make(chan engine.Parting, 1)
	go func() { parted <- e.Run(ctx) }()
	defer func() { stop(); <-parted }()
	head := tendHead(t)
	v, err := e.Open(ctx, engine.Opening{ID: id, Head: head, Writer: disk,
		Events: []day.Event{{Seq: 1, At: engine.Morning(head), Body: day.Opened{How: "tend"}}}})
	if err != nil || v.Trouble != "1 act kept in /state: the disk is full; make room" {
		t.Fatalf("%q, %v", v.Trouble, err)
	}
	disk.room.Store(true)
	for range 1000 {
		in.run(100 * time.Millisecond)
		snap, err := e.Now(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if v, _ = snap.Day(id); v.Trouble == "" {
			return
		}
		runtime.Gosched()
	}
	t.Errorf("there is room, and still %q", v.Trouble)
}

// awayFrom is a disk beside which something lies already, until it is brought home.
type awayFrom struct {
	refuge
	away    shelf.Away
	refuses bool
	returns int
}

func (a *awayFrom) Away() shelf.Away { return a.away }
func (a *awayFrom) Return() error {
	a.returns++
	if a.refuses {
		return errors.New("no room")
	}
	a.away = shelf.Away{}
	return nil
}

// A day that is opened while its file refuses what it refused before: that is told, and tried again without an act.
func TestWhatLiesAwayAtTheOpening(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		disk := &awayFrom{away: shelf.Away{File: "spill.toml", Events: 2, Why: errors.New("no room")}, refuses: true}
		ctx, stop := context.WithCancel(context.Background())
		f := newFake()
		e := engine.New(f, thisBoot, cue.Silent{})
		parted := make(chan engine.Parting, 1)
		go func() { parted <- e.Run(ctx) }()
		opened := day.Event{Seq: 1, At: f.Wall(), Body: day.Opened{How: "tend"}}
		v, err := e.Open(ctx, engine.Opening{ID: id, Head: tendHead(t), Events: []day.Event{opened}, Writer: disk})
		if err != nil || !strings.Contains(v.Trouble, "2 acts kept in .") {
			t.Errorf("%v: it says %q", err, v.Trouble)
		}
		f.freeze(1500 * time.Millisecond)
		if _, err := e.Now(ctx); err != nil {
			t.Fatal(err)
		}
		synctest.Wait()
		if disk.returns == 0 {
			t.Error("it was not tried to bring it home")
		}
		if err := e.Leave(ctx, id); err != nil { // and so does the day that is let go before the program ends
			t.Fatal(err)
		}
		stop()
		if w := (<-parted).Words(); !strings.Contains(w, "2 acts of "+id+" are kept in spill.toml") {
			t.Errorf("at its end it says %q", w)
		}
	})
}

// What was kept elsewhere and is in the day after all is not told at the end, and is called merged.
func TestWhatWasKeptIsInTheDayAfterAll(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		disk := &awayFrom{refuge: refuge{hangs: make(chan struct{})}}
		ctx, stop := context.WithCancel(context.Background())
		f := newFake()
		e := engine.New(f, thisBoot, cue.Silent{})
		parted := make(chan engine.Parting, 1)
		go func() { parted <- e.Run(ctx) }()
		if _, err := e.Open(ctx, engine.Opening{ID: id, Head: tendHead(t), Writer: disk}); err != nil {
			t.Fatal(err)
		}
		if err := e.Keep(ctx); err != nil {
			t.Fatal(err)
		}
		synctest.Wait()
		close(disk.hangs)
		synctest.Wait()
		if err := e.Settle(ctx, id); err != nil {
			t.Fatal(err)
		}
		synctest.Wait()
		stop()
		if w := (<-parted).Words(); w != "" || disk.returns != 1 {
			t.Errorf("at its end it says %q; called merged %d times", w, disk.returns)
		}
	})
}
