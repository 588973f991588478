package timetable_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
)

// A way that changes the pieces alone is taken with its key, pressed twice: shorter dips for every piece that has dips to come.
func TestAWayIsTakenAtTheSecondPress(t *testing.T) {
	y := open(t, false).pieces(6, 0)
	e := y.env(80, 24)
	scr, _ := screentest.Press(timetable.New(e), e, "3")
	if next := scr.View(e).Next; !strings.Contains(next, "4: dips three quarters as long") {
		t.Fatalf("it offers %q", next)
	}
	scr, first := screentest.Press(scr, e, "4")
	if say, ok := first[0].(screen.Say); len(first) != 1 || !ok || !strings.HasPrefix(say.Word, "4 once more: ") {
		t.Fatalf("the first press asks for %+v", first)
	}
	scr, second := screentest.Press(scr, e, "4")
	if len(second) != 6 {
		t.Fatalf("the second press asks for %+v", second)
	}
	for _, r := range second {
		b := r.(screen.Do).Command.(day.Record).Body.(day.PieceChanged)
		p, _ := y.s.Piece(b.Tag)
		if want := p.DipTime() * 3 / 4; (b.Dip-want).Seconds() > 30 || (want-b.Dip).Seconds() > 30 || b.PieceSpec.Dips != p.Want() {
			t.Errorf("%s: dips of %v, %d of them; they were %v and %d", b.Tag, b.Dip, b.PieceSpec.Dips, p.DipTime(), p.Want())
		}
		if _, err := day.Decide(y.s, day.Record{Body: b}, y.now); err != nil {
			t.Errorf("%s: %v", b.Tag, err)
		}
	}
	// Fewer dips are no way of a vat that is strong.
	if _, r := screentest.Press(scr, e, "f"); len(r) != 1 {
		t.Errorf("fewer dips: %+v", r)
	} else if _, says := r[0].(screen.Say); !says {
		t.Errorf("fewer dips: %+v", r)
	}
}

// Where the vat tires the ways through it stand first, and one is taken with its key, pressed twice.
func TestAWayThroughATiringVatIsTaken(t *testing.T) {
	y := open(t, false).pieces(6, 0)
	takes := y.tab.Pieces[0].Takes
	for i := range y.tab.Pieces {
		y.tab.Pieces[i].Takes, y.tab.Pieces[i].Least = takes, takes
	}
	y.tab.Limits.Indigo = load.Indigo{Holds: takes * 8}
	plan, err := load.Make(y.tab.Pieces, y.tab.Limits)
	if err != nil || len(plan.Choices) < 2 {
		t.Fatal(plan.Choices, err)
	}
	y.tab.Plan = plan
	e := y.env(120, 40)
	scr, _ := screentest.Press(timetable.New(e), e, "3")
	text := screentest.Shown(t, scr, e)
	for _, want := range []string{"Lose no time: planned", "Feed and wait", "in a weak vat", "feed ", "8: feed and wait"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing:\n%s", want, text)
		}
	}
	scr, first := screentest.Press(scr, e, "8")
	if say, ok := first[0].(screen.Say); !ok || say.Word != "8 once more: feed and wait" {
		t.Fatalf("%+v", first)
	}
	_, second := screentest.Press(scr, e, "8")
	b, ok := second[0].(screen.Do).Command.(day.Record).Body.(day.WayChosen)
	if !ok || b.Way != load.ChoiceFeed {
		t.Fatalf("%+v", second)
	}
	if !y.do(day.Record{Body: b}) || y.s.Way != load.ChoiceFeed || y.do(day.Record{Body: b}) {
		t.Errorf("the day takes the way %q", y.s.Way)
	}
	if y.plan(); y.tab.Limits.Choice != load.ChoiceFeed {
		t.Errorf("the timetable is planned for %q", y.tab.Limits.Choice)
	}
}

// The board of a workshop says in every window the round, who is still to go in it, and when a wish of two dips has its turn.
func TestTheBoardSaysTheRound(t *testing.T) {
	y := open(t, false).pieces(5, 5).goes(6)
	for _, size := range screentest.Sizes {
		e := y.env(size[0], size[1])
		scr, _ := screentest.Press(timetable.New(e), e, "2")
		text := screentest.Shown(t, scr, e)
		turn := y.tab.Plan.Rows[slices.IndexFunc(y.tab.Plan.Rows, func(r load.Row) bool { return r.Round == 0 && !r.Past })]
		for _, want := range []string{"Round 1; ", " to go; ", ": at " + day.Clock(y.tab.At(turn.Lower).In(e.Now.Location())), "all done "} {
			if !strings.Contains(text, want) {
				t.Errorf("%v: %q is missing:\n%s", size, want, text)
			}
		}
	}
}
