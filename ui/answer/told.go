package answer

import (
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
)

// told is what events would be, in words for the one who types them. What only comes along with another is left out.
func told(s day.State, now time.Time, bodies []day.Body) []string {
	var out []string
	for _, b := range bodies {
		if look, ok := bodies[0].(day.LookedAt); ok && look.Said != "" && b != bodies[0] {
			continue
		}
		switch b.(type) {
		case day.AiringEnded, day.CautionAnswered:
			if len(bodies) > 1 {
				continue
			}
		}
		out = append(out, inWords(s, b, now))
	}
	return out
}

// inWords is an event as it is told while it is typed: with the time at which it was.
func inWords(s day.State, b day.Body, now time.Time) string {
	at := func(when *time.Time) string {
		if when != nil {
			return day.Clock(*when)
		}
		return day.Clock(now)
	}
	switch b := b.(type) {
	case day.DipBegun:
		return b.Tag + " went in at " + at(b.When)
	case day.DipEnded:
		return b.Tag + " came out at " + at(b.When)
	case day.Corrected:
		return corrected(s, b, now)
	}
	return wording.Joined("; ", b.Sentence(s.Head.Setup.System()), s.Amiss(day.Event{At: now, Body: b}))
}

// corrected is a correction with the event that it is of.
func corrected(s day.State, c day.Corrected, now time.Time) string {
	var of day.Event
	for e := range s.Corrected() {
		if e.Seq == c.Of {
			of = e
		}
	}
	if of.Body == nil {
		return c.Sentence(s.Head.Setup.System())
	}
	switch c.Way {
	case "moved":
		switch b := of.Body.(type) {
		case day.DipBegun:
			b.When = c.To
			return inWords(s, b, now)
		case day.DipEnded:
			b.When = c.To
			return inWords(s, b, now)
		}
		return wording.Lower(of.Body.Sentence(s.Head.Setup.System())) + ", at " + day.Clock(*c.To)
	case "confirmed":
		return "confirmed: " + inWords(s, of.Body, of.At)
	}
	return "taken back: " + strings.TrimSuffix(inWords(s, of.Body, of.At), ".")
}
