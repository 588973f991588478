package day_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// A window's title has the time and the piece; beside the large letters stand what the piece is, which dip, till when.
func TestACallAtAGlance(t *testing.T) {
	p := dyeing(t, 0)
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{What: "runner", Fibre: "linen", Dry: 200, Dips: 3, Dip: quantity.Minutes(8)}})
	sees := func(glance, facts, sentence string) {
		t.Helper()
		c := p.call()
		if got := c.Glance(p.now); got != glance {
			t.Errorf("at a glance it is %q, not %q", got, glance)
		}
		if got := strings.Join(c.Facts(p.now), " · "); got != facts {
			t.Errorf("its facts are %q, not %q", got, facts)
		}
		if got := c.Sentence(); got != sentence {
			t.Errorf("its sentence is %q, not %q", got, sentence)
		}
	}
	sees("A1 WET?", "runner", "Is A1 wet through?")
	p.do(day.Done{})
	sees("SKIM", "", "Skim the froth aside.")
	p.do(day.Done{})
	sees("LOWER A1", "runner · dip 1 of 3", "")
	p.happen(day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, For: quantity.Minutes(8), CountIn: quantity.Seconds(5)})
	sees("HOLD A1", "runner · dip 1 of 3 · in at zero", "")
	if c := p.call(); c.ID != "lift A1 1" || c.Words != "Hold A1: in at zero" || c.Row(p.now) != "HOLD A1, in at zero" {
		t.Errorf("while it is held the call is %q, %q, %q", c.ID, c.Words, c.Row(p.now))
	}
	if got := day.NowLine(p.s, p.now); got != "hold A1: in at zero, dip 1 of 3" {
		t.Errorf("in a line it is %q", got)
	}
	p.wait(5 * sec)
	till := " · till " + day.Clock(p.now.Add(8*minute))
	sees("8:00 A1", "runner · dip 1 of 3"+till, "")
	p.wait(7*minute - sec)
	sees("1:01 A1", "runner · dip 1 of 3"+till, "")
	p.wait(2 * sec)
	sees("0:59 A1 out", "runner · dip 1 of 3"+till, "")
	p.wait(minute)
	sees("LIFT A1 0:01 over", "runner · dip 1 of 3", "")
}

// What is spoken when a deadline comes is the call: of several pieces in one sentence, and what comes before a piece goes in.
func TestWhatIsSpokenIsTheCall(t *testing.T) {
	p := dyeing(t, 2)
	for _, tag := range []string{"A1", "A2"} {
		p.do(day.Lower{Tag: tag})
	}
	p.wait(8 * minute)
	says := func(kind day.DueKind, want string) {
		t.Helper()
		for _, d := range day.Dues(p.s) {
			if got := day.Spoken(p.s, d, p.now); d.Kind == kind && got != want {
				t.Errorf("of %q is said %q, not %q", d.Words, got, want)
			}
		}
	}
	says(day.DueLift, "A1, A2 out")
	p.do(day.Done{})
	p.wait(12 * minute)
	if d := day.Dues(p.s)[0]; day.Spoken(p.s, d, p.now) != "Look at A1: enough?" || p.call().Words != "Look at A1: enough?" {
		t.Errorf("of %q is said %q, the call is %q", d.Words, day.Spoken(p.s, d, p.now), p.call().Words)
	}
	p.do(day.Done{})
	if c := p.call(); c.Short != "SKIM" {
		t.Fatalf("the call is %q", c.Short)
	}
	for i, d := range day.Dues(p.s) { // the second piece has its own turn
		if want := []string{"Skim the froth aside", "Look at A2: enough?"}[i]; day.Spoken(p.s, d, p.now) != want {
			t.Errorf("of %q is said %q", d.Words, day.Spoken(p.s, d, p.now))
		}
	}
}

