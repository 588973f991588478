package day_test

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/testdata/longday"
)

// The rules of the day, each with where it comes from: a law or a paragraph of DESIGN.md, or common practice.

const (
	sec    = time.Second
	minute = time.Minute
)

// Law 4: the first press answers the caution; a second, at least a second later, says done.
func TestCautionThenDone(t *testing.T) {
	p := begin(t, head(t, "soda"))
	p.until(recipe.Hydrate, "indigo")
	if got := p.do(day.Done{}); got != "caution answered" {
		t.Fatalf("the first press gives %s", got)
	}
	for _, after := range []time.Duration{0, 500 * time.Millisecond, 499 * time.Millisecond} {
		p.wait(after)
		if p.now.Sub(p.s.Answered) >= sec {
			t.Fatal("the test waits too long")
		}
		if _, err := day.Decide(p.s, day.Done{}, p.now); !errors.Is(err, day.ErrTooSoon) {
			t.Errorf("a press %s after the caution gives %v", p.now.Sub(p.s.Answered), err)
		}
	}
	p.wait(sec - p.now.Sub(p.s.Answered))
	if got := p.do(day.Done{}); got != "step done" {
		t.Errorf("a press a second after the caution gives %s", got)
	}
	if !p.s.Answered.IsZero() {
		t.Error("the next step begins with its caution answered")
	}
}

// Law 6: a caution comes each time its step comes, short after the first.
func TestCautionIsShortAfterTheFirst(t *testing.T) {
	p := begin(t, head(t, "soda"))
	p.until(recipe.Add, "soda")
	long := day.Next(p.s, p.now).Caution
	p.until(recipe.Add, "indigo")
	short := day.Next(p.s, p.now).Caution
	if short == "" || len(short) >= len(long) {
		t.Errorf("the caution %q comes again as %q", long, short)
	}
}

// A sulfur reducer is sprinkled over liquor that reads at most 50 °C, read after the last hot water.
func TestSprinkleWaitsForAReading(t *testing.T) {
	p := begin(t, head(t, "soda"))
	p.until(recipe.Fill, "")
	p.do(reading(38)) // before the fill: says nothing of what comes
	p.wait(sec)
	p.until(recipe.Sprinkle, "reducer")
	p.do(day.Done{})
	p.wait(2 * sec)
	p.refuses(day.Done{}, "First read the °C")
	p.do(day.Record{Body: day.Reading{PH: ptr(11.0)}})
	p.refuses(day.Done{}, "First read the °C")
	p.do(reading(50.5))
	p.refuses(day.Done{}, "let it cool to 50 °C")
	p.do(reading(50))
	if got := p.do(day.Done{}); got != "powder added" {
		t.Errorf("at 50 °C done gives %s", got)
	}
	if !p.s.Vat.Sulfur {
		t.Error("the vat does not know that a sulfur reducer is in it")
	}
}

// DESIGN, The day: no sulfur reducer in a closed room; sugar and lime instead.
func TestClosedRoomRefusesSulfur(t *testing.T) {
	h := head(t, "soda")
	h.Setup.Place = day.ClosedRoom
	p := begin(t, h)
	p.until(recipe.Weigh, "reducer")
	p.do(day.Done{})
	p.wait(2 * sec)
	p.refuses(day.Done{}, "no sulfur reducer in a closed room")
	p.refuses(day.PutScoop{Mass: 90}, "no sulfur reducer in a closed room")
	p.do(day.Record{Body: day.PlaceChanged{Place: day.CrossDraught}})
	p.until(recipe.Sprinkle, "reducer")
	p.do(day.Record{Body: day.PlaceChanged{Place: day.ClosedRoom}})
	p.do(reading(38))
	p.do(day.Done{})
	p.wait(2 * sec)
	p.refuses(day.Done{}, "no sulfur reducer in a closed room")
	p.refuses(day.Record{Body: day.Fed{Powder: "reducer", Material: "sodium dithionite", Mass: 20}}, "no sulfur reducer in a closed room")
	p.refuses(day.Record{Body: day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 20}}, "no sulfur reducer in a closed room")

	h = head(t, "sugar-lime")
	h.Setup.Place = day.ClosedRoom
	begin(t, h).until(recipe.Cover, "") // fructose is no sulfur reducer
}

