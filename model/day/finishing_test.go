package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
	"example.org/vatside/testdata/longday"
)

// finished is a piece A1 after its three dips, in a vat of this recipe.
func finished(t testing.TB, id, fibre string, change ...func(*day.Head)) *played {
	t.Helper()
	h := head(t, id)
	h.Opening = day.Opening{Number: 2, Built: true}
	for _, f := range change {
		f(&h)
	}
	p := begin(t, h)
	p.do(day.Skip{Reason: "warm already"})
	p.do(day.Judge{Ready: true})
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: fibre, Dry: 200, Dips: 1, Dip: quantity.Minutes(8)}})
	p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}}})
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Done{})
	p.wait(time.Hour)
	p.do(day.Finish{Tag: "A1"})
	return p
}

func (p *played) next() string {
	p.t.Helper()
	st, ok := p.s.BenchNext(p.piece("A1"))
	if !ok {
		return ""
	}
	return st.ID
}

// The way after the last dip: trade practice 32 to 37, rinses before acid, soap, drying, rubbing, judging dry. Each bath
// has its timer; the record ends with the look.
func TestABenchFromTheLastDipToTheLook(t *testing.T) {
	p := finished(t, "soda", "linen")
	bench := day.Bench{Tag: "A1"}
	for i := range 2 {
		if a := day.Next(p.s, p.now); a.Kind != day.ActBench || a.Words != [...]string{"Rinse A1, 1 of 2", "Rinse A1, 2 of 2"}[i] {
			t.Fatalf("the act is %q", a.Words)
		}
		p.do(day.Done{})
		p.refuses(bench, "2:00 more at least")
		p.wait(time.Minute)
		p.refuses(day.Close{}, "in the rinse")
		d, ok := longday.NextDue(p.s, p.now)
		if !ok || d.Kind != day.DueBath || d.Words != "Take A1 out of the rinse" || !d.At.Equal(p.now.Add(4*minute)) {
			t.Fatalf("the timer is %+v", d)
		}
		p.wait(4 * minute)
		p.do(day.Done{})
	}
	if p.next() != "sour" {
		t.Fatalf("after two rinses comes %q", p.next())
	}
	if got := p.do(bench); got != "caution answered" {
		t.Fatalf("the first press at acid gives %s", got)
	}
	p.refuses(bench, "too soon")
	p.wait(time.Second)
	p.do(bench)
	p.wait(15 * minute)
	p.do(bench)
	p.do(bench) // hot soap has its caution too
	p.wait(2 * time.Second)
	p.do(bench)
	p.wait(15 * minute)
	p.do(bench)
	p.do(bench)
	p.refuses(bench, "the two grades")
	p.do(day.Record{Body: day.CrockTested{OfPiece: day.OfPiece{Tag: "A1"}, Dry: 4, Wet: 2.5}})
	p.refuses(bench, "looks like dry")
	p.do(day.Record{Body: day.LookedAt{OfPiece: day.OfPiece{Tag: "A1"}, Looks: "dark", Rinsed: true}})
	if p.next() != "" {
		t.Errorf("after the look comes %q", p.next())
	}
	if a := day.Next(p.s, p.now); a.Kind != day.ActIdle {
		t.Errorf("after it all the act is %q", a.Words)
	}
}

