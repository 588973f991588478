package outlook_test

import (
	"fmt"
	"math/rand"
	"reflect"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// alike draws a day of pieces of which many are asked the same; some have been dipped, some looked at.
func alike(t testing.TB, r *rand.Rand, pieces int) *vat {
	v := open(t, []string{"soda", "lye"}[r.Intn(2)], nil)
	v.reads(36)
	if r.Intn(2) == 0 {
		v.strips("L1", 2)
		v.put(day.SwatchJudged{Swatch: "L1", Dips: 1 + r.Intn(2), Looks: "lab 75 -6 -12"})
	}
	var spec day.PieceSpec
	for i := range pieces {
		if i%2 == 0 {
			spec = day.PieceSpec{Fibre: some(r, []string{"cotton", "silk"}), Dry: quantity.Grams(some(r, []float64{100, 300})), Dip: quantity.Minutes(some(r, []float64{5, 7})), Had: r.Intn(2)}
			switch r.Intn(4) {
			case 0:
				spec.Depth = some(r, []string{"mid", "dark"})
			case 1:
				spec.Rung = 1 + r.Intn(2)
			case 2:
				spec.Lab = [3]float64{some(r, []float64{50, 60}), -7, -24}
			}
		} else if i%4 == 3 { // the wish alone is another
			spec.Depth, spec.Rung, spec.Lab = some(r, []string{"pale", "mid"}), 0, [3]float64{}
		} else if i%4 == 1 && i > 1 { // the length of a dip alone is another
			spec.Dip++
		}
		v.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: fmt.Sprintf("A%d", i+1)}, PieceSpec: spec})
	}
	dipped := r.Intn(4)
	each := func(body func(of day.OfPiece) day.Body) {
		for i := range dipped {
			v.put(body(day.OfPiece{Tag: fmt.Sprintf("A%d", i+1)}))
		}
	}
	each(func(of day.OfPiece) day.Body { return day.WettedOut{OfPiece: of} })
	each(func(of day.OfPiece) day.Body { return day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(5)} })
	v.after(5)
	each(func(of day.OfPiece) day.Body { return day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(10)} })
	if dipped > 0 && r.Intn(2) == 0 {
		v.put(day.LookedAt{OfPiece: day.OfPiece{Tag: "A1"}, Looks: "lab 62 -7 -20", Rinsed: true})
	}
	return v
}

// Pieces that are asked the same are reckoned once, and each has the answer that it has by itself.
func TestPiecesAlikeHaveTheAnswerOfEach(t *testing.T) {
	for seed := range int64(8) {
		r := rand.New(rand.NewSource(seed))
		v := alike(t, r, 7)
		o := v.sight()
		b := outlook.Blues(v.s, o, v.now)
		for _, p := range v.s.Pieces {
			if p.Live() && !reflect.DeepEqual(b.Pieces[p.Tag], outlook.Weighed(v.s, o, v.now).Plan(p)) {
				t.Errorf("day %d: %s (%+v) has another forecast than by itself", seed, p.Tag, p.Spec)
			}
		}
	}
}

// What one piece of many alike does not change the answer of another: nothing in them is shared.
func TestPiecesAlikeShareNothing(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	for i := range 8 {
		v.wish(fmt.Sprintf("A%d", i+1), day.PieceSpec{Depth: "mid", Had: 1})
	}
	b := v.blues()
	one, other := b.Pieces["A1"], b.Pieces["A2"]
	one.Steps[0].Dips, one.Now.Dips, one.Wished.L = -1, -1, -1
	if other.Steps[0].Dips < 0 || other.Now.Dips < 0 || other.Wished.L < 0 || one.Wish == other.Wish {
		t.Error("two pieces share a forecast")
	}
	// Eight pieces alike cost hardly more than one.
	o := v.sight()
	all := testing.AllocsPerRun(1, func() { outlook.Blues(v.s, o, v.now) })
	of := outlook.Weighed(v.s, o, v.now)
	if each := testing.AllocsPerRun(1, func() { of.Plan(v.s.Pieces[0]) }); all-testing.AllocsPerRun(1, func() { outlook.Weighed(v.s, o, v.now) }) > 4*each {
		t.Errorf("eight pieces alike: %.0f allocations, one by itself %.0f", all, each)
	}
}

// Asked again after each event, the answers are those of one who never asked before.
func TestAskedAgainTheAnswersAreThoseOfTheFirstTime(t *testing.T) {
	var last outlook.Blue
	for seed := range int64(2) {
		v := alike(t, rand.New(rand.NewSource(seed+3)), 4)
		s, err := day.Begin(v.s.Head)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range v.s.Log {
			if s, err = day.Apply(s, e); err != nil {
				t.Fatal(err)
			}
			if len(s.Pieces) == 0 {
				continue
			}
			now := s.At
			if e.Seq%5 == 0 {
				now = now.Add(30 * time.Minute)
			}
			o := outlook.Of(s, now)
			last = last.Again(s, o, now)
			if !reflect.DeepEqual(last, outlook.Blues(s, o, now)) {
				t.Fatalf("day %d: after event %d at %v it is another answer", seed, e.Seq, now)
			}
		}
	}
}

// A piece more, and only that is reckoned.
func TestAskedAgainOnlyWhatIsNewIsReckoned(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(36)
	v.strips("L1", 2)
	v.put(day.SwatchJudged{Swatch: "L1", Dips: 2, Looks: "lab 68 -7 -17"})
	for i, depth := range []string{"pale", "mid", "dark"} {
		v.wish(fmt.Sprintf("A%d", i+1), day.PieceSpec{Depth: depth})
	}
	last := v.blues()
	v.wish("A4", day.PieceSpec{Rung: 2})
	o := v.sight()
	again := testing.AllocsPerRun(1, func() { last.Again(v.s, o, v.now) })
	anew := testing.AllocsPerRun(1, func() { outlook.Blues(v.s, o, v.now) })
	if each := testing.AllocsPerRun(1, func() { last.Plan(v.s.Pieces[1]) }); anew-again < 3*each {
		t.Errorf("a piece more after three: %.0f allocations, all anew %.0f, each by itself %.0f", again, anew, each)
	}
}

func BenchmarkBluesAlike(b *testing.B) {
	v := open(b, "soda", nil)
	v.reads(38)
	for i := range 24 {
		v.wish(fmt.Sprintf("A%d", i+1), day.PieceSpec{Depth: []string{"mid", "dark"}[i%2], Dip: quantity.Minutes(float64(5 + i%3))})
	}
	o := v.sight()
	for b.Loop() {
		outlook.Blues(v.s, o, v.now)
	}
}

// BenchmarkBluesAgain is a piece more in a day of eight.
func BenchmarkBluesAgain(b *testing.B) {
	v := open(b, "soda", nil)
	v.reads(38)
	v.strips("L1", 4)
	for no, lab := range map[int]string{1: "lab 77 -6 -11", 2: "lab 68 -7 -17", 3: "lab 62 -7 -21", 4: "lab 57 -7 -23"} {
		v.put(day.SwatchJudged{Swatch: "L1", Dips: no, Looks: lab})
	}
	for i := range 8 {
		v.wish(fmt.Sprintf("A%d", i+1), day.PieceSpec{Depth: "mid", Dip: quantity.Minutes(float64(4 + i))})
	}
	last := v.blues()
	v.wish("B1", day.PieceSpec{Depth: "dark"})
	o := v.sight()
	for b.Loop() {
		last.Again(v.s, o, v.now)
	}
}
