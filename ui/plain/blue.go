package plain

import (
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/engine"
)

// compared says once, of the look that is asked for, what is compared: the wish, the piece wet and dry, and after one dip more.
func (t *Terminal) compared(v engine.View) {
	look, ok := v.Look()
	if !ok || t.said[look.ID] || !day.Filled(v.State) {
		return
	}
	p := look.Act.Piece
	c := outlook.Blues(v.State, outlook.Of(v.State, v.Now), v.Now).Pieces[p.Tag]
	wet, had := c.Wet()
	if !had {
		return
	}
	var words []string
	if c.Wished != nil {
		words = append(words, fmt.Sprintf("the wish is %s, L* %.0f", *c.Wish, c.Wished.L))
	}
	step := func(name string, s shade.Step) {
		text := fmt.Sprintf("%s %s, L* %.0f", name, s.Depth, s.Lab.L)
		if c.Wish != nil {
			text += fmt.Sprintf(", %.0f in 100 to be it", 100*s.Chance)
		}
		words = append(words, text)
	}
	words = append(words, fmt.Sprintf("wet now it is about L* %.0f", wet.L))
	step("it dries", *c.Now)
	step("one dip more:", c.Steps[0])
	t.once(look.ID, "  "+p.Tag+": "+strings.Join(words, "; ")+".")
}

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
