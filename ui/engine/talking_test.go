package engine_test

import (
	"context"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
)

// While the class is talked to the timetable slides with the clock: no piece is planned to go in before now.
func TestATalkSlidesTheTimetable(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 4)
	first := func(v engine.View) time.Time {
		if v.Table == nil || v.Table.Fault != "" || len(v.Table.Turn()) == 0 {
			return time.Time{}
		}
		r, _ := v.Table.Next(v.Table.Turn()[0])
		return v.Table.At(r.Lower)
	}
	m.do(day.Record{Body: day.Talking{On: true}})
	v := m.until("a timetable", func(v engine.View) bool { return !first(v).IsZero() && v.State.Talks() })
	for range 5 {
		was := v.Table
		in.run(time.Minute)
		v = m.until("it is planned anew", func(v engine.View) bool { return v.Table != was })
	}
	if late := v.Now.Sub(first(v)); late > 2*time.Minute {
		t.Errorf("the first piece is planned for %s ago", late)
	}
	if d := bodies[day.DipBegun](v.State); len(d) > 0 {
		t.Errorf("%v went in", d)
	}
}

// The first timetable of a day of many pieces that was opened rules what is called already, whether the forecasts wait at its opening or
// not: what is shown to all goes in first. What was called once something was done stays called.
func TestADayIsOpenedByItsTimetable(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 3)
	m.do(day.AddPiece{Tag: "D1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 1, Dip: quantity.Minutes(8), Demo: true}})
	m.do(day.Record{Body: day.WettedOut{OfPiece: piece("D1")}})
	m.do(day.Record{Body: day.FrothSkimmed{}})
	log := m.look().State.Log
	for _, c := range []struct {
		waits, acts bool
		call        string
	}{{false, false, "lower D1 1"}, {true, false, "lower D1 1"}, {true, true, "lower A1 1"}} {
		again := &machine{t: t, in: in, calls: &cue.Recorder{}, ended: make(chan struct{})}
		again.ctx, again.stop = context.WithCancel(context.Background())
		again.e = engine.New(in, thisBoot, again.calls)
		go func() { again.e.Run(again.ctx); close(again.ended) }()
		if c.waits {
			again.e.Advise(0)
		}
		if _, err := again.e.Open(again.ctx, engine.Opening{ID: id, Head: m.look().State.Head, Events: log, Writer: &memory{}}); err != nil {
			t.Fatal(err)
		}
		if c.acts {
			again.do(day.Record{Body: day.Note{Text: "good morning"}})
		}
		again.e.Advise(engine.Fully)
		v := again.until("a timetable", func(v engine.View) bool { return v.Table != nil && v.Table.Turn()[0] == "D1" })
		if call := v.Call().ID; call != c.call {
			t.Errorf("%+v: the call is %q", c, call)
		}
		again.stop()
		<-again.ended
	}
}
