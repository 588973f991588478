package plain

import (
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
)

// vat says how the liquor stands and where it goes.
func (t *Terminal) vat(v engine.View) {
	for _, s := range outlook.Of(v.State, v.Now).Sentences(v.State.Head.Setup.System()) {
		t.say("  %s", s)
	}
}

// wants says the one next thing that the vat wants, and how it is typed once it is done.
func (t *Terminal) wants(v engine.View) {
	a, sys := outlook.Advise(v.State, outlook.Of(v.State, v.Now), v.Now, nil), v.State.Head.Setup.System()
	t.say("  %s", wording.Sentence(a.Sentence))
	for _, c := range a.Cautions {
		t.say("  %s", unsourced("Caution: "+c))
	}
	for _, s := range append([]string{a.How, a.Why}, a.Warnings...) {
		if s != "" {
			t.say("  %s", unsourced(s))
		}
	}
	if a.Mass > 0 {
		line := fmt.Sprintf("give %s %s", a.Powder, a.Mass.Format(sys))
		for _, w := range a.With {
			line += fmt.Sprintf(" and %s %s", w.Powder, w.Mass.Format(sys))
		}
		t.say("  When it is in, type: %s", line)
	}
	if a.Recheck != "" {
		t.say("  Then wait %s. What to look at: %s.", a.Wait, strings.TrimRight(a.Recheck, "."))
	}
}

// spoke tells whether an event is a word of the vat's, after which its outlook is another.
func spoke(b day.Body) bool {
	switch b.(type) {
	case day.Reading, day.StripTest:
		return true
	}
	return false
}
