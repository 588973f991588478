package ui

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen"
)

// Each screen but the day's own says at the right of its head what it is, before the time, and of a rehearsed day that it is one; the
// time is the rehearsed day's, on home too.
func TestTheHeadSaysWhereThisIs(t *testing.T) {
	v := happened(t, true)
	v.State.Head.Rehearsed = true
	clock := day.Clock(v.Now)
	for at, want := range map[screen.Place]string{
		screen.AtHome: clock, screen.AtDose: "what it needs · " + clock, screen.AtCourse: "the warmth · " + clock, screen.AtLog: clock, screen.AtStock: clock,
		screen.AtBench: "the bench · " + clock, screen.AtSigns: "signs · " + clock,
	} {
		d := seated(t, v).at(at, v.ID)
		if at == screen.AtHome || at == screen.AtStock {
			d.at(at, "")
		}
		d.g.snap.Wall = v.Now.AddDate(0, 6, 0)
		head := d.g.sheet().Head
		if !strings.HasPrefix(head.Right, rehearsed) || !strings.HasSuffix(head.Right, want) || strings.Contains(head.Left, rehearsed) {
			t.Errorf("%s: %q, and not %q", at, head, want)
		}
	}
}
