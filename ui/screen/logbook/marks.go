package logbook

import (
	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
)

// corrected says which event was corrected how; a correction that was itself taken back does not count.
func corrected(log []day.Event) map[int]day.Corrected {
	fix := map[int]day.Corrected{}
	for i := len(log) - 1; i >= 0; i-- {
		c, ok := log[i].Body.(day.Corrected)
		if !ok || fix[log[i].Seq].Way == "undone" {
			continue
		}
		if _, later := fix[c.Of]; !later && c.Of < log[i].Seq {
			fix[c.Of] = c
		}
	}
	return fix
}

// assumed tells whether an act was recorded as planned and nobody has said otherwise.
func assumed(e day.Event, fix map[int]day.Corrected) bool {
	p, ok := e.Body.(day.Presumed)
	if !ok || !p.IsAssumed() {
		return false
	}
	_, touched := fix[e.Seq]
	return !touched
}

// marksOf is what is to be said of an event besides its sentence.
func marksOf(e day.Event, d engine.View, fix map[int]day.Corrected) []string {
	var marks []string
	if e.Seq > d.Saved {
		marks = append(marks, "not yet on disk")
	}
	if assumed(e, fix) {
		marks = append(marks, "not confirmed")
	}
	if c, ok := fix[e.Seq]; ok {
		switch {
		case c.Way == "undone":
			marks = append(marks, "taken back")
		case c.Way == "moved" && c.To != nil:
			marks = append(marks, "moved to "+c.To.In(e.At.Location()).Format("15:04"))
		case c.Way == "confirmed":
			marks = append(marks, "confirmed")
		}
	}
	return marks
}
