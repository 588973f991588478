package ui

import (
	"fmt"
	"os"
	"runtime/debug"
	"testing"

	"github.com/adrg/xdg"
)

// The tests hold little and make much that is soon rubbish: it is collected less often. Spills and grounds go into a state folder of
// their own: what another run left in the user's would be read as a day's.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(run(m))
}

func run(m *testing.M) int {
	state, err := os.MkdirTemp("", "state-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(state)
	os.Setenv("XDG_STATE_HOME", state)
	xdg.Reload()
	return m.Run()
}
