package engine_test

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
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
