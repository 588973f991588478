package ui

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/command"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screen/ladder"
	"example.org/vatside/ui/screen/piece"
	"example.org/vatside/ui/screen/plan"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// The same question has one answer: the planner, the list where a piece is added, the clock, the look that decides, the timetable and its
// board, the command and the model itself say the same range of dips, in the same words, and the timetable plans within it.
func TestOneRangeForOneQuestion(t *testing.T) {
	nine := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	head := rehearse.Head(soda, nine)
	warm := quantity.Celsius(36)
	vat := shade.Of(liquor.State{Recipe: soda, Fill: head.Setup.Fill, Temp: &warm})
	head.Opening = day.Opening{Number: 2, Built: true}
	for i, l := range []string{"lab 72 -5 -13", "lab 62 -5 -18", "lab 50 -4.5 -21"} {
		head.Opening.Swatches = append(head.Opening.Swatches, day.CarriedSwatch{At: nine.AddDate(0, 0, -1), Tag: "L1", Fibre: "cotton", Ladder: true, Dips: 1 << i,
			Dip: quantity.Minutes(5), Sure: true, Temp: 36, PH: float64(vat.PH), PerLitre: quantity.GramsPerLitre(0.9), Looks: l})
	}
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	now := nine
	happen := func(bodies ...day.Body) {
		for _, b := range bodies {
			if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
				t.Fatal(err)
			}
		}
	}
	happen(day.Opened{How: "tend"}, day.CautionAnswered{OfStep: day.OfStep{Step: 1}}, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}, day.Reading{Temp: &warm})
	view := func() engine.View {
		v := engine.View{ID: "garden-bin/d", State: s, Now: now}
		o := outlook.Of(s, now)
		b := outlook.Blues(s, o, now)
		tab := outlook.TimetableNow(s, now)
		v.Outlook, v.Blue, v.Table = &o, &b, &tab
		return v
	}
	env := func(v engine.View, tag string) screen.Env {
		return screen.Env{Now: now, Width: 160, Height: 50, Style: style.New(style.Options{}), ID: v.ID, Tag: tag, Days: engine.Snapshot{Days: []engine.View{v}}}
	}
	shows := func(what string, v engine.View, scr screen.Screen, tag, want string) {
		t.Helper()
		if text := strings.Join(strings.Fields(screentest.Shown(t, scr, env(v, tag))), " "); !strings.Contains(text, want) {
			t.Errorf("%s: %q is missing in %s", what, want, text)
		}
	}

	// a piece that is only thought of, in the list, and the same piece once it is added
	v := view()
	thought := v.Blue.Plan(day.Piece{Tag: "A1", Spec: day.PieceSpec{Fibre: "cotton", Dry: 250, Depth: "mid"}}).Answer
	list, _ := screentest.Press(piece.New(env(v, "")), env(v, ""), "enter", "enter", "1", "2", "5", "0", "enter")
	shows("the list", v, list, "", thought.Short())
	happen(day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 250, Depth: "mid", Dips: thought.Likely}})
	v = view()
	answer := v.Blue.Pieces["A1"].Answer
	if answer != thought {
		t.Errorf("thought of %+v, added %+v", thought, answer)
	}
	if words := answer.Words(); !strings.Contains(words, "eight times in ten") || answer.Low >= answer.High {
		t.Errorf("%+v: %q", answer, words)
	}
	shows("the planner", v, plan.New(env(v, "A1")), "A1", answer.Words())
	shows("the timetable", v, timetable.New(env(v, "")), "", answer.Words())
	board, _ := screentest.Press(timetable.New(env(v, "")), env(v, ""), "2")
	shows("the board", v, board, "", answer.Words())
	args := []string{"dips", "--recipe", "soda", "--fill", vat.Fill.String(), "--piece", "250 g cotton", "--depth", "mid", "--dip", s.Pieces[0].MeanDip().String(),
		"--temp", fmt.Sprint(vat.Temp.Celsius(), "C"), "--ph", fmt.Sprint(float64(vat.PH))}
	for _, c := range head.Opening.Swatches {
		args = append(args, "--swatch", fmt.Sprintf("%dx5min cotton, 1 days ago, rung %[1]d = %s", c.Dips, c.Looks))
	}
	var out, errs bytes.Buffer
	said := fmt.Sprintf(`"chance": %.4g, "chance_within_one": %.4g, "words": "%s"`, answer.Chance, answer.Near, answer.Words())
	if code := command.Main(append(args, "--json"), command.World{Out: &out, Err: &errs}); code != 0 || !strings.Contains(strings.Join(strings.Fields(out.String()), " "), said) {
		t.Errorf("the command (%d): %q is missing in %s%s", code, said, &out, &errs)
	}
	rows := 0
	for _, r := range v.Table.Plan.Rows {
		if r.Tag == "A1" {
			rows++
		}
	}
	if rows < answer.Low || rows > answer.High {
		t.Errorf("the timetable has %d dips, the answer is %s", rows, answer.Words())
	}

	// the look that decides, two dips before the last
	of := day.OfPiece{Tag: "A1"}
	happen(day.WettedOut{OfPiece: of})
	for n := 1; n <= thought.Likely-2; n++ {
		happen(day.DipBegun{OfPiece: of, Dip: n, For: quantity.Minutes(5)})
		if n == 1 {
			v = view()
			shows("the clock", v, clock.New(env(v, "")), "", "Dips for mid: "+v.Blue.Pieces["A1"].Answer.Words())
			shows("the timetable of a dip", v, timetable.New(env(v, "")), "", v.Blue.Pieces["A1"].Answer.Words())
		}
		now = now.Add(5 * time.Minute)
		happen(day.DipEnded{OfPiece: of, Dip: n, Air: quantity.Minutes(10)})
		now = now.Add(10 * time.Minute)
	}
	v = view()
	answer = v.Blue.Pieces["A1"].Answer
	shows("the planner at the look", v, plan.New(env(v, "A1")), "A1", answer.Words())
	if _, decides := v.Look(); !decides {
		t.Fatal("no look decides")
	}
	shows("the look", v, clock.New(env(v, "")), "", answer.Words())
	wish, _ := shade.WishDepth("mid")
	if c := v.Blue.Pieces["A1"]; *c.Wish != wish || len(v.Blue.Seen().Words()) == 0 {
		t.Errorf("%+v", c.Wish)
	}
}

