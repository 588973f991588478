package main

import (
	"fmt"
	"os/exec"
	"slices"
	"strings"
	"sync"

	"example.org/vatside/testdata/bench/internal/apart"
)

// edge is one thing that a terminal may do to the program, or the program to its terminal.
type edge struct {
	group, name string
	does        func(*try)
	brief       bool // belongs to a short run
	alone       bool // measures a time that a busy machine would spoil
}

// try is an edge and what came of it.
type try struct {
	*setup
	edge
	mu      sync.Mutex
	wrong   []string
	said    []string
	without string // why it could not be tried
}

// bad notes what is wrong; the same sentence counts once.
func (t *try) bad(format string, args ...any) { t.note(&t.wrong, format, args...) }

// say notes what was seen.
func (t *try) say(format string, args ...any) { t.note(&t.said, format, args...) }

// must ends the try where something does not hold, which is told.
func (t *try) must(holds bool, format string, args ...any) {
	if !holds {
		t.bad(format, args...)
		apart.Stop()
	}
}

// needs ends the try where a program is not installed, which is told.
func (t *try) needs(program string) {
	if _, err := exec.LookPath(program); err != nil {
		t.without = "there is no " + program
		apart.Stop()
	}
}

func (t *try) note(to *[]string, format string, args ...any) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if s := fmt.Sprintf(format, args...); !slices.Contains(*to, s) {
		*to = append(*to, s)
	}
}

// firstLine is the first line of a screen that says something.
func firstLine(text string) string {
	for line := range strings.Lines(text) {
		if line = strings.Trim(line, " █▀▄\n"); line != "" {
			return fmt.Sprintf("%q", line)
		}
	}
	return "an empty screen"
}
