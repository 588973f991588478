package engine_test

import (
	"context"
	"fmt"
	"slices"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
)

// resting is a machine in a bubble, with a count of how often its engine woke: each time it publishes.
type resting struct {
	*machine
	woken atomic.Int64
	last  atomic.Pointer[engine.Snapshot]
}

// noDay is for an engine without a day.
const noDay = -1

// rest runs an engine in a bubble, without a day or on one that waits for the hands, whose clock is that much and 0.3 s behind
// the wall's.
func rest(t *testing.T, behind time.Duration, f func(*resting, *sleeper)) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		in := &sleeper{bubble: bubble{time.Now().Add(-time.Hour)}}
		time.Sleep(300 * time.Millisecond)
		m := &resting{machine: &machine{t: t, calls: &cue.Recorder{}, ended: make(chan struct{})}}
		m.ctx, m.stop = context.WithCancel(t.Context())
		m.e = engine.New(in, thisBoot, m.calls)
		go func() { m.e.Run(m.ctx); close(m.ended) }()
		go func() {
			for {
				select {
				case s := <-m.e.Mail():
					m.last.Store(&s)
					m.woken.Add(1)
				case <-m.ctx.Done():
					return
				}
			}
		}()
		if behind != noDay {
			up, _ := in.Boot()
			opened := day.Event{Seq: 1, At: in.Wall().Add(-behind).Truncate(time.Second), Boot: thisBoot, Up: up.Seconds(), Body: day.Opened{How: "tend"}}
			m.disk = &memory{events: []day.Event{opened}}
			if _, err := m.e.Open(m.ctx, engine.Opening{ID: id, Head: tendHead(t), Events: m.disk.events, Writer: m.disk}); err != nil {
				t.Fatal(err)
			}
			m.do(day.Skip{Reason: "warm already"})
			m.do(day.Judge{Ready: true})
		}
		synctest.Wait()
		f(m, in)
		m.stop()
		<-m.ended
	})
}

// sleeper is a bubble's machine that can be suspended.
type sleeper struct {
	bubble
	slept atomic.Int64
}

func (s *sleeper) Wall() time.Time { return s.bubble.Wall().Add(time.Duration(s.slept.Load())) }

func (s *sleeper) Boot() (time.Duration, bool) {
	up, ok := s.bubble.Boot()
	return up + time.Duration(s.slept.Load()), ok
}

// wakes is how often the engine wakes in a stretch.
func (m *resting) wakes(d time.Duration) int {
	before := m.woken.Load()
	time.Sleep(d)
	synctest.Wait()
	return int(m.woken.Load() - before)
}

// minutely is how often in an hour the outlook of an open day is reckoned, and its answer taken.
const minutely = 60

func TestTheEngineRestsWhileNothingRuns(t *testing.T) {
	rest(t, noDay, func(m *resting, _ *sleeper) {
		if n := m.wakes(time.Hour); n > 360 {
			t.Errorf("without a day it wakes %d times in an hour", n)
		}
		m.e.EachSecond(true)
		if n := m.wakes(time.Minute); n < 60 || n > 62 {
			t.Errorf("with a stopwatch on the screen it wakes %d times in a minute", n)
		}
		m.e.EachSecond(false)
		if n := m.wakes(time.Minute); n > 8 {
			t.Errorf("after it %d times", n)
		}
	})
	rest(t, 0, func(m *resting, _ *sleeper) {
		if n := m.wakes(time.Hour); n > 360+minutely {
			t.Errorf("on a day that waits for the hands it wakes %d times in an hour", n)
		}
		m.do(day.Answered{Command: day.Close{}})
		synctest.Wait()
		if n := m.wakes(time.Hour); n > 360+minutely {
			t.Errorf("on a closed day it wakes %d times in an hour", n)
		}
	})
}

func TestTheEngineWakesEachSecondOfARunningTime(t *testing.T) {
	rest(t, 0, func(m *resting, _ *sleeper) {
		m.do(day.RestVat{For: quantity.Minutes(90)})
		synctest.Wait()
		if n := m.wakes(time.Hour); n < 3600 || n > 3600+minutely+1 {
			t.Errorf("it wakes %d times in an hour", n)
		}
		for range 100 {
			if v := m.look(); v.Now.Sub(v.Now.Truncate(time.Second)) > time.Millisecond {
				t.Fatalf("it looks at %s, not at a whole second", v.Now)
			}
			time.Sleep(time.Second)
		}
	})
}

// A clock that is shown to the minute is never late by as much as a second.
func TestTheMinuteIsShownInTime(t *testing.T) {
	rest(t, 25*time.Second, func(m *resting, _ *sleeper) {
		time.Sleep(4 * time.Second)
		m.look() // from here on it rests
		var late time.Duration
		for range 600 {
			time.Sleep(time.Second)
			synctest.Wait()
			wall, last := time.Now(), m.last.Load()
			shown := last.Days[0].Now
			for _, clock := range [][2]time.Time{{last.Wall, wall}, {shown, shown.Add(wall.Sub(last.Wall))}} {
				if is := clock[1].Truncate(time.Minute); clock[0].Before(is) {
					late = max(late, clock[1].Sub(is))
				}
			}
		}
		if late > time.Second {
			t.Errorf("a minute is shown %s late", late)
		}
	})
}

