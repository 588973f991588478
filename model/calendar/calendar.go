// Package calendar writes what is to come as an iCalendar file (RFC 5545): the timetable of a day, and what vats are due over
// weeks. A calendar that takes such a file again moves the events that it has, and its alarms call.
package calendar

import (
	"fmt"
	"hash/fnv"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/vatside/model/wording"
)

// Calendar is events in the order in which they are written.
type Calendar struct {
	Name   string    // shown; with an event's ID it is all that its UID is made of, so that a later export moves it
	At     time.Time // when it is written. All times are in its zone
	Events []Event
}

// Event is one thing to do.
type Event struct {
	ID            string // one of its own in the calendar; without times, which change
	From, To      time.Time
	Summary, Note string
	Alarms        []Alarm
}

// Alarm calls so long before an event begins or, AtEnd, before it ends.
type Alarm struct {
	Before time.Duration // 0: at that moment
	AtEnd  bool
	Words  string
}

// least is how long an event lasts that has no length: some calendars drop one without. No source.
const least = 5 * time.Minute

// Text is the calendar as RFC 5545 has it: lines end in CR LF and are folded at 75 octets. The same calendar always gives the
// same text.
func (c Calendar) Text() string {
	w := &writer{zone: c.zone()}
	if w.zone == "" && len(c.Events) == 0 { // a calendar has at least one component, by RFC 5545, 3.6
		c.At, w.zone = c.At.UTC(), "Etc/UTC"
	}
	w.line("BEGIN:VCALENDAR")
	w.line("VERSION:2.0")
	w.line("PRODID:-//vatside//vatside//EN")
	w.line("CALSCALE:GREGORIAN")
	w.line("X-WR-CALNAME:" + escaped(c.Name))
	if w.zone != "" {
		w.timezone(c)
	}
	sequence := max(0, c.At.Unix()-sequenceFrom)
	for _, e := range c.Events {
		from, to := c.in(e.From), c.in(e.To)
		if !to.After(from) {
			to = from.Add(least)
		}
		w.line("BEGIN:VEVENT")
		w.line("UID:" + c.uid(e))
		w.line("DTSTAMP:" + c.At.UTC().Format(utcForm))
		w.line(fmt.Sprintf("SEQUENCE:%d", sequence))
		w.moment("DTSTART", from)
		w.moment("DTEND", to)
		w.line("SUMMARY:" + escaped(e.Summary))
		if e.Note != "" {
			w.line("DESCRIPTION:" + escaped(e.Note))
		}
		for _, a := range e.Alarms {
			w.alarm(a)
		}
		w.line("END:VEVENT")
	}
	w.line("END:VCALENDAR")
	return w.b.String()
}

// sequenceFrom is 2020-01-01 in UTC. SEQUENCE counts the seconds from there, and so a later export always has the higher one; it
// has room for them until 2088.
const sequenceFrom = 1577836800

const (
	utcForm   = "20060102T150405Z"
	localForm = "20060102T150405"
)

// in is an instant in the calendar's zone, in whole seconds.
func (c Calendar) in(t time.Time) time.Time { return t.In(c.At.Location()).Round(time.Second) }

func (c Calendar) uid(e Event) string {
	h := fnv.New64a()
	_, _ = h.Write([]byte(c.Name + "|" + e.ID)) // a hash takes all
	return fmt.Sprintf("%016x@vatside.example.org", h.Sum64())
}

// span is from the first instant of the calendar to its last.
func (c Calendar) span() (from, to time.Time) {
	from, to = c.At, c.At
	for _, e := range c.Events {
		if e.From.Before(from) {
			from = e.From
		}
		if e.To.After(to) {
			to = e.To
		}
	}
	return c.in(from), c.in(to)
}

// iana is the form of a zone's name in the IANA time zone database: "Europe/Berlin".
var iana = wording.Pattern(`^[A-Z][A-Za-z_]*(/[A-Za-z0-9_+-]+)+$`)

