package load

import (
	"cmp"
	"slices"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sorted"
)

// Seat is a person's row on the board of a workshop.
type Seat struct {
	Who     string   // as on the pieces; a piece of nobody stands under its own tag
	Tags    []string // of the pieces, in their order
	Turns   []Turn   // in the order in which the piece is lowered
	Waits   quantity.Span
	Longest quantity.Span // the longest single wait
	Done    quantity.Span // the last of the pieces, its final airing, rinses and souring in it
}

// Turn is one dip of a person's piece. Wait is how long the piece had been ready for it.
type Turn struct {
	Row
	Wait quantity.Span
}

// Board is the plan by persons, in the order of their first turns. pieces are those that were planned.
func Board(p Plan, pieces []Piece) []Seat {
	var out []Seat
	owner := map[string]int{}          // the seat of a piece, by its tag
	free := map[string]quantity.Span{} // since when a piece is ready
	airs := map[string]quantity.Span{}
	for i, x := range pieces {
		at := slices.IndexFunc(pieces[:i], func(y Piece) bool { return x.Who != "" && y.Who == x.Who })
		if at < 0 {
			owner[x.Tag] = len(out)
			out = append(out, Seat{Who: cmp.Or(x.Who, x.Tag)})
		} else {
			owner[x.Tag] = owner[pieces[at].Tag]
		}
		s := &out[owner[x.Tag]]
		s.Tags = append(s.Tags, x.Tag)
		free[x.Tag], airs[x.Tag] = x.From, x.Air
	}
	for _, r := range p.Rows {
		at, known := owner[r.Tag]
		if !known {
			continue
		}
		s := &out[at]
		t := Turn{r, max(0, r.Lower-free[r.Tag])}
		free[r.Tag] = r.Lifted + airs[r.Tag]
		s.Turns = append(s.Turns, t)
		s.Waits += t.Wait
		s.Longest = max(s.Longest, t.Wait)
	}
	for _, d := range p.Done {
		if at, known := owner[d.Tag]; known {
			out[at].Done = max(out[at].Done, d.At)
		}
	}
	sorted.By(out, func(a, b Seat) int {
		if len(a.Turns) == 0 || len(b.Turns) == 0 {
			return len(b.Turns) - len(a.Turns)
		}
		return cmp.Compare(a.Turns[0].Lower, b.Turns[0].Lower)
	})
	return out
}
