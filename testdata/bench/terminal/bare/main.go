// Command bare is the least that a countdown on a terminal costs in Go: it prints a line each second.
package main

import (
	"fmt"
	"time"
)

func main() {
	left := 15 * time.Minute
	fmt.Println("left", left)
	for range time.Tick(time.Second) {
		left -= time.Second
		fmt.Println("left", left)
	}
}
