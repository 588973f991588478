package engine_test

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
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

// The call goes by the timetable, of two pieces too: who leaves early goes in first, though the other wants more dips.
func TestTheCallGoesByTheTimetable(t *testing.T) {
	in := newFake()
	m := dyeing(t, in, 0)
	m.do(day.RestVat{For: quantity.Minutes(10)})
	for _, p := range []day.AddPiece{
		{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Dip: quantity.Minutes(8)}},
		{Tag: "B1", Spec: day.PieceSpec{Fibre: "linen", Dry: 1800, Dips: 1, Dip: quantity.Minutes(8), Till: in.Wall().Add(25 * time.Minute).Format("15:04")}},
	} {
		m.do(p)
		m.do(day.Record{Body: day.WettedOut{OfPiece: piece(p.Tag)}})
	}
	m.until("a timetable of both", func(v engine.View) bool { return v.Table != nil && len(v.Table.Turn()) == 2 })
	in.run(10 * time.Minute)
	v := m.look()
	if turn := v.Table.Turn(); turn[0] != "B1" || v.Call().Act.Piece.Tag != "B1" {
		t.Errorf("by the timetable it is the turn of %v, and the call is %q", turn, v.Call().Words)
	}
}
