package engine_test

import (
	"math"
	"testing"
	"time"

	"example.org/vatside/ui/engine"
)

// A fast clock never runs back, however long it runs: at its end it stands still.
func TestAFastClockNeverRunsBack(t *testing.T) {
	for _, speed := range []float64{1, 60, 36_000, 1e18, math.MaxFloat64} {
		in := &fake{wall: morning}
		p := engine.NewPlaying(in, morning, speed)
		last := p.Now()
		for range 5000 {
			in.run(2 * time.Hour)
			now := p.Now()
			if now.Before(last) || now.Before(morning) {
				t.Fatalf("%g times as fast, after %s: %s, and before it %s", speed, in.Mono(), now, last)
			}
			last = now
		}
	}
}
