package timetable_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	_ "example.org/vatside/testdata/long" // collects garbage less often
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
)

// lines are the board's rows in plain letters, whole: one a turn.
func lines(y *yard, w, h int) []string {
	e := y.env(w, h)
	scr, _ := screentest.Press(timetable.New(e), e, "2")
	var out []string
	for _, l := range scr.View(e).Body {
		if l = ansi.Strip(l); strings.Contains(l, "done 1") || strings.Contains(l, "done 2") {
			out = append(out, l)
		}
	}
	return out
}

// The board stands in the order of the next turns: whose piece is in the vat first, and then as the plan lowers them.
func TestTheBoardsOrder(t *testing.T) {
	y := open(t, false).pieces(12, 12).goes(3)
	type next struct {
		tag string
		at  int64
	}
	var in, wait []next
	for _, p := range y.s.Pieces {
		if p.Phase == day.InVat {
			in = append(in, next{p.Tag, day.Dues(y.s)[0].At.Unix()})
		} else if r, ok := y.tab.Next(p.Tag); ok {
			wait = append(wait, next{p.Tag, int64(r.Lower)})
		}
	}
	slices.SortStableFunc(wait, func(a, b next) int { return int(a.at/1e9 - b.at/1e9) })
	want := append(in, wait...)
	got := lines(y, 200, 60)
	if len(in) != 1 || len(got) != len(want) {
		t.Fatalf("%d in the vat, %d rows for %d turns:\n%s", len(in), len(got), len(want), strings.Join(got, "\n"))
	}
	for i, w := range want {
		if !strings.Contains(got[i], w.tag) {
			t.Errorf("row %d is %q, not of %s", i, got[i], w.tag)
		}
	}
}

// A person with two pieces has one row, with the sooner turn, when that piece is done as in the lanes, when the other is, and when the
// person leaves.
func TestAPersonHasOneRow(t *testing.T) {
	y := open(t, false).pieces(12, 6)
	got := lines(y, 200, 60)
	if len(got) != 6 {
		t.Fatalf("%d rows:\n%s", len(got), strings.Join(got, "\n"))
	}
	a, _ := y.tab.Done("A1")
	b, _ := y.tab.Done("A2")
	if want := "done " + day.Clock(a) + ", A2 " + day.Clock(b); !strings.Contains(strings.Join(got, "\n"), want) {
		t.Errorf("nobody is %s:\n%s", want, strings.Join(got, "\n"))
	}
	p, _ := y.s.Piece("A1")
	p.Spec.Till = "12:30"
	y.put(day.PieceChanged{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: p.Spec})
	y.plan()
	v, _ := y.env(200, 60).Day()
	page := timetable.Page(v).Page("").String()
	for _, all := range []string{strings.Join(lines(y, 200, 60), "\n"), page} {
		if !strings.Contains(all, "leaves 12:30") {
			t.Errorf("who leaves is not told:\n%s", all)
		}
	}
}

// Who waits longest is told in words exactly once: in the row, or in a sentence where the row is on another page. One who
// has had a turn since does not wait longer than one who has had none.
func TestWhoWaitsLongest(t *testing.T) {
	for _, n := range []int{2, 5, 8, 13} { // wherever the row stands
		y := open(t, false).pieces(n, 0).goes(6)
		for _, size := range screentest.Sizes {
			e := y.env(size[0], size[1])
			scr, _ := screentest.Press(timetable.New(e), e, "2")
			if text := screentest.Shown(t, scr, e); strings.Count(text, "waits longest") > 1 {
				t.Errorf("%d pieces, %v: told twice:\n%s", n, size, text)
			}
		}
	}
	y := open(t, false).pieces(12, 12).goes(6)
	first := ""
	for _, p := range y.s.Pieces {
		if p.Phase == day.InVat || p.Dips > 0 {
			first = p.Spec.Who
		}
	}
	for _, size := range screentest.Sizes {
		e := y.env(size[0], size[1])
		scr, _ := screentest.Press(timetable.New(e), e, "2")
		for range 4 {
			text := screentest.Shown(t, scr, e)
			if strings.Contains(text, "…") || strings.Count(text, "waits longest") != 1 {
				t.Errorf("%v: told %d times:\n%s", size, strings.Count(text, "waits longest"), text)
			}
			for _, l := range strings.Split(text, "\n") {
				if strings.Contains(l, "waits longest") && (first == "" || strings.Contains(l, first)) {
					t.Errorf("%v: %s had a turn: %q", size, first, l)
				}
			}
			scr, _ = screentest.Press(scr, e, "down")
		}
	}
	alone := open(t, false).pieces(1, 0)
	if got := strings.Join(lines(alone, 80, 24), ""); strings.Contains(got, "waits") {
		t.Errorf("one alone waits for nobody: %q", got)
	}
}

