package load

import (
	"fmt"
		"testing"
"time"

	"example.org/vatside/model/quantity"
)

type zzn uint64

func (n *zzn) in(low, high int) int {
	*n = *n*6364136223846793005 + 1442695040888963407
	return low + int(uint64(*n)>>33)%(high-low+1)
}

func zzday(f, s, pieces, dips int) ([]Piece, Limits) {
	min := func(n int) quantity.Span { return quantity.Minutes(float64(n)) }
	rest := Pause{After: quantity.Hours(3), For: quantity.Hours(1)}
	n := zzn(1000*f + s + 1)
	for range 5 {
		n.in(0, 1)
	}
	var l Limits
	switch f {
	case 0:
		l = Limits{Capacity: 1500, Handling: map[string]quantity.Span{}}
	case 1:
		l = Limits{Capacity: 1500, Hands: 1, Rest: rest}
	case 2:
		l = Limits{Capacity: 1500, Most: 6, Hands: 3, Rest: rest}
	case 3:
		from := n.in(100, 180)
		l = Limits{Capacity: 1500, Most: 5, Hands: 2, Breaks: []Break{{From: min(from), To: min(from + 30)}}}
	case 7:
		l = Limits{Capacity: 900, Hands: 3, Rest: rest}
	}
	var out []Piece
	for i := range pieces {
		p := Piece{Tag: fmt.Sprintf("P%02d", i+1), Who: fmt.Sprint(i), Dry: quantity.Grams(float64(10 * n.in(8, 45))), Dips: max(1, dips-n.in(0, 2)),
			Dip: min(n.in(3, 9)), Air: min(n.in(10, 18)), FinalAir: min(30), Finish: min(25), Dark: n.in(0, 6),
			Form: []string{Cloth, Skein, Garment, Bound}[n.in(0, 3)], Work: []string{Moved, Hung}[n.in(0, 1)]}
		if f == 7 {
			p.Dry = quantity.Grams(float64(10 * n.in(25, 60)))
		}
		out = append(out, p)
	}
	return out, l
}

func TestZZ(t *testing.T) {
	for _, c := range []struct{ f, s, p, d, lo, hi int }{{1, 2, 6, 4, 6900, 7300}, {1, 3, 6, 5, 10300, 10850}, {3, 3, 6, 5, 10450, 10550}, {7, 3, 6, 5, 11500, 12100}, {7, 4, 8, 4, 7700, 8000}, {1, 4, 8, 4, 8300, 9000}} {
		ps, l := zzday(c.f, c.s, c.p, c.d)
		p, _ := pose(ps, l)
		p.gather(nil)
		p.settle()
		g := p.step()
		fmt.Println(c, "grid", g, "bound", float64(p.bound())/60, "tighter", float64(p.tighter(p.bound()))/60)
		for i := range p.jobs {
			j := &p.jobs[i]
			fmt.Println("  job", i, "n", j.n, "p", j.p/60, "a", j.a/60, "h", j.h, "moved", j.moved, "w", j.w/1000, "chain", float64(j.n*(j.d()+j.a)-j.a)/60, "cap", p.cap/1000)
		}
		best := c.hi * 60 / 100
		for _, R := range []int{300} { T := best-g
			q := p.priced(T, g, R)
			fmt.Println("  T", float64(T)/60, q.paid)
		}
		b := time.Now()
		for _, n := range []int{5000,50000,200000} {
		_, end, all, nodes := p.prove(best, p.bound(), n)
		fmt.Println("  prove", float64(end)/60, all, nodes, time.Since(b))
		if all { break }
		}
	}
}
