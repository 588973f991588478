package history

import (
	"fmt"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Goods is a piece on the last of its days at a vat.
type Goods struct {
	day.Piece
	Of   Day                           // the last of its days
	From string                        // the first of them
	Took quantity.Range[quantity.Mass] // pure indigo in all of them, by the usual for so many dips
}

// GoodsOf are the pieces of all days, each once: one that was carried over as it is on its last day. What was dropped is
// left out.
func GoodsOf(v Vat) []Goods {
	var out []Goods
	at := map[string]int{} // tag of a piece that was carried over → its place
	for _, d := range v {
		for _, p := range d.State.Pieces {
			if p.Phase == day.Dropped || p.Brought() {
				continue
			}
			if i, carried := at[p.Tag]; carried && p.Spec.Had > 0 {
				took := outlook.Took(p)
				took.Low, took.Likely, took.High = took.Low+out[i].Took.Low, took.Likely+out[i].Took.Likely, took.High+out[i].Took.High
				out[i] = Goods{p, d, out[i].From, took}
			} else {
				at[p.Tag] = len(out)
				out = append(out, Goods{p, d, d.Name, outlook.Took(p)})
			}
			if p.Phase != day.Carried {
				delete(at, p.Tag)
			}
		}
	}
	return out
}

// Piece is a piece over its days.
type Piece struct {
	Tag, What, Who, Fibre string
	Dry                   quantity.Mass
	Dips                  int
	From, Day             string // its first and its last day
	Lab                   colour.Lab
	Known                 outlook.Known                 // of the blue; Unknown where it cannot be told
	Finished              bool                          // its dips are over
	Stands                string                        // where it is, in words
	Took                  quantity.Range[quantity.Mass] // pure indigo, by the usual for so many dips
}

// Pieces are the pieces of a vat, the oldest first, with their blues as outlook.Looks has them: it takes some milliseconds a
// day.
func Pieces(v Vat) []Piece {
	var out []Piece
	looked := map[string]outlook.Looker{} // by day
	for _, g := range GoodsOf(v) {
		if looked[g.Of.Name] == nil {
			looked[g.Of.Name] = outlook.LooksOf(g.Of.State)
		}
		p := Piece{Tag: g.Tag, What: g.Spec.What, Who: g.Spec.Who, Fibre: g.Spec.Fibre, Dry: g.Spec.Dry, Dips: g.Dips, From: g.From, Day: g.Of.Name,
			Finished: g.Phase == day.FinishedPiece, Stands: stands(v, g), Took: g.Took}
		if lab, known, ok := looked[g.Of.Name](g.Tag); ok && g.Dips > 0 {
			p.Lab, p.Known = lab, known
		}
		out = append(out, p)
	}
	return out
}

// stands is where a piece is.
func stands(v Vat, g Goods) string {
	s := g.Of.State
	switch g.Phase {
	case day.InVat:
		return "in the vat"
	case day.Airing:
		return "airing"
	case day.Carried:
		return fmt.Sprintf("carried over after %s", wording.Counted(g.Dips, "dip"))
	case day.FinishedPiece:
		// The steps after the last dip may go on on a later day.
		p := g.Piece
		later := false
		for _, d := range v {
			if q, ok := d.State.Piece(g.Tag); ok && later && q.Brought() {
				p, s = q, d.State
			}
			later = later || d.Name == g.Of.Name
		}
		if next, more := s.BenchNext(p); more {
			return "dipped, next: " + next.Name
		}
		return "finished"
	}
	if g.Of.State.Closed {
		return fmt.Sprintf("left after %d of %s", g.Dips, wording.Counted(g.Want(), "dip"))
	}
	return fmt.Sprintf("%d of %s", g.Dips, wording.Counted(g.Want(), "dip"))
}
