package engine_test

import (
	"errors"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
)

// press is the big key on a call; empty: the key alone.
func (m *machine) press(call string) error {
	_, err := m.e.Press(m.ctx, id, day.Done{Call: call})
	return err
}

// call is what the hands are asked for now, after time has acted.
func (m *machine) call() day.Call {
	v := m.look()
	return day.CallOf(v.State, v.Now)
}

// justChanged tells whether a press was refused because the call had just changed.
func justChanged(err error) bool {
	other := (*day.Other)(nil)
	return errors.As(err, &other) && other.Just
}

// At each kind of call of the played days a press within 0.7 s after it has come does nothing and says why; a later one is
// answered as the day answers it.
func TestAPressJustAfterAChangeOfCall(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	tried := map[string]bool{}
	for _, sc := range scripts {
		end, events, _ := sc.play(t)
		before, err := day.Begin(end.Head)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range events {
			after, err := day.Apply(before, e)
			if err != nil {
				t.Fatal(err)
			}
			was, call := day.CallOf(before, e.At), day.CallOf(after, e.At)
			if !after.Closed && call.ID != was.ID && !tried[call.Verb] {
				tried[call.Verb] = true
				m.pressesAt(before, after, e.At)
			}
			before = after
		}
	}
	for _, verb := range []string{"lift", "lower", "wet", "skim", "weigh", "wait", "stir", "rest", "finish", "add", "look", "take out", "sprinkle", "acid"} {
		if !tried[verb] {
			t.Errorf("no %s was tried, only %v", verb, tried)
		}
	}
}

// pressesAt presses at several moments after a day has changed.
func (m *machine) pressesAt(before, after day.State, now time.Time) {
	m.t.Helper()
	call := day.CallOf(after, now)
	for _, wait := range []time.Duration{50, 200, 650, 700, 2000} {
		for _, seen := range []string{"", call.ID} {
			m.become(before, now)
			m.become(after, now)
			m.in.freeze(wait * time.Millisecond)
			err := m.press(seen)
			made := m.look().State.Seq - after.Seq
			if wait < 700 {
				if want := (&day.Other{Now: call.Brief(), Just: true}).Error(); !justChanged(err) || made != 0 || err.Error() != want {
					m.t.Errorf("%s, %d ms after it has come, the press for %q: %v, %d events", call.ID, wait, seen, err, made)
				}
				continue
			}
			bodies, want := day.Decide(after, day.Done{Call: seen}, now)
			if made < len(bodies) || (err == nil) != (want == nil) || err != nil && err.Error() != want.Error() {
				m.t.Errorf("%s, %d ms after it has come, the press for %q: %v, %d events; want %v, %d", call.ID, wait, seen, err, made, want, len(bodies))
			}
		}
	}
}

func (m *machine) become(s day.State, now time.Time) {
	m.t.Helper()
	if err := m.e.Become(m.ctx, id, s, now); err != nil {
		m.t.Fatal(err)
	}
	m.look()
}

// A call that comes because a time is over is guarded from that moment on.
func TestAPressJustAfterATimeIsOver(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	m.do(day.Lower{Tag: "A1"})
	in.run(8 * time.Minute)
	m.look()
	m.do(day.Lift{Tag: "A1"})
	m.do(day.Record{Body: day.FrothSkimmed{}})
	was := m.call()
	in.run(12*time.Minute - 200*time.Millisecond)
	if got := m.call(); got.ID != was.ID || got.Verb != "air" {
		t.Fatalf("it airs, and the call is %s", got.ID)
	}
	in.freeze(250 * time.Millisecond)
	if got := m.call(); got.ID != "look A1 1" {
		t.Fatalf("it has aired, and the call is %s", got.ID)
	}
	if err := m.press(was.ID); err == nil || err.Error() != "Not taken. Now look at A1: enough?" {
		t.Errorf("the press for the airing: %v", err)
	}
	in.freeze(500 * time.Millisecond)
	if err := m.press(""); err == nil || err.Error() != "Not taken: it has just changed. Now look at A1: enough?" {
		t.Errorf("a press 500 ms later: %v", err)
	}
	look := day.Decided{Tag: "A1", Say: day.LookStop, Call: m.call().ID}
	if _, err := m.e.Press(m.ctx, id, look); !justChanged(err) {
		t.Errorf("its figure 500 ms later: %v", err)
	}
	in.freeze(250 * time.Millisecond)
	if _, err := m.e.Press(m.ctx, id, look); err != nil {
		t.Errorf("its figure 750 ms later: %v", err)
	}
}

// The call of a lift is the same before its end, at it and after it: each press counts.
func TestAPressAtZeroCounts(t *testing.T) {
	for _, at := range []time.Duration{-50 * time.Millisecond, 0, 50 * time.Millisecond, 650 * time.Millisecond, 20 * time.Second} {
		in := newFake()
		m := dyeing(t, in, 1)
		m.do(day.Lower{Tag: "A1"})
		in.run(8*time.Minute - time.Second)
		seen := m.call().ID
		in.freeze(time.Second + at)
		if err := m.press(seen); err != nil {
			t.Errorf("%s after the end: %v", at, err)
		}
		if got := m.look().State.Pieces[0].Phase; got != day.Airing {
			t.Errorf("%s after the end it is in phase %v", at, got)
		}
	}
}

