package load_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/loadtest"
)

// ones is a vat that takes one piece at a time, and needs no hands.
func ones() load.Limits {
	return load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Effort: 100_000}
}

// of gives pieces of 10 min dips and 20 min airings to persons called as the pieces.
func of(pieces ...load.Piece) []load.Piece {
	for i := range pieces {
		pieces[i].Who = "person " + pieces[i].Tag
	}
	return pieces
}

// First dips first, then round by round; the wish of one dip stands outside the rounds and gets a promised time after all
// first dips.
func TestRoundsOfAClass(t *testing.T) {
	l := ones()
	l.Fair = true
	p := plan(t, of(dips("A", 3), dips("B", 3), dips("C", 3), dips("P", 1)), l)
	pale := rowOf(p, "P", 1)
	var rounds []load.Row
	for _, r := range p.Rows {
		if r.Tag != "P" {
			rounds = append(rounds, r)
		}
	}
	for n, want := range []string{"A", "B", "C", "A", "B", "C", "A", "B", "C"} {
		if r := rounds[n]; r.Tag != want || r.Round != 1+n/3 || r.Who != "person "+r.Tag {
			t.Errorf("turn %d is %s of %q, round %d", n+1, r.Tag, r.Who, r.Round)
		}
	}
	if p.Makespan != minutes(100) || pale.Round != 0 || pale.Lower < rounds[2].Lifted {
		t.Error(course(p))
	}
	promised := []load.Row{pale}
	for had, want := range map[int]load.Round{
		0: {No: 1, ToGo: []string{"A", "B", "C"}, Promised: promised},
		4: {No: 2, ToGo: []string{"B", "C"}, Promised: promised},
		9: {},
	} {
		got := p.Round(func(r load.Row) bool { return had == 9 || r.Tag != "P" && (r.Dip-1)*3+int(r.Tag[0]-'A') < had })
		if !reflect.DeepEqual(got, want) {
			t.Errorf("after %d dips the round is %+v, not %+v", had, got, want)
		}
	}
}

// Who comes late is waited for by nobody. When B is there at 60, A has had two: B goes first, and while it airs A goes on.
// Both are ready at 130 with one dip in between: it is B's turn, who is behind.
func TestRoundsWaitForNobody(t *testing.T) {
	l := ones()
	l.Fair = true
	b := dips("B", 3)
	b.From = minutes(60)
	if got := course(plan(t, of(dips("A", 5), b), l)); got != "A 0, A 30, B 60, A 70, B 90, A 100, B 120, A 130" {
		t.Error(got)
	}
	// B and C, who are ready, are never two dips behind: dark first would let A have three before them
	a := dips("A", 4)
	a.Dark, a.Air = 6, 0
	if got := course(plan(t, of(a, dips("B", 3), dips("C", 3)), l)); !strings.HasPrefix(got, "A 0, B 10, C 20, A 30, ") {
		t.Error(got)
	}
}

// X, who fills the vat, comes at 5 and waits for B to be out at 15. A could go in again at 10, and the day would end sooner:
// it is X's turn.
func TestRoundsHoldThePlaceOfTheHeavy(t *testing.T) {
	l := ones()
	l.Fair = true
	piece := func(tag string, n, dip, dry int) load.Piece {
		p := dips(tag, n)
		p.Dip, p.Air, p.Dry = minutes(dip), 0, quantity.Grams(float64(dry))
		return p
	}
	x := piece("X", 3, 5, 100)
	x.From = minutes(5)
	p := plan(t, of(piece("A", 6, 10, 50), piece("B", 3, 15, 50), x), l)
	if first, again := rowOf(p, "X", 1), rowOf(p, "A", 2); first.Lower != minutes(15) || again.Lower < first.Lifted {
		t.Error(course(p))
	}
}

// One person's pieces may be in together, another's wait; what is nobody's does not count.
func TestAtVat(t *testing.T) {
	l := ones()
	l.Capacity, l.AtVat = 0, 1
	pieces := []load.Piece{dips("A", 1), dips("B", 1), dips("C", 1), dips("D", 1), dips("N", 1)}
	for i, who := range []string{"1", "1", "2", "2", ""} {
		pieces[i].Who = who
	}
	if got := course(plan(t, pieces, l)); got != "A 0, B 0, N 0, C 10, D 10" && got != "C 0, D 0, N 0, A 10, B 10" {
		t.Error("one at the vat:", got)
	}
	l.AtVat = 2
	if p := plan(t, pieces, l); p.Makespan != minutes(10) {
		t.Error("two at the vat:", course(p))
	}
	l.AtVat, l.Vats = 1, 2
	if p := plan(t, pieces, l); p.Makespan != minutes(20) {
		t.Error("one at two vats:", course(p))
	}
	l.AtVat = -1
	if _, err := load.Make(pieces, l); err == nil || !strings.Contains(err.Error(), "people at the vat") {
		t.Error(err)
	}
}

