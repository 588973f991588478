package load_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/loadtest"
)

// dips is a piece of 100 g with so many dips of 10 min and 20 min of airing.
func dips(tag string, n int) load.Piece {
	return load.Piece{Tag: tag, Dry: 100, Dips: n, Dip: minutes(10), Air: minutes(20), Fibre: fibre.Cotton}
}

// plan makes a plan and checks it.
func plan(t *testing.T, pieces []load.Piece, l load.Limits) load.Plan {
	t.Helper()
	p, err := load.Make(pieces, l)
	if err != nil {
		t.Fatal(err)
	}
	if broken := loadtest.Check(pieces, l, p); len(broken) > 0 {
		t.Fatalf("%s\n%+v", strings.Join(broken, "\n"), p.Rows)
	}
	return p
}

func rowOf(p load.Plan, tag string, dip int) load.Row {
	for _, r := range p.Rows {
		if r.Tag == tag && r.Dip == dip {
			return r
		}
	}
	return load.Row{}
}

// The two days that are given with their answers.
func TestGivenDays(t *testing.T) {
	one := load.Limits{Plain: true, Capacity: 100}
	for _, c := range []struct {
		pieces []load.Piece
		want   int
	}{
		{[]load.Piece{dips("A", 3), dips("B", 3), dips("C", 2)}, 80},
		{[]load.Piece{dips("A", 5)}, 130},
	} {
		p := plan(t, c.pieces, one)
		if p.Makespan != minutes(c.want) || !p.Proven || p.Gap != 0 {
			t.Errorf("ends at %v, proven %v, not at %d min", p.Makespan, p.Proven, c.want)
		}
	}
}

// In the plain problem nothing counts but what is given: the same day with all limits besides is the same plan.
func TestPlainKnowsOnlyWhatIsGiven(t *testing.T) {
	pieces := []load.Piece{dips("A", 3), dips("B", 3), dips("C", 2)}
	for i := range pieces {
		pieces[i].FinalAir, pieces[i].Finish, pieces[i].Takes = minutes(30), minutes(25), 5
	}
	l := load.Limits{Plain: true, Capacity: 200}
	want := plan(t, pieces, l)
	l.Most, l.Rest, l.Reheat = 1, load.Pause{After: minutes(20), For: minutes(60)}, load.Pause{After: minutes(20), For: minutes(60)}
	l.Breaks, l.Indigo, l.Latest, l.Vats = []load.Break{{From: 0, To: minutes(60)}}, load.Indigo{Holds: 1}, minutes(1), 3
	if got := plan(t, pieces, l); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v\n%+v", got, want)
	}
	for n, d := range want.Done {
		last := rowOf(want, d.Tag, pieces[n].Dips).Lifted
		if d.At != last {
			t.Errorf("%s is done at %v, lifted at %v", d.Tag, d.At, last)
		}
	}
}

// A moved piece takes its hands through handling and dip; a hung one only through handling.
func TestHands(t *testing.T) {
	l := load.Limits{Hands: 1, Handling: map[string]quantity.Span{load.Cloth: minutes(1)}}
	two := []load.Piece{dips("A", 1), dips("B", 1)}
	if p := plan(t, two, l); p.Makespan != minutes(24) || !p.Proven {
		t.Errorf("two moved pieces end at %v, not after twice 12 min", p.Makespan)
	}
	two[0].Work, two[1].Work = load.Hung, load.Hung
	if p := plan(t, two, l); p.Makespan != minutes(13) || !p.Proven {
		t.Errorf("two hung pieces end at %v, not after 12 min and one lowering", p.Makespan)
	}
	r := rowOf(plan(t, two[:1], l), "A", 1)
	if want := (load.Row{Tag: "A", Dip: 1, Vat: 1, Hand: 1, LiftHand: 1, In: minutes(1), Out: minutes(11), Lifted: minutes(12)}); r != want {
		t.Errorf("%+v, not %+v", r, want)
	}
	l.Hands = 0
	if p := plan(t, two, l); p.Makespan != minutes(12) {
		t.Errorf("with hands enough it ends at %v", p.Makespan)
	}
}

