package plain

import (
	"strings"

	"example.org/vatside/model/practice"
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
		switch words := v.State.CallFor(a, v.Now).Amount(v.State, v.Now); {
		case ok && a.Shut:
			t.say("    %s", practice.Unsourced(a.How))
		case ok && words != "":
			t.say("    %s.", words)
		}
	}
}