// Common practice, no source: a weighing is done within 2 % of its target, or 0.1 g where that is more.
func TestWeighingTolerance(t *testing.T) {
	h := head(t, "soda")
	for _, c := range []struct{ fill, scale, wants float64 }{{60, 90, 90}, {60, 91.8, 90}, {60, 88.2, 90}, {1, 1.6, 1.5}, {1, 1.4, 1.5}} {
		h.Setup.Fill = quantity.Litres(c.fill)
		p := begin(t, h)
		p.do(day.Done{})
		p.wait(2 * sec)
		p.do(day.PutScoop{Mass: quantity.Grams(c.scale)})
		if got := p.do(day.Done{}); got != "step done" {
			t.Errorf("%g g for %g g gives %s", c.scale, c.wants, got)
		}
	}
	p := begin(t, head(t, "soda"))
	p.refuses(day.PutScoop{Mass: 10}, "answer the caution first")
	p.do(day.Done{})
	p.wait(2 * sec)
	p.do(day.PutScoop{Mass: 60})
	p.refuses(day.Done{}, "30 g to go")
	p.refuses(day.PutScoop{Mass: -61}, "the scale holds 60 g only")
	p.refuses(day.PutScoop{Mass: 900}, "ten times")
	p.refuses(day.PutScoop{Mass: quantity.Mass(math.NaN())}, "type what the scale shows")
	p.do(day.PutScoop{Mass: 40})
	p.refuses(day.Done{}, "10 g too much")
	p.do(day.PutScoop{Mass: -10})
	p.do(day.Done{})
}

// Stirring has its own two-way timer.
func TestStirringTurnsHalfway(t *testing.T) {
	p := begin(t, head(t, "soda"))
	p.until(recipe.Stir, "")
	if got := p.do(day.Done{}); got != "step begun" {
		t.Fatalf("the first press gives %s", got)
	}
	if d, _ := longday.NextDue(p.s, p.now); d.Kind != day.DueTurn || d.At.Sub(p.now) != minute {
		t.Errorf("first comes %+v", d)
	}
	p.refuses(day.Stretch{Timer: "turn 8", By: quantity.Minutes(1)}, "no such time is running")
	p.wait(2 * sec)
	if _, err := day.Decide(p.s, day.Done{}, p.now); !errors.Is(err, day.ErrTooSoon) {
		t.Errorf("a bounce ends the stirring: %v", err)
	}
	p.wait(118 * sec)
	if got := p.do(day.Done{}); got != "stirred" {
		t.Errorf("after two minutes done gives %s", got)
	}
}

// The recheck loop, "ready" and "not yet".
func TestNotYetLooksAgain(t *testing.T) {
	p := begin(t, head(t, "soda"))
	st := p.until(recipe.Wait, "")
	p.refuses(day.Done{}, "more to wait")
	p.refuses(day.Judge{}, "the wait runs on")
	p.until(recipe.Check, "")
	for range 3 {
		p.do(day.Judge{Seen: "green"})
		d, ok := longday.NextDue(p.s, p.now)
		if !ok || d.Kind != day.DueRecheck || d.At.Sub(p.now) != 15*minute {
			t.Fatalf("after not yet comes %+v", d)
		}
		p.do(day.Stretch{Timer: d.Timer, By: -quantity.Minutes(10)}) // holds for this look only
		p.wait(5 * minute)
	}
	p.do(day.Judge{Ready: true})
	if _, open := p.s.Open(); open || !p.s.Vat.Ready {
		t.Error("ready does not end the build")
	}
	q := begin(t, head(t, "soda"))
	q.until(recipe.Wait, "")
	q.do(day.Judge{Ready: true, Seen: "yellow already"}) // a strip says it is ready before the time
	if q.s.Step != st.No+2 {
		t.Errorf("ready during the wait opens step %d", q.s.Step)
	}
}

// The end of a dip is called again after 30 s, 1 and 2 min, then each minute, rising; the end of a step too, and it does not rise. The
// end of an airing is called once, then every 5 minutes, never rising.
func TestCallsRise(t *testing.T) {
	at := morning
	lift, air, step := day.Due{Kind: day.DueLift, At: at}, day.Due{Kind: day.DueEnter, At: at}, day.Due{Kind: day.DueStep, At: at}
	for _, c := range []struct {
		due      day.Due
		late     time.Duration
		n, level int
	}{
		{lift, -sec, 0, 0}, {lift, 0, 1, 0}, {lift, 29 * sec, 1, 0}, {lift, 30 * sec, 2, 1}, {lift, 59 * sec, 2, 1}, {lift, 60 * sec, 3, 2}, {lift, 119 * sec, 3, 2},
		{lift, 2 * minute, 4, 3}, {lift, 3 * minute, 5, 3}, {lift, time.Hour, 62, 3}, {step, 30 * sec, 2, 0}, {step, time.Hour, 62, 0},
		{air, -sec, 0, 0}, {air, 0, 1, 0}, {air, 299 * sec, 1, 0}, {air, 5 * minute, 2, 0}, {air, time.Hour, 13, 0},
	} {
		if n, level := c.due.Calls(at.Add(c.late)); n != c.n || level != c.level {
			t.Errorf("kind %d, %s late: call %d at level %d, want %d at %d", c.due.Kind, c.late, n, level, c.n, c.level)
		}
	}
}

