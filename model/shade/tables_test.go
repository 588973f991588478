package shade_test

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.org/vatside/model/shade"
)

var tables = flag.Int("tables", 0, "print the tables of the study, of so many simulated vats a row")

// Seeds of the tables: none of them was used while the priors were chosen.
const judged = 910000

// TestTables prints the study's tables (testdata/tables.txt has them); without the flag it is passed over:
//
//	go test ./model/shade -run Tables -v -timeout 0 -args -tables=1000
func TestTables(t *testing.T) {
	n := *tables
	if n == 0 {
		t.Skip("only with -tables")
	}
	v := shade.Possible("")
	fmt.Printf("%d simulated vats a row; noise of a swatch and of a piece %.0f %%, drift between days %.0f %%\n", n, 100*Noise, 100*Drift)
	fmt.Println("in:   outcomes within the 80 % range, of 100, after 1 to 8 and 9 to 16 dips")
	fmt.Println("dE:   CIEDE2000 of the likely colour from the piece as read, 1 to 8 dips, median and 90 %")
	fmt.Println("±1:   dips advised right or one off, of 100, for wishes that need up to 8; said: as the answers themselves say, on the average;")
	fmt.Println("      best: of an answer that knows the vat's form, how often which of its vats comes, and the noise (of 300 vats);")
	fmt.Println("      seen: of those wishes for which a dip less and a dip more are seen apart (CIEDE2000 of 1);")
	fmt.Println("      held: the right number within the answer's 80 %")
	seed := uint64(judged)
	row := func(name string, c Case) {
		seed++
		r := Run(v, c, n, seed, 16)
		if len(c.Set.Today) > 2 && c.Load == 5 && c.Minutes == 5 && len(c.Set.Old) == 0 {
			c.Oracle = newOracle(c.Form, 1500, seed)
			best := Run(v, c, min(n, 300), seed, 8)
			for i := range r.Cells {
				r.Cells[i].Best = best.Cells[i].Best
			}
		}
		a, b := r.Joined(1, 8), r.Joined(9, 16)
		fmt.Printf("%-24s %-22s %4.0f %4.0f  %4.1f / %4.1f", name, c.Set.Name, a.Coverage(), b.Coverage(), Part(a.Off, 0.5), Part(a.Off, 0.9))
		if len(a.Number) > 0 {
			fmt.Printf("  %4.0f %4.0f", a.Near(1), 100*a.Trust/float64(len(a.Number)))
			if len(a.Best) > 0 {
				fmt.Printf(" %4.0f", a.NearBest(1))
			} else {
				fmt.Printf(" %4s", "")
			}
			fmt.Printf(" %4.0f  %4.0f", a.NearPlain(1), a.Answered())
		}
		fmt.Println()
	}
	for _, part := range []struct {
		title string
		forms []Form
	}{
		{"Forms that the model has", Contained},
		{"Forms that it has not, looked at while its priors were chosen", Chosen},
		{"Forms that it has not, used only to judge", Judging},
	} {
		fmt.Printf("\n%s\n%-24s %-22s %4s %4s  %11s  %4s %4s %4s %4s  %4s\n", part.title, "truth", "swatches", "in", "-16", "dE", "±1", "said", "best", "seen", "held")
		for _, f := range part.forms {
			for _, s := range []Set{None, Single, Three, Four} {
				row(f.String(), Case{Form: f, Set: s, Minutes: 5, Load: 5})
			}
		}
	}
	fmt.Println("\nOlder swatches, and a piece that is not dipped like them (power)")
	for _, s := range []Set{Six, Yesterday, Week, WeekAndOne} {
		row(Power.String(), Case{Set: s, Minutes: 5, Load: 5})
	}
	for _, c := range []Case{{Minutes: 10, Load: 5}, {Minutes: 2, Load: 5}, {Minutes: 5, Load: 30}} {
		c.Set = Three
		c.Set.Name = fmt.Sprintf("3, piece %.0f min %.0f g/L", c.Minutes, c.Load)
		row(Power.String(), c)
	}
	fmt.Println("\nChance of a depth's name, said → came, of 100 (in how many forecasts), all forms, 3 swatches")
	var all Cell
	for _, f := range slices.Concat(Contained, Judging) {
		seed++
		all.add(Run(v, Case{Form: f, Set: Three, Minutes: 5, Load: 5}, max(1, n/10), seed, 16).Joined(1, 16))
	}
	for k, times := range all.Times {
		if times > 0 && k > 0 {
			fmt.Printf(" %2.0f→%2.0f(%d)", 100*all.Said[k]/float64(times), 100*all.Came[k]/float64(times), times)
		}
	}
	fmt.Print("\n\n", priorsTable())
}

// priorsTable is what is believed before a swatch, as a chemist reads it: each form with its share, each figure with its 10, 50 and 90 % and
// where it comes from.
func priorsTable() string {
	var b strings.Builder
	row := func(p shade.Prior) {
		if p.Name != "" {
			fmt.Fprintf(&b, "  %-42s %6.4g %6.4g %6.4g  %-14s %s\n", p.Name, p.Low, p.Likely, p.High, p.Unit, p.Evidence)
		}
	}
	fmt.Fprintf(&b, "What is believed before a swatch: 10, 50 and 90 %% of vats. M from memory, C common practice, S a source by its number\n")
	for _, f := range shade.Forms() {
		fmt.Fprintf(&b, "%.0f %% %s: %s, n dips against one. %s\n", 100*f.Share, f.Name, f.Curve, f.Evidence)
		row(f.First)
		row(f.Second)
	}
	fmt.Fprintf(&b, "all of them\n")
	for _, p := range shade.Priors() {
		row(p)
	}
	return b.String()
}

// Every prior stands in the table, with where it comes from.
func TestThePriorsAreATable(t *testing.T) {
	text := priorsTable()
	for name, p := range specs() {
		if name != "" && (!strings.Contains(text, name) || p.Evidence == "" || !strings.Contains(text, p.Evidence)) {
			t.Errorf("%s is missing", name)
		}
	}
	for _, f := range shade.Forms() {
		if !strings.Contains(text, f.Name+": "+f.Curve) || !strings.Contains(text, f.Evidence) {
			t.Errorf("%s is missing", f.Name)
		}
	}
}
