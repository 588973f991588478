package clock_test

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

// looking is A1, wished mid, after its second dip of 4, aired.
func looking(t *testing.T) (day.State, time.Time) {
	t.Helper()
	spec := day.AddPiece{Tag: "A1", Spec: day.PieceSpec{What: "runner", Fibre: "linen", Dry: quantity.Grams(420), Depth: "mid", Dip: quantity.Minutes(8)}}
	return vat(t, append(append([]any{spec}, through("A1", 2)...), 2*time.Minute)...)
}

func decided(say string) []screen.Request {
	return []screen.Request{screen.Do{Command: day.Decided{Tag: "A1", Say: say, Call: "look A1 2"}}}
}

// At the look that decides the wish, wet, dry and one dip more stand side by side, with their names and figures, at each size and
// without colours; a figure is an answer and no rung.
func TestTheLookThatDecides(t *testing.T) {
	s, now := looking(t)
	e := known(env(s, now, 60, 20, style.New(style.Options{})), 4)
	for _, size := range screentest.Sizes {
		for _, st := range []style.Style{style.New(style.Options{}), style.New(style.Options{Profile: style.TrueColour})} {
			e.Width, e.Height, e.Style = size[0], size[1], st
			scr := clock.New(e)
			text := screentest.Shown(t, scr, e)
			for _, want := range []string{"the wish", "now, wet", "dry, forecast", "one dip more", "mid", "L* 41", "L* 56", "L* 63", "L* 57", "wish met 0 %", "wish met 6 %", "Dips for mid: likely",
				"1 stop: 2 dips", "2 one more: 3", "3 as planned: 4, 2 more", "No answer in 1:00: as planned. For a rung type : rung 4"} {
				if !strings.Contains(text, want) {
					t.Errorf("%v: %q is missing:\n%s", size, want, text)
				}
			}
			if strings.Contains(text, "which is it like") {
				t.Errorf("%v: figures mean two things:\n%s", size, text)
			}
			if sheet := scr.View(e); sheet.Act != "LOOK A1" {
				t.Errorf("the large letters are %q", sheet.Act)
			}
		}
	}
	for key, want := range map[string][]screen.Request{
		"1": decided(day.LookStop), "2": decided(day.LookMore), "3": decided(day.LookPlanned),
		"4":     {screen.Say{Word: "1 stop, 2 one more, 3 as planned; for a rung type : rung 4"}},
		"space": {screen.Do{Command: day.Done{Call: "look A1 2"}}},
	} {
		if _, got := screentest.Press(clock.New(e), e, key); !reflect.DeepEqual(got, want) {
			t.Errorf("%s wants %+v", key, got)
		}
	}
	var keys []string
	for _, b := range clock.New(e).Keys(e)[:4] {
		keys = append(keys, b.Key+" "+b.Desc)
	}
	if got := strings.Join(keys, ", "); got != "space as planned, 1 stop, 2 one more, 3 as planned" {
		t.Errorf("the keys are %s", got)
	}
	// Nothing is known of the vat: names alone, by the usual number of dips.
	bare := env(s, now, 60, 20, style.New(style.Options{}))
	if text := screentest.Shown(t, clock.New(bare), bare); !strings.Contains(text, "the wish") || !strings.Contains(text, "dry, forecast") || strings.Contains(text, "now, wet") {
		t.Errorf("without forecasts it shows\n%s", text)
	}
}

// While goods are in, the look stands in a sentence and its figures act; in the last minute of the lift they are the lift's.
func TestALookBesideADip(t *testing.T) {
	s, now := looking(t)
	s, now = then(t, s, now, piece("B1", "scarf", 5), day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "B1"}}}, day.Record{Body: day.FrothSkimmed{}},
		day.Lower{Tag: "B1"}, time.Minute)
	e := known(env(s, now, 60, 20, style.New(style.Options{})), 4)
	for _, size := range screentest.Sizes {
		e.Width, e.Height = size[0], size[1]
		text, then := screentest.Shown(t, clock.New(e), e), "; with a dip more "
		if size[1] == 20 { // there its first half has room
			then = "; "
		}
		if !strings.Contains(strings.Join(strings.Fields(strings.ReplaceAll(text, "░", "")), " "), "A1: enough? 1 stop, 2 one more, 3 as planned. Dry it is pale"+then) {
			t.Errorf("%v shows\n%s", size, text)
		}
		if _, got := screentest.Press(clock.New(e), e, "1"); !reflect.DeepEqual(got, decided(day.LookStop)) {
			t.Errorf("1 wants %+v", got)
		}
	}
	e = known(env(s, now.Add(6*time.Minute), 80, 24, style.New(style.Options{})), 4)
	scr, _ := screentest.Press(clock.New(e), e, "down")
	for _, key := range []string{"1", "2"} {
		if _, got := screentest.Press(scr, e, key); len(got) > 0 {
			t.Errorf("in the last minute %s wants %+v", key, got)
		}
	}
	if text := screentest.Shown(t, scr, e); strings.Contains(text, "1 stop") || strings.Contains(text, "1–4") {
		t.Errorf("in the last minute it asks\n%s", text)
	}
}

// A cloth whose name is a range that has no room goes by its colour: a guess of L* 63 is not dark.
func TestAGuessThatIsPaleIsNotDark(t *testing.T) {
	spec := day.PieceSpec{What: "scarf", Fibre: "cotton", Dry: quantity.Grams(90), Depth: "pale", Dips: 2, Dip: quantity.Minutes(4)}
	of := day.OfPiece{Tag: "A1"}
	s, now := vat(t, day.AddPiece{Tag: "A1", Spec: spec}, day.Record{Body: day.WettedOut{OfPiece: of}}, day.Record{Body: day.FrothSkimmed{}},
		day.Lower{Tag: "A1"}, 4*time.Minute, day.Lift{Tag: "A1"}, 11*time.Minute)
	e := known(env(s, now, 80, 24, style.New(style.Options{})), 0)
	if text := screentest.Shown(t, clock.New(e), e); !strings.Contains(text, "L* 63") || strings.Contains(text, "dark ") {
		t.Errorf("it shows\n%s", text)
	}
}

// After the last planned dip to stop is as planned: two answers are left, and no answer is to stop.
func TestTheLastLookHasTwoAnswers(t *testing.T) {
	spec := day.AddPiece{Tag: "A1", Spec: day.PieceSpec{What: "runner", Fibre: "linen", Dry: quantity.Grams(420), Depth: "mid", Dips: 2, Dip: quantity.Minutes(8)}}
	s, now := vat(t, append(append([]any{spec}, through("A1", 2)...), 22*time.Minute)...)
	for _, size := range screentest.Sizes {
		e := known(env(s, now, size[0], size[1], style.New(style.Options{})), 4)
		text := strings.Join(strings.Fields(screentest.Shown(t, clock.New(e), e)), " ")
		if !strings.Contains(text, "1 stop: 2 dips") || !strings.Contains(text, "2 one more: 3") || !strings.Contains(text, ": no more dips.") || strings.Contains(text, "as planned") {
			t.Errorf("%v:\n%s", size, text)
		}
		if _, got := screentest.Press(clock.New(e), e, "3"); !reflect.DeepEqual(got, []screen.Request{screen.Say{Word: "1 stop, 2 one more; for a rung type : rung 4"}}) {
			t.Errorf("3 wants %+v", got)
		}
	}
}
