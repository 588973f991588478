package home

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
)

// Of an open day home says what the call is: what is so while a dip runs, what to do in its last minute.
func TestHomeSaysTheCall(t *testing.T) {
	soda, _ := recipes.Find("soda")
	head := rehearse.Head(soda, noon)
	head.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	of := day.OfPiece{Tag: "A1"}
	for _, b := range []day.Body{day.Opened{How: "tend"}, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true},
		day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 2}}, day.WettedOut{OfPiece: of}, day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(8)}} {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: noon, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	for after, want := range map[time.Duration]string{
		time.Minute:                    "A1 in the vat, dip 1 of 2, 7:00 left",
		7*time.Minute + 20*time.Second: "lift A1 out, dip 1 of 2, 0:40 left",
		8*time.Minute + 20*time.Second: "lift A1 out, dip 1 of 2, 0:20 over",
	} {
		now := noon.Add(after)
		for _, size := range screentest.Sizes {
			e := env(size[0], size[1], screen.Vat{Vat: "bin", Name: "garden bin", Day: "2026-11-25", Open: true, Line: "older"})
			e.Days = engine.Snapshot{Days: []engine.View{{ID: "bin/2026-11-25", State: s, Now: now}}}
			text := screentest.Shown(t, New(e), e)
			if words := day.CallOf(s, now).Words[1:]; !strings.Contains(text, want) || !strings.Contains(text, words) {
				t.Errorf("%v: %q or %q is missing:\n%s", size, want, words, text)
			}
		}
	}
}
