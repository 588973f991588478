package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
)

// While the class is talked to nothing is called to go in, nor taken as gone in; what is in comes out in its time. Once the talk is
// over the pieces go in in their turn.
func TestWhileTheClassIsTalkedToPiecesWait(t *testing.T) {
	p := dyeing(t, 2, func(h *day.Head) { h.Setup.Entries, h.Setup.NoLook = true, true })
	talk := func(on bool) { p.do(day.Record{Body: day.Talking{On: on}}) }
	p.do(day.Record{Body: day.FrothSkimmed{}})
	if a := day.Next(p.s, p.now); a.Kind != day.ActEnter {
		t.Fatalf("the call is %q", a.Words)
	}
	talk(true)
	p.refuses(day.Record{Body: day.Talking{On: true}}, "already")
	p.calls("hold pieces "+day.Clock(p.now), "PIECES WAIT", "Talking: pieces wait")
	p.refuses(day.Done{}, "hold")
	p.do(day.Lower{Tag: "A1"}) // what the hands did all the same is written down
	assumed := 0
	for end := p.now.Add(2 * time.Hour); p.now.Before(end); p.wait(10 * time.Second) {
		c := day.CallOf(p.s, p.now)
		switch c.Act.Kind {
		case day.ActEnter, day.ActWetOut, day.ActSkim:
			t.Fatalf("%s: the call is %q", day.Clock(p.now), c.Words)
		}
		for _, m := range day.CallOf(p.s, p.now).Meanwhile(p.s, p.now) {
			if m.Act.Kind == day.ActEnter || m.Act.Kind == day.ActSkim {
				t.Fatalf("%s: meanwhile %q", day.Clock(p.now), m.Words)
			}
		}
		if next := day.Upcoming(p.s, p.now); strings.HasPrefix(next, "in A") || strings.HasPrefix(next, "lower") {
			t.Fatalf("%s: then %q", day.Clock(p.now), next)
		}
		if line := day.NowLine(p.s, p.now); !strings.Contains(line, "pieces wait") {
			t.Fatalf("%s: the line says %q", day.Clock(p.now), line)
		}
		if command, ok := day.Assume(p.s, p.now, time.Time{}, nil); ok {
			p.do(command)
			assumed++
		}
	}
	if a1 := p.piece("A1"); a1.Phase != day.Airing || a1.Dips != 1 || assumed != 1 {
		t.Errorf("A1 had %d dips, and %d acts were taken as done", a1.Dips, assumed)
	}
	talk(false)
	p.refuses(day.Record{Body: day.Talking{}}, "held back")
	if a := day.Next(p.s, p.now); a.Kind != day.ActSkim && a.Kind != day.ActEnter {
		t.Errorf("after the talk the call is %q", a.Words)
	}
	talk(true)
	p.do(day.Back{})
	if p.s.Talks() {
		t.Error("the talk is not taken back")
	}
}

// A call that waits for the end of a talk rules no other vat's.
func TestATalkRulesNoOtherVat(t *testing.T) {
	talks, airs := dyeing(t, 1), dyeing(t, 1)
	talks.do(day.Record{Body: day.Talking{On: true}})
	airs.do(day.Lower{Tag: "A1"})
	airs.wait(8 * time.Minute)
	airs.do(day.Lift{Tag: "A1"})
	if talks.call().Compare(airs.call()) <= 0 {
		t.Errorf("%q rules %q", talks.call().Words, airs.call().Words)
	}
}