// Who leaves early goes before the dark; where not all can be in time it is told by how much, a sentence a piece.
func TestTill(t *testing.T) {
	dark, leaves := dips("dark", 1), dips("leaves", 1)
	dark.Dark, leaves.Till = 6, minutes(10)
	p := plan(t, []load.Piece{dark, leaves}, ones())
	if got := course(p); got != "leaves 0, dark 10" || p.Leaving != 0 || len(p.Warnings) > 0 {
		t.Error(got, p.Leaving, p.Warnings)
	}
	// its finish is not asked: it is rinsed by another
	leaves.FinalAir, leaves.Finish = minutes(30), minutes(25)
	if p = plan(t, []load.Piece{dark, leaves}, ones()); p.Leaving != 0 {
		t.Error(p.Leaving, p.Warnings)
	}
	dark.Till = minutes(12)
	p = plan(t, []load.Piece{dark, leaves}, ones())
	want := []string{"Piece dark has its last dip till 20 min, and its person leaves at 12 min: give it fewer dips, or let another lift it."}
	if got := course(p); got != "leaves 0, dark 10" || p.Leaving != minutes(8) || !reflect.DeepEqual(p.Warnings, want) {
		t.Error(got, p.Leaving, p.Warnings)
	}
	l := ones()
	l.Zero = time.Date(2026, 5, 9, 14, 50, 0, 0, time.UTC)
	want[0] = "Piece dark has its last dip till 15:10, and its person leaves at 15:02: give it fewer dips, or let another lift it."
	if p = plan(t, []load.Piece{dark, leaves}, l); !reflect.DeepEqual(p.Warnings, want) {
		t.Error("by the clock:", p.Warnings)
	}
}

// Five minutes past the finish are less than ten that somebody must stay longer.
func TestTillBesideTheFinish(t *testing.T) {
	late, leaves := dips("late", 1), dips("leaves", 1)
	leaves.Dip, leaves.Till, late.Finish = minutes(5), minutes(5), minutes(60)
	l := ones()
	if l.Latest = minutes(70); course(plan(t, []load.Piece{late, leaves}, l)) != "leaves 0, late 5" {
		t.Error("5 min late:", course(plan(t, []load.Piece{late, leaves}, l)))
	}
	leaves.Dip, leaves.Till = minutes(15), minutes(15) // else 15 min late, or 10 longer
	if got := course(plan(t, []load.Piece{late, leaves}, l)); got != "late 0, leaves 10" {
		t.Error("10 min longer:", got)
	}
}

// Where pieces must be late no other is late that need not be: of 18 dips for one pair of hands A is 109 min late in any plan that
// was found, and another beside it; the other two, whose ends move neither, are in time. So it is where the finish is wished for only once
// the day is planned.
func TestNoOtherIsLateForOneThatMust(t *testing.T) {
	var pieces []load.Piece
	for tag, n := range map[string]int{"A": 7, "B": 4, "C": 4, "D": 3} {
		p := dips(tag, n)
		p.Dry, p.Air, p.FinalAir, p.Finish = 500, minutes(10), minutes(30), minutes(25)
		pieces = append(pieces, p)
	}
	slices.SortFunc(pieces, func(a, b load.Piece) int { return strings.Compare(a.Tag, b.Tag) })
	l := load.Usual(60)
	before := plan(t, pieces, l)
	l.Latest = minutes(240)
	var waiting []load.PieceState
	for _, p := range pieces {
		waiting = append(waiting, load.PieceState{Tag: p.Tag})
	}
	again, err := before.Replan(minutes(1), waiting, pieces, l)
	if err != nil {
		t.Fatal(err)
	}
	lateOf := func(p load.Plan) (late []string) {
		for _, d := range p.Done {
			if d.At > l.Latest {
				late = append(late, d.Tag)
			}
		}
		return late
	}
	p := plan(t, pieces, l)
	if late := lateOf(p); len(late) != 2 || late[0] != "A" || p.Finish() > minutes(350) {
		t.Errorf("late are %v, the last by %v: %v", late, p.Finish()-l.Latest, p.Warnings)
	}
	if late := lateOf(again); len(late) != 2 || again.Finish() > p.Finish()+minutes(1) {
		t.Errorf("planned again, late are %v, the last by %v: %v", late, again.Finish()-l.Latest, again.Warnings)
	}
}

// What is shown to all goes in first, when its person is there, and nothing else is touched till it is out; its second dip is
// like any other.
func TestDemo(t *testing.T) {
	l := ones()
	l.Capacity = 0
	shown := dips("D", 2)
	shown.Demo, shown.From = true, minutes(15)
	if got := course(plan(t, []load.Piece{dips("A", 1), shown, dips("B", 2)}, l)); got != "D 15, A 25, B 25, D 45, B 55" && got != "D 15, B 25, A 25, D 45, B 55" {
		t.Error(got)
	}
	// two of them come in the order given
	other := dips("E", 1)
	other.Demo = true
	if got := course(plan(t, []load.Piece{shown, other}, l)); got != "D 15, E 25, D 45" {
		t.Error(got)
	}
	l.Plain = true // --fixed-dips knows no persons: one trip for both
	if got := course(plan(t, []load.Piece{shown, dips("B", 1)}, l)); got != "D 15, B 15, D 45" {
		t.Error(got)
	}
}

