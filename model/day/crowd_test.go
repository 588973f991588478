package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// Before a piece goes in it is said when it would have less than 20 L a kilogram dry, or when it and the forearms that move
// it would lift the liquor too near the rim. Common practice, no source.
func TestALoadThatIsTooLargeIsSaid(t *testing.T) {
	r := head(t, "soda").Recipe
	at := time.Date(2026, 3, 28, 10, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		name, vessel string
		fill         quantity.Volume
		dry          quantity.Mass
		says         string
		came         day.Body // to the liquor or from it, since it was filled
	}{
		{"room enough", "frustum 36 cm 44 cm 62 cm", 60, 420, "", nil},
		{"too heavy", "frustum 36 cm 44 cm 62 cm", 60, 4000, "liquor ratio of 15:1", nil},
		{"too heavy, vessel not said", "", 60, 4000, "liquor ratio of 15:1", nil},
		{"too full", "cylinder 30 cm 40 cm", 22, 1000, "below the rim; with these goods in", nil},
		{"too full with less", "cylinder 30 cm 40 cm", 22, 500, "below the rim; with these goods in", nil},
		{"too full, less was drawn off", "cylinder 30 cm 40 cm", 22, 500, "", day.DrawnOff{Liquor: 7}},
		{"too full by what was read", "cylinder 30 cm 40 cm", 14, 600, "below the rim; with these goods in", day.Reading{Holds: ptr(quantity.Litres(22))}},
		{"heavy for what is left", "frustum 36 cm 44 cm 62 cm", 60, 2000, "liquor ratio of 10:1", day.DrawnOff{Liquor: 40}},
	} {
		s, err := day.Begin(day.Head{Recipe: r, Setup: day.Setup{Fill: c.fill, Vessel: c.vessel, Material: "stainless"}, Opening: day.Opening{Built: true}})
		if err != nil {
			t.Fatal(err)
		}
		for i, b := range []day.Body{
			day.Opened{How: "tend"}, day.StepDone{OfStep: day.OfStep{1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{2}, Ready: true},
			day.PieceAdded{day.OfPiece{"A1"}, day.PieceSpec{Fibre: "linen", Dry: c.dry}}, day.WettedOut{day.OfPiece{"A1"}}, day.FrothSkimmed{},
			c.came,
		} {
			if b == nil {
				continue
			}
			if s, err = day.Apply(s, day.Event{Seq: i + 1, At: at, Body: b}); err != nil {
				t.Fatal(err)
			}
		}
		a := day.Next(s, at)
		if a.Kind != day.ActEnter {
			t.Fatalf("%s: the act is %q", c.name, a.Words)
		}
		if c.says == "" && strings.ContainsAny(a.Why, "0123456789") || !strings.Contains(a.Why, c.says) {
			t.Errorf("%s: it says %q", c.name, a.Why)
		}
		// Where the liquor is too little for the goods, that is asked before the first dip, not after.
		asked := day.CautionOf(s, day.Lower{Tag: "A1"}, at)
		if strings.Contains(c.says, "ratio") != strings.Contains(asked, "liquor ratio") {
			t.Errorf("%s: it asks %q", c.name, asked)
		}
		for i, b := range []day.Body{day.DipBegun{OfPiece: day.OfPiece{"A1"}, Dip: 1, For: quantity.Minutes(5)}, day.DipEnded{OfPiece: day.OfPiece{"A1"}, Dip: 1, Air: quantity.Minutes(10)}} {
			if s, err = day.Apply(s, day.Event{Seq: s.Seq + 1, At: at.Add(time.Duration(i) * 5 * time.Minute), Body: b}); err != nil {
				t.Fatal(err)
			}
		}
		if asked := day.CautionOf(s, day.Lower{Tag: "A1"}, at.Add(time.Hour)); strings.Contains(asked, "liquor ratio") {
			t.Errorf("%s: before its second dip it asks %q", c.name, asked)
		}
	}
}

// A piece of somebody who is still to come is neither called nor offered before, nor is it what comes next; from then on it is.
func TestWhoIsNotThereIsNotCalled(t *testing.T) {
	p := dyeing(t, 1)
	a2 := p.piece("A1").Spec
	comes := p.now.Truncate(time.Minute).Add(30 * time.Minute)
	a2.Who, a2.From = "Zoe", comes.Format("15:04")
	p.do(day.AddPiece{Tag: "B1", Spec: a2})
	p.do(day.Record{Body: day.PieceDropped{OfPiece: day.OfPiece{Tag: "A1"}, Reason: "torn"}})
	p.calls("wait B1 1", "B1 WAITS", "B1 waits for Zoe")
	p.refuses(day.Done{}, "comes at "+a2.From)
	if until := day.Steady(p.s, day.Dues(p.s), comes.Add(-time.Second)); !until.Equal(comes) {
		t.Errorf("the call is taken to last till %s, she comes at %s", day.Clock(until), day.Clock(comes))
	}
	for p.now.Add(time.Minute).Before(comes) {
		p.wait(time.Minute)
		if c := day.CallOf(p.s, p.now); c.Act.Kind != day.ActComes || len(c.Meanwhile(p.s, p.now)) > 0 {
			t.Fatalf("%s: %q, meanwhile %v", day.Clock(p.now), c.Words, c.Meanwhile(p.s, p.now))
		}
	}
	p.now = comes
	if c := day.CallOf(p.s, p.now); c.Act.Kind != day.ActWetOut && c.Act.Kind != day.ActSkim && c.Act.Kind != day.ActEnter || c.Act.Piece.Tag != "B1" {
		t.Errorf("now that she is there the call is %q", c.Words)
	}
}

// Of pieces that go in together each has its own dip in the words; what comes out first is told first.
func TestPiecesThatGoInTogetherHaveTheirOwnDips(t *testing.T) {
	p := dyeing(t, 2)
	spec := p.piece("A2").Spec
	spec.Dip, spec.Dips = quantity.Minutes(5), 7
	p.do(day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: "A2"}, PieceSpec: spec}})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	p.do(day.Record{Body: day.Talking{On: true}})
	p.s = p.s.Advised([]string{"A1", "A2"}, [][]string{{"A1", "A2"}}, p.now)
	p.do(day.Record{Body: day.Talking{}})
	c := day.CallOf(p.s, p.now)
	if got, want := strings.Join(c.Facts(p.now), ", "), "A1 8:00, dip 1 of 3; A2 5:00, dip 1 of 7"; got != want {
		t.Errorf("the call %q says %q, not %q", c.Words, got, want)
	}
	if got := c.Line(p.s, p.now); !strings.Contains(got, "A2 5:00, dip 1 of 7") {
		t.Errorf("its line is %q", got)
	}
	if got, want := c.Upcoming(p.s, p.now), "out A2 after 5 min"; got != want {
		t.Errorf("then %q, not %q", got, want)
	}
}

