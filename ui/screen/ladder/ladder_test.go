package ladder_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/ladder"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var nine = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// vat is a living vat, ready; carried is how many rungs of a ladder of the day before it has.
func vat(t *testing.T, carried int, bodies ...day.Body) engine.View {
	t.Helper()
	r, _ := recipes.Find("soda")
	h := rehearse.Head(r, nine)
	h.Opening = day.Opening{Number: 2, Built: true}
	for i := range carried {
		h.Opening.Swatches = append(h.Opening.Swatches, day.CarriedSwatch{At: nine.AddDate(0, 0, -1), Tag: "L1", Fibre: "cotton", Ladder: true, Dips: i + 1,
			Dip: quantity.Minutes(5), Sure: true, Temp: 36, PH: 10.8, PerLitre: quantity.GramsPerLitre(0.9), Looks: fmt.Sprintf("lab %d -5 -%d", 75-7*i, 12+2*i)})
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range append([]day.Body{day.Opened{How: "tend"}, day.CautionAnswered{OfStep: day.OfStep{Step: 1}}, day.StepDone{OfStep: day.OfStep{Step: 1}, Do: "warm"},
		day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true}}, bodies...) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: nine, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	v := engine.View{ID: "garden-bin/d", State: s, Now: nine}.At(nine)
	o := outlook.Of(s, v.Now)
	b := outlook.Blues(s, o, v.Now)
	v.Outlook, v.Blue = &o, &b
	return v
}

// dipped is a piece that had so many dips.
func dipped(tag, form string, n int) []day.Body {
	of := day.OfPiece{Tag: tag}
	out := []day.Body{day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 10, Dips: 8, Dip: quantity.Minutes(5), Form: form}}, day.WettedOut{OfPiece: of}}
	for i := range n {
		out = append(out, day.DipBegun{OfPiece: of, Dip: i + 1, For: quantity.Minutes(5)}, day.DipEnded{OfPiece: of, Dip: i + 1, Air: quantity.Minutes(10)})
	}
	return out
}

func judged(tag string, dips int, looks string) day.Body {
	return day.SwatchJudged{Swatch: tag, Dips: dips, Looks: looks}
}

func env(v engine.View, w, h int, st style.Style) screen.Env {
	return screen.Env{Now: v.Now, Width: w, Height: h, Style: st, ID: v.ID, Days: engine.Snapshot{Days: []engine.View{v}}}
}

var plain = style.New(style.Options{})

// In every state and window each rung has its number, its lightness and the mark of how that is known.
func TestTheLadderIsWhole(t *testing.T) {
	l1 := dipped("L1", outlook.Ladder, 5)
	for name, c := range map[string]struct {
		v    engine.View
		keys []string
		want []string
	}{
		"none":       {vat(t, 0), nil, []string{"No ladder yet", "8 dips of 5 min", "enter: a new ladder"}},
		"not judged": {vat(t, 0, l1...), nil, []string{"■ 1", " 5", "?", "forecast is a guess"}},
		"judged":     {vat(t, 0, append(l1, judged("L1", 1, "lab 72 -5 -13"), judged("L1", 2, "ks 2"), judged("L1", 3, "sky"))...), nil, []string{"72=", "■ 4", "~"}},
		"carried":    {vat(t, 4), []string{"3"}, []string{"75=", "68=", "■ 3", "61="}},
		"a hem":      {vat(t, 4, dipped("A1", "", 3)...), []string{"right", "2"}, []string{" 1", "■ 2", " 3", "~"}},
		"sixteen":    {vat(t, 16), []string{"9"}, []string{"■ 9"}},
	} {
		for _, size := range screentest.Sizes {
			for _, st := range []style.Style{plain, style.New(style.Options{Profile: style.TrueColour}), style.New(style.Options{Profile: style.Indexed, ASCII: true})} {
				e := env(c.v, size[0], size[1], st)
				s, _ := screentest.Press(ladder.New(e), e, c.keys...)
				text := screentest.Shown(t, s, e)
				for _, want := range c.want {
					if want = st.Glyphs.Text(want); !strings.Contains(text, want) {
						t.Errorf("%s %v: %q is missing:\n%s", name, size, want, text)
					}
				}
				if strings.Contains(text, " more\n") {
					t.Errorf("%s %v: the rungs are cut:\n%s", name, size, text)
				}
			}
		}
	}
}

