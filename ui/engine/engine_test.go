package engine_test

import (
	"context"
	"errors"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// fake is a machine's instruments in the test's hand.
type fake struct {
	mu       sync.Mutex
	wall     time.Time
	up, mono time.Duration
	noBoot   bool
	tick     func() // lets the engines that are at work look at the clock, as they do each second
}

func (f *fake) Wall() time.Time { f.mu.Lock(); defer f.mu.Unlock(); return f.wall }

func (f *fake) Boot() (time.Duration, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.up, !f.noBoot
}

func (f *fake) Mono() time.Duration { f.mu.Lock(); defer f.mu.Unlock(); return f.mono }

func (f *fake) move(wall, up, mono time.Duration) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.wall, f.up, f.mono = f.wall.Add(wall), f.up+up, f.mono+mono
}

// run lets time pass; freeze lets it pass without the program; sleep suspends the machine; step sets its wall clock.
func (f *fake) run(d time.Duration) {
	for ; f.tick != nil && d > time.Second; d -= time.Second {
		f.freeze(time.Second)
		f.tick()
	}
	f.freeze(d)
}
func (f *fake) freeze(d time.Duration) { f.move(d, d, d) }
func (f *fake) sleep(d time.Duration)  { f.move(d, d, 0) }
func (f *fake) step(d time.Duration)   { f.move(d, 0, 0) }

const thisBoot = "4c1d07be"

// machine is an engine on a fake machine with one day open.
type machine struct {
	t     *testing.T
	ctx   context.Context
	stop  context.CancelFunc
	in    *fake
	e     *engine.Engine
	calls *cue.Recorder
	disk  *memory
	ended chan struct{}
}

const id = "bin/2026-05-09"

func newFake() *fake {
	return &fake{wall: time.Date(2026, 5, 9, 9, 0, 0, 0, time.UTC), up: 5000 * time.Second, mono: 100 * time.Second}
}

// tendHead is a living soda vat.
func tendHead(t *testing.T) day.Head {
	t.Helper()
	r, ok := recipes.Find("soda")
	if !ok {
		t.Fatal("no recipe soda")
	}
	return day.Head{Vat: "bin", Day: "2026-05-09", Zone: "UTC", Recipe: r, Opening: day.Opening{Number: 2, Built: true},
		Setup: day.Setup{Fill: 60, Place: day.Outdoors, Units: "metric"}}
}

// open starts an engine and opens a day in it; on is changed before.
func open(t *testing.T, in *fake, boot string, o engine.Opening) *machine {
	t.Helper()
	m := &machine{t: t, in: in, calls: &cue.Recorder{}, ended: make(chan struct{})}
	m.ctx, m.stop = context.WithCancel(context.Background())
	m.e = engine.New(in, boot, m.calls)
	go func() { m.e.Run(m.ctx); close(m.ended) }()
	t.Cleanup(func() { m.stop(); <-m.ended })
	others := in.tick
	in.tick = func() {
		if others != nil {
			others()
		}
		_, _ = m.e.Now(m.ctx) // of an engine that was killed it is ErrGone
	}
	o.ID = id
	m.disk, _ = o.Writer.(*memory)
	if _, err := m.e.Open(m.ctx, o); err != nil {
		t.Fatal(err)
	}
	return m
}

// dyeing is a day with pieces wetted out, A1, A2 …, whose dips last 8 min.
func dyeing(t *testing.T, in *fake, pieces int, change ...func(*day.Head)) *machine {
	t.Helper()
	h := tendHead(t)
	for _, f := range change {
		f(&h)
	}
	m := open(t, in, thisBoot, engine.Opening{Head: h, Writer: &memory{}})
	m.do(day.Skip{Reason: "warm already"})
	m.do(day.Judge{Ready: true})
	for i := range pieces {
		tag := "A" + string(rune('1'+i))
		m.do(day.AddPiece{Tag: tag, Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}})
		m.do(day.Record{Body: day.WettedOut{OfPiece: piece(tag)}})
	}
	m.do(day.Record{Body: day.SoundChecked{Heard: true}})
	return m
}

// called are the calls of deadlines, without what is said a minute before them and after an act, and without the sound check.
func (m *machine) called() []cue.Call {

	return slices.DeleteFunc(m.calls.Calls(), func(c cue.Call) bool { return c.Cue == cue.Soon || c.Cue == cue.Check || c.Cue == cue.Next })
}

