package main

import (
	"fmt"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// What the first tenth of the hour and its end may differ by.
const (
	moreMemory  = 4.0 // MB
	moreThreads = 4
)

// hour keeps a program at a day with three times running, its help opened and left each half a minute, and prints by the tenth of the
// time what it has of memory, threads and processor. It is bad where memory or threads grow, or the help does not come.
func (t *setup) hour(s subject, long time.Duration) (bad bool) {
	h := t.home(words.Dipping)
	seat := h.sitAt(s.command(h), tty.Manner{Answers: tty.Xterm})
	defer seat.Kill()
	if !seat.day() {
		fmt.Println("the day does not open")
		return true
	}
	pid := seat.Cmd.Process.Pid
	begun, asked := time.Now(), 0
	fmt.Printf("%-10s %10s %10s %12s %8s\n", "after", "memory MB", "threads", "processor s", "helps")
	var firstMemory float64
	var firstThreads int64
	for tenth := 1; tenth <= 10; tenth++ {
		for end := begun.Add(long / 10 * time.Duration(tenth)); time.Now().Before(end); {
			time.Sleep(min(30*time.Second, time.Until(end)))
			seat.Type("?")
			came := seat.shows(patience, words.HelpFoot)
			seat.Type("x")
			if asked++; !came || !seat.shows(patience, words.DayName) {
				fmt.Println("the help does not come, or does not go")
				return true
			}
		}
		u, err := used(pid)
		if err != nil {
			fmt.Println(err)
			return true
		}
		status := fmt.Sprintf("/proc/%d/status", pid)
		memory, threads := float64(apart.Field(status, "VmRSS"))/1024, apart.Field(status, "Threads") // from KiB
		if tenth == 1 {
			firstMemory, firstThreads = memory, threads
		}
		fmt.Printf("%-10s %10.1f %10d %12.2f %8d\n", time.Since(begun).Round(time.Second), memory, threads, u.cpu.Seconds(), asked)
		if tenth == 10 && (memory > firstMemory+moreMemory || threads > firstThreads+moreThreads) {
			fmt.Printf("it grows: from %.1f to %.1f MB, from %d to %d threads\n", firstMemory, memory, firstThreads, threads)
			bad = true
		}
	}
	return bad
}
