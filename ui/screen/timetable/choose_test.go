package timetable_test

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
)

// A way that changes the pieces alone is taken with its key, pressed twice: shorter dips for every piece that has dips to come.
func TestAWayIsTakenAtTheSecondPress(t *testing.T) {
	y := open(t, false).pieces(6, 0)
	e := y.env(80, 24)
	scr, _ := screentest.Press(timetable.New(e), e, "3")
	if next := scr.View(e).Next; !strings.Contains(next, "4: dips three quarters as long") {
		t.Fatalf("it offers %q", next)
	}
	scr, first := screentest.Press(scr, e, "4")
	if say, ok := first[0].(screen.Say); len(first) != 1 || !ok || !strings.HasPrefix(say.Word, "4 once more: ") {
		t.Fatalf("the first press asks for %+v", first)
	}
	scr, second := screentest.Press(scr, e, "4")
	if len(second) != 6 {
		t.Fatalf("the second press asks for %+v", second)
	}
	for _, r := range second {
		b := r.(screen.Do).Command.(day.Record).Body.(day.PieceChanged)
		p, _ := y.s.Piece(b.Tag)
		if want := p.DipTime() * 3 / 4; (b.Dip-want).Seconds() > 30 || (want-b.Dip).Seconds() > 30 || b.PieceSpec.Dips != p.Want() {
			t.Errorf("%s: dips of %v, %d of them; they were %v and %d", b.Tag, b.Dip, b.PieceSpec.Dips, p.DipTime(), p.Want())
		}
		if _, err := day.Decide(y.s, day.Record{Body: b}, y.now); err != nil {
			t.Errorf("%s: %v", b.Tag, err)
		}
	}
	// Fewer dips are no way of a vat that is strong.
	if _, r := screentest.Press(scr, e, "f"); len(r) != 1 {
		t.Errorf("fewer dips: %+v", r)
	} else if _, says := r[0].(screen.Say); !says {
		t.Errorf("fewer dips: %+v", r)
	}
}
