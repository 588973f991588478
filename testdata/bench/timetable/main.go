package main

import (
	"flag"
	"fmt"
	"syscall"
	"time"

	"example.org/vatside/model/load"
)

func cpu() time.Duration {
	var r syscall.Rusage
	syscall.Getrusage(0, &r)
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

func main() {
	effort := flag.Int("effort", 0, "")
	only := flag.Int("only", -1, "")
	flag.Parse()
	for n, d := range days() {
		if *only >= 0 && n%8 < *only {
			continue
		}
		l := d.limits
		l.Effort = *effort
		t := cpu()
		p, err := load.Make(d.pieces, l)
		if err != nil {
			panic(err)
		}
		fmt.Printf("%s;%.2f;%.2f;%.0f\n", d.name, p.Makespan.Minutes(), p.Bound.Minutes(), float64((cpu()-t).Microseconds())/1000)
	}
}
