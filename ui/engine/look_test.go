package engine_test

import (
	"context"
	"errors"
	"io/fs"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// paper is a day's file in memory, with its lock: one engine writes it, others look at it.
type paper struct {
	memory
	head    day.Head
	changed chan struct{}

	mine  sync.Mutex    // guards the rest
	taken chan struct{} // closed when the writer's lock is free
	err   error         // of reading
	hide  int           // so many of the last events
	newer string
	polls bool
	deaf  bool // its lock cannot be waited for
	reads int
	ended chan struct{}
}

// writing takes the lock and opens the day on a machine.
func writing(t *testing.T, in *fake) (*machine, *paper) {
	t.Helper()
	p := &paper{head: tendHead(t), changed: make(chan struct{}, 1), ended: make(chan struct{})}
	p.take()
	return open(t, in, thisBoot, engine.Opening{Head: p.head, Writer: p}), p
}

func (p *paper) take() { p.set(func() { p.taken = make(chan struct{}) }) }

// die lets the lock go, as a killed program does.
func (p *paper) die() { p.set(func() { close(p.taken) }) }

func (p *paper) set(f func()) { p.mine.Lock(); defer p.mine.Unlock(); f() }

func (p *paper) Append(e day.Event) error {
	err := p.memory.Append(e)
	p.touch()
	return err
}

func (p *paper) touch() {
	select {
	case p.changed <- struct{}{}:
	default:
	}
}

func (p *paper) all() []day.Event {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]day.Event(nil), p.events...)
}

func (p *paper) Changed() <-chan struct{} { return p.changed }

func (p *paper) Read() (book.Book, string, error) {
	events := p.all()
	p.mine.Lock()
	defer p.mine.Unlock()
	p.reads++
	b := book.Book{}
	b.Head, b.Events = p.head, events[:max(0, len(events)-p.hide)]
	return b, p.newer, p.err
}

func (p *paper) Polled() bool { p.mine.Lock(); defer p.mine.Unlock(); return p.polls }

func (p *paper) Left() error {
	p.mine.Lock()
	taken, deaf := p.taken, p.deaf
	p.mine.Unlock()
	if deaf {
		return errors.New("no locks here")
	}
	<-taken
	return nil
}

func (p *paper) Free() bool {
	p.mine.Lock()
	defer p.mine.Unlock()
	select {
	case <-p.taken:
		return true
	default:
		return false
	}
}

// seen is the paper for one looker.
type seen struct{ *paper }

func (s seen) Close() { close(s.ended) }

func (p *paper) Close() error { return nil }

// looking is an engine that looks at a paper.
func looking(t *testing.T, in *fake, p *paper) *machine {
	t.Helper()
	return open(t, in, thisBoot, engine.Opening{Head: p.head, Events: p.all(), Other: seen{p}})
}

// mailed waits for a snapshot in which something is so of the day.
func (m *machine) mailed(what string, so func(engine.View) bool) engine.View {
	m.t.Helper()
	limit := time.NewTimer(30 * time.Second)
	defer limit.Stop()
	for {
		select {
		case s := <-m.e.Mail():
			if v, ok := s.Day(id); ok && so(v) {
				return v
			}
		case <-limit.C:
			m.t.Fatalf("it was never shown that %s", what)
		}
	}
}

// dipping has one piece of 8 min in the vat.
func dipping(t *testing.T, in *fake) (*machine, *paper) {
	t.Helper()
	m, p := writing(t, in)
	m.do(day.Skip{Reason: "warm already"})
	m.do(day.Judge{Ready: true})
	m.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}})
	m.do(day.Record{Body: day.WettedOut{OfPiece: piece("A1")}})
	m.do(day.Lower{Tag: "A1"})
	m.settle()
	return m, p
}

