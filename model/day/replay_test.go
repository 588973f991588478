package day_test

import (
	"fmt"
	"math"
	"reflect"
	"runtime"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/longday"
)

// BenchmarkReplay is a day from its events. Budget: 15 ms for 6,400; ten times as many take ten times as long.
func BenchmarkReplay(b *testing.B) {
	h := longday.Head(built(b, "soda"))
	for _, n := range []int{640, 6400, 64000} {
		events := longday.Events(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if s, errs := day.Replay(h, events); len(errs) > 0 || len(s.Log) != n {
					b.Fatalf("%d faults, the first: %v", len(errs), errs[:min(len(errs), 1)])
				}
			}
		})
	}
}

// BenchmarkLongDay is what a live day of 6,400 events asks each second, and at one more event.
func BenchmarkLongDay(b *testing.B) {
	s, errs := day.Replay(longday.Head(built(b, "soda")), longday.Events(6400))
	if len(errs) > 0 {
		b.Fatalf("%d faults, the first: %v", len(errs), errs[:min(len(errs), 1)])
	}
	now := s.At.Add(time.Minute)
	note := day.Event{Seq: s.Seq + 1, At: now, Body: day.Note{Text: "the film comes back"}}
	undone := day.Event{Seq: s.Seq + 1, At: now, Body: day.Corrected{Of: s.Seq, Way: "undone"}}
	for name, ask := range map[string]func(){
		"Assume":    func() { day.Assume(s, now, now, nil) },
		"Dues":      func() { day.Dues(s) },
		"Next":      func() { day.Next(s, now) },
		"NowLine":   func() { day.NowLine(s, now) },
		"Upcoming":  func() { day.Upcoming(s, now) },
		"Corrected": func() { s.Corrected() },
		"Apply":     func() { _, _ = day.Apply(s, note) },
		"Undone":    func() { _, _ = day.Apply(s, undone) },
		"Undo":      func() { _, _ = day.Decide(s, day.Undo{Seq: s.Seq}, now) },
		"Back":      func() { _, _ = day.Decide(s, day.Back{}, now) },
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				ask()
			}
		})
	}
}

// Ten times as many events take ten times the memory, and so the time; not a hundred times, as if each copied the day so far.
func TestReplayIsLinear(t *testing.T) {
	h := longday.Head(built(t, "soda"))
	taken := func(n int) float64 {
		events := longday.Events(n)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, errs := day.Replay(h, events)
		runtime.ReadMemStats(&after)
		if len(errs) > 0 {
			t.Fatal(errs[0])
		}
		return float64(after.TotalAlloc - before.TotalAlloc)
	}
	if few, many := taken(640), taken(6400); many > 15*few {
		t.Errorf("640 events take %.0f bytes, and 6,400 take %.0f", few, many)
	}
	s, _ := day.Replay(h, longday.Events(6400))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, _ = day.Apply(s, day.Event{Seq: s.Seq + 1, At: s.At, Body: day.Corrected{Of: s.Seq, Way: "undone"}})
	runtime.ReadMemStats(&after)
	if got, few := float64(after.TotalAlloc-before.TotalAlloc), taken(640); got > 30*few {
		t.Errorf("a correction on a day of 6,400 events takes %.0f bytes", got)
	}
	var room day.Room
	for i := range 11 {
		if i == 1 { // at the first the log was copied
			runtime.ReadMemStats(&before)
		}
		s, _ = room.Apply(s, day.Event{Seq: s.Seq + 1, At: s.At, Body: day.Note{Text: "the film comes back"}})
	}
	runtime.ReadMemStats(&after)
	if got := (after.TotalAlloc - before.TotalAlloc) / 10; got > 100_000 { // the log alone has more than 500,000, the pieces' dips as many as the pieces
		t.Errorf("an event more on a day of 6,400 takes %d bytes", got)
	}
}

