package command

import (
	"cmp"
	"slices"
	"time"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/ui/shelf"
)

// The ways of knowing how a piece of the book looks, the surest first.
const (
	byMeasure  = "measured" // its last look, dry and rinsed: by a colour meter
	byPhoto    = "photo"    // by a photograph
	byRung     = "rung"     // like a rung of its vat's ladder
	byDepth    = "depth"    // by eye; or never looked at, and so the depth or colour that was named for it
	byForecast = "forecast" // what its dips give in such a vat
)

// bookDay is a day of the book as it was left.
type bookDay struct {
	vat, day string
	state    day.State
	blue     *outlook.Blue // reckoned when it is first asked for
}

// bookPiece is a piece of the book: the day it was last worked on, and its last look since its last dip.
type bookPiece struct {
	*bookDay
	piece day.Piece
	looks string
	lab   colour.Lab
	known string
}

func (b bookPiece) path() string { return b.vat + "/" + b.day + "/" + b.piece.Tag }

// fibre is Unknown where the book names one that is not known here.
func (b bookPiece) fibre() fibre.Fibre {
	f, _ := fibre.Parse(b.piece.Spec.Fibre)
	return f
}

func (b bookPiece) ground() shade.Ground { return shade.GroundOf(b.fibre()) }

// readBook reads all days of all vats, the oldest first, without a lock. What cannot be read is told and passed over. last is
// the newest day of each vat, where that one can be read.
func (p *program) readBook(h shelf.Home) (out, last []*bookDay, err error) {
	vats, err := h.Vats()
	if err != nil {
		return nil, nil, err
	}
	for _, vat := range vats {
		var newest *bookDay
		days, err := h.Days(vat)
		p.warn(err)
		for _, name := range days {
			b, err := readable(h, vat, name)
			if b.Lacks() == "" {
				newest = nil
			}
			if err != nil {
				p.warn(shelf.LeftOut(vat, name, err))
				continue
			}
			s, errs := day.Replay(b.Head, b.Events)
			if len(s.Plan) == 0 && len(errs) > 0 {
				p.warn(shelf.LeftOut(vat, name, errs[0]))
				continue
			}
			p.warn(NotWhole(vat, name, b.Frame))
			newest = &bookDay{vat: vat, day: name, state: s}
			out = append(out, newest)
		}
		if newest != nil {
			last = append(last, newest)
		}
	}
	return out, last, nil
}

// bluePieces are the pieces of those days that had a dip, the newest first, each with its look. One that was carried over
// stands once, on its last day.
func bluePieces(days []*bookDay) []bookPiece {
	var out []bookPiece
	newest := map[string]int{} // vat and tag → place in out
	for _, d := range days {
		for _, piece := range d.state.Pieces {
			if piece.Phase == day.Dropped || piece.Dips == 0 || piece.Brought() {
				continue
			}
			b := bookPiece{bookDay: d, piece: piece}
			key := d.vat + "/" + piece.Tag
			if i, there := newest[key]; there && carriedIn(d.state, piece.Tag) {
				if len(piece.Past) == 0 {
					b.looks = out[i].looks
				}
				out[i] = b
				continue
			}
			newest[key] = len(out)
			out = append(out, b)
		}
		for _, e := range d.state.Told() {
			tag, looks, whole := lookIn(e.Body)
			i, there := newest[d.vat+"/"+tag]
			if whole == nil || !there || !whole(out[i].piece) {
				continue
			}
			p, here := d.state.Piece(tag)
			if of := out[i].bookDay; of == d && !e.At.Before(lastDip(out[i].piece)) || of != d && (!here || p.Brought()) { // dry on the day after
				out[i].looks = looks
			}
		}
	}
	var seen []bookPiece
	for _, b := range slices.Backward(out) {
		if b.lookUp() {
			seen = append(seen, b)
		}
	}
	slices.SortStableFunc(seen, func(a, b bookPiece) int { return b.state.At.Compare(a.state.At) })
	return seen
}

// carriedIn tells whether a piece came from an earlier day.
func carriedIn(s day.State, tag string) bool {
	return slices.ContainsFunc(s.Head.Opening.Pieces, func(c day.CarriedPiece) bool { return c.Tag == tag })
}

// lastDip is when a piece went into the vat, or came out of it, for the last time that day.
func lastDip(p day.Piece) (at time.Time) {
	for _, d := range p.Past {
		at = latest(latest(at, d.Begun), d.Ended)
	}
	return at
}

