// Command firstframe measures the time from starting vatside to its first frame, in a pseudo-terminal of 80×24: once on a
// terminal that answers what it is asked (background colour, device attributes, cursor position), once on one that never
// answers. The budget is 30 ms on both.
//
//	go run ./testdata/bench/firstframe [-n 30] [-marker vatside] [PROGRAM [ARGUMENT...]]
//
// Without a program it builds the module it stands in. The first frame is there when the output without its control
// sequences holds the marker for the first time; what was written before it (clearing the screen, queries) does not count.
// Each run has a new empty home, so the dyer's own is never touched. The first run of each kind warms up and is not counted.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/creack/pty"
)

func main() {
	runs := flag.Int("n", 30, "counted runs of each kind")
	marker := flag.String("marker", "vatside", "text that the first frame holds")
	limit := flag.Duration("limit", 10*time.Second, "a run without the marker ends after this time")
	flag.Parse()
	if err := bench(flag.Args(), *runs, *marker, *limit); err != nil {
		fmt.Fprintln(os.Stderr, "firstframe:", err)
		os.Exit(1)
	}
}

func bench(command []string, runs int, marker string, limit time.Duration) error {
	if runs < 1 {
		return errors.New("-n must be at least 1")
	}
	work, err := os.MkdirTemp("", "vatside-firstframe-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	if len(command) == 0 {
		program := filepath.Join(work, "vatside")
		build := exec.Command("go", "build", "-o", program, "example.org/vatside")
		build.Env = append(os.Environ(), "CGO_ENABLED=0") // as the README has it
		if out, err := build.CombinedOutput(); err != nil {
			return fmt.Errorf("building: %w\n%s", err, out)
		}
		command = []string{program}
	}
	fmt.Printf("%d runs each, 80×24, first frame = %q is there; ms from the start of the process\n\n", runs, marker)
	fmt.Printf("%-10s %28s %31s\n%-10s", "", "first byte", "first frame", "terminal")
	for range 2 {
		fmt.Printf(" %9s %9s %9s ", "min", "median", "max")
	}
	fmt.Println()
	for _, t := range []struct {
		name    string
		answers bool
	}{{"answering", true}, {"silent", false}} {
		var first, frame []time.Duration
		for i := range runs + 1 {
			home, err := os.MkdirTemp(work, "home-")
			if err != nil {
				return err
			}
			a, b, err := once(command, home, marker, t.answers, limit)
			if err != nil {
				return fmt.Errorf("%s terminal, run %d: %w", t.name, i, err)
			}
			if i > 0 {
				first, frame = append(first, a), append(frame, b)
			}
		}
		fmt.Printf("%-10s%s %s\n", t.name, row(first), row(frame))
	}
	return nil
}

// row prints the least, the middle and the greatest of some times.
func row(times []time.Duration) string {
	slices.Sort(times)
	n := len(times)
	var b strings.Builder
	for _, d := range []time.Duration{times[0], (times[(n-1)/2] + times[n/2]) / 2, times[n-1]} {
		fmt.Fprintf(&b, " %9.1f", float64(d.Microseconds())/1000)
	}
	return b.String()
}

// once starts the program and gives the times to its first byte and its first frame.
func once(command []string, home, marker string, answers bool, limit time.Duration) (first, frame time.Duration, err error) {
	cmd := exec.Command(command[0], command[1:]...)
	cmd.Env = append(os.Environ(), "VATSIDE_HOME="+home, "TERM=xterm-256color", "COLORTERM=truecolor")
	begun := time.Now()
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		return 0, 0, err
	}
	over := time.AfterFunc(limit, func() { cmd.Process.Kill() })
	defer func() {
		over.Stop()
		cmd.Process.Kill() // what it does after its first frame is not of interest
		cmd.Wait()
		tty.Close()
	}()
	var text []byte
	asked := make([]int, len(queries))
	buf := make([]byte, 64<<10)
	for {
		n, err := tty.Read(buf)
		at := time.Since(begun)
		if n > 0 && first == 0 {
			first = at
		}
		text = append(text, buf[:n]...)
		if strings.Contains(ansi.Strip(string(text)), marker) {
			return first, at, nil
		}
		if answers {
			for i, q := range queries {
				for count := bytes.Count(text, []byte(q.asks)); asked[i] < count; asked[i]++ {
					if _, err := tty.WriteString(q.answer); err != nil {
						return 0, 0, err
					}
				}
			}
		}
		if err != nil {
			return 0, 0, fmt.Errorf("it ended, or %v went by, without %q; it wrote %q", limit, marker, tail(text))
		}
	}
}

// tail is the end of an output, as much as one wants to read in a message.
func tail(text []byte) []byte { return text[max(0, len(text)-400):] }

// queries are what programs ask a terminal at their start, with the answers of a dark xterm at 80×24.
var queries = []struct{ asks, answer string }{
	{"\x1b]10;?", "\x1b]10;rgb:e0e0/e0e0/e0e0\x1b\\"}, // OSC 10: colour of the text
	{"\x1b]11;?", "\x1b]11;rgb:1010/1010/1818\x1b\\"}, // OSC 11: colour of the ground
	{"\x1b[c", "\x1b[?62;22c"},                        // DA1: device attributes
	{"\x1b[0c", "\x1b[?62;22c"},                       // DA1, written out
	{"\x1b[>c", "\x1b[>41;370;0c"},                    // DA2
	{"\x1b[6n", "\x1b[1;1R"},                          // CPR: cursor position
	{"\x1b[5n", "\x1b[0n"},                            // status
	{"\x1b[?2026$p", "\x1b[?2026;2$y"},                // synchronised output: known, off
	{"\x1b[18t", "\x1b[8;24;80t"},                     // size in cells
}
