package plain

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
)

// unsaid lists what was taken as planned and waits for a word, each with the time at which it was.
func (t *Terminal) unsaid(v engine.View) {
	list := v.State.Unsaid()
	if len(list) == 0 {
		t.say("Nothing waits for your word.")
		return
	}
	t.say("%s taken as planned:", wording.Upper(wording.Counted(len(list), "act")))
	for _, e := range list {
		t.say("  %d: %s, %s", e.Seq, day.DateOf(day.WhenOf(e), v.Now), wording.Sentence(v.State.Tell(e.Body)))
	}
	t.say("confirm all: all as planned. confirm %d: that one as planned. move %d 10:42: when it really was.", list[0].Seq, list[0].Seq)
}

// offers says once at a pause that several acts wait for a word.
func (t *Terminal) offers(v engine.View) {
	n := v.State.Unconfirmed()
	if n < 2 {
		t.offered = 0
		return
	}
	if n == t.offered || !day.Pause(v.State, v.Now) {
		return
	}
	t.offered = n
	t.say("%s taken as planned. confirm all: all as planned. unconfirmed: lists them.", wording.Upper(wording.Counted(n, "act")))
}
