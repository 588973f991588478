// Package fairshare sees to it that a program in a session of its own gets its share of the processors.
//
// Linux weighs sessions against each other (sched(7), "The autogroup feature"). On 6.18, two processors, eight test programs that
// each started sessions one after the other: what ran in a new session was not run for up to 51 s, and a whole test once for ten
// minutes. With the starting session nice by 1 it was 2.5 s at most, by 2 1.1 s, by 5 and by 10 nothing to be seen, in 2,400 sessions each.
package fairshare

import (
	"os"
	"sync"
)

// Give makes the session that this program runs in nice by 10 against all others, for as long as the session lasts: call it before
// a session is started. Where sessions are not weighed, or it was done, it does nothing.
var Give = sync.OnceFunc(func() {
	_ = os.WriteFile("/proc/self/autogroup", []byte("10"), 0)
})