func TestALookerShowsWhatIsWritten(t *testing.T) {
	in := newFake()
	m, p := dipping(t, in)
	look := looking(t, in, p)
	v := look.mailed("the piece is in the vat, with an outlook", func(v engine.View) bool { return v.Outlook != nil && v.Blue != nil })
	if a, _ := v.State.Piece("A1"); a.Phase != day.InVat || !v.Looking || v.Free || v.Trouble != "" || v.Polled {
		t.Errorf("it shows %+v", v)
	}
	was := v.Outlook
	temp := quantity.Celsius(31)
	m.do(day.Record{Body: day.Reading{Temp: &temp}})
	m.do(day.Record{Body: day.SoundChecked{Heard: true}})
	look.mailed("a reading was taken, and the outlook made anew", func(v engine.View) bool {
		return len(v.State.Log) == len(m.look().State.Log) && v.Outlook != was
	})

	// What runs out is called and assumed by the writer alone; the looker shows it.
	in.run(9 * time.Minute)
	before := len(look.look().State.Log)
	if got := len(look.look().State.Log); got != before {
		t.Errorf("it has %d events, %d were written", got, before)
	}
	m.look()
	v = look.mailed("the piece was lifted as planned", func(v engine.View) bool { return len(bodies[day.DipEnded](v.State)) == 1 })
	if got, want := v.Now, m.look().Now; got.Sub(want).Abs() > time.Second {
		t.Errorf("it is %s with the looker, %s with the writer", got, want)
	}
	if v.Saved != v.State.Log[len(v.State.Log)-1].Seq {
		t.Errorf("%d is on disk, it says", v.Saved)
	}
	if _, err := look.e.Do(look.ctx, id, day.Done{}); err == nil || !strings.Contains(err.Error(), "another program has this day open") {
		t.Errorf("a looker's act: %v", err)
	}
	in.run(30 * time.Minute)
	in.sleep(time.Hour)
	look.look()
	if calls := look.called(); len(calls) > 0 {
		t.Errorf("a looker calls %+v", calls)
	}
	late := looking(t, in, &paper{head: p.head, changed: make(chan struct{}), ended: make(chan struct{}), taken: make(chan struct{}), memory: memory{events: p.all()}})
	if late.look(); len(late.called()) > 0 {
		t.Errorf("one that comes when something has run out calls %+v", late.called())
	}
	m.look()
	m.do(day.Finish{Tag: "A1"})
	m.do(day.Answered{Command: day.Close{}})
	if v := look.mailed("the day was closed", func(v engine.View) bool { return v.State.Closed }); !v.Looking {
		t.Error("it takes a day over that was closed")
	}
	p.set(func() { p.newer = "2026-05-10" })
	p.touch()
	look.mailed("another day was begun", func(v engine.View) bool { return v.Newer == "2026-05-10" })
	look.stop()
	<-p.ended // and the look ends with the engine
}

// A writer that is gone is told; the day is taken over with what ran out meanwhile told once, together, and nothing assumed.
func TestADayIsTakenOver(t *testing.T) {
	in := newFake()
	m, p := dipping(t, in)
	last := m.look().State.At
	look := looking(t, in, p)
	in.run(2 * time.Minute)
	m.kill()
	p.die()
	look.mailed("the writer left", func(v engine.View) bool { return v.Free && v.Looking })
	if _, err := look.e.Do(look.ctx, id, day.Done{}); err == nil || !strings.Contains(err.Error(), "Enter takes the day over") {
		t.Errorf("an act on a day that is free: %v", err)
	}
	in.run(8 * time.Minute)
	if n := len(look.look().State.Log); n != len(p.all()) {
		t.Errorf("the looker made %d events of its own", n-len(p.all()))
	}
	p.take()
	v, err := look.e.Open(look.ctx, engine.Opening{ID: id, Head: p.head, Events: p.all(), Writer: p})
	if err != nil || v.Looking || v.Free {
		t.Fatalf("%+v, %v", v, err)
	}
	<-p.ended // it looks no more
	if got := v.Now.Sub(last); got != 10*time.Minute {
		t.Errorf("10 min after the last event it is %s after it", got)
	}
	in.run(20 * time.Minute)
	v = look.look()
	if got := bodies[day.DipEnded](v.State); len(got) > 0 {
		t.Errorf("it is assumed that %v", got)
	}
	if n := len(look.levels(cue.Overdue)); n != 21 || look.called()[0].Cue != cue.Overdue { // once for all, and each minute on
		t.Errorf("it is told %d times what ran out: %+v", n, look.called())
	}
	look.do(day.Lift{Tag: "A1"})
	look.settle()
	for i, e := range p.all() {
		if e.Seq != i+1 {
			t.Errorf("event %d stands at place %d", e.Seq, i+1)
		}
	}
	if got := bodies[day.DipEnded](look.look().State); len(got) != 1 || got[0].Assumed {
		t.Errorf("the lift is %+v", got)
	}
	if snap, _ := look.e.Now(look.ctx); len(snap.Days) != 1 {
		t.Errorf("%d days are open", len(snap.Days))
	}
	if _, err := look.e.Open(look.ctx, engine.Opening{ID: id, Head: p.head, Events: p.all(), Writer: &memory{}}); !errors.Is(err, engine.ErrOpen) {
		t.Errorf("a second writer of an open day: %v", err)
	}
}

