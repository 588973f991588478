package main

import (
	"fmt"
	"strings"
	"time"
)

// signals end the program at random moments while acts wait for a slow disk: it must be gone within its time, with
// everything on disk or told, and the terminal as it was before.
func signals(b *bench) {
	ways := []string{byInt, byTerm, byHup, byQt, byCtrlC, byClosing}
	b.beside(3, len(ways), func(i int) string { return ways[i] + " while acts wait" }, func(r *row, i int) {
		way := ways[i]
		tries := 8
		if b.short {
			tries = 2
		}
		chance := b.rand(way)
		var moments []time.Duration
		for range tries {
			moments = append(moments, time.Duration(chance.IntN(400))*time.Millisecond)
		}
		n := 0
		for _, m := range moments {
			n++
			plain := n%2 == 0 && way != byCtrlC && way != byClosing
			b.trySignal(r, way, plain, m)
		}
	})
}

func (b *bench) trySignal(r *row, way string, plain bool, moment time.Duration) {
	h := b.home()
	h.open("soda-bin", "note", 2*time.Minute)
	var before []string
	if haveStrace() {
		before = append(traced("fsync:delay_enter=600000"), "-P", h.file())
	}
	s, err := b.sit(h, plain, before)
	if err != nil {
		r.bad("it cannot be started: %v", err)
		return
	}
	defer s.away()
	what := map[bool]string{true: "plain", false: "screens"}[plain]
	if !s.ready() {
		r.bad("%s: the day did not open: %s", what, plainly(lastLine(s.text())))
		return
	}
	for n := range 4 {
		s.act(fmt.Sprintf("mark-%d", n))
	}
	time.Sleep(moment)
	code, wrong := s.leave(way)
	if wrong != "" {
		r.bad("%s: %s", what, wrong)
	}
	if s.screens != nil && way != byClosing {
		if left := s.screens.Left(); len(left) > 0 {
			r.bad("%s: the terminal is left with %s", what, strings.Join(left, ", "))
		}
	}
	b.judge(r, h, s, code, what+", "+way)
}
