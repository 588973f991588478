package clock_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/testdata/longday"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

// known is what the engine shows of a day: with its blues, and with a ladder of so many judged rungs.
func known(e screen.Env, rungs int) screen.Env {
	v := e.Days.Days[0]
	head := v.State.Head
	for i := range rungs {
		head.Opening.Swatches = append(head.Opening.Swatches, day.CarriedSwatch{At: noon.AddDate(0, 0, -1), Tag: "L9", Fibre: "linen", Ladder: true, Dips: i + 1,
			Dip: quantity.Minutes(8), Sure: true, Temp: 36, PH: 10.8, PerLitre: quantity.GramsPerLitre(0.9), Looks: fmt.Sprintf("lab %d -5 -%d", 72-7*i, 13+2*i)})
	}
	v.State.Head = head
	o := outlook.Of(v.State, v.Now)
	b := outlook.Blues(v.State, o, v.Now)
	v.Outlook, v.Blue = &o, &b
	e.Days = engine.Snapshot{Days: []engine.View{v}}
	return e
}

// through takes a piece through its first dips, the last one out at the end.
func through(tag string, dips int) []any {
	out := []any{day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}}}
	for range dips {
		out = append(out, day.Record{Body: day.FrothSkimmed{}}, day.Lower{Tag: tag}, 8*time.Minute, day.Lift{Tag: tag}, 9*time.Minute)
	}
	return out
}

// One figure tells the rung that a piece looks like: only where there is a ladder, that rung is in it, and the piece has
// aired. After it the words of whether to stop stand where the question was.
func TestAFigureTellsTheRung(t *testing.T) {
	st := style.New(style.Options{})
	spec := day.AddPiece{Tag: "A1", Spec: day.PieceSpec{What: "runner", Fibre: "linen", Dry: quantity.Grams(420), Depth: "mid", Dips: 5, Dip: quantity.Minutes(8)}}
	s, now := vat(t, append([]any{spec}, through("A1", 2)...)...)
	look := screen.Do{Command: day.Record{Body: day.LookedAt{OfPiece: day.OfPiece{Tag: "A1"}, Looks: "rung 2", Wet: true}}}
	for _, c := range []struct {
		rungs int
		after time.Duration
		key   string
		want  []screen.Request
	}{
		{4, 2 * time.Minute, "2", []screen.Request{look}},
		{0, 2 * time.Minute, "2", nil}, // no ladder
		{4, 0, "2", nil},               // still airing
		{4, 2 * time.Minute, "7", []screen.Request{screen.Say{Word: "the ladder has no rung 7: 1–4"}}},
	} {
		for _, size := range screentest.Sizes {
			e := known(env(s, now.Add(c.after), size[0], size[1], st), c.rungs)
			scr, _ := screentest.Press(clock.New(e), e, "down")
			_, got := screentest.Press(scr, e, c.key)
			if !reflect.DeepEqual(got, c.want) {
				t.Errorf("%d rungs, %v after: %s wants %+v", c.rungs, c.after, c.key, got)
			}
			asks := strings.Contains(strings.Join(strings.Fields(screentest.Shown(t, scr, e)), " "), "Beside a wetted rung: which is it like? 1–4")
			if asks != (c.rungs > 0 && c.after > 0) {
				t.Errorf("%v, %d rungs, %v after: asked %v", size, c.rungs, c.after, asks)
			}
		}
	}
	now = now.Add(2 * time.Minute)
	e := known(env(s, now, 80, 24, st), 4)
	before, _ := screentest.Press(clock.New(e), e, "down")
	s, err := day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: look.Command.(day.Record).Body})
	if err != nil {
		t.Fatal(err)
	}
	e2 := known(env(s, now, 80, 24, st), 4)
	v, _ := e2.Day()
	p, _ := v.State.Piece("A1")
	stop, ok := v.Blue.Stop(p)
	first, _, _ := strings.Cut(stop.Words, ";")
	text := strings.Join(strings.Fields(screentest.Shown(t, before, e2)), " ")
	if !ok || !strings.Contains(text, first[1:]) || strings.Contains(text, "which is it like") {
		t.Errorf("after the look %q is not said:\n%s", stop.Words, text)
	}
}

// The cloths on the line have the forecast's blues, darker dip by dip, and under the line stands how sure they are.
func TestTheLineShowsTheForecast(t *testing.T) {
	s, now := vat(t, append([]any{piece("A1", "runner", 5)}, through("A1", 2)...)...)
	for _, size := range screentest.Sizes {
		e := known(env(s, now, size[0], size[1], style.New(style.Options{})), 0)
		stage := clock.New(e).View(e).Stage
		v, _ := e.Day()
		c := v.Blue.Pieces["A1"]
		if want := screen.After(c, 2); stage.Cloths[0].Blue != want || stage.Rest != "blues a guess" {
			t.Errorf("%v: the cloth is %+v, not %+v; %q", size, stage.Cloths[0].Blue, want, stage.Rest)
		}
		last := 2.0
		for n := range 6 {
			l, _, _ := screen.After(c, n).Colour.Lab()
			if l >= last {
				t.Errorf("dip %d is no darker than the one before", n)
			}
			last = l
		}
	}
	e := env(s, now, 80, 24, style.New(style.Options{}))
	if rest := clock.New(e).View(e).Stage.Rest; rest != "blues as usual" {
		t.Errorf("nothing is known, and the usual is not told as such: %q", rest)
	}
}