func (m *machine) do(c day.Command) {
	m.t.Helper()
	if _, err := m.e.Do(m.ctx, id, c); err != nil {
		m.t.Fatalf("%#v: %v", c, err)
	}
}

// look lets time act and gives the day as it is then.
func (m *machine) look() engine.View {
	m.t.Helper()
	snap, err := m.e.Now(m.ctx)
	if err != nil {
		m.t.Fatal(err)
	}
	v, ok := snap.Day(id)
	if !ok {
		m.t.Fatal("the day is not open")
	}
	return v
}

// until looks until something is so.
func (m *machine) until(what string, so func(engine.View) bool) engine.View {
	m.t.Helper()
	for limit := time.Now().Add(5 * time.Second); time.Now().Before(limit); {
		if v := m.look(); so(v) {
			return v
		}
		runtime.Gosched()
	}
	m.t.Fatalf("it never came that %s", what)
	return engine.View{}
}

func (m *machine) settle() {
	m.t.Helper()
	if err := m.e.Settle(m.ctx, id); err != nil {
		m.t.Fatal(err)
	}
}

// of is the bodies of one type in a day's log.
func bodies[T day.Body](s day.State) []T {
	var out []T
	for _, e := range s.Log {
		if b, ok := e.Body.(T); ok {
			out = append(out, b)
		}
	}
	return out
}

func (m *machine) levels(c cue.Cue) []int {
	var out []int
	for _, call := range m.called() {
		if call.Cue == c {
			out = append(out, call.Level)
		}
	}
	return out
}

func TestSleepIsToldAndNothingIsAssumed(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 2)
	m.do(day.Lower{Tag: "A1"})
	in.run(time.Minute)
	m.do(day.Lower{Tag: "A2"})
	in.run(time.Minute)
	before := m.look().Now
	in.sleep(3 * time.Hour)
	v := m.look()
	if got := v.Now.Sub(before); got != 3*time.Hour {
		t.Errorf("day-time went on by %s in a sleep of 3 h", got)
	}
	if got := bodies[day.Slept](v.State); len(got) != 1 || got[0].For != quantity.Hours(3) {
		t.Errorf("the sleep is told as %v", got)
	}
	calls := m.called()
	if len(calls) != 1 || calls[0].Cue != cue.Overdue || calls[0].Words.String() != "A1, A2 out" {
		t.Errorf("on waking it calls %+v", calls)
	}
	for range 40 {
		in.run(5 * time.Second)
		v = m.look()
	}
	if got := bodies[day.DipEnded](v.State); len(got) > 0 {
		t.Errorf("after a sleep it is assumed that %v", got)
	}
	if n := len(m.levels(cue.Overdue)); n != 4 { // on waking, and each minute on
		t.Errorf("what ran out in the sleep is told %d times", n)
	}
	if got := day.NowLine(v.State, v.Now); !strings.Contains(got, "lift A1 out") || !strings.Contains(got, "over") {
		t.Errorf("now says %q", got)
	}
	if len(bodies[day.ClockStepped](v.State)) > 0 {
		t.Error("a sleep is taken for a step of the clock")
	}
}

func TestClockStepMovesNoDeadline(t *testing.T) {
	for _, by := range []time.Duration{-time.Hour, 90 * time.Minute, 3 * time.Second} {
		in := newFake()
		m := dyeing(t, in, 1)
		m.do(day.Lower{Tag: "A1"})
		in.run(time.Minute)
		v := m.look()
		due, now := day.Dues(v.State), v.Now
		in.step(by)
		v = m.look()
		if got := bodies[day.ClockStepped](v.State); len(got) != 1 || got[0].By.Duration() != by {
			t.Errorf("a step of %s is told as %v", by, got)
		}
		if !v.Now.Equal(now) || !reflect.DeepEqual(day.Dues(v.State), due) {
			t.Errorf("a step of %s moves day-time to %s and the deadline to %v", by, v.Now, day.Dues(v.State))
		}
		in.run(time.Minute)
		if v = m.look(); v.Now.Sub(now) != time.Minute || len(bodies[day.ClockStepped](v.State)) != 1 {
			t.Errorf("a minute after a step of %s it is %s later", by, v.Now.Sub(now))
		}
	}
	in := newFake()
	m := dyeing(t, in, 0)
	in.step(1500 * time.Millisecond) // as a time server does
	if got := bodies[day.ClockStepped](m.look().State); len(got) > 0 {
		t.Errorf("1.5 s are told: %v", got)
	}
}

