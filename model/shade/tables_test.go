package shade_test

import (
	"flag"
	"fmt"
	"testing"

	"example.org/vatside/model/shade"
)

var tables = flag.Int("tables", 0, "print the tables of the study, of so many simulated vats a row")

// TestTables prints the study's tables; without the flag it is passed over. `go run ./testdata/bench/shade` calls it.
func TestTables(t *testing.T) {
	n := tables
	if *n == 0 {
		t.Skip("only with -tables")
	}
	v := shade.Possible("")
	plain := func(f Form, s Set) Case { return Case{Form: f, Set: s, Minutes: 5, Load: 5} }

	fmt.Printf("%d simulated vats a row; noise of a swatch and of a piece %.0f %%, drift between days %.0f %%\n", *n, 100*Noise, 100*Drift)
	fmt.Println("in:  outcomes within the 80 % range, of 100      wide: median of the range's high/low")
	fmt.Println("dE:  CIEDE2000 of the likely colour from the piece as read, median and 90 %; own: from what the vat gives")
	fmt.Println("right, ±1: dips advised against the right number, of 100; held: the right number within the answer's 80 %")
	table(v, *n, "1. Vats of the same form, swatches of the same day, a piece of 5 g a litre in dips of 5 min",
		plain(Same, None), plain(Same, Single), plain(Same, Three), plain(Same, Four),
		plain(Same, Six))
	table(v, *n, "2. The same, older swatches",
		plain(Same, Yesterday), plain(Same, Week), plain(Same, WeekAndOne))
	long := plain(Same, Three)
	long.Minutes, long.Set.Name = 10, "3, piece of 10 min"
	short := plain(Same, Three)
	short.Minutes, short.Set.Name = 2, "3, piece of 2 min"
	heavy := plain(Same, Three)
	heavy.Load, heavy.Set.Name = 30, "3, piece of 30 g/L"
	table(v, *n, "3. The same, a piece that is not dipped like its swatches: 10 min, 2 min, 30 g a litre", long, short, heavy)
	for i, f := range []Form{Saturating, TwoStage} {
		table(v, *n, fmt.Sprintf("%d. The truth has another form: %s", 4+i, f),
			plain(f, Single), plain(f, Three), plain(f, Four), plain(f, Six))
	}
}

// table prints cases, a line for each band of dips.
func table(v *shade.Vats, n int, title string, cases ...Case) {
	fmt.Printf("\n%s\n\n%-24s %-6s %5s %5s %6s %6s %6s %6s %6s %5s %5s %8s\n", title,
		"swatches", "dips", "in", "wide", "dE 50", "dE 90", "own 50", "own 90", "right", "±1", "held", "widened")
	var all []Result
	for i, c := range cases {
		r := Run(v, c, n, uint64(100+i), 16)
		all = append(all, r)
		for k, dips := range [][2]int{{1, 4}, {5, 8}, {1, 8}, {9, 12}, {13, 16}} {
			cell := r.Joined(dips[0], dips[1])
			name, widened := "", ""
			if k == 0 {
				name, widened = c.Set.Name, fmt.Sprint(r.Widened)
			}
			fmt.Printf("%-24s %-6s %5.0f %5.2f %6.1f %6.1f %6.1f %6.1f", name, fmt.Sprintf("%d–%d", dips[0], dips[1]), cell.Coverage(),
				Part(cell.Wide, 0.5), Part(cell.Off, 0.5), Part(cell.Off, 0.9), Part(cell.Own, 0.5), Part(cell.Own, 0.9))
			if len(cell.Number) > 0 {
				fmt.Printf(" %6.0f %5.0f %5.0f", cell.Near(0), cell.Near(1), cell.Answered())
			} else {
				fmt.Printf(" %6s %5s %5s", "", "", "")
			}
			fmt.Printf(" %8s\n", widened)
		}
	}
	fmt.Printf("\n%-24s", "chance of a depth name, said → came, of 100 (in how many forecasts)")
	for i, c := range cases {
		r := all[i]
		cell := r.Joined(1, 16)
		fmt.Printf("\n%-24s", c.Set.Name)
		for k, n := range cell.Times {
			if n > 0 && k > 0 {
				fmt.Printf(" %2.0f→%2.0f(%d)", 100*cell.Said[k]/float64(n), 100*cell.Came[k]/float64(n), n)
			}
		}
	}
	fmt.Println()
}
