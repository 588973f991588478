package main

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"time"
	"unicode/utf8"

	"example.org/vatside/model/wording"
)

// kind is what a subject can do.
type kind int

const (
	bare kind = iota
	bubble
	vat
)

// subject is a program whose costs are measured.
type subject struct {
	kind       kind
	name, path string
}

// command is the subject in a home of that kind.
func (s subject) command(h *home, args ...string) *exec.Cmd {
	if s.kind != vat {
		args = nil
	}
	return h.command(s.path, args...)
}

// cost is a line of the table: a figure of each subject that has it.
type cost struct {
	what, unit string
	limit      float64 // of vatside; 0: none
	cells      map[string]cell
}

// asBare is the limit of wake-ups: 1.3 times the bare loop's.
const asBare = -1

// cell is the figure that a limit is for, and how it is printed.
type cell struct {
	value float64
	text  string
}

type costs struct {
	subjects []subject
	lines    []*cost
	bare     float64 // wake-ups a second of the bare loop
	missing  bool    // something could not be measured
}

// miss tells what could not be measured.
func (c *costs) miss(of subject, format string, args ...any) {
	c.missing = true
	fmt.Fprintf(os.Stderr, "terminal: %s: %s\n", of.name, fmt.Sprintf(format, args...))
}

// put notes a figure of a subject; the first one begins the line.
func (c *costs) put(what, unit string, limit float64, of subject, value float64, text string) {
	i := slices.IndexFunc(c.lines, func(l *cost) bool { return l.what == what })
	if i < 0 {
		i = len(c.lines)
		c.lines = append(c.lines, &cost{what, unit, limit, map[string]cell{}})
	}
	c.lines[i].cells[of.name] = cell{value, text}
}

// costs measures all and prints it. It tells whether something could not be measured.
func (t *setup) costs(c choice, subjects []subject) (missing bool) {
	all := &costs{subjects: subjects}
	say := func(format string, args ...any) { fmt.Fprintf(os.Stderr, "terminal: "+format+"\n", args...) }
	say("%d starts of each kind", c.runs)
	t.starts(all, c.runs)
	say("%d keys of each kind", c.keys)
	t.taps(all, c.keys)
	say("idle for %v", c.idle)
	t.idles(all, c.idle)
	all.print()
	return all.missing
}

// print prints the table; what is above its limit is marked.
func (c *costs) print() {
	wide := 0
	for _, l := range c.lines {
		wide = max(wide, utf8.RuneCountInString(l.what))
	}
	fmt.Printf("\n%-*s  %-6s", wide, "cost", "unit")
	for _, s := range c.subjects {
		fmt.Printf("  %22s", s.name)
	}
	fmt.Println("   at most")
	for _, l := range c.lines {
		fmt.Printf("%-*s  %-6s", wide, l.what, l.unit)
		limit := wording.Either(l.limit == asBare, 1.3*c.bare, l.limit)
		for _, s := range c.subjects {
			text := "–"
			if x, ok := l.cells[s.name]; ok {
				text = x.text
				if s.kind == vat && limit > 0 && x.value > limit {
					text = "! " + text
				}
			}
			fmt.Printf("  %22s", text)
		}
		if limit > 0 {
			fmt.Printf("   %.4g", limit)
		}
		fmt.Println()
	}
	fmt.Println("\nTimes are the middle one (the least and the most), of keys the middle one (the 99th part). ! is above the limit.")
	fmt.Println("Wake-ups: voluntary + involuntary context switches of all threads; a single one of a timer is several. Moments awake: quarters of a second with any.")
}

// ms is a time in milliseconds.
func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// part is the value below which a part of sorted times lie.
func part(sorted []time.Duration, of float64) time.Duration {
	return sorted[min(len(sorted)-1, int(of*float64(len(sorted))))]
}

// spread is the middle of some times, and the middle, the least and the most in words.
func spread(times []time.Duration) (float64, string) {
	slices.Sort(times)
	return ms(part(times, 0.5)), fmt.Sprintf("%.1f (%.1f–%.1f)", ms(part(times, 0.5)), ms(times[0]), ms(times[len(times)-1]))
}
