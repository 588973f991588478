// Package long tells tests how far to go: where VATSIDE_LONG is set in the environment, as .ci/run sets it, through all that they
// know, and otherwise through a part of it that takes a moment. The tests themselves ask, no function that they call: .ci/run finds
// by that which to run so.
package long

import (
	"flag"
	"os"
	"strconv"
	"testing"
)

// Runs tells whether VATSIDE_LONG is set. It asks each time: go test sees what a test asks for, and runs it anew where it changed.
func Runs() bool { return os.Getenv("VATSIDE_LONG") != "" }

// Of is all where long tests run, and some otherwise.
func Of(all, some int) int {
	if Runs() {
		return all
	}
	return some
}

// Checks has rapid draw all or some cases until the test ends, unless -rapid.checks says another number. A test that calls it does
// not run beside others.
func Checks(t *testing.T, all, some int) {
	t.Helper()
	f := flag.Lookup("rapid.checks")
	if f == nil || f.Value.String() != f.DefValue {
		return
	}
	if err := f.Value.Set(strconv.Itoa(Of(all, some))); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Value.Set(f.DefValue) })
}
