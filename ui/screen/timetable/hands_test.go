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
	for _, size := range screentest.Sizes {
		for _, view := range []string{"", "right"} {
			y := class(t, 10)
			before := y.tab.Plan.Finish()
			e := y.env(size[0], size[1])
			scr := timetable.New(e)
			if view != "" {
				scr, _ = screentest.Press(scr, e, view)
			}
			text := screentest.Shown(t, scr, e)
			for _, want := range []string{day.HandsAsked, "Reckoned with 1.", "1 pair   2 pairs   3 pairs"} {
				if !strings.Contains(strings.Join(strings.Fields(text), " "), strings.Join(strings.Fields(want), " ")) {
					t.Errorf("%v %s: %q is missing:\n%s", size, view, want, text)
				}
			}
			_, asks := screentest.Press(scr, e, "2")
			do, ok := asks[0].(screen.Do)
			if !ok || do.Command != (day.Record{Body: day.HandsTold{Hands: 2}}) || !y.do(do.Command) || y.do(do.Command) {
				t.Fatalf("%v %s: 2 asks for %+v", size, view, asks)
			}
			y.plan()
			if y.tab.Limits.Hands != 2 || y.tab.Plan.Finish() >= before {
				t.Errorf("two pairs: planned for %d, done %v after %v", y.tab.Limits.Hands, y.tab.Plan.Finish(), before)
			}
			if text := screentest.Shown(t, scr, y.env(size[0], size[1])); strings.Contains(text, day.HandsAsked) {
				t.Errorf("%v %s: asked again:\n%s", size, view, text)
			}
		}
	}
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
