package ui

import (
	"os"
	"runtime/debug"
	"testing"
)

// The tests hold little and make much that is soon rubbish: collected less often, they take a tenth less time.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(m.Run())
}
