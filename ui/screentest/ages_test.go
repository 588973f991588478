package screentest_test

// Every screen of a day with one figure that cannot be: it is drawn, in time and with little memory.

import (
	"fmt"
	"math"
	"os"
	"slices"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/bounds"
	"example.org/vatside/testdata/long"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/aid"
	"example.org/vatside/ui/screen/bench"
	"example.org/vatside/ui/screen/care"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screen/course"
	"example.org/vatside/ui/screen/dose"
	"example.org/vatside/ui/screen/follow"
	"example.org/vatside/ui/screen/home"
	"example.org/vatside/ui/screen/ladder"
	"example.org/vatside/ui/screen/logbook"
	"example.org/vatside/ui/screen/piece"
	"example.org/vatside/ui/screen/plan"
	"example.org/vatside/ui/screen/prepare"
	"example.org/vatside/ui/screen/signs"
	"example.org/vatside/ui/screen/timetable"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

var everyScreen = map[string]func(screen.Env) screen.Screen{
	"aid": aid.New, "bench": bench.New, "care": care.New, "clock": clock.New, "course": course.New, "dose": dose.New, "follow": follow.New, "home": home.New,
	"ladder": ladder.New, "logbook": logbook.New, "piece": piece.New, "plan": plan.New, "prepare": prepare.New, "signs": signs.New, "timetable": timetable.New,
}

// drawAll draws every screen of a day at an instant.
func drawAll(t *testing.T, what string, s day.State, now time.Time) {
	t.Helper()
	v := engine.View{ID: "bin/day", State: s, Now: now, Saved: s.Seq, Pace: 1}.At(now)
	bounds.Ends(t, what+", what the engine reckons", func() {
		o := outlook.Of(s, now)
		b := outlook.Blues(s, o, now)
		x := outlook.Timetable(s, o, b, load.Plan{}, now, 2000)
		v.Outlook, v.Blue, v.Table = &o, &b, &x
	})
	size := [][2]int{{80, 24}, {200, 60}}[len(s.Log)%2]
	env := screen.Env{Now: now, Width: size[0], Height: size[1], Style: style.New(style.Options{}), ID: v.ID, Tag: "X1",
		Days: engine.Snapshot{Wall: now, Days: []engine.View{v}}, History: history.Vat{{Name: s.Head.Day, State: s}}}
	for name, open := range everyScreen {
		bounds.Ends(t, what+", screen "+name, func() {
			x := open(env)
			widget.Render(x.View(env), env.Width, env.Height, env.Style)
			x.Keys(env)
		})
	}
}

// playedBin is a played day up to its closing.
func playedBin(t *testing.T) book.Book {
	t.Helper()
	text, err := os.ReadFile("../../testdata/days/soda-bin.toml")
	if err != nil {
		t.Fatal(err)
	}
	b := book.Read("soda-bin", text)
	b.Events = b.Events[:len(b.Events)-1]
	return b
}

func TestScreensOfAnotherAge(t *testing.T) {
	b := playedBin(t)
	for n, year := range []int{1, 1926, 2126, 3026, 9998} {
		for _, i := range []int{20 * n, len(b.Events) - 1 - n} {
			events := slices.Clone(b.Events)
			events[i].At = events[i].At.AddDate(year-events[i].At.Year(), 0, 0)
			s, _ := day.Replay(b.Head, events)
			drawAll(t, fmt.Sprintf("event %d in the year %d", i+1, year), s, s.At)
		}
	}
}

func TestScreensOfFiguresOutOfAllMeasure(t *testing.T) {
	b := playedBin(t)
	const many = 2_000_000_000
	spec := day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Had: 2, Form: "cloth", Depth: "mid"}
	for name, change := range map[string]func(*day.PieceSpec){
		"dips":   func(p *day.PieceSpec) { p.Dips = many },
		"most":   func(p *day.PieceSpec) { p.Dips, p.Had = math.MaxInt, math.MaxInt },
		"had":    func(p *day.PieceSpec) { p.Had, p.HadOf = many, quantity.Minutes(8) },
		"less":   func(p *day.PieceSpec) { p.Had, p.Dips = -many, -many },
		"ladder": func(p *day.PieceSpec) { p.Form, p.Had = outlook.Ladder, many },
		"heavy":  func(p *day.PieceSpec) { p.Dry = 1e300 },
		"dip":    func(p *day.PieceSpec) { p.Dip, p.Air = math.MaxInt64, math.MaxInt64 },
	} {
		p, of, at := spec, day.OfPiece{Tag: "X1"}, b.Events[len(b.Events)-1].At
		change(&p)
		events := slices.Clone(b.Events)
		for _, body := range []day.Body{
			day.PieceAdded{OfPiece: of, PieceSpec: p}, day.DipBegun{OfPiece: of, Dip: many, For: p.Dip}, day.DipEnded{OfPiece: of, Dip: many, Air: p.Air},
			day.SwatchJudged{Swatch: "X1", Looks: "mid", Dips: 1},
		} {
			events = append(events, day.Event{Seq: len(events) + 1, At: at, Body: body})
			switch body.(type) {
			case day.PieceAdded, day.DipEnded: // of these two where long tests run
				if !long.Runs() {
					continue
				}
			}
			s, _ := day.Replay(b.Head, events)
			drawAll(t, name+", "+body.Kind(), s, s.At)
		}
	}
}
