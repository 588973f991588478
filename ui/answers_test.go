package ui

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/command"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/shelf"
)

// said is a day and what is said on it, one line after the other, at the instant of its last event.
type said struct {
	name   string
	recipe string // soda if empty
	build  recipe.Do
	bodies []day.Body // a minute apart, on a vat that is made; with build set, on one that stands at that step
	ends   int        // a day that leads to the vat's end, at this step since the evening before; 0: none
	lines  []string
}

// A piece of the days.
var (
	ofA1  = day.OfPiece{Tag: "A1"}
	ofB1  = day.OfPiece{Tag: "B1"}
	inA1  = day.DipBegun{OfPiece: ofA1, Dip: 1, For: quantity.Minutes(3)}
	outA1 = day.DipEnded{OfPiece: ofA1, Dip: 1, Air: quantity.Minutes(1)}
)

// dyes is a vat that is ready, with A1 wet and B1 dry on its list, and what happened next.
func dyes(more ...day.Body) []day.Body {
	return append([]day.Body{
		day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true},
		day.PieceAdded{OfPiece: ofA1, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 420, Dips: 2}},
		day.PieceAdded{OfPiece: ofB1, PieceSpec: day.PieceSpec{Fibre: "cotton", Dry: 90, Dips: 2}}, day.WettedOut{OfPiece: ofA1},
	}, more...)
}

func passes(n int) []day.Body {
	out := make([]day.Body, n)
	for i := range out {
		out[i] = day.Note{Text: "a minute passes"}
	}
	return out
}

