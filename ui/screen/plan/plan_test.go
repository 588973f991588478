package plan_test

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/plan"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var nine = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// vat is a living vat, ready, with pieces; judged: its ladder of the day before has four rungs.
func vat(t testing.TB, judged bool, bodies ...day.Body) engine.View {
	t.Helper()
	r, _ := recipes.Find("soda")
	h := rehearse.Head(r, nine)
	h.Opening = day.Opening{Number: 2, Built: true}
	for i, l := range []string{"lab 72 -5 -13", "lab 62 -5 -18", "lab 55 -5 -20", "lab 50 -4.5 -21"} {
		if judged {
			h.Opening.Swatches = append(h.Opening.Swatches, day.CarriedSwatch{At: nine.AddDate(0, 0, -1), Tag: "L1", Fibre: "cotton", Ladder: true, Dips: i + 1,
				Dip: quantity.Minutes(5), Sure: true, Temp: 36, PH: 10.8, PerLitre: quantity.GramsPerLitre(0.9), Looks: l})
		}
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	warm := quantity.Celsius(36)
	for _, b := range append([]day.Body{day.Opened{How: "tend"}, day.CautionAnswered{OfStep: day.OfStep{Step: 1}}, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}, day.Reading{Temp: &warm}}, bodies...) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: nine, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return seen(engine.View{ID: "garden-bin/d", State: s, Now: nine}.At(nine))
}

func seen(v engine.View) engine.View {
	o := outlook.Of(v.State, v.Now)
	b := outlook.Blues(v.State, o, v.Now)
	v.Outlook, v.Blue = &o, &b
	return v
}

func piece(tag, fibre string, spec day.PieceSpec) day.Body {
	spec.Fibre = fibre
	if spec.Dry == 0 {
		spec.Dry = quantity.Grams(420)
	}
	return day.PieceAdded{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: spec}
}

func env(v engine.View, w, h int, st style.Style, tag string) screen.Env {
	return screen.Env{Now: v.Now, Width: w, Height: h, Style: st, ID: v.ID, Tag: tag, Days: engine.Snapshot{Days: []engine.View{v}}}
}

var plain = style.New(style.Options{})

// dipped is a piece that had so many dips.
func dipped(tag string, n int) []day.Body {
	of := day.OfPiece{Tag: tag}
	out := []day.Body{day.WettedOut{OfPiece: of}}
	for i := range n {
		out = append(out, day.DipBegun{OfPiece: of, Dip: i + 1, For: quantity.Minutes(5)}, day.DipEnded{OfPiece: of, Dip: i + 1, Air: quantity.Minutes(10)})
	}
	return out
}

// In every state and every window the strip is whole, its chosen number and the answer are said, and how sure it is.
func TestThePlannerIsWhole(t *testing.T) {
	mid := piece("A1", "cotton", day.PieceSpec{What: "runner", Depth: "mid"})
	cut := regexp.MustCompile(`(?m)\d+ more\s*$`)
	bare := regexp.MustCompile(`ΔE 0\.\d[;.]`)
	for name, c := range map[string]struct {
		v    engine.View
		want []string
	}{
		"guess":       {vat(t, false, mid), []string{": likely ", "(a guess)", " times in 100."}},
		"calibrated":  {vat(t, true, mid), []string{": likely ", "(by your swatches)", "times in 100", "is right or one off"}},
		"planned":     {vat(t, true, piece("A1", "cotton", day.PieceSpec{Depth: "mid", Dips: 2})), []string{": likely ", "The plan has 2, as was said."}},
		"on its way":  {vat(t, true, append([]day.Body{mid}, dipped("A1", 3)...)...), []string{": likely ", "eight"}},
		"no wish":     {vat(t, false, piece("A1", "silk", day.PieceSpec{Dips: 3})), []string{"1 says which blue you wish"}},
		"no rung":     {vat(t, false, piece("A1", "linen", day.PieceSpec{Rung: 5, Dips: 4})), []string{"rung 5 has no colour yet"}},
		"like":        {vat(t, false, piece("A1", "linen", day.PieceSpec{Like: "bin/2026-03-01/A1", Dips: 4})), []string{"its wish is kept"}},
		"unreachable": {vat(t, true, piece("A1", "cotton", day.PieceSpec{Lab: [3]float64{16, 1, -12}})), []string{"30 or more"}},
		"off indigo":  {vat(t, true, piece("A1", "cotton", day.PieceSpec{Lab: [3]float64{50, 40, -20}})), []string{"Indigo alone on white"}},
		"tired":       {vat(t, true, piece("A1", "cotton", day.PieceSpec{Depth: "navy", Dry: quantity.Kilograms(6)})), []string{"30 or more"}},
	} {
		for _, size := range screentest.Sizes {
			for profile, st := range map[string]style.Style{"none": plain, "true": style.New(style.Options{Profile: style.TrueColour})} {
				e := env(c.v, size[0], size[1], st, "A1")
				text := screentest.Shown(t, plan.New(e), e)
				flat := strings.Join(strings.Fields(strings.NewReplacer("▒", " ", "▓", " ", "░", " ", "█", " ").Replace(text)), " ")
				for _, want := range c.want {
					if !strings.Contains(flat, want) && (name != "off indigo" || size[1] > 20) {
						t.Errorf("%s %v %s: %q is missing:\n%s", name, size, profile, want, text)
					}
				}
				if cut.MatchString(text) || !strings.Contains(flat, " 16") {
					t.Errorf("%s %v %s: the strip is cut:\n%s", name, size, profile, text)
				}
				if bare.MatchString(flat) {
					t.Errorf("%s %v %s: that a difference is unseen is not said:\n%s", name, size, profile, text)
				}
				if profile == "none" && !strings.Contains(flat, "L* 8") {
					t.Errorf("%s %v: without colour no figures:\n%s", name, size, text)
				}
			}
		}
	}
}

