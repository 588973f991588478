package plain

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
)

// typed is a day that is led by typed lines alone.
type typed struct {
	t   *testing.T
	s   day.State
	now time.Time
}

func begun(t *testing.T, change func(*day.Head), bodies ...day.Body) *typed {
	t.Helper()
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	h := rehearse.Head(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true, Sulfur: true}
	change(&h)
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	d := &typed{t, s, now}
	d.happen(bodies...)
	return d
}

func (d *typed) happen(bodies ...day.Body) {
	d.t.Helper()
	for _, b := range bodies {
		var err error
		if d.s, err = day.Apply(d.s, day.Event{Seq: len(d.s.Log) + 1, At: d.now, Body: b}); err != nil {
			d.t.Fatal(err)
		}
	}
}

// types a line and gives the refusal, if there is one.
func (d *typed) types(line string) string {
	d.t.Helper()
	_, _, commands, err := answer.Take(d.s, d.now, line)
	for _, c := range commands {
		var bodies []day.Body
		if bodies, err = day.Decide(d.s, c, d.now); err == nil {
			d.happen(bodies...)
		}
	}
	if err != nil {
		return err.Error()
	}
	return ""
}

// says what the act is, word for word as it is told.
func (d *typed) says(want string) {
	d.t.Helper()
	text := strings.Join(callText(d.s, day.CallOf(d.s, d.now), d.now), "\n")
	if !strings.Contains(text, want) {
		d.t.Errorf("%q is not in\n%s", want, text)
	}
	if strings.Contains(text, "(S") {
		d.t.Errorf("a source is told:\n%s", text)
	}
}

func finished(t *testing.T, place string) *typed {
	of := day.OfPiece{Tag: "A1"}
	d := begun(t, func(h *day.Head) { h.Setup.Place = place }, day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true},
		day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 1}}, day.WettedOut{OfPiece: of},
		day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(5)}, day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(30)}, day.Finished{OfPiece: of, Dips: 1})
	d.now = d.now.Add(30 * time.Minute) // no fold is green
	return d
}

// The whole way after the last dip by typed lines: what the act asks for is what is understood.
func TestTheBenchByTypedLines(t *testing.T) {
	d := finished(t, day.ClosedRoom)
	d.says("\nThen: the last water stays clear")
	d.says("Rinse A1, 1 of 2: 8.4 L of plain water at 20 °C, 5 min.")
	for range 2 {
		d.types("")
		if no := d.types("bench A1"); !strings.Contains(no, "2:00 more at least") {
			t.Errorf("too soon it says %q", no)
		}
		d.types("later A1")
		d.now = d.now.Add(5*time.Minute + time.Second)
		if left, _ := day.Next(d.s, d.now).Left(d.now); left < 50*time.Second {
			t.Errorf("later leaves %v", left)
		}
		d.types("soon A1")
		d.types("bench A1")
	}
	d.says("Not yet: sour A1.")
	d.says("Type: goods outdoors, place cross-draught, or leave A1.")
	if no := d.types(""); !strings.Contains(no, "no acid yet") {
		t.Errorf("the gate says %q", no)
	}
	d.types("children")
	d.types("goods outdoors")
	d.says("Type: adults")
	d.types("adults")
	d.says("Caution: two rinses and full airing first")
	d.types("")
	d.says("Sour A1: 12.6 g of citric acid, or 126 mL of 5 % vinegar, in 8.4 L at 20 °C, 15 min.")
	d.says("Or: leave A1.")
	d.types("leave A1")
	d.says("Caution: scald")
	if no := d.types("leave A1"); !strings.Contains(no, "say why") {
		t.Errorf("soap is left out without a word: %q", no)
	}
	d.types("leave A1 no soap left")
	d.types("") // dry
	d.says("crock A1 4 2.5")
	d.types("crock A1 4 2.5")
	d.says("look A1 dark")
	var out bytes.Buffer
	New(nil, &out).bench(engine.View{ID: "bin/d", State: d.s, Now: d.now})
	if !strings.Contains(out.String(), "A1: to judge dry.") {
		t.Errorf("the bench is told as %s", out.String())
	}
	d.types("look A1 dark")
	out.Reset()
	New(nil, &out).bench(engine.View{ID: "bin/d", State: d.s, Now: d.now})
	if !strings.Contains(out.String(), "its record is complete") {
		t.Errorf("the bench is told as %s", out.String())
	}
}

