package clock_test

import (
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

var noon = time.Date(2026, 3, 28, 12, 0, 0, 0, time.UTC)

// vat is a living vat with pieces, some of them already in it.
func vat(t testing.TB, commands ...any) (day.State, time.Time) {
	t.Helper()
	r, _ := recipes.Find("soda")
	h := rehearse.Head(r, noon)
	h.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range []day.Body{day.Opened{How: "tend"}, day.CautionAnswered{OfStep: day.OfStep{Step: 1}}, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}} {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: noon, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return then(t, s, noon, commands...)
}

// then is a day after these commands, with waits between them.
func then(t testing.TB, s day.State, now time.Time, commands ...any) (day.State, time.Time) {
	t.Helper()
	add := func(bodies ...day.Body) {
		for _, b := range bodies {
			var err error
			s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b})
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, c := range commands {
		switch c := c.(type) {
		case time.Duration:
			now = now.Add(c)
		case day.Command:
			bodies, err := day.Decide(s, c, now)
			if err != nil {
				t.Fatalf("%T: %v", c, err)
			}
			add(bodies...)
		}
	}
	return s, now
}

func piece(tag, what string, dips int) day.AddPiece {
	return day.AddPiece{Tag: tag, Spec: day.PieceSpec{What: what, Fibre: "linen", Dry: quantity.Grams(420), Dips: dips, Dip: quantity.Minutes(8)}}
}

func env(s day.State, now time.Time, w, h int, st style.Style) screen.Env {
	return screen.Env{
		Now: now, Width: w, Height: h, Style: st, ID: "garden-bin/d",
		Days: engine.Snapshot{Days: []engine.View{engine.View{ID: "garden-bin/d", State: s, Now: now}.At(now)}},
	}
}

// A running dip is a countdown over the whole screen (the widget's own test holds its digits to a quarter of the rows),
// and nothing is cut off at any size.
func TestARunningDipFillsTheScreen(t *testing.T) {
	st := style.New(style.Options{})
	s, now := vat(t, piece("A1", "runner", 7), day.Done{}, day.Done{}, day.Done{}, 4*time.Minute)
	for _, size := range screentest.Sizes {
		e := env(s, now, size[0], size[1], st)
		sheet := clock.New(e).View(e)
		if sheet.Figure.Number != "4:00" || sheet.Act != "A1 IN" {
			t.Fatalf("the clock shows %q over %q", sheet.Act, sheet.Figure.Number)
		}
		out := widget.Render(sheet, size[0], size[1], st)
		lines := strings.Split(out, "\n")
		if len(lines) != size[1] {
			t.Errorf("%v: %d lines", size, len(lines))
		}
		for _, l := range lines {
			if ansi.StringWidth(l) > size[0] {
				t.Errorf("%v: a line of %d cells", size, ansi.StringWidth(l))
			}
		}
	}
}

// A chosen piece gets the big key; without a choice the most pressing act does.
func TestTheBigKey(t *testing.T) {
	st := style.New(style.Options{})
	s, now := vat(t, piece("A1", "runner", 7), piece("B1", "scarf", 2), day.Done{}, day.Done{}, day.Done{}, time.Minute)
	e := env(s, now, 80, 24, st)
	scr := clock.New(e)
	for _, key := range []string{"space", "enter", "pgdown"} {
		if _, wants := scr.Update(screen.Key{Name: key}, e); len(wants) != 1 || wants[0] != (screen.Request(screen.Do{Command: day.Done{Call: "lift A1 1"}})) {
			t.Errorf("%s wants %v", key, wants)
		}
	}
	scr, _ = scr.Update(screen.Key{Name: "down"}, e)
	_, wants := scr.Update(screen.Key{Name: "space"}, e)
	if len(wants) != 1 || wants[0] != (screen.Request(screen.Do{Command: day.Done{Call: "lift A1 1"}})) {
		t.Errorf("space on the chosen piece wants %v", wants)
	}
}

// After a long absence the screen says since when the piece hangs and by how much it is over, and a time of day can be
// told for what happened.
func TestOverdueIsTold(t *testing.T) {
	st := style.New(style.Options{})
	s, now := vat(t, piece("A1", "runner", 7), day.Done{}, day.Done{}, day.Done{}, 3*time.Hour+10*time.Minute)
	e := env(s, now, 80, 24, st)
	scr := clock.New(e)
	sheet := scr.View(e)
	if sheet.Figure.Number != "+3:02:00" || !strings.Contains(strings.Join(sheet.How, " "), "since 12:00, 3 h 10 min") {
		t.Errorf("the clock shows %q, %q", sheet.Figure.Number, sheet.Figure.Note)
	}
	_, wants := screentest.Press(scr, e, "T", "1", "2", ":", "0", "9", "enter")
	if len(wants) != 1 {
		t.Fatalf("it wants %v", wants)
	}
	lift, ok := wants[0].(screen.Do).Command.(day.Lift)
	if !ok || !lift.When.Equal(noon.Add(9*time.Minute)) || lift.Assumed {
		t.Errorf("it wants %+v", wants[0])
	}
}

// The foot never takes rows from the clock: with pieces on the list the smallest window keeps its first row and no more,
// and a reading, a depth, the advice and the course are one key away.
func TestTheFootUnderTheClock(t *testing.T) {
	st := style.New(style.Options{})
	s, now := vat(t, piece("A1", "runner", 7), piece("B1", "scarf", 2), piece("C1", "napkin", 3), day.Done{}, day.Done{}, day.Done{}, 4*time.Minute)
	for _, size := range screentest.Sizes {
		e := env(s, now, size[0], size[1], st)
		foot := clock.New(e).View(e).Foot
		shown := screentest.Shown(t, clock.New(e), e)
		if len(foot) == 0 || !strings.Contains(shown, foot[0]) {
			t.Errorf("%v: the foot %q is not whole:\n%s", size, foot, shown)
		}
	}
	e := env(s, now, 80, 24, st)
	for k, want := range map[string]screen.Request{
		"a": screen.Go{To: screen.AtDose, Day: "garden-bin/d"}, "g": screen.Go{To: screen.AtCourse, Day: "garden-bin/d"},
		"c": screen.Do{Command: day.Record{Body: day.VatCovered{}}},
	} {
		if _, r := screentest.Press(clock.New(e), e, k); len(r) != 1 || r[0] != want {
			t.Errorf("%s asks for %v", k, r)
		}
	}
	_, r := screentest.Press(clock.New(e), e, "d", "1", "2", "enter")
	if len(r) != 1 {
		t.Fatalf("d 12 asks for %v", r)
	}
	if b, ok := r[0].(screen.Do).Command.(day.Record).Body.(day.Reading); !ok || b.BelowRim == nil || b.BelowRim.Centimetres() != 12 {
		t.Errorf("d 12 is %+v", r)
	}
}

// A vat that ended while its pieces were dipped has the last screen of an ended vat here too.
func TestTheClockOfAnEndedVat(t *testing.T) {
	s, now := vat(t, day.Answered{Command: day.Record{Body: day.VatEnded{Why: "worn out", Route: "the foul sewer"}}})
	if !s.Ended {
		t.Fatal("it has not ended")
	}
	for _, size := range screentest.Sizes {
		e := env(s, now, size[0], size[1], style.New(style.Options{}))
		if sheet := clock.New(e).View(e); sheet.Act != "VAT ENDED" || strings.Join(sheet.Foot, "|") != "ended" {
			t.Errorf("%v: %q over %q", size, sheet.Act, sheet.Foot)
		}
		if text := screentest.Shown(t, clock.New(e), e); !strings.Contains(text, "the foul sewer") {
			t.Errorf("%v does not say where it went:\n%s", size, text)
		}
		if keys := clock.New(e).Keys(e); len(keys) != 2 || keys[0].Desc != "log" || keys[1].Desc != "home" {
			t.Errorf("the keys are %v", keys)
		}
		for k, want := range map[string]screen.Request{"l": screen.Go{To: screen.AtLog, Day: e.ID}, "esc": screen.Leave{}, "space": screen.Leave{}} {
			if _, r := screentest.Press(clock.New(e), e, k); len(r) != 1 || r[0] != want {
				t.Errorf("%s asks for %v", k, r)
			}
		}
		if c, r := screentest.Press(clock.New(e), e, "r"); len(r) != 1 || screen.Capturing(c) {
			t.Errorf("r asks for %v", r)
		}
	}
}
