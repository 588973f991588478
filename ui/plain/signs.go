package plain

import (
	"context"
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
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
	return outlook.Asked(v.State, outlook.Of(v.State, v.Now), v.Now)
}

// causesOf are the causes in words, the first with what to do.
func causesOf(s day.State, causes []signs.Cause) []string {
	sentence := func(w string) string { return strings.TrimSuffix(wording.Upper(w), ".") + "." }
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

// treat writes down that the first cause was treated: the first time its cautions are read out, the second time it is done.
func (t *Terminal) treat(ctx context.Context, e *engine.Engine, id string, v engine.View) {
	c := signs.Causes(asked(v))[0]
	words := strings.Join(c.Cautions, "; ")
	var do day.Command = day.Record{Body: day.CautionAnswered{Caution: words}}
	first := words != "" && t.cautioned != c.Do
	switch {
	case !answer.Treated(c):
		t.say("  Nothing is to be done for it: %s.", strings.TrimSuffix(c.Do, "."))
		return
	case first:
		t.cautioned = c.Do
		t.say("  Caution: %s.", words)
		t.say("  %s. When it is in, type treat once more.", wording.Upper(c.Do))
	default:
		treat := day.Treat{Cause: c.ID, Do: c.Do, Wait: c.Wait}
		for _, d := range c.Doses {
			treat.Powders = append(treat.Powders, day.Amount{Powder: d.Powder, Mass: d.Mass})
		}
		t.cautioned, do = "", day.Answered{Command: treat}
	}
	if _, err := e.Do(ctx, id, do); err != nil {
		t.say("Not taken: %s.", err)
	}
}

// firstAid is what to do at once, accident by accident.
func firstAid() []string {
	var out []string
	for _, a := range signs.FirstAid() {
		out = append(out, wording.Upper(a.Name)+": "+a.Act+". "+strings.Join(a.How, " "))
	}
	return append(out, signs.HelpDecides)
}
