package history

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
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
