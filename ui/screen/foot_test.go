package screen_test

import (
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/testdata/longday"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/style"
)

var nine = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)

// wholeDays are the invented days that were played, by recipe.
var wholeDays = map[string][]engine.View{}

// wholeDay plays the invented day of a recipe to its end and hands every state to see, with the instant of its last event and the
// outlook then. A day is played and reckoned once for all tests.
func wholeDay(t *testing.T, id string, see func(engine.View)) {
	t.Helper()
	if wholeDays[id] == nil {
		wholeDays[id] = playedWhole(t, id)
	}
	for _, v := range wholeDays[id] {
		see(v)
	}
}

func playedWhole(t *testing.T, id string) (seen []engine.View) {
	t.Helper()
	r, ok := recipes.Find(id)
	if !ok {
		t.Fatal(id)
	}
	head := rehearse.Head(r, nine)
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	now := nine
	take := func(bodies ...day.Body) {
		for _, b := range bodies {
			s, _ = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b})
		}
		o := outlook.Of(s, now)
		seen = append(seen, engine.View{ID: "bin/d", State: s, Now: now, Outlook: &o})
	}
	take(day.Opened{How: "build"})
	for range 3000 {
		if s.Closed {
			return seen
		}
		after, c, ok := rehearse.Dyer(s, now)
		now = now.Add(max(after, time.Second))
		if !ok {
			if assumed, yes := day.Assume(s, now.Add(31*time.Second), time.Time{}, nil); yes {
				now, c, ok = now.Add(31*time.Second), assumed, true
			} else if due, runs := longday.NextDue(s, now); runs {
				now = due.At
			}
		}
		if bodies, err := day.Decide(s, c, now); ok && err == nil {
			take(bodies...)
		}
	}
	t.Fatalf("%s never came to its end", id)
	return nil
}

func window(width int) screen.Env {
	return screen.Env{Width: width, Height: width / 3, Style: style.New(style.Options{})}
}

// Over every whole day the foot is two rows at most, none wider than its window has room, and the first has the °C, or
// how much water is to come.
func TestTheFootIsTwoRowsAtMost(t *testing.T) {
	for _, r := range recipes.Builtin() {
		t.Run(r.ID, func(t *testing.T) {
			wholeDay(t, r.ID, func(v engine.View) {
				for _, later := range []time.Duration{0, 25 * time.Minute} {
					if later > 0 && v.State.Seq%long.Of(1, 5) > 0 {
						continue
					}
					at := v
					if later > 0 {
						at.Now = v.Now.Add(later)
						o := outlook.Of(at.State, at.Now)
						at.Outlook = &o
					}
					for _, at.State.Head.Setup.Units = range []string{"metric", "us"} {
						for width, room := range map[int]int{60: 40, 80: 51, 120: 80} {
							rows := screen.Foot(at, window(width))
							if len(rows) == 0 || len(rows) > 2 {
								t.Fatalf("%d columns, after event %d: %d rows", width, len(v.State.Log), len(rows))
							}
							for _, row := range rows {
								if w := ansi.StringWidth(row); w > room {
									t.Fatalf("%d columns, after event %d: %d cells: %q", width, len(v.State.Log), w, row)
								}
							}
							if !strings.Contains(rows[0], "°") && !strings.Contains(rows[0], "to come") {
								t.Fatalf("%d columns, after event %d: no °C in %q", width, len(v.State.Log), rows[0])
							}
						}
					}
				}
			})
		})
	}
}

// In work the first row says how warm it is and when it is too cold, the second what the indigo is enough for, and with goods in the vat
// there is no word of the heater.
func TestTheFootInWork(t *testing.T) {
	seen := false
	wholeDay(t, "soda", func(v engine.View) {
		if seen || v.State.Vat.Work.IsZero() || len(v.State.InVat()) == 0 {
			return
		}
		seen = true
		for width, want := range map[int][2]string{60: {" °C reckoned, below 30 at ", "pH "}, 80: {" °C reckoned, below 30 at ", "indigo for all dips today"}} {
			foot := screen.Foot(v, window(width))
			if len(foot) != 2 || !strings.Contains(foot[0], want[0]) || !strings.Contains(foot[1], want[1]) || strings.Contains(strings.Join(foot, " "), "heater") {
				t.Errorf("%d columns: %q", width, foot)
			}
		}
	})
	if !seen {
		t.Error("no piece was dipped")
	}
}

