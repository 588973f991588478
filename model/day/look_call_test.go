package day_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// dip lowers a piece, lifts it when its time is over, and waits till it has aired.
func (p *played) dip(tag string) {
	p.t.Helper()
	p.do(day.Lower{Tag: tag})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: tag})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	p.wait(p.piece(tag).For.Duration())
}

// looking is a day with a piece A1 of so many dips planned that had and has aired some of them.
func looking(t *testing.T, want, dips int, change ...func(*day.Head)) *played {
	t.Helper()
	p := dyeing(t, 0, change...)
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: want, Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}})
	p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}}})
	for range dips {
		p.dip("A1")
	}
	return p
}

// last is the sentence of the last event.
func (p *played) last(back int) string {
	return p.s.Log[len(p.s.Log)-1-back].Body.Sentence(quantity.Metric)
}

// After the last airing but two, and each after it, the call is the look.
func TestAfterWhichAiringsTheCallIsTheLook(t *testing.T) {
	for dips, want := range map[int]string{1: "lower A1 2", 2: "lower A1 3", 3: "look A1 3", 4: "look A1 4", 5: "look A1 5"} {
		p := looking(t, 5, dips)
		if got := p.call().ID; got != want {
			t.Errorf("after dip %d of 5 the call is %q, not %q", dips, got, want)
		}
	}
	p := looking(t, 1, 1)
	p.calls("look A1 1", "LOOK A1", "Look at A1: enough, no green left?")
	if c := p.call(); c.Press != "it is done" || c.Verb != "look" || c.Object != "A1" || c.Danger || *c.Figure != 120 || c.Unit != "s" {
		t.Errorf("the call is %+v", c)
	}
	if got, want := day.NowLine(p.s, p.now), "A1 has aired after dip 1 of 1: enough?"; got != want {
		t.Errorf("in a line it is %q, not %q", got, want)
	}
	if got := day.Upcoming(p.s, p.now); got != "no green left in A1?" {
		t.Errorf("then comes %q", got)
	}
	if got := day.Upcoming(looking(t, 5, 3).s, looking(t, 5, 3).now); got != "in A1, edge first" {
		t.Errorf("then comes %q", got)
	}
	off := looking(t, 5, 3, func(h *day.Head) { h.Setup.NoLook = true })
	off.calls("lower A1 4", "LOWER A1", "Lower A1 in")
	ladder := dyeing(t, 0)
	ladder.do(day.AddPiece{Tag: "L1", Spec: day.PieceSpec{Fibre: "linen", Dry: 20, Dips: 2, Form: "ladder", Dip: quantity.Minutes(8)}})
	ladder.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "L1"}}})
	ladder.dip("L1")
	ladder.calls("lower L1 2", "LOWER L1", "Lower L1 in")
}

// Each answer, what the book says, and what the plan is then.
func TestTheAnswersToALook(t *testing.T) {
	for _, c := range []struct {
		say, makes, says string
		want             int
		then             string
	}{
		{day.LookStop, "looked at, piece changed, timer stretched", "A1 looked at: enough after 4 dips", 4, "finish A1 4"},
		{day.LookMore, "looked at, piece changed", "A1 looked at after 4 dips: one more", 5, "lower A1 5"},
		{day.LookPlanned, "looked at", "A1 looked at after 4 dips: as planned", 6, "lower A1 5"},
	} {
		p := looking(t, 6, 4)
		past, before := slices.Clone(p.piece("A1").Past), p.s
		if got := p.do(day.Decided{Tag: "A1", Say: c.say}); got != c.makes {
			t.Errorf("%s makes %s, not %s", c.say, got, c.makes)
		}
		if got := p.last(strings.Count(c.makes, ",")); got != c.says {
			t.Errorf("%s reads %q, not %q", c.say, got, c.says)
		}
		if got := p.piece("A1"); got.Want() != c.want || !slices.Equal(got.Past, past) {
			t.Errorf("after %s it wants %d dips, not %d; its dips are %+v", c.say, got.Want(), c.want, got.Past)
		}
		if got := p.call().ID; got != c.then {
			t.Errorf("after %s the call is %q, not %q", c.say, got, c.then)
		}
		p.do(day.Back{})
		if got, was := p.piece("A1"), (&played{s: before, t: t}).piece("A1"); got.Want() != was.Want() || got.Looked != 0 {
			t.Errorf("after %s and back it wants %d dips, and was looked at after %d", c.say, got.Want(), got.Looked)
		}
		p.calls("look A1 4", "LOOK A1", "Look at A1: enough?")
		if s, errs := day.Replay(p.s.Head, p.s.Log); len(errs) > 0 || day.CallOf(s, p.now).ID != "look A1 4" {
			t.Errorf("after %s and back a replay gives %v", c.say, errs)
		}
	}
}