// Where a third program was faster, it goes on looking, and waits for that one.
func TestAThirdProgramIsFaster(t *testing.T) {
	in := newFake()
	m, p := dipping(t, in)
	look := looking(t, in, p)
	m.kill()
	p.die()
	look.mailed("the writer left", func(v engine.View) bool { return v.Free })
	p.take()
	if err := look.e.LookAgain(look.ctx, id); err != nil {
		t.Fatal(err)
	}
	look.mailed("another one writes", func(v engine.View) bool { return v.Looking && !v.Free })
	p.die()
	look.mailed("that one left too", func(v engine.View) bool { return v.Free })
	p.take()
	p.touch() // it writes: that tells of it as well
	look.mailed("another one writes", func(v engine.View) bool { return !v.Free })
	p.die()
}

// A file that is gone, or shorter than it was, hides nothing of what was read.
func TestAStaleLook(t *testing.T) {
	in := newFake()
	m, p := dipping(t, in)
	look := looking(t, in, p)
	n := len(p.all())
	for word, f := range map[string]func(){
		"file does not exist":              func() { p.err = fs.ErrNotExist },
		"the day's file has only 2 of its": func() { p.hide = n - 2 },
	} {
		p.set(f)
		p.touch()
		v := look.mailed("what is shown is old", func(v engine.View) bool { return v.Trouble != "" })
		if len(v.State.Log) != n || !strings.Contains(v.Trouble, word) || !strings.HasPrefix(v.Trouble, "shown is what was read last: ") {
			t.Errorf("%d of %d events are shown, with %q", len(v.State.Log), n, v.Trouble)
		}
		p.set(func() { p.err, p.hide = nil, 0 })
		p.touch()
		look.mailed("it is new", func(v engine.View) bool { return v.Trouble == "" })
	}
	p.set(func() { p.hide = n - 2 })
	p.touch()
	look.mailed("what is shown is old", func(v engine.View) bool { return v.Trouble != "" })
	p.set(func() { p.hide = 0 })
	m.do(day.Record{Body: day.Note{Text: "goes on"}})
	look.mailed("it goes on", func(v engine.View) bool { return v.Trouble == "" && len(v.State.Log) == n+1 })
}

// A day that is written each millisecond (of the bubble's clock) is read a few times a second; its last event is always shown.
func TestABurstIsReadAFewTimes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		in := newFake()
		m, p := writing(t, in)
		look := looking(t, in, p)
		synctest.Wait()
		p.set(func() { p.reads = 0 })
		for i := range 2000 { // two seconds
			if p.touch(); i%500 == 499 {
				m.do(day.Record{Body: day.Note{Text: "drip"}})
			}
			time.Sleep(time.Millisecond)
		}
		p.set(func() {
			if p.reads < 4 || p.reads > 10 {
				t.Errorf("in 2 s it was read %d times", p.reads)
			}
		})
		time.Sleep(time.Second)
		if got, want := len(look.look().State.Log), len(p.all()); got != want {
			t.Errorf("%d events of %d are shown in the end", got, want)
		}
		m.kill()
		p.die()
	})
}

// Where the lock cannot be waited for, it is tried once a second.
func TestALockThatCannotBeWaitedFor(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		in := newFake()
		m, p := writing(t, in)
		p.deaf, p.polls = true, true
		look := looking(t, in, p)
		time.Sleep(3 * time.Second)
		if v := look.look(); v.Free || !v.Polled {
			t.Errorf("a day that is written: %+v", v)
		}
		m.kill()
		p.die()
		time.Sleep(1100 * time.Millisecond)
		if v := look.look(); !v.Free {
			t.Error("a second later it is not told that its writer left")
		}
		p.take()
		time.Sleep(1100 * time.Millisecond)
		if v := look.look(); v.Free {
			t.Error("a second later it is not told that another one writes")
		}
		p.die()
	})
}

// Many may open a day at once: it is open once.
func TestADayIsOpenOnce(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	e := engine.New(newFake(), thisBoot, cue.Silent{})
	ended := make(chan struct{})
	go func() { e.Run(ctx); close(ended) }()
	defer func() { stop(); <-ended }()
	const tries = 16
	errs := make(chan error, tries)
	head := tendHead(t)
	for i := range tries {
		go func() {
			o := engine.Opening{ID: id, Head: head}
			if i%2 == 0 {
				o.Writer = &memory{}
			}
			_, err := e.Open(ctx, o)
			errs <- err
		}()
	}
	took := 0
	for range tries {
		switch err := <-errs; {
		case err == nil:
			took++
		case !errors.Is(err, engine.ErrOpen):
			t.Error(err)
		}
	}
	snap, err := e.Now(ctx)
	if err != nil || len(snap.Days) != 1 || took > 2 { // to look, and then to write
		t.Errorf("%d days are open, %d openings were taken; %v", len(snap.Days), took, err)
	}
	if snap.Days[0].Looking || len(snap.Days[0].State.Log) != 1 {
		t.Errorf("it is %+v", snap.Days[0])
	}
}
