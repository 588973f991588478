package plain

import (
	"bytes"
	"slices"
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

func TestTimesAreToldOnce(t *testing.T) {
	var out bytes.Buffer
	term := New(nil, &out)
	at := time.Date(2026, 11, 25, 10, 0, 0, 0, time.UTC)
	d := day.Due{Timer: "dip A1", At: at, Words: "Lift A1 out"}
	for left := 12 * time.Minute; left >= -6*time.Minute; left -= 500 * time.Millisecond {
		term.time(engine.View{State: day.State{Closed: true}, Now: at.Add(-left)}, deadline{d, []string{"A1"}})
	}
	want := "10 min, then A1 comes out.|5 min, then A1 comes out.|2 min, then A1 comes out.|1 min, then A1 comes out.|Now: lift A1 out.|5 min late: lift A1 out."
	if s := strings.Join(strings.Split(strings.TrimSpace(out.String()), "\n"), "|"); s != want {
		t.Errorf("told %s, want %s", s, want)
	}
}

// A line is read whole up to lineMost, with any end; of a longer one the rest is left out, marked; and the lines after it are read too.
func TestLinesOfAnyLength(t *testing.T) {
	long, endless := strings.Repeat("x", 1<<17), strings.Repeat("y", lineMost)
	term := New(strings.NewReader("one\r\n\n "+long+"\n"+endless+endless+"\nlast"), &bytes.Buffer{})
	var got []string
	for line := range term.lines {
		got = append(got, line)
	}
	if want := []string{"one", "", long, endless + "…", "last"}; !slices.Equal(got, want) {
		t.Errorf("%d lines, the last %.20q", len(got), got[max(0, len(got)-1)])
	}
}

// Where pieces are of several people it is asked once how many pairs of hands are at the vat; once it was said, no more.
func TestHandsAreAskedOnce(t *testing.T) {
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	s, err := day.Begin(rehearse.Head(soda, now))
	put := func(b day.Body) {
		if err == nil {
			s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b})
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	put(day.Opened{How: "build"})
	asked := func(term *Terminal, times int) string {
		var out bytes.Buffer
		term.out = &out
		for range times {
			term.tell(engine.View{ID: "bin/d", State: s, Now: now})
		}
		return out.String()
	}
	term := New(nil, nil)
	put(day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 50, Dips: 3, Who: "Lu"}})
	if said := asked(term, 1); strings.Contains(said, day.HandsAsked) {
		t.Errorf("one person: %s", said)
	}
	put(day.PieceAdded{OfPiece: day.OfPiece{Tag: "B1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 50, Dips: 3, Who: "Mo"}})
	if said := asked(term, 3); strings.Count(said, day.HandsAsked+" hands 1, hands 2 or hands 3.") != 1 {
		t.Errorf("it says %s", said)
	}
	put(day.HandsTold{Hands: 2})
	if said := asked(New(nil, nil), 1); strings.Contains(said, day.HandsAsked) {
		t.Errorf("it was said: %s", said)
	}
}

// What comes out together is told in the words of its call, once.
func TestALoadIsToldOnce(t *testing.T) {
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	h := rehearse.Head(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	put := func(b day.Body) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	put(day.Opened{How: "tend"})
	put(day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"})
	put(day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true})
	for _, tag := range []string{"A1", "B1"} {
		of := day.OfPiece{Tag: tag}
		put(day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 50, Dips: 3}})
		put(day.WettedOut{OfPiece: of})
		put(day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(8)})
	}
	var out bytes.Buffer
	term := New(nil, &out)
	for range 3 {
		v := engine.View{ID: "bin/d", State: s, Now: now.Add(8*time.Minute + time.Second)}
		for _, d := range deadlines(v) {
			term.time(v, d)
		}
	}
	if got := out.String(); !strings.HasPrefix(got, "Now: lift A1, B1 out.\n") || strings.Count(got, "Now: ") != 1 {
		t.Errorf("it tells %q", got)
	}
}

// The linear mode says of the liquor what the screens show, and what the vat wants.
func TestTheVatInWords(t *testing.T) {
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	h := rehearse.Head(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true, Sulfur: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	put := func(b day.Body) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	temp, low := quantity.Celsius(36), 9.4
	put(day.Opened{How: "tend"})
	put(day.Reading{Temp: &temp, PH: &low})
	var out bytes.Buffer
	term, v := New(nil, &out), engine.View{ID: "bin/d", State: s, Now: now}
	term.vat(v)
	for _, want := range []string{"The vat has 36 °C, measured, below 30 °C at ", "with the lid at ", "pH 8.9 to 9.9, measured"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	out.Reset()
	term.wants(v)
	for _, want := range []string{"soda ash", "Caution: ", "When it is in, type: give soda ", "Wait 15 min, then: "} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	// What it says to type is understood.
	_, line, _ := strings.Cut(out.String(), "type: ")
	line, _, _ = strings.Cut(line, "\n")
	if _, _, c, err := answer.Take(s, now, line); err != nil {
		t.Errorf("%q: %v", line, err)
	} else if d := c[0].(day.Dose); d.Wait != soda.Liquor.Recheck || d.Powders[0].Mass <= 0 {
		t.Errorf("%q is %+v", line, d)
	}
}

// Of the pieces it says what the screens show: how blue, how many dips, and how that is known.
func TestTheBluesInWords(t *testing.T) {
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	soda, _ := recipes.Find("soda")
	h := rehearse.Head(soda, now)
	h.Opening = day.Opening{Number: 2, Built: true, Sulfur: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range []day.Body{
		day.Opened{How: "tend"},
		day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 200, Depth: "mid", Dip: quantity.Minutes(5)}},
	} {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	New(nil, &out).blues(engine.View{ID: "bin/d", State: s, Now: now}, "A1")
	for _, want := range []string{"A1: dips for mid: likely ", " eight times in ten", "How this is known: guess."} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	out.Reset()
	New(nil, &out).blues(engine.View{ID: "bin/d", State: s, Now: now}, "Z9")
	if !strings.Contains(out.String(), "No piece is there") {
		t.Errorf("of a piece that is not there it says %s", out.String())
	}
}

// In a window a line is broken between words, in a pipe it is one.
func TestALineIsBrokenBetweenWords(t *testing.T) {
	var out strings.Builder
	term := New(nil, &out)
	term.say("Sprinkle the sodium dithionite, dry.\nThen stir.")
	term.Width = func() int { return 20 }
	term.say("Sprinkle the sodium dithionite, dry.\nThen stir.")
	if want := "Sprinkle the sodium dithionite, dry.\nThen stir.\nSprinkle the sodium\ndithionite, dry.\nThen stir.\n"; out.String() != want {
		t.Errorf("%q", out.String())
	}
}
