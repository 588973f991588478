package day_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// atFilling is a day whose filling step is open and its caution answered.
func atFilling(t *testing.T) (day.State, time.Time) {
	t.Helper()
	h := head(t, "soda")
	h.Setup.Vessel, h.Setup.Material = "frustum 36 cm 44 cm 62 cm", "HDPE"
	h.Setup.Cold, h.Setup.Hot = quantity.Celsius(12), quantity.Celsius(60)
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
	seq := 0
	put := func(b day.Body) {
		seq++
		if s, err = day.Apply(s, day.Event{Seq: seq, At: now, Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	put(day.Opened{How: "build"})
	for st, ok := s.Open(); ok && st.Do != recipe.Fill; st, ok = s.Open() {
		now = now.Add(time.Minute)
		put(day.StepSkipped{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do), Reason: "the test is about filling"})
	}
	st, _ := s.Open()
	put(day.CautionAnswered{OfStep: day.OfStep{Step: st.No}, Caution: st.Caution})
	return s, now
}

// As the vat fills, what was read of depth and °C corrects what is still to be poured.
func TestReadingsCorrectTheFilling(t *testing.T) {
	s, now := atFilling(t)
	act := day.Next(s, now)
	if !strings.HasPrefix(act.How, "Cold now: ") || !strings.Contains(act.How, "below the rim; then hot: ") {
		t.Fatalf("the first word is %q", act.How)
	}
	first := act.Step
	read := func(below quantity.Length, temp quantity.Temperature) day.Step {
		t.Helper()
		now = now.Add(3 * time.Minute)
		bodies, err := day.Decide(s, day.Record{Body: day.Reading{BelowRim: &below, Temp: &temp}}, now)
		if err != nil {
			t.Fatal(err)
		}
		s, _ = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: bodies[0]})
		act = day.Next(s, now)
		return act.Step
	}
	v := s.Head.Setup.Measured()
	depth, err := v.Depth(first.Cold)
	if err != nil {
		t.Fatal(err)
	}
	// As planned, but the tap gave 15 °C and not 12: less of hot is needed, and more of cold.
	next := read(v.Rim()-depth, quantity.Celsius(15))
	if next.Hot >= first.Hot || next.Cold <= 0.2 {
		t.Errorf("from 15 °C it wants %v hot and %v cold more, before it was %v hot", next.Hot, next.Cold, first.Hot)
	}
	if !strings.HasPrefix(act.How, "In it: ") {
		t.Errorf("it says %q", act.How)
	}
	// Nearly full and too warm: only cold is left to pour, and it says where it will end.
	near, err := v.Depth(first.Water - 1)
	if err != nil {
		t.Fatal(err)
	}
	last := read(v.Rim()-near, quantity.Celsius(42))
	if last.Hot != 0 || last.Cold < 0.5 || last.Cold > 1.5 || !strings.Contains(act.How, "°C") {
		t.Errorf("it wants %v hot, %v cold: %q", last.Hot, last.Cold, act.How)
	}
}

// A vat that holds less than was reckoned comes out stronger, and the adding step says so; hot water alone does not go into
// an empty plastic vessel that does not bear it.
func TestTheFillIsHeldToTheVessel(t *testing.T) {
	s, now := atFilling(t)
	holds := quantity.Litres(48)
	put := func(b day.Body) {
		now = now.Add(time.Minute)
		s, _ = day.Apply(s, day.Event{Seq: len(s.Log) + 1, At: now, Body: b})
	}
	put(day.Reading{Holds: &holds})
	st, _ := s.Open()
	put(day.StepDone{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do)})
	if how := day.Next(s, now).How; !strings.Contains(how, "The vat holds 48 L by your last reading, not 53.7 L: it comes out 12 % stronger.") {
		t.Errorf("the adding step says %q", how)
	}

	h := head(t, "soda")
	h.Setup.Vessel, h.Setup.Material, h.Setup.Cold, h.Setup.Hot = "cylinder 40 cm 60 cm", "LDPE", 12, 70
	for i := range h.Recipe.Steps {
		if h.Recipe.Steps[i].Do == recipe.Fill {
			all := quantity.Celsius(70)
			h.Recipe.Steps[i].To = &all
		}
	}
	p := begin(t, h)
	for st, ok := p.s.Open(); ok && st.Do != recipe.Fill; st, ok = p.s.Open() {
		p.happen(day.StepSkipped{OfStep: day.OfStep{Step: st.No}, Do: string(st.Do), Reason: "the test is about filling"})
	}
	if how := day.Next(p.s, p.now).How; !strings.Contains(how, "let the water cool before it goes into the empty vessel") {
		t.Errorf("70 °C into empty LDPE: %q", how)
	}
}

