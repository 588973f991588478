// Command terminal measures what a terminal costs vatside, and tries the terminal's edges.
//
//	go run ./testdata/bench/terminal [-cost] [-edges] [-hour] [-short] [-for 60s] [-n 30] [-only GROUP,...] [PROGRAM...]
//
// Each PROGRAM is a built vatside, "." the module it stands in; without one that is taken. The costs are measured of all of
// them in one run and printed side by side, beside a bare Go loop that prints a line each second and a countdown on bubbletea's
// default renderer. The edges are those of the first program: every end, suspending, sizes, slow terminals, other terminals,
// keys before the first frame, pastes, and what a terminal replies. They are judged by the settings that stty shows and by a
// terminal emulator. It ends with 1 if an edge fails or a cost cannot be measured; a cost above its limit is marked.
//
// Without -cost or -edges it does both. -hour does neither: it sits a real hour at a day whose times run, and prints what the program
// has of memory, threads and processor meanwhile; with 1 where they grow. It needs a Linux with /proc; tmux, script and bash where they are there. Every home is
// one of its own; no machine sounds. It knows the screens by testdata/bench/words.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
)

// setup is what all parts share.
type setup struct {
	work    string // a folder of the bench's own
	tools   string // before the others in PATH: what keeps a machine awake, which a machine without systemd has not
	short   bool
	program string // the vatside whose edges are tried
	faulty  string // the module's, built so that its parts can be made to panic; empty: it could not be built
	folders atomic.Int64
}

// choice is what the command line asks for.
type choice struct {
	cost, edges bool
	hour        bool
	runs, keys  int
	idle        time.Duration
	only        string
}

func main() {
	t, c := &setup{}, choice{}
	flag.BoolVar(&c.cost, "cost", false, "measure the costs")
	flag.BoolVar(&c.edges, "edges", false, "try the edges")
	flag.BoolVar(&t.short, "short", false, "fewer runs, a short time of idling, the most telling edges: half a minute in all")
	flag.BoolVar(&c.hour, "hour", false, "instead, keep the program at a running day for an hour, or as long as -for says")
	flag.DurationVar(&c.idle, "for", 60*time.Second, "how long a program idles")
	flag.IntVar(&c.runs, "n", 30, "starts of each kind")
	flag.IntVar(&c.keys, "keys", 500, "keys of each kind")
	flag.StringVar(&c.only, "only", "", "groups of edges to try, with commas: "+strings.Join(groups(), ", "))
	flag.Parse()
	if !c.cost && !c.edges {
		c.cost, c.edges = true, true
	}
	if c.hour {
		c.cost, c.edges = false, false
		hours := true
		flag.Visit(func(f *flag.Flag) { hours = hours && f.Name != "for" })
		if hours {
			c.idle = time.Hour
		}
	}
	if t.short {
		given := map[string]bool{}
		flag.Visit(func(f *flag.Flag) { given[f.Name] = true })
		for name, short := range map[string]string{"for": "6s", "n": "6", "keys": "60"} {
			if !given[name] {
				_ = flag.Set(name, short) // they are good values
			}
		}
	}
	if c.runs < 1 || c.keys < 1 || c.idle < time.Second {
		fmt.Fprintln(os.Stderr, "terminal: -n and -keys are at least 1, -for at least 1s")
		os.Exit(2)
	}
	bad, err := t.run(c, flag.Args())
	if err != nil {
		fmt.Fprintln(os.Stderr, "terminal:", err)
	}
	if err != nil || bad {
		os.Exit(1)
	}
}

func (t *setup) run(c choice, programs []string) (bad bool, err error) {
	if t.work, err = apart.Folder("vatside-terminal-", os.RemoveAll); err != nil {
		return false, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(t.work)) }()
	t.wakers()
	if len(programs) == 0 {
		programs = []string{"."}
	}
	subjects, err := t.subjects(programs)
	if err != nil {
		return false, err
	}
	t.program = subjects[len(subjects)-len(programs)].path
	if c.hour {
		return t.hour(subjects[len(subjects)-1], c.idle), nil
	}
	if c.cost {
		bad = t.costs(c, subjects)
	}
	if c.edges {
		chosen, err := choose(c.only)
		if err != nil {
			return false, err
		}
		if t.faulty, err = t.build("vatside-faults", "example.org/vatside", "-tags", "faults"); err != nil {
			fmt.Fprintln(os.Stderr, "terminal: no panics are tried:", err)
		}
		bad = table(t.tried(chosen, 4)) || bad
	}
	return bad, nil
}

// wakers puts a stand-in of systemd-inhibit into a folder of its own: it keeps nothing awake, and runs as long as the program does.
func (t *setup) wakers() {
	t.tools = filepath.Join(t.work, "tools")
	apart.Must(os.MkdirAll(t.tools, 0o755))
	apart.Must(os.WriteFile(filepath.Join(t.tools, "systemd-inhibit"), []byte("#!/bin/sh\nexec cat\n"), 0o755))
}

// subjects are the programs whose costs are measured: those to compare with come first.
func (t *setup) subjects(programs []string) (all []subject, err error) {
	add := func(kind kind, name, path string) { all = append(all, subject{kind, name, path}) }
	for _, s := range []struct {
		kind kind
		name string
		pkg  string
	}{{bare, "bare loop", "bare"}, {bubble, "bubbletea", "plainbubble"}} {
		path, err := t.build(s.pkg, "example.org/vatside/testdata/bench/terminal/"+s.pkg)
		if err != nil {
			return nil, err
		}
		add(s.kind, s.name, path)
	}
	for _, p := range programs {
		name, path := filepath.Base(p), p
		if p == "." {
			name = "vatside"
			path, err = t.build("vatside", "example.org/vatside")
		} else {
			path, err = filepath.Abs(p)
		}
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(all, func(s subject) bool { return s.name == name }) {
			name = p // two builds of one name
		}
		add(vat, name, path)
	}
	return all, nil
}

// build builds a package of the module, as the README makes the program.
func (t *setup) build(name, pkg string, flags ...string) (string, error) {
	return apart.Build(filepath.Join(t.work, name), pkg, flags...)
}