// A press just after a lift was assumed confirms it, though the call has just changed; it does nothing else.
func TestAPressJustAfterAnAssumedLift(t *testing.T) {
	for _, named := range []bool{true, false} {
		in := newFake()
		m := dyeing(t, in, 1)
		m.do(day.Lower{Tag: "A1"})
		in.run(8 * time.Minute)
		seen := m.call().ID
		in.run(30 * time.Second)
		if got := m.call().ID; got == seen {
			t.Fatalf("the call is %s still", got)
		}
		if !named {
			seen = ""
		}
		in.freeze(200 * time.Millisecond)
		if err := m.press(seen); err != nil {
			t.Errorf("the press for %q: %v", seen, err)
		}
		log := m.look().State.Log
		if _, is := log[len(log)-1].Body.(day.Corrected); !is {
			t.Errorf("the press for %q makes %#v", seen, log[len(log)-1].Body)
		}
	}
}

// What is said, played, or done by another key than the big one is not guarded.
func TestOnlyPressesAreGuarded(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	m.do(day.Done{})
	m.do(day.Done{})
	if got := m.call().Verb; got != "lift" {
		t.Fatalf("the call is %s", got)
	}
	if _, err := m.e.Press(m.ctx, id, day.Record{Body: day.Note{Text: "rain"}}); err != nil {
		t.Errorf("a note: %v", err)
	}
	in.freeze(5 * time.Minute)
	m.do(day.Lift{Tag: "A1"})
	m.do(day.Lower{Tag: "A1"})
	m.look()
	in.freeze(100 * time.Millisecond)
	if err := m.press(""); !justChanged(err) {
		t.Errorf("a press: %v", err)
	}
	in.freeze(3 * time.Second)
	if pending := (*day.Pending)(nil); !errors.As(m.press(""), &pending) {
		t.Error("a press 3 s later takes it out long before its time")
	}
}

// The second press of an early lift counts from one second of the machine's clock on, however fast the day's own runs.
func TestASecondPressGoesByTheMachine(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	m.do(day.Lower{Tag: "A1"})
	in.run(time.Minute)
	press := func() error { _, err := m.e.Do(m.ctx, id, day.Done{}); return err }
	pending := (*day.Pending)(nil)
	if err := press(); !errors.As(err, &pending) {
		t.Fatalf("the first press: %v", err)
	}
	in.sleep(3 * time.Second) // the day's clock alone
	if err := press(); !errors.Is(err, day.ErrTooSoon) {
		t.Errorf("a bounce: %v", err)
	}
	in.move(0, 0, time.Second)
	if err := press(); err != nil {
		t.Errorf("a second after the first: %v", err)
	}
}

// Another key has a press asked anew, though an act on another day came first.
func TestAKeyBetweenIsOfAllDays(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	m.do(day.Lower{Tag: "A1"})
	const other = "tub/2026-05-09"
	if _, err := m.e.Open(m.ctx, engine.Opening{ID: other, Head: tendHead(t), Writer: &memory{}}); err != nil {
		t.Fatal(err)
	}
	in.run(time.Minute)
	for _, between := range []bool{true, false} {
		if err := m.press(""); !errors.As(err, new(*day.Pending)) {
			t.Fatalf("the first press: %v", err)
		}
		if between {
			m.e.Unask()
		}
		if _, err := m.e.Do(m.ctx, other, day.Record{Body: day.Note{Text: "so"}}); err != nil {
			t.Fatal(err)
		}
		in.run(2 * time.Second)
		if err := m.press(""); errors.As(err, new(*day.Pending)) != between {
			t.Errorf("a key between them: %v, the second press: %v", between, err)
		}
		in.run(engine.StillAsked)
	}
}

// The second press answers what the first one was asked: not the caution of other words, nor for pieces that the first one left out.
func TestAPressAnswersItsOwnQuestion(t *testing.T) {
	for _, first := range []day.Command{day.Record{Body: day.PowderAdded{Powder: "soda", Mass: 20, Into: "stock"}}, day.Done{Without: "A2"}} {
		in := newFake()
		m := dyeing(t, in, 2)
		m.do(day.Lower{Tag: "A1"})
		m.do(day.Lower{Tag: "A2"})
		in.run(time.Minute)
		if _, err := m.e.Do(m.ctx, id, first); !errors.As(err, new(*day.Pending)) {
			t.Fatalf("%#v wants nothing answered: %v", first, err)
		}
		in.run(2 * time.Second)
		before := m.look().State.Seq
		if err := m.press(m.call().ID); !errors.As(err, new(*day.Pending)) || m.look().State.Seq != before {
			t.Errorf("after %#v a press is taken for its answer: %v", first, err)
		}
	}
}
