package stock

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/quantity"
	model "example.org/vatside/model/stock"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/style"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// env is a shelf with what happened to it, and a soda vat of 60 L to be built next.
func env(w, h int, bodies ...model.Body) screen.Env {
	var events []model.Event
	for i, b := range bodies {
		events = append(events, model.Event{Seq: i + 1, At: noon.Add(time.Duration(i-len(bodies)) * time.Minute), Body: b})
	}
	l, _ := model.Replay(events)
	b := model.Reckon(l.Tins, nil)
	e := screen.Env{Now: noon, Width: w, Height: h, Style: style.New(style.Options{})}
	e.Home.Settings.Units = "metric"
	e.Home.Stock = screen.Stock{List: l, Tins: b.OnShelf(), All: b.Tins}
	for _, r := range recipes.Builtin() {
		if r.ID == "soda" {
			e.Home.Stock.Next = &model.Wish{Recipe: r, Fill: 60}
		}
	}
	return e
}

func tin(id, material string, holds quantity.Mass, days int) model.Body {
	at := noon.AddDate(0, 0, -days)
	return model.Bought{OfTin: model.OfTin{Tin: id}, Material: material, Holds: holds, When: &at}
}

func open(id string, days int) model.Body {
	at := noon.AddDate(0, 0, -days)
	return model.Opened{OfTin: model.OfTin{Tin: id}, When: &at}
}

// shelved is a common shelf: an old reducer, too little soda ash, indigo still sealed.
func shelved() []model.Body {
	return []model.Body{
		tin("T1", "sodium dithionite", 500, 300), open("T1", 215),
		tin("T2", "soda ash", 300, 60), open("T2", 50),
		tin("T3", "pre-reduced indigo grains", 1000, 20),
		tin("T4", "calcium hydroxide (slaked lime)", 2000, 300), open("T4", 200),
	}
}

func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

func TestTheShelfFitsEverySize(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], shelved()...)
		text := flat(screentest.Shown(t, New(e), e))
		for _, word := range []string{
			"Test the dithionite of T1: opened 7 months ago", "T2 soda ash", "T3 pre-reduced indigo grains", "sealed",
			"test it", "for another soda vat, 60 L: 60 g of soda ash short", "enter test T1",
		} {
			if word == "enter test T1" {
				if b := New(e).Keys(e)[0]; b.Key+" "+b.Desc != word {
					t.Errorf("%v: %+v", size, b)
				}
			} else if !strings.Contains(text, word) {
				t.Errorf("%v: %q is missing:\n%s", size, word, screentest.Shown(t, New(e), e))
			}
		}
		e = env(size[0], size[1])
		s := New(e)
		if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, "nothing on the list yet") {
			t.Errorf("%v: an empty shelf: %s", size, text)
		}
		if s, _ = screentest.Press(s, e, "space"); !screen.Capturing(s) {
			t.Error("space does not ask for the first tin")
		}
	}
}

// What is pressing goes from the test to what is short to nothing.
func TestTheActIsTheMostPressing(t *testing.T) {
	tested := append(shelved(), model.Tested{OfTin: model.OfTin{Tin: "T1"}, Turned: true})
	gone := append(tested[:len(tested):len(tested)], model.Discarded{OfTin: model.OfTin{Tin: "T2"}, Why: "used up"})
	full := append(tested[:len(tested):len(tested)], tin("T5", "soda ash", 5000, 1), model.Discarded{OfTin: model.OfTin{Tin: "T4"}, Why: "used up"})
	for want, bodies := range map[string][]model.Body{
		"Buy soda ash: 60 g short for the next vat":       tested,
		"Buy soda ash: 360 g short for the next vat":      gone,
		"Nothing is short":                                full,
		"Do not use the dithionite of T1: warm":           append(shelved(), model.Tested{OfTin: model.OfTin{Tin: "T1"}, Seen: []string{"warm"}}),
		"Hand in the dithionite of T1 as hazardous waste": append(shelved(), model.Tested{OfTin: model.OfTin{Tin: "T1"}}),
	} {
		e := env(80, 24, bodies...)
		sheet := New(e).View(e)
		if sheet.Act != want {
			t.Errorf("%q, want %q", sheet.Act, want)
		}
		if danger := strings.HasPrefix(want, "Do not") || strings.HasPrefix(want, "Hand in"); danger != (sheet.Caution != nil) {
			t.Errorf("%q: the caution is %v", want, sheet.Caution)
		}
	}
}

func asked(t *testing.T, r []screen.Request) model.Command {
	t.Helper()
	if len(r) != 1 {
		t.Fatalf("asks for %v", r)
	}
	k, ok := r[0].(screen.Keep)
	if !ok {
		t.Fatalf("asks for %+v", r[0])
	}
	return k.Command
}

