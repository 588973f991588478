package day_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// The clock shows what ends first: a bath before an airing or a rest that goes on, an airing before a bath that does.
func TestWhatEndsFirst(t *testing.T) {
	p := finished(t, "soda", "linen")
	p.do(day.AddPiece{Tag: "B1", Spec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 1, Dip: quantity.Minutes(8)}})
	p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "B1"}}})
	p.do(day.Lower{Tag: "B1"})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "B1"}) // its last airing takes half an hour
	p.do(day.Bench{Tag: "A1"})
	if a := day.Next(p.s, p.now); a.Kind != day.ActBench || a.Words != "Take A1 out of the rinse" {
		t.Errorf("with 5 min of rinsing and 30 of airing the act is %q", a.Words)
	}
	p.wait(5 * minute)
	p.do(day.Done{})
	if a := day.Next(p.s, p.now); a.Kind != day.ActAir || a.Piece.Tag != "B1" {
		t.Errorf("after the rinse the act is %q", a.Words)
	}
	p.wait(23 * minute)
	p.do(day.Bench{Tag: "A1"})
	if a := day.Next(p.s, p.now); a.Kind != day.ActAir {
		t.Errorf("with 2 min of airing left the act is %q", a.Words)
	}
	p.wait(5 * minute)
	if a := day.Next(p.s, p.now); a.Kind != day.ActBench || a.Press != "out" {
		t.Errorf("both over, the bath is taken first, not %q", a.Words)
	}
	p.do(day.Done{})
	p.do(day.Finish{Tag: "B1"})
	p.do(day.RestVat{For: quantity.Hours(1)})
	p.do(day.Bench{Tag: "B1"})
	if a := day.Next(p.s, p.now); a.Kind != day.ActBench || a.Piece.Tag != "B1" {
		t.Errorf("while the vat rests the act is %q", a.Words)
	}
}

// A bath of the goods apart from the vat opens the gate for acid, and not the way for a reducer: the vat stays in its room.
func TestGoodsAreFinishedApart(t *testing.T) {
	mild := 8.8
	p := finished(t, "soda", "wool", func(h *day.Head) { h.Setup.Place, h.Opening.PH = day.ClosedRoom, &mild })
	for range 2 {
		p.do(day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}})
	}
	a, _ := p.s.BenchAct(p.piece("A1"), p.now)
	if !a.Shut || a.Words != "Not yet: sour A1" || a.Press != "" || !strings.Contains(a.How, "outdoors or into a cross-draught") {
		t.Errorf("in a closed room the act is %+v", a)
	}
	p.refuses(day.Record{Body: day.PlaceChanged{Place: day.Outdoors, Of: "cats"}}, "not that of")
	p.do(day.Record{Body: day.PlaceChanged{Place: day.Outdoors, Of: day.OfGoods}})
	p.refuses(day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: 10}}}, "no sulfur reducer in a closed room")
	if a, _ = p.s.BenchAct(p.piece("A1"), p.now); a.Shut || a.Press != "on" {
		t.Errorf("outdoors the act is %+v", a)
	}
	p.do(day.Record{Body: day.PlaceChanged{Place: day.ClosedRoom}}) // said anew for both
	if a, _ = p.s.BenchAct(p.piece("A1"), p.now); !a.Shut {
		t.Errorf("back in the room the act is %+v", a)
	}
	p.do(day.Record{Body: day.PlaceChanged{Place: day.CrossDraught}})
	p.do(day.Record{Body: day.HelperChanged{Who: "the class", Children: true}})
	if a, _ = p.s.BenchAct(p.piece("A1"), p.now); !a.Shut || !strings.Contains(a.How, "for adults") {
		t.Errorf("with children the act is %+v", a)
	}
}

