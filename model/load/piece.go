package load

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
)

// The forms of goods and the ways they are worked, as DESIGN's text form has them.
const (
	Cloth   = "cloth"
	Skein   = "skein"
	Garment = "garment"
	Bound   = "bound"
	Pasted  = "pasted" // with a resist of paste: hung
	Tight   = "tight"  // cloth woven close, such as canvas: planned as cloth, once its longer first dip is in the mean of its dips

	Moved = "moved" // by hands all the while
	Hung  = "hung"  // hands only to lower and to lift
)

// Piece is goods dyed together. Times are spans from the start of the day, to the second.
type Piece struct {
	Tag, What, Who string
	Fibre          fibre.Fibre
	Dry            quantity.Mass // above 0
	Depth          string        // plain name, or empty where the dips are fixed
	Dips           int           // all its dips, those done when a day is replanned too; 0 to MostDips
	Dip, Air       quantity.Span // one dip, above 0; the least airing between dips, 0 up
	FinalAir       quantity.Span // after the last dip
	Finish         quantity.Span // rinses and souring after that
	Form, Work     string        // empty: cloth, moved
	From           quantity.Span // not before: its person comes then
	Till           quantity.Span // its person leaves then: lifted for the last time by then, as far as it can be; 0: stays
	Demo           bool          // shown to all: its first dip goes in before every other, and alone, nothing else is handled meanwhile
	Dark           int           // rank by depth, 0 palest; the highest goes first
	Takes          quantity.Mass // pure indigo that one dip takes out of the vat
	Least          quantity.Mass // the least indigo in the vat at which a dip still gives its step; 0: what the dip takes
}

// MostPieces, MostDips and MostVats bound what is planned: far more than a day holds.
const (
	MostPieces = 120
	MostVats   = 8
	MostDips   = 60
)

// PastedDip is the longest dip of goods that bear a paste. M
const PastedDip = quantity.Span(3 * time.Minute)

// What a piece takes if nothing else is said.
var (
	usualDip   = quantity.Minutes(5)
	usualRinse = quantity.Minutes(25) // two rinses of 5 min and a sour of 15 (C), the handling between in it. M
)

// Fill gives the piece what was left out: dips, the dip's length, the airings, the rank and the indigo of a dip by its
// depth and fibre (common practice), 25 min for rinses and souring, cloth that is moved. An unknown depth is an error,
// and so is a piece with neither depth nor dips.
//
// Airing is the longer of the dip and 10 min, 5 for silk and wool, 20 for bound goods; the final one 30 min, 20 for silk
// and wool, 2 h for bound goods. C
func (p Piece) Fill() (Piece, error) {
	if p.Form == Pasted && p.Work == "" {
		p.Work = Hung
	}
	p.Form, p.Work = cmp.Or(p.Form, Cloth), cmp.Or(p.Work, Moved)
	protein := p.Fibre.Class() == fibre.Protein
	depth := p.Depth
	if depth == "" && p.Dips > 0 {
		depth = shade.AfterDips(p.Dips)
	}
	if depth == "" {
		return p, fmt.Errorf("piece %s has neither a depth nor dips: give it one of them", p.Tag)
	}
	d, err := shade.ByName(depth)
	if err != nil {
		return p, fmt.Errorf("piece %s: %w", p.Tag, err)
	}
	dip := d.Cellulose
	if protein {
		dip = d.Protein
	}
	if p.Form == Pasted {
		dip = min(dip, PastedDip)
	}
	if p.Depth == "" {
		dip = usualDip
	}
	p.Dips, p.Dip = cmp.Or(p.Dips, d.Dips), cmp.Or(p.Dip, dip)
	least, final := quantity.Minutes(10), quantity.Minutes(30)
	switch {
	case p.Form == Bound:
		least, final = quantity.Minutes(20), quantity.Minutes(120)
	case protein:
		least, final = quantity.Minutes(5), quantity.Minutes(20)
	}
	rank := slices.IndexFunc(shade.Depths(), func(x shade.Depth) bool { return strings.EqualFold(x.Name, d.Name) })
	p.Air, p.FinalAir, p.Finish = cmp.Or(p.Air, max(least, p.Dip)), cmp.Or(p.FinalAir, final), cmp.Or(p.Finish, usualRinse)
	p.Dark, p.Takes = cmp.Or(p.Dark, max(0, rank)), cmp.Or(p.Takes, d.OnFibre.Of(p.Dry)/quantity.Mass(d.Dips))
	return p, nil
}

// Where is where a piece stands when a day is replanned.
type Where int

// A piece waits for its first dip, hangs in the vat, or airs.
const (
	Waiting Where = iota
	InVat
	Airing
)

// PieceState is where a piece is at the time of a replan, and its dips so far. A piece without one waits for its first dip.
type PieceState struct {
	Tag   string
	Dips  int // done; one that it is in is not counted
	Where Where
	Vat   int           // the one it is in, from 1; 0 is 1
	Since quantity.Span // in the vat: since when the dip counts, ahead while it is being lowered; airing: since when it is out
}
