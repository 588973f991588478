package rehearse_test

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/rehearse"
)

// The rehearsed workshop: twelve people, two of whom come late; everybody gets all their dips, the same way each time.
func TestTheRehearsedWorkshop(t *testing.T) {
	head := rehearse.WorkshopHead(soda(t), morning)
	played := func() (lines []string, last day.State) {
		events, last := play(t, head)
		for _, e := range events {
			lines = append(lines, e.At.String()+e.Body.Sentence(quantity.Metric))
		}
		return lines, last
	}
	lines, s := played()
	again, _ := played()
	if len(lines) != len(again) {
		t.Fatalf("%d events, and %d the second time", len(lines), len(again))
	}
	for i := range lines {
		if lines[i] != again[i] {
			t.Fatalf("event %d is %s, and %s the second time", i+1, lines[i], again[i])
		}
	}
	late, first := 0, time.Time{}
	for _, e := range s.Log {
		switch e.Body.(type) {
		case day.DipBegun:
			if first.IsZero() {
				first = e.At
			}
		case day.PieceAdded:
			if !first.IsZero() {
				late++
			}
		}
	}
	if !s.Closed || len(s.Pieces) != 12 || late != 2 {
		t.Errorf("closed %v, %d pieces, %d of them late", s.Closed, len(s.Pieces), late)
	}
	for _, p := range s.Pieces {
		if p.Phase != day.FinishedPiece || p.Dips != p.Want() {
			t.Errorf("%s had %d of %d dips", p.Tag, p.Dips, p.Want())
		}
	}
}