// Nothing is handled in a break; a hung piece may stay in over it.
func TestBreaks(t *testing.T) {
	l := load.Limits{Hands: 1, Handling: map[string]quantity.Span{}, Breaks: []load.Break{{From: minutes(5), To: minutes(30)}}}
	a := dips("A", 1)
	if p := plan(t, []load.Piece{a}, l); rowOf(p, "A", 1).In != minutes(30) {
		t.Error("a moved piece is not lowered after the break but at", rowOf(p, "A", 1).In)
	}
	a.Work, a.Dip = load.Hung, minutes(27)
	if p := plan(t, []load.Piece{a}, l); rowOf(p, "A", 1).In != minutes(3) {
		t.Error("a hung piece does not stay in over the break, but goes in at", rowOf(p, "A", 1).In)
	}
}

// After so much work the vat stands empty, and the plan tells of it.
func TestRests(t *testing.T) {
	l := load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Rest: load.Pause{After: minutes(60), For: minutes(45)}}
	p := plan(t, []load.Piece{dips("A", 3), dips("B", 3), dips("C", 2)}, l)
	if p.Makespan != minutes(125) || len(p.Stands) != 1 || p.Stands[0].Kind != "rest" || !p.Proven {
		t.Errorf("%v %+v", p.Makespan, p.Stands)
	}
	l.Rest, l.Reheat = load.Pause{}, l.Rest
	p = plan(t, []load.Piece{dips("A", 3), dips("B", 3), dips("C", 2)}, l)
	if len(p.Stands) != 1 || p.Stands[0].Kind != "reheat" {
		t.Errorf("%+v", p.Stands)
	}
}

// Dark pieces go first where it costs no time.
func TestDarkFirst(t *testing.T) {
	a, b, c := dips("pale", 1), dips("mid", 1), dips("dark", 1)
	b.Dark, c.Dark = 3, 4
	p := plan(t, []load.Piece{a, b, c}, load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}})
	if p.Rows[0].Tag != "dark" || p.Rows[1].Tag != "mid" || p.Rows[2].Tag != "pale" {
		t.Errorf("%+v", p.Rows)
	}
}

// A vat that tires: the plan warns, feeding and waiting helps, and the options stand side by side.
func TestTiredVat(t *testing.T) {
	pieces := []load.Piece{dips("A", 3), dips("B", 3)}
	for i := range pieces {
		pieces[i].Takes = 2
	}
	l := load.Limits{Capacity: 200, Hands: 2, Handling: map[string]quantity.Span{}, Indigo: load.Indigo{Holds: 10, Floor: 1}, Effort: 100000}
	p := plan(t, pieces, l)
	if p.Weak != 2 || len(p.Warnings) != 1 {
		t.Errorf("%d weak: %v", p.Weak, p.Warnings)
	}
	options, err := load.Options(pieces, l)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]load.Option{}
	for _, o := range options {
		got[o.ID] = o
		if o.Fault != "" {
			t.Errorf("%s: %s", o.ID, o.Fault)
		}
		if broken := loadtest.Check(o.Pieces, o.Limits, o.Plan); len(broken) > 0 {
			t.Errorf("%s: %v", o.ID, broken)
		}
		t.Log(o.ID, o.Name, o.Finish, o.Warnings)
	}
	for _, id := range []string{"as it is", "person", "vat", "bigger", "shorter", "feed", "fewer"} {
		o, ok := got[id]
		if !ok {
			t.Errorf("no option %s", id)
		}
		helps := id == "vat" || id == "bigger" || id == "feed" || id == "fewer"
		if helps != (o.Plan.Weak == 0) {
			t.Errorf("%s leaves %d weak dips", id, o.Plan.Weak)
		}
	}
	if got["feed"].Finish <= got["as it is"].Finish {
		t.Error("feeding and waiting takes no time")
	}
	if s := got["feed"].Plan.Stands; len(s) != 1 || s[0].Kind != "feed" {
		t.Errorf("%+v", s)
	}
}

