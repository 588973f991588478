package timetable_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var ten = time.Date(2026, 3, 28, 10, 0, 0, 0, time.UTC)

// yard is a day with its clock and its timetable.
type yard struct {
	t   *testing.T
	s   day.State
	now time.Time
	tab *outlook.Table

	known string // what sight and blue are of
	sight *outlook.Outlook
	blue  *outlook.Blue
}

// open is a living soda vat, ready at ten; unready leaves its steps open.
func open(t *testing.T, unready bool) *yard {
	t.Helper()
	r, _ := recipes.Find("soda")
	h := rehearse.Head(r, ten)
	h.Opening = day.Opening{Number: 2, Built: true}
	y := &yard{t: t, now: ten}
	var err error
	if y.s, err = day.Begin(h); err != nil {
		t.Fatal(err)
	}
	y.put(day.Opened{How: "tend"})
	if !unready {
		y.put(day.CautionAnswered{OfStep: day.OfStep{Step: 1}}, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"},
			day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true})
	}
	warm := quantity.Celsius(37)
	y.put(day.Reading{Temp: &warm})
	return y
}

func (y *yard) put(bodies ...day.Body) {
	y.t.Helper()
	for _, b := range bodies {
		s, err := day.Apply(y.s, day.Event{Seq: len(y.s.Log) + 1, At: y.now, Body: b})
		if err != nil {
			y.t.Fatal(err)
		}
		y.s = s
	}
}

func (y *yard) do(c day.Command) bool {
	bodies, err := day.Decide(y.s, c, y.now)
	if err == nil {
		y.put(bodies...)
	}
	return err == nil
}

func (y *yard) plan() {
	y.reckon()
	var before load.Plan
	if y.tab != nil {
		before = y.tab.Plan
	}
	t := outlook.Timetable(y.s, *y.sight, *y.blue, before, y.now, 500_000)
	y.tab = &t
}

// pieces adds n pieces, each of one of so many persons; 0 is nobody's.
func (y *yard) pieces(n, persons int) *yard {
	names := []string{"Anna", "Ben", "Clara", "Dov", "Edith", "Femi", "Greta", "Hugo", "Ines", "Jan", "Kai", "Lotte"}
	for i := range n {
		spec := day.PieceSpec{What: []string{"runner", "napkins", "scarf", "cushion cover"}[i%4], Fibre: "cotton",
			Dry: quantity.Grams(float64(90 + 40*(i%4))), Dips: 2 + i%3, Dip: quantity.Minutes(float64(4 + i%3*2))}
		if persons > 0 {
			spec.Who = names[i%persons]
		}
		tag := fmt.Sprintf("%c%d", 'A'+i%6, 1+i/6)
		y.put(day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: spec}, day.WettedOut{OfPiece: day.OfPiece{Tag: tag}})
	}
	if persons > 0 && y.s.HandsTold == 0 {
		y.put(day.HandsTold{Hands: 1}) // else 1 to 3 are asked for that
	}
	y.plan()
	return y
}

// goes lets the dyer follow the timetable for so long.
func (y *yard) goes(minutes int) *yard {
	for end := y.now.Add(time.Duration(minutes) * time.Minute); y.now.Before(end); y.now = y.now.Add(30 * time.Second) {
		did := false
		for _, d := range day.Dues(y.s) {
			if d.Kind == day.DueLift && !d.At.After(y.now) {
				did = y.do(day.Lift{Tag: d.Tag}) || did
			}
		}
		for _, p := range y.s.Pieces {
			if r, ok := y.tab.Next(p.Tag); ok && !y.tab.At(r.Lower).After(y.now) && p.Live() && p.Phase != day.InVat {
				y.put(day.FrothSkimmed{})
				did = y.do(day.Lower{Tag: p.Tag}) || did
			}
		}
		if did {
			y.plan()
		}
	}
	return y
}

// reckon has the outlook reckoned where another is at hand.
func (y *yard) reckon() {
	if is := fmt.Sprint(len(y.s.Log), y.now.UnixNano()); y.known != is { // the same at every size
		o := outlook.Of(y.s, y.now)
		var last outlook.Blue
		if y.blue != nil {
			last = *y.blue
		}
		b := last.Again(y.s, o, y.now)
		y.known, y.sight, y.blue = is, &o, &b
	}
}

func (y *yard) env(w, h int) screen.Env {
	y.reckon()
	v := engine.View{ID: "bin/d", State: y.s, Now: y.now, Table: y.tab, Outlook: y.sight, Blue: y.blue}.At(y.now)
	return screen.Env{Now: y.now, Width: w, Height: h, Style: style.New(style.Options{}), ID: "bin/d", Days: engine.Snapshot{Days: []engine.View{v}}}
}