// The bench tells of each piece what goes into its next bath, or why not.
func TestTheBenchIsTold(t *testing.T) {
	for _, c := range []struct {
		lines []string
		want  string
	}{
		{nil, "  A1: to rinse, 1 of 2.\n    8.4 L of plain water at 20 °C, 5 min.\n"},
		{[]string{""}, "  A1: rinse 1 of 2, out in 5:00.\n"},
		{[]string{"rinsed A1", "rinsed A1"}, "  A1: not yet: to neutralise, if you like.\n    No acid yet: go outdoors or into a cross-draught; the vat's book shows"},
	} {
		d := finished(t, day.ClosedRoom)
		for _, l := range c.lines {
			if no := d.types(l); no != "" {
				t.Fatal(no)
			}
			if l != "" {
				d.now = d.now.Add(2 * time.Minute)
			}
		}
		var out bytes.Buffer
		New(nil, &out).bench(engine.View{ID: "bin/d", State: d.s, Now: d.now})
		if !strings.HasPrefix(out.String(), c.want) {
			t.Errorf("after %q:\n%s", c.lines, out.String())
		}
	}
}

// The look after a treatment, hot work, and where it stands.
func TestWhatIsAroundTheVat(t *testing.T) {
	d := finished(t, day.ClosedRoom)
	hot := quantity.Celsius(52)
	of := day.OfPiece{Tag: "B1"}
	if no := d.types("better"); !strings.Contains(no, "nothing was treated") {
		t.Errorf("it says %q", no)
	}
	d.happen(day.Treated{Cause: "tired", Do: "stir", Wait: quantity.Minutes(20)})
	d.now = d.now.Add(21 * time.Minute)
	d.says("Type: better, same or worse.")
	if no := d.types("same"); no != "" || d.s.Treating != nil {
		t.Errorf("same: %q, %+v", no, d.s.Treating)
	}
	d.happen(day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 90, Dips: 1}}, day.WettedOut{OfPiece: of}, day.FrothSkimmed{}, day.Reading{Temp: &hot})
	d.says("or hot WHY, for sticks or tongs.")
	if no := d.types("hot"); !strings.Contains(no, "say why") {
		t.Errorf("hot without a reason: %q", no)
	}
	d.types("hot a hot strike")
	d.says("no hands")
	if d.types("place cross-draught"); d.s.Place() != day.CrossDraught {
		t.Errorf("it stands %s", d.s.Place())
	}
}

// The end of a vat by typed lines: a strip without yellow, the pH, and where the liquor went.
func TestTheEndByTypedLines(t *testing.T) {
	d := begun(t, func(h *day.Head) { h.Setup.Ending = true }, day.Opened{How: "end"})
	enter := func(times int) {
		for range times {
			d.types("")
			d.now = d.now.Add(2 * time.Second)
		}
	}
	enter(3)
	d.now = d.now.Add(time.Hour)
	enter(1)
	d.now = d.now.Add(time.Hour)
	enter(1)
	d.says("Type: strip 0")
	d.types("strip 0")
	d.types("y")
	d.now = d.now.Add(13 * time.Hour)
	enter(4)
	d.says("Type: ph 8.2")
	d.types("ph 8.2")
	enter(2)
	d.says("Type: went WHERE.")
	if no := d.types("went to the foul sewer"); no != "" || !d.s.Ended {
		t.Errorf("it is not ended: %q, at %s", no, day.NowLine(d.s, d.now))
	}
}