// The dark piece asks for 8 g in a vat of 11 g from which each dip takes 2. It has its two dips while the vat is strong only
// if nothing goes in between: dark 0 and 30, pale 40, 70 and 100, the last lift at 110. Side by side it is 70, with one weak
// dip: 40 min for one dip are too much unless it is asked for, or the wished finish leaves room for it.
func TestStrongVatForDark(t *testing.T) {
	pale, dark := dips("pale", 3), dips("dark", 2)
	pale.Takes, dark.Takes, dark.Least = 2, 2, 8
	for _, c := range []struct {
		choice string
		latest int
		chosen string
		weak   int
		end    int
	}{
		{load.ChoiceFull, 0, "full", 0, 110},
		{load.ChoiceFull, 100, "full", 0, 110},
		{load.ChoiceWeak, 115, "weak", 1, 70},
		{"", 0, "weak", 1, 70},
		{"", 109, "weak", 1, 70},
		{"", 110, "full", 0, 110},
	} {
		l := load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Indigo: load.Indigo{Holds: 11}, Choice: c.choice, Latest: minutes(c.latest)}
		p := plan(t, []load.Piece{pale, dark}, l)
		chosen := ""
		for _, way := range p.Choices {
			if way.Chosen {
				chosen += way.ID
			}
		}
		if chosen != c.chosen || p.Weak != c.weak || p.Makespan != minutes(c.end) {
			t.Errorf("choice %q, latest %d: it is %q, %d weak dips, till %v: %+v", c.choice, c.latest, chosen, p.Weak, p.Makespan, p.Rows)
		}
	}
}

// Like pieces of one person go as one.
func TestTogether(t *testing.T) {
	var pieces []load.Piece
	for i := range 6 {
		x := dips(fmt.Sprint("P", i), 2)
		x.Who = []string{"1", "2", "3"}[i%3]
		pieces = append(pieces, x)
	}
	l := load.Limits{Capacity: 200, Hands: 1, Handling: map[string]quantity.Span{load.Cloth: minutes(1)}, Together: true}
	p := plan(t, pieces, l)
	for i := range 3 {
		if rowOf(p, pieces[i].Tag, 1).Lower != rowOf(p, pieces[i+3].Tag, 1).Lower || rowOf(p, pieces[i].Tag, 1).Bundle == 0 {
			t.Errorf("%+v", p.Rows)
		}
	}
}

// With equal turns nobody has a second dip before everybody had a first, and the board tells who waits longest.
func TestFairTurns(t *testing.T) {
	var pieces []load.Piece
	for i := range 4 {
		x := dips(fmt.Sprint("P", i), 3)
		x.Who = fmt.Sprint("person ", i)
		x.FinalAir, x.Finish = minutes(30), minutes(25)
		pieces = append(pieces, x)
	}
	p := plan(t, pieces, load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Fair: true})
	board := load.Board(p, pieces)
	if len(board) != 4 || p.Makespan != minutes(120) {
		t.Fatalf("%d seats, %v", len(board), p.Makespan)
	}
	for n, s := range board {
		if len(s.Turns) != 3 || s.Longest > minutes(30) || s.Done != s.Turns[2].Lifted+minutes(55) {
			t.Errorf("%+v", s)
		}
		if s.Turns[1].Lower < board[3].Turns[0].Lower {
			t.Errorf("%s has a second turn before all had a first", s.Who)
		}
		if n > 0 && s.Turns[0].Lower < board[n-1].Turns[0].Lower {
			t.Error("the board is not in the order of the first turns")
		}
	}
}

