package plain

import (
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
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
		words = append(words, fmt.Sprintf("%s: the wish is %s, L* %.0f.", p.Tag, *c.Wish, c.Wished.L))
	}
	t.once("L*", "L* is how light a colour is: 0 is black, 100 is white")
	step := func(name string, s shade.Step) {
		text := fmt.Sprintf("%s %s, L* %.0f", name, s.Depth, s.Lab.L)
		words = append(words, text+wording.If(c.Wish != nil, fmt.Sprintf("; the chance that this is the wish: %.0f in 100", 100*s.Chance))+".")
	}
	words = append(words, fmt.Sprintf("Wet it is about L* %.0f now.", wet.L))
	step("Dry it will be", *c.Now)
	step("With one dip more:", c.Steps[0])
	if c.Wish != nil {
		words = append(words, fmt.Sprintf("Dips for %s: %s.", *c.Wish, c.Answer.Words()))
	}
	t.once(look.ID, strings.Join(words, " "))
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
		var words []string
		if c.Now != nil {
			words = append(words, fmt.Sprintf("after %s it is %s, L* %.0f.", wording.Counted(c.Now.Dips, "dip"), c.Now.Depth, c.Now.Lab.L))
		}
		switch a := c.Answer; {
		case c.Wish == nil:
			words = append(words, fmt.Sprintf("the next dip makes it %s, L* %.0f.", c.Steps[0].Depth, c.Steps[0].Lab.L))
		default:
			words = append(words, fmt.Sprintf("dips for %s: %s; the chance of it: %.0f in 100.", *c.Wish, a.Words(), 100*a.Chance))
			if unsure := b.Seen().Unsure(a); unsure != "" {
				words = append(words, unsure+".")
			}
		}
		for i := range words[1:] {
			words[i+1] = wording.Upper(words[i+1])
		}
		t.say("  %s: %s", p.Tag, strings.Join(words, " "))
		if stop, ok := b.Stop(p); ok {
			t.say("  %s", unsourced(stop.Words))
		}
	}
	if !told {
		words := "No piece is there to tell of."
		if !day.Filled(v.State) && tag == "" {
			words = "How blue a piece becomes is told once the vat is filled."
		}
		t.say("  %s", words)
		return
	}
	if !b.Seen().Seen() {
		t.say("  %s.", wording.Upper(shade.SwatchFirst))
	}
	if l, ok := b.Lesson(v.State, v.Now); ok {
		t.say("  %s.", wording.Upper(l.Words()))
	}
	t.say("  How this is known: %s.", b.Claim)
	t.each("  %s", wording.Each(b.Words, unsourced))
}