// While goods are in the liquor they are what is told, with what can be done meanwhile; a changed end is told again, the last
// minute is not.
func TestADipIsToldWithWhatCanBeDoneMeanwhile(t *testing.T) {
	of := func(tag string) day.OfPiece { return day.OfPiece{Tag: tag} }
	spec := day.PieceSpec{Fibre: "linen", Dry: 100, Dips: 2, Dip: quantity.Minutes(8)}
	d := begun(t, func(*day.Head) {}, day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}, day.FrothSkimmed{},
		day.PieceAdded{OfPiece: of("A1"), PieceSpec: spec}, day.WettedOut{OfPiece: of("A1")}, day.PieceAdded{OfPiece: of("B1"), PieceSpec: spec},
		day.DipBegun{OfPiece: of("A1"), Dip: 1, For: quantity.Minutes(8)})
	var out bytes.Buffer
	term := New(nil, &out)
	tell := func() string {
		out.Reset()
		term.tell(engine.View{ID: "bin/d", State: d.s, Now: d.now})
		return out.String()
	}
	if got := tell(); !strings.HasPrefix(got, "A1 is in the vat, till 09:08.") || !strings.Contains(got, "Meanwhile: is B1 wet through? next: the first of it is done.") {
		t.Errorf("it tells\n%s", got)
	}
	if no := d.types("next"); no != "" {
		t.Fatal(no)
	}
	if got := tell(); got != "Meanwhile: lower B1 in. next: the first of it is done.\n" {
		t.Errorf("then it tells\n%s", got)
	}
	d.happen(day.TimerStretched{Timer: "dip A1", By: quantity.Minutes(1)})
	if got := tell(); !strings.HasPrefix(got, "A1 is in the vat, till 09:09.") {
		t.Errorf("after a minute more it tells\n%s", got)
	}
	d.now = d.now.Add(8*time.Minute + time.Second)
	if got := tell(); got != "1 min, then A1 comes out.\n" {
		t.Errorf("in the last minute it tells\n%s", got)
	}
}

// The look that decides is told with what is compared, and answered by words; a day stops early by it.
func TestALookStopsAPieceEarly(t *testing.T) {
	of := day.OfPiece{Tag: "A1"}
	d := begun(t, func(*day.Head) {}, day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true},
		day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Depth: "mid", Dips: 3}}, day.WettedOut{OfPiece: of},
		day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(5)}, day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(10)})
	d.now = d.now.Add(10 * time.Minute)
	d.says("Look at A1: enough? Till 09:12.\nHold it beside the wish: wet is darker than dry.")
	d.says("Enter: as planned.\nType: stop, one more or as planned; rung 4 says what it is like.")
	var out bytes.Buffer
	New(nil, &out).tell(engine.View{ID: "bin/d", State: d.s, Now: d.now})
	for _, want := range []string{"A1: the wish is mid, L* 41. Wet it is about L* ", " now. Dry it will be ", " in 100. With one dip more: "} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not told:\n%s", want, out.String())
		}
	}
	if n := strings.Count(strings.ToLower(out.String()), "look at a1: enough?"); n != 1 {
		t.Errorf("it is asked %d times:\n%s", n, out.String())
	}
	for _, line := range []string{"rung 2", "stop"} {
		if no := d.types(line); no != "" {
			t.Fatalf("%s: %s", line, no)
		}
	}
	if p, _ := d.s.Piece("A1"); p.Want() != 1 {
		t.Errorf("A1 wants %d dips", p.Want())
	}
	d.now = d.now.Add(20 * time.Minute)
	d.says("Look at A1: no green left?")
	if no := d.types(""); no != "" {
		t.Fatal(no)
	}
	if p, _ := d.s.Piece("A1"); p.Phase != day.FinishedPiece || p.Dips != 1 {
		t.Errorf("A1 is %+v", p)
	}
}