// A program that did not run for a minute, as it was stopped or its machine was starved, called nothing: nothing is assumed of
// what ran out meanwhile, though no machine slept.
func TestFrozenOverADipsEndAssumesNothing(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	m.do(day.Lower{Tag: "A1"})
	in.run(7*time.Minute + 40*time.Second)
	m.look()
	in.freeze(time.Minute)
	v := m.look()
	if got := bodies[day.DipEnded](v.State); len(got) > 0 {
		t.Errorf("nobody heard, and it is assumed that %v", got)
	}
	if calls := m.called(); len(calls) != 1 || calls[0].Cue != cue.Overdue {
		t.Errorf("when it runs again it calls %+v", calls)
	}
	in.run(2 * time.Minute)
	if got := bodies[day.DipEnded](m.look().State); len(got) > 0 {
		t.Errorf("later it is assumed that %v", got)
	}
	// Two seconds are a busy machine, over which the call is heard.
	in = newFake()
	m = dyeing(t, in, 1)
	m.do(day.Lower{Tag: "A1"})
	for range 5 * 60 {
		in.freeze(2 * time.Second)
		m.look()
	}
	if got := bodies[day.DipEnded](m.look().State); len(got) != 1 || !got[0].Assumed {
		t.Errorf("a call that was heard is not taken as done: %v", got)
	}
}

// kill ends the engine: from here on nobody watches the day.
func (m *machine) kill() {
	m.t.Helper()
	m.settle()
	m.stop()
	<-m.ended
}

// again opens the day of an engine that was killed from what is on disk.
func (m *machine) again(in *fake, boot string) *machine {
	m.t.Helper()
	m.disk.mu.Lock()
	events := append([]day.Event(nil), m.disk.events...)
	m.disk.mu.Unlock()
	return open(m.t, in, boot, engine.Opening{Head: tendHead(m.t), Events: events, Writer: &memory{events: events}})
}

// A day that a script says is opened anew for each act: the fraction of a second that an event's time leaves out is not lost each time.
func TestManyOpeningsLoseNoTime(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	for range 6 {
		in.run(900 * time.Millisecond)
		m.do(day.Record{Body: day.Note{Text: "so"}})
		m.kill()
		m = m.again(in, thisBoot)
	}
	v := m.look()
	if told := bodies[day.ClockStepped](v.State); len(told) > 0 || in.Wall().Sub(v.Now).Abs() > 10*time.Millisecond {
		t.Errorf("after six openings the day is %s behind the machine's clock, and tells of %v", in.Wall().Sub(v.Now), told)
	}
}

