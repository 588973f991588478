package day

import (
	"fmt"
	"strconv"
	"time"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// From memory, but for slowest.
const (
	roundEvery = 20 * time.Hour // a daily round is called again: sooner than a day, since no morning is like the other
	slowest    = 2              // times as many days as the recipe's, at most: a ferment takes 7 to 14. Common practice
	aDay       = 24 * time.Hour
	roundStir  = quantity.Span(5 * time.Minute)
)

// Slow is a ferment on its way to be ready.
type Slow struct {
	Day  int // today, from 1
	Days int // it takes, the cold ones not counted
	Most int
	Cold int       // days below the recipe's low mark
	Low  string    // that mark
	End  time.Time // of the wait that runs
}

// brews tells whether the vat is a ferment that is not ready yet, and waits.
func (s State) brews() (Step, bool) {
	st, ok := s.Open()
	if !ok || s.Closed && s.Ended || s.Head.Recipe.Family != recipe.Ferment || s.Head.Opening.Built || s.Head.Setup.Ending || st.Into == recipe.IntoStock {
		return st, false
	}
	return st, st.Waits() && st.For.Duration() > LongWait || st.Judges()
}

// Slow tells how a ferment goes on its way to be ready; false of any other vat.
func (s State) Slow(now time.Time) (Slow, bool) {
	st, ok := s.brews()
	if !ok {
		return Slow{}, false
	}
	l := s.Head.Recipe.Liquor
	days := int(l.Ready.Duration() / aDay)
	if days < 2 {
		return Slow{}, false
	}
	out := Slow{Day: dayOf(s.brewsSince(), now), Days: days, Most: slowest * days, Cold: s.brewing.Cold, Low: s.says(l.Low)}
	if st.Waits() {
		out.End = s.waitEnd(st)
	} else if !s.Judged.IsZero() {
		out.End = s.Judged.Add(l.Recheck.Duration() + s.shift(stepTimer(st.No)))
	}
	return out, true
}

// Words are the day and what the cold did: "day 5 of 7–14; two days were below 26 °C: look from day 9".
func (s Slow) Words() string {
	words := fmt.Sprintf("day %d of %d–%d", s.Day, s.Days, s.Most)
	switch {
	case s.Cold == 1:
		words += fmt.Sprintf("; one day was below %s: look from day %d", s.Low, s.Days+s.Cold)
	case s.Cold > 1:
		words += fmt.Sprintf("; %s days were below %s: look from day %d", few(s.Cold), s.Low, s.Days+s.Cold)
	}
	return words
}

// Round is the daily round on that day.
func (s Slow) Round() string { return "daily round: smell, film, pH, stir; " + s.Words() }

func few(n int) string {
	if words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}; n < len(words) {
		return words[n]
	}
	return strconv.Itoa(n)
}

// dayOf is which day of a wait an instant lies in, from 1.
func dayOf(since, at time.Time) int { return max(0, int(at.Sub(since)/aDay)) + 1 }

// brewsSince is when the ferment's first long wait began; where no day says, by the waits of its recipe that are behind.
func (s State) brewsSince() time.Time {
	if s.brewing.Brews != nil {
		return *s.brewing.Brews
	}
	since := s.StepSince
	for _, st := range s.Plan[:max(0, s.Step-1)] {
		if st.Waits() && st.For.Duration() > LongWait {
			since = since.Add(-st.For.Duration())
		}
	}
	return since
}

// waitEnd is when a wait is over. Cold days do not count towards the last one, after which a ferment is looked at.
func (s State) waitEnd(st Step) time.Time {
	end := s.StepSince.Add(st.For.Duration() + s.shift(stepTimer(st.No)))
	if _, brews := s.brews(); brews && st.For.Duration() > LongWait && st.No < len(s.Plan) && s.Plan[st.No].Judges() {
		end = end.Add(time.Duration(s.brewing.Cold) * aDay)
	}
	return end
}

