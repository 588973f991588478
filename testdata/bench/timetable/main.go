// Timetable measures the planner of model/load: how near its plans and bounds are to the best known, how fair its turns
// are, what it does when the vat tires, and what its replans leave as they were. With -check it lets the tests' own checker
// look at random days, with -fresh it measures days that nothing was chosen by.
//
// The figures of the planner of before stand beside those of now: before.csv is what this program wrote with -raw over the
// model/load of commit 187172a. best.csv has the best last lift and the best bound that are known of each day of -what gap, by
// any of the planners and by searches of 40 times the usual steps.
package main

import (
	"flag"
	"fmt"
	"os"
)

func main() {
	what := flag.String("what", "", "only this measure: gap, fair, tires or replan")
	raw := flag.Bool("raw", false, "a line a day instead of the figures, as before.csv has it")
	effort := flag.Int("effort", 0, "steps of the search of each day of -what gap; 0: as usual")
	check := flag.Int("check", 0, "check so many random days instead")
	seed := flag.Int("seed", 19, "of the random days")
	rounds := flag.Int("fresh", 0, "so many rounds of fresh days of six and eight pieces and of replans instead, from round -seed on")
	flag.Parse()
	err := error(nil)
	if *rounds > 0 {
		err = tellFresh(os.Stdout, *seed, *rounds, *effort, *raw)
	} else if *check > 0 {
		err = checked(os.Stdout, *check, *seed)
	} else if *raw {
		err = measure(os.Stdout, *what, *effort)
	} else {
		err = tell(os.Stdout, *what, *effort)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