// Dips of a piece in another vat may have been in a sulfur reducer (S20): two rinses come before acid then.
func TestGoodsOfAnotherVat(t *testing.T) {
	other := finished(t, "sugar-lime", "cotton", func(h *day.Head) {
		h.Opening.Pieces = []day.CarriedPiece{{OfPiece: day.OfPiece{Tag: "C1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 3, Had: 3}, Finished: true}}
	})
	other.do(day.AddPiece{Tag: "Z1", Spec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 3, Had: 2}})
	other.refuses(day.Record{Body: day.Soured{OfPiece: day.OfPiece{Tag: "Z1"}}}, "rinse twice")
	other.do(day.Record{Body: day.Soured{OfPiece: day.OfPiece{Tag: "A1"}}})
	other.do(day.Record{Body: day.Soured{OfPiece: day.OfPiece{Tag: "C1"}}}) // of this vat's own book
}

// The second caution of a day is short; the first is whole (law 6 of the design).
func TestTheSecondCautionIsShort(t *testing.T) {
	p := finished(t, "soda", "linen")
	p.do(day.AddPiece{Tag: "B1", Spec: day.PieceSpec{Fibre: "linen", Dry: 90, Dips: 1, Dip: quantity.Minutes(8)}})
	p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "B1"}}})
	p.do(day.Lower{Tag: "B1"})
	p.wait(8 * minute)
	p.do(day.Lift{Tag: "B1"})
	p.wait(time.Hour)
	p.do(day.Finish{Tag: "B1"})
	for _, tag := range []string{"A1", "B1"} {
		for range 2 {
			p.do(day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: tag}}})
		}
		a, _ := p.s.BenchAct(p.piece(tag), p.now)
		if long := strings.Contains(a.Caution, "asthma"); long != (tag == "A1") || !strings.HasPrefix(a.Caution, "two rinses and full airing first") {
			t.Errorf("%s: %q", tag, a.Caution)
		}
		p.do(day.Bench{Tag: tag})
		p.wait(2 * time.Second)
		p.do(day.Bench{Tag: tag})
	}
}

func TestCrockWords(t *testing.T) {
	for text, want := range map[string][2]float64{
		"4 2.5": {4, 2.5}, "4, 2,5": {4, 2.5}, "dry 5 wet 1": {5, 1}, "none much": {5, 2}, "Trace, heavy": {4, 1},
		"4": {}, "4 6": {}, "4 2.3": {}, "0 1": {}, "blue 3": {}, "4 3 2": {}, "NaN 3": {}, "": {},
	} {
		dry, wet, err := day.ParseCrock(text)
		if (err == nil) != (want[0] > 0) || err == nil && [2]float64{dry, wet} != want {
			t.Errorf("%q: %g %g %v", text, dry, wet, err)
		}
	}
	p := finished(t, "soda", "linen")
	p.refuses(day.Record{Body: day.CrockTested{OfPiece: day.OfPiece{Tag: "A1"}, Dry: 9, Wet: 2}}, "from 5 to 1")
}

// How a piece stands, in words, from its last airing to the look.
func TestTheBenchInWords(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 1, Dip: quantity.Minutes(8)}}})
	if got := p.s.OnBench(); len(got) != 0 {
		t.Errorf("before its dips %d stand on the bench", len(got))
	}
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Done{})
	says := func(want string) {
		t.Helper()
		if got := p.s.BenchLine(p.piece("A1"), p.now, true); got != want {
			t.Errorf("it stands %q, not %q", got, want)
		}
	}
	says("last airing, 30:00")
	p.wait(time.Hour)
	says("no green left?")
	p.do(day.Finish{Tag: "A1"})
	says("to rinse, 1 of 2")
	p.do(day.Bench{Tag: "A1"})
	p.wait(110 * time.Second)
	says("rinse 1 of 2, out in 3:10")
	if then := day.Upcoming(p.s, p.now); then != "rinse 2 of 2 of A1" {
		t.Errorf("then comes %q", then)
	}
	p.wait(4 * minute)
	says("rinse 1 of 2, out now")
	p.do(day.Bench{Tag: "A1"})
	p.do(day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}})
	says("to neutralise, if you like")
	p.do(day.LeaveOut{Tag: "A1"})
	says("to soap")
	if len(p.s.OnBench()) != 1 {
		t.Error("it is not on the bench")
	}
	for range 3 {
		p.do(day.LeaveOut{Tag: "A1", Reason: "tomorrow"})
	}
	says("to judge dry")
	p.do(day.LeaveOut{Tag: "A1"})
	says("done, its record is complete")
}
