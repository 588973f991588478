package ui

import (
	"testing"
	"time"

	"example.org/vatside/ui/engine"
)

// The window is called by the short form of the call that rules, with its time; of several days after the vat's name. A day that is
// closed or only looked at gives way.
func TestTheTitleIsTheCall(t *testing.T) {
	bin, tub := dipping(t), dipping(t)
	tub.ID, tub.State.Head.Vat, tub.State.Head.Setup.Name = "tub/2026-03-28", "tub", "tub"
	bin.Now, tub.Now = bin.State.At.Add(time.Minute), bin.State.At.Add(4*time.Minute+30*time.Second)
	closed, looked := bin, tub
	closed.State.Closed, looked.Looking = true, true
	for _, c := range []struct {
		want string
		days []engine.View
	}{
		{"vatside", nil},
		{"vatside", []engine.View{closed}},
		{"4:00 A1", []engine.View{closed, bin}},
		{"0:30 A1 out", []engine.View{looked}},
		{"tub: 0:30 A1 out", []engine.View{bin, tub}},
		{vatName(bin) + ": 4:00 A1", []engine.View{looked, bin}},
	} {
		if got := titleOf(engine.Snapshot{Days: c.days}); got != c.want {
			t.Errorf("the title is %q, not %q", got, c.want)
		}
	}
}
