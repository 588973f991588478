package logbook

import (
	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
)

// assumed tells whether an act was recorded as planned and nobody has said otherwise.
func assumed(s day.State, e day.Event) bool {
	p, ok := e.Body.(day.Presumed)
	_, touched := s.Correction(e.Seq)
	return ok && p.IsAssumed() && !touched
}

// marksOf is what is to be said of an event besides its sentence.
func marksOf(e day.Event, d engine.View) []string {
	var marks []string
	if e.Seq > d.Saved {
		marks = append(marks, "not yet on disk")
	}
	if assumed(d.State, e) {
		marks = append(marks, "not confirmed")
	}
	if c, ok := d.State.Correction(e.Seq); ok {
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
