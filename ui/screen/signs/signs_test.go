package signs_test

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/long"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/rehearse"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screen/signs"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 3, 28, 12, 0, 0, 0, time.UTC)

// at is a vat under test: every command that the screen asks for is carried out.
type at struct {
	t   *testing.T
	s   day.State
	now time.Time
	scr screen.Screen
	w,
	h int
}

func living(t *testing.T, id string, bodies ...day.Body) *at {
	t.Helper()
	r, ok := recipes.Find(id)
	if !ok {
		t.Fatal(id)
	}
	h := rehearse.Head(r, noon)
	h.Opening = day.Opening{Number: 2, Built: true}
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	v := &at{t: t, s: s, now: noon, w: 80, h: 24}
	v.happen(day.Opened{How: "tend"}, day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: "warm"}, day.VatJudged{OfStep: day.OfStep{Step: 2}, Ready: true})
	v.happen(bodies...)
	v.scr = signs.New(v.env())
	return v
}

func (v *at) env() screen.Env {
	return screen.Env{Now: v.now, Width: v.w, Height: v.h, Style: style.New(style.Options{}), ID: "bin/d",
		Days: engine.Snapshot{Days: []engine.View{engine.View{ID: "bin/d", State: v.s, Now: v.now}.At(v.now)}}}
}

func (v *at) happen(bodies ...day.Body) {
	v.t.Helper()
	for _, b := range bodies {
		var err error
		if v.s, err = day.Apply(v.s, day.Event{Seq: len(v.s.Log) + 1, At: v.now, Body: b}); err != nil {
			v.t.Fatal(err)
		}
	}
}

// press presses keys and carries out what is asked; it tells whether the screen was left.
func (v *at) press(keys ...string) (left bool) {
	v.t.Helper()
	for _, k := range keys {
		var wants []screen.Request
		v.scr, wants = screentest.Press(v.scr, v.env(), k)
		for _, w := range wants {
			switch w := w.(type) {
			case screen.Do:
				bodies, err := day.Decide(v.s, w.Command, v.now)
				if err != nil {
					v.t.Fatalf("%s: %v", k, err)
				}
				v.happen(bodies...)
			case screen.Leave:
				left = true
			}
		}
	}
	return left
}

func (v *at) says(words string) {
	v.t.Helper()
	text := screentest.Shown(v.t, v.scr, v.env())
	if sheet := v.scr.View(v.env()); sheet.ActBig { // its letters are pictures
		text += " " + sheet.Act
	}
	if !strings.Contains(strings.Join(strings.Fields(text), " "), words) {
		v.t.Errorf("no %q in\n%s", words, text)
	}
}

func celsius(c float64) day.Body { t := quantity.Celsius(c); return day.Reading{Temp: &t} }

// The row of the handbook (S1): blue-green or blue and clear, air taken in: dithionite 0.5 to 1 g a litre, half an hour, a strip;
// at 60 L in the middle of its range, and never past the recipe's at_once.
func TestFromSignsToADoseAndItsRecheck(t *testing.T) {
	v := living(t, "soda", celsius(35), day.StripTest{Stayed: quantity.Seconds(8)})
	v.press("1", "4", "2", "1", "space") // blue; clear
	v.says("blue")
	v.press("space")
	v.says("CAUTION")
	before := len(v.s.Log)
	v.press("space")
	v.press("space")
	if len(v.s.Log) != before {
		t.Fatalf("two presses at once give %s", v.s.Log[len(v.s.Log)-1].Body.Kind())
	}
	v.now = v.now.Add(time.Second)
	if !v.press("space") {
		t.Error("the screen stays")
	}
	tr := v.s.Treating
	if tr == nil || tr.Until.Sub(tr.Since) != 30*time.Minute {
		t.Fatalf("the recheck is %+v", tr)
	}
	if said, ok := v.s.Log[before].Body.(day.CautionAnswered); !ok || !strings.Contains(said.Caution, "mask") {
		t.Errorf("before it stands %+v", v.s.Log[before].Body)
	}
	given, ok := v.s.Log[len(v.s.Log)-2].Body.(day.PowderAdded)
	if !ok || given.Powder != "reducer" || given.Mass < 30 || given.Mass > 60 {
		t.Errorf("given was %+v", given)
	}
	v.says("Lid on, no hands in it.")
	v.now = v.now.Add(31 * time.Minute)
	v.says("Better, the same, or worse?")
	v.happen(day.StripTest{Stayed: quantity.Seconds(40)})
	v.says("by the strips it is better")
	v.press("space")
	if tried := v.s.Tried(); len(tried) != 1 || tried[0].Answer.String() != "better" {
		t.Errorf("tried are %+v", tried)
	}
	v.says("What is seen?")
}

// The key that goes on is told first, and in the smallest window every place to look is on the list, the strip too.
func TestAllThatCanBeSeenIsAsked(t *testing.T) {
	v := living(t, "soda", celsius(35))
	e := v.env()
	if keys := v.scr.Keys(e); keys[0].Key != "enter" || keys[1].Key != "1–8" { // as far as the list goes
		t.Errorf("the first keys told are %v", keys[:2])
	}
	e.Width, e.Height = 60, 20
	text := screentest.Shown(t, v.scr, e)
	for _, word := range []string{"1  liquor", "7  goods", "8  strip"} {
		if !strings.Contains(text, word) {
			t.Errorf("no %q in\n%s", word, text)
		}
	}
}

