package plain

import (
	"fmt"

	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/engine"
)

// timetable is the engine's, reckoned here only where it has not come to it.
func timetable(v engine.View) outlook.Table {
	if v.Table != nil {
		return *v.Table
	}
	return outlook.TimetableNow(v.State, v.Now)
}

// blues says of a piece, or of all, how it looks now and how many dips its wish takes.
func (t *Terminal) blues(v engine.View, tag string) {
	b := outlook.Blues(v.State, outlook.Of(v.State, v.Now), v.Now)
	told := false
	for _, p := range v.State.Pieces {
		c, ok := b.Pieces[p.Tag]
		if !ok || tag != "" && p.Tag != tag {
			continue
		}
		told = true
		words := p.Tag + ": "
		if c.Now != nil {
			words += fmt.Sprintf("after %d of its dips %s, L* %.0f. ", c.Now.Dips, c.Now.Depth, c.Now.Lab.L)
		}
		switch a := c.Answer; {
		case c.Wish == nil:
			words += fmt.Sprintf("the next dip makes it %s, L* %.0f.", c.Steps[0].Depth, c.Steps[0].Lab.L)
		default:
			words += fmt.Sprintf("for %s %d dips most likely; %d to %d, 8 times in 10; a chance of %.0f in 100.", *c.Wish, a.Likely, a.Low, a.High, 100*a.Chance)
		}
		t.say("  %s", words)
		if stop, ok := b.Stop(p); ok {
			t.say("  %s", stop.Words)
		}
	}
	if !told {
		t.say("  No piece is there to tell of.")
		return
	}
	t.say("  Known as: %s.", b.Claim)
	for _, w := range b.Words {
		t.say("  %s", w)
	}
}