// Going on. At most two acts in a row are assumed, then it waits and calls.
func TestGoesOnAfterThirtySeconds(t *testing.T) {
	p := dyeing(t, 4)
	for i := range 4 {
		p.wait(minute)
		p.do(day.Lower{Tag: "A" + string(rune('1'+i))})
	}
	assume := func() (day.Lift, bool) {
		c, ok := day.Assume(p.s, p.now, morning, nil)
		if !ok {
			return day.Lift{}, false
		}
		p.do(c)
		return c.(day.Lift), true
	}
	out := p.piece("A1").Since.Add(8 * minute)
	p.now = out.Add(29 * sec)
	if _, ok := assume(); ok {
		t.Fatal("a lift is assumed before its call went on for 30 s")
	}
	p.wait(sec)
	if l, ok := assume(); !ok || l.Tag != "A1" || !l.When.Equal(out) {
		t.Fatalf("after 30 s %+v is assumed, %v", l, ok)
	}
	if a := p.piece("A1"); a.Phase != day.Airing || !a.Since.Equal(out) || !a.Past[0].Assumed {
		t.Errorf("the assumed lift gives %+v", a)
	}
	// Sleep and a step of the clock are no answers of the hands.
	p.happen(day.Slept{For: quantity.Minutes(1)}, day.ClockStepped{By: quantity.Minutes(5)})
	p.wait(minute)
	if l, ok := assume(); !ok || l.Tag != "A2" {
		t.Fatalf("the second: %+v, %v", l, ok)
	}
	p.wait(minute)
	if l, ok := assume(); ok {
		t.Fatalf("a third in a row is assumed: %+v", l)
	}
	p.wait(10 * minute)
	if l, ok := assume(); ok {
		t.Fatalf("a third in a row is assumed: %+v", l)
	}
	p.do(day.Lift{Tag: "A3"}) // an answer: the count begins anew
	if l, ok := assume(); !ok || l.Tag != "A4" {
		t.Errorf("after an answer: %+v, %v", l, ok)
	}
	if _, ok := assume(); ok {
		t.Error("an airing is assumed to be over")
	}
	p.wait(5 * time.Hour)
	if _, ok := assume(); ok {
		t.Error("an airing is assumed to be over")
	}
}

// Across sleep, kill or restart nothing is assumed.
func TestNothingIsAssumedOfWhatNobodyHeard(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	out := p.now.Add(8 * minute)
	p.now = out.Add(time.Hour)
	if _, ok := day.Assume(p.s, p.now, out.Add(sec), nil); ok {
		t.Error("a lift from before somebody could hear it is assumed")
	}
	if _, ok := day.Assume(p.s, p.now, out, nil); !ok {
		t.Error("a lift that was heard is not assumed")
	}
	q := dyeing(t, 1, func(h *day.Head) { h.Setup.Waiting = true })
	q.do(day.Lower{Tag: "A1"})
	q.wait(time.Hour)
	if _, ok := day.Assume(q.s, q.now, morning, nil); ok {
		t.Error("the waiting mode goes on by itself")
	}
}

// Dips under 2 minutes start on a 5-second count-in.
func TestShortDipsCountIn(t *testing.T) {
	for _, c := range []struct {
		dip  float64
		want time.Duration
	}{{90, 5 * sec}, {119, 5 * sec}, {120, 0}, {480, 0}} {
		p := dyeing(t, 0)
		p.do(day.AddPiece{Tag: "S1", Spec: day.PieceSpec{Fibre: "silk", Dry: 50, Dips: 2, Dip: quantity.Seconds(c.dip)}})
		p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "S1"}}})
		p.do(day.Lower{Tag: "S1"})
		if got := p.piece("S1").Since.Sub(p.now); got != c.want {
			t.Errorf("a dip of %g s begins after %s, want %s", c.dip, got, c.want)
		}
	}
}