// A piece that has enough is finished after the time of its last airing, which counts from its lift; then all goes as ever. One
// that is to have one more airs as between two dips.
func TestTheAiringFollowsTheAnswer(t *testing.T) {
	p := looking(t, 6, 4)
	lifted := p.piece("A1").Since
	p.do(day.Decided{Tag: "A1", Say: day.LookStop})
	due := day.Dues(p.s)[0]
	if due.Kind != day.DueFinish || !due.At.Equal(lifted.Add(30*minute)) {
		t.Errorf("it is due %+v", due)
	}
	p.now = due.At
	p.calls("finish A1 4", "A1 BLUE?", "Look at A1: no green left?")
	if got := p.do(day.Done{}); got != "airing ended, finished" {
		t.Errorf("the press gives %s", got)
	}

	p = looking(t, 2, 1)
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "A1"})
	p.wait(5 * minute)
	if got := p.do(day.Decided{Tag: "A1", Say: day.LookMore}); got != "looked at, piece changed, timer cut" {
		t.Errorf("one more makes %s", got)
	}
	if due := day.Dues(p.s)[0]; due.Kind != day.DueEnter || due.At.Sub(p.piece("A1").Since) != 12*minute {
		t.Errorf("it is due %+v", due)
	}
}

// Silence is as planned: after a grace the day goes on, and nothing is written.
func TestSilenceAtALook(t *testing.T) {
	p := looking(t, 5, 4)
	p.wait(day.LookGrace - sec)
	p.calls("look A1 4", "LOOK A1", "Look at A1: enough?")
	if _, ok := day.Assume(p.s, p.now.Add(time.Hour), morning, nil); ok {
		t.Error("something is assumed")
	}
	p.wait(sec)
	p.calls("lower A1 5", "LOWER A1", "Lower A1 in")
	p.refuses(day.Done{Call: "look A1 4"}, "Not taken. Now A1 in.")
	p.dip("A1")
	p.calls("look A1 5", "LOOK A1", "Look at A1: enough, no green left?")
	p.do(day.Done{})
	if a1, _ := p.s.Piece("A1"); a1.Phase != day.FinishedPiece { // one press says both
		t.Errorf("after its last look it is %v", a1.Phase)
	}
}

// The press is as planned; the lowering of the piece does not wait for it, and is an answer too.
func TestThePressOnALook(t *testing.T) {
	p := looking(t, 5, 4)
	if got := p.do(day.Done{Call: "look A1 4"}); got != "looked at" || p.s.Log[len(p.s.Log)-1].Body.(day.LookedAt).Said != day.LookPlanned {
		t.Errorf("the press gives %s", got)
	}
	p.calls("lower A1 5", "LOWER A1", "Lower A1 in")

	p = looking(t, 5, 4)
	if got := meanwhile(p); len(got) == 0 || got[0] != "lower A1 5" {
		t.Errorf("beside the look can be done %q", got)
	}
	if got := p.do(day.Take{Call: "lower A1 5"}); got != "airing ended, dip begun" {
		t.Errorf("the lowering gives %s", got)
	}
	p.calls("lift A1 5", "A1 IN", "A1 in the vat")
	p.refuses(day.Decided{Tag: "A1", Say: day.LookStop, Call: "look A1 4"}, "A1 is in the vat")
	p.do(day.Back{})
	p.calls("look A1 4", "LOOK A1", "Look at A1: enough?")
}

