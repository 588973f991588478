package rehearse

import (
	"fmt"
	"sync"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// The invented workshop of a rehearsal: twelve people at one vat, a piece each, two of whom come late. All of it is made up.

const workshopName = "Class vat"

// WorkshopHead is the day of a workshop as it is set up.
func WorkshopHead(r recipe.Recipe, begin time.Time) day.Head {
	h := Head(r, begin)
	h.Setup.Name, h.Setup.Fill, h.Setup.Vessel = workshopName, quantity.Litres(120), "cylinder 50 cm 75 cm"
	return h
}

// workshopPieces are theirs: small goods of cotton and linen, from sky to dark.
var workshopPieces = sync.OnceValue(func() []day.AddPiece {
	var out []day.AddPiece
	whats := []string{"scarf", "napkin", "bag", "cushion", "shirt", "band"}
	depths := []string{"mid", "sky", "dark", "sky", "mid", "sky"}
	for i := range 12 {
		spec := day.PieceSpec{
			What: whats[i%len(whats)], Fibre: []string{"cotton", "linen"}[i%2], Dry: quantity.Grams(float64(80 + 35*(i%5))), Depth: depths[(i*5)%len(depths)],
			Work: "hung", Who: fmt.Sprint(i + 1),
		}
		out = append(out, day.AddPiece{Tag: fmt.Sprintf("P%d", i+1), Spec: spec})
	}
	return out
})

// lateFrom is how many dips were lifted when the last two of the workshop come.
const (
	lateComers = 2
	lateFrom   = 5
)

// pieces are those of the day that is rehearsed.
func (d dyerOf) pieces() []day.AddPiece {
	if row, ok := keptRow(d.s.Head); ok {
		return row.pieces(d.s.Head.Opening.Number)
	}
	if d.s.Head.Setup.Name == workshopName {
		return workshopPieces()
	}
	if forWool(d.s.Head.Recipe) {
		return warmPieces
	}
	return rehearsedPieces
}

// late is a piece that comes onto the list while the others are dyed; false while none does.
func (d dyerOf) late() (day.AddPiece, bool) {
	list, n := d.pieces(), len(d.s.Pieces)
	if d.s.Head.Setup.Name != workshopName || n >= len(list) || n < len(list)-lateComers {
		return day.AddPiece{}, false
	}
	lifts := d.count(func(b day.Body) bool { _, ok := b.(day.DipEnded); return ok })
	return list[n], lifts >= lateFrom+4*(n-len(list)+lateComers)
}

// early are those that are there from the beginning.
func (d dyerOf) early() []day.AddPiece {
	list := d.pieces()
	if d.s.Head.Setup.Name == workshopName {
		return list[:len(list)-lateComers]
	}
	return list
}
