package outlook_test

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// The strip that teaches most fits into the time that the day has, is of the cloth of the piece that it serves, and is not advised while one
// is in work or when the day should be over.
func TestTheStripFitsIntoTheDay(t *testing.T) {
	lesson := func(left time.Duration, bodies ...day.Body) (outlook.Lesson, bool) {
		v := open(t, "soda", nil)
		v.reads(36)
		if left != 0 {
			by := v.now.Add(left)
			v.s.Head.Setup.DoneBy = &by
		}
		v.wish("A1", day.PieceSpec{Depth: "dark"})
		for _, b := range bodies {
			v.put(b)
		}
		return v.blues().Lesson(v.s, v.now)
	}
	free, ok := lesson(0)
	if !ok || free.For != "A1" || free.Strip.Spec.Fibre != "cotton" || free.Strip.Spec.Dips != free.Dips || free.Dips < 4 || free.Takes < quantity.Minutes(30) {
		t.Fatalf("without an end: %+v %v", free, ok)
	}
	short, ok := lesson(25 * time.Minute)
	if !ok || short.Takes > quantity.Minutes(25) || short.Dips >= free.Dips {
		t.Errorf("in 25 min: %+v %v", short, ok)
	}
	for _, left := range []time.Duration{4 * time.Minute, -time.Minute} {
		if l, ok := lesson(left); ok {
			t.Errorf("%s left: %+v", left, l)
		}
	}
	if l, ok := lesson(0, day.PieceAdded{OfPiece: day.OfPiece{Tag: "L1"}, PieceSpec: free.Strip.Spec}); ok {
		t.Errorf("a strip is in work, and %+v", l)
	}
}
