package main

import (
	"cmp"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
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
	took        time.Duration
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

// row makes a line of the table and fills it.
func (b *bench) row(fault string, fill func(*row)) {
	beside(b, 1, []string{fault}, func(s string) string { return s }, func(r *row, _ string) { fill(r) })
}

// skip ends a try of a row that cannot be tried, and says why.
func (r *row) skip(why string) {
	r.b.mu.Lock()
	r.without = why
	r.b.mu.Unlock()
	apart.Stop()
}

// must ends a try where something does not hold, which is told.
func (r *row) must(holds bool, format string, args ...any) {
	if !holds {
		r.bad(format, args...)
		apart.Stop()
	}
}

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

// loses notes acts that are lost without a word.
func (r *row) loses(acts int, how string) {
	r.b.mu.Lock()
	defer r.b.mu.Unlock()
	r.lost += acts
	r.losses = append(r.losses, how)
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
	out := slices.SortedFunc(maps.Keys(said), func(a, b string) int { return cmp.Or(said[b]-said[a], strings.Compare(a, b)) })
	for i, s := range out {
		out[i] = fmt.Sprintf("%d× %s", said[s], s)
	}
	if len(out) == 0 {
		return []string{""}
	}
	return out[:min(len(out), most)]
}

// beside makes a row of each of some faults and fills it, so many beside one another.
func beside[T any](b *bench, atOnce int, all []T, name func(T) string, fill func(*row, T)) {
	fills := map[*row]T{}
	var rows []*row
	for _, one := range all {
		r := &row{b: b, fault: name(one), said: map[string]int{}}
		rows, fills[r] = append(rows, r), one
	}
	b.mu.Lock()
	b.rows = append(b.rows, rows...)
	b.mu.Unlock()
	apart.Together(atOnce, rows, func(r *row) {
		begun := time.Now()
		defer func() { r.took = time.Since(begun) }()
		fill(r, fills[r])
	})
}

// plainly is text for the table: short, on one line, nothing in it that a terminal obeys, figures and folders made alike.
func plainly(s string) string {
	s = folders.ReplaceAllString(s, "…/")
	s = strings.Trim(strconv.QuoteToASCII(strings.TrimSpace(s)), `"`)
	s = strings.NewReplacer(`\u2026`, "…", `\u00b7`, "·", `\u00b0`, "°").Replace(s)
	s = dates.ReplaceAllString(s, "DATE")
	if len(s) > 150 {
		s = s[:150] + "…"
	}
	return s
}

var (
	folders = regexp.MustCompile(`/\S*vatside-faults-[^\s,:;"]*/`)
	dates   = regexp.MustCompile(`\d{4}-\d\d-\d\d`)
)