// The keys do what they say: the number of dips is chosen and taken, the wish is changed, other pieces come in hand.
func TestTheKeysOfThePlanner(t *testing.T) {
	spec := day.PieceSpec{What: "runner", Fibre: "cotton", Dry: quantity.Grams(420), Depth: "mid"}
	v := vat(t, true, day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: spec}, piece("B1", "cotton", day.PieceSpec{Dips: 3}))
	best := v.Blue.Pieces["A1"].Answer.Likely
	changed := func(tag string, change func(*day.PieceSpec)) screen.Request {
		p, _ := v.State.Piece(tag)
		s := p.Spec
		change(&s)
		return screen.Do{Command: day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: tag}, PieceSpec: s}}}
	}
	typed := func(text string) []string { return append(strings.Split("1"+text, ""), "enter") }
	for name, c := range map[string]struct {
		keys []string
		want []screen.Request
	}{
		"the best":  {[]string{"space"}, []screen.Request{changed("A1", func(s *day.PieceSpec) { s.Dips = best }), screen.Leave{}}},
		"one more":  {[]string{"right", "enter"}, []screen.Request{changed("A1", func(s *day.PieceSpec) { s.Dips = best + 1 }), screen.Leave{}}},
		"two less":  {[]string{"left", "left", "pgdown"}, []screen.Request{changed("A1", func(s *day.PieceSpec) { s.Dips = best - 2 }), screen.Leave{}}},
		"the other": {[]string{"down", "right", "space"}, []screen.Request{changed("B1", func(s *day.PieceSpec) { s.Dips = 4 }), screen.Leave{}}},
		"as it is":  {[]string{"up", "space"}, []screen.Request{screen.Leave{}}},
		"away":      {[]string{"esc"}, []screen.Request{screen.Leave{}}},
		"a depth":   {typed("navy"), []screen.Request{changed("A1", func(s *day.PieceSpec) { s.Depth = "navy" })}},
		"a rung":    {typed("rung 3"), []screen.Request{changed("A1", func(s *day.PieceSpec) { s.Depth, s.Rung, s.Dips, s.Dip = "", 3, 4, quantity.Minutes(5) })}},
		"a colour": {typed("lab 31 -3 -20"), []screen.Request{changed("A1", func(s *day.PieceSpec) {
			s.Depth, s.Lab, s.Dips, s.Dip = "", [3]float64{31, -3, -20}, 4, quantity.Minutes(5)
		})}},
		"of the book": {typed("bin/2026-03-01/A1"), []screen.Request{changed("A1", func(s *day.PieceSpec) {
			s.Depth, s.Like, s.Dips, s.Dip = "", "bin/2026-03-01/A1", 4, quantity.Minutes(5)
		})}},
		"nonsense": {typed("deep"), nil},
	} {
		e := env(v, 80, 24, plain, "A1")
		s, got := screentest.Press(plan.New(e), e, c.keys...)
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
		for _, r := range got {
			if do, ok := r.(screen.Do); ok {
				if _, err := day.Decide(v.State, do.Command, v.Now); err != nil {
					t.Errorf("%s is refused: %v", name, err)
				}
			}
		}
		if name == "nonsense" && !strings.Contains(screentest.Shown(t, s, e), `no depth is called "deep"`) {
			t.Errorf("nonsense is not told:\n%s", screentest.Shown(t, s, e))
		}
	}
}

