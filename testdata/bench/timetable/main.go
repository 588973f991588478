// Timetable measures the planner of model/load: how near its plans and bounds are to the best known, how fair its turns
// are, what it does when the vat tires, and what its replans leave as they were. With -check it lets the tests' own checker
// look at random days.
package main

import (
	"flag"
	"fmt"
	"os"
)

func main() {
	what := flag.String("what", "", "only this figure: gap, fair, tires or replan")
	check := flag.Int("check", 0, "check so many random days instead")
	seed := flag.Int("seed", 19, "of the random days")
	flag.Parse()
	err := error(nil)
	if *check > 0 {
		err = checked(os.Stdout, *check, *seed)
	} else {
		err = measure(os.Stdout, *what)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
