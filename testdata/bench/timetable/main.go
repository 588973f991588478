// Timetable measures the planner of model/load: how near its plans and bounds are to the best known, how fair its turns
// are, what it does when the vat tires, and what its replans leave as they were. Random days are looked at by the checker of the tests:
// go test ./model/load -run Breaks -rapid.checks=30000.
//
// The figures of the planner of before stand beside those of now: before.csv is what this program wrote with -raw over the
// model/load of commit 187172a. best.csv has the best last lift and the best bound that are known of each day of -what gap, by
// any of the planners and by searches of 40 times the usual steps.
package main

import (
	"flag"
	"os"

	"example.org/vatside/testdata/bench/internal/apart"
)

func main() {
	what := flag.String("what", "", "only this measure: gap, fair, tires or replan")
	raw := flag.Bool("raw", false, "a line a day instead of the figures, as before.csv has it")
	effort := flag.Int("effort", 0, "steps of the search of each day of -what gap; 0: as usual")
	flag.Parse()
	apart.Run("timetable", func() bool {
		if *raw {
			measure(os.Stdout, *what, *effort)
		} else {
			tell(os.Stdout, *what, *effort)
		}
		return false
	})
}