// What cannot be planned is told in a sentence.
func TestRefusals(t *testing.T) {
	wool := dips("W", 1)
	wool.Fibre = fibre.Wool
	bears := func(f fibre.Fibre, dip quantity.Span) (fibre.Verdict, string) {
		return f.BearsPHSaid(11.5, "11.5", dip)
	}
	heavy := dips("H", 1)
	heavy.Dry = 900
	long := dips("L", 1)
	long.Dip = quantity.Hours(4)
	nothing := dips("N", 1)
	nothing.Dry = 0
	for _, c := range []struct {
		name   string
		pieces []load.Piece
		l      load.Limits
		want   string
	}{
		{"wool", []load.Piece{wool}, load.Limits{Bears: bears}, "W does not go into this vat"},
		{"heavy", []load.Piece{heavy}, load.Limits{Capacity: 500}, "weighs 900 g"},
		{"two of a name", []load.Piece{heavy, heavy}, load.Limits{}, "two pieces are called H"},
		{"longer than the vat works", []load.Piece{long}, load.Usual(quantity.Litres(50)), "make the dip shorter"},
		{"no weight", []load.Piece{nothing}, load.Limits{}, "no dry weight"},
		{"hands", nil, load.Limits{Hands: -1}, "0 or more"},
	} {
		if _, err := load.Make(c.pieces, c.l); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	silk := dips("S", 1)
	silk.Fibre = fibre.Silk
	p, err := load.Make([]load.Piece{silk}, load.Limits{Bears: func(fibre.Fibre, quantity.Span) (fibre.Verdict, string) {
		return fibre.Warned, "silk: short dips only."
	}})
	if err != nil || len(p.Warnings) != 1 || p.Warnings[0] != "Piece S: silk: short dips only." {
		t.Error(p.Warnings, err)
	}
	if p, err := load.Make(nil, load.Limits{}); err != nil || p.Makespan != 0 || !p.Proven {
		t.Errorf("a day without pieces: %+v %v", p, err)
	}
}

// Past the latest finish the plan warns, and says when no plan can be in time.
func TestLatest(t *testing.T) {
	a := dips("A", 3)
	a.FinalAir, a.Finish = minutes(30), minutes(25)
	p := plan(t, []load.Piece{a}, load.Limits{Handling: map[string]quantity.Span{}, Latest: minutes(100)})
	if p.Late != minutes(25) || len(p.Warnings) != 1 || !strings.Contains(p.Warnings[0], "no plan can be in time") {
		t.Errorf("%v %v", p.Late, p.Warnings)
	}
	// the bound piece, which airs two hours at the end, goes first though that is no sooner
	b, c := dips("B", 1), dips("C", 1)
	b.FinalAir, c.Dark = minutes(120), 5
	p = plan(t, []load.Piece{c, b}, load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Latest: minutes(130)})
	if p.Late != 0 || p.Rows[0].Tag != "B" {
		t.Errorf("%v %+v", p.Late, p.Rows)
	}
	// one that is too late by itself makes no other late, though all would be done sooner so
	long, short := dips("long", 7), dips("short", 4)
	p = plan(t, []load.Piece{long, short}, load.Limits{Hands: 1, Handling: map[string]quantity.Span{load.Cloth: minutes(3)}, Latest: minutes(130)})
	if short := p.Done[1].At; short > minutes(130) || p.Done[0].At != minutes(130)+p.Late || len(p.Warnings) != 1 || !strings.Contains(p.Warnings[0], "long is done") {
		t.Errorf("short is done at %v, late %v: %v", short, p.Late, p.Warnings)
	}
}