func TestRestart(t *testing.T) {
	begun := func(t *testing.T) (*fake, *machine, time.Time) {
		in := newFake()
		m := dyeing(t, in, 1)
		m.do(day.Lower{Tag: "A1"})
		last := m.look().State.At
		m.kill()
		return in, m, last
	}
	t.Run("same boot", func(t *testing.T) {
		in, m, last := begun(t)
		in.run(10 * time.Minute)
		in.step(-5 * time.Hour)
		m = m.again(in, thisBoot)
		v := m.look()
		if got := v.Now.Sub(last); got != 10*time.Minute {
			t.Errorf("by the boot clock 10 min have passed, day-time says %s", got)
		}
		if p, _ := v.State.Piece("A1"); p.Phase != day.InVat {
			t.Error("a restart moved the piece")
		}
		if calls := m.called(); len(calls) != 1 || calls[0].Cue != cue.Overdue {
			t.Errorf("on return it calls %+v", calls)
		}
		in.run(10 * time.Minute)
		if got := bodies[day.DipEnded](m.look().State); len(got) > 0 {
			t.Errorf("across a restart it is assumed that %v", got)
		}
	})
	t.Run("still running", func(t *testing.T) {
		in, m, _ := begun(t)
		in.run(5 * time.Minute)
		m = m.again(in, thisBoot)
		if got := day.NowLine(m.look().State, m.look().Now); got != "A1 in the vat, dip 1 of 3, 3:00 left" {
			t.Errorf("now says %q", got)
		}
		in.run(3*time.Minute + 30*time.Second) // heard to its end by this program
		if got := bodies[day.DipEnded](m.look().State); len(got) != 1 || !got[0].Assumed {
			t.Errorf("a call that was heard is not taken as done: %v", got)
		}
	})
	t.Run("after a reboot", func(t *testing.T) {
		in, m, last := begun(t)
		in.run(20 * time.Minute)
		in.move(0, -in.up+30*time.Second, 0)
		m = m.again(in, "00aa11bb")
		if got := m.look().Now.Sub(last); got != 20*time.Minute {
			t.Errorf("by the wall 20 min have passed, day-time says %s", got)
		}
	})
	t.Run("after a reboot with a clock set back", func(t *testing.T) {
		in, m, last := begun(t)
		in.move(-3*time.Hour, -in.up+30*time.Second, 0)
		m = m.again(in, "00aa11bb")
		v := m.look()
		if v.Now.Before(last) || v.Now.Sub(last) > time.Second {
			t.Errorf("day-time is %s, the last event was at %s", v.Now, last)
		}
		in.run(time.Minute)
		if got := m.look().Now.Sub(v.Now); got != time.Minute {
			t.Errorf("then a minute is %s", got)
		}
		if got := bodies[day.ClockStepped](v.State); len(got) != 1 {
			t.Errorf("the clock is told as %v", got)
		}
	})
}

func TestDayTimeNeverRunsBack(t *testing.T) {
	for _, noBoot := range []bool{false, true} {
		in := newFake()
		in.noBoot = noBoot
		m := dyeing(t, in, 1)
		last := m.look().Now
		for _, d := range []time.Duration{time.Minute, -time.Hour, -time.Second, 2 * time.Hour, -5 * time.Hour} {
			in.step(d)
			in.run(time.Second)
			m.do(day.Record{Body: day.Note{Text: "the clock was set"}})
			if v := m.look(); v.Now.Before(last) || v.State.At.After(v.Now) {
				t.Errorf("after a step of %s day-time went from %s to %s", d, last, v.Now)
			} else {
				last = v.Now
			}
		}
		m.settle()
		m.disk.mu.Lock()
		for i, e := range m.disk.events[1:] {
			if before := m.disk.events[i]; e.At.Before(before.At) || e.Seq != before.Seq+1 {
				t.Errorf("#%d at %s stands after #%d at %s", e.Seq, e.At, before.Seq, before.At)
			}
		}
		m.disk.mu.Unlock()
	}
}

// Law 1: what the hands did is taken at once; a failing disk is retried under a standing banner.
func TestFailingDiskLosesNothing(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 0)
	m.settle()
	fails := func(n int) (was int) {
		m.disk.mu.Lock()
		defer m.disk.mu.Unlock()
		was, m.disk.fail = m.disk.fail, n
		return was
	}
	fails(1000)
	first := m.look().Saved
	for range 5 {
		m.do(day.Record{Body: day.Note{Text: "written by hand"}})
	}
	v := m.until("the trouble is told", func(v engine.View) bool { return v.Trouble != "" })
	if !strings.Contains(v.Trouble, " NOT on disk: the disk is full, and no other place takes ") || !strings.HasSuffix(v.Trouble, "; make room, it is tried again") || v.Saved != first || len(v.State.Log) != first+5 {
		t.Errorf("%q; %d saved of %d", v.Trouble, v.Saved, len(v.State.Log))
	}
	fails(1000)
	for range 100 {
		in.run(100 * time.Millisecond)
		m.look()
		runtime.Gosched()
	}
	if tries := 1000 - fails(1000); tries > 11 {
		t.Errorf("in ten seconds it is tried %d times", tries)
	}
	fails(0)
	v = m.until("all is on disk", func(v engine.View) bool {
		in.run(100 * time.Millisecond)
		return v.Saved == first+5
	})
	if v.Trouble != "" {
		t.Errorf("all is on disk, and still %q", v.Trouble)
	}
	m.disk.mu.Lock()
	defer m.disk.mu.Unlock()
	for i, e := range m.disk.events {
		if e.Seq != i+1 {
			t.Errorf("event %d stands at place %d", e.Seq, i+1)
		}
	}
}

