package ui

import (
	"runtime"
	"testing"
)

// One processor is enough once the home is read and nothing was pressed for a while; a key has all of them at once.
func TestProcessors(t *testing.T) {
	all := runtime.GOMAXPROCS(0)
	if all < 2 {
		t.Skip("there is one processor")
	}
	defer runtime.SetDefaultGOMAXPROCS()
	var p processors
	for _, step := range []struct {
		what string
		do   func()
		want int
	}{
		{"quiet during the start", p.quiet, all},
		{"the start is over", p.start, all},
		{"quiet", p.quiet, 1},
		{"a key", p.wake, all},
		{"quiet right after it", p.quiet, all},
		{"and a while later", p.quiet, 1},
	} {
		if step.do(); runtime.GOMAXPROCS(0) != step.want {
			t.Errorf("%s: %d processors, not %d", step.what, runtime.GOMAXPROCS(0), step.want)
		}
	}
	p.wake()
	if runtime.GOMAXPROCS(0) != all {
		t.Errorf("at the end there are %d", runtime.GOMAXPROCS(0))
	}
}
