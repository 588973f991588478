package command

import (
	"math"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

// Sparing keeps a command that goes through a whole home below 30 MB, 12 of which are the program itself, with few searches for what is
// free while there is room. Where more than half of the room is in use it grows: near its end the runtime would do little but search.
func Sparing() {
	debug.SetGCPercent(400)
	debug.SetMemoryLimit(leastRoom)
	runtime.SetFinalizer(new(*byte), searched)
}

// leastRoom is what the runtime takes from the system at the most, in bytes, while half of it is free.
const leastRoom = 19 << 20

// searched comes behind each search for what is free, with a thing that nobody holds.
func searched(free **byte) {
	if debug.SetMemoryLimit(-1) == math.MaxInt64 { // somebody has lifted it
		return
	}
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	debug.SetMemoryLimit(max(leastRoom, 2*int64(live[0].Value.Uint64())))
	runtime.SetFinalizer(free, searched)
}