// S20: acid frees sulfur dioxide from what is left of a reducer. Whatever the family; there is no override.
func TestTheAcidGateAtTheBench(t *testing.T) {
	sour := day.Record{Body: day.Soured{OfPiece: day.OfPiece{Tag: "A1"}}}
	rinse := day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}}
	for _, c := range []struct {
		recipe string
		change func(*day.Head)
		known  practice.Known
		before string
	}{
		{"soda", func(*day.Head) {}, practice.Yes, "the vat's book shows a sulfur reducer"},
		{"sugar-lime", func(*day.Head) {}, practice.No, ""},
		{"sugar-lime", func(h *day.Head) { h.Opening.Sulfur = true }, practice.Yes, "the vat's book shows a sulfur reducer"},
		{"sugar-lime", func(h *day.Head) { h.Opening.Number = 0 }, practice.NotKnown, "does not say"},
		{"sugar-lime", func(h *day.Head) { h.Setup.Place = day.ClosedRoom }, practice.No, "outdoors or into a cross-draught"},
	} {
		p := finished(t, c.recipe, "cotton", c.change)
		if got := p.s.Sulfur(); got != c.known {
			t.Errorf("%s: sulfur is %d, not %d", c.recipe, got, c.known)
		}
		if c.before == "" {
			p.do(sour)
			continue
		}
		p.refuses(sour, c.before)
		p.do(rinse)
		p.do(rinse)
		if p.s.Place() == day.ClosedRoom {
			p.refuses(sour, c.before)
			p.do(day.Record{Body: day.PlaceChanged{Place: day.CrossDraught}})
		}
		p.do(sour)
	}
}

// What a piece was rinsed of is in it again after one more dip.
func TestADipUndoesTheRinses(t *testing.T) {
	p := dyeing(t, 1)
	rinse := day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}}
	for range 2 {
		p.do(day.Lower{Tag: "A1"})
		p.wait(8 * minute)
		p.do(day.Done{})
		p.do(rinse)
		p.do(rinse)
		p.wait(12 * minute)
	}
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Done{})
	p.do(day.Finish{Tag: "A1"})
	if got := p.piece("A1").Finishing.Rinses; got != 0 {
		t.Errorf("%d rinses count", got)
	}
}

// What is not finished comes over to the next day, with the rinses it had.
func TestUnfinishedFinishingIsCarried(t *testing.T) {
	p := finished(t, "soda", "linen")
	for range 2 {
		p.do(day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}})
	}
	p.do(day.LeaveOut{Tag: "A1"}) // souring linen from a soda vat is as the dyer likes
	p.do(day.Close{})
	h := p.s.Head
	h.Opening = day.Carry(p.s)
	q := begin(t, h)
	if q.next() != "soap" || q.piece("A1").Finishing.Rinses != 2 {
		t.Errorf("the next day A1 wants %q after %d rinses", q.next(), q.piece("A1").Finishing.Rinses)
	}
}

func TestWoolIsAlwaysSoured(t *testing.T) {
	p := finished(t, "madder-bran", "wool", func(h *day.Head) { ph := 8.8; h.Opening.PH = &ph })
	for range 2 {
		p.do(day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}})
	}
	p.refuses(day.LeaveOut{Tag: "A1"}, "say why")
}

// No override: children at powders, lye, hot water, or above 40 °C (scald table, S27).
func TestChildrenAtTheVat(t *testing.T) {
	come := day.Record{Body: day.HelperChanged{Who: "the class", Children: true}}
	go_ := day.Record{Body: day.HelperChanged{Who: "the dyer"}}
	p := begin(t, head(t, "soda"))
	weigh := day.CallOf(p.s, p.now).Brief()
	p.do(come)
	p.refuses(day.Done{}, "for adults")
	p.refuses(day.PutScoop{Mass: 10}, "for adults")
	call := day.CallOf(p.s, p.now)
	if got := call.Brief(); got != "adults only: "+weigh {
		t.Errorf("it calls %q", got)
	}
	if got := call.Said(p.s, p.now); got != "Adults only: "+weigh+". Powders and lye are for adults, and children are at the vat" {
		t.Errorf("it says %q", got)
	}
	p = dyeing(t, 1)
	p.do(come)
	p.do(reading(41))
	p.refuses(day.Lower{Tag: "A1"}, "no hands above 40 °C")
	p.refuses(day.Dose{Powders: []day.Amount{{Powder: "soda", Mass: 10}}}, "for adults")
	p.refuses(day.Treat{Cause: "tired", Do: "reducer", Powders: []day.Amount{{Powder: "reducer", Mass: 10}}}, "for adults")
	p.refuses(day.Record{Body: day.Fed{Powder: "soda", Mass: 10}}, "for adults")
	p.refuses(day.Record{Body: day.HeaterOn{}}, "for adults")
	p.do(reading(50))
	p.refuses(day.Record{Body: day.HotWork{Reason: "a hot strike"}}, "for adults")
	p.do(reading(39))
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Done{})
	p.do(go_)
	p.do(reading(41))
	p.do(day.Lower{Tag: "A1"})
}

