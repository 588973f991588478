package main

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/bench/internal/apart"
)

// measure writes a line a figure: what is measured, the day, and the figures, parted by semicolons. It uses only what both
// the planner of before and that of now have.
func measure(w io.Writer, what string, effort int) {
	for _, part := range []struct {
		name string
		run  func(io.Writer)
	}{{"gap", func(w io.Writer) { gaps(w, 0, effort, 0, 24) }}, {"fair", fairness}, {"tires", tiring}, {"replan", func(w io.Writer) { replans(w, 0) }}} {
		if what == "" || what == part.name {
			part.run(w)
		}
	}
}

// gaps are the days of eight families with so many pieces: last lift, bound, processor time.
func gaps(w io.Writer, round, effort, least, most int) {
	for _, d := range days(round) {
		if n := len(d.pieces); n < least || n > most {
			continue
		}
		d.limits.Effort = effort
		begun := apart.Processor()
		p := apart.Got(load.Make(d.pieces, d.limits))
		fmt.Fprintf(w, "gap;%s;%.2f;%.2f;%.1f\n", d.name, p.Makespan.Minutes(), p.Bound.Minutes(), (apart.Processor()-begun).Seconds()*1000)
	}
}

// fresh are so many rounds of days that nothing was chosen by, from a round on: of the families those of six and of eight pieces, and
// replans.
func fresh(w io.Writer, what string, from, rounds, effort int) {
	for round := from; round < from+rounds; round++ {
		if what != "replan" {
			gaps(w, round, effort, 6, 8)
		}
		if what != "gap" {
			replans(w, round)
		}
	}
}

// class is a workshop: a piece a person, wishes from pale to dark.
func class(people int, seed int) []load.Piece {
	n := apart.Numbers(seed)
	var out []load.Piece
	for i := range people {
		out = append(out, load.Piece{Tag: fmt.Sprint(i + 1), Who: fmt.Sprint("person ", i+1), Dry: quantity.Grams(float64(10 * n.In(12, 40))),
			Dips: []int{1, 2, 3, 4, 4, 5, 6, 7}[n.In(0, 7)], Dip: minutes(n.In(4, 8)), Air: minutes(n.In(10, 16)), FinalAir: minutes(30), Finish: minutes(25),
			Dark: n.In(0, 6), Form: []string{load.Cloth, load.Garment, load.Bound}[n.In(0, 2)], Work: []string{load.Moved, load.Hung}[n.In(0, 1)]})
	}
	return out
}

// promised is the most dips of a wish that stands outside the rounds.
const promised = 2

// fairness is measured on twelve classes with fair turns: by when everybody had the first dip, wishes of one and two dips left
// out; the longest wait; the least and the most that one waits in all; and the spread of each one's share of own dips, as its
// mean deviation over the day.
func fairness(w io.Writer) {
	for n, people := range []int{6, 8, 8, 10, 10, 12, 12, 12, 16, 16, 20, 24} {
		pieces := class(people, 77+n)
		p := apart.Got(load.Make(pieces, load.Limits{Capacity: 1500, Hands: 1 + n%3, Fair: true, Rest: rest}))
		dips := map[string]int{}
		for _, x := range pieces {
			dips[x.Tag] = x.Dips
		}
		var first, longest, most quantity.Span
		least := quantity.Days(9)
		for _, s := range load.Board(p, pieces) {
			longest = max(longest, s.Longest)
			least, most = min(least, s.Waits), max(most, s.Waits)
			if t := s.Turns[0]; dips[t.Tag] > promised {
				first = max(first, t.Lower)
			}
		}
		spread, moments := 0.0, 0
		for _, at := range p.Rows {
			had := map[string]int{}
			for _, r := range p.Rows {
				if r.Lower <= at.Lower {
					had[r.Tag]++
				}
			}
			var shares []float64
			mean := 0.0
			for _, x := range pieces {
				if x.Dips > promised {
					shares = append(shares, float64(had[x.Tag])/float64(x.Dips))
					mean += shares[len(shares)-1]
				}
			}
			mean /= float64(len(shares))
			sum := 0.0
			for _, s := range shares {
				sum += (s - mean) * (s - mean)
			}
			spread, moments = spread+math.Sqrt(sum/float64(len(shares))), moments+1
		}
		fmt.Fprintf(w, "fair;%d people, %d pairs, %d;%.1f;%.1f;%.1f;%.1f;%.3f;%.1f\n", people, 1+n%3, n, first.Minutes(), longest.Minutes(),
			least.Minutes(), most.Minutes(), spread/float64(moments), p.Makespan.Minutes())
	}
}

