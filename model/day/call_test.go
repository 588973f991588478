package day_test

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

func (p *played) call() day.Call { return day.CallOf(p.s, p.now) }

// calls wants the call, its large letters and what is said of it.
func (p *played) calls(id, short, words string) {
	p.t.Helper()
	if c := p.call(); c.ID != id || c.Short != short || c.Words != words {
		p.t.Errorf("at %s the call is %q, %q, %q, not %q, %q, %q", p.now.Format("15:04:05"), c.ID, c.Short, c.Words, id, short, words)
	}
}

func meanwhile(p *played) []string {
	var ids []string
	for _, c := range day.CallOf(p.s, p.now).Meanwhile(p.s, p.now) {
		ids = append(ids, c.ID)
	}
	return ids
}

// Goods in the liquor are the call; what can be done beside them stands second.
func TestARunningDipIsTheCall(t *testing.T) {
	p := dyeing(t, 2)
	p.do(day.AddPiece{Tag: "B1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 2}})
	p.do(day.Done{})
	p.calls("lower A1 1", "LOWER A1", "Lower A1 in")
	p.do(day.Done{})
	p.calls("lift A1 1", "A1 IN", "A1 in the vat")
	if got := meanwhile(p); !slices.Equal(got, []string{"lower A2 1", "wet B1 1", "hear calls"}) {
		t.Errorf("beside it can be done %q", got)
	}
	p.do(day.Take{Call: "wet B1 1"})
	if got := meanwhile(p); !slices.Equal(got, []string{"lower A2 1", "hear calls"}) {
		t.Errorf("then %q", got)
	}
	p.wait(7*minute - sec)
	p.calls("lift A1 1", "A1 IN", "A1 in the vat")
	for after, want := range map[time.Duration]string{
		-sec: "A1 IN, out in 1:02", 0: "A1 IN, out in 1:01", sec: "LIFT A1 in 1:00", 61 * sec: "LIFT A1 0:00 over", 101 * sec: "LIFT A1 0:40 over",
	} {
		if got := day.CallOf(p.s, p.now.Add(after)).Row(p.now.Add(after)); got != want {
			t.Errorf("%v later the row is %q, not %q", after, got, want)
		}
	}
	if c := p.call(); c.Figure == nil || *c.Figure != 61 || c.Unit != "s" {
		t.Errorf("its figure is %v %s", c.Figure, c.Unit)
	}
	p.wait(sec)
	p.calls("lift A1 1", "LIFT A1", "Lift A1 out")
	p.wait(minute)
	p.calls("lift A1 1", "LIFT A1", "Lift A1 out")
	if got := meanwhile(p); len(got) > 0 {
		t.Errorf("when it is to come out there is time for %q", got)
	}
	if got := p.do(day.Done{Call: "lift A1 1"}); got != "dip ended" { // at zero
		t.Errorf("the press gives %s", got)
	}
	p.refuses(day.Take{Call: "wet B1 1"}, "Not taken. Now ")
}

// A weighing's figure is what is still to go; a limit of °C is none.
func TestTheFigureIsWhatIsToBeDone(t *testing.T) {
	p := begin(t, head(t, "soda"))
	p.until(recipe.Weigh, "soda")
	p.wait(minute)
	if c := p.call(); c.Caution == "" || !c.Danger || c.ID != "weigh soda 3 caution" {
		t.Errorf("the call is %+v", c)
	}
	p.do(day.Done{})
	p.wait(2 * sec)
	p.do(day.PutScoop{Mass: 212})
	if c := p.call(); c.Short != "148 g MORE" || c.Large() != "WEIGH SODA ASH" || *c.Figure != 148 || c.Unit != "g" || c.ID != "weigh soda 3.2" {
		t.Errorf("the call is %+v", c)
	}
	p.do(day.PutScoop{Mass: 160})
	if c := p.call(); c.Short != "12 g OFF" || c.Large() != "TAKE OFF" || *c.Figure != -12 {
		t.Errorf("the call is %+v", c)
	}
	p.do(day.PutScoop{Mass: -12})
	p.until(recipe.Sprinkle, "reducer")
	p.do(day.Done{})
	p.wait(2 * sec)
	if c := p.call(); c.Figure != nil || c.Short != "READ °C" || c.Verb != "read" || !c.Danger {
		t.Errorf("before the reducer the call is %+v", c)
	}
	p.do(day.Record{Body: day.Reading{Temp: celsius(60)}})
	if c := p.call(); c.Figure != nil || c.ID != "read vat 10" {
		t.Errorf("before the reducer, at 60 °C, the call is %+v", c)
	}
	p.do(day.Record{Body: day.Reading{Temp: celsius(40)}})
	if c := p.call(); c.Figure == nil || *c.Figure != 120 || c.Short != "ADD REDUCER" || c.Verb+" "+c.Object != "sprinkle reducer" {
		t.Errorf("the call is %+v", c)
	}
}

// What comes out together is one call and one press, and one act where nobody answers.
func TestOnePressTakesOutWhatComesOutTogether(t *testing.T) {
	in := func() *played {
		p := dyeing(t, 3)
		for _, tag := range []string{"A1", "A2", "A3"} {
			p.do(day.Lower{Tag: tag})
			p.wait(12 * sec) // 8 min of dip: 24 s are within a twentieth
		}
		return p
	}
	p := in()
	if _, err := day.Decide(p.s, day.Done{}, p.piece("A3").Since.Add(sec)); !errors.Is(err, day.ErrTooSoon) {
		t.Errorf("a key that bounced as the last of them went in: %v", err)
	}
	p.calls("lift A1 A2 A3 1", "3 IN", "A1, A2, A3 in the vat")
	p.do(day.Stretch{Timer: "dip A1", By: quantity.Minutes(1)})
	p.calls("lift A1 A2 A3 1", "3 IN", "A1, A2, A3 in the vat")
	p.do(day.Lift{Tag: "A2"})
	p.calls("lift A1 A3 1", "2 IN", "A1, A3 in the vat")
	p.wait(9 * minute)
	if got := p.do(day.Done{}); got != "dip ended, dip ended" {
		t.Errorf("one press gives %s", got)
	}

	p = in()
	p.now = p.piece("A1").Since.Add(8*minute + 30*sec)
	c, ok := day.Assume(p.s, p.now, morning, nil)
	if !ok || p.do(c) == "" || p.s.Assumed != 1 || len(p.s.InVat()) > 0 {
		t.Fatalf("%#v, %v, %d assumed", c, ok, p.s.Assumed)
	}
	for _, tag := range []string{"A1", "A2", "A3"} {
		if last := p.piece(tag).Past[0]; !last.Ended.Equal(last.Begun.Add(8*minute)) || !last.Assumed {
			t.Errorf("%s is assumed as %+v", tag, last)
		}
	}
	p.wait(2 * sec)
	// A press that comes just after is meant for it, whatever is seen then, and does nothing else.
	if got := p.do(day.Done{Call: "lift A1 A2 A3 1"}); got != "corrected, corrected, corrected" || p.piece("A2").Past[0].Assumed || p.s.Assumed != 0 {
		t.Errorf("the press gives %s", got)
	}
}

// A piece that goes in a minute later has its own call, and so has one that is due at another time.
func TestWhatIsDueApartComesOutApart(t *testing.T) {
	p := dyeing(t, 2)
	p.do(day.Lower{Tag: "A1"})
	p.wait(25 * sec)
	p.do(day.Lower{Tag: "A2"})
	p.calls("lift A1 1", "A1 IN", "A1 in the vat")
}

// What the timetable lowers in one go is one call.
func TestOnePressLowersWhatGoesInTogether(t *testing.T) {
	p := dyeing(t, 3)
	p.do(day.AddPiece{Tag: "B1", Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3}})
	p.s = p.s.Advised([]string{"A3", "A1"}, [][]string{{"A3", "A1", "B1"}, {"A2"}}, p.now)
	p.calls("skim vat 1", "SKIM", "Skim the froth aside")
	p.do(day.Done{})
	p.calls("lower A1 1", "LOWER A1", "Lower A1 in") // it was called before there was a timetable
	p.do(day.Lower{Tag: "A2"})
	p.wait(9 * minute)
	p.do(day.Done{})
	p.calls("wet B1 1", "B1 WET?", "Is B1 wet through?")
	p.do(day.Done{})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	p.calls("lower A3 A1 B1 1", "LOWER 3", "Lower A3, A1, B1 in")
	if got := p.do(day.Done{}); got != "dip begun, dip begun, dip begun" {
		t.Errorf("one press gives %s", got)
	}
}

// Where no timetable rules, what must go in within the hour as its person leaves goes in first, though another wants more dips; whoever
// leaves later than that does not, nor who cannot be in time any more. The time is of the day on which the piece was listed.
func TestWhoLeavesGoesInFirst(t *testing.T) {
	p := dyeing(t, 1)
	p.wait(24 * time.Hour)
	for _, x := range []struct {
		tag  string
		till time.Duration // from now, for two dips of 8 min and the airing between them; 0: nobody leaves
		dips int
	}{{"F1", 5 * time.Hour, 2}, {"D1", 0, 9}, {"B1", 80 * minute, 2}, {"C1", 50 * minute, 2}, {"L1", 20 * minute, 2}} {
		till := ""
		if x.till > 0 {
			till = p.now.Add(x.till).Format("15:04")
		}
		p.do(day.AddPiece{Tag: x.tag, Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: x.dips, Dip: quantity.Minutes(8), Till: till}})
		p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: x.tag}}})
	}
	p.do(day.Record{Body: day.PieceDropped{OfPiece: day.OfPiece{Tag: "A1"}}})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	for _, tag := range []string{"C1", "B1", "D1", "F1", "L1"} {
		if c := day.CallOf(p.s, p.now); c.ID != "lower "+tag+" 1" {
			t.Fatalf("the call is %q, not to lower %s", c.ID, tag)
		}
		p.do(day.Record{Body: day.PieceDropped{OfPiece: day.OfPiece{Tag: tag}}})
	}
}

