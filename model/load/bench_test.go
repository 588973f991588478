package load_test

import (
	"fmt"
	"testing"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
)

// crowded is a large day: 24 pieces of 8 dips in a vat that takes six or so.
func crowded() []load.Piece {
	var out []load.Piece
	for i := range 24 {
		out = append(out, load.Piece{
			Tag: fmt.Sprintf("P%02d", i+1), Who: fmt.Sprint(i % 8), Dry: quantity.Grams(float64(100 + 37*(i*7%11))), Dips: 8,
			Dip: minutes(4 + i%5), Air: minutes(10 + i%7), FinalAir: minutes(30), Finish: minutes(25), Dark: i % 6,
			Form: []string{load.Cloth, load.Skein, load.Garment, load.Bound}[i%4], Work: []string{load.Moved, load.Hung}[i%2],
			Takes: quantity.Grams(0.3),
		})
	}
	return out
}

// crowdedDays are the limits under which it is planned.
func crowdedDays() map[string]load.Limits {
	rest := load.Pause{After: quantity.Hours(3), For: quantity.Hours(1)}
	lunch := []load.Break{{From: minutes(180), To: minutes(210), Why: "lunch"}}
	return map[string]load.Limits{
		"fixed dips":   {Plain: true, Capacity: 1500},
		"one pair":     {Capacity: 1500, Most: 6, Hands: 1, Rest: rest, Breaks: lunch},
		"three pairs":  {Capacity: 1500, Most: 6, Hands: 3, Rest: rest, Breaks: lunch},
		"two vats":     {Capacity: 1500, Hands: 2, Vats: 2, Rest: rest},
		"reheats":      {Capacity: 1500, Hands: 4, Rest: rest, Reheat: load.Pause{After: minutes(100), For: minutes(20)}, Latest: quantity.Hours(12)},
		"balance":      {Capacity: 1500, Hands: 4, Indigo: load.Indigo{Holds: 60, Floor: 5}},
		"workshop":     {Capacity: 1500, Hands: 4, Fair: true, Rest: rest},
		"kept in ones": {Capacity: 1500, Hands: 3, Together: true, Rest: rest},
	}
}

func BenchmarkMake(b *testing.B) {
	for name, l := range crowdedDays() {
		b.Run(name, func(b *testing.B) {
			var p load.Plan
			for b.Loop() {
				var err error
				if p, err = load.Make(crowded(), l); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(p.Makespan.Minutes(), "finish-min")
			b.ReportMetric(p.Gap.Minutes(), "gap-min")
			b.ReportMetric(100*p.Gap.Minutes()/p.Bound.Minutes(), "gap-%")
		})
	}
}

func BenchmarkReplan(b *testing.B) {
	for name, l := range crowdedDays() {
		pieces := crowded()
		p, err := load.Make(pieces, l)
		if err != nil {
			b.Fatal(err)
		}
		now := p.Rows[len(p.Rows)/5].In
		standing := stand(p, pieces, now)
		late := crowded()
		late[3].Dips++
		late[23].From = now + minutes(30)
		b.Run(name, func(b *testing.B) {
			var q load.Plan
			for b.Loop() {
				if q, err = p.Replan(now, standing, late, l); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(q.Gap.Minutes(), "gap-min")
		})
	}
}

// Days of all sizes are planned within the same time.
func BenchmarkSizes(b *testing.B) {
	for _, size := range [][2]int{{3, 3}, {6, 4}, {8, 6}, {12, 8}, {16, 7}, {24, 8}, {40, 10}, {100, 16}} {
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			var pieces []load.Piece
			for i := range size[0] {
				x := crowded()[i%24]
				x.Tag, x.Dips = fmt.Sprint(i), size[1]
				pieces = append(pieces, x)
			}
			l := crowdedDays()["three pairs"]
			var p load.Plan
			for b.Loop() {
				p, _ = load.Make(pieces, l)
			}
			b.ReportMetric(p.Gap.Minutes(), "gap-min")
		})
	}
}
