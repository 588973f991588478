package ui

import (
	"testing"
	"time"

	"example.org/vatside/ui/screen"
)

// A second of a running countdown on the day's own screen: the engine's tick, the root's answer to it, and the frame.
func BenchmarkASecondOfACountdown(b *testing.B) {
	v := dipping(b)
	d := seated(b, v).at(screen.AtDay, v.ID)
	for b.Loop() {
		d.in.run(time.Millisecond)
		d.sees()
		d.g.lines()
	}
}