// tiring are forty days with less indigo than they take: the last lift, that of the same day without a balance, weak dips.
func tiring(w io.Writer) {
	for day := range 40 {
		n := apart.Numbers(day + 500)
		var pieces []load.Piece
		takes := 0.0
		for i := range n.In(4, 10) {
			g := float64(n.In(5, 30)) / 10
			p := load.Piece{Tag: fmt.Sprint(i + 1), Dry: quantity.Grams(float64(10 * n.In(10, 45))), Dips: n.In(2, 6), Dip: minutes(n.In(3, 9)), Air: minutes(n.In(10, 18)),
				FinalAir: minutes(30), Finish: minutes(25), Dark: n.In(0, 6), Takes: quantity.Grams(g), Work: []string{load.Moved, load.Hung}[n.In(0, 1)]}
			if n.In(0, 2) == 0 {
				p.Least = quantity.Grams(10 + 4*g)
			}
			takes += g * float64(p.Dips)
			pieces = append(pieces, p)
		}
		l := load.Limits{Capacity: 1500, Hands: n.In(1, 3), Rest: rest}
		without := apart.Got(load.Make(pieces, l))
		l.Indigo = load.Indigo{Holds: quantity.Grams(takes * float64(n.In(70, 98)) / 100), Floor: 2}
		with := apart.Got(load.Make(pieces, l))
		fmt.Fprintf(w, "tires;%d;%.1f;%.1f;%d\n", day, with.Makespan.Minutes(), without.Makespan.Minutes(), with.Weak)
	}
}

// went is a day as it goes: when each dip was lowered and lifted.
type went struct {
	in, lifted []quantity.Span
	vat        int // of the last
}

// standing is where the pieces are now.
func standing(pieces []load.Piece, days map[string]*went, now quantity.Span) []load.PieceState {
	var out []load.PieceState
	for _, x := range pieces {
		s := load.PieceState{Tag: x.Tag}
		if d := days[x.Tag]; len(d.in) > 0 {
			n := len(d.in)
			if d.lifted[n-1] <= now {
				s.Dips, s.Where, s.Since = n, load.Airing, d.lifted[n-1]
			} else {
				s.Dips, s.Where, s.Since, s.Vat = n-1, load.InVat, d.in[n-1], d.vat
			}
		}
		out = append(out, s)
	}
	return out
}

// replans lets whole days go with lateness: every third lowering comes 1 to 6 min late, and after each the rest is planned anew.
// It counts the replans that change one of the next two calls, the dips that change places, and the mean shift.
func replans(w io.Writer, round int) {
	sizes := [][3]int{{8, 4, 1}, {10, 5, 2}, {12, 6, 3}, {12, 6, 2}, {16, 5, 3}, {24, 4, 3}}
	for n, size := range slices.Concat(sizes, sizes, sizes[:4]) {
		pieces := class(size[0], 900+n+1000*round)
		for i := range pieces {
			pieces[i].Dips = max(1, size[1]-i%3)
		}
		l := load.Limits{Capacity: 1500, Hands: size[2], Rest: rest, Worth: minutes(5), Fair: (n+n/6)%2 == 1}
		handling := load.UsualHandling()
		p := apart.Got(load.Make(pieces, l))
		first := p.Makespan
		dice := apart.Numbers(4000 + n + 1000*round)
		days := map[string]*went{}
		byTag := map[string]load.Piece{}
		for _, x := range pieces {
			days[x.Tag], byTag[x.Tag] = &went{}, x
		}
		var now, last quantity.Span
		all, changed, places, dips := 0, 0, 0, 0
		shift := 0.0
		for {
			ahead := coming(p)
			if len(ahead) == 0 {
				break
			}
			r := ahead[0]
			now = max(now, r.Lower)
			if dice.In(0, 2) == 0 {
				now += minutes(dice.In(1, 6))
			}
			x := byTag[r.Tag]
			form := cmp.Or(x.Form, load.Cloth)
			in := now + handling[form]
			d := days[r.Tag]
			d.in, d.lifted, d.vat = append(d.in, in), append(d.lifted, in+x.Dip+handling[form]), r.Vat
			last = max(last, in+x.Dip+handling[form])
			q := apart.Got(p.Replan(now, standing(pieces, days, now), pieces, l))
			before, after := ahead[1:], coming(q)
			all++
			for k := range min(2, len(before), len(after)) {
				if before[k].Tag != after[k].Tag || before[k].Dip != after[k].Dip {
					changed++
					break
				}
			}
			places += swapped(before, after)
			for _, a := range after {
				for _, b := range before {
					if a.Tag == b.Tag && a.Dip == b.Dip {
						shift += math.Abs((a.Lower - b.Lower).Minutes())
						dips++
					}
				}
			}
			p = q
		}
		fmt.Fprintf(w, "replan;%d×%d, %d pairs;%d;%d;%d;%.2f;%.1f;%.1f\n", size[0], size[1], size[2], all, changed, places, shift/float64(max(1, dips)), first.Minutes(), last.Minutes())
	}
}

// coming are the dips that are still to be lowered.
func coming(p load.Plan) []load.Row {
	return slices.DeleteFunc(slices.Clone(p.Rows), func(r load.Row) bool { return r.Past })
}

// swapped counts the dips that come right after one that they came before.
func swapped(before, after []load.Row) int {
	place := map[string]int{}
	for n, r := range before {
		place[fmt.Sprint(r.Tag, " ", r.Dip)] = n
	}
	n := 0
	for k := 1; k < len(after); k++ {
		a, known := place[fmt.Sprint(after[k-1].Tag, " ", after[k-1].Dip)]
		b, also := place[fmt.Sprint(after[k].Tag, " ", after[k].Dip)]
		if known && also && b < a {
			n++
		}
	}
	return n
}
