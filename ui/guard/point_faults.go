//go:build faults

package guard

import (
	"os"
	"strconv"
	"strings"
	"sync/atomic"
)

// A build for the fault bench panics in the part that VATSIDE_PANIC names, at its first pass or, as "engine:3", at a later one.
func init() {
	name, at, _ := strings.Cut(os.Getenv("VATSIDE_PANIC"), ":")
	nth, err := strconv.ParseInt(at, 10, 64)
	if err != nil {
		nth = 1
	}
	var passed atomic.Int64
	Inject(func(where string) {
		if where == name && passed.Add(1) == nth {
			panic(ErrInjected)
		}
	})
}
