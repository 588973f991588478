package day_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

var morning = time.Date(2026, 5, 9, 9, 0, 0, 0, time.FixedZone("", 2*3600))

func ptr[T any](v T) *T { return &v }

func celsius(c float64) *quantity.Temperature { return ptr(quantity.Celsius(c)) }

func reading(c float64) day.Record { return day.Record{Body: day.Reading{Temp: celsius(c)}} }

// built reads one of the built-in recipes.
func built(t testing.TB, id string) recipe.Recipe {
	t.Helper()
	name := filepath.Join("..", "..", "recipes", id+".toml")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	r, faults := recipe.Parse(name, text)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return r
}

// head is a bin of 60 L outdoors, its first day.
func head(t testing.TB, id string) day.Head {
	return day.Head{Vat: "bin", Day: "2026-05-09", Setup: day.Setup{Fill: 60, Place: day.Outdoors, Units: "metric"}, Recipe: built(t, id)}
}

// played is a day under test, with its clock in the test's hand.
type played struct {
	t   testing.TB
	s   day.State
	now time.Time

	made map[string]bool // the kinds that commands made; nil: not noted
}

func begin(t testing.TB, h day.Head) *played {
	t.Helper()
	s, err := day.Begin(h)
	if err != nil {
		t.Fatal(err)
	}
	p := &played{t: t, s: s, now: morning}
	p.happen(day.Opened{How: "build"})
	return p
}

// dyeing is a living soda vat, looked at and ready, with pieces A1, A2 … wetted out: dip 8 min, air 12 min, 3 dips.
func dyeing(t testing.TB, pieces int, change ...func(*day.Head)) *played {
	t.Helper()
	h := head(t, "soda")
	h.Opening = day.Opening{Number: 2, Built: true}
	for _, f := range change {
		f(&h)
	}
	p := begin(t, h)
	p.do(day.Skip{Reason: "warm already"})
	p.do(day.Judge{Ready: true})
	for i := range pieces {
		tag := "A" + string(rune('1'+i))
		p.do(day.AddPiece{Tag: tag, Spec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 3, Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}})
		p.do(day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: tag}}})
	}
	return p
}

func (p *played) happen(bodies ...day.Body) {
	p.t.Helper()
	for _, b := range bodies {
		next, err := day.Apply(p.s, day.Event{Seq: len(p.s.Log) + 1, At: p.now, Body: b})
		if err != nil {
			p.t.Fatalf("%s: %v", b.Kind(), err)
		}
		p.s = next
	}
}

// do carries a command out, its caution answered where it wants one; it must not be refused. It returns the kinds that it
// made.
func (p *played) do(c day.Command) string {
	p.t.Helper()
	if r, ok := c.(day.Record); ok && r.Body.Kind() == (day.Rinsed{}).Kind() {
		p.wait(2 * minute) // the least that a rinse takes
	}
	bodies, err := day.Decide(p.s, c, p.now)
	var pending *day.Pending
	if errors.As(err, &pending) {
		bodies, err = day.Decide(p.s, day.Answered{Command: c}, p.now)
	}
	if err != nil {
		p.t.Fatalf("%#v at %s: %v", c, p.now.Format("15:04:05"), err)
	}
	var kinds []string
	for _, b := range bodies {
		kinds = append(kinds, b.Kind())
		if p.made != nil {
			p.made[b.Kind()] = true
		}
	}
	p.happen(bodies...)
	return strings.Join(kinds, ", ")
}

// refuses wants a refusal with these words in it.
func (p *played) refuses(c day.Command, words string) {
	p.t.Helper()
	_, err := day.Decide(p.s, c, p.now)
	if err == nil || !strings.Contains(err.Error(), words) {
		p.t.Errorf("%#v is to be refused with %q, and gives %v", c, words, err)
	}
}

func (p *played) wait(d time.Duration) { p.now = p.now.Add(d) }

// assume does what the clock takes as planned, and says which kinds of event it made; nothing where it waits.
func (p *played) assume() string {
	p.t.Helper()
	c, ok := day.Assume(p.s, p.now, morning, nil)
	if !ok {
		return ""
	}
	return p.do(c)
}

// until presses through the build as it is led, until a step of this sort is open; amid says with which powder.
func (p *played) until(do recipe.Do, powder string) day.Step {
	p.t.Helper()
	for range 200 {
		st, ok := p.s.Open()
		if ok && st.Do == do && (powder == "" || st.Powder == powder) {
			return st
		}
		a := day.Next(p.s, p.now)
		left, _ := a.Left(p.now)
		switch {
		case a.Entry == day.TempEntry && a.Press == "":
			t := 40.0
			if st.AtMost != nil {
				t = min(t, st.AtMost.Celsius())
			}
			p.do(day.Record{Body: day.Reading{Temp: celsius(t), Of: string(st.Into)}})
		case a.Kind == day.ActStrip:
			p.wait(35 * time.Second)
			p.do(day.StripBlue{})
		case left > 0:
			p.wait(left)
			continue
		default:
			p.do(day.Done{})
		}
		p.wait(10 * time.Second)
	}
	p.t.Fatalf("the build never came to %s %s", do, powder)
	return day.Step{}
}

func (p *played) piece(tag string) day.Piece {
	p.t.Helper()
	got, ok := p.s.Piece(tag)
	if !ok {
		p.t.Fatalf("no piece %s", tag)
	}
	return got
}
