package engine_test

import (
	"errors"
	"slices"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// A press long before a dip's end is asked for again, and taken a second later; more than five seconds later it is asked for anew.
func TestAnEarlyLiftTakesTwoPresses(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1)
	m.do(day.Lower{Tag: "A1"})
	in.run(3 * time.Minute)
	press := func() error { _, err := m.e.Do(m.ctx, id, day.Done{}); return err }
	var pending *day.Pending
	for _, after := range []time.Duration{0, 6 * time.Second} {
		in.run(after)
		if err := press(); !errors.As(err, &pending) {
			t.Fatalf("the first press: %v", err)
		}
	}
	in.run(500 * time.Millisecond)
	if err := press(); !errors.Is(err, day.ErrTooSoon) {
		t.Errorf("a bounce: %v", err)
	}
	in.run(600 * time.Millisecond)
	if err := press(); err != nil {
		t.Errorf("the second press: %v", err)
	}
	if got := m.look().State.Pieces[0]; got.Phase != day.Airing {
		t.Errorf("it is %+v", got)
	}
}

// What comes out together is called as one, and taken as one act where nobody answers.
func TestWhatComesOutTogetherIsCalledAsOne(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 3)
	for _, tag := range []string{"A1", "A2", "A3"} {
		m.do(day.Lower{Tag: tag})
		in.run(8 * time.Second)
	}
	in.run(8*time.Minute - 24*time.Second)
	in.run(20 * time.Second)
	for _, c := range m.called() {
		if c.Cue != cue.Out || c.Words.String() != "A1, A2, A3 out" {
			t.Errorf("it calls %q", c.Words)
		}
	}
	in.run(11 * time.Second)
	v := m.look()
	if got := bodies[day.DipEnded](v.State); len(got) != 3 || v.State.Assumed != 1 {
		t.Errorf("after half a minute %v are assumed, %d acts", got, v.State.Assumed)
	}
	if got := m.called(); len(got) == 0 {
		t.Error("it calls nothing")
	}
	if _, err := m.e.Do(m.ctx, id, day.Done{}); err != nil {
		t.Fatal(err)
	}
	if got := bodies[day.Corrected](m.look().State); len(got) != 3 {
		t.Errorf("a press just after makes %v", got)
	}
}

// Where several days are written, what is spoken begins with the vat: by its name, else by the id. A day that is closed counts for
// none.
func TestSeveralVatsAreCalledByName(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 1, func(h *day.Head) { h.Setup.Waiting = true })
	m.do(day.Lower{Tag: "A1"})
	in.run(7 * time.Minute)
	h := tendHead(t)
	h.Vat = "tub"
	other := "tub/2026-05-09"
	if _, err := m.e.Open(m.ctx, engine.Opening{ID: other, Head: h, Writer: &memory{}}); err != nil {
		t.Fatal(err)
	}
	in.run(time.Minute + time.Second)
	if _, err := m.e.Do(m.ctx, other, day.Answered{Command: day.Close{}}); err != nil {
		t.Fatal(err)
	}
	in.run(30 * time.Second)
	var said []string
	for _, c := range m.called() {
		said = append(said, c.Words.String())
	}
	if !slices.Equal(said, []string{"bin: A1 out", "A1 out, the clock waits for you"}) {
		t.Errorf("it says %q", said)
	}
}
