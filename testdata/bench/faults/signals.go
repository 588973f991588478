package main

import (
	"fmt"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
)

// signals end the program at random moments while acts wait for a slow disk: it must be gone within its time, with
// everything on disk or told, and the terminal as it was before.
func signals(b *bench) {
	ways := []string{byInt, byTerm, byHup, byQt, byCtrlC, byClosing}
	beside(b, 3, ways, func(way string) string { return way + " while acts wait" }, func(r *row, way string) {
		tries := wording.Either(b.short, 2, 8)
		chance := b.rand(way)
		for n := range tries {
			plain := n%2 == 1 && way != byCtrlC && way != byClosing
			moment := time.Duration(chance.IntN(400)) * time.Millisecond
			apart.Try(func() { b.trySignal(r, way, plain, moment) })
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
	s := b.sit(r, h, plain, before)
	defer s.Kill()
	s.opens(r)
	what := s.kind()
	for n := range 4 {
		s.act(fmt.Sprintf("mark-%d", n))
	}
	time.Sleep(moment)
	code := s.leave(r, way, what)
	if way != byClosing {
		r.remains(s, what)
	}
	b.judge(r, h, s, code, what+", "+way)
}