// WaitsUntil is when the long wait that runs is over; false where none runs.
func (s State) WaitsUntil() (time.Time, bool) {
	st, ok := s.Open()
	if !ok || !st.Waits() || st.For.Duration() <= LongWait {
		return time.Time{}, false
	}
	return s.waitEnd(st), true
}

// brew takes what an event tells of a ferment.
func (s *growing) brew(e Event) {
	if s.Head.Recipe.Family != recipe.Ferment {
		return
	}
	b, at := &s.brewing, e.At
	switch body := e.Body.(type) {
	case Stirred:
		b.RoundAt = &at
	case Reading:
		if body.Temp == nil || body.Of != "" {
			return
		}
		if *body.Temp >= s.Head.Recipe.Liquor.Low {
			b.WarmAt = &at
			return
		}
		if _, brews := s.brews(); !brews {
			return
		}
		since, known := s.brewsSince(), 1 // the first day began warm
		for _, t := range []*time.Time{b.WarmAt, b.ColdAt} {
			if t != nil {
				known = max(known, dayOf(since, *t))
			}
		}
		today := dayOf(since, at)
		if b.ColdAt == nil || dayOf(since, *b.ColdAt) != today {
			b.Cold += max(1, today-known) // a day on which nobody read it goes by the next reading
		}
		b.ColdAt = &at
	}
}

// nextRound is when the ferment's daily round is called; false where none is.
func (s State) nextRound() (time.Time, bool) {
	if s.Closed && s.Ended || s.Head.Recipe.Family != recipe.Ferment || s.Head.Setup.Ending {
		return time.Time{}, false
	}
	last := s.brewing.RoundAt
	if _, open := s.Open(); open {
		st, brews := s.brews()
		if !brews || st.Judges() && s.Judged.IsZero() {
			return time.Time{}, false
		}
		since := s.brewsSince()
		if last == nil || last.Before(since) {
			last = &since
		}
		return last.Add(roundEvery), true
	}
	if last == nil || s.LiveAny() {
		return time.Time{}, false
	}
	return last.Add(roundEvery), true
}

// roundAct is the daily round of a ferment, one call for all of it; false where it is not its time.
func (s State) roundAct(now time.Time) (Act, bool) {
	at, ok := s.nextRound()
	if !ok || now.Before(at) || s.Closed {
		return Act{}, false
	}
	a := Act{Kind: ActRound, Words: "Daily round: smell, film, pH, stir", Press: "stirred", Entry: TempEntry,
		How: "Smell it, look at the film, read " + s.degrees() + " and pH and type them. Then stir slowly to the floor, 5 min; lid back, never airtight: gas must get out."}
	if words := s.coldWords(); words != "" {
		a.How = words + " " + a.How
	}
	a.Why = "Stir every day; feed only by the sign: no froth, a flat smell."
	if slow, is := s.Slow(now); is {
		a.Why = wording.Upper(slow.Words()) + ". " + a.Why
	}
	return a, true
}

// coldWords say of a ferment that was read too cold how it is warmed, by how it is kept; empty where it was not.
func (s State) coldWords() string {
	l := s.Head.Recipe.Liquor
	at, _ := s.nextRound()
	if s.Vat.Temp == nil || *s.Vat.Temp >= l.Low || s.Vat.TempAt.IsZero() || s.Vat.TempAt.Before(at.Add(-roundEvery)) { // of an earlier round
		return ""
	}
	how := s.Head.Setup.jars(s.Level().In, *s.Vat.Temp, l.Aim) + ", until it reads " + s.says(l.Aim)
	switch {
	case s.Head.Setup.Kept == KeptByHeater:
		how = "hands out, heater on; look at its thermostat, until it reads " + s.says(l.Aim)
	case s.Head.Setup.Heater > 0:
		how = "hands out, heater on, until it reads " + s.says(l.Aim)
	}
	how += wording.If(s.Head.Setup.Kept != KeptByHeater, "; then wrap it for the night")
	return fmt.Sprintf("It reads %s, below %s: %s.", s.says(s.Vat.Temp), s.says(l.Low), how)
}