// While goods are in, the look stands second and is answered there; in the last minute of the lift it is gone.
func TestALookWhileGoodsAreIn(t *testing.T) {
	p := dyeing(t, 3)
	p.dip("A1")
	p.do(day.Lower{Tag: "A2"})
	p.do(day.Lower{Tag: "A3"})
	p.calls("lift A2 A3 1", "2 IN", "A2, A3 in the vat")
	if got := meanwhile(p); len(got) == 0 || got[0] != "look A1 1" {
		t.Fatalf("second stands %q", got)
	}
	c, ok := day.LookAsked(p.s, p.now)
	if !ok || c.ID != "look A1 1" {
		t.Errorf("the look that is asked is %q, %v", c.ID, ok)
	}
	p.do(day.Decided{Tag: "A1", Say: day.LookStop, Call: c.ID})
	p.calls("lift A2 A3 1", "2 IN", "A2, A3 in the vat")
	if got := p.piece("A1").Want(); got != 1 || p.piece("A2").Want() != 3 {
		t.Errorf("A1 wants %d dips, A2 %d", got, p.piece("A2").Want())
	}
	if _, ok := day.LookAsked(p.s, p.now); ok {
		t.Error("it is asked again")
	}
	p.do(day.Back{})
	p.wait(7 * minute)
	if c, ok := day.LookAsked(p.s, p.now); ok {
		t.Errorf("in the last minute of the lift %q is asked", c.ID)
	}
	p.wait(minute)
	p.do(day.Done{})
	p.calls("skim vat 4", "SKIM", "Skim the froth aside") // nothing waited for the look
}

// Of two pieces that go in together each has its look, and one that has enough goes in no more.
func TestALookAtALoad(t *testing.T) {
	p := dyeing(t, 2)
	p.s = p.s.Advised([]string{"A1", "A2"}, [][]string{{"A1", "A2"}}, p.now)
	p.do(day.Lower{Tag: "A1"})
	p.do(day.Lower{Tag: "A2"})
	p.wait(8 * minute)
	p.do(day.Done{})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	p.wait(12 * minute)
	p.calls("look A1 1", "LOOK A1", "Look at A1: enough?")
	p.do(day.Decided{Tag: "A1", Say: day.LookStop})
	p.calls("look A2 1", "LOOK A2", "Look at A2: enough?")
	p.do(day.Done{})
	p.calls("lower A2 2", "LOWER A2", "Lower A2 in")
}

func TestLooksThatAreRefused(t *testing.T) {
	p := looking(t, 5, 4)
	for _, c := range []struct {
		c     day.Decided
		words string
	}{
		{day.Decided{Tag: "B9", Say: day.LookStop}, `no piece is tagged "B9"`},
		{day.Decided{Tag: "A1", Say: "perhaps"}, "say stop, one more or as planned"},
	} {
		p.refuses(c.c, c.words)
	}
	var other *day.Other
	if _, err := day.Decide(p.s, day.Decided{Tag: "A1", Say: day.LookStop, Call: "look A1 3"}, p.now); !errors.As(err, &other) {
		t.Errorf("an answer to another look: %v", err)
	}
	p.do(day.Done{})
	p.refuses(day.Decided{Tag: "A1", Say: day.LookPlanned}, "looked at after dip 4 already")
	p.do(day.Decided{Tag: "A1", Say: day.LookStop}) // a second thought
	p.wait(30 * minute)
	p.do(day.Done{})
	p.refuses(day.Decided{Tag: "A1", Say: day.LookMore}, "A1 is done already")
	dyeing(t, 1).refuses(day.Decided{Tag: "A1", Say: day.LookStop}, "had no dip yet today")
	most := looking(t, 60, 0)
	for range 60 {
		most.dip("A1")
	}
	most.refuses(day.Decided{Tag: "A1", Say: day.LookMore}, "1 to 60 dips")
}

// An answer to a look of which one event was taken back alone is taken back with the rest of it.
func TestAHalfTakenBackLookIsTakenBack(t *testing.T) {
	p := looking(t, 5, 3)
	p.do(day.Decided{Tag: "A1", Say: day.LookStop})
	p.do(day.Undo{Seq: p.s.Seq})
	p.do(day.Back{})
	if want := p.piece("A1").Want(); want != 5 || p.piece("A1").Looked != 0 {
		t.Errorf("it wants %d dips, and was looked at after dip %d", want, p.piece("A1").Looked)
	}
}
