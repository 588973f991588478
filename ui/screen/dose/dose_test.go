package dose_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/dose"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
	"example.org/vatside/ui/widget"
)

var noon = time.Date(2026, 3, 28, 12, 0, 0, 0, time.UTC)

// vat is a living vat of a recipe, after what was read and done today.
func vat(t *testing.T, id string, change func(*day.Head), bodies ...day.Body) day.State {
	t.Helper()
	r, ok := recipes.Find(id)
	if !ok {
		t.Fatal(id)
	}
	h := rehearse.Head(r, noon)
	h.Opening = day.Opening{Number: 2, Built: true}
	if change != nil {
		change(&h)
	}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	return after(t, s, noon, append([]day.Body{day.Opened{How: "tend"}}, bodies...)...)
}

func after(t *testing.T, s day.State, now time.Time, bodies ...day.Body) day.State {
	t.Helper()
	for _, b := range bodies {
		var err error
		if s, err = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func env(s day.State, now time.Time, w, h int) screen.Env {
	return screen.Env{
		Now: now, Width: w, Height: h, Style: style.New(style.Options{}), ID: "bin/d",
		Days: engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/d", State: s, Now: now}.At(now)}},
	}
}

func celsius(c float64) day.Body { t := quantity.Celsius(c); return day.Reading{Temp: &t} }
func ph(p float64) day.Body      { return day.Reading{PH: &p} }
func strip(seconds float64) day.Body {
	return day.StripTest{Stayed: quantity.Span(seconds) * quantity.Span(time.Second)}
}

func goods(fibre string) day.Body {
	return day.PieceAdded{OfPiece: day.OfPiece{Tag: "W1"}, PieceSpec: day.PieceSpec{What: "shawl", Fibre: fibre, Dry: quantity.Grams(200), Dips: 3}}
}

// states are what a vat can read as.
var states = map[string][]day.Body{
	"nothing read":  nil,
	"weak":          {celsius(35), strip(8)},
	"sour":          {celsius(35), ph(9.5)},
	"a little sour": {celsius(35), ph(9.8)},
	"cold":          {celsius(12), strip(40)},
	"hot":           {celsius(48), strip(45)},
	"scalding":      {celsius(58), strip(5)},
	"milky":         {celsius(35), day.SignSeen{Sign: "milky"}},
	"slack":         {celsius(35), strip(20)},
	"too strong":    {celsius(35), strip(240)},
	"well":          {celsius(35), ph(10.5), strip(50)},
	"wool":          {celsius(35), ph(11.4), goods("wool")},
	"weak, wool":    {celsius(35), strip(5), goods("wool")},
	"given":         {celsius(35), strip(8), day.PowderAdded{Powder: "reducer", Mass: quantity.Grams(20)}},
	"in the vat":    {celsius(35), strip(8), goods("cotton"), day.WettedOut{OfPiece: day.OfPiece{Tag: "W1"}}, day.DipBegun{OfPiece: day.OfPiece{Tag: "W1"}}},
	"heated":        {celsius(24), day.HeaterOn{Power: quantity.Watts(1000)}},
	"heated, hands": {celsius(35), goods("cotton"), day.WettedOut{OfPiece: day.OfPiece{Tag: "W1"}}, day.DipBegun{OfPiece: day.OfPiece{Tag: "W1"}}, day.HeaterOn{}},
	"closed":        {celsius(35), strip(8), day.Closed{}},
}

// The advice is whole at every size, in every state of every family, in metric and US units: its act, its figure's unit
// and every word of its caution; before the caution is answered and after, while a strip is watched and a pH is typed.
func TestEveryAdviceFits(t *testing.T) {
	for _, r := range recipes.Builtin() {
		for _, units := range []string{"metric", "us"} {
			if units == "us" && r.ID != "soda" && !long.Runs() {
				continue
			}
			for name, bodies := range states {
				s := vat(t, r.ID, func(h *day.Head) { h.Setup.Units = units }, bodies...)
				o := outlook.Of(s, noon.Add(time.Minute))
				e := env(s, noon.Add(time.Minute), 0, 0)
				e.Days.Days[0].Outlook = &o
				for _, size := range screentest.Sizes {
					e.Width, e.Height = size[0], size[1]
					for _, keys := range [][]string{nil, {"space"}, {"t"}, {"h", "1", "0"}, {"h", "x", "enter"}} {
						scr, _ := screentest.Press(dose.New(e), e, keys...)
						sheet := scr.View(e)
						shown := screentest.ShownAs(t, sheet, e)
						words := strings.Fields(said(sheet) + " " + sheet.Figure.Unit)
						if sheet.Caution != nil {
							words = nil // where it takes the rows the large letters and the figure have said it
							words = append(words, strings.Fields(sheet.Caution.Text+" "+sheet.Caution.Key)...)
						}
						for _, w := range words {
							if w != sheet.Figure.Unit && !strings.Contains(shown, w) {
								t.Fatalf("%s, %s, %s, %v, keys %v: %q is missing:\n%s", r.ID, units, name, size, keys, w, shown)
							}
						}
						if strings.Contains(shown, "(S") || strings.Contains(shown, "PH ") || strings.Contains(shown, "..") && !strings.Contains(shown, "...") {
							t.Fatalf("%s, %s, %s, keys %v is not in a dyer's words:\n%s", r.ID, units, name, keys, shown)
						}
					}
				}
			}
		}
	}
}

// What the advice comes to, in a state that is known.
func TestWhatIsAdvised(t *testing.T) {
	for name, want := range map[string]struct{ act, number, unit, next string }{
		"weak":         {"Add 30", "30", "g", "then: wait 30 min, pull a strip, then read pH; alkali may be next"},
		"sour":         {"Add 60", "60", "g", "then: wait 15 min, read pH again"},
		"cold":         {"Warm it to 35 °C", "35", "°C", "then: wait "},
		"hot":          {"Let it cool to 40 °C", "40", "°C", "then: wait 30 min, read °C"},
		"too strong":   {"Rest it open for 45 min with one gentle stir", "60", "min", "then: pull a strip"},
		"given":        {"Let the dose work till 12:30", "29", "min", "then: pull a strip, and read °C"},
		"well":         {"Nothing to add", "", "", "then: a strip each"},
		"nothing read": {"Read °C and pull a strip", "", "", "then: read °C and pull a strip"},
	} {
		now := noon.Add(time.Minute)
		e := env(vat(t, "soda", nil, states[name]...), now, 80, 24)
		sheet := dose.New(e).View(e)
		if !strings.HasPrefix(said(sheet), want.act) || strings.TrimSuffix(sheet.Figure.Number, ".0") != want.number || sheet.Figure.Unit != want.unit || !strings.HasPrefix(sheet.Next, want.next) {
			t.Errorf("%s: %q, %q %q, %q", name, said(sheet), sheet.Figure.Number, sheet.Figure.Unit, sheet.Next)
		}
	}
}

// asked is the one command that was asked for.
func asked(t *testing.T, r []screen.Request) day.Command {
	t.Helper()
	if len(r) != 1 {
		t.Fatalf("it asks for %v", r)
	}
	do, ok := r[0].(screen.Do)
	if !ok {
		t.Fatalf("it asks for %T", r[0])
	}
	return do.Command
}

// The first press takes the caution as read, one too soon after it does nothing, and the next gives the dose with its amounts.
func TestADoseTakesTwoPresses(t *testing.T) {
	s := vat(t, "soda", nil, states["weak"]...)
	now := noon.Add(time.Minute)
	e := env(s, now, 80, 24)
	scr, r := screentest.Press(dose.New(e), e, "space")
	shown := dose.New(e).View(e).Caution.Text
	if len(r) != 0 {
		t.Fatalf("the first press asks for %v", r)
	}
	if scr.View(e).Caution != nil {
		t.Error("the caution stands after its answer")
	}
	e = env(s, now.Add(900*time.Millisecond), 80, 24)
	scr, r = screentest.Press(scr, e, "space")
	if len(r) != 0 {
		t.Fatalf("a press within a second asks for %v", r)
	}
	e = env(s, now.Add(time.Second), 80, 24)
	scr, r = screentest.Press(scr, e, "space")
	answered, _ := asked(t, r).(day.Answered)
	d, ok := answered.Command.(day.Dose)
	if !ok {
		t.Fatalf("the second press asks for %T", asked(t, r))
	}
	if len(d.Powders) != 1 || d.Powders[0].Powder != "reducer" || d.Powders[0].Mass.Grams() != 30 || d.Wait != quantity.Minutes(30) || d.Why == "" {
		t.Errorf("the dose is %+v", d)
	}
	bodies, err := day.Decide(s, answered, e.Now)
	if err != nil || len(bodies) != 3 { // the answer, the dose and its rest
		t.Fatal(bodies, err)
	}
	if said, ok := bodies[0].(day.CautionAnswered); !ok || !strings.HasPrefix(shown, said.Caution) || !strings.Contains(said.Caution, "mask") {
		t.Errorf("what was shown is %q, and written down is %+v", shown, bodies[0])
	}
	e = env(after(t, s, e.Now, bodies...), e.Now, 80, 24)
	if act := said(scr.View(e)); !strings.HasPrefix(act, "Let the dose work") {
		t.Errorf("after the dose it says %q", act)
	}
	if _, r = screentest.Press(scr, e, "space"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("after the dose space asks for %v", r)
	}
}

// An iron vat gets its lime in the same dose.
func TestADoseMayBeOfTwoPowders(t *testing.T) {
	s := vat(t, "iron-lime", nil, celsius(20), strip(5))
	e := env(s, noon.Add(time.Minute), 80, 24)
	scr, _ := screentest.Press(dose.New(e), e, "space")
	e = env(s, noon.Add(time.Minute+2*time.Second), 80, 24)
	_, r := screentest.Press(scr, e, "enter")
	given, _ := asked(t, r).(day.Answered)
	if d, ok := given.Command.(day.Dose); !ok || len(d.Powders) != 2 || d.Powders[0].Mass != d.Powders[1].Mass {
		t.Errorf("the dose is %+v", asked(t, r))
	}
}

// After a dose of lime the vat rests as long as lime takes (1 h, C; in a ferment vat 2 h, S6), not to the recipe's recheck.
func TestADoseRestsAsLongAsItsPowderTakes(t *testing.T) {
	for id, hours := range map[string]float64{"madder-bran": 2, "sugar-lime": 1, "iron-lime": 1} {
		s := vat(t, id, func(h *day.Head) { h.Setup.Heater = 0 })
		s = after(t, s, noon, day.Reading{Temp: &s.Head.Recipe.Liquor.Aim}, ph(8.9))
		e := env(s, noon.Add(time.Minute), 80, 24)
		scr, _ := screentest.Press(dose.New(e), e, "space")
		e = env(s, noon.Add(time.Minute+2*time.Second), 80, 24)
		_, r := screentest.Press(scr, e, "space")
		bodies, err := day.Decide(s, asked(t, r), e.Now)
		if err != nil {
			t.Fatal(err)
		}
		if rest, ok := bodies[len(bodies)-1].(day.Rested); !ok || rest.For != quantity.Hours(hours) {
			t.Errorf("%s: %+v", id, bodies)
		}
	}
}

// With goods in the vat no dose is asked for: the screen says what to lift out first, and the day would refuse it too.
func TestADoseWithGoodsInIsRefused(t *testing.T) {
	s := vat(t, "soda", nil, states["in the vat"]...)
	e := env(s, noon.Add(time.Minute), 80, 24)
	scr := dose.New(e)
	if act := said(scr.View(e)); !strings.Contains(strings.ToLower(act), "first lift w1 out") {
		t.Errorf("it says %q", act)
	}
	if _, r := screentest.Press(scr, e, "space"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("it asks for %v", r)
	}
	d := day.Dose{Powders: []day.Amount{{Powder: "reducer", Mass: quantity.Grams(10)}}, Wait: quantity.Minutes(30)}
	if _, err := day.Decide(s, d, e.Now); err == nil || !strings.Contains(err.Error(), "W1 is in the vat") {
		t.Errorf("the day says %v", err)
	}
}

// Warmth is given by the heater of the setup, after its caution; without one, or with it on already, space only goes back.
func TestWarmthIsTheHeater(t *testing.T) {
	cold := []day.Body{celsius(24)}
	s := vat(t, "soda", nil, cold...)
	e := env(s, noon.Add(time.Minute), 80, 24)
	scr, _ := screentest.Press(dose.New(e), e, "space")
	e = env(s, noon.Add(2*time.Minute), 80, 24)
	_, r := screentest.Press(scr, e, "space")
	if c := asked(t, r); c != (day.Answered{Command: day.Record{Body: day.HeaterOn{Power: quantity.Watts(1000)}}}) {
		t.Errorf("it asks for %+v", r)
	}
	for name, s := range map[string]day.State{
		"no heater":     vat(t, "soda", func(h *day.Head) { h.Setup.Heater = 0 }, cold...),
		"the heater on": vat(t, "soda", nil, append(cold, day.HeaterOn{Power: quantity.Watts(1000)})...),
		"a closed day":  vat(t, "soda", nil, append(cold, day.Closed{})...),
	} {
		e := env(s, noon.Add(time.Minute), 80, 24)
		if _, r := screentest.Press(dose.New(e), e, "space"); len(r) != 1 || r[0] != (screen.Leave{}) {
			t.Errorf("%s: space asks for %v", name, r)
		}
	}
}

// Milky is seen with one key, and taken back with the same.
func TestMilkyIsSaidAndTakenBack(t *testing.T) {
	s := vat(t, "soda", nil, celsius(35))
	for _, want := range []string{"milky", "clear", "milky"} {
		e := env(s, noon, 80, 24)
		_, r := screentest.Press(dose.New(e), e, "1")
		c, _ := asked(t, r).(day.Record)
		if c.Body != (day.SignSeen{Sign: want}) {
			t.Fatalf("1 records %+v, not %s", c.Body, want)
		}
		s = after(t, s, noon, c.Body)
	}
	s = after(t, s, noon.Add(time.Minute), day.PowderAdded{Powder: "alkali", Mass: quantity.Grams(60)})
	e := env(s, noon.Add(time.Hour), 80, 24)
	if _, r := screentest.Press(dose.New(e), e, "1"); asked(t, r).(day.Record).Body != (day.SignSeen{Sign: "milky"}) {
		t.Error("after a dose the milkiness of before still counts")
	}
}

// A strip that is watched has the big key, and a reading is taken as it is typed.
func TestStripAndReadings(t *testing.T) {
	s := vat(t, "soda", nil)
	e := env(s, noon, 80, 24)
	_, r := screentest.Press(dose.New(e), e, "t")
	s = after(t, s, noon, asked(t, r).(day.Record).Body)
	e = env(s, noon.Add(42*time.Second), 80, 24)
	scr := dose.New(e)
	if text := screentest.Shown(t, scr, e); !strings.Contains(text, "the strip is yellow") {
		t.Errorf("no strip is watched:\n%s", text)
	}
	if _, r := screentest.Press(scr, e, "space"); asked(t, r) != (day.StripBlue{Pressed: true}) {
		t.Errorf("the strip is %v", r)
	}
	if _, r := screentest.Press(scr, e, "pgup"); asked(t, r) != (day.Back{}) {
		t.Error("PageUp does not let go of the strip")
	}
	s = after(t, s, noon.Add(42*time.Second), day.StripTest{Stayed: quantity.Seconds(42)})
	e = env(s, noon.Add(42*time.Second), 80, 24)
	_, r = screentest.Press(dose.New(e), e, "h", "9", ",", "8", "enter")
	if b, ok := asked(t, r).(day.Record).Body.(day.Reading); !ok || b.PH == nil || *b.PH != 9.8 {
		t.Errorf("pH 9,8 is %+v", r)
	}
	_, r = screentest.Press(dose.New(e), e, "r", "3", "4", "enter")
	if b, ok := asked(t, r).(day.Record).Body.(day.Reading); !ok || b.Temp == nil || *b.Temp != 34 {
		t.Errorf("34 °C is %+v", r)
	}
}

// A vat that is being built, is led to its end, or has ended gets no dose here; its first step to the end is still dyeing.
func TestNoDoseIntoAVatThatGetsNone(t *testing.T) {
	build := func(h *day.Head) { h.Opening = day.Opening{Number: 1} }
	end := func(h *day.Head) { h.Setup.Ending = true }
	weak := []day.Body{celsius(35), strip(8)}
	for _, c := range []struct {
		name   string
		change func(*day.Head)
		bodies []day.Body
		act    string
	}{
		{"being built", build, weak, "The vat is being built: build it to its end first"},
		{"its first step to the end", end, weak, "Add 30.0 g of sodium dithionite"},
		{"past its first step to the end", end, append([]day.Body{day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: string(day.DoUseUp)}}, weak...), "It is being ended: no alkali, no reducer"},
		{"ended", nil, append(weak[:2:2], day.VatEnded{Why: "used up"}), "It has ended on 28 March 2026"},
		{"burnt sulfur", nil, append(weak[:2:2], day.SignSeen{Sign: "choking"}), "Stop: goods and hands out, everyone out into fresh air"},
	} {
		s := vat(t, "soda", c.change, c.bodies...)
		for _, size := range screentest.Sizes {
			e := env(s, noon.Add(time.Hour), size[0], size[1])
			scr := dose.New(e)
			if act := said(scr.View(e)); !strings.HasPrefix(act, c.act) {
				t.Errorf("%s: %q", c.name, act)
			}
			screentest.Shown(t, scr, e)
			if _, r := screentest.Press(scr, e, "space"); !strings.HasPrefix(c.act, "Add") && (len(r) != 1 || r[0] != (screen.Leave{})) {
				t.Errorf("%s: space asks for %v", c.name, r)
			}
		}
	}
}

// said is the sentence of the advice: under its large letters, or in their place.
func said(s widget.Sheet) string {
	if s.Stage == nil {
		return s.Act
	}
	return s.How[0]
}
