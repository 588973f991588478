package outlook

import (
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// The °C of an instant, and what goods took since one, are what a look at each point and each dip gives.
func TestLooksByHalvesAreLooksOneByOne(t *testing.T) {
	zero := time.Date(2026, 5, 9, 9, 0, 0, 0, time.UTC)
	rapid.Check(t, func(t *rapid.T) {
		minutes := func(name string) time.Time {
			return zero.Add(time.Duration(rapid.IntRange(0, 90).Draw(t, name)) * time.Minute)
		}
		var h Heat
		when := zero
		for i := range rapid.IntRange(0, 20).Draw(t, "points") {
			when = when.Add(time.Duration(rapid.IntRange(0, 9).Draw(t, "later")) * time.Minute)
			h.Past = append(h.Past, At{when, quantity.Celsius(float64(i))})
		}
		at := minutes("at")
		want := quantity.Celsius(-1)
		for _, p := range h.Past {
			if p.When.After(at) {
				break
			}
			want = p.Temp
		}
		if got := temps(h, at, -1); got != want {
			t.Fatalf("%v, not %v", got, want)
		}
		var s day.State
		for range rapid.IntRange(0, 4).Draw(t, "pieces") {
			p := day.Piece{Spec: day.PieceSpec{Dry: quantity.Mass(rapid.IntRange(0, 500).Draw(t, "dry"))}}
			for range rapid.IntRange(0, 9).Draw(t, "dips") {
				d := day.Dip{Begun: minutes("begun")}
				if p.Dips++; rapid.Bool().Draw(t, "ended") {
					d.Ended = d.Begun.Add(time.Minute)
				}
				p.Past = append(p.Past, d)
			}
			s.Pieces = append(s.Pieces, p)
		}
		var sum quantity.Mass
		for _, p := range s.Pieces {
			after := 0
			for _, d := range p.Past {
				if !d.Ended.IsZero() && !d.Begun.Before(at) {
					after++
				}
			}
			if after > 0 {
				sum += takenBy(p, after).OnFibre.Likely.Of(p.Spec.Dry)
			}
		}
		if got := takenSince(s)(at); !reflect.DeepEqual(got, sum) {
			t.Fatalf("%v, not %v", got, sum)
		}
	})
}
