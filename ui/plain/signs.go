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

// ails says what ails the vat, by what was read and seen.
func (t *Terminal) ails(v engine.View) {
	for _, line := range causesOf(v.State, signs.Causes(asked(v))) {
		t.say("  %s", line)
	}
}

func asked(v engine.View) (signs.Seen, signs.Vat) {
	return outlook.Asked(v.State, outlook.Of(v.State, v.Now), v.Now, nil)
}

// causesOf are the causes in words, the first with what to do.
func causesOf(s day.State, causes []signs.Cause) []string {
	sentence := unsourced
	var out []string
	for i, c := range causes {
		out = append(out, sentence(c.Rank.String()+": "+c.Name+"; "+c.Why))
		if i > 0 {
			continue
		}
		out = append(out, sentence("do: "+c.Do))
		if c.How != "" {
			out = append(out, sentence("how: "+c.How))
		}
		for _, w := range c.Cautions {
			out = append(out, sentence("caution: "+w))
		}
		if c.Wait > 0 {
			out = append(out, sentence(fmt.Sprintf("then wait %s and %s", c.Wait, c.Recheck)))
		}
		if answer.Treated(c) && !s.Closed {
			out = append(out, "When it is done, type: treat")
		}
	}
	return append(out, sentence(signs.WeightIsJudged))
}

// firstAid is what to do at once, accident by accident.
func firstAid() []string {
	var out []string
	for _, a := range practice.FirstAid() {
		out = append(out, wording.Upper(a.Name)+": "+a.Act+". "+strings.Join(a.How, " "))
	}
	return append(out, practice.HelpDecides)
}
