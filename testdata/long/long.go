// Package long tells tests how far to go: where VATSIDE_LONG is set in the environment, as .ci/run sets it, through all that they
// know, and otherwise through a part of it that takes a moment. The tests themselves ask, no function that they call: .ci/run finds
// by that which to run so.
//
// Such tests hold little and make much that is soon rubbish: where it is imported, garbage is collected less often.
package long

import (
	"flag"
	"os"
	"runtime/debug"
	"slices"
	"strconv"
	"testing"
)

func init() { debug.SetGCPercent(400) }

// Runs tells whether VATSIDE_LONG is set. It asks each time: go test sees what a test asks for, and runs it anew where it changed.
func Runs() bool { return os.Getenv("VATSIDE_LONG") != "" }

// Of is all where long tests run, and some otherwise.
func Of(all, some int) int {
	if Runs() {
		return all
	}
	return some
}

// Raced tells whether the race detector looks on. It makes what only reckons seven times slower, and the tests that .ci/run goes through
// whole without it need few of their cases: it sees in them what it would in many.
func Raced() bool {
	info, ok := debug.ReadBuildInfo()
	return ok && slices.Contains(info.Settings, debug.BuildSetting{Key: "-race", Value: "true"})
}

// Few is some, and a fifth of it under the race detector.
func Few(some int) int {
	if Raced() {
		return (some + 4) / 5
	}
	return some
}

// Checks has rapid draw all or some cases (Few of them) until the test ends, unless -rapid.checks says another number. A test that
// calls it does not run beside others.
func Checks(t *testing.T, all, some int) {
	t.Helper()
	f := flag.Lookup("rapid.checks")
	if f == nil || f.Value.String() != f.DefValue {
		return
	}
	if err := f.Value.Set(strconv.Itoa(Of(all, Few(some)))); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Value.Set(f.DefValue) })
}