// At the end the last acts get another second, even on a disk that has just failed.
func TestStoppingTriesTheDiskAgain(t *testing.T) {
	m := dyeing(t, newFake(), 0)
	m.settle()
	m.disk.mu.Lock()
	m.disk.fail = 2
	n := len(m.disk.events)
	m.disk.mu.Unlock()
	m.do(day.Record{Body: day.Note{Text: "one"}})
	m.do(day.Record{Body: day.Note{Text: "two"}})
	m.stop()
	<-m.ended
	if got := len(m.disk.events) - n; got != 2 {
		t.Errorf("%d of 2 acts are on disk", got)
	}
	if _, err := m.e.Do(m.ctx, id, day.Done{}); !errors.Is(err, engine.ErrGone) {
		t.Errorf("a stopped engine answers %v", err)
	}
}

// slow is a disk that answers when it is let.
type slow struct {
	memory
	let chan struct{}
}

func (s *slow) Append(e day.Event) error { <-s.let; return s.memory.Append(e) }

// The screen marks as not yet on disk what is not: and the hands go on meanwhile.
func TestSlowDiskHoldsNobodyUp(t *testing.T) {
	disk := &slow{let: make(chan struct{})}
	m := open(t, newFake(), thisBoot, engine.Opening{Head: tendHead(t), Writer: disk})
	m.do(day.Skip{Reason: "warm already"})
	m.do(day.Judge{Ready: true})
	if v := m.look(); v.Saved != 0 || len(v.State.Log) != 3 {
		t.Errorf("%d of %d are called saved", v.Saved, len(v.State.Log))
	}
	for n := 1; n <= 3; n++ {
		disk.let <- struct{}{}
		m.until("it is called saved", func(v engine.View) bool { return v.Saved == n })
	}
}

// The engine never waits for anybody to fetch a snapshot: the newest one lies in the slot.
func TestMailboxNeverBlocks(t *testing.T) {
	m := dyeing(t, newFake(), 0)
	for range 300 {
		m.do(day.Record{Body: day.Note{Text: "nobody looks"}})
	}
	m.settle()
	m.look() // its snapshot is published after the answer: the next question waits for it
	m.look()
	snap := <-m.e.Mail()
	v, ok := snap.Day(id)
	if !ok || len(v.State.Log) != 304 || v.Saved != 304 {
		t.Errorf("the slot holds a snapshot of %d events, %d saved", len(v.State.Log), v.Saved)
	}
}

func TestLookingOnlyRefuses(t *testing.T) {
	events := []day.Event{{Seq: 1, At: newFake().wall, Body: day.Opened{How: "tend"}}}
	m := open(t, newFake(), thisBoot, engine.Opening{Head: tendHead(t), Events: events})
	if _, err := m.e.Do(m.ctx, id, day.Done{}); err == nil || !strings.Contains(err.Error(), "another program") {
		t.Errorf("a day that is only looked at answers %v", err)
	}
	if _, err := m.e.Do(m.ctx, "bin/other", day.Done{}); err == nil || !strings.Contains(err.Error(), "not open") {
		t.Errorf("a day that is not open answers %v", err)
	}
	if v := m.look(); !v.Looking || len(v.State.Log) != 1 {
		t.Errorf("%+v", v)
	}
	if err := m.e.Leave(m.ctx, id); err != nil {
		t.Error(err)
	}
}

// It calls, and after 30 s the time runs on.
func TestItCallsThenTheTimeRunsOn(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	m.do(day.Lower{Tag: "A1"})
	in.run(8 * time.Minute)
	for range 6 {
		m.look()
		m.look() // the same call does not sound twice
		in.run(5 * time.Second)
	}
	if got := m.levels(cue.Out); !reflect.DeepEqual(got, []int{0}) {
		t.Errorf("the call rises as %v", got)
	}
	v := m.look()
	if got := bodies[day.DipEnded](v.State); len(got) != 1 || !got[0].Assumed {
		t.Fatalf("after 30 s: %v", got)
	}
	m.do(day.Confirm{Seq: len(v.State.Log)})
	in.run(12*time.Minute - 31*time.Second)
	m.look()
	if got := m.levels(cue.In); len(got) != 0 {
		t.Errorf("the airing is called %v before its end", got)
	}
	in.run(time.Second)
	for range 11 * 60 / 5 {
		m.look()
		in.run(5 * time.Second)
	}
	if got := m.levels(cue.In); !reflect.DeepEqual(got, []int{0, 0, 0}) {
		t.Errorf("in 11 min the airing is called %v", got)
	}
	if p, _ := m.look().State.Piece("A1"); p.Phase != day.Airing {
		t.Errorf("the airing ended by itself: %+v", p)
	}
}