// The piece that is called stays, whatever a replan or a note says; when a lift came between, the
// timetable counts.
func TestWhatIsCalledStays(t *testing.T) {
	p := dyeing(t, 4)
	turn := func(tags ...string) { p.s = p.s.Advised(tags, nil, p.now) }
	p.do(day.Lower{Tag: "A4"})
	turn("A2", "A3", "A1")
	p.wait(8 * minute)
	p.do(day.Done{})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	p.calls("lower A2 1", "LOWER A2", "Lower A2 in")
	turn("A3", "A1", "A2")
	p.do(day.Record{Body: day.Note{Text: "a cloud"}})
	p.do(day.Undo{Seq: len(p.s.Log)})
	p.calls("lower A2 1", "LOWER A2", "Lower A2 in")
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Done{})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	p.calls("lower A3 1", "LOWER A3", "Lower A3 in")
	p.do(day.Record{Body: day.PieceDropped{OfPiece: day.OfPiece{Tag: "A3"}}})
	p.calls("lower A2 1", "LOWER A2", "Lower A2 in")
}

// A press that names another call than the present one is not taken.
func TestAPressIsForTheCallThatWasSeen(t *testing.T) {
	p := dyeing(t, 2)
	p.do(day.Done{})
	_, err := day.Decide(p.s, day.Done{Call: "skim vat 1"}, p.now)
	var other *day.Other
	if !errors.As(err, &other) || *other != (day.Other{Seen: "skim vat 1", Now: "A1 in"}) || err.Error() != "Not taken. Now A1 in." {
		t.Errorf("a press on the call before: %v", err)
	}
	p.do(day.Done{Call: "lower A1 1"})
	p.wait(8*minute + 40*sec)
	c, _ := day.Assume(p.s, p.now, morning, nil)
	p.do(c)
	p.wait(5 * sec)
	p.refuses(day.Done{Call: "lift A1 1"}, "Not taken. Now skim")
	if got := p.do(day.Done{}); got != "froth skimmed" {
		t.Errorf("five seconds later the press gives %s", got)
	}
}