// The checker finds each limit that is broken when a good plan is spoilt.
func TestCheckerFinds(t *testing.T) {
	a, b := dips("A", 2), dips("B", 2)
	a.Work = load.Hung
	l := load.Limits{Capacity: 100, Most: 1, Hands: 1, Handling: map[string]quantity.Span{load.Cloth: minutes(1)},
		Rest: load.Pause{After: minutes(30), For: minutes(20)}, Breaks: []load.Break{{From: minutes(100), To: minutes(140)}}, Indigo: load.Indigo{Holds: 100}}
	pieces := []load.Piece{a, b}
	good := plan(t, pieces, l)
	spoil := func(f func(p *load.Plan)) []string {
		p := good
		p.Rows = append([]load.Row(nil), good.Rows...)
		p.Done = append([]load.Done(nil), good.Done...)
		f(&p)
		return loadtest.Check(pieces, l, p)
	}
	shift := func(r *load.Row, by quantity.Span) {
		r.Lower, r.In, r.Out, r.Lifted = r.Lower+by, r.In+by, r.Out+by, r.Lifted+by
	}
	for name, c := range map[string]struct {
		f    func(p *load.Plan)
		want string
	}{
		"weight":    {func(p *load.Plan) { shift(&p.Rows[1], p.Rows[0].Lower-p.Rows[1].Lower) }, "the vat holds 200 g"},
		"number":    {func(p *load.Plan) { shift(&p.Rows[1], p.Rows[0].Lower-p.Rows[1].Lower) }, "the vat holds 2 pieces"},
		"hands":     {func(p *load.Plan) { shift(&p.Rows[1], p.Rows[0].Lower-p.Rows[1].Lower) }, "pairs of hands"},
		"a dip":     {func(p *load.Plan) { p.Rows = p.Rows[:3] }, "are wanted"},
		"its time":  {func(p *load.Plan) { p.Rows[0].Out += minutes(1) }, "lasts"},
		"handling":  {func(p *load.Plan) { p.Rows[3].Lifted += minutes(1) }, "is handled for"},
		"airing":    {func(p *load.Plan) { shift(&p.Rows[3], p.Rows[1].Lifted+minutes(19)-p.Rows[3].Lower) }, "cannot be before"},
		"a break":   {func(p *load.Plan) { shift(&p.Rows[3], minutes(120)-p.Rows[3].Lower) }, "within a break"},
		"the end":   {func(p *load.Plan) { p.Makespan++ }, "the last lift"},
		"the gap":   {func(p *load.Plan) { p.Gap++ }, "do not agree"},
		"done":      {func(p *load.Plan) { p.Done[0].At += minutes(2) }, "is done at"},
		"a rest":    {func(p *load.Plan) { shift(&p.Rows[2], p.Rows[1].Lifted-p.Rows[2].Lower) }, "it asks for"},
		"a vat":     {func(p *load.Plan) { p.Rows[0].Vat = 2 }, "and there are 1"},
		"the order": {func(p *load.Plan) { p.Rows[0], p.Rows[1] = p.Rows[1], p.Rows[0] }, "not in the order"},
		"a feed": {func(p *load.Plan) {
			p.Stands = append(p.Stands, load.Stand{Kind: "feed", Vat: 1, From: 0, To: minutes(5)})
		}, "is fed 1 times"},
	} {
		if got := strings.Join(spoil(c.f), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("%s: not found in %q", name, got)
		}
	}
	l.Indigo.Holds, pieces[0].Takes, pieces[1].Takes = 2, 1, 1
	if got := strings.Join(loadtest.Check(pieces, l, good), "\n"); !strings.Contains(got, "find too little indigo") {
		t.Errorf("indigo: %q", got)
	}
}

// One pair of hands and hung pieces whose lifts may not wait: no limit by itself shows that the day cannot end sooner, all orders of its
// work do.
func TestASmallDayIsGoneThrough(t *testing.T) {
	var pieces []load.Piece
	for i, x := range [][4]int{{2, 8, 14, 410}, {4, 3, 15, 280}, {3, 5, 11, 290}, {4, 3, 14, 450}, {2, 9, 17, 380}, {2, 8, 17, 250}} {
		pieces = append(pieces, load.Piece{Tag: fmt.Sprint(i), Dips: x[0], Dip: minutes(x[1]), Air: minutes(x[2]), Dry: quantity.Grams(float64(x[3])),
			Form: []string{load.Garment, load.Cloth, load.Cloth, load.Skein, load.Garment, load.Skein}[i], Work: []string{load.Hung, load.Moved, load.Moved, load.Hung, load.Hung, load.Hung}[i]})
	}
	l := load.Limits{Capacity: 1500, Hands: 1}
	p := plan(t, pieces, l)
	if !p.Proven || p.Makespan != minutes(73) {
		t.Errorf("it ends at %v, bound %v", p.Makespan, p.Bound)
	}
	l.Hands = 2
	if q := plan(t, pieces, l); q.Bound > q.Makespan || q.Makespan > minutes(70) {
		t.Errorf("with two pairs it ends at %v, bound %v", q.Makespan, q.Bound)
	}
}

// Six pieces of 620 g leave no room for one of 290 g, and three of nine of those fill a moment: neither the weight of all (7 dips of 10 min)
// nor parts of the room show that the day takes 90 min.
func TestPlacesOfSomeWeightAreABound(t *testing.T) {
	var pieces []load.Piece
	for i := range 15 {
		x := dips(fmt.Sprint(i), 1)
		if x.Dry = 290; i < 6 {
			x.Dry = 620
		}
		pieces = append(pieces, x)
	}
	if p := plan(t, pieces, load.Limits{Plain: true, Capacity: 900}); !p.Proven || p.Makespan != minutes(90) {
		t.Errorf("it ends at %v, bound %v", p.Makespan, p.Bound)
	}
}
