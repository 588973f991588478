package command

import (
	"os"
	"runtime/debug"
	"testing"
)

// The tests hold little and make much that is soon rubbish: it is collected less often.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}
