package shelf

import (
	"os"
	"strings"
	"sync"
)

// BootID names this boot of the machine in 8 hex figures; empty where the platform tells none. Two readings of the boot
// clock may be compared only within one boot.
func BootID() string { return bootID() }

// bootID is read once: it is the same for as long as the program runs.
var bootID = sync.OnceValue(func() string {
	b, err := os.ReadFile("/proc/sys/kernel/random/boot_id")
	if err != nil {
		return ""
	}
	id := strings.ReplaceAll(strings.TrimSpace(string(b)), "-", "")
	if len(id) < 8 {
		return ""
	}
	return id[:8]
})
