package sheet_test

// Whole days with one figure that cannot be: a time from another age, a count or a weight out of all measure. Whatever is
// asked of them comes to an end, with little memory: no loop runs on by a time or a count of the book.

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sheet"
	"example.org/vatside/model/signs"
	"example.org/vatside/testdata/bounds"
	"example.org/vatside/testdata/long"
)

// depth is how much a day is asked.
type depth int

const (
	quick depth = iota // what takes long is left out
	most               // all but the day's sheet, which stands in the vat's too
	all
)

// whole is all where long tests run, and else most.
func whole(longRuns bool) depth {
	if longRuns {
		return all
	}
	return most
}

// askAll asks a day what is asked of one, at an instant.
func askAll(t *testing.T, what string, s day.State, now time.Time, asks depth) {
	t.Helper()
	var o outlook.Outlook
	var blue outlook.Blue
	d := history.Day{Name: s.Head.Day, State: s}
	v := history.Vat{d}
	type question struct {
		name string
		ask  func()
	}
	asked := []question{
		{"Of", func() { o = outlook.Of(s, now) }},
		{"the clock", func() {
			day.NowLine(s, now)
			day.Next(s, now)
			day.Upcoming(s, now)
			day.Between(s, now)
			day.Assume(s, now, now, nil)
		}},
		{"Dues", func() {
			for _, x := range day.Dues(s) {
				x.Calls(now)
			}
		}},
		{"Care", func() { history.LifeOf(v).Care(now) }},
		{"cost", func() { cost.Of(v, nil, cost.Rates{}) }},
		{"signs", func() { signs.Causes(outlook.Asked(s, o, now, nil)); outlook.Advise(s, o, now, nil) }},
	}
	if asks >= most {
		asked = append(asked,
			question{"Blues", func() { blue = outlook.Blues(s, o, now) }},
			question{"Timetable", func() { outlook.Timetable(s, o, blue, load.Plan{}, now, 2000) }},
			question{"Carry", func() { outlook.Carry(s) }},
			question{"Stand", func() { history.LifeOf(v).Stand(now).Facts(now, s.Head.Setup.System()); history.LifeOf(v).Worked() }},
			question{"the vat's sheet", func() { sheet.OfVat([]sheet.Day{d}, now, true) }},
			question{"tags", func() {
				for _, g := range sheet.TagsOfDay(s).List {
					if g.Boxes > day.MostDips {
						t.Errorf("%s: %d boxes for %s", what, g.Boxes, g.Tag)
					}
				}
			}},
		)
	}
	if asks == all {
		asked = append(asked, question{"the day's sheet", func() { sheet.OfDay(d, now) }})
	}
	for _, q := range asked {
		bounds.Ends(t, what+", "+q.name, q.ask)
	}
	if n := len(o.Heat.Past); n > 200*(len(s.Log)+1) {
		t.Errorf("%s: %d points of heat for %d events", what, n, len(s.Log))
	}
}

// playedDays are the days of testdata/days, by name.
func playedDays(t *testing.T) map[string]book.Book {
	t.Helper()
	files, err := filepath.Glob("../../testdata/days/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	out := map[string]book.Book{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[strings.TrimSuffix(filepath.Base(f), ".toml")] = book.Read(f, text)
	}
	return out
}

func TestAnEventFromAnotherAge(t *testing.T) {
	years := []int{1, 3026, 9998, 1926, 2126}
	n := 0
	for name, b := range playedDays(t) {
		for i := range b.Events {
			if n++; n%long.Of(3, 9) > 0 { // some, and each file another year
				continue
			}
			year := years[n%len(years)]
			events := slices.Clone(b.Events)
			events[i].At = events[i].At.AddDate(year-events[i].At.Year(), 0, 0)
			s, _ := day.Replay(b.Head, events)
			what := fmt.Sprintf("%s, event %d in the year %d", name, i+1, year)
			asks := quick
			if n%27 == 0 {
				asks = whole(long.Runs())
			}
			askAll(t, what, s, s.At, asks)
			if last := b.Events[len(b.Events)-1].At; n%6 == 0 && last.Before(s.At) {
				askAll(t, what+", asked before", s, last, quick)
			}
		}
	}
	for name, b := range playedDays(t) { // the day before ended in another age, and every event is of one
		for _, year := range years {
			h, until := b.Head, b.Events[0].At.AddDate(year-2026, 0, 0)
			h.Opening.Until, h.Opening.Since, h.Opening.Temp = &until, &until, new(quantity.Celsius(40))
			h.Setup.DoneBy, h.Setup.ReadyBy = &until, &until
			s, _ := day.Replay(h, b.Events)
			askAll(t, fmt.Sprintf("%s after a day of the year %d", name, year), s, s.At, quick)
			events := slices.Clone(b.Events)
			for i := range events {
				if i%2 == 1 {
					events[i].At = events[i].At.AddDate(year-2026, 0, 0)
				}
			}
			s, _ = day.Replay(b.Head, events)
			askAll(t, fmt.Sprintf("%s, every second event in the year %d", name, year), s, s.At, quick)
		}
	}
}

