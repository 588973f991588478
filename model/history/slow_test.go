package history_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// brewer leads a ferment from day to day.
type brewer struct {
	t    *testing.T
	s    day.State
	now  time.Time
	seq  int
	past history.Vat
	said []string // what home said each morning
}

func (b *brewer) open(h day.Head) {
	h.Vat, h.Day, h.Zone = "crock", b.now.Format(time.DateOnly), "UTC"
	s, err := day.Begin(h)
	if err != nil {
		b.t.Fatal(err)
	}
	b.s, b.seq = s, 0
	b.apply(day.Opened{How: "follow along"})
}

func (b *brewer) apply(body day.Body) {
	b.seq++
	s, err := day.Apply(b.s, day.Event{Seq: b.seq, At: b.now, Body: body})
	if err != nil {
		b.t.Fatal(err)
	}
	b.s = s
}

func (b *brewer) do(c day.Command) {
	b.t.Helper()
	bodies, err := day.Decide(b.s, c, b.now)
	var ask *day.Pending
	if errors.As(err, &ask) {
		bodies, err = day.Decide(b.s, day.Answered{Command: c}, b.now)
	}
	if err != nil {
		b.t.Fatalf("%s at %s: %v", day.CallOf(b.s, b.now).Words, b.now, err)
	}
	for _, body := range bodies {
		b.apply(body)
	}
}

// press does what the calls say until a long wait runs, or the look is called.
func (b *brewer) press() {
	b.t.Helper()
	for range 200 {
		call := day.CallOf(b.s, b.now)
		st, open := b.s.Open()
		left, _ := call.Act.Left(b.now)
		switch {
		case !open || st.Judges(), call.Act.Kind == day.ActRound, left > day.LongWait && st.Waits():
			return
		case left > 0:
			b.now = b.now.Add(left)
		case strings.HasPrefix(call.Words, "Read the °C first"):
			b.read(40)
		default:
			b.do(day.Done{})
		}
		b.now = b.now.Add(3 * time.Second)
	}
	b.t.Fatal("it never waits")
}

func (b *brewer) read(celsius float64) {
	t := quantity.Celsius(celsius)
	b.do(day.Record{Body: day.Reading{Temp: &t}})
}

// night closes the day; the next is opened at an hour of the day after, in air of so many °C, after home was read.
func (b *brewer) night(hour int, air float64) {
	b.do(day.Close{Why: "it ferments"})
	b.past = append(b.past, history.Day{Name: b.s.Head.Day, State: b.s})
	y, m, d := b.now.Date()
	b.now = time.Date(y, m, d+1, hour, 0, 0, 0, time.UTC)
	var words []string
	for _, due := range history.LifeOf(b.past).Care(b.now) {
		words = append(words, due.When(b.now)+": "+due.Words(quantity.Metric))
	}
	b.said = append(b.said, b.now.Format("Mon 2 Jan 15:04 ")+strings.Join(words, " | "))
	h, err := outlook.Next(b.s, false)
	if err != nil {
		b.t.Fatal(err)
	}
	t := quantity.Celsius(air)
	h.Setup.Air = &t
	b.open(h)
}

// A ferment that is wrapped, cold for a night, warmed, fed by its sign and judged ready: what home says each morning. The cold
// days do not count; what home calls is the day's call as well.
func TestAFermentThroughAColdNight(t *testing.T) {
	mild, cold, warm := quantity.Celsius(26), 8.0, 26.0
	b := &brewer{t: t, now: first}
	h := day.Head{Recipe: builtIn(t, "madder-bran"), Opening: day.Opening{Number: 1}, Setup: day.Setup{Name: "Crock", Fill: 20,
		Vessel: "cylinder 30 cm 40 cm", Material: "stainless", Place: day.Outdoors, Kept: day.KeptWrapped, Gear: day.Gear{Air: &mild}}}
	b.open(h)
	for _, st := range b.s.Plan {
		if st.Do == recipe.Cover && !strings.Contains(st.How, "Never airtight") {
			t.Errorf("the lid of a ferment: %q", st.How)
		}
	}
	b.press()
	round := func(celsius float64) {
		t.Helper()
		call := day.CallOf(b.s, b.now)
		if call.Words != "Daily round: smell, film, pH, stir" {
			t.Errorf("%s: the day calls %q", b.now.Format("2 Jan"), call.Words)
		}
		b.read(celsius)
		t.Logf("%s the day: %s. %s %s Then: %s", b.now.Format("Mon 2 Jan"), call.Words, day.CallOf(b.s, b.now).How, day.CallOf(b.s, b.now).Why, day.Upcoming(b.s, b.now))
		if celsius < 26 {
			b.now = b.now.Add(time.Hour)
			b.read(35)
		}
		b.do(day.Done{})
		b.press() // lime, where a wait is over
	}
	for _, n := range []struct{ read, air float64 }{{34, cold}, {23, cold}, {22, warm}, {33, warm}, {34, warm}} {
		b.night(8, n.air) // the air of the day that follows, and of its night
		round(n.read)
	}
	b.do(day.Record{Body: day.SignSeen{Sign: "no-froth"}})
	b.do(day.Record{Body: day.Fed{Powder: "bran", Material: "wheat bran", Mass: 40}})
	for _, celsius := range []float64{34, 34, 34} {
		b.night(8, warm)
		round(celsius)
	}
	b.night(12, warm) // day 10
	if st, _ := b.s.Open(); !st.Judges() {
		b.press()
	}
	b.do(day.Judge{Ready: true, By: day.ByEye})
	b.night(8, warm)
	for _, s := range b.said {
		t.Log(s)
	}
	all := strings.Join(b.said, "\n")
	for _, want := range []string{
		"day 1 of 7–14", "by reckoning it is below 26 °C since about", "one day was below 26 °C: look from day 8",
		"two days were below 26 °C: look from day 9", "See if it is ready", "21:11, likely",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("home never says %q", want)
		}
	}
	if strings.Contains(all, "three days were") {
		t.Error("a warm day counts as cold")
	}
	if !b.s.Head.Opening.Built {
		t.Error("it was judged ready, and is not built")
	}
}

// A sugar vat that is closed in its day of waiting is warmed by what home says as well, with how sure that is; one with a thermostat asks
// for nothing, and after its wait it is looked at.
func TestASugarVatThroughAColdNight(t *testing.T) {
	for kept, want := range map[string]bool{day.KeptWrapped: true, day.NotKept: true, day.KeptByHeater: false} {
		cold := quantity.Celsius(4)
		b := &brewer{t: t, now: first}
		b.open(day.Head{Recipe: builtIn(t, "sugar-lime"), Opening: day.Opening{Number: 1}, Setup: day.Setup{Name: "Crock", Fill: 20,
			Vessel: "cylinder 30 cm 40 cm", Material: "stainless", Place: day.Outdoors, Kept: kept, Gear: day.Gear{Air: &cold}}})
		b.press()
		b.read(40)
		b.night(8, 4)
		said := b.said[0]
		if strings.Contains(said, "Warm it: by reckoning it is below 27 °C since about") != want || !strings.Contains(said, "See if it is ready") {
			t.Errorf("%s: home says %s", kept, said)
		}
		if due := history.LifeOf(b.past).Care(b.now.Add(48 * time.Hour)); due[0].ID != history.Wait || due[0].Do != "See if it is ready" {
			t.Errorf("%s: two days later home says %+v", kept, due[0])
		}
		if kept == day.NotKept && !strings.Contains(said, ", sure |") {
			t.Errorf("without a wrap in 4 °C: %s", said)
		}
	}
}
