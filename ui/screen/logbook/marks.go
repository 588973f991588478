package logbook

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
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
	marks := wording.Filled(wording.If(e.Seq > d.Saved, "not yet on disk"), wording.If(assumed(d.State, e), "not confirmed"))
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