// Never fewer dips than it had: blue is not taken off.
func TestNoFewerThanDone(t *testing.T) {
	v := vat(t, true, append([]day.Body{piece("A1", "cotton", day.PieceSpec{Depth: "milk"})}, dipped("A1", 3)...)...)
	e := env(v, 80, 24, plain, "A1")
	_, got := screentest.Press(plan.New(e), e, "left", "left", "left", "space")
	if len(got) != 2 || got[0].(screen.Do).Command.(day.Record).Body.(day.PieceChanged).Dips != 3 {
		t.Errorf("it takes %+v", got)
	}
	v = vat(t, true, append([]day.Body{piece("A1", "cotton", day.PieceSpec{Dips: 2})}, dipped("A1", 3)...)...)
	if keys := plan.New(e).Keys(env(v, 80, 24, plain, "A1")); keys[0].Desc != "take 3" {
		t.Errorf("planned for 2 and dipped 3 times it offers to %q", keys[0].Desc)
	}
}

// End to end asks for two times, and says which edge comes out first, when to turn it, and the shortest level dip.
func TestEndToEnd(t *testing.T) {
	v := vat(t, true, piece("A1", "cotton", day.PieceSpec{What: "runner", Depth: "mid"}))
	for _, size := range screentest.Sizes {
		e := env(v, size[0], size[1], plain, "A1")
		s, _ := screentest.Press(plan.New(e), e, "2", "2", "0", "x", "enter")
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "how many seconds") {
			t.Errorf("20x is taken:\n%s", text)
		}
		s, _ = screentest.Press(s, e, "backspace", "enter", "1", "5", "enter")
		text := screentest.Shown(t, s, e)
		for _, want := range []string{"Lift first the edge that went in first", "shortest dip", "Turn it"} {
			if !strings.Contains(text, want) {
				t.Errorf("%v: %q is missing:\n%s", size, want, text)
			}
		}
		if s, r := screentest.Press(s, e, "space"); len(r) != 0 || !s.View(e).ActBig {
			t.Error("space does not lead back to the strip")
		}
	}
}

// What the engine reckoned is shown and not reckoned again at each picture: a forecast that nobody could reckon stays.
func TestTheEnginesForecastIsShown(t *testing.T) {
	v := vat(t, true, piece("A1", "cotton", day.PieceSpec{Depth: "mid"}))
	c := v.Blue.Pieces["A1"]
	for i := range c.Steps {
		c.Steps[i].Depth = "tartan"
	}
	c.Answer.Low, c.Answer.Likely, c.Answer.High = 10, 11, 13
	v.Blue.Pieces["A1"] = c
	e := env(v, 120, 40, plain, "A1")
	s := plan.New(e)
	for range 3 {
		if text := screentest.Shown(t, s, e); !strings.Contains(text, "tartan") || !strings.Contains(text, "likely 11, 10 to 13 eight times in ten") {
			t.Fatalf("it reckoned by itself:\n%s", text)
		}
	}
}

func BenchmarkView(b *testing.B) {
	e := env(vat(b, true, piece("A1", "cotton", day.PieceSpec{Depth: "mid"})), 120, 40, style.New(style.Options{Profile: style.TrueColour}), "A1")
	s := plan.New(e)
	for b.Loop() {
		s.View(e)
	}
}

