package plain

import (
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/engine"
)

// bench says what each piece wants after its dips.
func (t *Terminal) bench(v engine.View) {
	pieces := v.State.OnBench()
	if len(pieces) == 0 {
		t.say("  Nothing is on the bench yet: a piece comes there after its last dip.")
	}
	for _, p := range pieces {
		t.say("  %s", strings.ReplaceAll(p.Name()+": "+v.State.BenchLine(p, v.Now, true)+".", "?.", "?"))
		a, ok := v.State.AfterDips(p, v.Now)
		switch words := bath(a, v.State.Head.Setup.System()); {
		case ok && a.Shut:
			t.say("    %s", practice.Unsourced(a.How))
		case words != "":
			t.say("    %s.", words)
		}
	}
}

// bath is what goes into the next bath of a piece; empty where it is none, or runs.
func bath(a day.Act, sys quantity.System) string {
	if a.Kind != day.ActBench || a.Due != nil || a.Shut {
		return ""
	}
	number, unit, note := a.Bench.Figure(sys)
	if number == "" {
		return ""
	}
	return number + " " + unit + " of " + note
}
