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
// Without -cost or -edges it does both. -hour does neither: it sits a real hour at a day whose times run, and prints what the program has
// of memory, threads and processor meanwhile; with 1 where they grow. It needs a Linux with /proc; tmux, script and bash where they are
// there. Every home is one of its own; no machine sounds. It knows the screens by testdata/bench/words.
package main

import (
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
	apart.Run("terminal", func() bool { return t.run(c, flag.Args()) })
}

func (t *setup) run(c choice, programs []string) (bad bool) {
	work, done := apart.Folder("vatside-terminal-", os.RemoveAll)
	defer done()
	t.work = work
	t.wakers()
	if len(programs) == 0 {
		programs = []string{"."}
	}
	subjects := t.subjects(programs)
	t.program = subjects[len(subjects)-len(programs)].path
	if c.hour {
		return t.hour(subjects[len(subjects)-1], c.idle)
	}
	if c.cost {
		bad = t.costs(c, subjects)
	}
	if c.edges {
		bad = table(t.tried(choose(c.only), 4)) || bad
	}
	return bad
}

// wakers puts a stand-in of systemd-inhibit into a folder of its own: it keeps nothing awake, and runs as long as the program does.
func (t *setup) wakers() {
	t.tools = filepath.Join(t.work, "tools")
	apart.Tool(t.tools, "systemd-inhibit", "exec cat")
}

// subjects are the programs whose costs are measured: those to compare with come first.
func (t *setup) subjects(programs []string) []subject {
	own := func(name, pkg string) string { return apart.Got(t.build(name, "example.org/vatside"+pkg)) }
	const here = "/testdata/bench/terminal/"
	all := []subject{{bare, "bare loop", own("bare", here+"bare")}, {bubble, "bubbletea", own("plainbubble", here+"plainbubble")}}
	for _, p := range programs {
		s := subject{vat, filepath.Base(p), apart.Got(filepath.Abs(p))}
		if p == "." {
			s.name, s.path = "vatside", own("vatside", "")
		}
		if slices.ContainsFunc(all, func(other subject) bool { return other.name == s.name }) {
			s.name = p // two builds of one name
		}
		all = append(all, s)
	}
	return all
}

// build builds a package of the module, as the README makes the program.
func (t *setup) build(name, pkg string) (string, error) {
	return apart.Build(filepath.Join(t.work, name), pkg)
}