// at is a soda vat in an instant that is made up, with an outlook that is given, not reckoned.
func at(t *testing.T, o outlook.Outlook, bodies ...day.Body) engine.View {
	t.Helper()
	r, _ := recipes.Find("soda")
	head := rehearse.Head(r, nine)
	head.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range append([]day.Body{day.Opened{How: "tend"}}, bodies...) {
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: nine, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return engine.View{ID: "bin/d", State: s, Now: nine, Outlook: &o}.At(nine)
}

func hours(low, likely, high float64) quantity.Range[quantity.Span] {
	return quantity.Range[quantity.Span]{Low: quantity.Hours(low), Likely: quantity.Hours(likely), High: quantity.Hours(high)}
}

// A vat at its lowest °C, to what is shown of it, is not said to be below that.
func TestTheFootAtTheLowest(t *testing.T) {
	for now, below := range map[float64]bool{30: false, 29.8: false, 29.2: true} {
		heat := outlook.Heat{Now: quantity.Celsius(now), Low: quantity.Celsius(30), Aim: quantity.Celsius(35), Known: outlook.Reckoned}
		if row := screen.Foot(at(t, outlook.Outlook{Heat: heat}), window(80))[0]; strings.Contains(row, "below 30") != below {
			t.Errorf("at %v °C: %q", now, row)
		}
	}
}

// What is known is said in these words, and a word says how.
func TestTheWordsOfTheFoot(t *testing.T) {
	known := func(change func(*outlook.Outlook)) outlook.Outlook {
		o := outlook.Outlook{
			Heat: outlook.Heat{Known: outlook.Reckoned, Now: 35.6, ReadAt: nine.Add(-time.Hour), Low: 30, Aim: 35, High: 40, Below: nine.Add(140 * time.Minute), Lidded: nine.Add(5 * time.Hour),
				Coming: []outlook.Spread{{When: nine}}},
			PH:      outlook.PH{Known: outlook.Reckoned, Now: quantity.Range[quantity.PH]{Low: 10.4, Likely: 10.6, High: 10.9}},
			Reducer: outlook.Reducer{Known: outlook.Guessed, Rest: hours(30, 40, 60), Work: hours(4, 6, 9)},
			Indigo:  outlook.Indigo{Known: outlook.Reckoned, Left: quantity.Exactly(quantity.Grams(71.4))},
		}
		o.PH.Later = o.PH.Now
		if change != nil {
			change(&o)
		}
		return o
	}
	low, ten := quantity.Celsius(33.5), 10.5
	ending := at(t, known(nil), day.VatCovered{})
	ending.State.Head.Setup.Ending, ending.State.Step = true, 3
	if rows := screen.Foot(ending, window(80)); strings.Join(rows, "|") != "36 °C reckoned|pH 10.4–10.9 reckoned" {
		t.Errorf("on the way to its end nothing calls for warmth or reducer: %q", rows)
	}
	for name, c := range map[string]struct {
		o      outlook.Outlook
		bodies []day.Body
		want   []string
	}{
		"reckoned": {known(nil), nil, []string{
			"36 °C reckoned, below 30 at 11:20", "pH 10.4–10.9 reckoned · indigo 71 g · 30 °C lidded till 14:00",
		}},
		"read just now": {known(func(o *outlook.Outlook) {
			o.Heat.Known, o.Heat.Now, o.PH.Known = outlook.Measured, low, outlook.Measured
		}),
			[]day.Body{day.Reading{Temp: &low, PH: &ten}}, []string{
				"33.5 °C read 08:00, below 30 at 11:20", "pH 10.5 read 09:00 · indigo 71 g · 30 °C lidded till 14:00 · reducer over a day",
			}},
		"too cold, with a heater": {known(func(o *outlook.Outlook) {
			o.Heat.Now, o.Heat.Below, o.Heat.Back = 27, time.Time{}, quantity.Minutes(41)
		}), nil, []string{
			"27 °C reckoned, below 30", "pH 10.4–10.9 reckoned · indigo 71 g · heater 41 min: 35 °C · reducer over a day",
		}},
		"heated": {known(func(o *outlook.Outlook) {
			o.Heat.Now, o.Heat.Below, o.Heat.Back = 27, time.Time{}, quantity.Minutes(41)
		}),
			[]day.Body{day.HeaterOn{}}, []string{
				"HEATER ON, hands out · 27 °C reckoned, below 30", "pH 10.4–10.9 reckoned · indigo 71 g · 35 °C in 41 min · reducer over a day",
			}},
		"covered": {known(func(o *outlook.Outlook) { o.Heat.Lidded = time.Time{} }), []day.Body{day.VatCovered{}}, []string{
			"36 °C reckoned, below 30 at 11:20", "pH 10.4–10.9 reckoned · indigo 71 g · reducer over a day",
		}},
		"too cold, with goods in": {known(func(o *outlook.Outlook) {
			o.Heat.Now, o.Heat.Below, o.Heat.Back = 27, time.Time{}, quantity.Minutes(41)
		}),
			[]day.Body{day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: quantity.Grams(300), Dips: 3}}, day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}}}, []string{
				"27 °C reckoned, below 30", "pH 10.4–10.9 reckoned · indigo 71 g · reducer for 4–9 h",
			}},
		"turning sour": {known(func(o *outlook.Outlook) {
			o.PH.Later, o.PH.At = quantity.Range[quantity.PH]{Low: 9.6, Likely: 9.9, High: 10.3}, nine.Add(4*time.Hour)
			o.Heat.Below, o.Reducer = time.Time{}, outlook.Reducer{}
		}), nil, []string{"36 °C reckoned", "pH 10.4–10.9 reckoned · indigo 71 g · stays above 30 °C · pH 9.6–10.3 by 13:00"}},
		"for some dips": {known(func(o *outlook.Outlook) {
			o.Indigo.Capacity = []liquor.Capacity{{Depth: liquor.Depth{Name: "mid"}, KgLeft: quantity.Exactly(quantity.Grams(100))}}
		}),
			[]day.Body{day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: quantity.Grams(300), Dips: 3}}}, []string{
				"36 °C reckoned, below 30 at 11:20", "pH 10.4–10.9 reckoned · indigo for 1 of 3 dips · 30 °C lidded till 14:00",
			}},
		"a guess":  {outlook.Outlook{Heat: outlook.Heat{Known: outlook.Guessed, Now: 38, Low: 30}}, nil, []string{"38 °C guess"}},
		"not read": {outlook.Outlook{}, nil, []string{"not read yet: r reads °C"}},
		"not measured": {outlook.Outlook{Heat: outlook.Heat{Known: outlook.Reckoned, Now: 37, AsRead: true, ReadAt: nine.Add(-90 * time.Minute), Low: 30}}, nil,
			[]string{"37 °C read 07:30"}},
		"cooled since it was read": {outlook.Outlook{Heat: outlook.Heat{Known: outlook.Reckoned, Now: 34, ReadAt: nine.Add(-90 * time.Minute), Low: 30,
			Readings: []outlook.At{{When: nine.Add(-90 * time.Minute), Temp: 39}}}}, nil, []string{"34 °C reckoned"}},
	} {
		got := screen.Foot(at(t, c.o, c.bodies...), window(120))
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
			t.Errorf("%s:\n%s\nwant\n%s", name, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
}

// Before and while it is filled the foot says how much is in it and to come, and when the stove must be lit.
func TestTheFootOfAnEmptyVat(t *testing.T) {
	said := map[string]bool{}
	wholeDay(t, "soda", func(v engine.View) {
		if !day.Filled(v.State) {
			said[strings.Join(screen.Foot(v, window(80)), "|")] = true
		}
	})
	for _, want := range []string{
		"53.7 L to come · heat 29.4 L now: it takes 58 min", "53.7 L to come, 29.4 L of it hot", "24.2 L in it · 29.5 L to come · 15 °C read 09:08",
	} {
		if !said[want] {
			t.Errorf("it never said %q, but %v", want, said)
		}
	}
}

// Children at the vat stand in the head, before what falls away where room is short.
func TestChildrenStandInTheHead(t *testing.T) {
	v := engine.View{}
	v.State.Head.Setup.Name, v.State.Children = "Bin", true
	if got := screen.HeadOf(v, "").Left; !strings.HasPrefix(got, "Bin · children at the vat") {
		t.Errorf("%q", got)
	}
	v.State.Children = false
	if got := screen.HeadOf(v, "").Left; strings.Contains(got, "children") {
		t.Errorf("%q", got)
	}
}

// The foot that is kept is the one that would be reckoned, when the cold is an hour away and when a strip grows old, too.
func TestTheFootThatIsKept(t *testing.T) {
	e := screen.Env{Width: 120, Height: 40, Style: style.New(style.Options{}), Feet: &screen.Feet{}}
	changed := 0
	wholeDay(t, "soda", func(v engine.View) {
		o := outlook.Of(v.State, v.Now)
		o.Heat.Aim, o.Heat.Back = o.Heat.Now, quantity.Minutes(5) // as if a heater could help
		v.Outlook = &o
		for _, at := range []time.Time{o.Heat.Below.Add(-time.Hour), v.State.Vat.StripAt.Add(2 * time.Hour)} {
			last := ""
			for _, by := range []time.Duration{-time.Second, 0, time.Second} {
				if v.Now = at.Add(by); at.Year() < 2000 {
					continue
				}
				bare := e
				bare.Feet = nil
				got, want := strings.Join(screen.Foot(v, e), "\n"), strings.Join(screen.Foot(v, bare), "\n")
				if got != want {
					t.Fatalf("after %d events, %s: %q, not %q", len(v.State.Log), v.Now.Format(time.TimeOnly), got, want)
				}
				if last != "" && want != last {
					changed++
				}
				last = want
			}
		}
	})
	if changed < 10 {
		t.Errorf("only %d feet changed", changed)
	}
}