// A figure takes one out of a load: the others go in or come out by one press, and it stays as it is.
func TestAPressLeavesAPieceOut(t *testing.T) {
	p := dyeing(t, 3)
	for _, tag := range []string{"A1", "A2", "A3"} {
		p.do(day.Lower{Tag: tag})
	}
	p.wait(8 * minute)
	c := p.call()
	if part := c.Without(p.s, []string{"A2"}, p.now); part.Short != "LIFT 2" || part.Words != "Lift A1, A3 out" || part.ID != c.ID {
		t.Errorf("without A2 it is %q, %q, %q", part.ID, part.Short, part.Words)
	}
	if part := c.Without(p.s, []string{"A2", "A1"}, p.now); part.Short != "LIFT A3" {
		t.Errorf("of one piece it is %q", part.Short)
	}
	for _, none := range [][]string{nil, {"B9"}, {"A1", "A2", "A3"}} {
		if part := c.Without(p.s, none, p.now); part.Short != "LIFT 3" {
			t.Errorf("without %v it is %q", none, part.Short)
		}
	}
	p.refuses(day.Done{Call: c.ID, Without: "B9"}, "B9 cannot be left out of it: it is for A1, A2, A3")
	if _, err := day.Decide(p.s, day.Done{Call: "lift A1 1", Without: "A2"}, p.now); !errors.As(err, new(*day.Other)) {
		t.Errorf("of another call: %v", err)
	}
	if got := p.do(day.Done{Call: c.ID, Without: "A2"}); got != "dip ended, dip ended" || len(p.s.InVat()) != 1 || p.call().Short != "LIFT A2" {
		t.Errorf("it gives %s, then %q", got, p.call().Short)
	}
}

// The figure of a weighing is what is still to go or too much; a limit of °C says that it is one; what is to be poured is by the
// reading.
func TestTheFigureAsItIsDrawn(t *testing.T) {
	p := begin(t, head(t, "soda"))
	draws := func(line, note string) {
		t.Helper()
		if f := day.FigureOf(p.s, p.call()); f.Line() != line || !strings.HasPrefix(f.Note, note) {
			t.Errorf("at %q the figure is %q, %q, not %q, %q", p.call().Words, f.Line(), f.Note, line, note)
		}
	}
	p.until(recipe.Weigh, "soda")
	draws("360 g", "")
	p.do(day.Done{})
	p.wait(2 * sec)
	p.do(day.PutScoop{Mass: 212})
	draws("148 g more", "on the scale 212 g of 360 g")
	p.do(day.PutScoop{Mass: 160})
	draws("12.0 g off", "on the scale 372 g of 360 g")
	p.do(day.PutScoop{Mass: -12})
	draws("", "on the scale 360 g, all of it")
	p.until(recipe.Sprinkle, "reducer")
	draws("120 g", "")
	p.do(day.Done{})
	p.wait(2 * sec)
	draws("under 50 °C", "")
	if f, c := day.FigureOf(p.s, p.call()), p.call(); f.Note != "" || c.Sentence() != "" || !strings.HasPrefix(c.How, "First read the °C") {
		t.Errorf("what to read is said more than once: %q, %q, %q", f.Note, c.Sentence(), c.How)
	}
	p.do(day.Record{Body: day.Reading{Temp: celsius(40)}})
	draws("120 g", "")
}

// When the time of a step is over, its call says what the hands do then.
func TestAStepThatIsOver(t *testing.T) {
	p := begin(t, head(t, "soda"))
	p.until(recipe.Stir, "")
	p.do(day.Done{})
	id := p.call().ID
	p.wait(time.Hour)
	p.calls(id, "STOP", "Stop stirring")
}

// In a sentence a tag keeps its capital.
func TestATagInASentence(t *testing.T) {
	p := dyeing(t, 0)
	p.do(day.AddPiece{Tag: "Wool1", Spec: day.PieceSpec{Fibre: "wool", Dry: 200, Dips: 1}})
	if got := p.call().Brief(); !strings.HasPrefix(got, "Wool1 stays out") || !strings.HasPrefix(day.NowLine(p.s, p.now), "Wool1 stays out") {
		t.Errorf("in a sentence the call is %q, %q", got, day.NowLine(p.s, p.now))
	}
}