// Choosing another number moves nothing: the strip, its numbers and the answer stay where they are.
func TestNothingJumps(t *testing.T) {
	for name, v := range map[string]engine.View{
		"guess":      vat(t, false, piece("A1", "cotton", day.PieceSpec{Depth: "mid"})),
		"calibrated": vat(t, true, piece("A1", "cotton", day.PieceSpec{Depth: "mid"})),
		"on its way": vat(t, true, append([]day.Body{piece("A1", "cotton", day.PieceSpec{Depth: "mid"})}, dipped("A1", 3)...)...),
	} {
		sizes := append([][2]int{{64, 22}, {72, 26}, {78, 24}, {84, 28}, {90, 30}, {100, 33}, {110, 36}}, screentest.Sizes...)
		for i, size := range slices.Concat(sizes, sizes) {
			st := plain
			if i >= len(sizes) {
				if !long.Runs() && i%4 > 0 {
					continue
				}
				st = style.New(style.Options{Profile: style.TrueColour})
			}
			e := env(v, size[0], size[1], st, "A1")
			s := plan.New(e)
			for range 10 {
				s, _ = screentest.Press(s, e, "left")
			}
			var first [2]int
			for n := range 13 {
				var at [2]int
				for i, l := range strings.Split(screentest.Shown(t, s, e), "\n") {
					if strings.Contains(l, " 15 ") && strings.Trim(l, " 0123456789new") == "" {
						at[0] = i
					}
					if strings.Contains(l, ": likely ") {
						at[1] = i
					}
				}
				if n == 0 {
					first = at
				}
				if at != first || at[0] == 0 || at[1] == 0 {
					t.Fatalf("%s %v: after %d steps numbers and answer are in rows %v, before in %v:\n%s", name, size, n, at, first, screentest.Shown(t, s, e))
				}
				s, _ = screentest.Press(s, e, "right")
			}
		}
	}
}

// Where pieces are of several people the planner asks once how many pairs of hands there are; the strip and the answer stay whole.
func TestThePlannerAsksForHands(t *testing.T) {
	mo := piece("A1", "cotton", day.PieceSpec{What: "runner", Depth: "mid", Who: "Mo"})
	lu := piece("B1", "cotton", day.PieceSpec{Dips: 3, Who: "Lu"})
	for _, size := range screentest.Sizes {
		e := env(vat(t, false, mo, lu), size[0], size[1], plain, "A1")
		text := strings.Join(strings.Fields(screentest.Shown(t, plan.New(e), e)), " ")
		for _, want := range []string{day.HandsAsked + " Reckoned with 1.", "1 pair 2 pairs 3 pairs", " 16", "likely 4"} {
			if !strings.Contains(text, want) {
				t.Errorf("%v: %q is missing:\n%s", size, want, text)
			}
		}
		_, asks := screentest.Press(plan.New(e), e, "3")
		if want := []screen.Request{screen.Do{Command: day.Record{Body: day.HandsTold{Hands: 3}}}}; !reflect.DeepEqual(asks, want) {
			t.Errorf("3 asks for %+v", asks)
		}
		e = env(vat(t, false, mo, lu, day.HandsTold{Hands: 3}), size[0], size[1], plain, "A1")
		scr, asks := screentest.Press(plan.New(e), e, "1")
		if text := screentest.Shown(t, scr, e); len(asks) > 0 || strings.Contains(text, day.HandsAsked) || !screen.Capturing(scr) {
			t.Errorf("%v: it was said, and 1 asks for %+v", size, asks)
		}
	}
}

// A wish is a colour seen on a day under a known light: typed as a meter read it under another light, or as a piece of the book was seen.
// The planner has it in daylight, and says how many dips it takes in today's vat, and the chance.
func TestAWishIsAColourUnderKnownLight(t *testing.T) {
	v := vat(t, true, piece("A1", "cotton", day.PieceSpec{Dips: 3}))
	p, _ := v.State.Piece("A1")
	want := shade.FromMeter(colour.Lab{L: 48, A: -4, B: -21}, colour.AAt10, shade.White)
	typed, err := plan.Wished(p, "lab@A/10 48 -4 -21")
	if err != nil || typed.Lab != screen.LabOf(want) || typed.Lab == [3]float64{48, -4, -21} {
		t.Fatalf("%+v %v", typed, err)
	}
	like := typed
	like.Like, like.Dips = "bin/2026-03-01/A1", 0
	for of, spec := range map[string]day.PieceSpec{"Wish": typed, "Like bin/2026-03-01/A1": like} {
		v := vat(t, true, piece("A1", "cotton", spec))
		e := env(v, 120, 40, plain, "A1")
		c := v.Blue.Pieces["A1"]
		flat := strings.Join(strings.Fields(screentest.Shown(t, plan.New(e), e)), " ")
		says := fmt.Sprintf("%s L* %.0f a* %.0f b* %.0f in daylight, A1: %s (by your swatches). Those dips give the wish %.0f times in 100.", of, typed.Lab[0], typed.Lab[1], typed.Lab[2],
			c.Answer.Words(), 100*c.Answer.Chance)
		if !strings.Contains(flat, says) {
			t.Errorf("%q is missing", says)
		}
	}
}