// Who waits longest is still told when the row was scrolled past, since when the first of the person's pieces was ready, and
// the end is reached all the same.
func TestTheLongestWaitScrolledPast(t *testing.T) {
	y := open(t, false).pieces(1, 12)
	y.now = y.now.Add(5 * time.Minute)
	for i := range 14 {
		spec := y.s.Pieces[0].Spec
		if i > 0 {
			spec.Who = "P" + string(rune('a'+i))
		}
		tag := "X" + string(rune('a'+i))
		y.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: spec}, day.WettedOut{OfPiece: day.OfPiece{Tag: tag}})
	}
	y.plan()
	for _, size := range [][2]int{{60, 20}, {80, 24}} {
		e := y.env(size[0], size[1])
		scr, _ := screentest.Press(timetable.New(e), e, "2", "down", "down", "down", "down")
		text := screentest.Shown(t, scr, e)
		if !strings.Contains(text, "Anna waits longest, since 10:00.") || !strings.Contains(text, " above") || strings.Contains(text, "more below") {
			t.Errorf("%v:\n%s", size, text)
		}
	}
}

// The next turn is in letters to be read across a room at every size, with the time in them; a long name does not take that
// away from the others.
func TestTheNextTurnIsBig(t *testing.T) {
	y := open(t, false).pieces(12, 12).goes(3)
	for _, size := range screentest.Sizes {
		e := y.env(size[0], size[1])
		scr, _ := screentest.Press(timetable.New(e), e, "2")
		rows := 0
		for _, l := range scr.View(e).Body {
			if strings.ContainsAny(l, "█▀▄") {
				rows++
			}
		}
		if rows < 3 {
			t.Errorf("%v: no big letters:\n%s", size, screentest.Shown(t, scr, e))
		}
	}
	y = open(t, false).pieces(3, 0)
	spec := y.s.Pieces[0].Spec
	spec.Who = "Wilhelmina Featherstonehaugh-Smythe"
	y.put(day.PieceChanged{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: spec})
	y.plan()
	for _, size := range screentest.Sizes {
		e := y.env(size[0], size[1])
		scr, _ := screentest.Press(timetable.New(e), e, "2")
		screentest.Shown(t, scr, e)
	}
}

// A single piece has its tag beside the time, in letters as high.
func TestASingleTurnSaysWhich(t *testing.T) {
	y := open(t, false).pieces(1, 0).goes(1)
	for _, size := range screentest.Sizes {
		e := y.env(size[0], size[1])
		scr, _ := screentest.Press(timetable.New(e), e, "2")
		row := ansi.Cut(ansi.Strip(scr.View(e).Body[0]), 0, 16) // an o does not reach so high
		if !strings.ContainsAny(row, "█▀▄") {
			t.Errorf("%v: no tag stands in letters:\n%s", size, screentest.Shown(t, scr, e))
		}
	}
}

// The letters keep their size while a time runs down.
func TestTheLettersKeepTheirSize(t *testing.T) {
	y := open(t, false).pieces(3, 0)
	rows := map[[2]int]map[int]bool{}
	for range 12 {
		for _, size := range screentest.Sizes {
			e := y.env(size[0], size[1])
			scr, _ := screentest.Press(timetable.New(e), e, "2")
			if rows[size] == nil {
				rows[size] = map[int]bool{}
			}
			rows[size][len(scr.View(e).Body)] = true
		}
		y.now = y.now.Add(50 * time.Second)
	}
	for size, rows := range rows {
		if len(rows) != 1 {
			t.Errorf("%v: it has %v rows", size, rows)
		}
	}
}

func BenchmarkTheBoard(b *testing.B) {
	y := open(&testing.T{}, false).pieces(24, 0)
	e := y.env(120, 40)
	scr, _ := screentest.Press(timetable.New(e), e, "2")
	for b.Loop() {
		scr.View(e)
	}
}

func BenchmarkTheLanes(b *testing.B) {
	y := open(&testing.T{}, false).pieces(24, 0)
	e := y.env(120, 40)
	scr := timetable.New(e)
	for b.Loop() {
		scr.View(e)
	}
}

// Where the plan has the next dip later than the clock, which calls as soon as the airing is over, the timetable says when it is called.
func TestNextIsWhenTheClockCallsIt(t *testing.T) {
	y := open(t, false).pieces(1, 0)
	y.put(day.FrothSkimmed{}, day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 1, For: quantity.Minutes(4)})
	y.now = y.now.Add(4 * time.Minute)
	y.do(day.Lift{Tag: "A1"})
	y.plan()
	v, _ := y.env(100, 30).Day()
	c := v.Call()
	if c.Act.Kind != day.ActAir {
		t.Fatalf("the call is %q", c.Words)
	}
	tab := *y.tab
	tab.Plan.Rows = slices.Clone(tab.Plan.Rows)
	for i := range tab.Plan.Rows {
		tab.Plan.Rows[i].Lower += quantity.Minutes(40)
	}
	v.Table = &tab
	if got, want := timetable.Page(v).Page("").String(), "in "+day.Clock(c.Due.At); !strings.Contains(got, want) {
		t.Errorf("not %q:\n%s", want, got)
	}
}
