package load_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/loadtest"
)

// table reads a file of testdata/load without its head line.
func table(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/load/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// number is a figure of the test data.
func number(t *testing.T, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

type givenDay struct {
	name   string
	pieces []load.Piece
	limits load.Limits
}

// givenDays are the days of instances.csv. Handling is by form: forms stand for its minutes.
func givenDays(t *testing.T) []givenDay {
	var out []givenDay
	for _, r := range table(t, "instances.csv") {
		if len(out) == 0 || out[len(out)-1].name != r[0] {
			l := load.Limits{Capacity: quantity.Grams(float64(number(t, r[1]))), Most: number(t, r[2]), Hands: number(t, r[3]),
				Handling: map[string]quantity.Span{load.Cloth: 0, load.Skein: minutes(1), load.Garment: minutes(2)}}
			for _, b := range strings.Fields(r[4]) {
				from, to, _ := strings.Cut(b, "-")
				l.Breaks = append(l.Breaks, load.Break{From: minutes(number(t, from)), To: minutes(number(t, to))})
			}
			l.Rest = load.Pause{After: minutes(number(t, r[5])), For: minutes(number(t, r[6]))}
			l.Plain = l.Most == 0 && len(l.Breaks) == 0
			out = append(out, givenDay{r[0], nil, l})
		}
		d := &out[len(out)-1]
		d.pieces = append(d.pieces, load.Piece{Tag: fmt.Sprint("P", len(d.pieces)), Dry: quantity.Grams(float64(number(t, r[7]))),
			Dips: number(t, r[8]), Dip: minutes(number(t, r[9])), Air: minutes(number(t, r[10])), From: minutes(number(t, r[11])),
			Form: []string{load.Cloth, load.Skein, load.Garment}[number(t, r[12])], Work: r[13]})
	}
	return out
}

// Two independent solvers, by two unlike models, proved the shortest finish of these days (testdata/bench/load). The plans
// end at the same minute.
func TestSolversFindTheSameFinish(t *testing.T) {
	proved, best := map[string]int{}, map[string]int{}
	for _, r := range table(t, "answers.csv") {
		n := number(t, r[2])
		if old, ok := proved[r[0]]; ok && r[3] == "true" && old != n {
			t.Fatalf("%s: the solvers disagree", r[0])
		}
		if r[3] == "true" {
			proved[r[0]] = n
		}
		if n > 0 && (best[r[0]] == 0 || n < best[r[0]]) {
			best[r[0]] = n
		}
	}
	same, shown := 0, 0
	for _, d := range givenDays(t) {
		p, err := load.Make(d.pieces, d.limits)
		if err != nil {
			t.Fatal(d.name, err)
		}
		if broken := loadtest.Check(d.pieces, d.limits, p); len(broken) > 0 {
			t.Errorf("%s: %v", d.name, broken)
		}
		at, known := proved[d.name]
		t.Logf("%-10s plan %v, bound %v, proven %v; solvers %d (proven %v)", d.name, p.Makespan, p.Bound, p.Proven, best[d.name], known)
		if p.Bound > minutes(best[d.name]) {
			t.Errorf("%s: the bound %v is above a plan of %d min", d.name, p.Bound, best[d.name])
		}
		if p.Proven {
			shown++
		}
		switch {
		case known && p.Makespan != minutes(at):
			t.Errorf("%s: the plan ends at %v and %d min is the shortest", d.name, p.Makespan, at)
		case known:
			same++
		case p.Makespan > minutes(best[d.name]):
			t.Errorf("%s: the plan ends at %v and a solver found %d min", d.name, p.Makespan, best[d.name])
		}
	}
	t.Logf("%d days end as the solvers proved; the plan proves %d by itself", same, shown)
	if same < 30 {
		t.Errorf("only %d days are compared", same)
	}
}