// Above 45 °C an adult's typed reason changes the call: sticks or tongs, no hands. It holds until the vat is read again.
func TestHotWorkChangesTheCall(t *testing.T) {
	p := dyeing(t, 1)
	p.refuses(day.Record{Body: day.HotWork{Reason: "a hot strike"}}, "nothing need be said")
	p.do(reading(52))
	p.refuses(day.Lower{Tag: "A1"}, "no hands above 45 °C")
	p.refuses(day.Record{Body: day.HotWork{}}, "say why")
	p.do(day.Record{Body: day.HotWork{Reason: "a hot strike"}})
	p.do(day.Record{Body: day.FrothSkimmed{}})
	if a := day.Next(p.s, p.now); a.Kind != day.ActEnter || !strings.Contains(a.Words+a.How, "no hands") {
		t.Errorf("the call is %q, %q", a.Words, a.How)
	}
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	if a := day.Next(p.s, p.now); !strings.Contains(a.Words, "no hands") {
		t.Errorf("the call is %q", a.Words)
	}
	p.do(day.Done{})
	p.wait(12 * minute)
	p.do(reading(51))
	p.refuses(day.Lower{Tag: "A1"}, "no hands above 45 °C")
}

// A treatment goes in, is left alone, and is looked at again before the next load.
func TestATreatmentAndItsRecheck(t *testing.T) {
	p := dyeing(t, 1)
	p.refuses(day.Record{Body: day.Rechecked{Answer: "better"}}, "nothing was treated")
	p.do(day.Record{Body: day.SignSeen{Sign: "blue"}})
	if seen := p.s.Seen(); len(seen) != 1 {
		t.Errorf("seen are %v", seen)
	}
	got := p.do(day.Treat{Cause: "tired", Do: "30 g of sodium dithionite", Powders: []day.Amount{{Powder: "reducer", Mass: 30}}, Wait: quantity.Minutes(30)})
	if got != "caution answered, powder added, treated" || len(p.s.Seen()) != 0 {
		t.Errorf("the treatment makes %s, and leaves %v", got, p.s.Seen())
	}
	if a := day.Next(p.s, p.now); a.Kind != day.ActRest {
		t.Errorf("the act is %q", a.Words)
	}
	p.refuses(day.Done{}, "30:00 more")
	p.wait(30 * minute)
	if a := day.Next(p.s, p.now); a.Kind != day.ActLook {
		t.Errorf("the act is %q", a.Words)
	}
	p.refuses(day.Record{Body: day.Rechecked{Answer: "fine"}}, "better, the same or worse")
	p.do(day.Record{Body: day.Rechecked{Answer: "the same"}})
	if tried := p.s.Tried(); len(tried) != 1 || tried[0] != (signs.Tried{Cause: "tired", Answer: signs.Same}) {
		t.Errorf("tried are %+v", tried)
	}
	if a := day.Next(p.s, p.now); a.Kind != day.ActSkim {
		t.Errorf("the act is %q", a.Words)
	}
}

// A tag is free again once the piece of yesterday has only its washing to come.
func TestATagOfYesterdayIsFree(t *testing.T) {
	p := finished(t, "soda", "linen")
	p.do(day.Close{})
	h := p.s.Head
	h.Opening = day.Carry(p.s)
	q := begin(t, h)
	q.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 2}})
	if got := q.piece("A1"); len(q.s.Pieces) != 1 || got.Spec.Dry != 90 || got.Dips != 0 {
		t.Errorf("the list is %+v", q.s.Pieces)
	}
}