func latest(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// lookIn is a look at dry rinsed cloth, and whether it is one of a piece as it was left.
func lookIn(b day.Body) (tag, looks string, whole func(day.Piece) bool) {
	switch b := b.(type) {
	case day.LookedAt:
		return b.Tag, b.Looks, func(day.Piece) bool { return !b.Wet && b.Rinsed }
	case day.SwatchJudged:
		return b.Swatch, b.Looks, func(p day.Piece) bool { return b.Dips == 0 || b.Dips == p.Dips }
	}
	return "", "", nil
}

// lookUp finds how a piece looks: by its look, else by what was named for it, else by its dips. A piece in work has no more
// than its look.
func (b *bookPiece) lookUp() bool {
	if l, err := day.ParseLook(b.looks); b.looks != "" && err == nil {
		if l.How == shade.ByRung {
			lab, ok := b.rung(l.Rung)
			if ok {
				b.lab, b.known = lab, byRung
				return true
			}
		} else if lab, ok := l.ColourOn(b.ground()); ok {
			b.lab, b.known = lab, map[shade.How]string{shade.ByMeter: byMeasure, shade.ByPhoto: byPhoto, shade.ByEye: byDepth}[l.How]
			return true
		}
	}
	if b.piece.Phase == day.Carried || !b.state.Closed && b.piece.Live() {
		return false
	}
	spec := b.piece.Spec
	if lab, ok := spec.Colour(); ok {
		b.lab, b.known = lab, byDepth
		return true
	}
	if lab, ok := b.rung(spec.Rung); ok {
		b.lab, b.known = lab, byDepth
		return true
	}
	if d, err := shade.ByName(spec.Depth); err == nil {
		b.lab, b.known = b.ground().Colour(shade.Band(d).Likely), byDepth
		return true
	}
	b.lab, b.known = b.forecast(), byForecast
	return true
}

// blues are those of the day as it was left; false where nothing was filled in that day.
func (d *bookDay) blues() (outlook.Blue, bool) {
	if !day.Filled(d.state) {
		return outlook.Blue{}, false
	}
	if d.blue == nil {
		b := outlook.Blues(d.state, outlook.Of(d.state, d.state.At), d.state.At)
		d.blue = &b
	}
	return *d.blue, true
}

// rung is the colour of a rung of the vat's ladder, on the cloth of the piece.
func (b *bookPiece) rung(n int) (colour.Lab, bool) {
	if n < 1 {
		return colour.Lab{}, false
	}
	blues, ok := b.blues()
	if !ok {
		return colour.Lab{}, false
	}
	for _, r := range blues.Rungs {
		if r.No == n && r.Known == outlook.Measured {
			return r.Lab, true
		}
	}
	like := blues.Plan(day.Piece{Spec: day.PieceSpec{Fibre: b.piece.Spec.Fibre, Rung: n}})
	if like.Wished == nil {
		return colour.Lab{}, false
	}
	return *like.Wished, true
}

// forecast is what the dips of a piece give in its vat.
func (b *bookPiece) forecast() colour.Lab {
	if blues, ok := b.blues(); ok {
		if now := blues.Plan(b.piece).Now; now != nil {
			return now.Lab
		}
	}
	head := b.state.Head
	v := shade.Vat{Fill: head.Setup.Fill, Indigo: liquor.PureIndigo(head.Recipe, head.Setup.Fill), Temp: head.Recipe.Liquor.Aim}
	piece := shade.Piece{Fibre: b.fibre(), Ground: b.ground(), Dry: b.piece.Spec.Dry}
	n := min(b.piece.Dips, mostSwatchDips)
	return shade.Possible(head.Recipe.Family).Seen(nil).Forecast(piece, v, b.piece.DipTime(), nil, n, nil)[n-1].Lab
}

// took are the times that the dips and the airings between them had, in the middle; those planned where none was.
func (b bookPiece) took() (dip, air quantity.Span) {
	var dips, airs []quantity.Span
	var out time.Time
	for _, d := range b.piece.Past {
		if d.Ended.IsZero() {
			continue
		}
		dips = append(dips, quantity.Span(d.Ended.Sub(d.Begun)))
		if !out.IsZero() {
			airs = append(airs, quantity.Span(d.Begun.Sub(out)))
		}
		out = d.Ended
	}
	return middle(dips, b.piece.DipTime()), middle(airs, b.piece.AirTime(false))
}

func middle(spans []quantity.Span, none quantity.Span) quantity.Span {
	if len(spans) == 0 {
		return none
	}
	slices.Sort(spans)
	return spans[len(spans)/2]
}

// nearest puts the pieces nearest to a colour first; of two that are as near, the newer.
func nearest(pieces []bookPiece, to colour.Lab) {
	slices.SortStableFunc(pieces, func(a, b bookPiece) int {
		return cmp.Compare(colour.Difference(a.lab, to), colour.Difference(b.lab, to))
	})
}
