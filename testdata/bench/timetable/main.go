package main

import (
	"flag"
	"fmt"
	"os"
)

func main() {
	what := flag.String("what", "", "")
	flag.Parse()
	if err := measure(os.Stdout, *what); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