// Law 6: no heater on with hands or goods in; no hands above 45 °C (scald table).
func TestHeatAndHands(t *testing.T) {
	p := dyeing(t, 2)
	p.do(day.Record{Body: day.HeaterOn{Power: 1000}})
	p.refuses(day.Lower{Tag: "A1"}, "the heater is on")
	p.refuses(day.Close{}, "the heater is on")
	p.refuses(day.Record{Body: day.HeaterOn{}}, "on already")
	p.do(day.Record{Body: day.HeaterOff{}})
	p.do(reading(45.5))
	p.refuses(day.Lower{Tag: "A1"}, "no hands above 45 °C")
	p.do(reading(45))
	p.do(day.Lower{Tag: "A1"})
	p.refuses(day.Record{Body: day.HeaterOn{}}, "hands and goods out before heat")
	p.refuses(day.RestVat{For: quantity.Minutes(30)}, "is in the vat")
}

// What hangs in the vat or still airs is not left by closing the day, nor by ending the vat.
func TestCloseLeavesNothingHanging(t *testing.T) {
	p := dyeing(t, 1)
	end := day.Record{Body: day.VatEnded{}}
	p.do(day.Lower{Tag: "A1"})
	for _, c := range []day.Command{day.Close{}, end, day.Finish{Tag: "A1"}, day.Record{Body: day.CarriedOver{OfPiece: day.OfPiece{Tag: "A1"}}},
		day.Record{Body: day.PieceDropped{OfPiece: day.OfPiece{Tag: "A1"}}}} {
		p.refuses(c, "A1 is in the vat since 09:00")
	}
	p.wait(8 * minute)
	p.do(day.Done{})
	p.refuses(day.Close{}, "A1 is between two dips")
	p.refuses(end, "A1 is between two dips")
	p.do(day.Record{Body: day.CarriedOver{OfPiece: day.OfPiece{Tag: "A1"}, To: "tomorrow"}})
	p.do(day.Close{Why: "dusk"})
	if o := day.Carry(p.s); len(o.Pieces) != 1 || o.Pieces[0].Had != 1 || !o.Built || !o.Sulfur {
		t.Errorf("the next day opens with %+v", o)
	}
	p.refuses(day.Done{}, "the day is closed")
	p.refuses(day.Record{Body: day.Note{Text: "late"}}, "the day is closed")
}

// DESIGN, The day: a wait longer than 4 h becomes a due on home, and the next day goes on at it; a ferment is stirred
// warm meanwhile.
func TestLongWaitBetweenDays(t *testing.T) {
	p := begin(t, head(t, "madder-bran"))
	st := p.until(recipe.Wait, "")
	if st.For.Duration() <= day.LongWait {
		t.Fatalf("the ferment waits %s only", st.For)
	}
	if day.Between(p.s, p.now) != nil {
		t.Error("an open day is called on home")
	}
	since := p.s.StepSince
	p.do(day.Close{Why: "it ferments"})
	for _, c := range []struct {
		after time.Duration
		words string
		n     int
	}{
		{0, "daily round: smell, film, pH, stir; day 1 of 7–14", 2}, {25 * time.Hour, "daily round: smell, film, pH, stir; day 2 of 7–14", 2},
		{49 * time.Hour, "go on building: weigh the calcium hydroxide (slaked lime)", 1},
	} {
		got := day.Between(p.s, since.Add(c.after))
		if len(got) != c.n || got[0].Words != c.words || !got[len(got)-1].At.Equal(since.Add(st.For.Duration())) {
			t.Errorf("%s into the wait home says %+v", c.after, got)
		}
	}
	h := p.s.Head
	h.Opening = day.Carry(p.s)
	q := begin(t, h)
	if q.s.Step != st.No || !q.s.StepSince.Equal(since) {
		t.Errorf("the next day is at step %d since %s, not at %d since %s", q.s.Step, q.s.StepSince, st.No, since)
	}
}

// Law 6: acid before its gate has no override.
func TestNoAcidBeforeItsGate(t *testing.T) {
	p := dyeing(t, 1)
	sour := day.Record{Body: day.Soured{OfPiece: day.OfPiece{Tag: "A1"}}}
	rinse := day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: "A1"}}}
	p.refuses(sour, "no acid yet")
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Done{})
	p.do(rinse)
	p.do(rinse)
	p.refuses(sour, "no acid yet")
	p.do(day.Finish{Tag: "A1"})
	seq := p.s.Log[len(p.s.Log)-3].Seq
	p.do(day.Undo{Seq: seq}) // one of the rinses was none
	p.refuses(sour, "no acid yet")
	p.do(rinse)
	p.refuses(sour, "no fold is green") // it was called aired too soon
	p.wait(30 * minute)
	p.do(sour)
	p.refuses(day.Undo{Seq: p.s.Log[len(p.s.Log)-3].Seq}, "depends on it") // a rinse before its caution
}

