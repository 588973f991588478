package main

import (
	"fmt"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/water"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/longday"
)

// measure is something reckoned, at an amount of work, at ten times that and at a hundred times.
type measure struct {
	what string
	work string             // the least amount
	make func(n int) func() // with n times of it
}

// lived is a day with so many events, open.
func lived(n int) (day.Head, []day.Event, day.State) {
	soda, _ := recipes.Find("soda")
	head, events := longday.Head(soda), longday.Events(n)
	s, _ := day.Replay(head, events)
	return head, events, s
}

var measures = []measure{
	{"replay of a day", "64 events", func(n int) func() {
		head, events, _ := lived(64 * n)
		return func() { day.Replay(head, events) }
	}},
	{"a day's file read", "64 events", func(n int) func() {
		head, events, _ := lived(64 * n)
		text := written(head, events)
		return func() { book.Read("day.toml", text) }
	}},
	{"one event more: decided, applied, its block", "a day of 64 events", func(n int) func() {
		_, _, s := lived(64 * n)
		var room day.Room
		return func() {
			bodies := apart.Got(day.Decide(s, day.Record{Body: day.Note{Text: "green at the hem"}}, s.At))
			e := day.Event{Seq: len(s.Log) + 1, At: s.At, Body: bodies[0]}
			s = apart.Got(room.Apply(s, e))
			apart.Got(book.EncodeEvent(e))
		}
	}},
	{"the call", "a day of 64 events", func(n int) func() {
		_, _, s := lived(64 * n)
		return func() { day.CallOf(s, s.At) }
	}},
	{"outlook", "a day of 64 events", func(n int) func() {
		_, _, s := lived(64 * n)
		return func() { outlook.Of(s, s.At) }
	}},
	{"cooling, a point each 10 min", "1.2 h", func(n int) func() {
		v := apart.Got(vessel.Parse("frustum 36 cm 44 cm 62 cm", quantity.Metric))
		s := water.Standing{Vessel: v, Fill: 60, Air: water.Air{Temp: 20, Humidity: 0.6}, Lid: true}
		return func() { apart.Got(s.Forecast(50, quantity.Hours(1.2*float64(n)), quantity.Minutes(10))) }
	}},
}

func growth() {
	fmt.Printf("\n%-56s %12s %12s %12s\n", "processor time, µs", "work × 1", "× 10", "× 100")
	for _, m := range measures {
		var took [3]float64
		for i, n := range []int{1, 10, 100} {
			took[i] = spent(m.make(n))
		}
		fmt.Printf("%-56s %12.1f %12.1f %12.1f   %s, %s\n", m.what+", "+m.work, took[0], took[1], took[2], grows(took[1]/took[0]), grows(took[2]/took[1]))
	}
}

// grows is a factor by ten times the work, in words.
func grows(by float64) string {
	switch {
	case by < 1.5:
		return "flat"
	case by < 7:
		return fmt.Sprintf("less than linear %.1f", by)
	case by < 13:
		return fmt.Sprintf("linear %.1f", by)
	}
	return fmt.Sprintf("more than linear %.1f", by)
}

// spent is the processor time of one call, in µs: the least of three rounds, so that other work on the machine tells little.
func spent(f func()) float64 {
	f() // what is made at the first use is no part of it
	least := 0.0
	for round := range 3 {
		calls, begun := 0, apart.Processor()
		for calls == 0 || apart.Processor()-begun < 50*time.Millisecond {
			f()
			calls++
		}
		if us := float64((apart.Processor() - begun).Nanoseconds()) / 1000 / float64(calls); round == 0 || us < least {
			least = us
		}
	}
	return least
}