// At every size, in every view and with any number of pieces the act and the sentences are whole, nothing is cut, and
// scrolling to the end and back shows every piece.
func TestEverySizeIsWhole(t *testing.T) {
	for _, n := range []int{0, 1, 3, 12, 24} {
		y := open(t, false).pieces(n, 0)
		if n > 0 {
			y.goes(9)
		}
		fresh := timetable.New(y.env(80, 24)) // it keeps what it reckoned of other ways, which no window changes
		for _, size := range screentest.Sizes {
			for _, view := range []string{"1", "2", "3"} {
				e := y.env(size[0], size[1])
				scr, _ := screentest.Press(fresh, e, view)
				seen := map[string]bool{}
				for range 30 {
					sheet := scr.View(e)
					shown := screentest.ShownAs(t, sheet, e)
					for _, word := range strings.Fields(sheet.Act + " " + strings.Join(sheet.How, " ")) {
						if !strings.Contains(shown, word) {
							t.Fatalf("%d pieces, %v, view %s: %q is missing:\n%s", n, size, view, word, shown)
						}
					}
					if strings.Contains(shown, "…") || strings.Contains(shown, " more\n") {
						t.Fatalf("%d pieces, %v, view %s: cut:\n%s", n, size, view, shown)
					}
					for _, p := range y.tab.Pieces {
						if strings.Contains(strings.Join(sheet.Body, "\n"), p.Tag) {
							seen[p.Tag] = true
						}
					}
					if !strings.Contains(shown, "more below") {
						break
					}
					scr, _ = screentest.Press(scr, e, "down")
				}
				if view == "1" && n > 0 && len(seen) != len(y.tab.Pieces) {
					t.Errorf("%d pieces, %v: scrolling shows %d of %d lanes", n, size, len(seen), len(y.tab.Pieces))
				}
				last := screentest.Shown(t, scr, e)
				if strings.Contains(last, "more below") {
					t.Errorf("%d pieces, %v, view %s: the end is not reached:\n%s", n, size, view, last)
				}
				for range n + 6 { // the ways of the third view too
					scr, _ = screentest.Press(scr, e, "up")
				}
				if strings.Contains(screentest.Shown(t, scr, e), " above") {
					t.Errorf("%d pieces, %v, view %s: the top is not reached", n, size, view)
				}
			}
		}
	}
}

// The day says its last lift and its end as the plan has them, what is in the vat till when, and what comes next; with
// more pieces than rows what hangs in the vat is on top.
func TestTheDay(t *testing.T) {
	y := open(t, false).pieces(18, 0).goes(12)
	for range 20 {
		if len(y.s.InVat()) > 0 {
			break
		}
		y.goes(1)
	}
	in := y.s.InVat()
	if len(in) == 0 {
		t.Fatal("nothing hangs in the vat")
	}
	e := y.env(80, 24)
	sheet := timetable.New(e).View(e)
	want, done := "Last lift "+day.Clock(y.tab.At(y.tab.Plan.LastLift())), "All done "+day.Clock(y.tab.At(y.tab.Plan.Finish()))
	says := strings.Join(sheet.How, " ")
	if sheet.Act != want || !strings.HasPrefix(says, done) {
		t.Errorf("it says %q, %q, not %q, %q", sheet.Act, says, want, done)
	}
	if !strings.Contains(says, "In the vat: ") || !strings.Contains(says, " till ") || !strings.Contains(says, "Next ") {
		t.Errorf("it says %q", says)
	}
	first := ""
	for _, l := range sheet.Body {
		if strings.Contains(l, " of ") {
			first = l
			break
		}
	}
	if !strings.Contains(first, "▣") {
		t.Errorf("what hangs in the vat is not on top and marked: %q", first)
	}
	y.now = y.now.Add(40 * time.Minute)
	e = y.env(80, 24)
	if says := strings.Join(timetable.New(e).View(e).How, " "); !strings.Contains(says, "was to go in at") || !strings.Contains(says, "late.") || !strings.Contains(says, "out now") {
		t.Errorf("nothing was done for 40 min, and it says %q", says)
	}
}