func TestFiguresOutOfAllMeasure(t *testing.T) {
	const many, ages = 2_000_000_000, quantity.Span(math.MaxInt64)
	asks := whole(long.Runs())
	b := playedDays(t)["soda-bin"]
	spec := day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Had: 2, Form: "cloth", Depth: "mid"}
	for name, change := range map[string]func(*day.PieceSpec){
		"plain":      func(*day.PieceSpec) {},
		"dips":       func(p *day.PieceSpec) { p.Dips = many },
		"had":        func(p *day.PieceSpec) { p.Had, p.HadOf = many, quantity.Minutes(8) },
		"had long":   func(p *day.PieceSpec) { p.Had, p.HadOf = many, ages },
		"had less":   func(p *day.PieceSpec) { p.Had = -many },
		"ladder":     func(p *day.PieceSpec) { p.Form, p.Had = outlook.Ladder, many },
		"rung":       func(p *day.PieceSpec) { p.Depth, p.Rung = "", many },
		"heavy":      func(p *day.PieceSpec) { p.Dry = 1e300 },
		"light":      func(p *day.PieceSpec) { p.Dry = -1e300 },
		"dip":        func(p *day.PieceSpec) { p.Dip, p.Air = ages, ages },
		"dip before": func(p *day.PieceSpec) { p.Dip, p.Air = -ages, -ages },
		"lab":        func(p *day.PieceSpec) { p.Lab = [3]float64{1e300, -1e300, 1e300} },
	} {
		p, of, n := spec, day.OfPiece{Tag: "X1"}, b.Events[len(b.Events)-2].At
		change(&p)
		events := slices.Clone(b.Events[:len(b.Events)-1]) // not closed
		for _, body := range []day.Body{
			day.PieceAdded{OfPiece: of, PieceSpec: p}, day.DipBegun{OfPiece: of, Dip: many, For: p.Dip}, day.DipEnded{OfPiece: of, Dip: many, Air: p.Air},
			day.SwatchJudged{Swatch: "X1", Looks: "mid", Dips: p.Had}, day.SwatchJudged{Swatch: "X1", Looks: "rung 2000000000", Dips: 1},
			day.LookedAt{OfPiece: of, Looks: "dark"},
		} {
			events = append(events, day.Event{Seq: len(events) + 1, At: n, Body: body})
		}
		h := b.Head
		h.Opening.Swatches = []day.CarriedSwatch{{At: n, Tag: "L1", Fibre: "cotton", Ladder: true, Dips: p.Had, Dip: p.Dip, Looks: "mid"}}
		s, _ := day.Replay(h, events)
		askAll(t, name, s, s.At, asks)
	}
	hot, ph := quantity.Celsius(1e18), 1e18
	for name, body := range map[string]day.Body{
		"reading":   day.Reading{Temp: &hot, PH: &ph},
		"strip":     day.StripTest{Stayed: ages},
		"rest":      day.Rested{For: ages},
		"stretched": day.TimerStretched{Timer: "rest", By: ages},
		"cut":       day.TimerCut{Timer: "rest", By: -ages},
		"treated":   day.Treated{Cause: "tired", Do: "wait", Wait: ages},
		"added":     day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 1e300},
		"fed":       day.Fed{Powder: "indigo", Material: "indigo", Mass: -1e300},
		"topped up": day.ToppedUp{Water: 1e300, Temp: hot},
		"drawn":     day.StockDrawn{Stock: -1e300},
		"heater":    day.HeaterOn{Power: 1e300},
		"step":      day.StepDone{OfStep: day.OfStep{Step: many}, Do: "fill"},
		"corrected": day.Corrected{Of: many, Way: "undone"},
	} {
		n := len(b.Events) - 1
		events := slices.Clone(b.Events[:n])
		for range 2 {
			events = append(events, day.Event{Seq: len(events) + 1, At: events[n-1].At.Add(time.Minute), Body: body})
		}
		s, _ := day.Replay(b.Head, events)
		askAll(t, name, s, s.At.Add(time.Minute), asks)
	}
	for _, c := range []quantity.Temperature{1e18, -1e18, 1e300} {
		events := slices.Clone(b.Events)
		for i, e := range events {
			if r, ok := e.Body.(day.Reading); ok {
				ph := float64(c)
				r.Temp, r.PH = &c, &ph
				events[i].Body = r
			}
		}
		s, _ := day.Replay(b.Head, events)
		askAll(t, fmt.Sprintf("every reading %g", float64(c)), s, s.At, asks)
	}
	for name, change := range map[string]func(*day.Head){
		"fill":   func(h *day.Head) { h.Setup.Fill = 1e300 },
		"number": func(h *day.Head) { h.Opening.Number, h.Opening.Step, h.Setup.Hands = many, many, many },
		"step":   func(h *day.Head) { h.Opening.Number, h.Opening.Step = -many, -many },
		"gear": func(h *day.Head) {
			h.Setup.Heater, h.Setup.Pot, h.Setup.PotTook, h.Setup.Stove, h.Setup.Wrap = 1e300, 1e-300, ages, 1e300, 1e300
		},
		"held": func(h *day.Head) {
			h.Opening.Indigo, h.Opening.Reducer, h.Opening.Spent, h.Opening.Acid, h.Opening.Until = 1e300, 1e300, 1e300, 1e300, &b.Events[0].At
		},
	} {
		h := b.Head
		change(&h)
		s, errs := day.Replay(h, b.Events[:len(b.Events)-1])
		if len(s.Plan) == 0 && len(errs) > 0 { // refused
			continue
		}
		askAll(t, name, s, s.At, asks)
	}
}
