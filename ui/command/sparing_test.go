package command

import (
	"runtime"
	"runtime/debug"
	"testing"
)

// A home that does not fit into the room that Sparing leaves takes more of it, and not a search for each few bytes.
func TestABigHomeIsNotSearchedAllTheTime(t *testing.T) {
	percent, limit := debug.SetGCPercent(100), debug.SetMemoryLimit(-1)
	defer func() { debug.SetGCPercent(percent); debug.SetMemoryLimit(limit) }()
	Sparing()
	kept := make([][]byte, 40)
	for i := range kept {
		kept[i] = make([]byte, 1<<20)
	}
	for range 100 {
		runtime.GC()
		if runtime.Gosched(); debug.SetMemoryLimit(-1) > 60<<20 {
			break
		}
	}
	if room := debug.SetMemoryLimit(-1); room < 60<<20 {
		t.Errorf("with 40 MB in use the room is %d bytes", room)
	}
	runtime.KeepAlive(kept)
}