func letters(text string) []string { return append(strings.Split(text, ""), "enter") }

func TestANewTinIsAskedLineByLine(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], shelved()...)
		keys := []string{"n"}
		for _, line := range []string{"indigo powder", "250", "12,50", "45", "2026-11-20"} {
			keys = append(keys, letters(line)...)
		}
		s := New(e)
		for _, k := range keys[:len(keys)-1] {
			s, _ = screentest.Press(s, e, k)
			screentest.Shown(t, s, e)
		}
		_, r := screentest.Press(s, e, "enter")
		n := asked(t, r).(model.AddTin).New
		if n.Material != "indigo powder" || n.Holds != 250 || *n.Price != 1250 || n.Strength != 0.45 || n.Opened.Format(time.DateOnly) != "2026-11-20" {
			t.Errorf("%v: %+v", size, n)
		}
	}
	// Soda ash has no strength on its label; Enter leaves price and opening untold.
	e := env(80, 24)
	keys := append(append([]string{"n"}, letters("soda ash")...), append(letters("1 kg"), "enter", "enter")...)
	_, r := screentest.Press(New(e), e, keys...)
	if n := asked(t, r).(model.AddTin).New; n.Holds != 1000 || n.Price != nil || n.Strength != 0 || n.Opened != nil {
		t.Errorf("%+v", n)
	}
	for _, c := range []struct {
		keys []string
		says string
	}{
		{[]string{"n", "enter"}, "type what is in it"},
		{append([]string{"n"}, letters("quicklime")...), "quicklime boils up"},
		{append(append([]string{"n"}, letters("lime")...), letters("5 L")...), "volume"},
		{append(append([]string{"n"}, letters("lime")...), "enter"), "mass"},
		{append(append(append([]string{"n"}, letters("lime")...), letters("5")...), letters("2 eur")...), "without"},
		{append(append(append([]string{"n"}, letters("lime")...), letters("5")...), append([]string{"enter"}, letters("2027-01-01")...)...), "still to come"},
		{append(append(append([]string{"n"}, letters("lime")...), letters("5")...), append([]string{"enter"}, letters("may")...)...), "type the date as 2026-11-25"},
	} {
		s, r := screentest.Press(New(e), e, c.keys...)
		if text := flat(screentest.Shown(t, s, e)); len(r) > 0 || !strings.Contains(text, c.says) {
			t.Errorf("%v: asks for %v, %q is missing: %s", c.keys, r, c.says, text)
		}
	}
}

func TestWeighedOpenedGone(t *testing.T) {
	e := env(80, 24, shelved()...)
	_, r := screentest.Press(New(e), e, append([]string{"2", "w"}, letters("212")...)...)
	if c := asked(t, r); c != (model.WeighTin{Tin: "T2", Mass: 212}) {
		t.Errorf("%+v", c)
	}
	_, r = screentest.Press(New(e), e, "3", "o", "enter")
	if c := asked(t, r); c != (model.OpenTin{Tin: "T3"}) {
		t.Errorf("%+v", c)
	}
	_, r = screentest.Press(New(e), e, "2", "g", "enter")
	if c := asked(t, r); c != (model.DropTin{Tin: "T2", Why: "used up"}) {
		t.Errorf("%+v", c)
	}
	_, r = screentest.Press(New(e), e, "u")
	if c := asked(t, r); c != (model.TakeBack{}) {
		t.Errorf("%+v", c)
	}
	s, r := screentest.Press(New(e), e, append([]string{"2", "w"}, letters("900")...)...)
	if text := flat(screentest.Shown(t, s, e)); len(r) > 0 || !strings.Contains(text, "cannot hold 900 g") {
		t.Errorf("%v %s", r, text)
	}
	for keys, says := range map[string]string{"2 o": "was opened on 2026-10-06 already", "2 t": "only a reducer"} {
		_, r := screentest.Press(New(e), e, strings.Fields(keys)...)
		if len(r) != 1 || !strings.Contains(r[0].(screen.Say).Word, says) {
			t.Errorf("%s: %v", keys, r)
		}
	}
	if _, r := screentest.Press(New(e), e, "esc"); len(r) != 1 || r[0] != (screen.Leave{}) {
		t.Errorf("esc asks for %v", r)
	}
}

// later is the same shelf a while after.
func later(e screen.Env, by time.Duration) screen.Env {
	e.Now = e.Now.Add(by)
	return e
}