func TestHowFullItIsHasLimits(t *testing.T) {
	s, now := atFilling(t)
	deep, much := quantity.Centimetres(70), quantity.Litres(200)
	for want, r := range map[string]day.Reading{
		"the vessel is 62 cm deep: say how far below its rim the liquor stands": {BelowRim: &deep},
		"the vessel holds 78": {Holds: &much},
	} {
		if _, err := day.Decide(s, day.Record{Body: r}, now); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

// When to begin heating: by what the hands have before them, or by the wished start, whichever is later; a timed pot
// corrects the stove. 1 kWh at 84 % of 2 kW is 35.7 min.
func TestWhenToBeginHeating(t *testing.T) {
	h := head(t, "soda")
	h.Setup.Cold, h.Setup.Hot = 12, 60
	h.Setup.Gear = day.Gear{Pot: quantity.Litres(8), Stove: quantity.Watts(2000), StoveBy: "induction"}
	p := begin(t, h)
	at, takes, ok := p.s.HeatBy(p.now)
	hot := 0.0
	for _, st := range p.s.Plan {
		if st.Do == recipe.Fill {
			hot = st.Hot.Litres()
		}
	}
	if want := hot * 0.983 * 48 * 4.18 / (2 * 0.84) / 60; !ok || math.Abs(takes.Minutes()-want) > 0.01*want {
		t.Errorf("%.1f L of hot water take %v, not %.1f min", hot, takes, want)
	}
	if at.After(p.now) {
		t.Errorf("with %v of heating and a quarter of an hour of weighing it can wait till %v", takes, day.Clock(at))
	}
	ready := p.now.Add(5 * time.Hour)
	h.Setup.ReadyBy = &ready
	later := begin(t, h)
	if by, _, ok := later.s.HeatBy(later.now); !ok || !by.After(at) || by.After(ready.Add(-takes.Duration()-30*time.Minute)) {
		t.Errorf("to dye at %v it is heated by %v", day.Clock(ready), day.Clock(by))
	}
	nominal := quantity.Minutes(8 * 48 * 4.18 / (2 * 0.84) / 60)
	h.Setup.PotTook = 2 * nominal
	slow := begin(t, h)
	if _, twice, _ := slow.s.HeatBy(slow.now); math.Abs(twice.Minutes()/takes.Minutes()-2) > 0.02 {
		t.Errorf("a pot that took twice as long makes %v of %v", twice, takes)
	}
}

// A wished time of day is the next one, also over a change of the clocks (Europe/Berlin, 29 March 2026).
func TestAWishedTimeIsTheNextOne(t *testing.T) {
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skip("no zone data here")
	}
	for _, c := range []struct{ now, clock, want string }{
		{"2026-03-28T09:00:00", "10:00", "2026-03-28T10:00:00+01:00"},
		{"2026-03-28T10:00:00", "10:00", "2026-03-29T10:00:00+02:00"},
		{"2026-03-28T23:30:00", "00:15", "2026-03-29T00:15:00+01:00"},
	} {
		now, _ := time.ParseInLocation("2006-01-02T15:04:05", c.now, berlin)
		if got := day.Wished(now, c.clock); got == nil || got.Format(time.RFC3339) != c.want {
			t.Errorf("%s at %s: %v, want %s", c.clock, c.now, got, c.want)
		}
	}
	if day.Wished(time.Time{}, "") != nil || day.Wished(time.Time{}, "ten") != nil {
		t.Error("no time is a time")
	}
}
