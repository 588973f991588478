// Command faults does to a built vatside what disks, clocks, signals and strangers' files do, and looks whether anything
// that it showed as taken is gone without a word, and whether it ever hangs, breaks down or lets a foreign escape through.
//
//	go run ./testdata/bench/faults [-short] [-seed 1] [-only disk,storm] [PROGRAM]
//
// Without a program it builds the module it stands in. It plays a person at a pseudo-terminal and at a pipe, with homes and
// state folders of its own. What the machine does not let it do (a tmpfs needs root, failing calls need strace, a suspend
// needs a time namespace) is left out, and the table says so. It ends with 1 if an act was lost that was not told, if
// anything hung, broke down or took more than its limit, or if anything else in the table is wrong.
//
// An act counts when the program showed it as taken: it must then be in `vatside book`, or the exit status is not 0 and the last line says
// so. "panic" builds the program with -tags faults. It knows the log by testdata/bench/words, a note by "write a line into the book", the
// help by "any other key goes back", the plain mode by "What you can say:" and "Enter says done".
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"example.org/vatside/testdata/bench/internal/apart"
)

type part struct {
	name string
	does func(*bench)
	lane int
}

// parts are all parts, in the order of the table.
var parts = []part{
	{"disk", disks, waits}, {"call", calls, waits}, {"kill", kills, works}, {"clock", clocks, stands}, {"signal", signals, waits},
	{"panic", panics, waits}, {"mutant", mutants, works}, {"hostile", hostiles, works}, {"storm", storms, waits},
}

// The lanes: parts of one run one after the other, those of different lanes beside one another.
const (
	waits  = iota // mostly for a disk
	works         // the processor does
	stands        // mostly for a clock
	lanes
)

func main() {
	t := &setup{}
	only := flag.String("only", "", "parts to run, with commas: disk, call, kill, clock, signal, panic, mutant, hostile, storm")
	flag.BoolVar(&t.short, "short", false, "fewer tries, about a minute and a half")
	flag.Uint64Var(&t.seed, "seed", 1, "of the moments, the mutants and the storms")
	flag.BoolVar(&t.verbose, "v", false, "tell each wrong thing when it is seen")
	flag.Parse()
	chosen := parts
	if *only != "" {
		chosen = nil
		for name := range strings.SplitSeq(*only, ",") {
			i := slices.IndexFunc(parts, func(p part) bool { return p.name == name })
			if i < 0 {
				fmt.Fprintf(os.Stderr, "faults: there is no part %q\n", name)
				os.Exit(2)
			}
			chosen = append(chosen, parts[i])
		}
	}
	if flag.NArg() > 1 {
		flag.Usage()
		os.Exit(2)
	}
	apart.Run("faults", func() bool { return t.all(chosen, flag.Args()) })
}

func (t *setup) all(chosen []part, args []string) (bad bool) {
	work, done := apart.Folder("vatside-faults-", sweep)
	defer done()
	t.work = work
	if len(args) == 1 {
		t.program = apart.Got(filepath.Abs(args[0]))
	} else {
		t.program = apart.Got(t.build("vatside"))
	}
	if _, err := os.Stat("testdata/days"); err != nil {
		apart.Must(fmt.Errorf("run it from the top of the module: %w", err))
	}
	benches := make([]*bench, len(chosen))
	var wg sync.WaitGroup
	for lane := range lanes {
		wg.Go(func() {
			for i, p := range chosen {
				if p.lane == lane {
					benches[i] = &bench{setup: t}
					p.does(benches[i])
				}
			}
		})
	}
	wg.Wait()
	var rows []*row
	for _, b := range benches {
		rows = append(rows, b.rows...)
	}
	return table(rows)
}
