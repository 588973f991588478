// Command load has independent solvers look for the shortest finish of small days: a constraint model for MiniZinc
// (Gecode) and a time-indexed integer programme for CBC. It shares nothing with the planner in model/load. It writes
// testdata/load/instances.csv and testdata/load/answers.csv, which the planner's tests read.
//
//	apt-get install minizinc coinor-cbc
//	go run ./testdata/bench/load [-seconds 60] [-only NAME]
//
// The answers that are kept were made with -seconds 10. A makespan of -1 says that the solver found no plan in that time, and proven that
// it looked through all. Times are whole minutes. A day's dips are lowered for handling minutes, in for dip minutes, lifted for handling
// minutes.
//
// What they say, beside the plans of model/load:
//
//	days                                   proven by a solver   the same last lift
//	the two given (80 and 130 min)         2                    2
//	20 with weight alone                   18                   18
//	16 with hands, hung, moved, handling   16                   16
//	12 with breaks, at most so many, late  12                   12
//	8 with rests                           7                    7
//
// On the other three the plan equals the solvers' best. An exhaustive search of 2,000 tiny days found nothing sooner, and the
// checker (testdata/loadtest) no broken limit in 30,000 random days and 30,000 chains of replans. The days of 24
// pieces of 8 dips in testdata/bench/timetable are planned to a gap of 4 to 14 % of the bound.
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

	"example.org/vatside/testdata/bench/internal/apart"
)

func main() {
	seconds := flag.Int("seconds", 60, "at most so long for a solver and a day")
	only := flag.String("only", "", "one day")
	flag.Parse()
	apart.Run("load", func() bool {
		solve(*seconds, *only)
		return false
	})
}

func solve(seconds int, only string) {
	dir, done := apart.Folder("vatside-load-", os.RemoveAll)
	defer done()
	all := instances()
	if only == "" {
		writeInstances(all)
	}
	answers := [][]string{{"instance", "solver", "makespan", "proven"}}
	for _, in := range all {
		if only != "" && in.name != only {
			continue
		}
		for _, s := range []struct {
			name string
			run  func(instance, string, int) (int, bool)
		}{{"gecode", gecode}, {"cbc", cbc}} {
			begun := time.Now()
			at, proven := s.run(in, dir, seconds)
			fmt.Printf("%-10s %-7s %4d min  proven %-5v  %6.1f s\n", in.name, s.name, at, proven, time.Since(begun).Seconds())
			answers = append(answers, []string{in.name, s.name, strconv.Itoa(at), strconv.FormatBool(proven)})
		}
	}
	if only == "" {
		write("answers.csv", answers)
	}
}

func write(name string, rows [][]string) {
	f := apart.Got(os.Create(filepath.Join("testdata", "load", name)))
	defer f.Close()
	apart.Must(csv.NewWriter(f).WriteAll(rows))
}

// gecode asks MiniZinc.
func gecode(in instance, dir string, seconds int) (at int, proven bool) {
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
	apart.Write(file, []byte(b.String()))
	out := apart.Got(apart.Said(exec.Command("minizinc", "--solver", "gecode", "--time-limit", strconv.Itoa(seconds*1000), file)))
	at = -1
	for l := range strings.SplitSeq(out, "\n") {
		if v, ok := strings.CutPrefix(l, "last "); ok {
			at = apart.Got(strconv.Atoi(v))
		}
	}
	return at, strings.Contains(out, "==========")
}

// cbc asks CBC: x_d_t is 1 when dip d is lowered at t.
func cbc(in instance, dir string, seconds int) (at int, proven bool) {
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
	apart.Write(file, []byte(b.String()))
	apart.Got(apart.Said(exec.Command("cbc", file, "sec", strconv.Itoa(seconds), "solve", "solu", answer)))
	first, _, _ := strings.Cut(string(apart.Got(os.ReadFile(answer))), "\n")
	if strings.Contains(first, "no integer") {
		return -1, false // no plan within the time
	}
	figure := strings.TrimSpace(first[strings.LastIndex(first, " "):])
	return int(apart.Got(strconv.ParseFloat(figure, 64)) + 0.5), strings.HasPrefix(first, "Optimal")
}