// A long rest that was meant is no gap in which nobody heard: of a dip that is told of afterwards, and ended in it, the lift is
// assumed as of any other.
func TestALongRestIsNoGap(t *testing.T) {
	rest(t, 0, func(m *resting, _ *sleeper) {
		m.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}})
		m.do(day.Record{Body: day.WettedOut{OfPiece: piece("A1")}})
		m.do(day.Record{Body: day.SoundChecked{Heard: true}})
		time.Sleep(20*time.Minute + 8*time.Second)
		m.do(day.Lower{Tag: "A1", When: m.look().Now.Add(-8*time.Minute - 5*time.Second)})
		time.Sleep(40 * time.Second)
		if got := bodies[day.DipEnded](m.look().State); len(got) != 1 || !got[0].Assumed {
			t.Errorf("the lift is %v", got)
		}
		if n := len(m.levels(cue.Overdue)); n > 0 {
			t.Errorf("%d calls of what nobody heard", n)
		}
	})
}

// What slept while the engine rested stands in the book before what the hands did first after it.
func TestASleepInALongRestComesBeforeTheAct(t *testing.T) {
	rest(t, 0, func(m *resting, in *sleeper) {
		time.Sleep(5 * time.Second)
		in.slept.Store(int64(3 * time.Hour))
		m.do(day.Record{Body: day.Note{Text: "back from lunch"}})
		v := m.look()
		if n := len(v.State.Log); n != 5 || v.State.Log[3].Body != day.Body(day.Slept{For: quantity.Hours(3)}) {
			t.Errorf("the book has %v", v.State.Log)
		}
	})
}

// A disk that fails is tried again each second, though no time runs.
func TestAFailingDiskIsTriedWhileTheEngineRests(t *testing.T) {
	rest(t, 0, func(m *resting, _ *sleeper) {
		m.disk.fail = 7
		m.do(day.Record{Body: day.Note{Text: "written by hand"}})
		time.Sleep(8 * time.Second)
		synctest.Wait()
		if v := m.last.Load().Days[0]; v.Unsaved > 0 || v.Trouble != "" {
			t.Errorf("after eight seconds %d acts are not on disk: %s", v.Unsaved, v.Trouble)
		}
	})
}

// Who waits for a disk that does not answer wakes nobody.
func TestWaitingForTheDiskPollsNothing(t *testing.T) {
	rest(t, noDay, func(m *resting, _ *sleeper) {
		disk := &slow{let: make(chan struct{})}
		if _, err := m.e.Open(m.ctx, engine.Opening{ID: id, Head: tendHead(m.t), Writer: disk}); err != nil {
			m.t.Fatal(err)
		}
		asked := make(chan error, 1)
		go func() { asked <- m.e.Settle(m.ctx, id) }()
		if n := m.wakes(10 * time.Second); n > 15 {
			t.Errorf("in ten seconds the engine wakes %d times", n)
		}
		disk.let <- struct{}{}
		if err := <-asked; err != nil {
			t.Error(err)
		}
	})
}

// The dyer of a rehearsal waits for what is due and for what happens, and does what the dyer of one at full speed does, but that
// it reads the vat when it is time, and not with the next act.
func TestTheDyerOfARehearsalDoesNotPoll(t *testing.T) {
	soda, ok := recipes.Find("soda")
	if !ok {
		t.Fatal("no recipe soda")
	}
	head := rehearse.Head(soda, morning)
	fast, led := &memory{}, engine.NewLed(morning)
	full := open(t, newFake(), "", engine.Opening{Head: head, Writer: fast, Source: led})
	if err := rehearse.Play(full.ctx, full.e, []string{id}, led, func(string, day.State, day.Event) {}); err != nil {
		t.Fatal(err)
	}
	rest(t, noDay, func(m *resting, in *sleeper) {
		disk := &memory{}
		o := engine.Opening{ID: id, Head: head, Writer: disk, Source: engine.NewPlaying(in, morning, 1)}
		if _, err := m.e.Open(m.ctx, o); err != nil {
			t.Fatal(err)
		}
		m.e.Advise(1000) // any timetable will do: three pieces need none
		m.woken.Store(0)
		began := time.Now()
		if err := rehearse.Play(m.ctx, m.e, []string{id}, nil, func(string, day.State, day.Event) {}); err != nil {
			t.Fatal(err)
		}
		// The engine wakes each second at most, and each minute for the outlook and for the dyer; each act is done, written,
		// reckoned with, and looked at twice.
		took := time.Since(began)
		most := int(took/time.Second) + 2*int(took/time.Minute) + 8*len(disk.events)
		if woken := int(m.woken.Load()); woken > most {
			t.Errorf("in %s with %d events the engine wakes %d times, at most %d are due", took, len(disk.events), woken, most)
		}
		if got, want := acts(disk.events), acts(fast.events); !slices.Equal(got, want) {
			t.Errorf("the day is\n%v, at full speed\n%v", got, want)
		}
	})
}

// acts are the kinds of the events but for readings.
func acts(events []day.Event) []string {
	var out []string
	for _, e := range events {
		if _, reads := e.Body.(day.Reading); !reads {
			out = append(out, fmt.Sprintf("%T", e.Body))
		}
	}
	return out
}

// Until it is told to, an engine reckons nothing beside it; then it does at once, though nothing happens.
func TestTheForecastsWait(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		in := bubble{time.Now().Add(-time.Hour)}
		ctx, stop := context.WithCancel(t.Context())
		e := engine.New(in, thisBoot, &cue.Recorder{})
		e.Advise(0)
		parted := e.Start(ctx)
		if _, err := e.Open(ctx, engine.Opening{ID: id, Head: tendHead(t), Writer: &memory{}}); err != nil {
			t.Fatal(err)
		}
		reckoned := func() bool {
			synctest.Wait()
			snap, err := e.Now(ctx)
			if err != nil {
				t.Fatal(err)
			}
			synctest.Wait()
			snap = <-e.Mail()
			return snap.Days[0].Outlook != nil
		}
		time.Sleep(3 * time.Minute)
		if reckoned() {
			t.Error("it has not waited")
		}
		if e.Advise(engine.Fully); !reckoned() {
			t.Error("it waits still")
		}
		stop()
		<-parted
	})
}