// Two dips that end together, by at most a twentieth of a dip, are one call: the hands go to the vat once.
func TestCallsThatFallTogetherAreOne(t *testing.T) {
	for _, apart := range []time.Duration{0, 3 * time.Second, 24 * time.Second, 30 * time.Second} {
		in := newFake()
		m := dyeing(t, in, 2)
		m.do(day.Lower{Tag: "A1"})
		in.run(apart)
		m.do(day.Lower{Tag: "A2"})
		in.run(8*time.Minute - apart)
		m.look()
		var calls []cue.Call
		for _, c := range m.called() {
			if c.Cue == cue.Out {
				calls = append(calls, c)
			}
		}
		if len(calls) != 1 || !strings.Contains(calls[0].Words.String(), "A1") || strings.Contains(calls[0].Words.String(), "A2") != (apart <= 24*time.Second) {
			t.Errorf("%v apart: %+v", apart, calls)
		}
	}
}

func TestWaitingModeOnlyCalls(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1, func(h *day.Head) { h.Setup.Waiting = true })
	m.do(day.Lower{Tag: "A1"})
	in.run(8 * time.Minute)
	for range 50 {
		m.look()
		in.run(5 * time.Second)
	}
	out, late := m.levels(cue.Out), m.levels(cue.Overdue) // late from a tenth of the dip on, 48 s
	if !reflect.DeepEqual(out, []int{0, 1}) || !reflect.DeepEqual(late, []int{2, 3, 3, 3}) {
		t.Errorf("the call rises as %v, then as %v", out, late)
	}
	if got := bodies[day.DipEnded](m.look().State); len(got) > 0 {
		t.Errorf("the waiting mode goes on by itself: %v", got)
	}
}

func TestCountInIsCalledOnce(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 0)
	m.do(day.AddPiece{Tag: "S1", Spec: day.PieceSpec{Fibre: "silk", Dry: 50, Dips: 2, Dip: quantity.Seconds(90)}})
	m.do(day.Record{Body: day.WettedOut{OfPiece: piece("S1")}})
	m.do(day.Lower{Tag: "S1"})
	for range 20 {
		m.look()
		in.run(500 * time.Millisecond)
	}
	if got := m.levels(cue.Count); !reflect.DeepEqual(got, []int{5}) {
		t.Errorf("the count-in is called %v", got)
	}
}

// What a live day puts on disk reads back as the day that was live.
func TestDiskHoldsTheLiveDay(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 2)
	m.do(day.Lower{Tag: "A1"})
	in.run(100*time.Second + 300*time.Millisecond)
	m.do(day.Lower{Tag: "A2"})
	in.run(8*time.Minute + 20*time.Second + 123456789)
	m.look()
	m.do(day.Lift{Tag: "A2", When: m.look().Now.Add(-90*time.Second - 1)})
	in.sleep(20 * time.Minute)
	m.do(day.Done{})
	in.step(-time.Hour)
	m.do(day.Back{})
	m.settle()
	v := m.look()
	b := book.Read("", encode(t, v.State.Head, m.disk.events))
	s, errs := day.Replay(b.Head, b.Events)
	if len(errs) > 0 || len(book.Verify(b)) > 0 {
		t.Error(errs, book.Verify(b))
	}
	if len(s.Log) != len(v.State.Log) {
		t.Fatalf("%d events are on disk, %d are live", len(s.Log), len(v.State.Log))
	}
	a, c := day.Dues(s), day.Dues(v.State)
	for i := range max(len(a), len(c)) {
		if i >= len(a) || i >= len(c) || !a[i].At.Equal(c[i].At) || a[i].Timer != c[i].Timer {
			t.Fatalf("from disk it is due %v, live %v", a, c)
		}
	}
	if x, y := day.NowLine(s, v.Now), day.NowLine(v.State, v.Now); x != y {
		t.Errorf("from disk it is %q, live %q", x, y)
	}
}
