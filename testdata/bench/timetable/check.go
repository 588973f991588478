package main

import (
	"fmt"
	"io"
	"strings"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/testdata/loadtest"
)

// drawn is a random day: one to nine pieces of up to five persons, who come late, leave early or show a dip, up to three
// vats, rests, reheats, breaks, hands, a balance of indigo, and every switch of the limits.
func drawn(n *next) ([]load.Piece, load.Limits) {
	one := func(in int) bool { return n.in(1, in) == 1 }
	grams := func(low, high int) quantity.Mass { return quantity.Grams(float64(n.in(low, high))) }
	l := load.Limits{Most: n.in(0, 4), Hands: n.in(0, 3), Vats: []int{0, 1, 1, 2, 2, 3}[n.in(0, 5)], AtVat: max(0, n.in(-3, 3)), Together: one(4), Fair: one(3),
		Plain: one(20), Effort: 6000, Worth: minutes(n.in(0, 6)), Choice: []string{"", "", "", load.ChoiceWeak, load.ChoiceFull, load.ChoiceFeed}[n.in(0, 5)]}
	if one(3) {
		l.Handling = map[string]quantity.Span{load.Skein: minutes(1), load.Garment: minutes(2)}
	}
	if !one(4) {
		l.Capacity = grams(600, 1500)
	}
	if one(2) {
		l.Rest = load.Pause{After: minutes(n.in(40, 180)), For: minutes(n.in(1, 90))}
	}
	if one(4) {
		l.Reheat = load.Pause{After: minutes(n.in(40, 180)), For: minutes(n.in(1, 40))}
	}
	for range max(0, n.in(-2, 2)) {
		from := n.in(0, 300)
		l.Breaks = append(l.Breaks, load.Break{From: minutes(from), To: minutes(from + n.in(0, 60))})
	}
	if one(3) {
		l.Latest = minutes(n.in(60, 500))
	}
	if one(2) {
		l.Indigo = load.Indigo{Holds: grams(4, 40), Floor: grams(0, 4)}
		if one(3) {
			l.Indigo.Feed, l.Indigo.Wait, l.Indigo.Feeds = grams(2, 10), minutes(n.in(0, 90)), n.in(1, 3)
		}
	}
	var pieces []load.Piece
	for i := range n.in(1, 9) {
		pieces = append(pieces, drawnPiece(n, fmt.Sprint(i+1)))
	}
	return pieces, l
}

func drawnPiece(n *next, tag string) load.Piece {
	p := load.Piece{Tag: tag, Who: []string{"", "1", "2", "3", "4", "5"}[n.in(0, 5)], Dry: quantity.Grams(float64(10 * n.in(5, 60))), Dips: n.in(0, 6),
		Dip: minutes(n.in(1, 12)), Air: minutes(n.in(0, 25)), FinalAir: minutes(n.in(0, 40)), Finish: minutes(n.in(0, 25)), Dark: n.in(0, 6),
		Form: []string{"", load.Cloth, load.Skein, load.Garment, load.Bound}[n.in(0, 4)], Work: []string{"", load.Moved, load.Hung}[n.in(0, 2)],
		Takes: quantity.Grams(float64(n.in(0, 20)) / 10), Demo: n.in(0, 11) == 0}
	if n.in(0, 3) == 0 {
		p.From = minutes(n.in(0, 200))
	}
	if n.in(0, 3) == 0 {
		p.Till = p.From + minutes(n.in(1, 300))
	}
	if n.in(0, 5) == 0 {
		p.Least = quantity.Grams(float64(n.in(0, 20)))
	}
	return p
}

// checked plans so many random days from a seed, replans each once at a random moment at which a piece comes late, one is
// dropped or one is added, and lets the checker look at all plans. It writes what is broken, and the counts.
func checked(w io.Writer, days, seed int) error {
	broken, planned, replanned, refused, persons, tills, vats, tired := 0, 0, 0, 0, 0, 0, 0, 0
	for day := range days {
		n := next(uint64(seed)<<32 + uint64(day)*2654435761)
		for range 4 {
			n.in(0, 1)
		}
		pieces, l := drawn(&n)
		p, err := load.Make(pieces, l)
		if err != nil {
			if !strings.Contains(err.Error(), "before it stands still") { // a dip longer than the vat works: the one refusal that is drawn
				return fmt.Errorf("day %d: %w", day, err)
			}
			refused++
			continue
		}
		planned++
		who, leaves := false, false
		for _, x := range pieces {
			who, leaves = who || x.Who != "", leaves || x.Till > 0
		}
		for count, is := range map[*int]bool{&persons: who, &tills: leaves, &vats: l.Vats > 1, &tired: len(p.Choices) > 0} {
			if is {
				*count++
			}
		}
		told := loadtest.Check(pieces, l, p)
		if len(told) == 0 && len(p.Rows) > 0 {
			now := quantity.Seconds(float64(n.in(0, int(p.Makespan.Seconds()))))
			stood := stands(p, pieces, now)
			if k := n.in(0, len(pieces)-1); stood[k].Where == load.Waiting && stood[k].Dips == 0 {
				if pieces[k].From = now + minutes(n.in(0, 60)); n.in(0, 2) == 0 {
					pieces[k].Dips = 0
				}
			}
			if n.in(0, 1) == 0 {
				pieces = append(pieces, drawnPiece(&n, "new"))
			}
			q, err := p.Replan(now, stood, pieces, l)
			switch {
			case err == nil:
				replanned++
				told = loadtest.CheckStanding(now, stood, pieces, l, q)
			case !strings.Contains(err.Error(), "before it stands still"):
				told = []string{"replan: " + err.Error()}
			}
		}
		if len(told) > 0 {
			broken++
			fmt.Fprintf(w, "day %d: %s\n", day, strings.Join(told, "; "))
		}
	}
	fmt.Fprintf(w, "%d days from seed %d: %d plans and %d replans checked, %d days refused; %d with persons, %d with tills, %d with two vats or three, %d whose vat tires; %d broken\n",
		days, seed, planned, replanned, refused, persons, tills, vats, tired, broken)
	if broken > 0 {
		return fmt.Errorf("%d days are broken", broken)
	}
	return nil
}

// stands is where the pieces are at a time of a plan that was kept to the minute.
func stands(p load.Plan, pieces []load.Piece, now quantity.Span) []load.PieceState {
	days, vats := map[string]*went{}, map[string]int{}
	for _, x := range pieces {
		days[x.Tag] = &went{}
	}
	for _, r := range p.Rows {
		if r.Lower < now {
			d := days[r.Tag]
			d.in, d.lifted, vats[r.Tag] = append(d.in, r.In), append(d.lifted, r.Lifted), r.Vat
		}
	}
	return standing(pieces, days, vats, now)
}
