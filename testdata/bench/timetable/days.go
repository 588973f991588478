package main

import (
	"fmt"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/bench/internal/apart"
)

func minutes(n int) quantity.Span { return quantity.Minutes(float64(n)) }

type aDay struct {
	name   string
	pieces []load.Piece
	limits load.Limits
}

// families are the kinds of days: what is scarce in each.
var families = []struct {
	name   string
	limits func(n *apart.Numbers) load.Limits
}{
	{"weight", func(*apart.Numbers) load.Limits {
		return load.Limits{Capacity: 1500, Handling: map[string]quantity.Span{}}
	}},
	{"one pair", func(*apart.Numbers) load.Limits { return load.Limits{Capacity: 1500, Hands: 1, Rest: rest} }},
	{"three pairs", func(n *apart.Numbers) load.Limits { return load.Limits{Capacity: 1500, Most: 6, Hands: 3, Rest: rest} }},
	{"breaks", func(n *apart.Numbers) load.Limits {
		from := n.In(100, 180)
		return load.Limits{Capacity: 1500, Most: 5, Hands: 2, Breaks: []load.Break{{From: minutes(from), To: minutes(from + 30)}}}
	}},
	{"reheats", func(n *apart.Numbers) load.Limits {
		return load.Limits{Capacity: 1500, Hands: 4, Rest: rest, Reheat: load.Pause{After: minutes(n.In(80, 120)), For: minutes(20)}}
	}},
	{"late comers", func(*apart.Numbers) load.Limits { return load.Limits{Capacity: 1500, Most: 4, Hands: 2, Rest: rest} }},
	{"two vats", func(*apart.Numbers) load.Limits { return load.Limits{Capacity: 900, Hands: 3, Vats: 2, Rest: rest} }},
	{"heavy", func(*apart.Numbers) load.Limits { return load.Limits{Capacity: 900, Hands: 3, Rest: rest} }},
}

var rest = load.Pause{After: quantity.Hours(3), For: quantity.Hours(1)}

// sizes are pieces and dips of the eight days of a family.
var sizes = [][2]int{{4, 3}, {5, 4}, {6, 4}, {6, 5}, {8, 4}, {12, 6}, {16, 7}, {24, 8}}

// days are 64 days: eight families in eight sizes. Those of round 0 are the ones of best.csv.
func days(round int) []aDay {
	var out []aDay
	for f, family := range families {
		for s, size := range sizes {
			n := apart.Numbers(1000000*round + 1000*f + s + 1)
			for range 5 {
				n.In(0, 1)
			}
			d := aDay{name: fmt.Sprintf("%s %d×%d", family.name, size[0], size[1]), limits: family.limits(&n)}
			for i := range size[0] {
				p := load.Piece{Tag: fmt.Sprintf("P%02d", i+1), Who: fmt.Sprint(i), Dry: quantity.Grams(float64(10 * n.In(8, 45))), Dips: max(1, size[1]-n.In(0, 2)),
					Dip: minutes(n.In(3, 9)), Air: minutes(n.In(10, 18)), FinalAir: minutes(30), Finish: minutes(25), Dark: n.In(0, 6),
					Form: []string{load.Cloth, load.Skein, load.Garment, load.Bound}[n.In(0, 3)], Work: []string{load.Moved, load.Hung}[n.In(0, 1)]}
				if size[1] == 8 {
					p.Dips = 8
				}
				switch family.name {
				case "late comers":
					p.From = minutes(max(0, 15*n.In(-3, 6)))
				case "heavy":
					p.Dry = quantity.Grams(float64(10 * n.In(25, 60)))
				}
				d.pieces = append(d.pieces, p)
			}
			out = append(out, d)
		}
	}
	return out
}
