package main

import (
	"fmt"
	"strings"

	"example.org/vatside/testdata/bench/internal/apart"
)

type piece struct {
	weight, dips, dip, air, from, handling int
	hung                                   bool
}

type stretch struct{ from, to int }

type instance struct {
	name                  string
	capacity, most, hands int // most, hands 0: no limit
	breaks                []stretch
	work, rest            int // after so many minutes of work the vat stands empty for so many; 0: never
	pieces                []piece
}

// instances are the days: the two that are given, days of weight alone, days with hands and handling, days with breaks,
// at most so many pieces and some that come later.
func instances() []instance {
	given := piece{weight: 100, dips: 3, dip: 10, air: 20}
	short := given
	short.dips = 2
	long := given
	long.dips = 5
	out := []instance{
		{name: "given-80", capacity: 100, pieces: []piece{given, given, short}},
		{name: "given-130", capacity: 100, pieces: []piece{long}},
	}
	n := apart.Numbers(20261125)
	for i := range 20 {
		in := instance{name: fmt.Sprintf("weight-%02d", i+1), capacity: 1000}
		dip := 5 * n.In(1, 3)
		for range n.In(2, 5) {
			in.pieces = append(in.pieces, piece{weight: 50 * n.In(4, 18), dips: n.In(1, 4), dip: 5 * n.In(1, 3), air: 5 * n.In(0, 6)})
			if i%4 == 0 {
				in.pieces[len(in.pieces)-1].dip = dip
			}
		}
		out = append(out, in)
	}
	for i := range 16 {
		in := instance{name: fmt.Sprintf("hands-%02d", i+1), capacity: 1000, hands: 1 + i%2}
		for range n.In(2, 4) {
			in.pieces = append(in.pieces, piece{weight: 50 * n.In(3, 10), dips: n.In(1, 3), dip: n.In(2, 8), air: n.In(3, 15),
				handling: n.In(1, 2), hung: n.In(0, 2) > 0})
		}
		out = append(out, in)
	}
	for i := range 12 {
		in := instance{name: fmt.Sprintf("breaks-%02d", i+1), capacity: 1000, most: n.In(1, 3), hands: n.In(0, 2)}
		at := n.In(8, 30)
		in.breaks = []stretch{{at, at + n.In(3, 12)}}
		for range n.In(2, 4) {
			in.pieces = append(in.pieces, piece{weight: 50 * n.In(3, 10), dips: n.In(1, 3), dip: n.In(2, 8), air: n.In(3, 12),
				handling: n.In(1, 2), hung: n.In(0, 1) > 0, from: max(0, n.In(-10, 12))})
		}
		out = append(out, in)
	}
	for i := range 8 {
		in := instance{name: fmt.Sprintf("rests-%02d", i+1), capacity: 1000, most: n.In(1, 3), work: n.In(14, 30), rest: n.In(6, 20)}
		for range n.In(2, 4) {
			in.pieces = append(in.pieces, piece{weight: 50 * n.In(3, 10), dips: n.In(1, 3), dip: n.In(3, 9), air: n.In(3, 12)})
		}
		out = append(out, in)
	}
	return out
}

func writeInstances(all []instance) {
	rows := [][]string{{"instance", "capacity", "most", "hands", "breaks", "work_time", "rest", "weight", "dips", "dip", "air", "from", "handling", "work"}}
	for _, in := range all {
		var breaks []string
		for _, b := range in.breaks {
			breaks = append(breaks, fmt.Sprintf("%d-%d", b.from, b.to))
		}
		for _, p := range in.pieces {
			row := fmt.Sprintf("%s;%d;%d;%d;%s;%d;%d;%d;%d;%d;%d;%d;%d;%s", in.name, in.capacity, in.most, in.hands, strings.Join(breaks, " "),
				in.work, in.rest, p.weight, p.dips, p.dip, p.air, p.from, p.handling, map[bool]string{true: "hung", false: "moved"}[p.hung])
			rows = append(rows, strings.Split(row, ";"))
		}
	}
	write("instances.csv", rows)
}

// horizon is a time by which one piece after the other would be done.
func (in instance) horizon() int {
	h := 0
	for _, p := range in.pieces {
		h += p.dips * (p.dip + 2*p.handling + p.air)
		h = max(h, p.from)
	}
	for _, p := range in.pieces {
		h += p.from
	}
	for _, b := range in.breaks {
		h += b.to
	}
	return h + len(in.dips())*in.rest
}

// dip is one dip of a piece, in the order of the pieces.
type dip struct {
	piece
	no int
}

func (in instance) dips() []dip {
	var out []dip
	for _, p := range in.pieces {
		for k := range p.dips {
			out = append(out, dip{p, k})
		}
	}
	return out
}

func (d dip) length() int { return d.dip + 2*d.handling }

// works is when, from its lowering, a dip keeps hands at work.
func (d dip) works() []stretch {
	if !d.hung {
		return []stretch{{0, d.length()}}
	}
	if d.handling == 0 {
		return nil
	}
	return []stretch{{0, d.handling}, {d.handling + d.dip, d.length()}}
}

// step is the greatest number of minutes of which all times of a day are multiples.
func (in instance) step() int {
	g := 0
	see := func(v int) {
		for v != 0 {
			g, v = v, g%v
		}
	}
	for _, p := range in.pieces {
		for _, v := range []int{p.dip, p.air, p.from, p.handling} {
			see(v)
		}
	}
	for _, b := range in.breaks {
		see(b.from)
		see(b.to)
	}
	return g
}