// A state is a value: what comes after it, once or twice, changes neither it nor what came after it the other time. With advice too,
// which stands in no book: what is called by it stays called, so that a state with it is made from its events and the advice at its
// place among them.
func TestBranchesShareNothing(t *testing.T) {
	hs := heads(t)
	rapid.Check(t, func(t *rapid.T) {
		d := drive(t, hs, drawn().Draw(t, "data"))
		n := rapid.IntRange(1, len(d.events)).Draw(t, "branches at")
		stem := d.events[:n:n]
		for range rapid.IntRange(0, 6).Draw(t, "dips") { // so that there is much to share
			for _, b := range []day.Body{day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}}, day.DipBegun{OfPiece: day.OfPiece{Tag: "A1"}}, day.DipEnded{OfPiece: day.OfPiece{Tag: "A1"}}, day.LeftOut{OfPiece: day.OfPiece{Tag: "A1"}, What: "rinse"}} {
				stem = append(stem, day.Event{Seq: len(stem) + 1, At: d.now, Body: b})
			}
		}
		s, _ := day.Begin(d.head)
		var room day.Room
		for _, e := range stem {
			s, _ = room.Apply(s, e)
		}
		advised := rapid.Bool().Draw(t, "advised")
		advise := func(s day.State) day.State {
			if !advised {
				return s
			}
			return s.Advised([]string{"C2", "A1"}, [][]string{{"C2", "A1"}}, s.At)
		}
		s = advise(s)
		twigs := [2][]day.Event{}
		ends := [2]day.State{s, s}
		for range rapid.IntRange(2, 30).Draw(t, "events") {
			i := rapid.IntRange(0, 1).Draw(t, "branch")
			e := day.Event{Seq: len(stem) + len(twigs[i]) + 1, At: s.At.Add(time.Minute), Body: happening(t, len(stem))}
			ends[i], _ = room.Apply(ends[i], e)
			twigs[i] = append(twigs[i], e)
		}
		for i, got := range []day.State{s, ends[0], ends[1]} {
			var twig []day.Event
			if i > 0 {
				twig = twigs[i-1]
			}
			want, _ := day.Replay(d.head, slices.Concat(stem, twig))
			if advised {
				want, _ = day.Replay(d.head, stem)
				want = advise(want)
				for _, e := range twig {
					want, _ = day.Apply(want, e)
				}
			}
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("branch %d of %d events is not what its events give:\n%+v\n%+v", i, len(stem)+len(twig), got, want)
			}
		}
	})
}

// The same for each list that a day has, at every length.
func TestBranchesOfEachList(t *testing.T) {
	h := heads(t)[0]
	of := day.OfPiece{Tag: "A1"}
	var room day.Room
	for name, add := range map[string]func(i int) []day.Body{
		"Log":    func(i int) []day.Body { return []day.Body{day.Note{Text: fmt.Sprint(i)}} },
		"Given":  func(i int) []day.Body { return []day.Body{day.CautionAnswered{Caution: fmt.Sprint(i)}} },
		"Scoops": func(i int) []day.Body { return []day.Body{day.PowderWeighed{Mass: quantity.Mass(i)}} },
		"Shifts": func(i int) []day.Body {
			return []day.Body{day.TimerStretched{Timer: fmt.Sprint("dip ", i%2), By: quantity.Seconds(float64(i))}}
		},
		"Pieces": func(i int) []day.Body {
			return []day.Body{day.PieceAdded{OfPiece: day.OfPiece{Tag: fmt.Sprint("B", i)}}}
		},
		"Past": func(i int) []day.Body {
			return []day.Body{day.DipBegun{OfPiece: of, Dip: i}, day.DipEnded{OfPiece: of, Dip: i}}
		},
		"Behind": func(i int) []day.Body { return []day.Body{day.LeftOut{OfPiece: of, What: fmt.Sprint(i)}} },
	} {
		for n := range 10 {
			var stem []day.Event
			put := func(on []day.Event, i int) []day.Event {
				for _, b := range add(i) {
					on = append(on[:len(on):len(on)], day.Event{Seq: len(on) + 1, At: morning, Body: b})
				}
				return on
			}
			for i := range n {
				stem = put(stem, i)
			}
			apply := func(s day.State, events []day.Event) day.State {
				for _, e := range events {
					s, _ = room.Apply(s, e)
				}
				return s
			}
			s, _ := day.Begin(h)
			s = apply(s, stem)
			one, two := put(stem, 100), put(stem, 201)
			a := apply(s, one[n*len(add(0)):])
			b := apply(s, two[n*len(add(0)):])
			for _, x := range []struct {
				events []day.Event
				got    day.State
			}{{stem, s}, {one, a}, {two, b}} {
				if want, _ := day.Replay(h, x.events); !reflect.DeepEqual(x.got, want) {
					t.Errorf("%s of %d events: a branch shares it with another", name, n)
				}
			}
		}
	}
}

