package calendar_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-ical"

	"example.org/vatside/model/calendar"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

func builtIn(t *testing.T, id string) recipe.Recipe {
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

// begun is a vat of 20 L as its day opens.
func begun(t *testing.T, id string, at time.Time, o day.Opening) day.State {
	t.Helper()
	s, err := day.Begin(day.Head{Vat: "crock", Day: at.Format(time.DateOnly), Zone: "Europe/Berlin", Recipe: builtIn(t, id), Opening: o,
		Setup: day.Setup{Name: "Crock", Fill: 20, Vessel: "cylinder 30 cm 40 cm", Material: "stainless", Place: day.Outdoors, Kept: day.KeptWrapped}})
	if err != nil {
		t.Fatal(err)
	}
	return applied(t, s, at, day.Opened{How: "follow along"})
}

func applied(t *testing.T, s day.State, at time.Time, bodies ...day.Body) day.State {
	t.Helper()
	for _, b := range bodies {
		next, err := day.Apply(s, day.Event{Seq: s.Seq + 1, At: at, Body: b})
		if err != nil {
			t.Fatal(err)
		}
		s = next
	}
	return s
}

// tended is a living vat that was looked at and closed.
func tended(t *testing.T, id string, at time.Time) history.Vat {
	t.Helper()
	s := begun(t, id, at, day.Opening{Number: 2, Built: true, Cover: true})
	s = applied(t, s, at, day.StripTest{Stayed: quantity.Seconds(45)})
	return history.Vat{{Name: s.Head.Day, State: applied(t, s, at, day.Closed{})}}
}

// brewing is a ferment that is built up to its first long wait, or its last, and left to itself.
func brewing(t *testing.T, at time.Time, last bool) history.Vat {
	t.Helper()
	s := begun(t, "madder-bran", at, day.Opening{Number: 1})
	for range 200 {
		st, open := s.Open()
		act := day.CallOf(s, at).Act
		left, _ := act.Left(at)
		var c day.Command = day.Done{}
		switch {
		case !open:
			t.Fatal("it never waits")
		case st.Waits() && left > day.LongWait && (!last || s.Plan[st.No].Judges()):
			return history.Vat{{Name: s.Head.Day, State: applied(t, s, at, day.Closed{})}}
		case left > 0:
			at = at.Add(left)
		}
		if strings.HasPrefix(day.CallOf(s, at).Words, "Read the °C first") {
			warm := quantity.Celsius(40)
			c = day.Record{Body: day.Reading{Temp: &warm}}
		}
		bodies, err := day.Decide(s, c, at)
		if err != nil {
			bodies, err = day.Decide(s, day.Answered{Command: c}, at)
		}
		if err != nil {
			t.Fatal(err)
		}
		s = applied(t, s, at, bodies...)
		at = at.Add(3 * time.Second)
	}
	t.Fatal("it never waits")
	return nil
}

// exported is what a vat is due in so many weeks, as other programs read it, the soonest first.
func exported(t *testing.T, v history.Vat, now time.Time, weeks int) (list []ical.Event, byUID map[string]ical.Event) {
	t.Helper()
	until := now.AddDate(0, 0, 7*weeks)
	text := calendar.Calendar{Name: "vats", At: now, Events: calendar.OfVat(history.LifeOf(v), "crock", "Crock", now, until, quantity.Metric)}.Text()
	byUID = read(t, text)
	for _, e := range byUID {
		list = append(list, e)
		at := begins(t, e)
		to, _ := e.DateTimeEnd(nil)
		if got := rings(t, e); len(got) != 1 || !got[0].Equal(at) || at.Hour() < 8 || at.Hour() > 21 || to.Sub(at) != 15*time.Minute || at.Before(now) || !at.Before(until) {
			t.Errorf("%s at %v to %v, alarms %v", summary(e), at, to, got)
		}
		if !strings.HasPrefix(summary(e), "Crock: ") {
			t.Errorf("%q does not name the vat", summary(e))
		}
	}
	slices.SortFunc(list, func(a, b ical.Event) int { return begins(t, a).Compare(begins(t, b)) })
	return list, byUID
}

func named(list []ical.Event, words string) (out []ical.Event) {
	for _, e := range list {
		if strings.Contains(summary(e), words) {
			out = append(out, e)
		}
	}
	return out
}

// A ferment that brews: a round each day, which says the day it is, until the look whether it is ready; nobody is woken for it.
func TestADailyRound(t *testing.T) {
	berlin := zone(t, "Europe/Berlin")
	begin := time.Date(2026, 10, 20, 8, 0, 0, 0, berlin)
	list, _ := exported(t, brewing(t, begin, false), begin.Add(4*time.Hour), 4)
	if rounds := named(list, "Daily round"); len(rounds) < 6 || len(rounds) > 7 || len(named(list, "Go on building")) != 1 || !strings.Contains(summary(rounds[len(rounds)-1]), "day 7 of") {
		t.Errorf("%d rounds of %d while lime is still to come", len(rounds), len(list))
	}
	v := brewing(t, begin, true)
	last, _ := v.Last()
	now := last.State.At.Add(time.Minute)
	list, first := exported(t, v, now, 4)
	look := named(list, "See if it is ready")
	rounds := named(list, "Daily round")
	if len(look) != 1 || len(rounds) != 2 || len(list) > len(rounds)+2 {
		t.Fatalf("%d looks, %d rounds of %d", len(look), len(rounds), len(list))
	}
	for i, e := range rounds {
		slow, _ := last.State.Slow(begins(t, e))
		if !strings.HasSuffix(summary(e), "; "+slow.Words()) || !begins(t, e).Before(begins(t, look[0])) {
			t.Errorf("%v: %q, and it is %s", begins(t, e), summary(e), slow.Words())
		}
		if i > 0 && begins(t, e).Format("15:04") != begins(t, rounds[0]).Format("15:04") { // summer time ends on the way
			t.Errorf("%v after %v", begins(t, e), begins(t, rounds[0]))
		}
	}
	// A day later nothing was done: what is due now takes the place of what was next, under the same name.
	_, second := exported(t, v, now.AddDate(0, 0, 1).Add(time.Hour), 4)
	moved := 0
	for uid, e := range second {
		old, ok := first[uid]
		if !ok || sequence(t, e) <= sequence(t, old) {
			t.Errorf("%q: %v, sequence %d", summary(e), ok, sequence(t, e))
		}
		if ok && !begins(t, e).Equal(begins(t, old)) {
			moved++
		}
	}
	if moved == 0 {
		t.Error("nothing moved")
	}
}

// The clock's tasks come again by the family's rhythm; a sugar vat that has settled is looked at weekly.
func TestTheClockComesAgain(t *testing.T) {
	at := time.Date(2026, 5, 4, 10, 0, 0, 0, zone(t, "Europe/Berlin"))
	list, _ := exported(t, tended(t, "soda", at), at.Add(time.Hour), 4)
	looks := named(list, "Look at it")
	if len(looks) != 4 {
		t.Fatalf("%d looks in four weeks", len(looks))
	}
	for i, e := range looks {
		if want := at.AddDate(0, 0, 7*(i+1)); !begins(t, e).Equal(want) {
			t.Errorf("%v, not %v", begins(t, e), want)
		}
	}
	// Each 2½ days, at night the morning after; then, from three weeks on, each 7.
	sugar, _ := exported(t, tended(t, "sugar-lime", at), at.Add(time.Hour), 6)
	var gaps []int
	looks = named(sugar, "Look at it")
	for i := 1; i < len(looks); i++ {
		gaps = append(gaps, int(begins(t, looks[i]).Sub(begins(t, looks[i-1])).Hours()))
	}
	if len(gaps) < 8 || begins(t, looks[0]).Format("2 15:04") != "7 08:00" || gaps[0] > 62 || gaps[len(gaps)-1] != 7*24 {
		t.Errorf("hours between looks: %v, the first at %v", gaps, begins(t, looks[0]))
	}
	// What is overdue is for now: the next quarter of an hour, and the next counts from there.
	late := at.AddDate(0, 0, 9).Add(67 * time.Minute)
	list, _ = exported(t, tended(t, "soda", at), late, 2)
	if looks = named(list, "Look at it"); len(looks) != 2 || begins(t, looks[0]).Format("2 15:04") != "13 11:15" || begins(t, looks[1]).Format("2 15:04") != "20 11:15" {
		t.Errorf("%d looks from %v", len(looks), late)
	}
}
