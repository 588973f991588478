package history_test

import (
	"testing"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// A tag that comes again names another piece: each is found by its own days, and a look on the day after is of the one that dried.
func TestBluesByDay(t *testing.T) {
	a1 := day.OfPiece{Tag: "A1"}
	dyed := func(dry quantity.Mass) []day.Body {
		return []day.Body{
			day.PieceAdded{OfPiece: a1, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: dry, Depth: "dark"}}, day.WettedOut{OfPiece: a1},
			day.DipBegun{OfPiece: a1, Dip: 1, For: quantity.Minutes(10)}, day.DipEnded{OfPiece: a1, Dip: 1}, day.AiringEnded{OfPiece: a1, Dip: 1},
		}
	}
	looks := func(words string, wet bool) day.Body {
		return day.LookedAt{OfPiece: a1, Looks: words, Wet: wet, Rinsed: !wet}
	}
	var v history.Vat
	add := func(name string, at time.Time, bodies ...day.Body) {
		t.Helper()
		h := day.Head{Vat: "bin", Day: name, Recipe: builtIn(t, "soda"), Setup: day.Setup{Fill: 60, Place: day.Outdoors}}
		if last, ok := v.Last(); ok {
			h.Opening = outlook.Carry(last.State)
		} else {
			h.Opening = day.Opening{Number: 2, Built: true}
		}
		var events []day.Event
		for i, b := range append(append([]day.Body{day.Opened{How: "tend"}}, bodies...), day.Closed{}) {
			events = append(events, day.Event{Seq: i + 1, At: at.Add(time.Duration(i) * 10 * time.Minute), Body: b})
		}
		s, errs := day.Replay(h, events)
		if len(errs) > 0 {
			t.Fatal(errs)
		}
		v = append(v, history.Day{Name: name, State: s})
	}
	mon := time.Date(2026, 3, 30, 9, 0, 0, 0, time.UTC)
	add("mon", mon, append(dyed(420), looks("lab 30 -3 -20", true), day.Finished{OfPiece: a1, Dips: 1})...)
	add("tue", mon.Add(24*time.Hour), looks("lab 45 -4 -21", false), looks("lab 40 -4 -21", false))
	add("wed", mon.Add(48*time.Hour), append(dyed(90), looks("lab 60 -5 -18", false), day.Finished{OfPiece: a1, Dips: 1})...)
	for name, want := range map[string]colour.Lab{"mon": {L: 40, A: -4, B: -21}, "tue": {L: 40, A: -4, B: -21}, "wed": {L: 60, A: -5, B: -18}} {
		if b, ok := history.BlueNamed(v, name, "A1"); !ok || b.Told != history.ByMeasure || b.Sureness() != outlook.Measured || b.Lab != want {
			t.Errorf("on %s A1 is %v by %q, want %v", name, b.Lab, b.Told, want)
		}
	}
	if len(history.BluesOf(v)) != 2 {
		t.Errorf("there are %d pieces", len(history.BluesOf(v)))
	}
	// A day that was closed on a piece that still wanted dips tells what its dips give, not what was named for it; a dropped piece has no blue.
	for _, c := range []struct {
		name string
		end  []day.Body
		told history.Told
	}{
		{"thu", nil, history.ByForecast}, {"fri", []day.Body{day.PieceDropped{OfPiece: a1}}, ""}, {"sat", []day.Body{day.Finished{OfPiece: a1, Dips: 1}}, history.ByDepth},
	} {
		add(c.name, v[len(v)-1].State.At.Add(24*time.Hour), append(dyed(90), c.end...)...)
		if b, ok := history.BlueNamed(v, c.name, "A1"); ok != (c.told != "") || b.Told != c.told {
			t.Errorf("on %s A1 is known by %q, want %q", c.name, b.Told, c.told)
		}
		v = v[:len(v)-1]
	}
	if b := history.BluesOf(v[1:2]); len(b) != 1 || b[0].Lab != (colour.Lab{L: 40, A: -4, B: -21}) {
		t.Errorf("by the day after alone it is %+v", b)
	}
	if _, ok := history.BlueNamed(v, "wed", "B1"); ok {
		t.Error("a piece that was never there is found")
	}
}
