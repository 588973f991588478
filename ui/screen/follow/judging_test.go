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

// looking is a living vat at its look.
func looking(t *testing.T, id string, bodies ...day.Body) day.State {
	t.Helper()
	r, _ := recipes.Find(id)
	h := rehearse.Head(r, morning)
	h.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range append([]day.Body{day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"}}, bodies...) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: morning, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

// At the look a figure is a way, by which the vat is ready; y is the usual one; and each is named in every window.
func TestFiguresAreTheWays(t *testing.T) {
	for id, ways := range map[string][]string{
		"soda": {day.ByStrip, day.BySwatch, day.ByFilm, day.ByEye}, "madder-bran": {day.ByFilm, day.BySwatch, day.ByEye}, "iron-lime": {day.BySwatch, day.ByFilm, day.ByEye},
	} {
		s := looking(t, id)
		for _, size := range screentest.Sizes {
			e := env(s, morning, size[0], size[1], style.New(style.Options{}))
			text := strings.Join(strings.Fields(screentest.Shown(t, follow.New(e), e)), " ")
			for i, way := range ways {
				if way == day.ByEye {
					way = "your eye"
				}
				if figure := string(rune('1' + i)); size[0] > 60 && !strings.Contains(text, figure+" "+way) {
					t.Errorf("%s, %v: %s %s is not shown:\n%s", id, size, figure, way, text)
				}
			}
		}
		e := env(s, morning, 80, 24, style.New(style.Options{}))
		for i, way := range ways {
			if _, r := screentest.Press(follow.New(e), e, string(rune('1'+i))); len(r) != 1 || r[0] != (screen.Do{Command: day.Judge{Ready: true, By: way}}) {
				t.Errorf("%s: %d asks for %+v", id, i+1, r)
			}
		}
		if _, r := screentest.Press(follow.New(e), e, "9"); len(r) != 0 {
			t.Errorf("%s: 9 asks for %+v", id, r)
		}
		if _, r := screentest.Press(follow.New(e), e, "y"); len(r) != 1 || r[0] != (screen.Do{Command: day.Judge{Ready: true}}) {
			t.Errorf("%s: y asks for %+v", id, r)
		}
	}
}

// A strip is out, its seconds fill the screen, and it is blue; a step is left out at once.
func TestTheStripIsOnTheScreen(t *testing.T) {
	s := looking(t, "soda")
	e := env(s, morning, 80, 24, style.New(style.Options{}))
	if _, r := screentest.Press(follow.New(e), e, "t"); len(r) != 1 || r[0] != (screen.Do{Command: day.Record{Body: day.StripBegun{}}}) {
		t.Errorf("t asks for %+v", r)
	}
	if _, r := screentest.Press(follow.New(e), e, "s"); len(r) != 1 || r[0] != (screen.Do{Command: day.Skip{}}) {
		t.Errorf("s asks for %+v", r)
	}
	s = looking(t, "soda", day.StripBegun{})
	e = env(s, morning.Add(23*time.Second), 80, 24, style.New(style.Options{}))
	sheet := follow.New(e).View(e)
	if sheet.Figure.Number != "0:23" || sheet.Act != "BLUE YET?" {
		t.Errorf("it shows %+v, %q", sheet.Figure, sheet.Act)
	}
	if !screen.Watched(e) {
		t.Error("it does not count")
	}
	_, r := screentest.Press(follow.New(e), e, "t")
	if len(r) != 1 || r[0] != (screen.Do{Command: day.StripBlue{}}) {
		t.Errorf("t asks for %+v", r)
	}
	if _, r = screentest.Press(follow.New(e), e, "space"); len(r) != 1 || r[0] != (screen.Do{Command: day.Done{Call: "strip vat 1"}}) {
		t.Errorf("space asks for %+v", r)
	}
}

// Where the strip says not ready the big key says so, and the other answer has a key beside it: none is named twice.
func TestNoAnswerIsNamedTwice(t *testing.T) {
	for stayed, want := range map[float64]string{5: "y", 45: "n"} {
		e := env(looking(t, "soda", day.StripTest{Stayed: quantity.Seconds(stayed)}), morning.Add(time.Minute), 80, 24, style.New(style.Options{}))
		keys := follow.New(e).Keys(e)
		if space, other := keys[0], keys[1]; other.Key != want || other.Desc == space.Desc {
			t.Errorf("%v s: %s %s, %s %s", stayed, space.Key, space.Desc, other.Key, other.Desc)
		}
	}
}

// A strip that is watched while a powder is weighed stands in a sentence: the call keeps its letters and its figure.
func TestAStripBesideAWeighing(t *testing.T) {
	st := style.New(style.Options{})
	seen := false
	played(t, "soda", func(s day.State, now time.Time) {
		if open, _ := s.Open(); seen || open.Do != "weigh" || day.CallOf(s, now).Caution != "" {
			return
		}
		seen = true
		e := env(s, now, 80, 24, st)
		before := follow.New(e).View(e)
		s.Vat.Pulled = now.Add(-20 * time.Second)
		e = env(s, now, 80, 24, st)
		sheet := follow.New(e).View(e)
		if sheet.Act != before.Act || sheet.Figure.Number != before.Figure.Number || !strings.HasPrefix(sheet.How[0], "The strip is yellow, 0:20") && sheet.Act != "BLUE YET?" {
			t.Errorf("it shows %q %+v, %q, and before %q %+v", sheet.Act, sheet.Figure, sheet.How, before.Act, before.Figure)
		}
	})
	if !seen {
		t.Error("nothing was weighed")
	}
}
