package command

import (
	"fmt"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	answers "example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/plain"
)

// saying is what came of begin or of say, at an instant of the day.
type saying struct {
	id      string // VAT/DAY; empty: no day was reached
	state   day.State
	now     time.Time
	events  []day.Event
	asked   *outlook.Told // the timetable, where it was asked for
	caution string
	err     error
}

// told prints what came of it, and gives what the program ends with: 3 where a caution is to be answered first, 1 where it was
// refused.
func (p *program) told(s saying) error {
	if p.json {
		var call object // null where no day is open
		if s.id != "" && !s.state.Closed {
			call = callKeys(day.CallOf(s.state, s.now))
		}
		var failed *string
		if s.err != nil {
			failed = new(wording.OneLine(s.err))
		}
		// The keys of say --json and begin --json; told is the answer to a question, a line each.
		out := object{
			{"events", each(s.events, func(e day.Event) object {
				return object{{"seq", e.Seq}, {"at", stamp(e.At)}, {"kind", e.Body.Kind()}, {"text", wording.Show(s.state.Tell(e.Body)).String()}}
			})},
			{"call", call}, {"caution", some(s.caution)}, {"error", failed},
		}
		if s.asked != nil {
			lines := s.asked.Lines()
			out = out.and(len(lines) > 0, "told", lines)
		}
		if err := p.asJSON(out); err != nil {
			return err
		}
	}
	switch {
	case s.err != nil:
		return s.err
	case s.asked != nil && !p.json:
		tell := tellTable(*s.asked)
		tell.notes("Note", s.asked.Notes)
		p.show(tell)
		p.sayCall(s)
	case s.caution != "" && !p.json:
		p.say("Caution: %s Once that is so, say it again with --answered.", wording.Sentence(s.caution))
	case !p.json:
		for _, e := range s.events {
			p.say("%s", plain.Line(s.id, e, s.state))
			if words := s.state.Amiss(e); words != "" {
				p.say("%s", wording.Sentence(words))
			}
		}
		p.sayCall(s)
	}
	if s.caution != "" {
		return exitCode(3)
	}
	return nil
}

// sayCall says in a line what the hands are asked for now.
func (p *program) sayCall(s saying) {
	if s.state.Closed {
		return
	}
	c := day.CallOf(s.state, s.now)
	words := strings.TrimSuffix(c.Words, ".")
	if c.Due != nil && s.now.Before(c.Due.At) {
		words += ", till " + day.DateOf(c.Due.At, s.now)
	}
	words += wording.If(!strings.HasSuffix(words, "?"), ".")
	p.say("Now: %s", words)
}

// instant reads --at: a time of the day's date in its zone, or RFC 3339. It is not before the last event, nor after the wall clock, by
// which a rehearsed day does not go. Of an hour that comes twice it is the first that is neither.
func (p *program) instant(text string, date time.Time, zone *time.Location, last time.Time, rehearsed bool) (time.Time, error) {
	all, bare := []time.Time{}, false
	if at, err := time.Parse(time.RFC3339, text); err == nil {
		all = append(all, at)
	}
	for _, form := range []string{"15:04", "15:04:05"} {
		if clock, err := time.Parse(form, text); err == nil {
			y, m, d := date.Date()
			all, bare = answers.Showing(time.Date(y, m, d, clock.Hour(), clock.Minute(), clock.Second(), 0, time.UTC), zone), true
			if len(all) == 0 {
				return time.Time{}, fmt.Errorf("--at %s does not exist on %s: the clocks are put forward over it", text, date.Format(time.DateOnly))
			}
		}
	}
	wall, early := p.Now(), false
	for _, at := range all {
		early = at.Before(last)
		if !early && (rehearsed || !at.After(wall)) {
			return at.In(zone), nil
		}
	}
	switch {
	case len(all) == 0:
		return time.Time{}, fmt.Errorf("--at is a time of the day's date, such as 10:42, or one with its date, such as 2026-11-25T10:42:00+01:00, not %q", text)
	case early && bare:
		return time.Time{}, fmt.Errorf("--at %s is on %s, before the last event, which was at %s: past midnight say it with its date", text, date.Format(time.DateOnly), onThat(last.In(zone), date))
	case early:
		return time.Time{}, fmt.Errorf("--at %s is before the last event, which was at %s", text, onThat(last.In(zone), all[0].In(zone)))
	}
	return time.Time{}, fmt.Errorf("--at %s is still to come: it is %s", text, onThat(wall.In(zone), all[0].In(zone)))
}

// onThat is a time to the second, with its date where that is another than that of the other.
func onThat(t, other time.Time) string {
	same := t.Format(time.DateOnly) == other.Format(time.DateOnly)
	return t.Format(wording.If(!same, time.DateOnly+" ") + time.TimeOnly)
}

// dateOf is the date by which a day is named; where its head names none, that on which it was opened.
func dateOf(s day.State) time.Time {
	if date, err := time.Parse(time.DateOnly, s.Head.Day[:min(len(s.Head.Day), len(time.DateOnly))]); err == nil {
		return date
	}
	return s.Opened.In(engine.Zone(s.Head))
}

const nothingSaid = "say what: done, or 36 C, or A1 out"
