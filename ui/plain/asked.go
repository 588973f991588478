package plain

import (
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
)

// vat says how the liquor stands and where it goes.
func (t *Terminal) vat(v engine.View) {
	t.each("  %s", outlook.Of(v.State, v.Now).Sentences(v.State.Head.Setup.System()))
}

// wants says the one next thing that the vat wants, and how it is typed once it is done.
func (t *Terminal) wants(v engine.View) {
	a, sys := outlook.Advise(v.State, outlook.Of(v.State, v.Now), v.Now, nil), v.State.Head.Setup.System()
	t.say("  %s", wording.Sentence(a.Sentence))
	for _, c := range a.Cautions {
		t.say("  %s", unsourced("Caution: "+c))
	}
	t.each("  %s", wording.Each(wording.Filled(append([]string{a.How, a.Why}, a.Warnings...)...), unsourced))
	if a.Mass > 0 {
		line := fmt.Sprintf("give %s %s", a.Powder, a.Mass.Format(sys))
		for _, w := range a.With {
			line += fmt.Sprintf(" and %s %s", w.Powder, w.Mass.Format(sys))
		}
		t.say("  When it is in, type: %s", line)
	}
	if a.Recheck != "" {
		t.say("  Wait %s, then: %s.", a.Wait, strings.TrimRight(a.Recheck, "."))
	}
}

// ails says what is wrong with the vat, by what was read and seen.
func (t *Terminal) ails(v engine.View) {
	t.each("  %s", causesOf(v.State, signs.Causes(outlook.Asked(v.State, outlook.Of(v.State, v.Now), v.Now, nil))))
}

// causesOf are the causes in words, the first with what to do.
func causesOf(s day.State, causes []signs.Cause) []string {
	out := wording.Filled(unsourced(wording.Upper(causes[0].Before)))
	for i, c := range causes {
		out = append(out, unsourced(c.Rank.String()+": "+c.Name+"; "+c.Why))
		if i > 0 {
			continue
		}
		out = append(out, unsourced("do: "+c.Do))
		if c.How != "" {
			out = append(out, unsourced("how: "+c.How))
		}
		for _, w := range c.Cautions {
			out = append(out, unsourced("caution: "+w))
		}
		if c.Wait > 0 {
			out = append(out, unsourced(fmt.Sprintf("wait %s, then: %s", c.Wait, c.Recheck)))
		}
		if answer.Treated(c) && !s.Closed {
			out = append(out, "When it is done, type: treat")
		}
	}
	return append(out, unsourced(signs.WeightIsJudged))
}

// bench says what each piece wants after its dips.
func (t *Terminal) bench(v engine.View) {
	pieces := v.State.OnBench()
	if len(pieces) == 0 {
		t.say("  Nothing is on the bench yet: a piece comes there after its last dip.")
	}
	for _, p := range pieces {
		t.say("  %s", strings.ReplaceAll(p.Name()+": "+v.State.BenchLine(p, v.Now, true)+".", "?.", "?"))
		a, ok := v.State.AfterDips(p, v.Now)
		switch words := v.State.CallFor(a, v.Now).Amount(v.State, v.Now); {
		case ok && a.Shut:
			t.say("    %s", practice.Unsourced(a.How))
		case ok && words != "":
			t.say("    %s.", words)
		}
	}
}

// unsaid lists what was taken as planned and waits for a word, each with the time at which it was.
func (t *Terminal) unsaid(v engine.View) {
	list := v.State.Unsaid()
	if len(list) == 0 {
		t.say("Nothing is to be confirmed.")
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