// What did not help twice falls back: the same signs then ask for a test of the powder (an old tin, common practice).
func TestTheRecheckNarrows(t *testing.T) {
	v := living(t, "soda", celsius(35))
	for range 2 {
		v.press("1", "2", "2", "1", "space", "space") // grass green, clear
		v.says("reducer: 15.0 g of sodium dithionite")
		v.press("space")
		v.now = v.now.Add(2 * time.Second)
		v.press("space")
		v.now = v.now.Add(40 * time.Minute)
		v.press("2") // the same
		v.happen(celsius(35))
	}
	v.press("1", "2", "2", "1", "space", "space")
	v.says("Test the powder")
}

// A vat that is well asks for nothing, and space leaves.
func TestAReadyVat(t *testing.T) {
	v := living(t, "soda", celsius(35), day.StripTest{Stayed: quantity.Seconds(45)})
	v.press("1", "1", "3", "1", "space", "space")
	n := len(v.s.Log)
	if !v.press("space") || len(v.s.Log) != n {
		t.Errorf("a ready vat is given %d events", len(v.s.Log)-n)
	}
}

func TestEveryPageFits(t *testing.T) {
	for _, id := range []string{"soda", "lye", "sugar-lime", "iron-lime", "thiourea", "madder-bran", "mild-soda"} {
		for i, size := range screentest.Sizes {
			if id != "soda" && i > 0 && !long.Runs() {
				continue
			}
			for group := range 7 {
				v := living(t, id, celsius(28), day.StripTest{Stayed: quantity.Seconds(8)})
				v.w, v.h = size[0], size[1]
				v.press(string(rune('1' + group)))
				screentest.Shown(t, v.scr, v.env())
				v.press("1", "esc")
				v.scr, _ = screentest.Press(v.scr, v.env(), "space")
				if sheet := v.scr.View(v.env()); sheet.Act == "" || strings.Contains(sheet.Act+sheet.Why+sheet.Next, "(S1") {
					t.Errorf("%s %d: %+v", id, group, sheet)
				}
				screentest.Shown(t, v.scr, v.env())
			}
		}
	}
}

// What worked at this vat opens the answer, as soon as its book is read.
func TestWhatWorkedHereOpensTheAnswer(t *testing.T) {
	strip := func(seconds float64) day.StripTest { return day.StripTest{Stayed: quantity.Seconds(seconds)} }
	before := living(t, "soda", strip(12), day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 30}, strip(44))
	for _, size := range screentest.Sizes {
		v := living(t, "soda", day.SignSeen{Sign: "grass-green"})
		v.w, v.h = size[0], size[1]
		e := v.env()
		scr, _ := screentest.Press(signs.New(e), e, "space")
		if text := screentest.Shown(t, scr, e); strings.Contains(text, "orked here") {
			t.Errorf("%v: its book is not read, and this worked:\n%s", size, text)
		}
		e.History = history.Vat{{Name: "d0", State: before.s}, {Name: "d", State: v.s}}
		text := screentest.Shown(t, scr, e)
		at, cause := strings.Index(text, "Worked here: the last time 0.5 g/L"), strings.Index(text, "Most likely")
		if at < 0 && (cause >= 0 || size[1] > 20) || cause >= 0 && cause < at { // in the smallest the caution takes the room of both
			t.Errorf("%v: it does not open the answer:\n%s", size, text)
		}
	}
}

// A vat that is being built, is led to its end, or has ended says so at once, and is given nothing; but burnt sulfur can be
// said of it all the same.
func TestAVatThatGetsNothing(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*day.Head)
		bodies []day.Body
		says   string
	}{
		{"being built", func(h *day.Head) { h.Opening = day.Opening{Number: 1} }, nil, "build it to its end first"},
		{"being ended", func(h *day.Head) { h.Setup.Ending = true }, []day.Body{day.StepSkipped{OfStep: day.OfStep{Step: 1}, Do: string(day.DoUseUp)}}, "no alkali, no reducer"},
		{"ended", nil, []day.Body{day.VatEnded{Why: "used up"}}, "It has ended on 28 March 2026"},
	} {
		r, _ := recipes.Find("soda")
		h := rehearse.Head(r, noon)
		h.Opening = day.Opening{Number: 2, Built: true}
		if c.change != nil {
			c.change(&h)
		}
		s, err := day.Begin(h)
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range screentest.Sizes {
			v := &at{t: t, s: s, now: noon, w: size[0], h: size[1]}
			v.happen(append([]day.Body{day.Opened{How: "tend"}, celsius(35), day.StripTest{Stayed: quantity.Seconds(8)}}, c.bodies...)...)
			v.scr = signs.New(v.env())
			v.says(c.says)
			n := len(v.s.Log)
			if !v.press("space") || len(v.s.Log) != n {
				t.Errorf("%s: space does not leave", c.name)
			}
			if c.name == "ended" {
				continue
			}
			v.scr = signs.New(v.env())
			v.press("esc", "4", "5", "space", "space")
			v.says("fresh air")
		}
	}
}