// A lift before its last minute wants a second press; Lift itself is taken at once.
func TestALiftBeforeItsTimeIsAskedFor(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Done{})
	p.do(day.Done{})
	if _, err := day.Decide(p.s, day.Done{}, p.now.Add(sec)); !errors.Is(err, day.ErrTooSoon) {
		t.Errorf("a bounce: %v", err)
	}
	p.wait(3 * minute)
	_, err := day.Decide(p.s, day.Done{}, p.now)
	var pending *day.Pending
	if !errors.As(err, &pending) || pending.Caution != "A1: 5:00 left, and it would come out now" {
		t.Fatalf("the first press: %v", err)
	}
	if got := p.do(day.Answered{Command: day.Done{}}); got != "dip ended" {
		t.Errorf("answered at once it gives %s", got)
	}
}

// A tag has five cells in large letters, and no two pieces the same.
func TestLongTagsAreCutApart(t *testing.T) {
	p := dyeing(t, 0)
	tags := []string{"RUNNER1", "RUNNER2", "RUNNER10", "NAPKIN", "RUN~1", "藍染布一二", "C2"}
	seen := map[string]string{}
	for _, tag := range tags {
		p.do(day.AddPiece{Tag: tag[:min(len(tag), 12)], Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 1}})
	}
	for _, piece := range p.s.Pieces {
		q := *p
		for _, o := range p.s.Pieces {
			if o.Tag != piece.Tag {
				q.do(day.Record{Body: day.CarriedOver{OfPiece: day.OfPiece{Tag: o.Tag}}})
			}
		}
		short := q.call().Short
		if old, twice := seen[short]; twice {
			t.Errorf("%s and %s are both %q", old, piece.Tag, short)
		}
		seen[short] = piece.Tag
	}
	for short, want := range map[string]string{"C2 WET?": "C2", "RUN~1 WET?": "RUN~1", "NAPK~ WET?": "NAPKIN", "RUN~2 WET?": "RUNNER2"} {
		if seen[short] != want {
			t.Errorf("%q is %q; all: %v", short, seen[short], seen)
		}
	}
}

// Danger first, then lifting, then the earliest due.
func TestWhichCallRules(t *testing.T) {
	at := func(s float64) (*float64, *day.Due) { return &s, &day.Due{} }
	call := func(verb string, danger bool, left float64) day.Call {
		f, d := at(left)
		return day.Call{ID: verb, Verb: verb, Danger: danger, Figure: f, Due: d}
	}
	hands := day.Call{ID: "hands", Verb: "lower"}
	want := []day.Call{call("add", true, 500), call("lift", false, -3), call("lift", false, 60), call("wait", false, -60), hands, call("air", false, 30)}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortStableFunc(got, day.Call.Compare)
	if !reflect.DeepEqual(got, want) {
		t.Errorf("they rule in the order %v", got)
	}
}

// What comes up is said of the lift, also where the next piece goes in before it.
func TestWhatIsComingUp(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Done{})
	p.do(day.Done{})
	if words := day.Upcoming(p.s, p.now); !strings.HasPrefix(words, "air A1, 12 min") {
		t.Errorf("then: %s", words)
	}
}