// happening is something that may happen to any day, fitting or not.
func happening(t *rapid.T, n int) day.Body {
	of := day.OfPiece{Tag: rapid.SampledFrom(append(tags, "A1", "A1", "A1", "A1")).Draw(t, "tag")}
	timer := rapid.SampledFrom([]string{"dip ", "air ", "bath "}).Draw(t, "timer") + of.Tag
	return rapid.SampledFrom([]day.Body{
		day.PieceAdded{OfPiece: of, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 200}}, day.WettedOut{OfPiece: of}, day.PieceDropped{OfPiece: of},
		day.DipBegun{OfPiece: of, Dip: 1, For: quantity.Minutes(8)}, day.DipEnded{OfPiece: of, Dip: 1, Air: quantity.Minutes(8)},
		day.AiringEnded{OfPiece: of}, day.Finished{OfPiece: of}, day.Rinsed{OfPiece: of}, day.LeftOut{OfPiece: of, What: "rinse"}, day.Dried{OfPiece: of},
		day.LookedAt{OfPiece: of, Looks: "mid"}, day.BathBegun{OfPiece: of, Bath: "soap", For: quantity.Minutes(5)}, day.Soaped{OfPiece: of},
		day.TimerStretched{Timer: timer, By: quantity.Minutes(1)}, day.TimerCut{Timer: timer, By: quantity.Minutes(1)},
		day.PowderWeighed{OfStep: day.OfStep{Step: 1}, Mass: 5}, day.CautionAnswered{Caution: timer}, day.Note{Text: timer},
		day.Corrected{Of: rapid.IntRange(1, n).Draw(t, "of"), Way: "undone"},
	}).Draw(t, "body")
}

// What a piece takes over is the mean of its dips, by nanoseconds; and never more than a timer, whatever the book says.
func TestTheMeanOfItsDips(t *testing.T) {
	h := heads(t)[0]
	const long = quantity.Span(math.MaxInt64)
	rapid.Check(t, func(t *rapid.T) {
		seconds := func(name string) quantity.Span {
			return quantity.Seconds(float64(rapid.IntRange(1, 3600).Draw(t, name)))
		}
		spec := day.PieceSpec{Fibre: "linen", Had: rapid.IntRange(0, 40).Draw(t, "had"), HadOf: seconds("of"), Dip: seconds("dip")}
		if rapid.Bool().Draw(t, "unknown") {
			spec.HadOf = 0
		}
		of := day.OfPiece{Tag: "M1"}
		bodies := []day.Body{day.PieceAdded{OfPiece: of, PieceSpec: spec}}
		sum, n := int64(spec.Dip)*int64(spec.Had), int64(spec.Had)
		if spec.HadOf > 0 {
			sum = int64(spec.HadOf) * n
		}
		at, ats := morning, []time.Time{morning}
		for range rapid.IntRange(0, 12).Draw(t, "dips") {
			dip := seconds("long").Duration()
			bodies, ats = append(bodies, day.DipBegun{OfPiece: of}, day.DipEnded{OfPiece: of}), append(ats, at, at.Add(dip))
			at, sum, n = at.Add(dip), sum+int64(dip), n+1
		}
		s, _ := day.Begin(h)
		for i, b := range append(bodies, day.CarriedOver{OfPiece: of}) {
			s, _ = day.Apply(s, day.Event{Seq: i + 1, At: ats[min(i, len(ats)-1)], Body: b})
		}
		pieces := day.Carry(s).Pieces
		got, want := pieces[len(pieces)-1].HadOf, quantity.Span(time.Duration(sum/max(n, 1)).Round(time.Second))
		if got != want {
			t.Fatalf("%v, not %v", got, want)
		}
	})
	for _, spec := range []day.PieceSpec{{Had: 2_000_000_000, HadOf: long}, {Had: math.MaxInt, HadOf: 7}, {Had: 3, Dip: long}, {Had: 3, HadOf: -long}, {Had: -3}} {
		of := day.OfPiece{Tag: "M1"}
		s, _ := day.Begin(h)
		for i, b := range []day.Body{day.PieceAdded{OfPiece: of, PieceSpec: spec}, day.CarriedOver{OfPiece: of}} {
			s, _ = day.Apply(s, day.Event{Seq: i + 1, At: morning, Body: b})
		}
		pieces := day.Carry(s).Pieces
		if got := pieces[len(pieces)-1].HadOf; got < 0 || got > quantity.Days(30) {
			t.Errorf("of %+v it takes over %v", spec, got)
		}
	}
}
