package timetable_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
)

// class is a day with pieces of so many people, where nobody has said how many pairs of hands are at the vat.
func class(t *testing.T, people int) *yard {
	y := open(t, false)
	for i := range people {
		of := day.OfPiece{Tag: fmt.Sprintf("P%d", i+1)}
		y.put(day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{What: "scarf", Fibre: "cotton", Dry: quantity.Grams(90), Dips: 3, Work: "hung", Who: fmt.Sprint("person ", i+1)}},
			day.WettedOut{OfPiece: of})
	}
	y.plan()
	return y
}

// Where pieces are of several people the day and the board ask once how many pairs of hands there are, in every window; the answer plans anew.
func TestHandsAreAsked(t *testing.T) {
	y := class(t, 10)
	opened := func(size [2]int, view string) (screen.Screen, screen.Env) {
		e := y.env(size[0], size[1])
		scr := timetable.New(e)
		if view != "" {
			scr, _ = screentest.Press(scr, e, view)
		}
		return scr, e
	}
	each := func(check func(size [2]int, view string)) {
		for _, size := range screentest.Sizes {
			check(size, "")
			check(size, "right")
		}
	}
	told := day.Record{Body: day.HandsTold{Hands: 2}}
	each(func(size [2]int, view string) {
		scr, e := opened(size, view)
		text := screentest.Shown(t, scr, e)
		for _, want := range []string{day.HandsAsked, "Reckoned with 1.", "1 pair 2 pairs 3 pairs"} {
			if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
				t.Errorf("%v %s: %q is missing:\n%s", size, view, want, text)
			}
		}
		if _, asks := screentest.Press(scr, e, "2"); len(asks) != 1 || asks[0] != (screen.Do{Command: told}) {
			t.Errorf("%v %s: 2 asks for %+v", size, view, asks)
		}
	})
	before := y.tab.Plan.Finish()
	if !y.do(told) || y.do(told) {
		t.Error("two pairs are not taken, or taken twice")
	}
	if y.plan(); y.tab.Limits.Hands != 2 || y.tab.Plan.Finish() >= before {
		t.Errorf("two pairs: planned for %d, done %v after %v", y.tab.Limits.Hands, y.tab.Plan.Finish(), before)
	}
	e := y.env(120, 40)
	if scr, _ := screentest.Press(timetable.New(e), e, "3"); !strings.Contains(screentest.Shown(t, scr, e), "3 pairs of hands at the vat, not 2") {
		t.Errorf("one more person than two:\n%s", screentest.Shown(t, scr, e))
	}
	each(func(size [2]int, view string) {
		scr, e := opened(size, view)
		if text := screentest.Shown(t, scr, e); strings.Contains(text, day.HandsAsked) {
			t.Errorf("%v %s: asked again:\n%s", size, view, text)
		}
	})
}

// Nobody is asked where no piece has a name, nor who only looks on.
func TestHandsAreNotAsked(t *testing.T) {
	y := open(t, false).pieces(6, 0)
	if text := screentest.Shown(t, timetable.New(y.env(80, 24)), y.env(80, 24)); strings.Contains(text, "pairs of hands") {
		t.Errorf("nobody has a name:\n%s", text)
	}
	y = open(t, false)
	y.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: quantity.Grams(90), Dips: 3, Who: "Mo"}})
	if y.s.AsksHands() {
		t.Error("asked of one person's pieces")
	}
	y = class(t, 4)
	e := y.env(80, 24)
	e.Days.Days[0].Looking = true
	if text := screentest.Shown(t, timetable.New(e), e); strings.Contains(text, "pairs of hands") {
		t.Errorf("who looks on is asked:\n%s", text)
	}
	if _, asks := screentest.Press(timetable.New(e), e, "2"); len(asks) > 0 {
		t.Errorf("who looks on asks for %+v", asks)
	}
}

// With more than one pair of hands the day and the board have a row for each: what it lowers and lifts next, in the plan's order; no
// other row is lost by that in any window.
func TestARowAHelper(t *testing.T) {
	y := class(t, 16)
	y.put(day.HandsTold{Hands: 2})
	y.plan()
	first := map[int]string{}
	for _, r := range y.tab.Plan.Rows {
		if first[r.Hand] == "" {
			first[r.Hand] = fmt.Sprintf("Pair %d   %s in now", r.Hand, r.Tag)
			if at := y.tab.At(r.Lower); at.After(y.now) {
				first[r.Hand] = fmt.Sprintf("Pair %d   %s in %s", r.Hand, r.Tag, day.Clock(at))
			}
		}
	}
	if len(first) != 2 {
		t.Fatalf("the plan has the hands %v", first)
	}
	for _, size := range screentest.Sizes {
		e := y.env(size[0], size[1])
		for _, view := range []string{"1", "2"} {
			scr, _ := screentest.Press(timetable.New(e), e, view)
			text := screentest.Shown(t, scr, e)
			for _, want := range first {
				if !strings.Contains(text, want) {
					t.Errorf("%v, view %s: %q is missing:\n%s", size, view, want, text)
				}
			}
			seen := map[string]bool{}
			for range 20 {
				for _, l := range strings.Split(screentest.Shown(t, scr, e), "\n") {
					for _, f := range strings.Fields(l) {
						seen[f] = seen[f] || !strings.Contains(l, "Pair ")
					}
				}
				scr, _ = screentest.Press(scr, e, "down")
			}
			for i := range 16 {
				if tag := fmt.Sprint("P", i+1); !seen[tag] {
					t.Errorf("%v, view %s: %s is on no page", size, view, tag)
				}
			}
		}
	}
	y.put(day.HandsTold{Hands: 1})
	y.plan()
	if text := screentest.Shown(t, timetable.New(y.env(80, 24)), y.env(80, 24)); strings.Contains(text, "Pair 1") {
		t.Errorf("one pair has a row:\n%s", text)
	}
}
