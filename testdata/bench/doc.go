// Package bench holds no code: in the folders below it are the programs that measure vatside, try to break it and take its pictures.
// internal/apart keeps a bench's folders, homes, environment and builds apart from the person's own; internal/tty is the person at a terminal.
//
// # Budgets
//
// What is held to a budget, as last measured on a Linux machine of two cores with other work on it. A budget is a benchmark and
// never a timed test.
//
//	go run ./testdata/bench/terminal -cost
//	  start to the first frame, empty home          5.5 ms (4.0 to 6.9, 30 runs), silent terminal 5.8; at most 8
//	                                                (a bare Go loop 1.4, bubbletea's own renderer 19.4)
//	  start to the call of an open day              8.0 and 12.3 ms (two runs, 6.7 to 19.9), silent 9.3 and 7.8; at most 8
//	  start to the whole of an open day             15 and 23 ms, silent 25 and 21; at most 25
//	  key to paint, 200 keys                        help 0.76 ms, 99th part 1.5; in the log 1.2 to 1.7, 3.0; at most 1 and 4
//	                                                (help in the program itself: 0.23 ms of processor, 0.45 before, in the same run)
//	  a running countdown, 60 s, machine busy       6.3 wake-ups/s, 1.34 CPU-s/h, 168 B/s, 24 MB; at most 1.3 times a bare loop's
//	                                                (4.9/s, 0.49 CPU-s/h), 1.5 CPU-s/h, 500 B/s, 30 MB
//	  three countdowns                              4.5 wake-ups/s, 1.28 CPU-s/h, 186 B/s; the same
//	  nothing running, 60 s                         a wake-up in 12 to 15 s, 0.08 to 0.20 CPU-s/h; at most one in 10 s
//	go run ./testdata/bench/budgets -n 3
//	  the program, stripped                         14.8 MB; at most 15
//	  on 20 vats, 1,000 days, 100,000 events        with the index, processor time, busy machine, its bare start 3.5 ms: now 21 ms, one history 11,
//	                                                care 61 (44 with less other work, 150 before), like 62 (40), book verify 100, book --json 1,360; at
//	                                                most 40, 40, 150, 50, 1,000 ms. Without one: 82, 70, 1,900, 4,200, 1,350, 2,970 ms; 15 to 27 MB, at
//	                                                most 30
//	  ten times the events, from 10,000             now × 2.6, history × 1.6, care × 2.6, like × 3.2, verify × 5.6, book --json × 11
//	  one vat of 80,000 events                      with the index, and without: now 17 and 44 ms, its history 108 and 966, care 33 and 1,180, like 44
//	                                                and 4,120, verify 81 and 954; 15 to 26 MB, like without one 31 to 36; at most 30. In one day: 34 to
//	                                                70 MB with, 100 to 130 without
//	  files that a start opens                      1, the zone's, by a bare start; 5 by the screens of an empty home
//	  ten hours through engine and screens          1.5 to 1.7 s of processor, very busy machine (3.0 to 3.4 before, in the same run), a third of it the timetable; at most 2
//	go run ./testdata/bench/budgets -growth
//	  at 1, 10 and 100 times the work               replay, a day's file, an event more, the call, outlook and cooling, flat or linear with the factor
//	go run ./testdata/bench/terminal -hour
//	  a real hour at a pseudo-terminal
//	go test -run xxx -bench 'Event|BareSync' ./ui/engine
//	  an act from the key to the disk               0.22 to 0.32 ms, after 6,400 events 0.37 to 0.46, the bare fsync 0.12 to 0.31; at most
//	                                                fsync + 0.3 ms
//	go test -run xxx -bench Tick ./ui/engine
//	  a tick on a day of 6,400 events               0.014 ms; at most 1
//	go test -run xxx -bench Second -benchmem ./ui
//	  a second of a countdown, caches warm:         0.034 ms of processor while it waits, 0.044 with dips, 0.072 while a piece airs;
//	  title, snapshot, frame                        93, 144, 200 allocations; at most 115, 175, 240 (TestASecondIsLittleWork)
//	go test -run xxx -bench Home ./ui
//	  home of 20 vats, 1,000 days, 100,000 events   its list 17 to 20 ms; what the vats want, beside it, 0.13 s, again 17 ms; one
//	                                                vat's history 34 ms; at most 100 ms to the first screen
//	go test -run xxx -bench Start ./ui
//	  a glance at a home with a day of 240 events   1.4 ms; the whole home 2.4 ms
//	go test -run xxx -bench PH ./model/liquor
//	  a solve of pH, soda to everything at once     1.2, with spent reducer 1.5, lime 1.4, all 1.7 µs; at most 2
//	go test -run xxx -bench Forecast ./model/water
//	  cooling over 12 h, open, lidded, wrapped      0.04, 0.08, 0.07 ms; at most 0.1
//	go test -run xxx -bench . ./model/shade
//	  dips to a depth of about 16, 4,096 vats       0.8 ms of processor; at most 1.5
//	  weights after 6 looks                         0.93 ms, the least of some thousand runs (1.15 before, in the same run); at most 1
//	vatside dips, from the start to its end         21 ms of processor (27 before, in the same run), 3.7 MB allocated; at most 25
//	go test -run xxx -bench . ./model/load
//	  24 pieces of 8 dips, eight kinds of limits    52 to 116 ms, at most 200; a replan 31 to 63, at most 100
//	go test -run xxx -bench Day ./model/book
//	  a day of 82, 117, 249 events, text to call    0.65, 0.8, 1.3 ms; at most 2 for 100 events
//	go test -run xxx -bench Replay ./model/day
//	  replay of 6,400 events, of 64,000             1.0 ms, at most 15; 14 ms, linear
//	go test -run xxx -bench Of ./model/outlook
//	  outlook of a day of 12 dips                   0.32 ms; at most 0.4
//	go test -run xxx -bench LongDay ./model/outlook
//	  outlook of a day of 6,400 events              40 ms, beside the engine
//	/proc/PID/task/*/status, beside a bare loop's 7.5 wake-ups/s and 0.66 CPU-s/h
//	  --plain with a running time, 10 min           8.2 wake-ups/s, 1.07 CPU-s/h; at most 1.3 times, 1.5 CPU-s/h
//	  a rehearsal at speed 1, busiest, --plain      5.2 wake-ups/s, 2.8 CPU-s/h, most of it the advice after each event; the same
//	/usr/bin/time -v vatside rehearse
//	  memory, a workshop of two vats in a terminal  35 MB (a day of three pieces without forecasts 17); at most 40
package bench
