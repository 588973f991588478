package calendar

import (
	"fmt"
	"time"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// ahead is how long before a piece is lowered its alarm calls. No source.
const ahead = 2 * time.Minute

// OfPlan are the events of a timetable: each dip to come, from lowering to lifted, each rest, reheat and feed, and each piece as
// it is done. start is the moment of the plan's zero, in the zone of whoever reads its notes.
func OfPlan(p load.Plan, start time.Time) []Event {
	at := func(s quantity.Span) time.Time { return start.Add(s.Duration().Round(time.Second)) }
	hour := func(s quantity.Span) string { return at(s).Format("15:04:05") }
	last := map[string]int{}
	for _, r := range p.Rows {
		last[r.Tag] = max(last[r.Tag], r.Dip)
	}
	var out []Event
	for _, r := range p.Rows {
		if r.Past && r.Lifted <= p.From {
			continue
		}
		what := fmt.Sprintf("%s dip %d of %d", r.Tag, r.Dip, last[r.Tag])
		e := Event{ID: fmt.Sprintf("dip|%s|%d", r.Tag, r.Dip), From: at(r.Lower), To: at(r.Lifted), Summary: what,
			Note: fmt.Sprintf("In at %s, out at %s.", hour(r.In), hour(r.Out))}
		if e.To.After(e.From) {
			e.Alarms = []Alarm{
				{Before: ahead, Words: "Soon in: " + what},
				{Before: at(r.Lifted).Sub(at(r.Out)), AtEnd: true, Words: "Lift: " + what},
			}
		}
		out = append(out, e)
	}
	count := map[string]int{}
	for _, s := range p.Stands {
		key := fmt.Sprintf("%s|%d", s.Kind, s.Vat)
		count[key]++
		words := "The vat stands: " + s.Kind
		out = append(out, Event{ID: fmt.Sprintf("%s|%d", key, count[key]), From: at(s.From), To: at(s.To), Summary: words, Alarms: []Alarm{{Words: words}}})
	}
	for _, d := range p.Done {
		what := d.Tag + " is done"
		what += wording.If(d.Who != "", ", for "+d.Who)
		out = append(out, Event{ID: "done|" + d.Tag, From: at(d.At), To: at(d.At), Summary: what})
	}
	return out
}
