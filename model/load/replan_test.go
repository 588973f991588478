package load_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/loadtest"
)

// replan replans and checks.
func replan(t *testing.T, p load.Plan, now quantity.Span, standing []load.PieceState, pieces []load.Piece, l load.Limits) load.Plan {
	t.Helper()
	q, err := p.Replan(now, standing, pieces, l)
	if err != nil {
		t.Fatal(err)
	}
	for _, broken := range loadtest.CheckStanding(now, standing, pieces, l, q) {
		t.Error(broken)
	}
	return q
}

// moved counts the dips to come that have another time than before.
func moved(p, q load.Plan) int {
	n := 0
	for _, r := range q.Rows {
		if old := rowOf(p, r.Tag, r.Dip); !r.Past && old.Tag != "" && old.Lower != r.Lower {
			n++
		}
	}
	return n
}

// A day that went as planned is replanned at each of its moments: nothing changes.
func TestReplanOfNothingMovesNothing(t *testing.T) {
	for name, l := range crowdedDays() {
		l.Effort = 50_000
		pieces := crowded()
		p, err := load.Make(pieces, l)
		if err != nil {
			t.Fatal(err)
		}
		l.Indigo = load.Indigo{}
		l.Worth = quantity.Hours(10)
		for _, at := range []int{0, 10, 60, 120} {
			now := p.Rows[at].In
			q := replan(t, p, now, stand(p, pieces, now), pieces, l)
			if n := moved(p, q); n > 0 && !l.Together {
				t.Errorf("%s at %v: %d dips move", name, now, n)
			}
			if len(q.Rows) != len(p.Rows) {
				t.Errorf("%s: %d rows, %d before", name, len(q.Rows), len(p.Rows))
			}
		}
	}
}

// One piece needs another dip: only that dip is new.
func TestReplanOneMoreDip(t *testing.T) {
	pieces := []load.Piece{dips("A", 3), dips("B", 3), dips("C", 2)}
	l := load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Worth: minutes(5)}
	p := plan(t, pieces, l)
	now := minutes(45)
	pieces = append([]load.Piece(nil), pieces...)
	pieces[2].Dips = 3
	q := replan(t, p, now, stand(p, pieces, now), pieces, l)
	if n := moved(p, q); n != 0 || rowOf(q, "C", 3).Lower < minutes(45) {
		t.Errorf("%d dips move: %+v", n, q.Rows)
	}
}

// A piece that is late steps out of the queue and comes back in. The vat takes one piece at a time:
//
//	planned   A 0  B 10  C 20  A 30  B 40  C 50  A 60  B 70          the last lift at 80
//	C is late, till 60:
//	slid      A 0  B 10        A 30  B 40  C 60  A 70  B 80  C 90    the last lift at 100
//	put off   A 0  B 10        A 30  B 40  A 60  B 70  C 80  C 110   the last lift at 120
//
// What is dipped while C is away keeps its times. Slid, C moves by 40 and 40 min and A and B by one dip, 10 min each: 100 min
// in all, and C jumps back behind two dips; put off, C alone moves, by 60 and 60 min, behind four: dearer, and later too.
func TestReplanLatePiece(t *testing.T) {
	pieces := []load.Piece{dips("A", 3), dips("B", 3), dips("C", 2)}
	l := load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Worth: quantity.Hours(1)}
	p := plan(t, pieces, l)
	if got := course(p); got != "A 0, B 10, C 20, A 30, B 40, C 50, A 60, B 70" {
		t.Fatal("the day is planned as", got)
	}
	now := minutes(5)
	pieces[2].From = minutes(60)
	q := replan(t, p, now, stand(p, pieces, now), pieces, l)
	if got := course(q); got != "A 0, B 10, A 30, B 40, C 60, A 70, B 80, C 90" {
		t.Error("it slides to", got)
	}
}

// Where the late piece has room when it is back, nobody else moves by a minute.
func TestReplanLatePieceIntoAGap(t *testing.T) {
	pieces := []load.Piece{dips("A", 3), dips("B", 3), dips("C", 1)}
	l := load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Worth: quantity.Hours(1)}
	p := plan(t, pieces, l)
	if got := course(p); got != "A 0, B 10, C 20, A 30, B 40, A 60, B 70" {
		t.Fatal("the day is planned as", got)
	}
	now := minutes(5)
	pieces[2].From = minutes(45)
	q := replan(t, p, now, stand(p, pieces, now), pieces, l)
	if got := course(q); got != "A 0, B 10, A 30, B 40, C 50, A 60, B 70" {
		t.Error("it slides to", got)
	}
}

// course is a plan in the order of its lowerings, each with its minute.
func course(p load.Plan) string {
	var out []string
	for _, r := range p.Rows {
		out = append(out, fmt.Sprint(r.Tag, " ", r.Lower.Minutes()))
	}
	return strings.Join(out, ", ")
}

// One piece dropped, one added: what stays keeps its times, the new one goes between.
func TestReplanDroppedAndAdded(t *testing.T) {
	pieces := []load.Piece{dips("A", 3), dips("B", 3), dips("C", 2)}
	l := load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Worth: quantity.Hours(1)}
	p := plan(t, pieces, l)
	now := minutes(35)
	left := []load.Piece{pieces[0], pieces[2], dips("N", 2)}
	q := replan(t, p, now, stand(p, left, now), left, l)
	if moved(p, q) != 0 || rowOf(q, "N", 2).Lifted == 0 || q.Makespan > minutes(110) {
		t.Errorf("%+v", q.Rows)
	}
}

// A piece that hangs too long is lifted at once; what is in stays where it is.
func TestReplanOverdue(t *testing.T) {
	a := dips("A", 2)
	a.Work = load.Hung
	l := load.Limits{Capacity: 200, Hands: 1, Handling: map[string]quantity.Span{load.Cloth: minutes(1)}}
	p := plan(t, []load.Piece{a, dips("B", 1)}, l)
	now := minutes(40)
	standing := []load.PieceState{{Tag: "A", Where: load.InVat, Since: minutes(1)}}
	q := replan(t, p, now, standing, []load.Piece{a, dips("B", 1)}, l)
	if r := rowOf(q, "A", 1); !r.Past || r.In != minutes(1) || r.Out != now || r.Lifted != minutes(41) {
		t.Errorf("%+v", r)
	}
	if r := rowOf(q, "A", 2); r.Lower < minutes(61) {
		t.Errorf("it does not air: %+v", r)
	}
	if _, err := p.Replan(now, []load.PieceState{{Tag: "A", Where: load.InVat, Since: minutes(50)}}, []load.Piece{a}, l); err == nil {
		t.Error("a piece went in long after now")
	}
}

// The vat's rest is not forgotten over a replan.
func TestReplanRemembersTheRest(t *testing.T) {
	l := load.Limits{Capacity: 100, Handling: map[string]quantity.Span{}, Rest: load.Pause{After: minutes(60), For: minutes(45)}}
	pieces := []load.Piece{dips("A", 3), dips("B", 3), dips("C", 2)}
	p := plan(t, pieces, l)
	now := minutes(50)
	q := replan(t, p, now, stand(p, pieces, now), pieces, l)
	if moved(p, q) != 0 || q.Makespan != p.Makespan || len(q.Stands) != 1 {
		t.Errorf("%+v %+v", q.Rows, q.Stands)
	}
}