// What rules stand before is not written down past them.
func TestRecordPassesNoRule(t *testing.T) {
	p := dyeing(t, 1)
	p.do(reading(60))
	in := day.OfPiece{Tag: "A1"}
	for _, b := range []day.Body{day.DipBegun{OfPiece: in, Dip: 1}, day.DipEnded{OfPiece: in}, day.StepDone{}, day.Closed{}, day.Corrected{Of: 1, Way: "undone"},
		day.Slept{}, day.Opened{}, day.Finished{OfPiece: in}} {
		p.refuses(day.Record{Body: b}, "own key")
	}
	p.refuses(day.Record{Body: day.VatCovered{OfStep: day.OfStep{Step: 2}}}, "own key")
	for _, b := range []day.Body{nil, day.ToppedUp{Water: quantity.Volume(math.NaN())}, day.Fed{Mass: -3}, day.Stirred{For: -1}, day.Soaped{Temp: quantity.Temperature(math.Inf(1))},
		day.Reading{}, day.Reading{Temp: celsius(140)}, day.Reading{PH: ptr(15.0)}, day.Note{Text: " "}, day.AiringEnded{OfPiece: in},
		day.PieceChanged{OfPiece: in, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: -1}}} {
		if _, err := day.Decide(p.s, day.Record{Body: b}, p.now); err == nil {
			t.Errorf("%#v is written down", b)
		}
	}
	for _, spec := range []day.PieceSpec{{Fibre: "linen"}, {Fibre: "linen", Dry: quantity.Mass(math.NaN())}, {Fibre: "glass", Dry: 1}, {Fibre: "linen", Dry: 1, Dip: -1},
		{Fibre: "linen", Dry: 1, Dips: 61}, {Fibre: "linen", Dry: 1, Had: -1}, {Fibre: "linen", Dry: 1, Depth: "noir"}} {
		if _, err := day.Decide(p.s, day.AddPiece{Tag: "X", Spec: spec}, p.now); err == nil {
			t.Errorf("%+v is taken", spec)
		}
	}
	p.refuses(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 1}}, "on the list already")
	p.refuses(day.RestVat{}, "for how long")
}

// Corrections append and nothing is erased; what is taken back twice is there again.
func TestCorrections(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	in := len(p.s.Log)
	p.wait(9 * minute)
	c, _ := day.Assume(p.s, p.now, morning, nil)
	p.do(c)
	out := len(p.s.Log)
	before := p.s.Pieces
	p.do(day.Undo{Seq: out})
	if a := p.piece("A1"); a.Phase != day.InVat || a.Dips != 0 {
		t.Errorf("the lift taken back gives %+v", a)
	}
	p.refuses(day.Confirm{Seq: out}, "taken back already")
	p.refuses(day.Move{Seq: out, To: p.now}, "taken back already")
	p.do(day.Undo{Seq: out + 1})
	if !reflect.DeepEqual(p.s.Pieces, before) {
		t.Errorf("taking it back twice gives %+v, not %+v", p.s.Pieces, before)
	}
	p.refuses(day.Undo{Seq: in}, "depends on it")
	p.refuses(day.Undo{Seq: 1}, "the opening of the day is not taken back")
	p.refuses(day.Undo{Seq: 99}, "no act has the number 99")
	p.refuses(day.Move{Seq: out, To: p.now.Add(sec)}, "later than now")
	p.refuses(day.Move{Seq: out, To: p.piece("A1").Past[0].Begun.Add(-sec)}, "the day opened at")
	p.refuses(day.Move{Seq: 2, To: p.now}, "another time")
	p.refuses(day.Confirm{Seq: in}, "was not assumed")
	really := p.now.Add(-3 * minute)
	p.do(day.Move{Seq: out, To: really})
	if a := p.piece("A1"); !a.Since.Equal(really) || a.Past[0].Assumed || p.s.Assumed != 0 {
		t.Errorf("moved, it gives %+v", a)
	}
	p.do(day.Confirm{Seq: out})
	if a := p.piece("A1"); !a.Since.Equal(really) {
		t.Errorf("confirmed after it was moved, it is out at %s, not %s", a.Since, really)
	}
	p.refuses(day.Move{Seq: in, To: really.Add(sec)}, "out of the vat before it was in")
	if !p.s.Log[out-1].Body.(day.DipEnded).Assumed {
		t.Error("the log no longer says that it was assumed")
	}
}