func TestTheGuidedTest(t *testing.T) {
	for _, size := range screentest.Sizes {
		e := env(size[0], size[1], shelved()...)
		s, _ := screentest.Press(New(e), e, "space")
		if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, "Look into the tin") || !strings.Contains(text, "CAUTION") {
			t.Fatalf("%v: %s", size, text)
		}
		s, r := screentest.Press(s, e, "space", "space") // the caution, and within the second nothing more
		if text := flat(screentest.Shown(t, s, e)); len(r) > 0 || !strings.Contains(text, "Look into the tin") {
			t.Errorf("%v: a second press within a second went on: %s", size, text)
		}
		for n, act := range []string{"Warm 1 L of liquor", "Stir in 1.0 g of soda ash", "Sprinkle 1.0 g of the reducer"} {
			e = later(e, 2*time.Second)
			s, _ = screentest.Press(s, e, "space")
			if n == 2 { // the soda ash has a caution of its own
				e = later(e, 2*time.Second)
				s, _ = screentest.Press(s, e, "space")
			}
			if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, act) {
				t.Fatalf("%v: %q is missing: %s", size, act, text)
			}
		}
		if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, "CAUTION") || !strings.Contains(text, "never water onto the powder") {
			t.Errorf("%v: %s", size, text)
		}
		s, _ = screentest.Press(s, e, "space")
		e = later(e, 2*time.Second)
		s, _ = screentest.Press(s, e, "space")
		if f := s.View(later(e, 4*time.Minute)).Figure.Number; f != "6:00" {
			t.Errorf("%v: after four minutes the clock shows %q", size, f)
		}
		for by, runs := range map[time.Duration]bool{time.Minute: true, 11 * time.Minute: false} { // at its end it stands at 0:00
			if got := s.(screen.Counter).Counts(later(e, by)); got != runs {
				t.Errorf("%v: after %s the clock counts: %v", size, by, got)
			}
		}
		if s, r := screentest.Press(s, later(e, time.Second), "space"); len(r) > 0 || s.View(e).Figure.Number == "" {
			t.Errorf("%v: a second press at once was taken for an answer", size)
		}
		_, r = screentest.Press(s, later(e, 6*time.Minute), "space")
		if c := asked(t, r).(model.TestTin); c.Tin != "T1" || !c.Result.Turned || c.Result.After != quantity.Minutes(6) {
			t.Errorf("%v: %+v", size, c)
		}
		if _, r := screentest.Press(s, later(e, 6*time.Minute), "x"); len(r) != 1 || !strings.Contains(r[0].(screen.Say).Word, "whole 10 min") {
			t.Errorf("%v: given up early: %v", size, r)
		}
		over := later(e, 11*time.Minute)
		if text := flat(screentest.Shown(t, s, over)); !strings.Contains(text, "Has it turned yellow-green?") {
			t.Errorf("%v: %s", size, text)
		}
		_, r = screentest.Press(s, over, "x")
		if c := asked(t, r).(model.TestTin); c.Result.Turned {
			t.Errorf("%v: %+v", size, c)
		}
	}
}

func TestACakedTinIsNotTested(t *testing.T) {
	for key, seen := range map[string]string{"c": "caked", "w": "warm", "a": "acrid"} {
		e := env(80, 24, shelved()...)
		_, r := screentest.Press(New(e), e, "t", key)
		if c := asked(t, r).(model.TestTin); len(c.Result.Seen) != 1 || c.Result.Seen[0] != seen || c.Result.Turned {
			t.Errorf("%s: %+v", key, c)
		}
	}
	e := env(80, 24, append(shelved(), model.Tested{OfTin: model.OfTin{Tin: "T1"}, Seen: []string{"warm"}})...)
	_, r := screentest.Press(New(e), e, "1", "t")
	if len(r) != 1 || !strings.Contains(r[0].(screen.Say).Word, "call the fire service") {
		t.Errorf("%v", r)
	}
	s, _ := screentest.Press(New(e), e, "space")
	if text := flat(screentest.Shown(t, s, e)); !strings.Contains(text, "Where did T1, dithionite go?") || !strings.Contains(text, "hazardous waste") || !strings.Contains(text, "CAUTION") {
		t.Error(text)
	}
}

func TestTheShelfInOunces(t *testing.T) {
	e := env(80, 24, shelved()...)
	e.Home.Settings.Units = "us"
	_, r := screentest.Press(New(e), e, append([]string{"2", "w"}, letters("7")...)...)
	if c := asked(t, r).(model.WeighTin); c.Mass < 198 || c.Mass > 199 { // 7 oz
		t.Errorf("%+v", c)
	}
	if text := flat(screentest.Shown(t, New(e), e)); !strings.Contains(text, "oz") || strings.Contains(text, " g ") {
		t.Error(text)
	}
}
