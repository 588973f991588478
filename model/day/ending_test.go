package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// The end of a vat, by practice 44 to 48: acid only after an hour blue with the air off and a strip without any yellow; then
// where the local authority says.
func TestTheEndOfAVat(t *testing.T) {
	h := head(t, "soda")
	h.Opening, h.Setup.Ending = day.Opening{Number: 3, Built: true}, true
	p := begin(t, h)
	end := day.Record{Body: day.VatEnded{Route: "the foul sewer, as the water utility said"}}
	strip := func(s float64) day.Record {
		return day.Record{Body: day.StripTest{Stayed: quantity.Seconds(s)}}
	}
	press := func() string { p.wait(2 * time.Second); return p.do(day.Done{}) }
	p.refuses(end, "first use it up")
	press()
	press()
	press()
	p.refuses(day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 10}}}, "being ended")
	p.refuses(day.Skip{Reason: "hurry"}, "cannot be left out")
	p.refuses(day.Stretch{Timer: "step 2", By: -quantity.Minutes(10)}, "not shortened")
	p.refuses(day.Done{}, "whisk")
	if a := day.Next(p.s, p.now); a.Press != "" {
		t.Errorf("while it is whisked the big key says %q, and is refused", a.Press)
	}
	p.wait(30 * minute)
	if a := day.Next(p.s, p.now); a.Press != "done" {
		t.Errorf("whisked, the big key says %q", a.Press)
	}
	press()
	p.wait(30 * minute)
	p.refuses(day.Done{}, "without air and without hands")
	p.refuses(day.Judge{Ready: true}, "the whole hour")
	p.refuses(day.Skip{Reason: "hurry"}, "cannot be left out")
	p.refuses(day.Stretch{Timer: "step 3", By: -quantity.Minutes(20)}, "not shortened")
	p.do(day.Record{Body: day.Stirred{}}) // air: the hour begins again
	p.wait(30 * minute)
	p.refuses(day.Done{}, "30:00 more")
	p.refuses(day.AddPiece{Tag: "K9", Spec: day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 1}}, "no goods")
	p.wait(30 * minute)
	press()
	p.refuses(day.Done{}, "pull a strip")
	p.refuses(day.Skip{Reason: "hurry"}, "cannot be left out")
	p.do(strip(4))
	p.refuses(day.Done{}, "reducer is left")
	p.refuses(day.Judge{Ready: true}, "reducer is left")
	p.do(day.Judge{Ready: false})
	if how := day.Next(p.s, p.now).How; how != "Whisk air in again, leave it alone for an hour, then look." {
		t.Errorf("while it is left alone: %q", how)
	}
	p.do(strip(0))
	p.wait(time.Hour)
	p.refuses(day.Done{}, "pull a strip") // the one before the hour tells nothing
	p.do(strip(0))
	p.do(day.Judge{Ready: true})
	p.do(strip(20))
	p.refuses(day.Close{}, "stayed yellow 20 s") // it would be forgotten overnight
	p.wait(time.Hour)
	p.do(strip(0))
	p.do(day.Close{})

	h = p.s.Head
	h.Opening = day.Carry(p.s)
	now := p.now.Add(14 * time.Hour)
	if w := day.Between(p.s, now); len(w) != 1 || w[0].Words != "go on ending it: let the pigment settle" {
		t.Errorf("home says %+v", w)
	}
	p = begin(t, h)
	p.now = now
	press() // settled
	press()
	press()
	press()
	p.wait(2 * time.Second)
	p.refuses(day.Done{}, "read its pH")
	lot := func() float64 { return day.Next(p.s, p.now).Step.Mass.Grams() }
	if a := day.Next(p.s, p.now); a.Words != "Read its pH first" || lot() != 0 {
		t.Errorf("before its pH is read the act is %q with %g g of acid", a.Words, lot())
	}
	p.do(day.Record{Body: day.Reading{PH: ptr(10.4)}})
	if lot() != 30 { // 0.5 g a litre of 60 L
		t.Errorf("at pH 10.4 a lot of %g g is shown", lot())
	}
	p.do(day.Record{Body: day.Reading{PH: ptr(8.7)}})
	if lot() < 3 || lot() > 10 { // near its end a liquor hardly resists: a whole lot would take it below 8
		t.Errorf("at pH 8.7 a lot of %g g is shown", lot())
	}
	p.do(day.Record{Body: day.Reading{PH: ptr(10.4)}})
	p.do(day.Record{Body: day.PlaceChanged{Place: day.ClosedRoom}})
	p.refuses(day.Done{}, "no acid in a closed room")
	p.do(day.Record{Body: day.PlaceChanged{Place: day.Outdoors}})
	p.do(day.Record{Body: day.StripTest{Stayed: quantity.Seconds(40)}})
	p.refuses(day.Done{}, "stayed yellow 40 s")
	p.do(strip(0))
	p.refuses(day.Done{}, "stayed yellow 40 s") // an hour later, not at once
	p.wait(time.Hour)
	p.do(strip(0))
	press()                                                     // a lot is in
	p.refuses(day.Undo{Seq: len(p.s.Log) - 1}, "depends on it") // the strip that let it
	if lot, ok := p.s.Log[len(p.s.Log)-1].Body.(day.PowderAdded); !ok || lot.Material != "citric acid" || lot.Mass != 30 {
		t.Errorf("the lot is %+v", p.s.Log[len(p.s.Log)-1].Body)
	}
	p.wait(5 * time.Second)
	p.refuses(day.Done{}, "read its pH again")
	p.refuses(day.Skip{Reason: "hurry"}, "cannot be left out")
	p.do(day.Record{Body: day.Reading{PH: ptr(7.2)}}) // at once: not stirred in yet
	p.refuses(day.Done{}, "read its pH again")
	p.wait(minute)
	p.do(day.Record{Body: day.Reading{PH: ptr(7.2)}})
	p.refuses(day.Done{}, "too acid")
	p.refuses(day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 10}}}, "being ended")
	p.do(day.Dose{Powders: []day.Amount{{Powder: "soda", Mass: 10}}})
	p.refuses(day.Done{}, "read its pH again")
	p.wait(minute)
	p.do(day.Record{Body: day.Reading{PH: ptr(8.2)}})
	press()
	p.refuses(end, "answer the caution")
	p.do(day.Record{Body: day.Decanted{Liquor: 52}})
	press()
	if then := day.Upcoming(p.s, p.now); !strings.Contains(then, "its book stays") {
		t.Errorf("after the last step comes %q", then)
	}
	p.wait(2 * time.Second)
	p.refuses(day.Done{}, "where it went")
	p.refuses(day.Record{Body: day.VatEnded{}}, "where it went")
	p.refuses(day.Record{Body: day.VatEnded{Route: "1"}}, "where it went")
	p.do(end)
	got, ok := p.s.Log[len(p.s.Log)-1].Body.(day.VatEnded)
	if !ok || got.Liquor != 52 || got.PH == nil || *got.PH != 8.2 || !p.s.Ended {
		t.Errorf("the record is %+v", got)
	}
}

// A piece that would drink the vat up is not put on its list: wet cloth holds two to three times its weight (from memory).
func TestTooHeavyAPiece(t *testing.T) {
	p := begin(t, head(t, "soda")) // 60 L
	add := func(kg float64) day.AddPiece {
		return day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "cotton", Dry: quantity.Grams(1000 * kg), Depth: "dark"}}
	}
	p.refuses(add(20.1), "no liquor would be left")
	p.do(add(20))
}

// A dose that is a slip of the hand is asked for again, and nothing is given to an empty vessel.
func TestNoDoseByASlip(t *testing.T) {
	p := dyeing(t, 1) // soda, 60 L: 2 g/L of dithionite is the recipe's
	dose := func(grams float64) day.Dose {
		return day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: quantity.Grams(grams)}}}
	}
	p.refuses(dose(20000), "weigh again")
	p.refuses(day.Record{Body: day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 20000}}, "weigh again")
	p.do(dose(60))
	begin(t, head(t, "soda")).refuses(dose(30), "no liquor yet")
}