// One key goes back: the last press is taken back whole, also the airing that it ended.
func TestBackTakesThePressBack(t *testing.T) {
	p := dyeing(t, 1)
	p.do(day.Lower{Tag: "A1"})
	p.wait(8 * minute)
	p.do(day.Done{})
	airing := p.piece("A1")
	p.wait(12 * minute)
	p.do(day.Record{Body: day.FrothSkimmed{}})
	if got := p.do(day.Lower{Tag: "A1"}); got != "airing ended, dip begun" {
		t.Fatalf("in again gives %s", got)
	}
	p.do(day.Back{})
	if got := p.piece("A1"); !reflect.DeepEqual(got, airing) {
		t.Errorf("back gives %+v, it was %+v", got, airing)
	}
	p.do(day.Back{}) // the skimming
	p.do(day.Back{})
	if got := p.piece("A1"); got.Phase != day.InVat {
		t.Errorf("back again gives %+v", got)
	}

	q := begin(t, head(t, "soda"))
	q.until(recipe.Hydrate, "indigo")
	q.do(day.Back{})
	if q.s.Step != 1 || q.s.Weighed(1) != 90 {
		t.Errorf("back from step 2 opens step %d with %s weighed", q.s.Step, q.s.Weighed(1))
	}
	q = begin(t, head(t, "soda"))
	q.refuses(day.Back{}, "nothing was done yet")
}

// What is told afterwards lies between what was before it and now.
func TestToldAfterwards(t *testing.T) {
	p := dyeing(t, 1)
	p.wait(time.Hour)
	p.refuses(day.Lower{Tag: "A1", When: p.now.Add(sec)}, "later than now")
	p.refuses(day.Lower{Tag: "A1", When: morning.Add(-sec)}, "cannot have gone in")
	p.do(day.Lower{Tag: "A1", When: p.now.Add(-10 * minute)})
	p.refuses(day.Lift{Tag: "A1", When: p.now.Add(-11 * minute)}, "between then and now")
	p.refuses(day.Lift{Tag: "A1", When: p.now.Add(sec)}, "between then and now")
	p.do(day.Lift{Tag: "A1", When: p.now.Add(-2 * minute)})
	p.refuses(day.Lower{Tag: "A1", When: p.now.Add(-3 * minute)}, "cannot have gone in")
	if d := day.Dues(p.s); !d[0].At.Equal(p.now.Add(10 * minute)) {
		t.Errorf("the airing ends at %s", d[0].At)
	}
}

// A rest that was cut short says nothing of the next one; a cut never ends before now.
func TestStretchAndCut(t *testing.T) {
	p := dyeing(t, 1)
	for range 2 {
		p.do(day.RestVat{For: quantity.Minutes(60)})
		if d, _ := longday.NextDue(p.s, p.now); d.Kind != day.DueRest || d.At.Sub(p.now) != time.Hour {
			t.Fatalf("a rest of an hour is %+v", d)
		}
		p.do(day.Stretch{Timer: "rest", By: -quantity.Minutes(50)})
		p.refuses(day.Stretch{Timer: "rest", By: -quantity.Minutes(11)}, "are left")
		p.refuses(day.Done{}, "the vat rests 10:00 more")
		p.wait(10 * minute)
	}
	p.refuses(day.Stretch{Timer: "rest", By: 0}, "by how much")
	p.refuses(day.Stretch{Timer: "dip A9", By: 1}, "no such time is running")
}

// A vat that rests, or in which a treatment works, asks before it takes a piece; what went in before is only written down.
func TestARestingVatAsksBeforeItTakesAPiece(t *testing.T) {
	p := dyeing(t, 1)
	lower := day.Lower{Tag: "A1"}
	if got := day.CautionOf(p.s, lower, p.now); got != "" {
		t.Fatalf("a vat that does not rest asks: %s", got)
	}
	p.do(day.RestVat{For: quantity.Minutes(60)})
	p.wait(20 * minute)
	p.refuses(lower, "the vat rests 40:00 more, lid on and no hands in it")
	if got := p.do(lower); !strings.HasPrefix(got, "caution answered, ") {
		t.Errorf("answered, it makes %s", got)
	}
	p = dyeing(t, 1)
	p.do(day.RestVat{For: quantity.Minutes(60)})
	p.wait(20 * minute)
	if got := day.CautionOf(p.s, day.Lower{Tag: "A1", When: p.now.Add(-2 * minute)}, p.now); got != "" {
		t.Errorf("told afterwards it asks: %s", got)
	}
	p = dyeing(t, 1)
	p.do(day.Treat{Cause: "air-in", Do: "rest it", Wait: quantity.Minutes(30)})
	p.refuses(lower, "a treatment works 30:00 more")
	p.wait(30 * minute)
	if got := day.CautionOf(p.s, lower, p.now); got != "" {
		t.Errorf("after the wait it asks: %s", got)
	}
}

