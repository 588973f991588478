package day_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
)

// What was said last is taken back first, whatever it was: the figure on the scale, the hands, who is there, the vessel, the place, the
// scouring, that the list is whole, the piece; then nothing is left.
func TestBackTakesTheLastThingSaid(t *testing.T) {
	h := head(t, "soda")
	h.Setup.Place, h.Setup.Material, h.Setup.Asks, h.Setup.GoodsFirst = "", "", true, true
	p := begin(t, h)
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 2}})
	p.do(day.Done{})
	for range 3 {
		p.do(day.Record{Body: p.s.Choices()[0].Body})
	}
	p.do(day.Done{}) // scoured
	p.do(day.Record{Body: day.HandsTold{Hands: 2}})
	p.do(reading(12))
	p.do(day.Record{Body: day.Note{Text: "windy"}})
	for p.call().Act.Entry != day.MassEntry || p.call().Caution != "" {
		p.do(day.Done{})
	}
	p.do(day.PutScoop{Mass: 24})
	undone := map[int]bool{}
	for range p.s.Log {
		out, err := day.Decide(p.s, day.Back{}, p.now)
		if err != nil {
			break
		}
		var newest int // the last of the log that still stands and that hands or a voice made
		for _, e := range slices.Backward(p.s.Log) {
			if _, word := e.Body.(day.Corrected); !word && !undone[e.Seq] {
				newest = e.Seq
				break
			}
		}
		if of := out[0].(day.Corrected).Of; of != newest {
			was, _ := p.s.Event(newest)
			t.Fatalf("#%d is taken back, the last thing was #%d, %s", of, newest, was.Body.Kind())
		}
		for _, b := range out {
			undone[b.(day.Corrected).Of] = true
		}
		p.happen(out...)
	}
	p.refuses(day.Back{}, "nothing was done yet today")
	if c := p.call(); c.Act.Kind != day.ActGoods || len(p.s.Pieces) > 0 || p.s.Place() != "" || p.s.HandsTold != 0 {
		t.Errorf("all is taken back, and the call is %s, %d pieces, %q", c.Words, len(p.s.Pieces), p.s.Place())
	}
}

// What must stay, by its number too, is said by name: that children are there, and a reading of acid in a vat with a sulfur reducer.
func TestBackSaysWhatStays(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Record{Body: day.HelperChanged{Who: "children", Children: true}})
	p.refuses(day.Back{}, "that children are at the vat is not taken back: once they are gone, i says so")
	p.refuses(day.Undo{Seq: p.s.Seq}, "that children are at the vat is not taken back: once they are gone, i says so")
	p = dyeing(t, 1)
	p.happen(day.Reading{PH: ptr(4.0), With: "paper strip"})
	for _, c := range []day.Command{day.Back{}, day.Undo{Seq: p.s.Seq}} {
		if _, err := day.Decide(p.s, c, p.now); err == nil || !strings.Contains(err.Error(), "is not taken back, as acid may be in the vat") {
			t.Errorf("%#v takes a reading of acid back: %v", c, err)
		}
	}
}

// A °C that is taken back says which one counts now; what no hand did is not taken back by its number either.
func TestBackSaysWhichTemperatureCounts(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Record{Body: day.Reading{Temp: celsius(38)}})
	read := day.Clock(p.now)
	p.wait(10 * minute)
	p.do(day.Record{Body: day.Reading{Temp: celsius(62)}})
	p.do(day.Back{})
	if got, want := p.s.Amiss(p.s.Log[len(p.s.Log)-1]), "38 °C counts again, read "+read+": read it again"; got != want {
		t.Errorf("%q, not %q", got, want)
	}
	for _, b := range []day.Body{day.ClockStepped{By: 60}, day.Slept{For: 60}, day.SoundFailed{Call: "A1 out"}} {
		p.happen(b)
		p.refuses(day.Undo{Seq: p.s.Seq}, "not done by anybody")
	}
}

// A rehearsed day that is closed promises no next one.
func TestARehearsedDayPromisesNoNextOne(t *testing.T) {
	for _, rehearsed := range []bool{true, false} {
		p := dyeing(t, 0, func(h *day.Head) { h.Rehearsed = rehearsed })
		p.happen(day.Closed{Why: "dusk"})
		if how := p.call().How; strings.Contains(how, "the next day") == rehearsed {
			t.Errorf("rehearsed %v: %s", rehearsed, how)
		}
		p.refuses(day.Done{}, wording.Either(rehearsed, "a rehearsal, no day follows", "the next day on it begins from home"))
	}
}