// zone is the name under which the calendar's times are written; empty: as UTC, which is right everywhere. A zone without a
// name is named by its offset, where that is whole hours and holds over the whole calendar.
func (c Calendar) zone() string {
	if name := c.At.Location().String(); iana().MatchString(name) {
		return name
	}
	from, to := c.span()
	_, offset := from.Zone()
	_, end := from.ZoneBounds()
	hours := offset / 3600
	if offset == 0 || offset%3600 != 0 || hours < -12 || hours > 14 || !end.IsZero() && !end.After(to) {
		return ""
	}
	return fmt.Sprintf("Etc/GMT%+d", -hours) // these names count westwards
}

type writer struct {
	b    strings.Builder
	zone string // empty: UTC
}

// timezone writes the rules of the calendar's zone as far as its events need them.
func (w *writer) timezone(c Calendar) {
	at, last := c.span()
	w.line("BEGIN:VTIMEZONE")
	w.line("TZID:" + w.zone)
	for {
		name, offset := at.Zone()
		kind, before, begins := "STANDARD", offset, "19700101T000000"
		if at.IsDST() {
			kind = "DAYLIGHT"
		}
		start, end := at.ZoneBounds()
		if !start.IsZero() {
			_, before = start.Add(-time.Second).Zone()
			begins = start.In(time.FixedZone("", before)).Format(localForm)
		}
		w.line("BEGIN:" + kind)
		w.line("DTSTART:" + begins)
		w.line("TZOFFSETFROM:" + offsetOf(before))
		w.line("TZOFFSETTO:" + offsetOf(offset))
		if name != "" {
			w.line("TZNAME:" + escaped(name))
		}
		w.line("END:" + kind)
		if end.IsZero() || end.After(last) {
			break
		}
		at = end
	}
	w.line("END:VTIMEZONE")
}

// offsetOf is seconds east of UTC as "+0100", with seconds where a zone of long ago has them.
func offsetOf(seconds int) string {
	sign := '+'
	if seconds < 0 {
		sign, seconds = '-', -seconds
	}
	out := fmt.Sprintf("%c%02d%02d", sign, seconds/3600, seconds/60%60)
	if s := seconds % 60; s != 0 {
		out += fmt.Sprintf("%02d", s)
	}
	return out
}

// moment writes a property that is a time. An hour that comes twice, as summer time ends, is its first by RFC 5545: the second is
// written in UTC.
func (w *writer) moment(property string, t time.Time) {
	_, offset := t.Zone()
	start, _ := t.ZoneBounds()
	before := offset
	if !start.IsZero() {
		_, before = start.Add(-time.Second).Zone()
	}
	again := !start.IsZero() && t.Sub(start) < time.Duration(before-offset)*time.Second
	if w.zone == "" || again {
		w.line(property + ":" + t.UTC().Format(utcForm))
		return
	}
	w.line(property + ";TZID=" + w.zone + ":" + t.Format(localForm))
}

func (w *writer) alarm(a Alarm) {
	trigger := "TRIGGER"
	trigger += wording.If(a.AtEnd, ";RELATED=END")
	sign := "-"
	if a.Before <= 0 {
		sign = ""
	}
	w.line("BEGIN:VALARM")
	w.line("ACTION:DISPLAY")
	w.line(fmt.Sprintf("%s:%sPT%dS", trigger, sign, int(max(0, a.Before).Round(time.Second).Seconds())))
	w.line("DESCRIPTION:" + escaped(a.Words))
	w.line("END:VALARM")
}

// escaped is text as RFC 5545 section 3.3.11 has it, without what cannot be shown.
func escaped(s string) string {
	s = strings.Map(func(r rune) rune {
		if r != '\n' && wording.Unfit(r) || r == utf8.RuneError {
			return -1
		}
		return r
	}, s)
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(s)
}

// line writes a line, folded at 75 octets (section 3.1) and never within a character.
func (w *writer) line(s string) {
	room := 75
	for len(s) > room {
		cut := room
		for cut > 0 && !utf8.RuneStart(s[cut]) {
			cut--
		}
		w.b.WriteString(s[:cut] + "\r\n ")
		s, room = s[cut:], 74
	}
	w.b.WriteString(s + "\r\n")
}