// Goods are wetted out once.
func TestGoodsAreWettedOutOnce(t *testing.T) {
	p := dyeing(t, 0)
	p.do(day.AddPiece{Tag: "A1", Spec: day.PieceSpec{Fibre: "linen", Dry: 300, Dips: 3}})
	wet := day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "A1"}}}
	p.do(wet)
	p.refuses(wet, "A1 is wetted out already")
}

// What is said to the whole list is no tag. A piece that is off the list takes no acts but a look, and its tag and its peg are free again where it had
// no dip.
func TestTagsOfTheList(t *testing.T) {
	p := dyeing(t, 0)
	a1, spec := day.OfPiece{Tag: "A1"}, day.PieceSpec{Fibre: "linen", Dry: 300, Dips: 3}
	p.refuses(day.AddPiece{Tag: "All", Spec: spec}, `"All" is said to the whole list`)
	p.do(day.AddPiece{Tag: "A1", Spec: spec})
	p.refuses(day.AddPiece{Tag: "A1", Spec: spec}, "A1 is on the list already")
	p.do(day.Record{Body: day.PieceDropped{OfPiece: a1}})
	p.refuses(day.Record{Body: day.PieceDropped{OfPiece: a1}}, "A1 is off the list already")
	for _, b := range []day.Body{day.Readied{OfPiece: a1, What: day.ToScour}, day.WettedOut{OfPiece: a1}, day.Rinsed{OfPiece: a1}, day.PieceChanged{OfPiece: a1, PieceSpec: spec}} {
		p.refuses(day.Record{Body: b}, "A1 is off the list")
	}
	p.do(day.Record{Body: day.LookedAt{OfPiece: a1, Looks: "pale"}})
	p.do(day.AddPiece{Tag: "B1", Spec: spec})
	pegs := p.s.Pegs([]string{"B1"})
	p.do(day.AddPiece{Tag: "A1", Spec: spec})
	if got, _ := p.s.Piece("A1"); !got.Live() || len(p.s.Pieces) != 2 || got.Phase != day.Dry || p.s.Pegs([]string{"B1"}) != pegs {
		t.Errorf("listed anew: %+v, and B1 hangs on %s, not %s", p.s.Pieces, p.s.Pegs([]string{"B1"}), pegs)
	}
	drop := 0
	for _, e := range p.s.Log {
		if _, is := e.Body.(day.PieceDropped); is {
			drop = e.Seq
		}
	}
	p.refuses(day.Undo{Seq: drop}, "A1 off the list, depends on it: take that back first") // else there would be two
	p.do(day.Record{Body: day.WettedOut{OfPiece: a1}})
	p.do(day.Lower{Tag: "A1"})
	p.wait(5 * minute)
	p.do(day.Lift{Tag: "A1"})
	p.do(day.Record{Body: day.PieceDropped{OfPiece: a1}})
	p.refuses(day.AddPiece{Tag: "A1", Spec: spec}, "A1 was taken off the list after 1 dip: give this one another tag")
}

// Law 2: the night the clocks change has no hole and no doubled hour for a running time.
func TestNightOfTheClockChange(t *testing.T) {
	summer, winter := time.FixedZone("CEST", 2*3600), time.FixedZone("CET", 3600)
	p := dyeing(t, 1)
	p.now = time.Date(2026, 10, 25, 2, 55, 0, 0, summer)
	p.do(day.Lower{Tag: "A1"})
	p.now = time.Date(2026, 10, 25, 2, 1, 0, 0, winter) // six minutes later
	left, over := day.Next(p.s, p.now).Left(p.now)
	if left != 2*minute || over != 0 {
		t.Errorf("%s left, %s over", left, over)
	}
	p.happen(day.ClockStepped{By: -quantity.Hours(1)})
	if l, _ := day.Next(p.s, p.now).Left(p.now); l != left {
		t.Errorf("a step of the clock leaves %s", l)
	}
}