// A ladder goes through the clock like any piece, and its airing says which rung is cut off.
func TestALadderIsCut(t *testing.T) {
	st := style.New(style.Options{})
	l1 := day.AddPiece{Tag: "L1", Spec: day.PieceSpec{What: "ladder", Fibre: "cotton", Dry: 10, Dips: 8, Dip: quantity.Minutes(8), Form: outlook.Ladder}}
	s, now := vat(t, append([]any{l1}, through("L1", 3)...)...)
	for _, size := range screentest.Sizes {
		e := known(env(s, now, size[0], size[1], st), 0)
		if text := screentest.Shown(t, clock.New(e), e); !strings.Contains(strings.Join(strings.Fields(text), " "), "Cut one strip off: rung 3") {
			t.Errorf("%v: no rung is cut:\n%s", size, text)
		}
	}
	e := known(env(s, now, 80, 24, st), 0)
	for k, want := range map[string]screen.Request{
		"B": screen.Go{To: screen.AtPlan, Day: e.ID, Tag: "L1"}, "L": screen.Go{To: screen.AtLadder, Day: e.ID},
	} {
		if _, r := screentest.Press(clock.New(e), e, k); len(r) != 1 || r[0] != want {
			t.Errorf("%s wants %+v", k, r)
		}
	}
}

// A whole day of soda, as a dyer plays it: every state of its clock is whole in every window, with its blues, and call, figure and liquor
// keep their rows.
func TestAWholeDayOfBlues(t *testing.T) {
	r, _ := recipes.Find("soda")
	now := noon.Add(-3 * time.Hour)
	s, err := day.Begin(rehearse.Head(r, now))
	if err != nil {
		t.Fatal(err)
	}
	st := style.New(style.Options{Profile: style.TrueColour})
	s, _ = day.Apply(s, day.Event{Seq: 1, At: now, Body: day.Opened{How: "build"}})
	shown, scr, stands := 0, screen.Screen(nil), map[[2]int][3]int{}
	for range 3000 {
		if _, building := s.Open(); !building && (len(s.Log)%long.Of(4, 6) == 0 || s.Closed) {
			for _, size := range screentest.Sizes {
				e := known(env(s, now, size[0], size[1], st), 3)
				if scr == nil {
					scr = clock.New(e)
				}
				text, sheet := screentest.Shown(t, scr, e), scr.View(e)
				if len(sheet.Foot) > 0 && !strings.Contains(text, sheet.Foot[0]) { // a look has the cloths alone
					t.Fatalf("%v at event %d: the foot is cut:\n%s", size, len(s.Log), text)
				}
				if sheet.Stage == nil || sheet.Caution != nil {
					continue
				}
				call, figure, liquor, _ := widget.Lay(sheet, size[0], size[1], st).Rows()
				if at := [3]int{call, figure, liquor}; figure >= 0 && stands[size] == [3]int{} {
					stands[size] = at
				} else if want := stands[size]; figure >= 0 && at != want || figure < 0 && want != [3]int{} && call != want[0] {
					t.Fatalf("%v at event %d: call, figure and liquor stand on the rows %v, not %v:\n%s", size, len(s.Log), at, want, text)
				}
			}
			shown++
		}
		if s.Closed {
			break
		}
		after, c, ok := rehearse.Dyer(s, now)
		now = now.Add(max(after, time.Second))
		if !ok {
			if assumed, yes := day.Assume(s, now.Add(31*time.Second), time.Time{}, nil); yes {
				now, c, ok = now.Add(31*time.Second), assumed, true
			} else if due, runs := longday.NextDue(s, now); runs {
				now = due.At
			}
		}
		if !ok {
			continue
		}
		bodies, err := day.Decide(s, c, now)
		if err != nil {
			continue
		}
		for _, b := range bodies {
			s, _ = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b})
		}
	}
	if !s.Closed || shown < 10 {
		t.Errorf("%d states were shown, closed %v", shown, s.Closed)
	}
}

func BenchmarkViewAfterALook(b *testing.B) {
	s, now := vat(b, append([]any{piece("A1", "runner", 5)}, through("A1", 4)...)...)
	now = now.Add(2 * time.Minute)
	s, _ = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: day.LookedAt{OfPiece: day.OfPiece{Tag: "A1"}, Looks: "rung 2", Wet: true}})
	e := known(env(s, now, 120, 40, style.New(style.Options{Profile: style.TrueColour})), 4)
	scr := clock.New(e)
	for b.Loop() {
		scr.View(e)
	}
}
