package plain

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
)

// At a pause several acts that were taken as planned are offered once, and listed with the times at which they were.
func TestUnsaidActsAreOffered(t *testing.T) {
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	h := rehearse.Head(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true, Sulfur: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	put := func(bodies ...day.Body) {
		for _, b := range bodies {
			if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
				t.Fatal(err)
			}
		}
	}
	lift := func(tag string) {
		of := day.OfPiece{Tag: tag}
		put(day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 2}}, day.WettedOut{OfPiece: of},
			day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(5)})
		now = now.Add(6 * time.Minute)
		at := now.Add(-time.Minute)
		put(day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(30), When: &at, Assumption: day.Assumption{Assumed: true}})
	}
	var out bytes.Buffer
	term := New(nil, &out)
	tell := func() string {
		out.Reset()
		term.offers(engine.View{ID: "bin/d", State: s, Now: now})
		return out.String()
	}
	put(day.Opened{How: "tend"})
	if lift("A1"); tell() != "" {
		t.Errorf("one act is offered: %s", out.String())
	}
	lift("B1")
	put(day.DipBegun{OfPiece: day.OfPiece{Tag: "B1"}, Dip: 2, For: quantity.Minutes(1)})
	if tell() != "" {
		t.Errorf("in a dip's last minute they are offered: %s", out.String())
	}
	put(day.DipEnded{OfPiece: day.OfPiece{Tag: "B1"}, Dip: 2, Air: quantity.Minutes(30)})
	if got := tell(); got != "2 acts taken as planned. confirm all: all as planned. unconfirmed: lists them.\n" {
		t.Errorf("they are offered as %q", got)
	}
	if tell() != "" {
		t.Error("they are offered twice")
	}
	out.Reset()
	term.unsaid(engine.View{State: s, Now: now})
	for _, want := range []string{"2 acts taken as planned:\n  5: 09:05, A1 out", "\n  9: 09:11, B1 out", "confirm all: all as planned"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is missing of:\n%s", want, out.String())
		}
	}
}