// Wool does not go into a soda vat of pH 11, silk is warned about; what is read counts before what the recipe says, and
// a ferment vat is for all of them. The ceilings are those of model/fibre.
func TestFibresHaveCeilings(t *testing.T) {
	enter := func(id, fibre string, ph, temp float64) (day.Act, error) {
		h := head(t, id)
		h.Opening.Built = true
		p := begin(t, h)
		for _, st := range p.s.Plan {
			p.happen(day.StepDone{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do)})
		}
		if ph > 0 {
			p.happen(day.Reading{PH: &ph})
		}
		if temp > 0 {
			p.happen(day.Reading{Temp: celsius(temp)})
		}
		p.happen(day.FrothSkimmed{})
		p.happen(day.PieceAdded{OfPiece: day.OfPiece{Tag: "S1"}, PieceSpec: day.PieceSpec{Fibre: fibre, Dry: 50, Dips: 2}})
		p.happen(day.WettedOut{OfPiece: day.OfPiece{Tag: "S1"}})
		_, err := day.Decide(p.s, day.Lower{Tag: "S1"}, p.now)
		a := day.Next(p.s, p.now)
		lowered := p.s.Amiss(day.Event{At: p.now, Body: day.DipBegun{OfPiece: day.OfPiece{Tag: "S1"}, Dip: 1}})
		if before, after := strings.Contains(a.How, "at its best"), strings.Contains(lowered, "S1: "+fibre+" is at its best"); err == nil && before != after {
			t.Errorf("%s: called in with %q; said by its tag it is answered with %q", fibre, a.How, lowered)
		}
		return a, err
	}
	if a, err := enter("soda", "wool", 0, 0); err == nil || !strings.Contains(err.Error(), "use the mild soda vat (recipe mild-soda), or a ferment vat") ||
		a.Words != "S1 stays out of this vat" || !strings.Contains(a.How, "11.1 (reckoned, ") {
		t.Errorf("wool in soda: %v, %+v", err, a)
	}
	if a, err := enter("soda", "wool", 9, 36); err != nil || a.Kind != day.ActEnter {
		t.Errorf("wool in a vat read at pH 9: %v, %+v", err, a)
	}
	if a, err := enter("soda", "silk", 10.8, 36); err != nil || !strings.Contains(a.How, "dip short, rinse soon") {
		t.Errorf("silk at pH 10.8: %v, %+v", err, a)
	}
	if _, got := fibre.Silk.BearsPHSaid(10.4, "10.4", quantity.Minutes(18)); !strings.HasSuffix(got, "10.4: dip shorter than the planned 18 min, rinse soon") {
		t.Errorf("beside a long dip it says %q", got)
	}
	if a, err := enter("madder-bran", "wool", 0, 36); err != nil || !strings.Contains(a.How, "10.2 (reckoned, 9.7 to 10.7, not read)") {
		t.Errorf("wool in a ferment vat: %v, %+v", err, a)
	}
	if a, err := enter("madder-bran", "wool", 11, 36); err == nil || strings.Contains(a.How, "ferment vat") {
		t.Errorf("wool in a ferment vat is sent to one: %v, %+v", err, a)
	}
	// The mild soda vat: nothing against wool and silk, but that its pH is read, and again after three hours.
	for _, f := range []string{"wool", "silk"} {
		if a, err := enter("mild-soda", f, 0, 42); err != nil || strings.Contains(a.How, "at its best") || !strings.HasPrefix(a.How, "Read pH before it goes in (h)") {
			t.Errorf("%s in the mild vat: %v, %+v", f, err, a)
		}
		if a, err := enter("mild-soda", f, 9.3, 42); err != nil || strings.Contains(a.How, "pH") {
			t.Errorf("%s in the mild vat at pH 9.3: %v, %+v", f, err, a)
		}
	}
	if a, err := enter("mild-soda", "cotton", 0, 42); err != nil || strings.Contains(a.How, "pH") {
		t.Errorf("cotton in the mild vat: %v, %+v", err, a)
	}
	if a, err := enter("mild-soda", "wool", 11, 42); err == nil || !strings.Contains(a.How, "baking soda") || strings.Contains(a.How, "recipe mild-soda") {
		t.Errorf("wool in a mild vat that has crept up: %v, %+v", err, a)
	}
	if a, err := enter("soda", "cotton", 11, 36); err != nil || strings.Contains(a.How, "dip short") {
		t.Errorf("cotton: %v, %+v", err, a)
	}
}

// A tag is as long as it is seen to be, in whatever letters.
func TestATagInOtherLetters(t *testing.T) {
	p := dyeing(t, 0)
	for tag, long := range map[string]bool{"скатерть": false, "藍染布地": false, "серветки-1234": true, "藍染布地藍染布": true} {
		_, err := day.Decide(p.s, day.AddPiece{Tag: tag, Spec: day.PieceSpec{Fibre: "linen", Dry: 200}}, p.now)
		if (err != nil) != long {
			t.Errorf("%q: %v", tag, err)
		}
	}
}
