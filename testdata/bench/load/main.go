// Command load has independent solvers look for the shortest finish of small days: a constraint model for MiniZinc
// (Gecode) and a time-indexed integer programme for CBC. It shares nothing with the planner in model/load. It writes
// testdata/load/instances.csv and testdata/load/answers.csv, which the planner's tests read.
//
//	apt-get install minizinc coinor-cbc
//	go run ./testdata/bench/load [-seconds 60] [-only NAME]
//
// The answers that are kept were made with -seconds 10. A makespan of -1 says that the solver found no plan in that time,
// and proven that it looked through all. Times are whole minutes. A day's dips are lowered for handling minutes, in for dip minutes, lifted for handling minutes.
package main

import (
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

type piece struct {
	weight, dips, dip, air, from, handling int
	hung                                   bool
}

type stretch struct{ from, to int }

type instance struct {
	name                  string
	capacity, most, hands int // most, hands 0: no limit
	breaks                []stretch
	work, rest            int // after so many minutes of work the vat stands empty for so many; 0: never
	pieces                []piece
}

func main() {
	seconds := flag.Int("seconds", 60, "at most so long for a solver and a day")
	only := flag.String("only", "", "one day")
	flag.Parse()
	dir, err := os.MkdirTemp("", "load")
	if err != nil {
		fail(err)
	}
	defer os.RemoveAll(dir)
	all := instances()
	if *only == "" {
		fail(writeInstances(all))
	}
	answers := [][]string{{"instance", "solver", "makespan", "proven"}}
	for _, in := range all {
		if *only != "" && in.name != *only {
			continue
		}
		for _, s := range []struct {
			name string
			run  func(instance, string, int) (int, bool, error)
		}{{"gecode", gecode}, {"cbc", cbc}} {
			begun := time.Now()
			at, proven, err := s.run(in, dir, *seconds)
			if err != nil {
				fail(fmt.Errorf("%s %s: %w", in.name, s.name, err))
			}
			fmt.Printf("%-10s %-7s %4d min  proven %-5v  %6.1f s\n", in.name, s.name, at, proven, time.Since(begun).Seconds())
			answers = append(answers, []string{in.name, s.name, strconv.Itoa(at), strconv.FormatBool(proven)})
		}
	}
	if *only == "" {
		fail(write("answers.csv", answers))
	}
}

func fail(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// next is a fixed sequence of numbers.
type next uint64

func (n *next) in(low, high int) int {
	*n = *n*6364136223846793005 + 1442695040888963407
	return low + int(uint64(*n)>>33)%(high-low+1)
}

// instances are the days: the two that are given, days of weight alone, days with hands and handling, days with breaks,
// at most so many pieces and some that come later.
func instances() []instance {
	given := piece{weight: 100, dips: 3, dip: 10, air: 20}
	short := given
	short.dips = 2
	long := given
	long.dips = 5
	out := []instance{
		{name: "given-80", capacity: 100, pieces: []piece{given, given, short}},
		{name: "given-130", capacity: 100, pieces: []piece{long}},
	}
	n := next(20261125)
	for i := range 20 {
		in := instance{name: fmt.Sprintf("weight-%02d", i+1), capacity: 1000}
		dip := 5 * n.in(1, 3)
		for range n.in(2, 5) {
			in.pieces = append(in.pieces, piece{weight: 50 * n.in(4, 18), dips: n.in(1, 4), dip: 5 * n.in(1, 3), air: 5 * n.in(0, 6)})
			if i%4 == 0 {
				in.pieces[len(in.pieces)-1].dip = dip
			}
		}
		out = append(out, in)
	}
	for i := range 16 {
		in := instance{name: fmt.Sprintf("hands-%02d", i+1), capacity: 1000, hands: 1 + i%2}
		for range n.in(2, 4) {
			in.pieces = append(in.pieces, piece{weight: 50 * n.in(3, 10), dips: n.in(1, 3), dip: n.in(2, 8), air: n.in(3, 15),
				handling: n.in(1, 2), hung: n.in(0, 2) > 0})
		}
		out = append(out, in)
	}
	for i := range 12 {
		in := instance{name: fmt.Sprintf("breaks-%02d", i+1), capacity: 1000, most: n.in(1, 3), hands: n.in(0, 2)}
		at := n.in(8, 30)
		in.breaks = []stretch{{at, at + n.in(3, 12)}}
		for range n.in(2, 4) {
			in.pieces = append(in.pieces, piece{weight: 50 * n.in(3, 10), dips: n.in(1, 3), dip: n.in(2, 8), air: n.in(3, 12),
				handling: n.in(1, 2), hung: n.in(0, 1) > 0, from: max(0, n.in(-10, 12))})
		}
		out = append(out, in)
	}
	for i := range 8 {
		in := instance{name: fmt.Sprintf("rests-%02d", i+1), capacity: 1000, most: n.in(1, 3), work: n.in(14, 30), rest: n.in(6, 20)}
		for range n.in(2, 4) {
			in.pieces = append(in.pieces, piece{weight: 50 * n.in(3, 10), dips: n.in(1, 3), dip: n.in(3, 9), air: n.in(3, 12)})
		}
		out = append(out, in)
	}
	return out
}

func write(name string, rows [][]string) error {
	f, err := os.Create(filepath.Join("testdata", "load", name))
	if err != nil {
		return err
	}
	defer f.Close()
	w := csv.NewWriter(f)
	if err := w.WriteAll(rows); err != nil {
		return err
	}
	return w.Error()
}

func writeInstances(all []instance) error {
	rows := [][]string{{"instance", "capacity", "most", "hands", "breaks", "work_time", "rest", "weight", "dips", "dip", "air", "from", "handling", "work"}}
	for _, in := range all {
		var breaks []string
		for _, b := range in.breaks {
			breaks = append(breaks, fmt.Sprintf("%d-%d", b.from, b.to))
		}
		for _, p := range in.pieces {
			work := "moved"
			if p.hung {
				work = "hung"
			}
			row := []string{in.name}
			for _, v := range []int{in.capacity, in.most, in.hands} {
				row = append(row, strconv.Itoa(v))
			}
			row = append(row, strings.Join(breaks, " "), strconv.Itoa(in.work), strconv.Itoa(in.rest))
			for _, v := range []int{p.weight, p.dips, p.dip, p.air, p.from, p.handling} {
				row = append(row, strconv.Itoa(v))
			}
			rows = append(rows, append(row, work))
		}
	}
	return write("instances.csv", rows)
}

// horizon is a time by which one piece after the other would be done.
func (in instance) horizon() int {
	h := 0
	for _, p := range in.pieces {
		h += p.dips * (p.dip + 2*p.handling + p.air)
		h = max(h, p.from)
	}
	for _, p := range in.pieces {
		h += p.from
	}
	for _, b := range in.breaks {
		h += b.to
	}
	return h + len(in.dips())*in.rest
}

// dip is one dip of a piece, in the order of the pieces.
type dip struct {
	piece
	no int
}

func (in instance) dips() []dip {
	var out []dip
	for _, p := range in.pieces {
		for k := range p.dips {
			out = append(out, dip{p, k})
		}
	}
	return out
}

func (d dip) length() int { return d.dip + 2*d.handling }

// works is when, from its lowering, a dip keeps hands at work.
func (d dip) works() []stretch {
	if !d.hung {
		return []stretch{{0, d.length()}}
	}
	if d.handling == 0 {
		return nil
	}
	return []stretch{{0, d.handling}, {d.handling + d.dip, d.length()}}
}

// gecode asks MiniZinc.
func gecode(in instance, dir string, seconds int) (int, bool, error) {
	ds := in.dips()
	var b strings.Builder
	list := func(of func(int) int) string {
		v := make([]string, len(ds))
		for i := range ds {
			v[i] = strconv.Itoa(of(i))
		}
		return "[" + strings.Join(v, ",") + "]"
	}
	lengths := list(func(i int) int { return ds[i].length() })
	fmt.Fprintf(&b, "include \"cumulative.mzn\";\narray[1..%d] of var 0..%d: s;\nvar 0..%d: last;\n", len(ds), in.horizon(), in.horizon())
	fmt.Fprintf(&b, "constraint cumulative(s, %s, %s, %d);\n", lengths, list(func(i int) int { return ds[i].weight }), in.capacity)
	if in.most > 0 {
		fmt.Fprintf(&b, "constraint cumulative(s, %s, %s, %d);\n", lengths, list(func(int) int { return 1 }), in.most)
	}
	var starts, lens []string
	for i, d := range ds {
		fmt.Fprintf(&b, "constraint last >= s[%d] + %d;\n", i+1, d.length())
		if d.no == 0 {
			fmt.Fprintf(&b, "constraint s[%d] >= %d;\n", i+1, d.from)
		} else {
			fmt.Fprintf(&b, "constraint s[%d] >= s[%d] + %d;\n", i+1, i, d.length()+d.air)
		}
		for _, w := range d.works() {
			starts = append(starts, fmt.Sprintf("s[%d] + %d", i+1, w.from))
			lens = append(lens, strconv.Itoa(w.to-w.from))
			for _, k := range in.breaks {
				fmt.Fprintf(&b, "constraint s[%d] + %d <= %d \\/ s[%d] + %d >= %d;\n", i+1, w.to, k.from, i+1, w.from, k.to)
			}
		}
	}
	if in.hands > 0 && len(starts) > 0 {
		ones := strings.TrimSuffix(strings.Repeat("1,", len(starts)), ",")
		fmt.Fprintf(&b, "constraint cumulative([%s], [%s], [%s], %d);\n", strings.Join(starts, ","), strings.Join(lens, ","), ones, in.hands)
	}
	if in.work > 0 { // each dip falls into one of some stretches of work
		fmt.Fprintf(&b, "array[1..%d] of var 0..%d: from; array[1..%d] of var 0..%d: till;\n", len(ds), 2*in.horizon(), len(ds), 2*in.horizon())
		fmt.Fprintf(&b, "array[1..%d] of var 1..%d: part;\n", len(ds), len(ds))
		for i, d := range ds {
			fmt.Fprintf(&b, "constraint s[%d] >= from[part[%d]] /\\ s[%d] + %d <= till[part[%d]];\n", i+1, i+1, i+1, d.length(), i+1)
			fmt.Fprintf(&b, "constraint till[%d] - from[%d] <= %d /\\ till[%d] >= from[%d];\n", i+1, i+1, in.work, i+1, i+1)
			if i > 0 {
				fmt.Fprintf(&b, "constraint from[%d] >= till[%d] + %d;\n", i+1, i, in.rest)
			}
		}
	}
	b.WriteString("solve :: int_search(s, smallest, indomain_min) minimize last;\noutput [\"last \\(last)\\n\"];\n")
	file := filepath.Join(dir, "day.mzn")
	if err := os.WriteFile(file, []byte(b.String()), 0o600); err != nil {
		return 0, false, err
	}
	out, err := exec.Command("minizinc", "--solver", "gecode", "--time-limit", strconv.Itoa(seconds*1000), file).CombinedOutput()
	if err != nil {
		return 0, false, fmt.Errorf("%w: %s", err, out)
	}
	at := -1
	for _, l := range strings.Split(string(out), "\n") {
		if v, ok := strings.CutPrefix(l, "last "); ok {
			at, err = strconv.Atoi(v)
			if err != nil {
				return 0, false, err
			}
		}
	}
	return at, strings.Contains(string(out), "=========="), nil
}

// cbc asks CBC: x_d_t is 1 when dip d is lowered at t.
func cbc(in instance, dir string, seconds int) (int, bool, error) {
	ds := in.dips()
	step := in.step()
	h := in.horizon() / step
	var b strings.Builder
	b.WriteString("Minimize\n last: m\nSubject To\n")
	x := func(i, t int) string { return fmt.Sprintf("x_%d_%d", i, t) }
	ok := func(d dip, t int) bool {
		if t*step < d.from || t*step+d.length() > h*step {
			return false
		}
		for _, w := range d.works() {
			for _, k := range in.breaks {
				if t*step+w.from < k.to && k.from < t*step+w.to {
					return false
				}
			}
		}
		return true
	}
	start := func(i int, sign string) string {
		var s strings.Builder
		for t := range h {
			if ok(ds[i], t) && t > 0 {
				fmt.Fprintf(&s, " %s %d %s", sign, t*step, x(i, t))
			}
		}
		return s.String()
	}
	var names []string
	for i, d := range ds {
		for t := range h {
			if ok(d, t) {
				names = append(names, x(i, t))
				fmt.Fprintf(&b, " + %s", x(i, t))
			}
		}
		b.WriteString(" = 1\n")
		fmt.Fprintf(&b, " m%s >= %d\n", start(i, "-"), d.length())
		if d.no > 0 {
			fmt.Fprintf(&b, "%s%s >= %d\n", start(i, "+"), start(i-1, "-"), ds[i-1].length()+d.air)
		}
	}
	limit := func(most int, use func(d dip) int, when func(d dip) []stretch) {
		for t := range h {
			n := 0
			for i, d := range ds {
				for _, w := range when(d) {
					for s := range h {
						if ok(d, s) && s*step+w.from <= t*step && t*step < s*step+w.to {
							fmt.Fprintf(&b, " + %d %s", use(d), x(i, s))
							n++
						}
					}
				}
			}
			if n > 0 {
				fmt.Fprintf(&b, " <= %d\n", most)
			}
		}
	}
	whole := func(d dip) []stretch { return []stretch{{0, d.length()}} }
	limit(in.capacity, func(d dip) int { return d.weight }, whole)
	if in.most > 0 {
		limit(in.most, func(dip) int { return 1 }, whole)
	}
	if in.hands > 0 {
		limit(in.hands, func(dip) int { return 1 }, dip.works)
	}
	if in.work > 0 { // as for gecode: y_d_r is 1 when dip d falls into stretch r, from f_r to e_r
		big := h*step + len(ds)*(in.work+in.rest)
		for r := range ds {
			fmt.Fprintf(&b, " e_%d - f_%d <= %d\n e_%d - f_%d >= 0\n", r, r, in.work, r, r)
			if r > 0 {
				fmt.Fprintf(&b, " f_%d - e_%d >= %d\n", r, r-1, in.rest)
			}
		}
		for i, d := range ds {
			for r := range ds {
				fmt.Fprintf(&b, "%s - f_%d - %d y_%d_%d >= %d\n", start(i, "+"), r, big, i, r, -big)
				fmt.Fprintf(&b, " e_%d %s - %d y_%d_%d >= %d\n", r, start(i, "-"), big, i, r, d.length()-big)
				names = append(names, fmt.Sprintf("y_%d_%d", i, r))
			}
			for r := range ds {
				fmt.Fprintf(&b, " + y_%d_%d", i, r)
			}
			b.WriteString(" = 1\n")
		}
	}
	b.WriteString("Binary\n")
	for _, n := range names {
		fmt.Fprintf(&b, " %s\n", n)
	}
	b.WriteString("End\n")
	file, answer := filepath.Join(dir, "day.lp"), filepath.Join(dir, "day.sol")
	if err := os.WriteFile(file, []byte(b.String()), 0o600); err != nil {
		return 0, false, err
	}
	if out, err := exec.Command("cbc", file, "sec", strconv.Itoa(seconds), "solve", "solu", answer).CombinedOutput(); err != nil {
		return 0, false, fmt.Errorf("%w: %s", err, out)
	}
	text, err := os.ReadFile(answer)
	if err != nil {
		return 0, false, err
	}
	first, _, _ := strings.Cut(string(text), "\n")
	if strings.Contains(first, "no integer") {
		return -1, false, nil // no plan within the time
	}
	at := strings.LastIndex(first, " ")
	v, err := strconv.ParseFloat(strings.TrimSpace(first[at:]), 64)
	if err != nil {
		return 0, false, err
	}
	return int(v + 0.5), strings.HasPrefix(first, "Optimal"), nil
}

// step is the greatest number of minutes of which all times of a day are multiples.
func (in instance) step() int {
	g := 0
	see := func(v int) {
		for v != 0 {
			g, v = v, g%v
		}
	}
	for _, p := range in.pieces {
		for _, v := range []int{p.dip, p.air, p.from, p.handling} {
			see(v)
		}
	}
	for _, b := range in.breaks {
		see(b.from)
		see(b.to)
	}
	return g
}