// Two pieces of three dips, each dip taking 2 g, in a vat of 10 g that must keep 1 g: the last two dips are weak. No order
// makes them full, a feed of 5 g after the second pair does: the vat stands from 40 to 100.
func TestChoicesAreTold(t *testing.T) {
	pieces := []load.Piece{dips("A", 3), dips("B", 3)}
	for i := range pieces {
		pieces[i].Takes = 2
	}
	l := ones()
	l.Capacity, l.Indigo = 200, load.Indigo{Holds: 10, Floor: 1}
	for _, c := range []struct {
		asked, chosen string
		latest        int
	}{{"", load.ChoiceWeak, 0}, {"", load.ChoiceWeak, 300}, {load.ChoiceFeed, load.ChoiceFeed, 0}, {load.ChoiceFull, load.ChoiceWeak, 0}} {
		l.Choice, l.Latest = c.asked, minutes(c.latest)
		var told []string
		for _, way := range plan(t, pieces, l).Choices {
			mark := ""
			if way.Chosen {
				mark = "* "
			}
			told = append(told, mark+way.ID+": "+way.Words(func(s quantity.Span) string { return s.Format(quantity.Metric) }))
		}
		want := "weak: done 1 h 10 min, 2 weak dips; feed: feed 5 g of indigo at 40 min, done 1 h 50 min, all dips full"
		want = strings.Replace(want, c.chosen+": ", "* "+c.chosen+": ", 1)
		if got := strings.Join(told, "; "); got != want {
			t.Errorf("asked for %q: %s, not %s", c.asked, got, want)
		}
	}
	l.Indigo.Holds, l.Choice = 20, ""
	if p := plan(t, pieces, l); len(p.Choices) != 0 || p.Weak != 0 {
		t.Errorf("the vat does not tire: %+v", p.Choices)
	}
	l.Choice = "strong"
	if _, err := load.Make(pieces, l); err == nil || !strings.Contains(err.Error(), "say weak, full or feed") {
		t.Error(err)
	}
}

// The checker finds each rule about people that is broken when a good plan is spoilt.
func TestCheckerFindsPeople(t *testing.T) {
	pieces := of(dips("A", 3), dips("B", 3))
	pieces[0].Demo, pieces[1].Till = true, minutes(15)
	l := load.Limits{AtVat: 1, Hands: 1, Fair: true, Handling: map[string]quantity.Span{}, Indigo: load.Indigo{Holds: 9}}
	for i := range pieces {
		pieces[i].Takes = 2
	}
	good := plan(t, pieces, l)
	move := func(r *load.Row, to int) {
		by := minutes(to) - r.Lower
		r.Lower, r.In, r.Out, r.Lifted = r.Lower+by, r.In+by, r.Out+by, r.Lifted+by
	}
	for name, c := range map[string]struct {
		f    func(p *load.Plan)
		want string
	}{
		"people":      {func(p *load.Plan) { move(&p.Rows[1], 5) }, "2 people are at the vat, and 1 may be"},
		"shown":       {func(p *load.Plan) { move(&p.Rows[1], 5) }, "A dip 1 is shown to all, and B dip 1 is handled before it is over"},
		"hands":       {func(p *load.Plan) { move(&p.Rows[1], 5) }, "pair 1 is at B dip 1 and at A dip 1 at once"},
		"no hands":    {func(p *load.Plan) { p.Rows[1].Hand = 2 }, "is given to pair 2, and there are 1"},
		"turns":       {func(p *load.Plan) { move(&p.Rows[1], 200) }, "A has dip 2 at 30m0s, and B, with 0, waits"},
		"a round":     {func(p *load.Plan) { p.Rows[1].Round = 2 }, "B dip 1 is of round 2, not 1"},
		"whose":       {func(p *load.Plan) { p.Rows[1].Who = "" }, "B dip 1 is not given to"},
		"leaving":     {func(p *load.Plan) { p.Leaving = 0 }, "longer, and the plan says 0 s"},
		"no warning":  {func(p *load.Plan) { p.Warnings = nil }, "the person of B must stay longer, and the plan does not warn"},
		"not chosen":  {func(p *load.Plan) { p.Choices = nil }, "the vat tires, and the choice is"},
		"a choice":    {func(p *load.Plan) { p.Choices[0].Makespan++ }, "the choice weak is not the plan"},
		"choice made": {func(p *load.Plan) { p.Choices[0].ID = "slow" }, "and the choice is \"slow\""},
	} {
		p := good
		p.Rows, p.Choices = append([]load.Row(nil), good.Rows...), append([]load.Choice(nil), good.Choices...)
		c.f(&p)
		if got := strings.Join(loadtest.Check(pieces, l, p), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("%s: %q is not found in\n%s", name, c.want, got)
		}
	}
}