// The strip that would help most with a wish is told by the planner, begun on the ladder's screen, and one piece of the timetable more.
func TestTheStripIsAPieceOfTheTimetable(t *testing.T) {
	nine := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	head := rehearse.Head(soda, nine)
	head.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	warm := quantity.Celsius(36)
	happen := func(bodies ...day.Body) screen.Env {
		for _, b := range bodies {
			if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: nine, Body: b}); err != nil {
				t.Fatal(err)
			}
		}
		v := engine.View{ID: "garden-bin/d", State: s, Now: nine}
		o := outlook.Of(s, nine)
		b := outlook.Blues(s, o, nine)
		tab := outlook.TimetableNow(s, nine)
		v.Outlook, v.Blue, v.Table = &o, &b, &tab
		return screen.Env{Now: nine, Width: 120, Height: 40, Style: style.New(style.Options{}), ID: v.ID, Days: engine.Snapshot{Days: []engine.View{v}}}
	}
	env := happen(day.Opened{How: "tend"}, day.CautionAnswered{OfStep: day.OfStep{Step: 1}}, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}, day.Reading{Temp: &warm},
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 250, Depth: "dark"}})
	v, _ := env.Day()
	lesson, helps := v.Blue.Lesson(s, nine)
	if text := strings.Join(strings.Fields(screentest.Shown(t, plan.New(env), env)), " "); !helps || !strings.Contains(text, wording.Upper(lesson.Words())+" (L: swatches, ladder)") {
		t.Fatalf("%+v %v: the planner does not say it", lesson, helps)
	}
	_, wants := screentest.Press(ladder.New(env), env, "enter", "enter")
	do, ok := wants[0].(screen.Do)
	if !ok {
		t.Fatalf("%+v", wants)
	}
	events, err := day.Decide(s, do.Command, nine)
	if err != nil {
		t.Fatal(err)
	}
	env = happen(events...)
	v, _ = env.Day()
	var strip, piece int
	for _, r := range v.Table.Plan.Rows {
		switch r.Tag {
		case lesson.Strip.Tag:
			strip++
		case "A1":
			piece++
		}
	}
	if strip != lesson.Dips || piece == 0 || !strings.Contains(screentest.Shown(t, timetable.New(env), env), "0 of "+fmt.Sprint(lesson.Dips)) {
		t.Errorf("the timetable has %d dips of the strip, not %d, and %d of A1", strip, lesson.Dips, piece)
	}
	if v.Blue.Pieces[lesson.Strip.Tag].Wish != nil {
		t.Error("a strip has a wish")
	}
}
