package calendar

import (
	"fmt"
	"time"

	"example.org/vatside/model/history"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// A task of care has a quarter of an hour, and nobody is woken for it: what falls between evening and morning waits for the
// morning. No source.
const (
	lasts            = 15 * time.Minute
	evening, morning = 22, 8 // hours of the day
)

// OfVat are what a vat is due from now until an instant, in the zone of now: what is due now, at the next quarter of an hour; what
// comes, at its time; and what the clock brings again, as if each were done at its time. The daily round of a ferment that is left
// to itself comes each day until the look whether it is ready, or as many days as it takes at the least. id is the vat's own in
// the book, name what it is called.
func OfVat(v *history.Life, id, name string, now, until time.Time, sys quantity.System) []Event {
	last, ok := v.Last()
	if !ok {
		return nil
	}
	if now.Before(last.State.At) { // a clock that was put back
		now = last.State.At.In(now.Location())
	}
	dues := v.Care(now)
	var look time.Time // whether it is ready; zero while something is still to be given
	for _, d := range dues {
		if d.Judge {
			look = d.At
		}
	}
	over := func(at time.Time) bool { // no round is to come any more
		if !look.IsZero() {
			return !at.Before(look)
		}
		then, _ := last.State.Slow(at)
		return then.Day > then.Days+then.Cold
	}
	var out []Event
	count := map[string]int{}
	for _, d := range dues {
		if d.Coming && d.At.IsZero() {
			continue
		}
		wished := d.ID == history.Wait && last.State.Head.Setup.ReadyBy != nil // an early hour that the dyer asked for
		task, at := d.ID, now.Truncate(lasts).Add(lasts)
		if d.Round {
			task = "round"
		}
		if d.Coming {
			at = d.At.In(now.Location())
		}
		for n := 0; ; n++ {
			if !wished {
				at = byDay(at)
			}
			if !at.Before(until) || d.Round && n > 0 && over(at) {
				break
			}
			words := d.Words(sys)
			if d.Round {
				then, _ := last.State.Slow(at)
				words = wording.Upper(then.Round())
			}
			words = name + ": " + words
			note := d.How
			note += wording.If(d.Why != "", " ("+d.Why+")")
			count[task]++
			out = append(out, Event{ID: fmt.Sprintf("care|%s|%s|%d", id, task, count[task]), From: at, To: at.Add(lasts), Summary: words, Note: note,
				Alarms: []Alarm{{Words: words}}})
			if d.Round {
				at = at.AddDate(0, 0, 1)
			} else if every := v.Every(d.ID, at); every > 0 {
				at = at.Add(every.Duration())
			} else {
				break
			}
		}
	}
	return out
}

// byDay is a time, or the morning after it where it is night.
func byDay(t time.Time) time.Time {
	days := 0
	switch {
	case t.Hour() >= evening:
		days = 1
	case t.Hour() >= morning:
		return t
	}
	return time.Date(t.Year(), t.Month(), t.Day()+days, morning, 0, 0, 0, t.Location())
}
