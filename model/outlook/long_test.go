package outlook_test

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/testdata/longday"
)

// BenchmarkLongDay is what a live day of 6,400 events asks beside the loop, at each event and each minute.
func BenchmarkLongDay(b *testing.B) {
	s, errs := day.Replay(longday.Head(built(b, "soda")), longday.Events(6400))
	if len(errs) > 0 {
		b.Fatal(errs[0])
	}
	now := s.At.Add(time.Minute)
	o := outlook.Of(s, now)
	blue := outlook.Blues(s, o, now)
	for name, ask := range map[string]func(){
		"Of":        func() { outlook.Of(s, now) },
		"Blues":     func() { outlook.Blues(s, o, now) },
		"Timetable": func() { outlook.Timetable(s, o, blue, load.Plan{}, now, 1000) },
		"Carry":     func() { outlook.Carry(s) },
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				ask()
			}
		})
	}
}
