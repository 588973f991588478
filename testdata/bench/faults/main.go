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
// An act counts when the program showed it as taken: it must then be in `vatside book`, or the exit status is not 0 and the last
// line says so. "panic" builds the program with -tags faults. It knows the log by testdata/bench/words,
// a note by "write a line into the book", the help by "any other key goes back", the plain mode by "What you can say:" and "Enter says done".
package main

import (
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
)

// The limits of one run of the program.
const (
	mostTime   = 5 * time.Second
	mostMemory = 300 // MB
)

// setup is what all parts share.
type setup struct {
	program, work string
	short         bool
	seed          uint64
	verbose       bool
	folders       atomic.Int64 // made so far
}

// bench is one part of the bench with its rows.
type bench struct {
	*setup
	mu   sync.Mutex
	rows []*row
}

// row is one fault in the table.
type row struct {
	b           *bench
	fault       string
	tries, acts int
	losses      []string       // a sentence for each try that lost acts without a word
	lost, told  int            // acts that are not in the book: without a word, with one
	said        map[string]int // how the program ended, and what it said last
	wrong       []string
	without     string // why it could not be tried
	begun       time.Time
	took        time.Duration
}

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
	bad, err := t.all(chosen, flag.Args())
	if err != nil {
		fmt.Fprintln(os.Stderr, "faults:", err)
	}
	if err != nil || bad {
		os.Exit(1)
	}
}

func (t *setup) all(chosen []part, args []string) (bad bool, err error) {
	if t.work, err = apart.Folder("vatside-faults-", sweep); err != nil {
		return false, err
	}
	defer func() { err = errors.Join(err, sweep(t.work)) }()
	if len(args) == 1 {
		t.program, err = filepath.Abs(args[0])
	} else {
		t.program, err = t.build("vatside")
	}
	if err != nil {
		return false, err
	}
	if _, err := os.Stat("testdata/days"); err != nil {
		return false, fmt.Errorf("run it from the top of the module: %w", err)
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
	return table(rows), nil
}

// sweep takes what is mounted below the bench's folder away, and the folder.
func sweep(work string) error {
	mounts, _ := os.ReadFile("/proc/self/mounts") // not there: nothing was mounted
	for line := range strings.Lines(string(mounts)) {
		if f := strings.Fields(line); len(f) > 1 && strings.HasPrefix(f[1], work+"/") {
			_ = exec.Command("umount", "-l", f[1]).Run()
		}
	}
	return os.RemoveAll(work)
}

// build builds the module's program.
func (t *setup) build(name string, flags ...string) (string, error) {
	return apart.Build(filepath.Join(t.work, name), "example.org/vatside", flags...)
}

// dir is a new folder of the bench.
func (t *setup) dir(name string) string {
	path := filepath.Join(t.work, fmt.Sprintf("%s-%d", name, t.folders.Add(1)))
	apart.Must(os.MkdirAll(path, 0o755))
	return path
}

// rand is a row's own chance, the same for the same seed.
func (t *setup) rand(of string) *rand.Rand {
	h := t.seed
	for _, c := range of {
		h = h*1099511628211 + uint64(c)
	}
	return rand.New(rand.NewPCG(t.seed, h))
}

// row begins a line of the table.
func (b *bench) row(fault string) *row {
	r := &row{b: b, fault: fault, said: map[string]int{}, begun: time.Now()}
	b.mu.Lock()
	b.rows = append(b.rows, r)
	b.mu.Unlock()
	return r
}

// done ends the time of a row.
func (r *row) done() { r.took = time.Since(r.begun) }

// skip says why a row was not tried.
func (r *row) skip(why string) {
	r.b.mu.Lock()
	defer r.b.mu.Unlock()
	r.without = why
}

// skipped tells whether it was left out.
func (r *row) skipped() bool {
	r.b.mu.Lock()
	defer r.b.mu.Unlock()
	return r.without != ""
}

// bad notes what is wrong; the same sentence counts once.
func (r *row) bad(format string, args ...any) {
	s := fmt.Sprintf(format, args...)
	r.b.mu.Lock()
	defer r.b.mu.Unlock()
	if !slices.Contains(r.wrong, s) {
		r.wrong = append(r.wrong, s)
		if r.b.verbose {
			fmt.Printf("%s: %s\n", r.fault, s)
		}
	}
}

// ended notes how a run ended.
func (r *row) ended(code int, last string) {
	r.b.mu.Lock()
	defer r.b.mu.Unlock()
	r.said[fmt.Sprintf("exit %d, %q", code, plainly(last))]++
}

func (r *row) count(tries, acts int) {
	r.b.mu.Lock()
	defer r.b.mu.Unlock()
	r.tries += tries
	r.acts += acts
}

// table prints what came out, and tells whether anything is wrong.
func table(rows []*row) (bad bool) {
	fmt.Printf("\n%-44s %6s %6s %6s %6s %7s  %s\n", "fault", "tries", "acts", "lost", "told", "seconds", "what was said")
	tries, lost, wrong := 0, 0, 0
	for _, r := range rows {
		if r.without != "" {
			fmt.Printf("%-44s %6s  left out: %s\n", r.fault, "-", r.without)
			continue
		}
		said := mostOften(r.said, 2)
		fmt.Printf("%-44s %6d %6d %6d %6d %7.1f  %s\n", r.fault, r.tries, r.acts, r.lost, r.told, r.took.Seconds(), said[0])
		for _, s := range said[1:] {
			fmt.Printf("%81s%s\n", "", s)
		}
		for _, w := range r.wrong[:min(len(r.wrong), 8)] {
			fmt.Printf("    WRONG: %s\n", w)
		}
		if n := len(r.wrong) - 8; n > 0 {
			fmt.Printf("    and %d more\n", n)
		}
		tries, lost, wrong = tries+r.tries, lost+r.lost, wrong+len(r.wrong)
	}
	for _, r := range rows { // at the end, where it is read first
		for _, l := range r.losses {
			fmt.Printf("\nLOST: %s: %s\n", r.fault, l)
		}
	}
	fmt.Printf("\n%d tries; events lost: %d; other things wrong: %d\n", tries, lost, wrong)
	return lost > 0 || wrong > 0
}

// mostOften are the few things said most often, at least one line.
func mostOften(said map[string]int, most int) []string {
	var out []string
	for s := range said {
		out = append(out, s)
	}
	slices.SortFunc(out, func(a, b string) int {
		if said[a] != said[b] {
			return said[b] - said[a]
		}
		return strings.Compare(a, b)
	})
	for i, s := range out {
		out[i] = fmt.Sprintf("%d× %s", said[s], s)
	}
	if len(out) == 0 {
		return []string{""}
	}
	return out[:min(len(out), most)]
}

// beside makes n rows and fills them, so many beside one another.
func (b *bench) beside(at, n int, name func(int) string, fill func(*row, int)) {
	var rows []*row
	var all []int
	for i := range n {
		rows, all = append(rows, b.row(name(i))), append(all, i)
	}
	together(at, all, func(i int) {
		rows[i].begun = time.Now()
		fill(rows[i], i)
		rows[i].done()
	})
}

// together runs tries beside one another: most of them wait.
func together[T any](at int, tries []T, do func(T)) {
	queue := make(chan T)
	var wg sync.WaitGroup
	for range at {
		wg.Go(func() {
			for t := range queue {
				do(t)
			}
		})
	}
	for _, t := range tries {
		queue <- t
	}
	close(queue)
	wg.Wait()
}