// atTheLook is a vat that is warm, at the question whether it is ready.
var atTheLook = []day.Body{day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"}}

var fiftyTwo = quantity.Celsius(52)

var saids = []said{
	{name: "weighing", build: recipe.Weigh, lines: []string{"90 g", "skip no scale here", "back"}},
	{name: "a step", build: recipe.Hydrate, bodies: passes(1), lines: []string{"done"}},
	{name: "stirring", build: recipe.Stir, bodies: passes(1), lines: []string{"done"}},
	{name: "settling", ends: 5, lines: []string{"done"}},
	{name: "judging", bodies: atTheLook, lines: []string{"not yet", "ready by film and froth, coppery"}},
	{name: "by strip", bodies: atTheLook, lines: []string{"by strip"}},
	{name: "by swatch", bodies: atTheLook, lines: []string{"by swatch"}},
	{name: "by film and froth", bodies: atTheLook, lines: []string{"by film"}},
	{name: "by eye", bodies: atTheLook, lines: []string{"my eye"}},
	{name: "a strip comes out", bodies: dyes(), lines: []string{"strip out"}},
	{name: "a strip turns blue", bodies: dyes(day.StripBegun{}, day.Note{Text: "yellow still"}), lines: []string{"strip blue"}},
	{name: "two lifts late", bodies: dyes(inA1, day.DipEnded{OfPiece: ofA1, Dip: 1, Air: quantity.Minutes(1), Assumption: day.Assumption{Assumed: true}},
		day.DipBegun{OfPiece: ofA1, Dip: 2, For: quantity.Minutes(1)}, day.DipEnded{OfPiece: ofA1, Dip: 2, Air: quantity.Minutes(9), Assumption: day.Assumption{Assumed: true}}), lines: []string{"confirm all"}},
	{name: "the vat", bodies: dyes(), lines: []string{
		"36 C", "ph 10.4 25", "strip 45", "lid on", "lid off", "lid", "heater on", "heater off", "heater", "heater off", "top up 2 L at 12 C",
		"decanted 5 L to clean the floor", "drew off 3 L", "stirred 2 min", "skimmed", "rest 20 min", "place outdoors", "way full", "hands 2", "goods outdoors", "material HDPE", "you alone", "hold", "talking", "children", "adults", "company", "company",
		"note a little grey at the edge", "piece D1 linen 420 g dark", "change D1 linen 420 g 5", "plan D1 4 dips", "drop D1 torn", "new ladder cotton", "drop L1", "that is all", "B1 scoured", "B1 soaks", "signs blue, cloudy",
		"level 28 L", "heard", "not heard", "take back 3", "close the day",
	}},
	{name: "weak", bodies: dyes(), lines: []string{"35 C", "strip 8", "signs blue, clear", "treat", "better"}},
	{name: "a dose", bodies: dyes(), lines: []string{"give reducer 20 g", "went to the foul sewer"}},
	{name: "treated", bodies: dyes(day.Treated{Cause: "cold", Do: "warm it", Wait: quantity.Minutes(1)}), lines: []string{"same"}},
	{name: "treated in vain", bodies: dyes(day.Treated{Cause: "cold", Do: "warm it", Wait: quantity.Minutes(1)}), lines: []string{"worse"}},
	{name: "hot", bodies: dyes(day.Reading{Temp: &fiftyTwo}), lines: []string{"hot a hot strike"}},
	{name: "a ferment", recipe: "madder-bran", bodies: dyes(), lines: []string{"fed bran 200 g"}},
	{name: "a stock", recipe: "lye", bodies: dyes(), lines: []string{"stock 1 L"}},
	{name: "dipping", bodies: dyes(append([]day.Body{inA1}, passes(2)...)...), lines: []string{
		"more 2 min", "less 2 min", "later A1", "soon A1", "next", "A1 out 2 min ago", "A1 aired", "A1 in", "carry over B1"}},
	{name: "the press", bodies: dyes(append([]day.Body{inA1}, passes(3)...)...), lines: []string{"done"}},
	{name: "together", bodies: dyes(append([]day.Body{day.WettedOut{OfPiece: ofB1}, inA1, day.DipBegun{OfPiece: ofB1, Dip: 1, For: quantity.Minutes(2)}}, passes(2)...)...), lines: []string{"all but B1"}},
	{name: "a look", bodies: dyes(inA1, outA1), lines: []string{"rung 4 A1", "as planned A1"}},
	{name: "a look that goes on", bodies: dyes(inA1, outA1), lines: []string{"one more A1", "stop A1"}},
	{name: "late", bodies: dyes(append([]day.Body{inA1, day.Note{Text: "out?"}, day.DipEnded{OfPiece: ofA1, Dip: 1, Air: quantity.Minutes(1), Assumption: day.Assumption{Assumed: true}}}, passes(3)...)...),
		lines: []string{"confirm", "B1 wet", "B1 in", "A1 in"}},
	{name: "later told", bodies: dyes(append([]day.Body{inA1, day.Note{Text: "out?"}, day.DipEnded{OfPiece: ofA1, Dip: 1, Air: quantity.Minutes(1), Assumption: day.Assumption{Assumed: true}}}, passes(3)...)...),
		lines: []string{"move 9 9:08", "A1 done"}},
	{name: "the bench", bodies: dyes(append([]day.Body{inA1, outA1, day.AiringEnded{OfPiece: ofA1, Dip: 1}, day.Finished{OfPiece: ofA1, Dips: 1}},
		append(passes(40), append([]day.Body{day.Rinsed{OfPiece: ofA1}, day.Rinsed{OfPiece: ofA1}}, passes(5)...)...)...)...), lines: []string{
		"rinsed A1", "look A1 wet rung 4", "cut A1 1 lab 62 -7 -21", "soured A1", "soaped A1", "dried A1", "crock A1 4 2.5", "leave A1 no soap here"}},
	{name: "a bath", bodies: dyes(append([]day.Body{inA1, outA1, day.AiringEnded{OfPiece: ofA1, Dip: 1}, day.Finished{OfPiece: ofA1, Dips: 1}}, passes(40)...)...), lines: []string{
		"bench A1", "later A1", "soon A1"}},
}

// begun is the head and the events of a day on which something is said.
func (c said) begun(t *testing.T) (day.Head, []day.Event) {
	t.Helper()
	id := c.recipe
	if id == "" {
		id = "soda"
	}
	r, _ := recipes.Find(id)
	nine := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	h := rehearse.Head(r, nine)
	h.Vat, h.Day = "bin", "2026-03-28"
	if c.build == "" {
		h.Opening = day.Opening{Number: 2, Built: true, Sulfur: true}
	}
	if c.ends > 0 {
		evening := nine.Add(-14 * time.Hour)
		h.Setup.Ending, h.Opening.Step, h.Opening.Since = true, c.ends, &evening
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	var events []day.Event
	happen := func(b day.Body) {
		e := day.Event{Seq: len(events) + 1, At: nine.Add(time.Duration(len(events)) * time.Minute), Body: b}
		if s, err = day.Apply(s, e); err != nil {
			t.Fatal(c.name, err)
		}
		events = append(events, e)
	}
	happen(day.Opened{How: "tend"})
	for st, open := s.Open(); c.build != "" && open; st, open = s.Open() {
		if st.Do == c.build {
			happen(day.CautionAnswered{OfStep: day.OfStep{Step: st.No}, Caution: st.Caution})
			break
		}
		happen(day.StepDone{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do)})
	}
	for _, b := range c.bodies {
		happen(b)
	}
	return h, events
}

// told are the kinds and the words of what was written after the beginning.
func told(t *testing.T, dir string, from int) (out []string) {
	t.Helper()
	b, err := shelf.Open(dir).ReadDay("bin", "2026-03-28")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range b.Events[from:] {
		out = append(out, e.Body.Kind()+": "+e.Body.Sentence(quantity.Metric))
	}
	return out
}

// Each row of the table writes the same by the line of the screens, in plain mode and by `say`; and together they write every kind
// of event that hands make.
func TestEachAnswerIsTheSameOnThreeWays(t *testing.T) {
	rows, kinds := map[string]bool{}, map[string]bool{}
	for _, c := range saids {
		head, events := c.begun(t)
		home := func(way string) (string, *shelf.Writer) {
			dir := filepath.Join(t.TempDir(), way)
			w, err := shelf.Open(dir).NewDay(head)
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range events {
				if err := w.Append(e); err != nil {
					t.Fatal(err)
				}
			}
			return dir, w
		}
		cli := func(dir, in string, args ...string) (string, int) {
			var out, errs bytes.Buffer
			code := command.Main(args, command.World{In: strings.NewReader(in), Out: &out, Err: &errs, Getenv: func(k string) string {
				return map[string]string{"VATSIDE_HOME": dir}[k]
			}})
			return out.String() + errs.String(), code
		}

		bySay, w := home("say")
		w.Close()
		asked := make([]bool, len(c.lines))
		for i, line := range c.lines {
			out, code := cli(bySay, "", "say", "bin", line)
			if code == 3 {
				asked[i] = true
				out, code = cli(bySay, "", "say", "bin", line, "--answered")
			}
			if code != 0 {
				t.Errorf("%s: %q is refused: %s", c.name, line, out)
			}
		}

		byPlain, w := home("plain")
		w.Close()
		var typed strings.Builder
		for i, line := range c.lines {
			fmt.Fprintln(&typed, line)
			if asked[i] { // the same words once more: so it is
				fmt.Fprintln(&typed, line)
			}
		}
		plain, code := cli(byPlain, typed.String()+"q\n", "--plain")
		if code != 0 {
			t.Fatalf("%s: %s", c.name, plain)
		}

		byLine, w := home("line")
		ctx, stop := context.WithCancel(context.Background())
		eng := engine.New(engine.Machine{}, "", &cue.Recorder{})
		ended := make(chan struct{})
		go func() { eng.Run(ctx); close(ended) }()
		if _, err := eng.Open(ctx, engine.Opening{ID: "bin/2026-03-28", Head: head, Events: events, Writer: w, Source: engine.NewLed(events[len(events)-1].At)}); err != nil {
			t.Fatal(err)
		}
		h := effects{ctx: ctx, home: shelf.Open(byLine), eng: eng}
		for i, line := range c.lines {
			snap, err := eng.Now(ctx)
			if err != nil {
				t.Fatal(err)
			}
			v, _ := snap.Day("bin/2026-03-28")
			r, _, commands, err := answer.Take(v.State, v.Now, line)
			if err != nil {
				t.Fatalf("%s: the line refuses %q: %v", c.name, line, err)
			}
			rows[r.ID] = true
			if asked[i] {
				commands[0] = day.Answered{Command: commands[0]}
			}
			if msg := h.say("bin/2026-03-28", commands, -time.Hour)().(saidMsg); msg.err != nil {
				t.Fatalf("%s: the line refuses %q: %v", c.name, line, msg.err)
			}
		}
		stop()
		<-ended

		want := told(t, bySay, len(events))
		for _, kind := range want {
			kind, _, _ = strings.Cut(kind, ": ")
			kinds[kind] = true
		}
		for way, dir := range map[string]string{"plain mode": byPlain, "the line": byLine} {
			if got := told(t, dir, len(events)); strings.Join(got, "\n") != strings.Join(want, "\n") {
				t.Errorf("%s: %s writes\n%s\nand say\n%s", c.name, way, strings.Join(got, "\n"), strings.Join(want, "\n"))
			}
		}
	}
	for _, r := range answer.Rows() {
		if !r.Asks() && !rows[r.ID] {
			t.Errorf("nothing is said of the row %q", r.ID)
		}
	}
	program := []day.Body{day.Opened{}, day.ClockStepped{}, day.Slept{}, day.SoundFailed{}, day.Lost{}} // only the program makes them
	for _, b := range day.Kinds() {
		if k := b.Kind(); !kinds[k] && !slices.Contains(program, b) {
			t.Errorf("no words write %q", k)
		}
	}
}