// How good the plan is stands in the first sentence.
func TestHowGoodThePlanIs(t *testing.T) {
	y := open(t, false).pieces(3, 0)
	for gap, want := range map[quantity.Span]string{0: "no order is shorter", quantity.Minutes(6): "at most 6 min longer than the best"} {
		y.tab.Plan.Gap, y.tab.Plan.Proven = gap, gap == 0
		for _, size := range screentest.Sizes {
			e := y.env(size[0], size[1])
			if got := timetable.New(e).View(e); !strings.HasSuffix(got.How[0], "; "+want+".") {
				t.Errorf("%v: it says %q, not %q", size, got.How, want)
			}
		}
	}
}

// Without anything to plan the screen says why.
func TestEmptyStates(t *testing.T) {
	none := open(t, false).pieces(0, 0)
	fault := open(t, false).pieces(2, 0)
	fault.tab = &outlook.Table{Zero: ten, Pieces: fault.tab.Pieces, Fault: "piece A1 weighs more than the vat takes"}
	unready := open(t, true).pieces(3, 0)
	last := open(t, false).pieces(1, 0)
	for range 200 {
		if p := last.s.Pieces[0]; p.Dips >= p.Want() {
			break
		}
		last.goes(1)
	}
	finished := open(t, false).pieces(1, 0)
	finished.put(day.Finished{OfPiece: day.OfPiece{Tag: "A1"}})
	finished.plan()
	for name, c := range map[string]struct {
		y        *yard
		act, how string
	}{
		"none":     {none, "No pieces yet", "p adds one"},
		"fault":    {fault, "No timetable", "Piece A1 weighs more than the vat takes."},
		"unready":  {unready, "Last lift", "The vat is not ready: reckoned from 10:"},
		"last":     {last, "Nothing more to dip", "In its last airing: A1 till "},
		"finished": {finished, "All pieces are done", "Nothing is left to plan."},
	} {
		for _, size := range screentest.Sizes {
			for _, view := range []string{"1", "2", "3"} {
				e := c.y.env(size[0], size[1])
				scr, _ := screentest.Press(timetable.New(e), e, view)
				sheet := scr.View(e)
				if says := strings.Join(sheet.How, " "); !strings.Contains(says, c.how) || view == "1" && !strings.HasPrefix(sheet.Act, c.act) {
					t.Errorf("%s, view %s: it says %q and %q", name, view, sheet.Act, sheet.How)
				}
				screentest.Shown(t, scr, e)
			}
		}
	}
}

// While the vat rests the plan begins at its end; a wait that is longer than the work is not drawn.
func TestALongWaitIsNotDrawn(t *testing.T) {
	y := open(t, false)
	y.s.RestUntil = ten.Add(3 * time.Hour)
	y.pieces(2, 0)
	e := y.env(80, 24)
	sheet := timetable.New(e).View(e)
	body := strings.Join(sheet.Body, "\n")
	if says := strings.Join(sheet.How, " "); !strings.Contains(says, "The vat rests till 13:00.") || strings.Contains(body, "now") || !strings.Contains(body, "13:") {
		t.Errorf("it says %q over\n%s", says, body)
	}
}

// Before the engine has a timetable, or any blue, the screen reckons its own.
func TestWithoutTheEngine(t *testing.T) {
	y := open(t, false).pieces(3, 0)
	e := y.env(80, 24)
	v := e.Days.Days[0]
	v.Table, v.Blue, v.Outlook = nil, nil, nil
	e.Days.Days = []engine.View{v}
	if act := timetable.New(e).View(e).Act; !strings.HasPrefix(act, "Last lift 1") {
		t.Errorf("it says %q", act)
	}
}

// What the keys do.
func TestTheKeys(t *testing.T) {
	y := open(t, false).pieces(3, 0)
	e := y.env(80, 24)
	for _, k := range []string{"space", "enter", "esc"} {
		if _, r := screentest.Press(timetable.New(e), e, k); len(r) != 1 || r[0] != (screen.Leave{}) {
			t.Errorf("%s asks for %v", k, r)
		}
	}
	for _, c := range []struct{ keys, want string }{
		{"", "the day"}, {"right", "the board"}, {"right right", "what if"}, {"right right right", "the day"}, {"left", "what if"},
		{"1", "the day"}, {"2", "the board"}, {"3", "what if"}, {"3 1", "the day"}, {"9", "the day"},
	} {
		scr, r := screentest.Press(timetable.New(e), e, strings.Fields(c.keys)...)
		if got := scr.View(e).Head.Right; len(r) > 0 || !strings.Contains(got, c.want+" · ") {
			t.Errorf("%q shows %q and asks for %v", c.keys, got, r)
		}
		if screen.Capturing(scr) {
			t.Error("letters are text")
		}
	}
}