// Whose dips take longer than their person stays is told when the piece is added or changed, by the dips that are still to come, and
// the call says when the person leaves.
func TestWhoLeavesBeforeTheDipsAreOver(t *testing.T) {
	p := dyeing(t, 1)
	now := p.now.Truncate(time.Minute)
	at := func(min int) string { return day.Clock(now.Add(time.Duration(min) * minute)) }
	b := day.PieceAdded{OfPiece: day.OfPiece{Tag: "B1"}, PieceSpec: p.piece("A1").Spec} // 3 dips of 8 min, 12 min apart
	for _, c := range []struct {
		from, till int
		want       string
	}{{0, 60, ""}, {0, 40, at(48)}, {15, 60, at(63)}, {15, 64, ""}} {
		b.Till = at(c.till)
		if b.From = ""; c.from > 0 {
			b.From = at(c.from)
		}
		piece := day.Piece{Tag: b.Tag, Spec: b.PieceSpec}
		if got := piece.TooLong(now); (got == "") != (c.want == "") || !strings.Contains(got, c.want) {
			t.Errorf("from %s till %s: %q, not %q", b.From, b.Till, got, c.want)
		}
	}
	spec := p.piece("A1").Spec
	spec.Who, spec.Till = "Mo", at(90)
	p.do(day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: spec}})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	for range 2 { // to go in, and in
		if c := day.CallOf(p.s, p.now); !strings.Contains(strings.Join(c.Facts(p.now), ", "), "Mo leaves "+spec.Till) {
			t.Errorf("the call %q says %q", c.Words, c.Facts(p.now))
		}
		if p.piece("A1").Phase != day.InVat {
			p.do(day.Lower{Tag: "A1"})
		}
	}
	in := p.piece("A1").Since
	p.wait(4 * minute)
	for _, min := range []int{40, 60} { // 3 dips of 8 min, 12 min apart, the first of which is half over
		spec.Till = day.Clock(in.Add(time.Duration(min) * minute))
		b := day.PieceChanged{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: spec}
		p.do(day.Record{Body: b})
		want := "A1 has its last dip till " + day.Clock(in.Add(48*minute))
		if got := p.s.Amiss(p.s.Log[len(p.s.Log)-1]); strings.Contains(got, want) != (min < 48) {
			t.Errorf("changed, till %s: %q", spec.Till, got)
		}
	}
}
