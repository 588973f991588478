package follow_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/follow"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// filling is a soda vat with its filling open and its caution answered.
func filling(t *testing.T, change func(*day.Head)) day.State {
	t.Helper()
	r, _ := recipes.Find("soda")
	h := rehearse.Head(r, morning)
	if change != nil {
		change(&h)
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	bodies := []day.Body{day.Opened{How: "build"}}
	for _, st := range s.Plan {
		if st.Do == "fill" {
			bodies = append(bodies, day.CautionAnswered{OfStep: day.OfStep{Step: st.No}})
			break
		}
		bodies = append(bodies, day.StepDone{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do)})
	}
	for _, b := range bodies {
		s = apply(t, s, morning, b)
	}
	if st, open := s.Open(); !open || st.Do != "fill" || day.Next(s, morning).Caution != "" {
		t.Fatalf("open is %+v", st)
	}
	return s
}

func apply(t *testing.T, s day.State, at time.Time, b day.Body) day.State {
	t.Helper()
	s, err := day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: at, Body: b})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// reading is what keys put down as a reading, through the day's own rules.
func reading(t *testing.T, s day.State, keys ...string) day.Reading {
	t.Helper()
	e := env(s, morning, 80, 24, style.New(style.Options{}))
	scr, r := screentest.Press(follow.New(e), e, keys...)
	if len(r) != 1 {
		t.Fatalf("%v asks for %v:\n%s", keys, r, screentest.Shown(t, scr, e))
	}
	do, ok := r[0].(screen.Do)
	if !ok {
		t.Fatalf("%v asks for %T", keys, r[0])
	}
	bodies, err := day.Decide(s, do.Command, morning)
	if err != nil || len(bodies) != 1 {
		t.Fatalf("%v: %v, %v", keys, bodies, err)
	}
	b, ok := bodies[0].(day.Reading)
	if !ok {
		t.Fatalf("%v is %+v", keys, bodies[0])
	}
	return b
}

func unmeasured(h *day.Head) { h.Setup.Vessel = "" }

// How full it is is typed as the distance below the rim, or as what is in it; bare figures alone are °C.
func TestHowFullIsTyped(t *testing.T) {
	s := filling(t, nil)
	if b := reading(t, s, "d", "4", "0", "enter"); b.BelowRim == nil || b.BelowRim.Centimetres() != 40 || b.Holds != nil || b.Temp != nil {
		t.Errorf("d 40 is %+v", b)
	}
	if b := reading(t, s, "d", "2", "8", "space", "L", "enter"); b.Holds == nil || *b.Holds != quantity.Litres(28) || b.BelowRim != nil {
		t.Errorf("d 28 L is %+v", b)
	}
	if b := reading(t, s, "3", "7", "enter"); b.Temp == nil || *b.Temp != 37 || b.BelowRim != nil || b.Holds != nil {
		t.Errorf("37 is %+v", b)
	}
	us := filling(t, func(h *day.Head) { h.Setup.Units = "us" })
	if b := reading(t, us, "d", "1", "6", "enter"); b.BelowRim == nil || b.BelowRim.Centimetres() < 40.6 || b.BelowRim.Centimetres() > 40.7 {
		t.Errorf("in inches d 16 is %+v", b)
	}
	bare := filling(t, unmeasured)
	if b := reading(t, bare, "d", "2", "8", "enter"); b.Holds == nil || *b.Holds != quantity.Litres(28) || b.BelowRim != nil {
		t.Errorf("in a vessel that is not measured d 28 is %+v", b)
	}
}

// A reading of depth and °C changes what is still to be poured, and how.
func TestAReadingCorrectsTheFilling(t *testing.T) {
	st := style.New(style.Options{})
	s := filling(t, nil)
	e := env(s, morning, 80, 24, st)
	before := follow.New(e).View(e)
	if before.Figure.Number != "24.4 + 29.4" || before.Figure.Unit != "L" {
		t.Fatalf("at first it wants %q %q", before.Figure.Number, before.Figure.Unit)
	}
	for _, keys := range [][]string{{"d", "4", "0", "enter"}, {"1", "5", "enter"}} {
		b := reading(t, s, keys...)
		s = apply(t, s, morning.Add(4*time.Minute), b)
	}
	e = env(s, morning.Add(4*time.Minute), 80, 24, st)
	then := follow.New(e).View(e)
	if then.Figure.Number != "1.8 + 27.8" || !strings.Contains(strings.Join(then.How, " "), "In it: 24.2 L at 15 °C.") {
		t.Errorf("after 24.2 L of 15 °C it wants %q and says %q", then.Figure.Number, then.How)
	}
	full, warm := quantity.Litres(53.7), quantity.Celsius(38)
	s = apply(t, s, morning.Add(8*time.Minute), day.Reading{Holds: &full, Temp: &warm})
	e = env(s, morning.Add(8*time.Minute), 80, 24, st)
	if got := follow.New(e).View(e); got.Figure.Number != "" || got.Figure.Note != "nothing more to pour" {
		t.Errorf("full and warm it wants %q, %q", got.Figure.Number, got.Figure.Note)
	}
}

// A figure that is typed stands where the figure's note was: nothing else on the screen moves.
func TestTypingMovesNothing(t *testing.T) {
	st := style.New(style.Options{})
	s := filling(t, nil)
	for _, size := range screentest.Sizes {
		e := env(s, morning, size[0], size[1], st)
		before := strings.Split(screentest.Shown(t, follow.New(e), e), "\n")
		for _, keys := range [][]string{{"3", "7"}, {"4"}} {
			scr, _ := screentest.Press(follow.New(e), e, keys...)
			changed := 0
			for i, l := range strings.Split(screentest.Shown(t, scr, e), "\n") {
				if l != before[i] {
					changed++
				}
			}
			if changed != 1 {
				t.Errorf("%v: %v changes %d rows:\n%s", size, keys, changed, screentest.Shown(t, scr, e))
			}
		}
	}
}

// The keys beside the steps open what they say.
func TestTheKeysBesideTheSteps(t *testing.T) {
	e := env(filling(t, nil), morning, 80, 24, style.New(style.Options{}))
	for k, want := range map[string]screen.Request{
		"a": screen.Go{To: screen.AtDose, Day: "garden-bin/d"}, "g": screen.Go{To: screen.AtCourse, Day: "garden-bin/d"},
		"c": screen.Do{Command: day.Record{Body: day.VatCovered{}}}, "e": screen.Do{Command: day.Record{Body: day.HeaterOn{Power: quantity.Watts(1000)}}},
	} {
		if _, r := screentest.Press(follow.New(e), e, k); len(r) != 1 || r[0] != want {
			t.Errorf("%s asks for %v", k, r)
		}
	}
}
