package main

import (
	"strings"
	"testing"
)

// What go test says at the end of its time is no failure; whatever tells of an input is.
func TestOnlyTime(t *testing.T) {
	ended := "--- FAIL: FuzzWrite (10.17s)\n    context deadline exceeded\nFAIL\nexit status 1\nFAIL\texample.org/vatside/testdata/bench/emulator\t10.184s\n"
	for said, want := range map[string]bool{
		ended: true,
		"":    false,
		"--- FAIL: FuzzWrite (3.1s)\n    --- FAIL: FuzzWrite (0.00s)\n        a row is too wide\n    Failing input written to testdata/fuzz/FuzzWrite/1f\nFAIL\n": false,
		"--- FAIL: FuzzWrite (3.1s)\n    fuzzing process hung or terminated unexpectedly: exit status 2\nFAIL\n":                                                  false,
		ended + "    Failing input written to testdata/fuzz/FuzzWrite/1f\n":                                                                                       false,
	} {
		if got := onlyTime(strings.Split(said, "\n")); got != want {
			t.Errorf("%q: %v", said, got)
		}
	}
}
