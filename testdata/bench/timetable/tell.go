package main

import (
	_ "embed"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.org/vatside/model/wording"
)

//go:embed before.csv
var before string

//go:embed best.csv
var best string

// line is a line of measure: its name, then its figures.
type line struct {
	name string
	f    []float64
}

// linesOf are the lines of a measure.
func linesOf(text, what string) (out []line) {
	for l := range strings.Lines(text) {
		fields := strings.Split(strings.TrimSpace(l), ";")
		if fields[0] != what {
			continue
		}
		x := line{name: fields[1]}
		for _, s := range fields[2:] {
			v, _ := strconv.ParseFloat(s, 64) // both texts are this program's
			x.f = append(x.f, v)
		}
		out = append(out, x)
	}
	return out
}

// column is the sum and the mean of a column.
func column(ls []line, n int) (sum, mean float64) {
	sum = wording.Sum(ls, func(l line) float64 { return l.f[n] })
	return sum, sum / float64(max(1, len(ls)))
}

// figure is a figure with what it is to be.
type figure struct {
	name, goal string
	value      float64
}

// figuresOf are the figures of a text of measure.
func figuresOf(text string) (out []figure) {
	add := func(name, goal string, value float64) { out = append(out, figure{name, goal, value}) }
	if ls := linesOf(text, "gap"); len(ls) > 0 {
		known := map[string][]float64{}
		for _, l := range linesOf(best, "best") {
			known[l.name] = l.f
		}
		var above, large, cpu, longest, shown, true3, truth float64
		var six, eight [2]float64
		for _, l := range ls {
			name, last, bound := l.name, l.f[0], l.f[1]
			lift, low := last, 0.0
			if k := known[name]; k != nil {
				lift, low = k[0], k[1]
			}
			over := 100 * (last - lift) / lift
			above += over / float64(len(ls))
			shown = max(shown, 100*(last-bound)/bound)
			if strings.HasSuffix(name, "24×8") {
				large, cpu = large+over/8, max(cpu, l.f[2])
			}
			if lift == low { // the shortest is known
				truth++
				if last-bound <= last-lift+0.03*last {
					true3++
				}
			}
			for size, n := range map[string]*[2]float64{" 6×": &six, " 8×": &eight} {
				if strings.Contains(name, size) {
					n[0]++
					if last == bound {
						n[1]++
					}
					longest = max(longest, l.f[2])
				}
			}
		}
		add("64 days: last lift above the best known, mean, %", "", above)
		add("24×8: last lift above the best known, mean, %", "≤ 1", large)
		add("24×8: processor time, most, ms", "≤ 50", cpu)
		add("the gap that is shown, most, % of the bound", "", shown)
		add(fmt.Sprintf("%.0f days whose shortest is known: gap shown ≤ true + 3 %% of the day, %%", truth), "≥ 90", 100*true3/max(1, truth))
		add("six pieces proven, %", "≥ 90", 100*six[1]/max(1, six[0]))
		add("six or eight pieces: processor time, most, ms", "≤ 200", longest)
		add("eight pieces proven, %", "≥ 50", 100*eight[1]/max(1, eight[0]))
	}
	if ls := linesOf(text, "fair"); len(ls) > 0 {
		for n, name := range []string{"everybody's first dip by, min", "longest single wait, min", "least waits in all, min", "most waits in all, min", "spread of the share of own dips, %"} {
			_, mean := column(ls, n)
			if n == 4 {
				mean *= 100
			}
			add("12 classes: "+name, "", mean)
		}
		_, mean := column(ls, 5)
		add("12 classes: last lift, min", "", mean)
	}
	if ls := linesOf(text, "tires"); len(ls) > 0 {
		long, worst := 0, 0.0
		for _, l := range ls {
			worst = max(worst, l.f[0]-l.f[1])
			if l.f[0]-l.f[1] > 30 {
				long++
			}
		}
		weak, _ := column(ls, 2)
		add("40 tiring days: more than 30 min over the shortest, days", "0", float64(long))
		add("40 tiring days: most over the shortest, min", "", worst)
		add("40 tiring days: weak dips", "", weak)
	}
	if ls := linesOf(text, "replan"); len(ls) > 0 {
		all, _ := column(ls, 0)
		changed, _ := column(ls, 1)
		places, _ := column(ls, 2)
		_, shift := column(ls, 3)
		_, last := column(ls, 5)
		add(fmt.Sprintf("%.0f replans: change one of the next two calls, %%", all), "≤ 5", 100*changed/all)
		add("dips that change places, a replan", "", places/all)
		add("mean shift of a dip, min", "", shift)
		add("last lift of the days as they went, min", "no later", last)
	}
	return out
}

// tell writes the figures of before and of now beside one another, with what they are to be.
func tell(w io.Writer, what string, effort int) {
	var now strings.Builder
	measure(&now, what, effort)
	was := figuresOf(before)
	fmt.Fprintf(w, "%-78s %9s %9s   %s\n", "", "before", "now", "to be")
	for _, f := range figuresOf(now.String()) {
		old := "?"
		for _, o := range was {
			if o.name == f.name {
				old = fmt.Sprintf("%.2f", o.value)
			}
		}
		fmt.Fprintf(w, "%-78s %9s %9.2f   %s\n", f.name, old, f.value, f.goal)
	}
}

// tellFresh writes the figures of fresh days, which have no best that is known: a line a day with raw.
func tellFresh(w io.Writer, what string, from, rounds, effort int, raw bool) {
	var now strings.Builder
	fresh(&now, what, from, rounds, effort)
	if raw {
		fmt.Fprint(w, now.String())
		return
	}
	for _, f := range figuresOf(now.String()) {
		if strings.Contains(f.name, "pieces") || strings.Contains(f.name, "replan") || strings.Contains(f.name, "as they went") {
			fmt.Fprintf(w, "%-78s %9.2f   %s\n", f.name, f.value, f.goal)
		}
	}
}