func TestTheKeysOfTheLadder(t *testing.T) {
	typed := func(text string) []string {
		return append(append([]string{"space"}, strings.Split(text, "")...), "enter")
	}
	do := func(c day.Command) screen.Request { return screen.Do{Command: c} }
	added := func(tag, fibre string) screen.Request {
		return do(day.AddPiece{Tag: tag, Spec: day.PieceSpec{What: "ladder", Fibre: fibre, Dry: quantity.Grams(10), Dips: 8, Dip: quantity.Minutes(5), Form: outlook.Ladder}})
	}
	l1 := dipped("L1", outlook.Ladder, 3)
	for name, c := range map[string]struct {
		v    engine.View
		keys []string
		want []screen.Request
	}{
		"a new one":        {vat(t, 0), []string{"space", "enter"}, []screen.Request{added("L1", "cotton"), screen.Leave{}}},
		"a new one, 0":     {vat(t, 0), []string{"0", "l", "i", "n", "e", "n", "enter"}, []screen.Request{added("L1", "linen"), screen.Leave{}}},
		"a second":         {vat(t, 3), []string{"0", "enter"}, []screen.Request{added("L2", "cotton"), screen.Leave{}}},
		"the first open":   {vat(t, 0, append(l1, judged("L1", 1, "milk"))...), typed("ks 2"), []screen.Request{do(day.Record{Body: judged("L1", 2, "ks 2")})}},
		"by its figure":    {vat(t, 0, l1...), append([]string{"3"}, typed("lab 50 -4 -21")...), []screen.Request{do(day.Record{Body: judged("L1", 3, "lab 50 -4 -21")})}},
		"down from one":    {vat(t, 0, l1...), append([]string{"1", "down"}, typed("#567c9b")...), []screen.Request{do(day.Record{Body: judged("L1", 2, "#567c9b")})}},
		"a strip of A1":    {vat(t, 4, dipped("A1", "", 3)...), append([]string{"right", "2"}, typed("rung 3")...), []screen.Request{do(day.Record{Body: judged("A1", 2, "rung 3")})}},
		"a carried rung":   {vat(t, 3), append([]string{"2"}, typed("ks 3")...), []screen.Request{do(day.Record{Body: judged("L1", 2, "ks 3")})}},
		"no such rung":     {vat(t, 3), append([]string{"9"}, typed("ks 3")...), []screen.Request{do(day.Record{Body: judged("L1", 3, "ks 3")})}},
		"no look":          {vat(t, 3), typed("deep"), nil},
		"away":             {vat(t, 3), []string{"esc"}, []screen.Request{screen.Leave{}}},
		"letting it be":    {vat(t, 3), []string{"space", "k", "esc"}, nil},
		"an unknown cloth": {vat(t, 3), []string{"0", "x", "enter"}, nil},
	} {
		e := env(c.v, 80, 24, plain)
		s, got := screentest.Press(ladder.New(e), e, c.keys...)
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
		for _, r := range got {
			if d, ok := r.(screen.Do); ok {
				if _, err := day.Decide(c.v.State, d.Command, c.v.Now); err != nil {
					t.Errorf("%s is refused: %v", name, err)
				}
			}
		}
		if name == "no look" && !strings.Contains(screentest.Shown(t, s, e), "no depth is called") {
			t.Errorf("it is not told what is wrong:\n%s", screentest.Shown(t, s, e))
		}
	}
}

// A second ladder of a vat that has one is shown by itself: its rungs are none of the vat's until they are judged.
func TestASecondLadderCanBeJudged(t *testing.T) {
	v := vat(t, 4, dipped("L2", outlook.Ladder, 2)...)
	e := env(v, 80, 24, plain)
	s, _ := screentest.Press(ladder.New(e), e, "right")
	_, got := screentest.Press(s, e, "space", "k", "s", " ", "2", "enter")
	if want := (screen.Do{Command: day.Record{Body: judged("L2", 1, "ks 2")}}); len(got) != 1 || got[0] != (screen.Request(want)) {
		t.Errorf("it wants %+v", got)
	}
}

// How a piece that is done came out is kept, but not beyond what happens next, though the blues of the day are not reckoned again yet.
func TestStripsOfADonePieceFollowTheDay(t *testing.T) {
	done := append(dipped("A1", "", 3), day.AiringEnded{OfPiece: day.OfPiece{Tag: "A1"}, Dip: 3}, day.Finished{OfPiece: day.OfPiece{Tag: "A1"}, Dips: 3})
	v := vat(t, 4, done...)
	e := env(v, 80, 24, style.New(style.Options{Profile: style.TrueColour}))
	e.Tag = "A1"
	s := ladder.New(e)
	before := screentest.Shown(t, s, e)
	if again := screentest.Shown(t, s, e); again != before || !strings.Contains(before, "■ 1") {
		t.Fatalf("the strips are\n%s\nand then\n%s", before, again)
	}
	after := vat(t, 4, append(done, day.PieceChanged{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "silk", Dry: 10, Dips: 8, Dip: quantity.Minutes(15)}})...)
	after.Blue = v.Blue
	e.Days.Days = []engine.View{after}
	want := screentest.Shown(t, ladder.New(e), e)
	if got := screentest.Shown(t, s, e); got != want || want == before {
		t.Errorf("after a change it is\n%s\nnot\n%s", got, want)
	}
}
