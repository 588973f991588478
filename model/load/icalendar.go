package load

import (
	"fmt"
	"hash/fnv"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/vatside/model/quantity"
)

// ICalendar is the timetable as a calendar (RFC 5545): an event for each dip to come, from lowering to lifting, one for
// each rest, reheat and feed, and one at which each piece is done. start is the moment of the plan's zero. Times are in
// UTC, lines end in CR LF and are folded at 75 octets. The same plan, start and title always give the same text, and an
// event keeps its UID when its time changes, so a calendar that takes a replan moves it.
func (p Plan) ICalendar(start time.Time, title string) string {
	c := &calendar{start: start.UTC().Truncate(time.Second), title: title}
	c.line("BEGIN:VCALENDAR")
	c.line("VERSION:2.0")
	c.line("PRODID:-//vatside//load//EN")
	c.line("CALSCALE:GREGORIAN")
	c.line("X-WR-CALNAME:" + escaped(title))
	last := map[string]int{}
	for _, r := range p.Rows {
		last[r.Tag] = max(last[r.Tag], r.Dip)
	}
	for _, r := range p.Rows {
		if r.Past && r.Lifted <= p.From {
			continue
		}
		what := fmt.Sprintf("%s dip %d of %d", r.Tag, r.Dip, last[r.Tag])
		note := fmt.Sprintf("In at %s, out at %s.", c.hour(r.In), c.hour(r.Out))
		c.event(fmt.Sprintf("dip|%s|%d", r.Tag, r.Dip), r.Lower, r.Lifted, what, note)
	}
	count := map[string]int{}
	for _, s := range p.Stands {
		count[s.Kind]++
		c.event(fmt.Sprintf("%s|%d|%d", s.Kind, s.Vat, count[s.Kind]), s.From, s.To, "The vat stands: "+s.Kind, "")
	}
	for _, d := range p.Done {
		what := d.Tag + " is done"
		if d.Who != "" {
			what += ", for " + d.Who
		}
		c.event("done|"+d.Tag, d.At, d.At, what, "")
	}
	c.line("END:VCALENDAR")
	return c.b.String()
}

type calendar struct {
	b     strings.Builder
	start time.Time
	title string
}

const utcForm = "20060102T150405Z"

func (c *calendar) at(s quantity.Span) time.Time {
	return c.start.Add(s.Duration().Round(time.Second))
}

// hour is a time of the UTC day, as the calendar has it.
func (c *calendar) hour(s quantity.Span) string { return c.at(s).Format("15:04:05 UTC") }

func (c *calendar) event(id string, from, to quantity.Span, summary, note string) {
	h := fnv.New64a()
	_, _ = h.Write([]byte(c.title + "|" + c.start.Format(utcForm) + "|" + id)) // a hash takes all
	c.line("BEGIN:VEVENT")
	c.line(fmt.Sprintf("UID:%016x@vatside.example.org", h.Sum64()))
	c.line("DTSTAMP:" + c.start.Format(utcForm))
	c.line("DTSTART:" + c.at(from).Format(utcForm))
	c.line("DTEND:" + c.at(max(from, to)).Format(utcForm))
	c.line("SUMMARY:" + escaped(summary))
	if note != "" {
		c.line("DESCRIPTION:" + escaped(note))
	}
	c.line("END:VEVENT")
}

// escaped is text as RFC 5545 section 3.3.11 has it; control characters are left out.
func escaped(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' || r == 0x7f || r == utf8.RuneError {
			return -1
		}
		return r
	}, s)
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(s)
}

// line writes a line, folded at 75 octets (section 3.1) and never within a character.
func (c *calendar) line(s string) {
	room := 75
	for len(s) > room {
		cut := room
		for cut > 0 && !utf8.RuneStart(s[cut]) {
			cut--
		}
		c.b.WriteString(s[:cut] + "\r\n ")
		s, room = s[cut:], 74
	}
	c.b.WriteString(s + "\r\n")
}
